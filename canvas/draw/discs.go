package draw

import (
	"math"

	"kedge/canvas/pen"
	"kedge/solver/plan"
)

// discTint is how faint the ground is where a thing may be too. (ours, by looking)
const discTint = 0.06

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
		d.fill(faded(d.c.Ink, discTint))
	}
	d.stroke(d.c.Ink, 1.1, 1.2, 3.2)
}

// mayReach draws how far an obstacle may reach that lies as well as its middle is known: a
// faint border, as wide as that is known least.
func (d *drawing) mayReach(o *plan.Obstacle) {
	east, north := o.PlaceDoubt()
	r := d.m(math.Max(float64(east), float64(north)))
	if !(r > 0) || d.look.Print || d.look.Field {
		return
	}
	d.path.Reset()
	d.path.Polygon(d.outline(o.Outline)...)
	d.pen.Path(&d.path, &pen.Style{Stroke: faded(d.c.Ink, discTint), Width: 2 * r, Join: pen.RoundJoin})
}
