package draw

import (
	"math"

	"kedge/canvas/pen"
	"kedge/solver/plan"
)

// disc draws how well the place of a thing is known: a faint disc round it that it may
// stand anywhere in, with an edge of dots; wider one way where that is known less.
func (d *drawing) disc(h *plan.Head, at plan.Point) {
	east, north := h.PlaceDoubt()
	if !(east > 0) && !(north > 0) {
		return
	}
	c := d.at(at)
	rx, ry := math.Max(d.m(float64(east)), d.px(1)), math.Max(d.m(float64(north)), d.px(1))
	if !d.inView(c, math.Max(rx, ry)) {
		return
	}
	var round pen.Path
	round.Circle(0, 0, 1)
	d.path.Reset()
	d.path.Append(&round, pen.Affine{A: rx, D: ry, E: c.X, F: c.Y})
	if !d.look.Print && !d.look.Field {
		d.fill(faded(d.c.Ink, 0.06))
	}
	d.stroke(d.c.Ink, 1.1, 1.2, 3.2)
}
