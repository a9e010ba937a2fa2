package board

import (
	"math"

	"kedge/canvas/draw"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// passM is the clearance, in metres, at which a line or a measure passes an
// obstacle when it snaps to it: room for a hand and for a line that swings.
// (ours)
const passM = 1.0

// passing are the places near at where a way from c passes an outline at a
// clearance: on the two rays from c that come no nearer to it.
//
//	about each corner at the distance d the ray turns by asin(clearance/d)
//
// There are none if c lies within the clearance, if the outline stands round c,
// or if at lies short of where the ray passes.
func passing(c, at plan.Point, outline []plan.Point, clearM float64) []plan.Point {
	if inside(c, outline) || toOutline(c, outline) <= clearM {
		return nil
	}
	middle := plan.Centroid(outline)
	ahead := math.Atan2(middle.Y-c.Y, middle.X-c.X)
	left, right := math.Inf(-1), math.Inf(1)
	var leftM, rightM float64
	for _, p := range outline {
		d := dist(c, p)
		turn := math.Remainder(math.Atan2(p.Y-c.Y, p.X-c.X)-ahead, 2*math.Pi)
		by, reach := math.Asin(clearM/d), math.Sqrt(d*d-clearM*clearM)
		if turn+by > left {
			left, leftM = turn+by, reach
		}
		if turn-by < right {
			right, rightM = turn-by, reach
		}
	}
	if left-right >= math.Pi {
		return nil
	}
	var list []plan.Point
	for _, ray := range [...][2]float64{{left, leftM}, {right, rightM}} {
		sin, cos := math.Sincos(ahead + ray[0])
		if along := (at.X-c.X)*cos + (at.Y-c.Y)*sin; along >= ray[1] {
			list = append(list, plus(c, along*cos, along*sin))
		}
	}
	return list
}

// passes are the places near at where the line or measure being drawn from c
// passes an obstacle at a clearance, and where a measure grazes one.
func (b *Board) passes(c, at plan.Point) []candidate {
	var list []candidate
	if b.tool != ToolLine && b.tool != ToolMeasure {
		return nil
	}
	for i := range b.plan.Site.Obstacles {
		o := &b.plan.Site.Obstacles[i]
		if o.Hidden {
			continue
		}
		name := text("thing", b.name(o.ID))
		for _, q := range passing(c, at, o.Outline, passM) {
			list = append(list, candidate{q, draw.Guide{A: c, B: q, Why: b.label("snap-passes", name, text("length", b.kitText(passM)))}})
		}
		if b.tool == ToolMeasure {
			for _, q := range passing(c, at, o.Outline, 0) {
				list = append(list, candidate{q, draw.Guide{A: c, B: q, Why: b.label("snap-grazes", name)}})
			}
		}
	}
	return list
}

// edges are the places near at that the last points drawn speak for: a right
// angle to the last edge, its length, a bearing in 15° steps, in line with the
// first point, past an obstacle.
func (b *Board) edges(at plan.Point, before []plan.Point) []candidate {
	n := len(before)
	if n == 0 {
		return nil
	}
	var list []candidate
	c := before[n-1]
	d := dist(c, at)
	if d*b.view.PerM <= nearPx { // at the last corner itself nothing has a direction
		return nil
	}
	if n >= 2 {
		a := before[n-2]
		if l := dist(a, c); l > 0 {
			ux, uy := (c.X-a.X)/l, (c.Y-a.Y)/l
			side := stepped((at.X-c.X)*-uy+(at.Y-c.Y)*ux, b.snapM)
			q := plus(c, -uy*side, ux*side)
			list = append(list, candidate{q, draw.Guide{A: c, B: q, Why: b.label("snap-right-angle")}})
			q = plus(c, (at.X-c.X)*l/d, (at.Y-c.Y)*l/d)
			list = append(list, candidate{q, draw.Guide{A: c, B: q, Why: b.label("snap-same-length")}})
		}
		first := before[0]
		for _, q := range [...]plan.Point{{X: first.X, Y: stepped(at.Y, b.snapM)}, {X: stepped(at.X, b.snapM), Y: first.Y}} {
			list = append(list, candidate{q, draw.Guide{A: first, B: q, Why: b.label("snap-first")}})
		}
	}
	list = append(list, b.passes(c, at)...)
	return append(list, b.onBearing(c, at, quantity.Degrees(stepped(float64(bearing(c, at)), turnStep))))
}

// onBearing is the place near at on a bearing from c, at a step of the grid.
func (b *Board) onBearing(c, at plan.Point, to quantity.Degrees) candidate {
	e, n := plan.Heading(to)
	along := stepped((at.X-c.X)*e+(at.Y-c.Y)*n, b.snapM)
	q := plus(c, along*e, along*n)
	return candidate{q, draw.Guide{A: c, B: q, Why: b.bearingText(to)}}
}
