package window

import (
	"context"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"kedge/canvas/panel"
	"kedge/canvas/report"
	"kedge/canvas/store"
	"kedge/solver/doubt"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// sealedEnding is that of a sealed copy's file.
const sealedEnding = ".sealed"

// sealedPictures are the endings of the files that are offered to be sealed too; any other
// can be typed.
var sealedPictures = append([]string{".tif", ".tiff", ".heic", ".webp", ".pdf"}, pictureFiles...)

// sealing is a copy that is being put together.
type sealing struct {
	path     string
	pictures []store.Content
	before   *store.Sealed // the copy that it follows; nil: none
	why      string        // something was changed since then
}

// askSeal asks where a sealed copy goes. One that is there is never written over: a later
// version of it is offered.
func (op *outcomePanel) askSeal() {
	w := op.w
	name := strings.TrimSuffix(w.file.suggested(), extension) + sealedEnding
	w.chooseFile(w.label("seal-title"), w.label("do-seal-it"), name, []string{sealedEnding}, func(path string) {
		if filepath.Ext(path) == "" {
			path += sealedEnding
		}
		if op.free(path) {
			op.askContent(&sealing{path: path}, "")
			return
		}
		said, other := w.label("seal-is-there", part.Text("name", filepath.Base(path))), panel.Answer{Word: w.label("do-seal-other"), Do: op.askSeal}
		before, err := op.readSealed(path)
		if err != nil { // no copy, or one that was altered: nothing follows it
			w.ask(said+" "+w.words().Refusal(err), []panel.Answer{other, {Word: w.label("do-cancel")}})
			return
		}
		s := &sealing{path: op.nextTo(path), before: before, pictures: before.Pictures}
		later := panel.Answer{Word: w.label("do-seal-later", part.Text("name", filepath.Base(s.path))), Do: func() { op.askContent(s, "") }}
		w.ask(said, []panel.Answer{later, other, {Word: w.label("do-cancel")}})
	})
}

// free reports whether there is no file at a path.
func (op *outcomePanel) free(path string) bool {
	now, err := op.w.store.Current(path)
	return err == nil && now.IsZero()
}

// nextTo is the first free name for a later version of a copy: name-2, name-3 and on.
func (op *outcomePanel) nextTo(path string) string {
	stem, ending := strings.TrimSuffix(path, filepath.Ext(path)), filepath.Ext(path)
	for n := 2; ; n++ {
		if next := stem + "-" + itoa(n) + ending; op.free(next) || n > mostVersions {
			return next
		}
	}
}

// mostVersions is how many names are tried for a later version. (ours)
const mostVersions = 999

// readSealed is the sealed copy at a path, if it is unaltered.
func (op *outcomePanel) readSealed(path string) (*store.Sealed, error) {
	data, err := op.w.store.Read(path, store.MaxSealedBytes)
	if err != nil {
		return nil, err
	}
	return store.Unaltered(path, data)
}

// askContent asks what goes into a sealed copy: pictures, the copy it follows, why something
// was changed since then. fault says what is missing yet.
func (op *outcomePanel) askContent(s *sealing, fault string) {
	w := op.w
	lines := []string{w.label("seal-holds")}
	if len(s.pictures) == 0 {
		lines = append(lines, w.label("seal-no-pictures"))
	}
	for _, c := range slices.Concat(store.Shown(w.board.Plan(), w.board.Rig()), s.pictures) {
		lines = append(lines, w.label("seal-picture", part.Text("name", c.Name), part.Text("hash", c.Hash)))
	}
	if s.before != nil {
		lines = append(lines, w.label("seal-follows-one", part.Text("hash", s.before.Hash)))
	}
	if fault != "" {
		lines = append(lines, fault)
	}
	back := func() { op.askContent(s, "") }
	answers := []panel.Answer{
		{Word: w.label("do-seal-it"), Do: func() {
			if s.before != nil && s.why == "" {
				op.askContent(s, w.label("seal-why-first"))
				return
			}
			op.seal(s)
		}},
		{Word: w.label("do-seal-picture"), Do: func() {
			w.chooseFrom(w.label("seal-picture-title"), w.label("do-seal-picture-it"), sealedPictures, back, func(path string) error { return op.addPicture(s, path) })
		}},
		{Word: w.label("do-seal-follow"), Do: func() {
			w.chooseFrom(w.label("seal-follow-title"), w.label("do-seal-follow-it"), []string{sealedEnding}, back, func(path string) (err error) {
				before, err := op.readSealed(path)
				if err == nil {
					s.before = before
				}
				return err
			})
		}},
		{Word: w.label("do-cancel")},
	}
	w.page(w.label("seal-what", part.Text("name", filepath.Base(s.path))), lines, answers)
	if s.before != nil {
		w.asking.Type(w.label("seal-why"), s.why, func(typed string) { s.why = strings.TrimSpace(typed) })
	}
}

// addPicture adds the file at a path, as it is, to what is sealed; the same once.
func (op *outcomePanel) addPicture(s *sealing, path string) error {
	data, err := op.w.store.Read(path, store.MaxSealedBytes)
	if err != nil {
		return err
	}
	c := store.NewContent(filepath.Base(path), data)
	for _, o := range s.pictures {
		if o.Name == c.Name && o.Hash == c.Hash {
			return nil
		}
	}
	s.pictures = append(s.pictures, c)
	return nil
}

// chooseFrom asks for a file that take reads; back follows whatever was chosen. Of one that
// cannot be taken the status line says why.
func (w *Window) chooseFrom(title, verb string, extensions []string, back func(), take func(path string) error) {
	w.chooseFile(title, verb, "", extensions, func(path string) {
		if err := take(path); err != nil {
			w.refused(err)
		}
		back()
	})
	w.choosing.Left = back
}

// seal writes a sealed copy of the plan and of what may have happened with the rig shown.
func (op *outcomePanel) seal(s *sealing) {
	w := op.w
	p, rig, ws := w.board.Plan(), w.board.Rig(), w.words()
	var a *report.Report
	if o := op.got; o != nil && !o.more && o.outcomeKey == op.key(p) { // it is known already
		a = o.report
	}
	w.long.do("seal", w.label("seal-making"), func(ctx context.Context, _ func(int, int)) (func(), error) {
		if a == nil {
			var err error
			if a, err = report.New(ws, p, rig, doubt.Request{Context: ctx, Per: report.PerSet, Seed: report.Seed, Workers: runtime.NumCPU()}); err != nil {
				return nil, err
			}
		}
		data, err := sealed(a, p, s)
		if err == nil {
			err = w.store.WriteAll([]store.Output{{Path: s.path, Data: data}})
		}
		return func() { op.tellSealed(s.path, data) }, err
	}, w.refused)
}

// sealed is a sealed copy of a plan and what was found of it, with the figures of the
// command line.
func sealed(a *report.Report, p *plan.Plan, of *sealing) ([]byte, error) {
	figures, err := a.JSON()
	if err != nil {
		return nil, err
	}
	s, err := store.NewSealed(p, a.Rig, report.Program(), a.Seed(), figures)
	if err != nil {
		return nil, err
	}
	s.Add(of.pictures)
	return store.Seal(s, of.before, of.why)
}

// tellSealed says that a copy was sealed, and its hash, which is to be kept elsewhere.
func (op *outcomePanel) tellSealed(path string, data []byte) {
	w := op.w
	w.say(w.label("seal-made", part.Text("name", filepath.Base(path))))
	s, altered, err := store.Unseal(data)
	if err != nil || w.busy() {
		return
	}
	_, of := s.Said(w.words(), altered)
	w.page(w.label("seal-made", part.Text("name", filepath.Base(path))), append(of, w.label("seal-keep")), []panel.Answer{
		{Word: w.label("do-seal-hash"), Do: func() { w.app.Clipboard().SetContent(s.Hash) }},
		{Word: w.label("do-close")}})
}

// askCheck asks for a sealed copy, and says whether it was altered since.
func (op *outcomePanel) askCheck() {
	w := op.w
	w.chooseFile(w.label("seal-check-title"), w.label("do-check-it"), "", []string{sealedEnding}, func(path string) {
		data, err := w.store.Read(path, store.MaxSealedBytes)
		if err != nil {
			w.refused(err)
			return
		}
		s, altered, err := store.Unseal(data)
		if err != nil {
			w.refused(err)
			return
		}
		whether, of := s.Said(w.words(), altered)
		w.page(whether, append([]string{filepath.Base(path)}, of...), []panel.Answer{{Word: w.label("do-close")}})
	})
}
