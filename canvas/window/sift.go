package window

import (
	"kedge/solver/part"
	"kedge/solver/plan"
)

// sift is which findings the list shows. The zero value shows all. The verdict,
// flags and counts are never sifted.
type sift struct {
	hidden   [part.Danger + 1]bool // levels left out
	selected bool                  // only those about what is selected
}

// siftLevels are the levels in the order of their buttons.
var siftLevels = [...]part.Level{part.Danger, part.Warning, part.Caution, part.Notice}

func (s *sift) on() bool { return *s != sift{} }

// shows tells that a finding is listed.
func (s *sift) shows(f *part.Finding, about func(plan.ID) bool) bool {
	if s.hidden[f.Level] {
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

// siftButtons draws a button for each level that has findings, with their count,
// struck through while the level is left out. Where all is one level there is
// nothing to choose.
func (k *ink) siftButtons(w *Window, now sift, fs []part.Finding, listed int, selection bool) {
	var counts [part.Danger + 1]int
	levels := 0
	for i := range fs {
		if counts[fs[i].Level]++; counts[fs[i].Level] == 1 {
			levels++
		}
	}
	if levels < 2 && !selection && !now.on() {
		return
	}
	x, y, right := k.px(10), k.y, k.w-k.px(10)
	button := func(id, word string, on, struck bool, press func()) {
		wide := width(word, bold(k.small())) + k.px(18)
		if x > k.px(10) && x+wide > right {
			x, y = k.px(10), y+k.buttonHigh()+k.px(4)
		}
		k.button(x, y, id, word, on, press, "")
		if struck {
			k.stroke(x+k.px(5), y+k.buttonHigh()/2, x+wide-k.px(5), y+k.buttonHigh()/2, 1.6, k.c.Ink)
		}
		x += wide + k.px(4)
	}
	for _, l := range siftLevels {
		if counts[l] == 0 && !now.hidden[l] {
			continue
		}
		button("sift "+w.words().Level(l), w.label("sift-level", text("level", w.words().Level(l)), count(counts[l])), false, now.hidden[l], func() {
			w.sift.hidden[l] = !w.sift.hidden[l]
		})
	}
	if selection || now.selected {
		button("sift selected", w.label("sift-selected"), now.selected, false, func() { w.sift.selected = !w.sift.selected })
	}
	k.y = y + k.buttonHigh() + k.px(8)
	if left := len(fs) - listed; left > 0 {
		said := w.label("sift-hidden", count(left))
		t := bold(in(k.small(), k.c.Ink))
		k.text(k.px(14), k.y+k.buttonHigh()/2, said, t, k.w-k.px(28))
		k.button(k.px(14)+width(said, t)+k.px(10), k.y, "sift all", w.label("sift-all"), false, func() { w.sift = sift{} }, "")
		k.y += k.buttonHigh() + k.px(8)
	}
}
