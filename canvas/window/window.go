package window

import (
	"cmp"
	"fmt"
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"

	"kedge/canvas/board"
	"kedge/canvas/draw"
	"kedge/canvas/panel"
	"kedge/canvas/report"
	"kedge/canvas/store"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Options are what a window starts with. The zero value is usable.
type Options struct {
	File   string           // plan to open; empty: an empty sheet
	Size   fyne.Size        // of the window; zero: as it was left, or 1440×900
	Store  *store.Store     // nil: that of this machine and user
	Worker panel.Worker     // nil: three with goroutines of their own
	OnUI   func(do func())  // has something done on the interface goroutine, from any; nil: fyne.Do
	Record bool             // keep what panels show as texts, for tests
	Now    func() time.Time // nil: time.Now

	// Tick does something at each tick of playing until it is stopped; nil: on the
	// interface goroutine, by a clock.
	Tick func(do func()) (stop func())

	Clipboard PictureClipboard // nil: pictures cannot be copied, and the menu says so
	LoadsFile string           // after each save the loads shown are written there, for tests

	how *reckoning // nil: wholly
}

func (o *Options) now() time.Time {
	if o.Now != nil {
		return o.Now()
	}
	return time.Now()
}

// onUI has something done on the interface goroutine.
func (w *Window) onUI(do func()) {
	if w.opt.OnUI != nil {
		w.opt.OnUI(do)
		return
	}
	fyne.Do(do)
}

// Window is one window with one plan. It belongs to the interface goroutine.
type Window struct {
	opt    Options
	app    fyne.App
	win    fyne.Window
	host   *host
	board  *board.Board
	worker panel.Worker // draws
	slow   panel.Worker // writes files, makes sheets
	keeper panel.Worker // keeps what is not saved: it waits for nothing else
	store  *store.Store
	prefs  store.Preferences
	speech atomic.Pointer[words.Words] // language and units, for the worker too

	called struct { // what things are called, made once a plan: each panel asks for it
		of    rigTold
		names words.Names
	}

	said    string // status line instead of the prompt, until the next event of the board
	fault   string // what went wrong: in the status line until the next press or key
	saidAt  uint64 // generation of the board when it was said
	pointed struct{ part, finding string }
	title   string // of the window, as it was set last
	units   string // as they were last

	shades panel.Shades
	show   draw.Show
	field  bool
	dark   bool

	asking   *panel.Question
	choosing *panel.Chooser
	finding  *panel.Finder
	finder   *words.Finder // of every language, read when it is first asked; nil: not yet

	file     document
	commands commandTable
	menus    menus
	pictures pictures
	long     longWork

	view     *boardView
	panes    []*panel.Pane // all of them, first those that F6 walks
	walked   int
	root     *fyne.Container
	shell    shell
	frame    frame
	findings findingsPanel
	loads    loadsPanel
	details  detailsPanel
	outcome  outcomePanel
	why      sumPanel
	whys     whyRows
	ways     waysPanel
	travel   travelPanel
	compare  comparePanel
	begin    beginPanel
	lesson   lessonPanel
	reading  readingPanel
	printer  printer
}

// AppID names Kedge's preferences to the desktop.
const AppID = "kedge.board"

// Start is the size of a window that was never open before, logical pixels.
const (
	StartWidth  = 1440
	StartHeight = 900
)

// New makes a window of app with a board in it. The error says why the words
// or the plan could not be read; a plan that cannot be opened leaves an empty
// sheet and says so in the window.
func New(app fyne.App, opt Options) (*Window, error) {
	w := &Window{opt: opt, app: app, store: opt.Store, worker: opt.Worker}
	w.own()
	if w.store == nil {
		w.store = store.New(report.Program())
	}
	w.slow, w.keeper, w.outcome.worker, w.outcome.how = w.worker, w.worker, w.worker, cmp.Or(opt.how, &wholly)
	if w.worker == nil {
		w.worker, w.slow, w.keeper = panel.NewWorker(w.broke, w.onUI), panel.NewWorker(w.broke, w.onUI), panel.NewWorker(w.broke, w.onUI)
		w.outcome.worker = panel.NewWorker(w.broke, w.onUI)
	}
	var fault error
	prefs, err := w.store.Preferences()
	if err != nil {
		fault = err
	}
	w.prefs = prefs
	w.field = prefs.TextSize == store.TextField
	w.show.ZonesApart = prefs.ZonesApart
	text, err := words.New(startLanguage(prefs.Language), systemNamed(prefs.Units))
	if err != nil {
		return nil, fmt.Errorf("window: %w", err)
	}
	kit, err := w.store.GearList()
	if err != nil {
		fault = err
	}
	w.fault = text.Refusal(fault)
	if w.board, err = board.New(nil, board.Options{Words: text, Kit: kit}); err != nil {
		return nil, fmt.Errorf("window: %w", err)
	}
	w.speech.Store(text)
	w.host = &host{w: w}
	w.win = app.NewWindow("Kedge")
	w.win.SetPadded(false)
	w.pickTheme()
	w.build()
	size := opt.Size
	if size.IsZero() {
		size = fyne.NewSize(StartWidth, StartHeight)
		if prefs.Width >= 640 && prefs.Height >= 480 {
			size = fyne.NewSize(float32(prefs.Width), float32(prefs.Height))
		}
	}
	w.win.Resize(size)
	w.win.SetCloseIntercept(w.quit)
	w.win.SetOnDropped(w.dropped)
	w.win.SetMaster()
	w.win.SetIcon(windowIcon())
	if opt.File != "" {
		w.file.open(opt.File)
	}
	w.file.offerRecovery()
	w.focusBoard()
	w.refresh()
	return w, nil
}

// own makes the parts of the window know it.
func (w *Window) own() {
	w.file.w, w.commands.w, w.menus.w, w.pictures.w, w.long.w = w, w, w, w, w
	w.shell = shell{w: w, choice: "findings"}
	w.frame.w, w.findings.w, w.details.w, w.why.w, w.whys.w = w, w, w, w, w
	w.loads = loadsPanel{w: w, sortBy: words.ColumnUsed}
	w.ways.w, w.travel.w, w.compare.w, w.outcome.w, w.begin.w, w.lesson.w, w.reading.w, w.printer.w = w, w, w, w, w, w, w, w
}

// systemNamed is the choice of units by its name, metric if there is none.
func systemNamed(name string) quantity.System {
	for _, s := range quantity.Systems() {
		if s.String() == name {
			return s
		}
	}
	return quantity.Metric
}

// ShowAndRun shows the window and returns when it is closed.
func (w *Window) ShowAndRun() { w.guarded(w.win.ShowAndRun) }

// guarded runs something; if it panics, what was not saved is kept first.
func (w *Window) guarded(run func()) {
	whole := false
	defer func() {
		if !whole {
			w.file.keepNow()
		}
	}()
	run()
	whole = true
}

// broke keeps what is not saved and says that something could not be done: what
// was done for the window has panicked.
func (w *Window) broke(why any) {
	w.file.snapshot()
	w.refused(broken(why))
}

// Window is Fyne's window.
func (w *Window) Window() fyne.Window { return w.win }

// Board is the board in the window.
func (w *Window) Board() *board.Board { return w.board }

// words are the language and units of the panels. The worker reads them too:
// they follow the board's with each refresh.
func (w *Window) words() *words.Words { return w.speech.Load() }

func (w *Window) label(id string, values ...part.Value) string {
	return w.words().Label(id, values...)
}

func (w *Window) names() words.Names {
	c, of := &w.called, w.told()
	if c.names == nil || c.of != of {
		c.of, c.names = of, of.words.Names(of.plan, of.rig)
	}
	return c.names
}

// rigTold is a rig of a plan, and the words in which something is told of it.
type rigTold struct {
	plan  *plan.Plan
	rig   plan.ID
	words *words.Words
}

// told is the rig that is shown.
func (w *Window) told() rigTold { return rigTold{w.board.Shown(), w.board.Rig(), w.words()} }

// look is how the picture is drawn.
func (w *Window) look() draw.Look { return draw.Look{Dark: w.dark && !w.field, Field: w.field} }

// textScale is the size of the panels' text, 1 at desk unless a larger one was
// chosen.
func (w *Window) textScale() float64 {
	k := max(1, float64(w.prefs.Percent)/100)
	if w.field {
		return max(k, fieldScale)
	}
	return k
}

// fieldScale makes the panels' text what is read at arm's length outdoors: 20,
// 17 and 15 px instead of 13, 12 and 11.
const fieldScale = 1.42

// scale is how many pixels of the screen a logical one has.
func (w *Window) scale() float64 {
	if c := w.win.Canvas(); c != nil && c.Scale() > 0 {
		return float64(c.Scale())
	}
	return 1
}

// overlay is what the board adds to the picture, and what is pointed at in the
// panels.
func (w *Window) overlay() *draw.Overlay {
	o := w.board.Overlay()
	if o == nil {
		o = &draw.Overlay{}
	}
	if w.pointed.part != "" {
		o.HoverPart = w.pointed.part
	}
	if w.pointed.finding != "" {
		o.Flagged = w.pointed.finding
	}
	return w.outcome.mark(o)
}

// answer is the assessment shown.
func (w *Window) answer() *solver.Assessment { return w.board.Answer() }

// say puts a sentence into the status line until the board reports something.
func (w *Window) say(s string) {
	w.said, w.saidAt = s, w.board.Generation()
	w.frame.status.Update()
}

// complain puts what went wrong into the status line, where it stays until the
// person does the next thing.
func (w *Window) complain(s string) {
	w.fault = s
	w.frame.status.Update()
}

// refused complains of an error in the language.
func (w *Window) refused(err error) { w.complain(w.words().Refusal(err)) }

// acted reports whether the person did something: what was complained of was read.
func (w *Window) acted() { w.fault = "" }

// hint says something while it is pointed at.
func (w *Window) hint(s string) func(bool) {
	return func(in bool) {
		switch {
		case in:
			w.say(s)
		case w.said == s:
			w.said = ""
		}
	}
}

// refresh draws again what may have changed.
func (w *Window) refresh() {
	if w.view == nil || w.view.answerElsewhere() {
		return
	}
	if w.said != "" && w.saidAt != w.board.Generation() {
		w.said = ""
	}
	w.speech.Store(w.board.Words())
	w.printer.make()
	w.ways.watch()
	w.lesson.watch()
	w.shell.arrange()
	w.outcome.watch()
	w.view.update()
	for _, p := range w.panes {
		p.Update()
	}
	w.file.changed()
	if units := w.words().System().String(); units != w.units { // the board has a key for it
		if w.units != "" {
			w.prefs.Units = units
			w.keepPreferences()
		}
		w.units = units
	}
	if t := w.file.windowTitle(); t != w.title {
		w.title = t
		w.win.SetTitle(t)
	}
}

// focusBoard gives the keys to the board.
func (w *Window) focusBoard() {
	if c := w.win.Canvas(); c != nil && c.Focused() != fyne.Focusable(w.view) {
		c.Focus(w.view)
	}
}

// nextRegion gives the keys to the next region that is shown.
func (w *Window) nextRegion(by int) {
	regions := []fyne.Focusable{w.view}
	for _, p := range w.panes[:w.walked] {
		regions = append(regions, p)
	}
	now, n := 0, len(regions)
	for i, r := range regions {
		if r == w.win.Canvas().Focused() {
			now = i
		}
	}
	for i := 1; i <= n; i++ {
		r := regions[((now+by*i)%n+n)%n]
		if p, ok := r.(*panel.Pane); ok {
			if !p.Shown() || len(p.Hits) == 0 {
				continue
			}
			if p == w.frame.tabs { // not what stands at its end
				p.Focus = "rig " + string(w.board.Rig())
			}
			w.say(w.label("region-" + p.Name))
		} else if !w.view.Visible() {
			continue
		} else {
			w.say(w.label("region-board"))
		}
		w.win.Canvas().Focus(r)
		return
	}
}
