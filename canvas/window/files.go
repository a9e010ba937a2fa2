package window

import (
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
	"kedge/solver/plan"
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
	restTime  = 5 * time.Second
	restEdits = 20
	// mostTime is the longest that unsaved work waits for a snapshot while
	// somebody works on without rest.
	mostTime = 30 * time.Second
)

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
		return d.w.label("changed", text("name", d.name()))
	case d.path != "":
		return d.w.label("saved", text("name", d.name()))
	}
	return d.name()
}

func (d *document) windowTitle() string {
	return d.w.label("window-title", text("name", d.name()), text("state", d.state()))
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
	d.timer = time.AfterFunc(restTime, func() { fyne.Do(d.snapshot) })
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
	w.slow.Do("snapshot", func() func() {
		err := session.Write(p)
		if err == nil {
			return nil
		}
		return func() { w.complain(store.Sentence(err)) }
	})
}

// begin puts a plan on the board as a document of its own.
func (d *document) begin(p *plan.Plan, path string, stamp store.Stamp) bool {
	d.w.printed = nil // questions and blanks are of the plan before
	w := d.w
	if err := w.board.Replace(p); err != nil {
		w.complain(store.Sentence(err))
		return false
	}
	d.end()
	d.path, d.example, d.stamp, d.found, d.seen, d.kept, d.edits = path, "", stamp, false, w.board.Plan(), nil, 0
	d.session = w.store.NewSession(path, stamp)
	w.pinned = ""
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

// newPlan starts with an empty sheet.
func (w *Window) newPlan() { w.file.begin(board.Empty(), "", store.Stamp{}) }

// openFile opens a plan; if it cannot be opened the sheet stays as it is.
func (w *Window) openFile(path string) {
	if w.file.session == nil {
		w.file.session = w.store.NewSession("", store.Stamp{})
	}
	if full, err := filepath.Abs(path); err == nil {
		path = full
	}
	p, stamp, err := w.store.Load(path)
	if err != nil {
		w.complain(store.Sentence(err))
		return
	}
	if !w.file.begin(p, path, stamp) {
		return
	}
	lock, err := w.store.Lock(path)
	w.file.lock = lock
	if err != nil {
		w.complain(store.Sentence(err))
	}
	if err := w.store.AddRecent(path, p.Title); err != nil {
		w.complain(store.Sentence(err))
	}
	if p.Version > plan.CurrentVersion {
		w.complain(w.label("newer-version"))
	}
	w.refresh()
}

// exampleNames are the plans built in, sorted.
func exampleNames() []string {
	list, err := fs.Glob(assets.Plans(), "*"+extension)
	if err != nil {
		return nil
	}
	for i := range list {
		list[i] = strings.TrimSuffix(list[i], extension)
	}
	slices.Sort(list)
	return list
}

// openExample opens a copy of a built-in plan that has no file yet.
func (w *Window) openExample(name string) {
	data, err := fs.ReadFile(assets.Plans(), name+extension)
	if err != nil {
		w.complain(err.Error())
		return
	}
	p, err := plan.ParsePlan(data)
	if err != nil {
		w.complain(err.Error())
		return
	}
	if w.file.begin(p, "", store.Stamp{}) {
		w.file.example = name
		w.refresh()
	}
}

// save writes the plan; then, which may be nil, follows if it was written.
func (w *Window) save(then func()) {
	w.closeEntry()
	if w.file.path == "" {
		w.saveAs(then)
		return
	}
	w.write(w.file.path, w.file.stamp, then)
}

// write saves to a path. A file that others changed is asked about.
func (w *Window) write(path string, stamp store.Stamp, then func()) {
	p := w.board.Plan()
	next, err := w.store.Save(path, p, stamp)
	var changed *store.Changed
	switch {
	case errors.As(err, &changed):
		w.ask(store.Sentence(err), []panel.Answer{
			{Word: w.label("do-save-as"), Do: func() { w.saveAs(then) }},
			{Word: w.label("do-overwrite"), Do: func() { w.write(path, changed.Found, then) }},
			{Word: w.label("do-cancel")},
		})
		return
	case err != nil && !errors.Is(err, store.ErrNotLasting):
		w.complain(store.Sentence(err))
		w.status.Update()
		return
	}
	if path != w.file.path {
		if w.file.lock != nil {
			_ = w.file.lock.Release()
		}
		w.file.lock, _ = w.store.Lock(path) // it only informs
	}
	w.file.path, w.file.example, w.file.stamp = path, "", next
	w.board.MarkSaved()
	w.file.found = false
	w.file.kept, w.file.edits = p, 0
	said := w.label("saved", text("name", w.file.name()))
	if err != nil {
		said = store.Sentence(err)
	}
	if w.file.session != nil {
		if err := w.file.session.Saved(path, next); err != nil {
			said = store.Sentence(err)
		}
	}
	if err := w.store.AddRecent(path, p.Title); err != nil {
		said = store.Sentence(err)
	}
	w.dumpLoads()
	w.refresh()
	w.say(said)
	if then != nil {
		then()
	}
}

// folder is where a dialog starts: that of the plan, of the last plan, or the
// user's documents.
func (w *Window) folder() string {
	if w.file.path != "" {
		return filepath.Dir(w.file.path)
	}
	if list, _ := w.store.Recent(); len(list) > 0 {
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
func (w *Window) saveAs(then func()) {
	w.closeEntry()
	w.chooseFile(w.label("save-title"), w.label("do-save"), w.file.suggested(), nil, func(path string) {
		if filepath.Ext(path) == "" {
			path += extension
		}
		now, err := w.store.Current(path)
		if err == nil && !now.IsZero() && (path != w.file.path || now.Hash != w.file.stamp.Hash) {
			w.ask(w.label("is-there", text("name", filepath.Base(path))), []panel.Answer{
				{Word: w.label("do-overwrite"), Do: func() { w.write(path, now, then) }},
				{Word: w.label("do-cancel")},
			})
			return
		}
		w.write(path, now, then)
	})
}

func (d *document) suggested() string {
	if d.path != "" {
		return filepath.Base(d.path)
	}
	return ""
}

// askOpen asks for a plan and opens it.
func (w *Window) askOpen() {
	w.chooseFile(w.label("open-title"), w.label("do-open-it"), "", nil, func(path string) { w.openFile(path) })
}

// guard does something that would lose what is not saved, after asking.
func (w *Window) guard(do func()) {
	w.closeEntry()
	if !w.file.dirty() {
		do()
		w.refresh()
		return
	}
	w.ask(w.label("unsaved-question", text("name", w.file.name())), []panel.Answer{
		{Word: w.label("do-save"), Do: func() { w.save(func() { do(); w.refresh() }) }},
		{Word: w.label("do-discard"), Do: func() { do(); w.refresh() }},
		{Word: w.label("do-cancel")},
	})
}

// quit closes the window after asking about what is not saved.
func (w *Window) quit() {
	w.guard(func() {
		size := w.win.Canvas().Size()
		w.prefs.Width, w.prefs.Height = int(size.Width), int(size.Height)
		_ = w.store.SavePreferences(w.prefs) // the window is closing: there is nobody left to tell
		w.file.end()
		w.worker.Close()
		w.slow.Close()
		w.win.SetCloseIntercept(nil)
		w.win.Close()
	})
}

// dropped opens a plan that was dropped on the window.
func (w *Window) dropped(_ fyne.Position, what []fyne.URI) {
	for _, u := range what {
		if strings.EqualFold(filepath.Ext(u.Path()), extension) {
			w.guard(func() { w.openFile(u.Path()) })
			return
		}
		if w.takeDropped(u.Path()) {
			return
		}
	}
	w.say(w.label("drop-what"))
}

// offerRecovery offers the newest plan that was open when its window died.
func (w *Window) offerRecovery() {
	if w.file.session == nil {
		w.file.session = w.store.NewSession("", store.Stamp{})
	}
	list, err := w.store.Recoverable()
	if err != nil {
		w.complain(store.Sentence(err))
	}
	if w.file.path != "" { // a plan was asked for: only what was left of it
		list = slices.DeleteFunc(list, func(s store.Snapshot) bool { return s.Path != w.file.path })
	}
	if len(list) == 0 {
		return
	}
	snap := list[0]
	if snap.Fault != "" {
		w.complain(snap.Fault)
		return
	}
	name := w.label("new-plan")
	if snap.Path != "" {
		name = strings.TrimSuffix(filepath.Base(snap.Path), extension)
	}
	w.ask(w.label("recover-question", text("name", name), text("time", snap.Time.Local().Format("2006-01-02 15:04"))), []panel.Answer{
		{Word: w.label("do-recover"), Do: func() { w.recover(snap) }},
		{Word: w.label("do-not-recover"), Do: func() {
			if err := w.store.Discard(snap); err != nil {
				w.complain(store.Sentence(err))
			}
		}},
		{Word: w.label("do-later")},
	})
}

// recover opens a snapshot; it counts as changed, since its file lacks it.
func (w *Window) recover(snap store.Snapshot) {
	r, err := w.store.Recover(snap)
	if err != nil {
		w.complain(store.Sentence(err))
		return
	}
	if !w.file.begin(r.Plan, r.Path, r.Stamp) {
		return
	}
	w.file.found = true
	if err := w.file.session.Write(r.Plan); err != nil {
		w.complain(store.Sentence(err))
		return
	}
	if err := w.store.Discard(snap); err != nil {
		w.complain(store.Sentence(err))
	} else if r.Note != "" {
		w.say(r.Note)
	}
	w.refresh()
}
