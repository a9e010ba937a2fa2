package board

import (
	"math"

	"kedge/canvas/draw"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
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
	if terrain.Inside(outline, c) || toOutline(c, outline) <= clearM {
		return nil
	}
	middle := plan.Centroid(outline)
	ahead := math.Atan2(middle.Y-c.Y, middle.X-c.X)
	left, right := math.Inf(-1), math.Inf(1)
	var leftM, rightM float64
	for _, p := range outline {
		d := c.Dist(p)
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
			list = append(list, c.Plus(along*cos, along*sin))
		}
	}
	return list
}

// trail is what was drawn last and how it goes on: the points so far, and the
// clearances, in metres, at which it passes obstacles; 0 grazes them.
type trail struct {
	pts   []plan.Point
	clear []float64
}

// The clearances of what is led past obstacles.
var (
	lineClear    = []float64{passM}
	measureClear = []float64{passM, 0}
)

// passCandidates are the places near at where a way from c passes an obstacle at one of
// some clearances.
func passCandidates(sc *scene, c, at plan.Point, clear []float64) []candidate {
	var list []candidate
	for i := range sc.plan.Site.Obstacles {
		o := &sc.plan.Site.Obstacles[i]
		if o.Hidden {
			continue
		}
		name := part.Text("thing", sc.name(o.ID))
		for _, m := range clear {
			for _, q := range passing(c, at, o.Outline, m) {
				why := sc.label("snap-grazes", name)
				if m > 0 {
					why = sc.label("snap-passes", name, part.Text("length", kitText(sc, quantity.Length(m))))
				}
				list = append(list, candidate{q, draw.Guide{A: c, B: q, Why: why}})
			}
		}
	}
	return list
}

// edgeCandidates are the places near at that the last points drawn speak for: a right
// angle to the last edge, its length, a bearing in 15° steps, in line with the
// first point, past an obstacle.
func edgeCandidates(sc *scene, at plan.Point, before trail) []candidate {
	n := len(before.pts)
	if n == 0 {
		return nil
	}
	var list []candidate
	c := before.pts[n-1]
	d := c.Dist(at)
	if d*sc.view.PerM <= nearPx { // at the last corner itself nothing has a direction
		return nil
	}
	if n >= 2 {
		a := before.pts[n-2]
		if l := a.Dist(c); l > 0 {
			ux, uy := (c.X-a.X)/l, (c.Y-a.Y)/l
			side := stepped((at.X-c.X)*-uy+(at.Y-c.Y)*ux, sc.snapM)
			q := c.Plus(-uy*side, ux*side)
			list = append(list, candidate{q, draw.Guide{A: c, B: q, Why: sc.label("snap-right-angle")}})
			q = c.Plus((at.X-c.X)*l/d, (at.Y-c.Y)*l/d)
			list = append(list, candidate{q, draw.Guide{A: c, B: q, Why: sc.label("snap-same-length")}})
		}
		first := before.pts[0]
		for _, q := range [...]plan.Point{{X: first.X, Y: stepped(at.Y, sc.snapM)}, {X: stepped(at.X, sc.snapM), Y: first.Y}} {
			list = append(list, candidate{q, draw.Guide{A: first, B: q, Why: sc.label("snap-first")}})
		}
	}
	list = append(list, passCandidates(sc, c, at, before.clear)...)
	return append(list, onBearing(sc, c, at, quantity.Degrees(stepped(float64(bearing(c, at)), turnStep))))
}

// onBearing is the place near at on a bearing from c, at a step of the grid.
func onBearing(sc *scene, c, at plan.Point, to quantity.Degrees) candidate {
	e, n := plan.Heading(to)
	along := stepped((at.X-c.X)*e+(at.Y-c.Y)*n, sc.snapM)
	q := c.Plus(along*e, along*n)
	return candidate{q, draw.Guide{A: c, B: q, Why: bearingText(sc, to)}}
}
