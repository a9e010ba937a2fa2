package draw

import (
	"cmp"
	"math"
	"slices"

	"kedge/canvas/pen"
)

// hatchOf is a pattern of lines or dots over the union of outlines, leaving
// out masks, and made only where it is seen. The pens' own hatch knows one
// outline and no masks.
type hatchOf struct {
	angleDeg float64
	spacing  float64
	origin   pen.Point // a line passes through it: the pattern is tied to the ground
	view     box
}

// maxHatchRows bounds the rows of a pattern; a finer one is thinned.
const maxHatchRows = 2000

type crossing struct {
	at   float64
	dir  int8
	mask bool
}

// each calls f for every piece of a row that is inside an outline and outside
// the masks, in axes turned along the rows.
func (h *hatchOf) each(outlines, masks [][]pen.Point, f func(row int, t, s0, s1 float64)) {
	sin, cos := math.Sincos(h.angleDeg * math.Pi / 180)
	turn := func(p pen.Point) (s, t float64) {
		x, y := p.X-h.origin.X, -(p.Y - h.origin.Y)
		return x*cos + y*sin, -x*sin + y*cos
	}
	sMin, sMax, tMin, tMax := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	b := h.view
	for _, p := range [...]pen.Point{{X: b.x0, Y: b.y0}, {X: b.x1, Y: b.y0}, {X: b.x1, Y: b.y1}, {X: b.x0, Y: b.y1}} {
		s, t := turn(p)
		sMin, sMax = math.Min(sMin, s), math.Max(sMax, s)
		tMin, tMax = math.Min(tMin, t), math.Max(tMax, t)
	}
	step := h.spacing
	for (tMax-tMin)/step > maxHatchRows {
		step *= 2
	}
	first, last := math.Ceil(tMin/step), math.Floor(tMax/step)
	if !(first <= last) {
		return
	}
	rows := make([][]crossing, int(last-first)+1)
	take := func(polys [][]pen.Point, mask bool) {
		for _, poly := range polys {
			ps, pt := turn(poly[len(poly)-1])
			for _, p := range poly {
				s, t := turn(p)
				dir := int8(1)
				s0, t0, s1, t1 := ps, pt, s, t
				ps, pt = s, t
				if t0 == t1 {
					continue
				}
				if t0 > t1 {
					dir = -1
					s0, t0, s1, t1 = s1, t1, s0, t0
				}
				// Rows with t0 ≤ row·step < t1.
				for r := math.Max(math.Ceil(t0/step), first); r <= last && r*step < t1; r++ {
					at := s0 + (s1-s0)*((r*step-t0)/(t1-t0))
					i := int(r - first)
					rows[i] = append(rows[i], crossing{at, dir, mask})
				}
			}
		}
	}
	take(outlines, false)
	take(masks, true)
	for i, row := range rows {
		if len(row) == 0 {
			continue
		}
		slices.SortFunc(row, func(a, b crossing) int {
			return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.dir, b.dir))
		})
		in, out := 0, 0
		t := (first + float64(i)) * step
		for k, c := range row {
			if k > 0 && in != 0 && out == 0 {
				a, b := math.Max(row[k-1].at, sMin), math.Min(c.at, sMax)
				if a < b {
					f(int(first)+i, t, a, b)
				}
			}
			if c.mask {
				out += int(c.dir)
			} else {
				in += int(c.dir)
			}
		}
	}
}

// back is the place of turned axes in the picture.
func (h *hatchOf) back() func(s, t float64) pen.Point {
	sin, cos := math.Sincos(h.angleDeg * math.Pi / 180)
	return func(s, t float64) pen.Point {
		return pen.Point{X: h.origin.X + s*cos - t*sin, Y: h.origin.Y - (s*sin + t*cos)}
	}
}

// lines adds the pattern as open contours, cut at the edge of the picture.
func (h *hatchOf) lines(dst *pen.Path, outlines, masks [][]pen.Point) {
	at := h.back()
	h.each(outlines, masks, func(_ int, t, s0, s1 float64) {
		a, b := at(s0, t), at(s1, t)
		if t0, t1, ok := h.view.clipped(a, b); ok {
			p, q := mix(a, b, t0), mix(a, b, t1)
			dst.Line(p.X, p.Y, q.X, q.Y)
		}
	})
}

// dots adds the pattern as small squares turned on a corner, every other row
// shifted by half.
func (h *hatchOf) dots(dst *pen.Path, outlines, masks [][]pen.Point, r float64) {
	at := h.back()
	h.each(outlines, masks, func(row int, t, s0, s1 float64) {
		shift := 0.0
		if row%2 != 0 {
			shift = h.spacing / 2
		}
		for i := math.Ceil((s0 - shift) / h.spacing); i*h.spacing+shift <= s1; i++ {
			if c := at(i*h.spacing+shift, t); h.view.holds(c) {
				dst.Polygon(pen.Point{X: c.X + r*1.25, Y: c.Y}, pen.Point{X: c.X, Y: c.Y + r*1.25}, pen.Point{X: c.X - r*1.25, Y: c.Y}, pen.Point{X: c.X, Y: c.Y - r*1.25})
			}
		}
	})
}

// bounds is the box round points.
func bounds(pts []pen.Point) box {
	b := box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, p := range pts {
		b.x0, b.y0 = math.Min(b.x0, p.X), math.Min(b.y0, p.Y)
		b.x1, b.y1 = math.Max(b.x1, p.X), math.Max(b.y1, p.Y)
	}
	return b
}

// counterClockwise turns outlines the same way round, as seen, so that areas
// that overlap add up.
func counterClockwise(poly []pen.Point) []pen.Point {
	area := 0.0
	for i, a := range poly {
		area += cross(a, poly[(i+1)%len(poly)])
	}
	if area > 0 { // y points down: positive is clockwise as seen
		slices.Reverse(poly)
	}
	return poly
}

// unionEdges are the edges of the union of outlines as open runs: each edge is
// cut where it meets another outline, and the pieces inside one are left out.
// Edges outside the view are left out too.
func unionEdges(outlines [][]pen.Point, view box) [][]pen.Point {
	boxes := make([]box, len(outlines))
	for i, o := range outlines {
		boxes[i] = bounds(o)
	}
	var out [][]pen.Point
	var run []pen.Point
	end := func() {
		if len(run) > 1 {
			out = append(out, run)
		}
		run = nil
	}
	var cuts []float64
	for i, o := range outlines {
		for k, a := range o {
			b := o[(k+1)%len(o)]
			t0, t1, ok := view.clipped(a, b)
			if !ok {
				end()
				continue
			}
			eb := bounds([]pen.Point{a, b})
			out1 := square(unit(sub(b, a))) // outward: outlines run counter-clockwise as seen
			cuts = append(cuts[:0], t0, t1)
			for j, other := range outlines {
				if j == i || !boxes[j].grown(1e-9).meets(eb.grown(1e-9)) {
					continue
				}
				cuts = addCuts(cuts, a, b, other, t0, t1)
			}
			slices.Sort(cuts)
			for n := 1; n < len(cuts); n++ {
				if cuts[n]-cuts[n-1] < 1e-9 {
					continue
				}
				if hidden(along(mix(a, b, (cuts[n]+cuts[n-1])/2), out1, edgeNudge), i, outlines, boxes) {
					end()
					continue
				}
				p, q := mix(a, b, cuts[n-1]), mix(a, b, cuts[n])
				if len(run) == 0 || dist(run[len(run)-1], p) > 1e-6 {
					end()
					run = append(run, p)
				}
				run = append(run, q)
			}
		}
		end()
	}
	return out
}

// addCuts adds where ab crosses the edges of a polygon, as shares of ab.
func addCuts(cuts []float64, a, b pen.Point, poly []pen.Point, t0, t1 float64) []float64 {
	d := sub(b, a)
	for k, p := range poly {
		e := sub(poly[(k+1)%len(poly)], p)
		den := cross(d, e)
		if den == 0 {
			continue
		}
		ap := sub(p, a)
		t, u := cross(ap, e)/den, cross(ap, d)/den
		if t > t0 && t < t1 && u >= 0 && u <= 1 {
			cuts = append(cuts, t)
		}
	}
	return cuts
}

// edgeNudge is how far outside an edge is looked, pen units: outlines that run
// together keep their edge, outlines that abut lose it.
const edgeNudge = 0.01

// hidden tells that a place just outside outline i is inside another.
func hidden(p pen.Point, i int, outlines [][]pen.Point, boxes []box) bool {
	for j, o := range outlines {
		if j != i && boxes[j].holds(p) && insidePolygon(p, o) {
			return true
		}
	}
	return false
}
