package window

import (
	"math"
	"slices"
	"strings"

	"github.com/golang/geo/r2"

	"kedge/canvas/board"
	"kedge/canvas/panel"
)

// beginPanel offers ways to begin over a bare sheet.
type beginPanel struct {
	w    *Window
	pane *panel.Pane
	off  bool // Escape leaves the bare board
}

// The tiles, logical pixels.
const (
	tileWide = 178
	tileHigh = 132
	tileGap  = 10
)

// shown reports whether the ways to begin are offered now.
func (bp *beginPanel) shown() bool {
	b := bp.w.board
	return !bp.off && b.Bare() && b.Tool() == board.ToolSelect && b.Question() == nil && bp.w.printer.now == nil && bp.w.reading.now == nil
}

// escape leaves the bare board; false if nothing is offered.
func (bp *beginPanel) escape() bool {
	was := bp.shown()
	bp.off = bp.off || was
	return was
}

// arrange puts the tiles in the middle of the board, in as many columns as there is room for.
func (bp *beginPanel) arrange(x, y, wide, high float32) {
	if !bp.shown() {
		bp.pane.Hide()
		return
	}
	k := float32(bp.w.textScale())
	columns, rows := bp.columns(float64(wide))
	w := min(wide, float32(columns)*(tileWide+tileGap)*k+28*k)
	h := min(high, float32(rows)*(tileHigh+tileGap)*k+112*k)
	put(bp.pane, x+(wide-w)/2, y+(high-h)/2, w, h)
}

func (bp *beginPanel) columns(wide float64) (columns, rows int) {
	columns = 4
	for columns > 1 && float64(columns)*(tileWide+tileGap)+28 > wide/bp.w.textScale() {
		columns /= 2
	}
	return columns, 4 / columns
}

// snap draws the tiles and the examples.
func (bp *beginPanel) snap() func(*panel.Drawing) {
	names := slices.DeleteFunc(exampleNames(), func(n string) bool { return strings.HasPrefix(n, incidentFolder) })
	return func(d *panel.Drawing) {
		d.Fill(0, 0, d.W, d.H, d.Shades.Ground)
		d.Box(1, 1, d.W-2, d.H-2, 6, d.Shades.Card, d.Shades.Edge, 1)
		d.Text(d.Px(18), d.Px(22), bp.w.label("begin-title"), panel.Bold(d.Big()), d.W-d.Px(30))
		columns := max(1, int((d.W-d.Px(18))/d.Px(tileWide+tileGap)))
		top := d.Px(42)
		for i, id := range append(board.Begins(), "traced") {
			x := d.Px(18) + float64(i%columns)*d.Px(tileWide+tileGap)
			y := top + float64(i/columns)*d.Px(tileHigh+tileGap)
			bp.drawTile(d, id, x, y)
		}
		y := top + math.Ceil(4/float64(columns))*d.Px(tileHigh+tileGap) + d.Px(2)
		x := d.Px(18)
		word := bp.w.label("begin-examples")
		d.Text(x, y+d.ButtonHigh()/2, word, d.Small(), 0)
		x += panel.Width(word, d.Small()) + d.Px(10)
		for _, n := range names {
			x += d.Button(x, y, "example "+n, n, false, func() { bp.w.file.guard(func() { bp.w.file.openExample(n) }) }, "") + d.Px(6)
		}
		d.Para(d.Px(18), y+d.ButtonHigh()+d.Px(6), d.W-d.Px(36), bp.w.label("begin-foot"), d.Small())
	}
}

// drawTile is one way to begin: a small drawing with its name.
func (bp *beginPanel) drawTile(d *panel.Drawing, id string, x, y float64) {
	wide, high := d.Px(tileWide), d.Px(tileHigh)
	edge, weight := d.Shades.Edge, 1.0
	if d.Hover == "begin "+id || d.Focus == "begin "+id {
		edge, weight = d.Shades.Pick, 2
	}
	d.Box(x, y, wide, high, 4, d.Shades.Panel, edge, weight)
	bp.drawBeginning(d, id, r2.Point{X: x, Y: y}, wide, d.Px(84))
	if id == "traced" {
		d.Middle(x+wide/2, y+d.Px(90), panel.Cut(bp.w.label("begin-traced"), panel.Bold(d.Small()), wide-d.Px(8)), panel.Bold(panel.Coloured(d.Small(), d.Shades.Ink)))
		at := x + d.Px(8)
		for _, c := range [][2]string{{"place-picture", "begin-photo"}, {"place-survey", "begin-survey"}} {
			at += d.Button(at, y+high-d.ButtonHigh()-d.Px(6), "begin "+c[0], bp.w.label(c[1]), false, func() { bp.w.commands.run(c[0]) }, "") + d.Px(6)
		}
		return
	}
	for i, l := range panel.Wrap(bp.w.label("do-begin-"+id), panel.Bold(d.Mid()), wide-d.Px(12)) {
		d.Middle(x+wide/2, y+d.Px(100)+float64(i)*panel.LineHigh(d.Mid()), l, panel.Bold(d.Mid()))
	}
	d.Hit(panel.Hit{ID: "begin " + id, X0: x, Y0: y, X1: x + wide, Y1: y + high, Press: func() {
		bp.w.commands.run("begin." + id)
		bp.w.focusBoard()
	}})
}

// drawBeginning is the small drawing of a way to begin.
func (bp *beginPanel) drawBeginning(d *panel.Drawing, id string, at r2.Point, wide, high float64) {
	p := func(x, y float64) r2.Point { return r2.Point{X: at.X + wide*x, Y: at.Y + high*y} }
	line := func(weight float64, pts ...r2.Point) {
		for i := 1; i < len(pts); i++ {
			d.Stroke(pts[i-1].X, pts[i-1].Y, pts[i].X, pts[i].Y, weight, d.Shades.Ink)
		}
	}
	vehicle := func(c r2.Point) {
		d.Box(c.X-d.Px(17), c.Y-d.Px(8), d.Px(34), d.Px(16), 3, d.Shades.Card, d.Shades.Ink, 1.5)
	}
	ring := func(c r2.Point, r float64) { d.Box(c.X-r, c.Y-r, 2*r, 2*r, r, d.Shades.Card, d.Shades.Ink, 1.5) }
	left, right := p(0.18, 0.6), p(0.82, 0.6)
	switch id {
	case board.StartStraight:
		line(2, left, right)
	case board.StartDoubled:
		block := p(0.34, 0.6)
		line(2, p(0.72, 0.5), block, p(0.72, 0.7))
		line(2, left, block)
		ring(block, d.Px(5))
	case board.StartRedirect:
		left, right = p(0.18, 0.75), p(0.82, 0.75)
		tree := p(0.5, 0.22)
		line(2, left, tree, right)
		ring(tree, d.Px(9))
		ring(tree, d.Px(4))
		rock := p(0.5, 0.75)
		d.Box(rock.X-d.Px(15), rock.Y-d.Px(11), d.Px(30), d.Px(22), 9, d.Shades.Hover, d.Shades.Quiet, 1)
	case "traced":
		a, b := p(0.26, 0.14), p(0.74, 0.9)
		d.Box(a.X, a.Y, b.X-a.X, b.Y-a.Y, 2, d.Shades.Card, d.Shades.Ink, 1.5)
		line(1.5, p(0.28, 0.72), p(0.4, 0.42), p(0.5, 0.6), p(0.6, 0.32), p(0.72, 0.62))
		line(2.5, p(0.32, 0.82), p(0.5, 0.82))
		return
	}
	vehicle(left)
	vehicle(right)
}
