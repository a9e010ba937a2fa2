package window

import (
	"slices"

	"kedge/canvas/pen"
	"kedge/canvas/sheet"
	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// removeQuestion takes out what a question or blank of that number asks: blanks
// are numbered after the questions.
func (p *printing) removeQuestion(n int) {
	o, i := &p.opt, n-1
	switch {
	case i < 0:
	case i < len(o.Questions):
		o.Questions = slices.Delete(slices.Clone(o.Questions), i, i+1)
	case i-len(o.Questions) < len(o.Blanks):
		i -= len(o.Questions)
		o.Blanks = slices.Delete(slices.Clone(o.Blanks), i, i+1)
	case p.variants > 1: // the usual questions: of the plan itself they can be asked
		p.variants = 1
	default:
		p.kinds[sheet.Exercise], p.kinds[sheet.Key], p.kinds[sheet.Errors] = false, false, false
	}
}

// givenAway lists figures that were left off the exercise because they give an
// answer away, each to be made a blank too.
func (k *ink) givenAway(w *Window, b *sheet.Booklet, naming words.Names) {
	if b == nil {
		return
	}
	seen := map[string]bool{}
	for _, g := range b.Giveaways {
		if seen[g.Part] {
			continue
		}
		seen[g.Part] = true
		s := w.label("print-gives-blank", text("part", naming(plan.ID(g.Part))), text("blank", naming(plan.ID(g.Blank))))
		if g.Question > 0 {
			s = w.label("print-gives-question", text("part", naming(plan.ID(g.Part))), part.Value{Name: "n", Unit: part.UnitCount, X: float64(g.Question)})
		}
		k.y = k.para(k.px(22), k.y+k.px(2), k.w-k.px(36), s, k.small()) + k.px(2)
		k.button(k.px(22), k.y, "too "+g.Part, w.label("print-blank-too"), false, func() { w.blank(g.Part) }, "")
		k.y += k.buttonHigh() + k.px(4)
	}
	k.y += k.px(4)
}

// Choices of how far variants differ. (ours)
var (
	massChoices   = [...]float64{0, 0.1, 0.2, 0.3}
	placeChoices  = [...]float64{0, 0.5, 1.5, 3}
	trunkChoices  = [...]float64{0, 0.1, 0.2}
	turnChoices   = [...]float64{0, 5, 10, 20}
	slingsChoices = [...][]quantity.Length{nil, {2, 3, 4}, {2, 3, 4, 5, 6}}
)

// varies are the choices of what differs from variant to variant, and how far:
// the one taken is pressed in.
func (k *ink) varies(w *Window, v sheet.Vary) {
	p := w.print
	k.text(k.px(14), k.y+k.px(8), w.label("print-varies"), bold(k.small()), 0)
	k.y += k.px(20)
	row := func(id, word string, n int, say func(i int) string, with func(i int) sheet.Vary) {
		k.text(k.px(14), k.y+k.buttonHigh()/2, word, k.small(), 0)
		x := k.px(14) + max(width(word, k.small())+k.px(8), k.px(62))
		for i := range n {
			next := with(i)
			if wide := width(say(i), bold(k.small())) + k.px(18); x+wide > k.w-k.px(4) && x > k.px(76) {
				x, k.y = k.px(76), k.y+k.buttonHigh()+k.px(3)
			}
			why := ""
			if still(next) {
				why = w.label("print-varies-something")
			}
			x += k.button(x, k.y, id+" "+itoa(i), say(i), same(next, v), func() { p.opt.Vary, p.page = next, 0 }, why) + k.px(3)
		}
		k.y += k.buttonHigh() + k.px(4)
	}
	percent := func(x float64) string {
		if x == 0 {
			return "0"
		}
		return itoa(int(x*100+0.5)) + "\u00a0%"
	}
	metres := func(x float64) string {
		if x == 0 {
			return "0"
		}
		return w.words().Length(quantity.Length(x))
	}
	row("vary-mass", w.label("print-vary-mass"), len(massChoices), func(i int) string { return percent(massChoices[i]) },
		func(i int) sheet.Vary { n := v; n.MassShare = massChoices[i]; return n })
	row("vary-place", w.label("print-vary-place"), len(placeChoices), func(i int) string { return metres(placeChoices[i]) },
		func(i int) sheet.Vary { n := v; n.PlaceM = placeChoices[i]; return n })
	row("vary-trunks", w.label("print-vary-trunks"), len(trunkChoices), func(i int) string { return percent(trunkChoices[i]) },
		func(i int) sheet.Vary { n := v; n.Trunks = trunkChoices[i]; return n })
	row("vary-turn", w.label("print-vary-turn"), len(turnChoices), func(i int) string {
		if i == 0 {
			return "0"
		}
		return itoa(int(turnChoices[i])) + "°"
	}, func(i int) sheet.Vary { n := v; n.TurnDeg = turnChoices[i]; return n })
	row("vary-slings", w.label("print-vary-slings"), len(slingsChoices), func(i int) string {
		l := slingsChoices[i]
		if len(l) == 0 {
			return w.label("print-vary-as-drawn")
		}
		return w.label("print-vary-from-to", text("from", w.words().Length(l[0])), text("to", w.words().Length(l[len(l)-1])))
	}, func(i int) sheet.Vary { n := v; n.Lengths = slingsChoices[i]; return n })
	k.y += k.px(4)
}

// still tells that nothing would vary.
func still(v sheet.Vary) bool {
	return v.MassShare == 0 && v.PlaceM == 0 && v.Trunks == 0 && v.TurnDeg == 0 && len(v.Lengths) == 0
}

func same(a, b sheet.Vary) bool {
	return a.MassShare == b.MassShare && a.PlaceM == b.PlaceM && a.Trunks == b.Trunks && a.TurnDeg == b.TurnDeg && slices.Equal(a.Lengths, b.Lengths)
}

// thumbnails are how many variants are shown small.
const thumbnails = 3

// variantPages shows the first variants small, each to be pressed to see it
// large, and says how many were drawn anew.
func (k *ink) variantPages(w *Window, b *sheet.Booklet) {
	if b == nil {
		return
	}
	p, gap := w.print, k.px(6)
	wide := (k.w - k.px(28) - (thumbnails-1)*gap) / thumbnails
	n, high := 0, 0.0
	for i, g := range b.Pages {
		if g.Kind != sheet.Exercise || g.Variant != n+1 || n == thumbnails {
			continue
		}
		f := wide / g.W
		x, y := k.px(14)+float64(n)*(wide+gap), k.y
		id := "variant " + itoa(g.Variant)
		k.fill(x, y, wide, g.H*f, hex(0xFFFFFF))
		g.Draw(pen.At(k.Pen, f, x, y))
		edge := k.c.Edge
		if k.hover == id {
			edge = hex(0x6A3F9E)
		}
		k.path.Reset()
		k.path.Rect(x, y, wide, g.H*f)
		k.Pen.Path(&k.path, &pen.Style{Stroke: edge, Width: 1.5})
		k.hit(hit{id: id, x0: x, y0: y, x1: x + wide, y1: y + g.H*f, press: func() { p.page = i }})
		n, high = n+1, max(high, g.H*f)
	}
	if n > 0 {
		k.y += high + k.px(6)
	}
	if b.Redrawn > 0 {
		k.y = k.para(k.px(14), k.y, k.w-k.px(28), w.label("print-redrawn", part.Value{Name: "n", Unit: part.UnitCount, X: float64(b.Redrawn)}), k.small()) + k.px(4)
	}
	k.y += k.px(4)
}
