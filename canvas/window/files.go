package window

import (
	"cmp"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"kedge/assets"
	"kedge/canvas/board"
	"kedge/canvas/panel"
	"kedge/canvas/store"
	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// document is the plan's file.
type document struct {
	w       *Window
	path    string // empty: it has none yet
	example string // it was opened as an example of this name
	stamp   store.Stamp
	session *store.Session
	lock    *store.Lock

	found bool       // it is a snapshot of a window that died: not in its file
	kept  *plan.Plan // as the last snapshot has it
	edits int        // plans since then
	since time.Time  // of the first of them
	seen  *plan.Plan
	timer *time.Timer
}

// A snapshot of unsaved work is taken after this rest, or this many edits.
const (
	restTime  = 2 * time.Second
	restEdits = 20
	// mostTime is the longest that unsaved work waits for a snapshot while
	// somebody works on without rest; with the writing, less than five seconds
	// are lost.
	mostTime = 4 * time.Second
)

// mostName is how long a suggested name is, characters. (ours)
const mostName = 60

// extension of plans.
const extension = ".kedge"

// name is what the plan is called.
func (d *document) name() string {
	switch {
	case d.path != "":
		return strings.TrimSuffix(filepath.Base(d.path), extension)
	case d.example != "":
		return d.example
	}
	return d.w.label("new-plan")
}

// dirty reports whether the plan holds what its file does not.
func (d *document) dirty() bool { return d.found || d.w.board.Dirty() }

// state is the plan's name and whether it is saved.
func (d *document) state() string {
	switch {
	case d.dirty():
		return d.w.label("changed", part.Text("name", d.name()))
	case d.path != "":
		return d.w.label("saved", part.Text("name", d.name()))
	}
	return d.name()
}

func (d *document) windowTitle() string {
	return d.w.label("window-title", part.Text("name", d.name()), part.Text("state", d.state()))
}

// changed counts edits and starts the rest after which a snapshot is taken.
func (d *document) changed() {
	p := d.w.board.Plan()
	if d.seen == p {
		return
	}
	d.seen = p
	if !d.w.board.Dirty() {
		return
	}
	now := d.w.opt.now()
	if d.edits == 0 {
		d.since = now
	}
	if d.edits++; d.edits >= restEdits || now.Sub(d.since) >= mostTime {
		d.snapshot()
		return
	}
	if d.timer != nil {
		d.timer.Stop()
	}
	if d.w.opt.Worker == nil { // a worker lent to the window goes by its own time
		d.timer = time.AfterFunc(d.waits(now), func() { d.w.onUI(d.snapshot) })
	}
}

// waits is how long a snapshot still waits for more edits.
func (d *document) waits(now time.Time) time.Duration {
	return min(restTime, max(mostTime-now.Sub(d.since), 0))
}

// snapshot keeps what is not saved, so that it survives a crash.
func (d *document) snapshot() {
	p := d.w.board.Plan()
	if p == d.kept || !d.w.board.Dirty() {
		return
	}
	d.kept, d.edits = p, 0
	session := d.session
	w := d.w
	w.keeper.Do("snapshot", func() func() {
		err := session.Write(p)
		if err == nil {
			return nil
		}
		return func() {
			if d.kept == p {
				d.kept = nil // tried again with the next edit
			}
			w.refused(err)
		}
	})
}

// keepNow keeps what is not saved before it returns, as the last thing that is done.
func (d *document) keepNow() {
	if d.session != nil && d.w.board.Dirty() {
		_ = d.session.Write(d.w.board.Plan()) // the snapshot before is left
	}
}

// begin puts a plan on the board as a document of its own.
func (d *document) begin(p *plan.Plan, path string, stamp store.Stamp) bool {
	d.w.printer.left, d.w.lesson.on = nil, false // questions and blanks are of the plan before
	w := d.w
	if err := w.board.Replace(p); err != nil {
		w.refused(err)
		return false
	}
	d.end()
	d.path, d.example, d.stamp, d.found, d.seen, d.kept, d.edits = path, "", stamp, false, w.board.Plan(), nil, 0
	d.session = w.store.NewSession(path, stamp)
	w.whys.forget()
	w.said = ""
	w.board.Handle(board.Command{}) // forgets what it reported of the plan before
	size := w.view.Size()
	w.board.Handle(board.Resize{W: float64(size.Width), H: float64(size.Height)})
	return true
}

// end closes the document that is on the board.
func (d *document) end() {
	if d.timer != nil {
		d.timer.Stop()
	}
	if d.session != nil {
		_ = d.session.Close() // a snapshot left behind is offered at the next start
		d.session = nil
	}
	if d.lock != nil {
		_ = d.lock.Release() // a lock of a process that is gone is taken over
		d.lock = nil
	}
}

// mark marks the plan's file as open here, and tells who else has it open.
func (d *document) mark() {
	lock, err := d.w.store.Lock(d.path)
	d.lock = lock
	if err != nil {
		d.w.refused(err)
	}
}

// empty starts with an empty sheet.
func (d *document) empty() { d.w.file.begin(board.Empty(), "", store.Stamp{}) }

// open opens a plan; if it cannot be opened the sheet stays as it is.
func (d *document) open(path string) {
	if d.w.file.session == nil {
		d.w.file.session = d.w.store.NewSession("", store.Stamp{})
	}
	if full, err := filepath.Abs(path); err == nil {
		path = full
	}
	p, stamp, err := d.w.store.Load(path)
	if err != nil {
		d.w.refused(err)
		return
	}
	if !d.w.file.begin(p, path, stamp) {
		return
	}
	d.mark()
	if err := d.w.store.AddRecent(path, p.Title); err != nil {
		d.w.refused(err)
	}
	if p.Version > plan.CurrentVersion {
		d.w.complain(d.w.label("newer-version"))
	}
	d.w.refresh()
}

// exampleNames are the plans built in, each folder sorted: rigs to begin with, and
// incidents.
func exampleNames() []string {
	var names []string
	for _, folder := range []string{"", incidentFolder} {
		list, err := fs.Glob(assets.Plans(), folder+"*"+extension)
		if err != nil {
			return nil
		}
		slices.Sort(list)
		for _, n := range list {
			names = append(names, strings.TrimSuffix(n, extension))
		}
	}
	return names
}

// incidentFolder is where those of the built-in plans lie that are incidents.
const incidentFolder = "incidents/"

// exampleTitle is what an example is called.
func (w *Window) exampleTitle(name string) string {
	return w.label("example-" + strings.TrimPrefix(name, incidentFolder))
}

// spoken is an example as somebody who speaks the window's language would have named
// it: its title, its rigs after their shapes, and what its story says.
func (w *Window) spoken(p *plan.Plan, example string) *plan.Plan {
	q := *p
	q.Title, q.Rigs = w.exampleTitle(example), slices.Clone(p.Rigs)
	for i := range q.Rigs {
		q.Rigs[i].Name = ""
	}
	for i := range q.Rigs {
		q.Rigs[i].Name = w.words().RigName(&q, i)
		q.Rigs[i].Incident = w.retold(q.Rigs[i].Incident)
		q.Rigs[i].Slings = slices.Clone(q.Rigs[i].Slings)
		for k := range q.Rigs[i].Slings {
			q.Rigs[i].Slings[k].Name = words.Story(w.words(), q.Rigs[i].Slings[k].Name)
		}
	}
	return &q
}

// retold is an incident of an example with its story in the window's language.
func (w *Window) retold(n *plan.Incident) *plan.Incident {
	if n == nil {
		return nil
	}
	in, pins := *n, slices.Clone(n.Pins)
	for i := range pins {
		pins[i].Source, pins[i].Note = words.Story(w.words(), pins[i].Source), words.Story(w.words(), pins[i].Note)
	}
	in.Pins = pins
	for _, text := range []*string{&in.Account, &in.Custody, &in.Opinion, &in.Truth} {
		*text = words.Story(w.words(), *text)
	}
	return &in
}

// openExample opens a copy of a built-in plan that has no file yet.
func (d *document) openExample(name string) {
	data, err := fs.ReadFile(assets.Plans(), name+extension)
	if err != nil {
		d.w.refused(err)
		return
	}
	p, err := plan.ParsePlan(data)
	if err != nil {
		d.w.refused(err)
		return
	}
	p = d.w.spoken(p, name)
	if d.w.file.begin(p, "", store.Stamp{}) {
		d.w.file.example = name
		d.w.refresh()
	}
}

// save writes the plan; then, which may be nil, follows if it was written.
func (d *document) save(then func()) {
	d.w.details.closeEntry()
	if d.w.file.path == "" {
		d.saveAs(then)
		return
	}
	d.write(d.w.file.path, d.w.file.stamp, then)
}

// write saves to a path. A file that others changed is asked about.
func (d *document) write(path string, stamp store.Stamp, then func()) {
	p := d.w.board.Plan()
	next, err := d.w.store.Save(path, p, stamp)
	var changed *store.Changed
	switch {
	case errors.As(err, &changed):
		d.w.ask(d.w.words().Refusal(err), []panel.Answer{
			{Word: d.w.label("do-save-as"), Do: func() { d.saveAs(then) }},
			{Word: d.w.label("do-overwrite"), Do: func() { d.write(path, changed.Found, then) }},
			{Word: d.w.label("do-cancel")},
		})
		return
	case err != nil && !errors.Is(err, store.ErrNotLasting):
		d.w.refused(err)
		d.w.frame.status.Update()
		return
	}
	if path != d.w.file.path {
		if d.w.file.lock != nil {
			_ = d.w.file.lock.Release()
		}
		d.w.file.lock, _ = d.w.store.Lock(path) // it only informs
	}
	d.w.file.path, d.w.file.example, d.w.file.stamp = path, "", next
	d.w.board.MarkSaved()
	d.w.file.found = false
	d.w.file.kept, d.w.file.edits = p, 0
	said := d.w.label("saved", part.Text("name", d.w.file.name()))
	if err != nil {
		said = d.w.words().Refusal(err)
	}
	if d.w.file.session != nil {
		if err := d.w.file.session.Saved(path, next); err != nil {
			said = d.w.words().Refusal(err)
		}
	}
	if err := d.w.store.AddRecent(path, p.Title); err != nil {
		said = d.w.words().Refusal(err)
	}
	d.w.dumpLoads()
	d.w.refresh()
	d.w.say(said)
	if then != nil {
		then()
	}
}

// folder is where a dialog starts: that of the plan, of the last plan, or the
// user's documents.
func (d *document) folder() string {
	if d.w.file.path != "" {
		return filepath.Dir(d.w.file.path)
	}
	if list, _ := d.w.store.Recent(); len(list) > 0 {
		return filepath.Dir(list[0].Path)
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "."
	}
	if docs := filepath.Join(home, "Documents"); panel.IsFolder(docs) {
		return docs
	}
	return home
}

// saveAs asks for a name and writes the plan there.
func (d *document) saveAs(then func()) {
	d.w.details.closeEntry()
	d.w.chooseFile(d.w.label("save-title"), d.w.label("do-save"), d.w.file.suggested(), nil, func(path string) {
		if filepath.Ext(path) == "" {
			path += extension
		}
		now, err := d.w.store.Current(path)
		if err == nil && !now.IsZero() && (path != d.w.file.path || now.Hash != d.w.file.stamp.Hash) {
			d.w.ask(d.w.label("is-there", part.Text("name", filepath.Base(path))), []panel.Answer{
				{Word: d.w.label("do-save-as"), Do: func() { d.saveAs(then) }},
				{Word: d.w.label("do-overwrite"), Do: func() { d.write(path, now, then) }},
				{Word: d.w.label("do-cancel")},
			})
			return
		}
		d.write(path, now, then)
	})
}

// suggested is a name to save under: the file's, else after the plan's title.
func (d *document) suggested() string {
	if d.path != "" {
		return filepath.Base(d.path)
	}
	name := cmp.Or(quantity.OneLine(d.w.board.Plan().Title), d.name())
	if r := []rune(name); len(r) > mostName {
		name = string(r[:mostName])
	}
	return strings.Trim(strings.Map(func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>|`, r) { // what some system takes in no name
			return '-'
		}
		return r
	}, name), " .")
}

// askOpen asks for a plan and opens it.
func (d *document) askOpen() {
	d.w.chooseFile(d.w.label("open-title"), d.w.label("do-open-it"), "", nil, func(path string) { d.open(path) })
}

// guard does something that would lose what is not saved, after asking.
func (d *document) guard(do func()) {
	d.w.details.closeEntry()
	if !d.w.file.dirty() {
		do()
		d.w.refresh()
		return
	}
	d.w.ask(d.w.label("unsaved-question", part.Text("name", d.w.file.name())), []panel.Answer{
		{Word: d.w.label("do-save"), Do: func() { d.save(func() { do(); d.w.refresh() }) }},
		{Word: d.w.label("do-discard"), Do: func() { do(); d.w.refresh() }},
		{Word: d.w.label("do-cancel")},
	})
}

// quit closes the window after asking about what is not saved.
func (w *Window) quit() {
	w.file.guard(func() {
		size := w.win.Canvas().Size()
		w.prefs.Width, w.prefs.Height = int(size.Width), int(size.Height)
		_ = w.store.SavePreferences(w.prefs) // the window is closing: there is nobody left to tell
		w.travel.stop()
		w.file.end()
		w.worker.Close()
		w.slow.Close()
		w.keeper.Close()
		w.win.SetCloseIntercept(nil)
		w.win.Close()
	})
}

// dropped opens a plan that was dropped on the window.
func (w *Window) dropped(_ fyne.Position, what []fyne.URI) {
	for _, u := range what {
		if strings.EqualFold(filepath.Ext(u.Path()), extension) {
			w.file.guard(func() { w.file.open(u.Path()) })
			return
		}
		if w.takeDropped(u.Path()) {
			return
		}
	}
	w.say(w.label("drop-what"))
}

// offerRecovery offers the newest plan that was open when its window died.
func (d *document) offerRecovery() {
	if d.w.file.session == nil {
		d.w.file.session = d.w.store.NewSession("", store.Stamp{})
	}
	list, err := d.w.store.Recoverable()
	if err != nil {
		d.w.refused(err)
	}
	if d.w.file.path != "" { // a plan was asked for: only what was left of it
		list = slices.DeleteFunc(list, func(s store.Snapshot) bool { return s.Path != d.w.file.path })
	}
	d.offer(list)
}

// offer offers the first snapshot that can be read, and says what is wrong with
// those that cannot.
func (d *document) offer(list []store.Snapshot) {
	list = slices.DeleteFunc(slices.Clone(list), func(s store.Snapshot) bool {
		if s.Fault != nil {
			d.w.refused(s.Fault)
		}
		return s.Fault != nil
	})
	if len(list) == 0 {
		return
	}
	snap, rest := list[0], list[1:]
	name := d.w.label("new-plan")
	if snap.Path != "" {
		name = strings.TrimSuffix(filepath.Base(snap.Path), extension)
	}
	d.w.ask(d.w.label("recover-question", part.Text("name", name), part.Text("time", snap.Time.Local().Format("2006-01-02 15:04"))), []panel.Answer{
		{Word: d.w.label("do-recover"), Do: func() { d.recover(snap, rest) }},
		{Word: d.w.label("do-not-recover"), Do: func() {
			if err := d.w.store.Discard(snap); err != nil {
				d.w.refused(err)
			}
		}},
		{Word: d.w.label("do-later")},
	})
}

// recover opens a snapshot; it counts as changed, since its file lacks it. If it
// cannot be read, the rest are offered.
func (d *document) recover(snap store.Snapshot, rest []store.Snapshot) {
	r, err := d.w.store.Recover(snap)
	if err != nil {
		d.w.refused(err)
		d.offer(rest)
		return
	}
	if !d.w.file.begin(r.Plan, r.Path, r.Stamp) {
		return
	}
	d.w.file.found = true
	if r.Path != "" {
		d.mark()
	}
	if err := d.w.file.session.Write(r.Plan); err != nil {
		d.w.refused(err)
		return
	}
	if err := d.w.store.Discard(snap); err != nil {
		d.w.refused(err)
	} else if r.Note != nil {
		d.w.say(d.w.words().Refusal(r.Note))
	}
	d.w.refresh()
}
