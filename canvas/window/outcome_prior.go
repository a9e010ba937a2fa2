package window

import (
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"kedge/canvas/panel"
	"kedge/canvas/report"
	"kedge/canvas/words"
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// priorRows are what was held likely before the pull: of each part in the order in which
// the reconstruction has it, then that it was none of these, then a jerk.
func priorRows(a *report.Report, w *words.Words) report.Section {
	s := a.Priors()
	n := &plan.Incident{}
	if r, ok := a.Plan.Rig(a.Rig); ok && r.Incident != nil {
		n = r.Incident
	}
	add := func(id string, chance float64, stated bool, row facts.ID) {
		founded := w.Label("founded-typed")
		if !stated {
			founded = w.Confidence(facts.Must(row).Confidence)
		}
		s.Rows = append(s.Rows, []string{w.Label(id), w.Frequency(chance), founded})
	}
	_, none := n.None.Get()
	_, jerk := n.Jerk.Get()
	add("outcome-none", a.Found.NonePrior, none, facts.DoubtPriorNone)
	add("outcome-jerk", a.Found.JerkPrior, jerk, facts.DoubtPriorJerk)
	return s
}

// priorEntry is the entry laid over what was held before.
type priorEntry struct {
	*panel.Entry
	row   int
	fault string
}

// edit lays an entry over the chance of a row of what was held before.
func (op *outcomePanel) edit(row int) {
	op.closeEntry()
	e := &priorEntry{Entry: op.w.newEntry(op.w.label("outcome-prior-hint"), op.typed), row: row}
	e.OnSubmitted = func(string) { op.submit() }
	op.typing = e
	op.w.lay(e.Entry, over{op.pane, priorID(row)}, op.dropEntry)
}

func priorID(row int) string { return "prior " + itoa(row) }

// typed does what a key does beside typing.
func (op *outcomePanel) typed(k fyne.KeyName) bool {
	switch k {
	case fyne.KeyEscape:
		op.dropEntry()
		op.w.win.Canvas().Focus(op.pane)
		op.w.refresh()
	case fyne.KeyTab:
		op.submit()
	default:
		return false
	}
	return true
}

// submit takes what was typed; what is refused stays, with the reason below it.
func (op *outcomePanel) submit() {
	e := op.typing
	if e == nil {
		return
	}
	if e.fault = op.take(e.row, e.Text); e.fault == "" {
		op.dropEntry()
		op.w.win.Canvas().Focus(op.pane)
	}
	op.w.refresh()
}

// closeEntry takes what was typed when something else is pressed; of what is refused the
// status line says why.
func (op *outcomePanel) closeEntry() {
	if e := op.typing; e != nil {
		if e.Text != "" {
			if why := op.take(e.row, e.Text); why != "" {
				op.w.complain(why)
			}
		}
		op.dropEntry()
	}
}

func (op *outcomePanel) dropEntry() {
	op.typing = nil
	op.pane.Lift()
}

// take puts a prior into the plan as one undo step, or takes the plan's own out of it;
// why not, if it cannot be.
func (op *outcomePanel) take(row int, typed string) (why string) {
	o := op.got
	p, i := op.w.board.Plan(), op.w.board.Plan().RigIndex(op.w.board.Rig())
	if o == nil || o.report == nil || o.report.Found == nil || i < 0 || p.Rigs[i].Incident == nil {
		return ""
	}
	chance, source, known, ok := priorTyped(typed)
	if !ok {
		return op.w.label("outcome-prior-bad")
	}
	name := priorRows(o.report, op.w.words()).Rows[row+1][0]
	n, figure := *p.Rigs[i].Incident, plan.Maybe[float64]{}
	if known {
		figure = plan.Known(chance)
	}
	switch all := o.report.Found.Priors; {
	case row == len(all):
		n.None = figure
		p = plan.WithIncident(p, i, &n)
	case row > len(all):
		n.Jerk = figure
		p = plan.WithIncident(p, i, &n)
	case known:
		p = plan.WithPrior(p, i, plan.Prior{Thing: plan.ID(all[row].Part), Weak: all[row].Way, Chance: chance, Source: source})
	default:
		p = plan.WithoutPrior(p, i, plan.ID(all[row].Part), all[row].Way)
	}
	if err := op.w.board.Put(op.w.label("edit-prior", part.Text("what", name)), p); err != nil {
		return op.w.words().Refusal(err)
	}
	return ""
}

// priorTyped reads a chance: 5 of 100, 5/100, 0.05 or 5 %, and behind a semicolon who
// holds it. known false: nothing was typed, the proposed counts.
func priorTyped(typed string) (chance float64, source string, known, ok bool) {
	figure, source, _ := strings.Cut(typed, ";")
	source = strings.TrimSpace(source)
	if strings.TrimSpace(figure) == "" {
		return 0, "", false, source == ""
	}
	var x []float64
	for _, f := range strings.FieldsFunc(figure, func(r rune) bool { return !strings.ContainsRune("0123456789.,-", r) }) {
		v, err := strconv.ParseFloat(strings.ReplaceAll(f, ",", "."), 64)
		if err != nil {
			return 0, "", false, false
		}
		x = append(x, v)
	}
	switch {
	case len(x) == 1 && strings.Contains(figure, "%"):
		chance = x[0] / 100
	case len(x) == 1:
		chance = x[0]
	case len(x) == 2:
		chance = x[0] / x[1]
	default:
		return 0, "", false, false
	}
	return chance, source, true, chance >= 0 && chance < 1 && !math.IsNaN(chance)
}
