package window

import (
	"context"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"

	"kedge/canvas/panel"
	"kedge/canvas/report"
	"kedge/canvas/store"
	"kedge/solver/doubt"
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// sealedEnding is that of a sealed copy's file.
const sealedEnding = ".sealed"

// unsettled is how `kedge reconstruct` ends where there is no answer or a caution: a sealed
// copy has its figures.
const unsettled = 4

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
	w.long.do("seal", w.label("seal-making"), func(ctx context.Context, _ func(int, int)) (func(), error) {
		a, err := report.New(ws, p, rig, doubt.Request{Context: ctx, Per: report.PerSet, Seed: report.Seed, Workers: runtime.NumCPU()})
		if err != nil {
			return nil, err
		}
		data, err := sealed(a, p)
		if err == nil {
			err = w.store.WriteAll([]store.Output{{Path: path, Data: data}})
		}
		return func() { w.say(w.label("seal-made", part.Text("name", filepath.Base(path)))) }, err
	}, w.refused)
}

// sealed is a sealed copy of a plan and what was found of it.
func sealed(a *report.Report, p *plan.Plan) ([]byte, error) {
	exit := unsettled
	if a.Settled() {
		exit = 0
	}
	figures, err := a.JSON(report.Program(), exit)
	if err != nil {
		return nil, err
	}
	data, err := plan.FormatPlan(p)
	if err != nil {
		return nil, err
	}
	s := store.Sealed{App: report.Program(), Handbook: facts.Revision(), Rig: string(a.Rig), Plan: store.NewContent("plan", data), Figures: store.NewContent("figures", figures)}
	if a.Found != nil {
		s.Seed = a.Found.Seed
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
		said := w.label("seal-unaltered")
		if len(altered) > 0 {
			said = w.label("seal-altered", part.Text("list", strings.Join(altered, ", ")))
		}
		lines := []string{filepath.Base(path), w.label("seal-of", part.Text("hash", s.Hash), part.Text("plan", s.Plan.Hash), part.Text("seed", strconv.FormatUint(s.Seed, 10)), part.Text("app", s.App), part.Text("revision", s.Handbook))}
		for _, l := range s.Log {
			lines = append(lines, w.label("seal-follows", part.Text("hash", l.Hash), part.Text("why", l.Why)))
		}
		w.page(said, lines, []panel.Answer{{Word: w.label("do-close")}})
	})
}
