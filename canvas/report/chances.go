package report

import (
	"errors"
	"math"
	"slices"
	"strings"

	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/doubt"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Chances is how often what may come of a rig, to be written.
type Chances struct {
	Plan  *plan.Plan
	Rig   plan.ID
	Names words.Names
	Found *doubt.Chances // nil: the rig is not computed
	w     *words.Words
}

// NewChances draws a rig with everything of its plan that is in doubt. The error is the
// context's, or [doubt.ErrNoDoubt].
func NewChances(w *words.Words, p *plan.Plan, rig plan.ID, q doubt.Request) (*Chances, error) {
	found, err := doubt.SamplePlan(p, rig, q)
	a := &Chances{Plan: p, Rig: rig, Found: found}
	switch {
	case q.Context != nil && q.Context.Err() != nil:
		return nil, q.Context.Err()
	case errors.Is(err, doubt.ErrNoDoubt):
		return nil, err
	}
	return a.In(w), nil
}

// In are the chances in other words, of the same trials.
func (a *Chances) In(w *words.Words) *Chances {
	b := *a
	if b.w, b.Names = w, w.Names(a.Plan, a.Rig); a.Found != nil {
		b.Names = w.Naming(solver.Assess(a.Plan, a.Rig), b.Names)
	}
	return &b
}

// Settled reports whether everything was known in every trial.
func (a *Chances) Settled() bool { return a.Found != nil && len(a.Cautions()) == 0 }

func noLimit(p *doubt.Passes) bool {
	return p.OverLimit.NotKnown > 0 || p.OverAtStall.NotKnown > 0
}

// noStrength reports whether it is not known at what load a part gives, if it does.
func noStrength(p *doubt.PartChances) bool {
	return doubt.MayGive(p.Part.Kind) && (p.Gives.NotKnown > 0 || p.GivesStall.NotKnown > 0)
}

// without are the names of the parts that lack something.
func (a *Chances) without(lacks func(*doubt.PartChances) bool) string {
	var parts []part.Part
	for i := range a.Found.Parts {
		if p := &a.Found.Parts[i]; lacks(p) {
			parts = append(parts, p.Part)
		}
	}
	return partNames(a.w, parts, a.Names)
}

// Cautions are the sentences that stand above the answer.
func (a *Chances) Cautions() (all []string) {
	f := a.Found
	say := func(id string, values ...part.Value) { all = append(all, a.w.Label(id, values...)) }
	if f.Refused > 0 {
		say("doubt-refused", part.Text("chance", a.chance(f.Refused, f.Trials)))
	}
	if len(f.NotDrawn) > 0 {
		say("doubt-not-drawn", part.Text("list", members(a.w, f.NotDrawn, a.Names)))
	}
	if names := a.without(func(p *doubt.PartChances) bool { return noLimit(&p.Passes) }); names != "" {
		say("doubt-without-limit", part.Text("list", names))
	}
	if names := a.without(noStrength); names != "" {
		say("doubt-without-strength", part.Text("list", names))
	}
	if names := a.lostAlong(); names != "" {
		say("doubt-along-without-limit", part.Text("list", names))
	}
	if math.IsNaN(f.MoveN[0]) {
		say("doubt-tension-unknown")
	}
	return append(all, pictureOff(a.w, a.Plan)...)
}

// lostAlong are the names of the parts of which it is not known in every trial whether they
// stay within their limit over the whole pull, though it is as drawn.
func (a *Chances) lostAlong() string {
	if a.Found.Along == nil {
		return ""
	}
	var parts []part.Part
	for i := range a.Found.Along.Parts {
		p := &a.Found.Along.Parts[i]
		k := slices.IndexFunc(a.Found.Parts, func(x doubt.PartChances) bool { return x.Part.ID == p.Part.ID })
		if noLimit(&p.Passes) && (k < 0 || !noLimit(&a.Found.Parts[k].Passes)) {
			parts = append(parts, p.Part)
		}
	}
	return partNames(a.w, parts, a.Names)
}

// NoAnswer says that the rig is not computed.
func (a *Chances) NoAnswer() string {
	return a.w.Label("doubt-not-computed", part.Text("rig", a.w.Rig(a.Plan, a.Rig)))
}

// Head says of what these are the chances.
func (a *Chances) Head() string {
	return a.w.Label("doubt-of", part.Text("rig", a.w.Rig(a.Plan, a.Rig)), part.Count("count", a.Found.Trials))
}

// Checked says what the findings of the same pull say that no chance takes back: that there
// is danger, and what is not decided; empty: neither.
func (a *Chances) Checked(found []part.Finding) string {
	level, open := part.Notice, 0
	for i := range found {
		level = max(level, found[i].Level)
		if found[i].ID == part.NotDecidedID {
			open++
		}
	}
	var said []string
	if level == part.Danger {
		said = append(said, a.w.Label("doubt-check-danger", part.Text("level", a.w.Level(level))))
	}
	if open > 0 {
		said = append(said, a.w.Label("doubt-check-open", part.Text("level", a.w.Level(part.Caution)), part.Count("count", open)))
	}
	return strings.Join(said, " ")
}

// Drawn says what is drawn, and how it is read.
func (a *Chances) Drawn() []string {
	read := "doubt-read"
	if len(a.Found.Assumed) > 0 {
		read = "doubt-read-assumed"
	}
	return []string{a.w.Label("doubt-drawn", part.Text("list", members(a.w, a.Found.Drawn, a.Names))), a.w.Label(read)}
}

// Tension is the band of the line tension that moves the casualty; empty: it is not
// computed in every trial.
func (a *Chances) Tension() string {
	if math.IsNaN(a.Found.MoveN[0]) {
		return ""
	}
	return a.w.Label("doubt-tension", bandText(a.Found.MoveN, a.w.Load)...)
}

// bandText are the 5, 50 and 95 % points of a figure as the values of a label.
func bandText[Q ~float64](b [3]float64, say func(Q) string) []part.Value {
	return []part.Value{part.Text("low", say(Q(b[0]))), part.Text("mid", say(Q(b[1]))), part.Text("high", say(Q(b[2])))}
}

// Over is how often each part passes its limit, and its strength.
func (a *Chances) Over() Section {
	w := a.w
	s := Section{Title: w.Label("doubt-as-drawn"), Rows: [][]string{a.passesHead()}}
	for i := range a.Found.Parts {
		p := &a.Found.Parts[i]
		s.Rows = append(s.Rows, a.passesRow(&p.Part, &p.Passes))
	}
	return s
}

// passesHead is the head of rows of [Chances.passesRow].
func (a *Chances) passesHead() (row []string) {
	for _, id := range [...]string{"column-part", "column-doubt-over", "column-doubt-over-stall", "column-doubt-gives", "column-doubt-gives-stall"} {
		row = append(row, a.w.Label(id))
	}
	return row
}

// passesRow is a part, and how often it passes what it may.
func (a *Chances) passesRow(p *part.Part, n *doubt.Passes) []string {
	return []string{a.w.PartName(p, a.Names), a.count(n.OverLimit), a.count(n.OverAtStall), a.count(n.Gives), a.count(n.GivesStall)}
}

// Along is how often each part passes its limit, and its strength, over the whole pull, and
// which fails first; no rows: the pull was not followed.
func (a *Chances) Along() Section {
	f, w := a.Found.Along, a.w
	if f == nil {
		return Section{}
	}
	s := Section{Title: w.Label("doubt-along", part.Text("length", w.Length(quantity.Length(f.ToM))), part.Count("count", f.Trials)),
		Rows: [][]string{append(a.passesHead(), w.Label("column-doubt-first"))}}
	for i := range f.Parts {
		p := &f.Parts[i]
		first := words.NoFigure // not counted: none of it is no answer
		if doubt.MayGive(p.Part.Kind) {
			first = a.count(p.First)
		}
		s.Rows = append(s.Rows, append(a.passesRow(&p.Part, &p.Passes), first))
	}
	fails := w.Label("doubt-along-fails", part.Text("chance", a.count(f.Fails)))
	if !math.IsNaN(f.FailsM[0]) {
		fails += " " + w.Label("doubt-along-where", bandText(f.FailsM, w.Length)...)
	}
	s.Lines = []string{fails}
	return s
}

// Assumed is what is drawn though the plan gives no range; no rows: nothing is.
func (a *Chances) Assumed() Section {
	if len(a.Found.Assumed) == 0 {
		return Section{}
	}
	return Section{Title: a.w.Label("doubt-assumed"), Rows: assumed(a.w, a.Found.Assumed, a.Names)}
}

// assumed are assumptions as rows, with a head.
func assumed(w *words.Words, all []doubt.Assumption, names words.Names) [][]string {
	rows := [][]string{{w.Label("column-assumed"), w.Label("column-scatter"), w.Label("column-founded")}}
	for i := range all {
		what, scatter, founded := w.Assumption(&all[i], names)
		rows = append(rows, []string{what, scatter, founded})
	}
	return rows
}

// Loads is the load of each part, and what it hangs on. A head with a tab in front is
// of figures.
func (a *Chances) Loads() Section {
	w := a.w
	s := Section{Title: w.Label("doubt-bands", part.Text("unit", w.System().Force().String())),
		Rows: [][]string{{w.Label("column-part"), "\t" + w.Label("column-doubt-low"), "\t" + w.Label("column-doubt-mid"), "\t" + w.Label("column-doubt-high"), w.Label("column-doubt-drivers")}}}
	for i := range a.Found.Parts {
		p := &a.Found.Parts[i]
		row := []string{w.PartName(&p.Part, a.Names)}
		for _, x := range p.PlannedN {
			cell := words.NoFigure
			if !math.IsNaN(x) {
				cell = quantity.FormatForce(quantity.Force(x), w.System(), quantity.AsLoad).Number
			}
			row = append(row, cell)
		}
		var on []string
		for _, d := range p.Drivers {
			on = append(on, doubtful(w, &d.Doubtful, a.Names)+" "+w.Share(min(d.Share, 1)))
		}
		s.Rows = append(s.Rows, append(row, strings.Join(on, ", ")))
	}
	return s
}

// members are the names of figures.
func members(w *words.Words, all []doubt.Doubtful, names words.Names) string {
	var list []string
	for _, d := range all {
		list = append(list, doubtful(w, &d, names))
	}
	return strings.Join(list, ", ")
}

// count is how often something came about.
func (a *Chances) count(c doubt.Count) string {
	switch {
	case c.Of == 0:
		return a.w.Label("doubt-not-known")
	case c.NotKnown > 0:
		return a.w.Label("doubt-partly", part.Text("chance", a.chance(c.Hits, c.Of+c.NotKnown)), part.Text("more", a.chance(c.NotKnown, c.Of+c.NotKnown)))
	}
	return a.chance(c.Hits, c.Of)
}

// chance is a count in words: of a hundred, or of ten thousand where a hundred would
// make it none or all; none at all is fewer than three of all there were.
func (a *Chances) chance(hits, of int) string {
	switch share := float64(hits) / float64(of); {
	case hits == 0:
		return a.w.Label("doubt-none-of", part.Count("of", of))
	case hits == of:
		return a.w.Label("doubt-every", part.Count("of", of))
	case share < 0.01 || share > 0.99:
		return a.w.Chance(min(max(1, int(math.Round(share*1e4))), 9999), 1e4)
	default:
		return a.w.Chance(int(math.Round(share*100)), 100)
	}
}

// doubtful is a figure that is drawn, with whose it is.
func doubtful(w *words.Words, d *doubt.Doubtful, n words.Names) string {
	if d.What != "" {
		return w.Label("assumed-" + d.What)
	}
	return w.Member(d.Thing, d.Member, n)
}
