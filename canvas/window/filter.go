package window

import (
	"kedge/solver/part"
	"kedge/solver/plan"

	"kedge/canvas/panel"
	"kedge/canvas/words"
)

// filter is which findings the list shows. The zero value shows all. The verdict,
// flags and counts are never filtered.
type filter struct {
	hidden   [part.Danger + 1]bool // levels left out
	selected bool                  // only those about what is selected
}

// filterLevels are the levels in the order of their buttons.
var filterLevels = [...]part.Level{part.Danger, part.Warning, part.Caution, part.Notice}

func (s *filter) on() bool { return *s != filter{} }

// shows reports whether a finding of a card of that level is listed.
func (s *filter) shows(card part.Level, f *part.Finding, about func(plan.ID) bool) bool {
	if s.hidden[card] {
		return false
	}
	if !s.selected {
		return true
	}
	for _, id := range f.Things {
		if about(id) {
			return true
		}
	}
	return false
}

// drawAbout draws the button in the title, before its remark, that lists only what is about
// the selection.
func (fp *findingsPanel) drawAbout(d *panel.Drawing, on bool, remark string, selection bool) {
	why, word := "", fp.w.label("filter-selected")
	if !selection {
		why = fp.w.label("filter-none")
	}
	x := d.W - d.Px(26) - panel.Width(remark, d.Small()) - d.ButtonWide(word)
	d.Button(x, d.Y+d.Px(3), "filter selected", word, on, func() { fp.filter.selected = !fp.filter.selected }, why)
}

// drawFilter draws a button for each level that has findings, with their count,
// struck through while the level is left out. They are there whatever is selected: what
// is below them keeps its place.
func (fp *findingsPanel) drawFilter(d *panel.Drawing, now filter, cards []words.Card, listed int) {
	var counts [part.Danger + 1]int
	levels := 0
	for _, c := range cards {
		if counts[c.Level]++; counts[c.Level] == 1 {
			levels++
		}
	}
	if levels == 0 {
		return
	}
	x, y, right := d.Px(10), d.Y, d.W-d.Px(10)
	button := func(id, word string, struck bool, press func()) {
		wide := d.ButtonWide(word)
		if x > d.Px(10) && x+wide > right {
			x, y = d.Px(10), y+d.ButtonHigh()+d.Px(4)
		}
		d.Button(x, y, id, word, false, press, "")
		if struck {
			d.Stroke(x+d.Px(5), y+d.ButtonHigh()/2, x+wide-d.Px(5), y+d.ButtonHigh()/2, 1.6, d.Shades.Ink)
		}
		x += wide + d.Px(4)
	}
	for _, l := range filterLevels {
		if counts[l] == 0 && !now.hidden[l] {
			continue
		}
		button("filter "+fp.w.words().Level(l), fp.w.label("filter-level", part.Text("level", fp.w.words().Level(l)), part.Count("count", counts[l])), now.hidden[l], func() {
			fp.filter.hidden[l] = !fp.filter.hidden[l]
		})
	}
	d.Y = y + d.ButtonHigh() + d.Px(8)
	if left := len(cards) - listed; left > 0 {
		said := fp.w.label("filter-hidden", part.Count("count", left))
		t := panel.Bold(panel.Coloured(d.Small(), d.Shades.Ink))
		d.Text(d.Px(14), d.Y+d.ButtonHigh()/2, said, t, d.W-d.Px(28))
		d.Button(d.Px(14)+panel.Width(said, t)+d.Px(10), d.Y, "filter all", fp.w.label("filter-all"), false, func() { fp.filter = filter{} }, "")
		d.Y += d.ButtonHigh() + d.Px(8)
	}
}
