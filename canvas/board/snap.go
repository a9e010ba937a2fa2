package board

import (
	"math"
	"slices"
	"strconv"

	"kedge/canvas/draw"
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
func (b *Board) snap(p pointer, except []plan.ID, before []plan.Point) (plan.Point, []draw.Guide) {
	switch {
	case p.keys:
		return p.at, nil
	case p.fix != nil:
		return rounded(p.at, fineM/10), p.fix.guides
	case p.mods.Alt:
		return rounded(p.at, fineM), nil
	}
	grid := rounded(p.at, b.snapM)
	best, bestPx := grid, dist(grid, p.at)*b.view.PerM
	return b.nearest(p, best, bestPx, b.candidates(p.at, except, before))
}

// snapEdge is where the end of a line that is being led comes to lie over ground
// where there is nothing to hook on to: not on the grid, which says nothing of a
// line, but as its last points and the obstacles speak for.
func (b *Board) snapEdge(p pointer, before []plan.Point) (plan.Point, []draw.Guide) {
	if p.keys || p.mods.Alt {
		return p.at, nil
	}
	if p.fix != nil {
		return p.at, p.fix.guides
	}
	return b.nearest(p, p.at, snapPx, b.edges(p.at, before))
}

// nearest is the candidate nearest to the pointer, or best, which lies bestPx
// from it, and what speaks for it.
func (b *Board) nearest(p pointer, best plan.Point, bestPx float64, list []candidate) (plan.Point, []draw.Guide) {
	var guides []draw.Guide
	for _, c := range list {
		px := dist(c.at, p.at) * b.view.PerM
		switch {
		case px <= snapPx && px < bestPx-1e-9:
			best, bestPx, guides = c.at, px, []draw.Guide{c.guide}
		case dist(c.at, best) < fineM/2 && len(guides) < 2:
			guides = append(guides, c.guide) // it lies on the grid as well: still worth saying
		}
	}
	return rounded(best, fineM/10), guides
}

// candidates are the places near at that lie in line with other things, or at a
// right angle to, or as far as, the last edge of what is being drawn.
func (b *Board) candidates(at plan.Point, except []plan.ID, before []plan.Point) []candidate {
	var list []candidate
	reach := snapPx / b.view.PerM
	names := b.naming()
	see := func(id plan.ID, q plan.Point) {
		if slices.Contains(except, id) {
			return
		}
		if math.Abs(at.X-q.X) > reach && math.Abs(at.Y-q.Y) > reach {
			return
		}
		why := b.label("snap-in-line", text("thing", names(id)))
		if math.Abs(at.X-q.X) <= reach {
			c := plan.Point{X: q.X, Y: stepped(at.Y, b.snapM)}
			list = append(list, candidate{c, draw.Guide{A: q, B: c, Why: why}})
		}
		if math.Abs(at.Y-q.Y) <= reach {
			c := plan.Point{X: stepped(at.X, b.snapM), Y: q.Y}
			list = append(list, candidate{c, draw.Guide{A: q, B: c, Why: why}})
		}
	}
	s := &b.plan.Site
	for i := range s.Vehicles {
		see(s.Vehicles[i].ID, s.Vehicles[i].At)
	}
	for i := range s.Anchors {
		see(s.Anchors[i].ID, s.Anchors[i].At)
	}
	for i := range s.People {
		see(s.People[i].ID, s.People[i].At)
	}
	return append(list, b.edges(at, before)...)
}

// placeText is a place as shown at the pointer, "5.5 ; 8.5 m", in the unit a
// typed place is read in.
func (b *Board) placeText(at plan.Point) string {
	unit, symbol := 1.0, quantity.InMetres.String()
	if b.words.System().Length() == quantity.InFeet {
		unit, symbol = float64(quantity.Foot), quantity.InFeet.String()
	}
	short := func(x float64) string { return strconv.FormatFloat(stepped(x/unit, 0.1)+0, 'f', -1, 64) }
	return b.label("place", text("x", short(at.X)), text("y", short(at.Y)), text("unit", symbol))
}
