package board

import (
	"math"
	"slices"

	"kedge/canvas/draw"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// snapPx is how near, in pixels, the pointer must be to a snapping line. (ours)
const snapPx = 6

// candidate is a place to snap to.
type candidate struct {
	at    plan.Point
	guide draw.Guide
}

// snap is where a thing set down at p comes to lie: on the grid, or nearer to
// the pointer in line with something else, at a right angle or of the same
// length as what was drawn last. Alt holds it off. What is typed is not snapped.
// The guides say what it snapped to.
func snap(sc *scene, p pointer, except []plan.ID, before trail) (plan.Point, []draw.Guide) {
	switch {
	case p.keys:
		return p.at, nil
	case p.fix != nil:
		return rounded(p.at, fineM/10), p.fix.guides
	case p.mods.Alt:
		return rounded(p.at, fineM), nil
	}
	grid := rounded(p.at, sc.snapM)
	best, bestPx := grid, grid.Dist(p.at)*sc.view.PerM
	return nearestOf(sc, p, best, bestPx, snapCandidates(sc, p.at, except, before))
}

// snapEdge is where the end of a line that is being led comes to lie over ground
// where there is nothing to hook on to: not on the grid, which says nothing of a
// line, but as its last points and the obstacles speak for.
func snapEdge(sc *scene, p pointer, before trail) (plan.Point, []draw.Guide) {
	if p.keys || p.mods.Alt {
		return p.at, nil
	}
	if p.fix != nil {
		return p.at, p.fix.guides
	}
	return nearestOf(sc, p, p.at, snapPx, edgeCandidates(sc, p.at, before))
}

// nearestOf is the candidate nearest to the pointer, or best, which lies bestPx
// from it, and what speaks for it.
func nearestOf(sc *scene, p pointer, best plan.Point, bestPx float64, list []candidate) (plan.Point, []draw.Guide) {
	var guides []draw.Guide
	for _, c := range list {
		px := c.at.Dist(p.at) * sc.view.PerM
		switch {
		case px <= snapPx && px < bestPx-1e-9:
			best, bestPx, guides = c.at, px, []draw.Guide{c.guide}
		case c.at.Dist(best) < fineM/2 && len(guides) < 2:
			guides = append(guides, c.guide) // it lies on the grid as well: still worth saying
		}
	}
	return rounded(best, fineM/10), guides
}

// snapCandidates are the places near at that lie in line with other things, or at a
// right angle to, or as far as, the last edge of what is being drawn.
func snapCandidates(sc *scene, at plan.Point, except []plan.ID, before trail) []candidate {
	var list []candidate
	reach := snapPx / sc.view.PerM
	names := sc.naming()
	see := func(id plan.ID, q plan.Point) {
		if slices.Contains(except, id) {
			return
		}
		if math.Abs(at.X-q.X) > reach && math.Abs(at.Y-q.Y) > reach {
			return
		}
		why := sc.label("snap-in-line", part.Text("thing", names(id)))
		if math.Abs(at.X-q.X) <= reach {
			c := plan.Point{X: q.X, Y: stepped(at.Y, sc.snapM)}
			list = append(list, candidate{c, draw.Guide{A: q, B: c, Why: why}})
		}
		if math.Abs(at.Y-q.Y) <= reach {
			c := plan.Point{X: stepped(at.X, sc.snapM), Y: q.Y}
			list = append(list, candidate{c, draw.Guide{A: q, B: c, Why: why}})
		}
	}
	s := &sc.plan.Site
	for i := range s.Vehicles {
		see(s.Vehicles[i].ID, s.Vehicles[i].At)
	}
	for i := range s.Anchors {
		see(s.Anchors[i].ID, s.Anchors[i].At)
	}
	for i := range s.People {
		see(s.People[i].ID, s.People[i].At)
	}
	return append(list, edgeCandidates(sc, at, before)...)
}

// placeText is a place as shown at the pointer, "5.5 ; 8.5 m", in the unit a
// typed place is read in.
func placeText(sc *scene, at plan.Point) string {
	unit, symbol := 1.0, quantity.InMetres.String()
	if sc.words.System().Length() == quantity.InFeet {
		unit, symbol = float64(quantity.Foot), quantity.InFeet.String()
	}
	short := func(x float64) string {
		return sc.words.Decimal(stepped(x/unit, 0.1)+0, -1)
	}
	return sc.label("place", part.Text("x", short(at.X)), part.Text("y", short(at.Y)), part.Text("unit", symbol))
}
