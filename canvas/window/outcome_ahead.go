package window

import (
	"cmp"
	"math"
	"slices"

	"kedge/canvas/report"
	"kedge/canvas/words"
	"kedge/solver/doubt"
	"kedge/solver/part"
	"kedge/solver/quantity"
)

// putAhead puts the chances into sections: what comes of each part over the whole pull,
// what does as drawn with its load and what that hangs on, and what was drawn.
func (o *outcome) putAhead(w *words.Words) {
	a := o.chances
	if a.Found == nil {
		o.cautions = []string{a.NoAnswer()}
		return
	}
	along := o.alongRows(w)
	o.cautions, o.head = a.Cautions(), append([]string{a.Head()}, along.Lines...)
	along.Lines = nil // said above
	if t := a.Tension(); t != "" {
		o.head = append(o.head, t)
	}
	add := func(id string, s report.Section, open bool, hint string) {
		if len(s.Rows)+len(s.Lines) > 0 {
			o.sections = append(o.sections, outcomeSection{Section: s, id: id, open: open, hint: hint})
		}
	}
	add("along", along, true, w.Label("outcome-along-hint"))
	add("parts", asDrawnRows(a, w), a.Found.Along == nil, "")
	add("scatter", a.Assumed(), false, "")
	add("drawn", report.Section{Title: w.Label("recon-assumed"), Lines: append(a.Drawn(), w.Label("doubt-rest"))}, false, "")
}

// likeliest are the numbers of n parts in the order of how often each of these came about,
// the first of them before the next.
func likeliest(n int, of func(i int) []doubt.Count) []int {
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, k int) int {
		return slices.CompareFunc(of(k), of(i), func(a, b doubt.Count) int { return cmp.Compare(a.Hits, b.Hits) })
	})
	return order
}

// alongRows are the chances over the whole pull, what fails first the most often in front,
// each with where it does; no rows: the pull was not followed.
func (o *outcome) alongRows(w *words.Words) report.Section {
	s, f := o.chances.Along(), o.chances.Found.Along
	if f == nil {
		return s
	}
	rows := [][]string{append(slices.Clone(s.Rows[0]), w.Label("outcome-first-at"))}
	for _, i := range likeliest(len(f.Parts), func(i int) []doubt.Count {
		p := &f.Parts[i]
		return []doubt.Count{p.First, p.OverLimit, p.OverAtStall, p.GivesStall}
	}) {
		where := ""
		if p := &f.Parts[i]; !math.IsNaN(p.FirstM[0]) {
			at := func(k int) string { return w.Length(quantity.Length(p.FirstM[k])) }
			where = at(0) + " · " + at(1) + " · " + at(2)
		}
		rows, o.along = append(rows, append(slices.Clone(s.Rows[i+1]), where)), append(o.along, &f.Parts[i])
	}
	s.Rows = rows
	return s
}

// asDrawnRows are the chances before the casualty moves, the likeliest to pass its limit
// first, each with its load and what that hangs on.
func asDrawnRows(a *report.Chances, w *words.Words) report.Section {
	s, loads := a.Over(), a.Loads()
	bands := w.Label("outcome-load", part.Text("unit", w.System().Force().String()))
	rows := [][]string{append(slices.Clone(s.Rows[0]), bands, loads.Rows[0][4])}
	for _, i := range likeliest(len(a.Found.Parts), func(i int) []doubt.Count {
		p := &a.Found.Parts[i]
		return []doubt.Count{p.OverLimit, p.OverAtStall, p.GivesStall}
	}) {
		l := loads.Rows[i+1]
		rows = append(rows, append(slices.Clone(s.Rows[i+1]), l[1]+" · "+l[2]+" · "+l[3], l[4]))
	}
	s.Rows = rows
	return s
}

// pickAlong brings a part to sight, and the strip to where it fails first in half of the
// trials in which it does.
func (op *outcomePanel) pickAlong(p *doubt.PartAlong) {
	if m := p.FirstM[1]; !math.IsNaN(m) {
		op.w.travel.show(m)
	}
	op.find(p.Part.ID)
	op.w.refresh()
}

// choices draws the switch between what is known to scatter and what was typed alone.
func (od *outcomeDrawing) choices() {
	d := od.d
	d.Y += d.Px(4)
	d.Choices(func(put func(id, word string, on bool, press func())) {
		for _, c := range [...]struct {
			id    string
			typed bool
		}{{"outcome-scatter", false}, {"outcome-typed", true}} {
			put(c.id, od.w.Label(c.id), od.typed == c.typed, func() {
				od.typedOnly = c.typed
				od.outcomePanel.w.refresh()
			})
		}
	})
	if od.o.chances != nil && od.o.chances.Found != nil && len(od.o.chances.Found.Assumed) > 0 {
		d.Note(od.w.Label("outcome-assumes"), od.style(d.Small()), 3)
	}
}
