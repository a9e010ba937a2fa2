package window

import (
	"slices"

	"kedge/canvas/exercise"
	"kedge/canvas/panel"
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

// drawGiveaways lists figures that were left off the exercise because they give an
// answer away, each to be made a blank too.
func (pr *printer) drawGiveaways(d *panel.Drawing, b *sheet.Booklet, naming words.Names) {
	if b == nil {
		return
	}
	seen := map[string]bool{}
	for _, g := range b.Giveaways {
		if seen[g.Part] {
			continue
		}
		seen[g.Part] = true
		s := pr.w.label("print-gives-blank", part.Text("part", naming(plan.ID(g.Part))), part.Text("blank", naming(plan.ID(g.Blank))))
		if g.Question > 0 {
			s = pr.w.label("print-gives-question", part.Text("part", naming(plan.ID(g.Part))), part.Count("n", g.Question))
		}
		d.Y = d.Para(d.Px(22), d.Y+d.Px(2), d.W-d.Px(36), s, d.Small()) + d.Px(2)
		d.Button(d.Px(22), d.Y, "too "+g.Part, pr.w.label("print-blank-too"), false, func() { pr.blank(g.Part) }, "")
		d.Y += d.ButtonHigh() + d.Px(4)
	}
	d.Y += d.Px(4)
}

// Choices of how far variants differ. (ours)
var (
	massChoices   = [...]float64{0, 0.1, 0.2, 0.3}
	placeChoices  = [...]float64{0, 0.5, 1.5, 3}
	trunkChoices  = [...]float64{0, 0.1, 0.2}
	turnChoices   = [...]float64{0, 5, 10, 20}
	slingsChoices = [...][]quantity.Length{nil, {2, 3, 4}, {2, 3, 4, 5, 6}}
)

// drawVary are the choices of what differs from variant to variant, and how far:
// the one taken is pressed in.
func (pr *printer) drawVary(d *panel.Drawing, v exercise.Vary) {
	p := pr.now
	d.Text(d.Px(14), d.Y+d.Px(8), pr.w.label("print-varies"), panel.Bold(d.Small()), 0)
	d.Y += d.Px(20)
	row := func(id, word string, n int, say func(i int) string, with func(i int) exercise.Vary) {
		d.Text(d.Px(14), d.Y+d.ButtonHigh()/2, word, d.Small(), 0)
		x := d.Px(14) + max(panel.Width(word, d.Small())+d.Px(8), d.Px(62))
		for i := range n {
			next := with(i)
			if wide := d.ButtonWide(say(i)); x+wide > d.W-d.Px(4) && x > d.Px(76) {
				x, d.Y = d.Px(76), d.Y+d.ButtonHigh()+d.Px(3)
			}
			why := ""
			if still(next) {
				why = pr.w.label("print-varies-something")
			}
			x += d.Button(x, d.Y, id+" "+itoa(i), say(i), same(next, v), func() { p.opt.Vary, p.page = next, 0 }, why) + d.Px(3)
		}
		d.Y += d.ButtonHigh() + d.Px(4)
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
		return pr.w.words().Length(quantity.Length(x))
	}
	row("vary-mass", pr.w.label("print-vary-mass"), len(massChoices), func(i int) string { return percent(massChoices[i]) },
		func(i int) exercise.Vary { n := v; n.MassShare = massChoices[i]; return n })
	row("vary-place", pr.w.label("print-vary-place"), len(placeChoices), func(i int) string { return metres(placeChoices[i]) },
		func(i int) exercise.Vary { n := v; n.PlaceM = placeChoices[i]; return n })
	row("vary-trunks", pr.w.label("print-vary-trunks"), len(trunkChoices), func(i int) string { return percent(trunkChoices[i]) },
		func(i int) exercise.Vary { n := v; n.Trunks = trunkChoices[i]; return n })
	row("vary-turn", pr.w.label("print-vary-turn"), len(turnChoices), func(i int) string {
		if i == 0 {
			return "0"
		}
		return itoa(int(turnChoices[i])) + "°"
	}, func(i int) exercise.Vary { n := v; n.TurnDeg = turnChoices[i]; return n })
	row("vary-slings", pr.w.label("print-vary-slings"), len(slingsChoices), func(i int) string {
		l := slingsChoices[i]
		if len(l) == 0 {
			return pr.w.label("print-vary-as-drawn")
		}
		return pr.w.label("print-vary-from-to", part.Text("from", pr.w.words().Length(l[0])), part.Text("to", pr.w.words().Length(l[len(l)-1])))
	}, func(i int) exercise.Vary { n := v; n.Lengths = slingsChoices[i]; return n })
	d.Y += d.Px(4)
}

// still reports whether nothing would vary.
func still(v exercise.Vary) bool {
	return v.MassShare == 0 && v.PlaceM == 0 && v.Trunks == 0 && v.TurnDeg == 0 && len(v.Lengths) == 0
}

func same(a, b exercise.Vary) bool {
	return a.MassShare == b.MassShare && a.PlaceM == b.PlaceM && a.Trunks == b.Trunks && a.TurnDeg == b.TurnDeg && slices.Equal(a.Lengths, b.Lengths)
}

// thumbnails are how many variants are shown small.
const thumbnails = 3

// drawVariants shows the first variants small, each to be pressed to see it
// large, and says how many were drawn anew.
func (pr *printer) drawVariants(d *panel.Drawing, b *sheet.Booklet) {
	if b == nil {
		return
	}
	p, gap := pr.now, d.Px(6)
	wide := (d.W - d.Px(28) - (thumbnails-1)*gap) / thumbnails
	n, high := 0, 0.0
	for i, g := range b.Pages {
		if g.Kind != sheet.Exercise || g.Variant != n+1 || n == thumbnails {
			continue
		}
		f := wide / g.W
		x, y := d.Px(14)+float64(n)*(wide+gap), d.Y
		id := "variant " + itoa(g.Variant)
		d.Fill(x, y, wide, g.H*f, panel.Hex(0xFFFFFF))
		g.Draw(pen.At(d.Pen, f, x, y))
		edge := d.Shades.Edge
		if d.Hover == id {
			edge = panel.Hex(0x6A3F9E)
		}
		d.Path.Reset()
		d.Path.Rect(x, y, wide, g.H*f)
		d.Pen.Path(&d.Path, &pen.Style{Stroke: edge, Width: 1.5})
		d.Hit(panel.Hit{ID: id, X0: x, Y0: y, X1: x + wide, Y1: y + g.H*f, Press: func() { p.page = i }})
		n, high = n+1, max(high, g.H*f)
	}
	if n > 0 {
		d.Y += high + d.Px(6)
	}
	if b.Redrawn > 0 {
		d.Note(pr.w.label("print-redrawn", part.Count("n", b.Redrawn)), d.Small(), 4)
	}
	d.Y += d.Px(4)
}
