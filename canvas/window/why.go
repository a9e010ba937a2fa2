package window

import (
	"kedge/canvas/panel"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/travel"
)

// whyRows are the rows of Loads and Findings that have unfolded: each says why in
// itself, until it is pressed again.
type whyRows struct {
	w    *Window
	open map[string]bool // by the ids of their hits; what is folded again is not in it
	last string          // part whose row was unfolded last; empty: it is folded again
	sums struct {        // of the parts that are unfolded
		rigTold
		of map[string][]string
	}
}

// partRow is the id of the row of Loads that a part's sum unfolds in.
func partRow(id string) string {
	if id == solver.ResistancePart {
		return "why resistance"
	}
	return "part " + id
}

// forget folds all rows: another plan or rig is shown.
func (wr *whyRows) forget() { wr.open, wr.last = nil, "" }

// toggle unfolds a row, or folds it again, and tells whether it is unfolded now.
func (wr *whyRows) toggle(row string) bool {
	if wr.open[row] {
		delete(wr.open, row)
		return false
	}
	if wr.open == nil {
		wr.open = map[string]bool{}
	}
	wr.open[row] = true
	return true
}

// sum is the sum of a part as lines, none if there is none. What was worked out is
// kept while plan, rig and words are the same.
func (wr *whyRows) sum(id string) []string {
	w, k := wr.w, &wr.sums
	if now := w.told(); k.of == nil || k.rigTold != now {
		k.rigTold, k.of = now, map[string][]string{}
	}
	lines, known := k.of[id]
	if known {
		return lines
	}
	a := w.answer()
	if derivation, err := travel.Explain(a, k.plan, k.rig, id); err == nil {
		lines = k.words.Derivation(derivation, k.words.Naming(a, w.names()))
		if q, ok := a.Part(id); ok {
			lines = append(lines, k.words.FailureBasis(q)...)
		}
	}
	k.of[id] = lines
	return lines
}

// loads are the sums of the rows of Loads that are unfolded, by the ids of the parts.
func (wr *whyRows) loads() map[string][]string {
	all := map[string][]string{}
	put := func(id string) {
		if wr.open[partRow(id)] {
			if lines := wr.sum(id); len(lines) > 0 {
				all[id] = lines
			}
		}
	}
	put(solver.ResistancePart)
	for i := range wr.w.answer().Parts {
		put(wr.w.answer().Parts[i].ID)
	}
	return all
}

// findings are what the findings rest on whose rows are unfolded, by their keys: the rule,
// and the sum of the first of its parts that has one.
func (wr *whyRows) findings(fs []part.Finding) map[string][]string {
	all := map[string][]string{}
	for i := range fs {
		f := &fs[i]
		if !wr.open[findingRow(f)] {
			continue
		}
		var lines []string
		if r, ok := solver.RuleOf(f.ID); ok {
			if on := wr.w.words().RestsOn(&r); on != "" {
				lines = append(lines, wr.w.label("rests-on", part.Text("why", on)))
			}
		}
		for _, id := range f.Parts {
			if sum := wr.sum(id); len(sum) > 0 {
				name := id
				if p, ok := wr.w.answer().Part(id); ok {
					name = wr.w.words().PartName(p, wr.w.names())
				}
				lines = append(append(lines, wr.w.label("why", part.Text("part", name))), sum...)
				break
			}
		}
		all[f.Key()] = lines
	}
	return all
}

func findingRow(f *part.Finding) string { return "finding " + f.Key() }

// explain unfolds the sum of a part in its row of Loads, or folds it again.
func (wr *whyRows) explain(id string) {
	if wr.last = ""; !wr.toggle(partRow(id)) {
		return
	}
	wr.last = id
	wr.w.board.SelectOf(id)
}

// here unfolds the sum of what is under the pointer or selected, or folds it again; false
// if there is nothing to explain.
func (wr *whyRows) here() bool {
	id := wr.w.board.HoverPart()
	if s := wr.w.board.Selection(); id == "" && len(s) > 0 {
		id = wr.w.board.PartOf(s[0])
	}
	if id == "" {
		return false
	}
	wr.explainFar(id)
	wr.w.refresh()
	return true
}

// explainFar is explain from elsewhere than the row, which is brought into sight.
func (wr *whyRows) explainFar(id string) {
	if wr.explain(id); wr.last == "" {
		return
	}
	wr.w.loads.reveal = partRow(id)
	if tabbed, _ := wr.w.shell.narrow(); tabbed {
		wr.w.shell.choice, wr.w.shell.open = "loads", true
	}
}

// drawSum draws the lines of a sum, set in from left, with what folds it at their end.
func (wr *whyRows) drawSum(d *panel.Drawing, row string, lines []string, left, right float64) {
	t := panel.Coloured(d.Small(), d.Shades.Ink)
	d.Y += d.Px(2)
	for _, l := range lines {
		in := d.Indent(l)
		d.Y = d.Para(left+in, d.Y, right-left-in, l, t) + 2
	}
	word := wr.w.label("do-close")
	d.Button(right-d.ButtonWide(word), d.Y, "fold "+row, word, false, func() { wr.toggle(row) }, "")
	d.Y += d.ButtonHigh() + d.Px(4)
}
