package window

import (
	"context"
	"path/filepath"
	"runtime"
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

// askSeal asks where a sealed copy goes. One that is there is never written over.
func (op *outcomePanel) askSeal() {
	w := op.w
	name := strings.TrimSuffix(w.file.suggested(), extension) + sealedEnding
	w.chooseFile(w.label("seal-title"), w.label("do-seal-it"), name, []string{sealedEnding}, func(path string) {
		if filepath.Ext(path) == "" {
			path += sealedEnding
		}
		if now, err := w.store.Current(path); err != nil || !now.IsZero() {
			w.complain(w.label("seal-is-there", part.Text("name", filepath.Base(path))))
			return
		}
		op.seal(path)
	})
}

// seal writes a sealed copy of the plan and of what may have happened with the rig shown.
func (op *outcomePanel) seal(path string) {
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
		data, err := sealed(a, p)
		if err == nil {
			err = w.store.WriteAll([]store.Output{{Path: path, Data: data}})
		}
		return func() { w.say(w.label("seal-made", part.Text("name", filepath.Base(path)))) }, err
	}, w.refused)
}

// sealed is a sealed copy of a plan and what was found of it, with the figures of the
// command line.
func sealed(a *report.Report, p *plan.Plan) ([]byte, error) {
	figures, err := a.JSON()
	if err != nil {
		return nil, err
	}
	s, err := store.NewSealed(p, a.Rig, report.Program(), a.Seed(), figures)
	if err != nil {
		return nil, err
	}
	return store.Seal(s, nil, "")
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
