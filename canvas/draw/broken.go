package draw

import (
	"cmp"
	"math"
	"slices"

	"github.com/golang/geo/r2"

	"kedge/canvas/pen"
)

// bareLabels are the boxes of the labels that have no frame: an edge that went
// on between their letters would be read with them.
func (d *drawing) bareLabels() []r2.Rect {
	var out []r2.Rect
	for i := range d.labels.all {
		if x := &d.labels.all[i]; x.frame == bare {
			out = append(out, x.place.Box)
		}
	}
	return out
}

// brokenEdges adds the edges of a zone, broken where a label without a frame
// lies on them.
func (d *brush) brokenEdges(edges [][]r2.Point, plates []r2.Rect) {
	type gap struct{ t0, t1 float64 }
	var gaps []gap
	var near []r2.Rect
	for _, e := range edges {
		open := false
		for i := 1; i < len(e); i++ {
			a, b := e[i-1], e[i]
			gaps = gaps[:0]
			near = within(near[:0], plates, a, b, d.px(1))
			for _, p := range near {
				if t0, t1, ok := pen.Cut(p, a, b); ok {
					gaps = append(gaps, gap{t0, t1})
				}
			}
			slices.SortFunc(gaps, func(g, h gap) int { return cmp.Compare(g.t0, h.t0) })
			at := 0.0
			to := func(t float64) { // a piece from at to t
				if t <= at {
					return
				}
				if p := pen.Mix(a, b, at); !open {
					d.path.MoveTo(p.X, p.Y)
				}
				p := pen.Mix(a, b, t)
				d.path.LineTo(p.X, p.Y)
				open = true
			}
			for _, g := range gaps {
				to(g.t0)
				at, open = math.Max(at, g.t1), false
			}
			to(1)
		}
	}
}

// within adds to a list those of some rectangles that a line from a to b, so much wider
// to all sides, may touch.
func within(near, all []r2.Rect, a, b r2.Point, by float64) []r2.Rect {
	around := r2.RectFromPoints(a, b).ExpandedByMargin(by)
	for _, p := range all {
		if p.InteriorIntersects(around) {
			near = append(near, p)
		}
	}
	return near
}
