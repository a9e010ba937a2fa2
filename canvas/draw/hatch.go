package draw

import (
	"math"
	"slices"

	"github.com/golang/geo/r2"

	"kedge/canvas/pen"
	"kedge/solver/terrain"
)

// hatchOf is a pattern of lines or dots over the union of outlines, leaving
// out clearings, and made only where it is seen. The pens' own hatch knows one
// outline and no clearings.
type hatchOf struct {
	angleDeg float64
	spacing  float64
	origin   r2.Point // a line passes through it: the pattern is tied to the ground
	view     r2.Rect
	mem      *crossings
	crumb    float64 // pieces shorter than this are left out
}

// maxHatchRows bounds the rows of a pattern; a finer one is thinned.
const maxHatchRows = 2000

type crossing struct {
	at   float64
	row  int32
	dir  int8
	mask bool
}

// before sorts crossings of a row: by place, at one place the leaving first.
func (c *crossing) before(o *crossing) bool {
	return c.at < o.at || c.at == o.at && c.dir < o.dir
}

// crossings is the memory of a hatch: what its rows cross, as met and by rows.
type crossings struct {
	met, sorted []crossing
	from        []int32 // of each row in sorted
}

// byRow puts what was met in order: by rows, each from its start. Rows have few
// crossings, and those of one outline come nearly sorted.
func (x *crossings) byRow(rows int) {
	if cap(x.from) < rows+1 {
		x.from = make([]int32, rows+1)
	}
	x.from = x.from[:rows+1]
	clear(x.from)
	for i := range x.met {
		x.from[x.met[i].row+1]++
	}
	for i := range rows {
		x.from[i+1] += x.from[i]
	}
	if cap(x.sorted) < len(x.met) {
		x.sorted = make([]crossing, len(x.met))
	}
	x.sorted = x.sorted[:len(x.met)]
	for i := range x.met { // from[row] is moved to the row's end, then is the next one's start
		c := &x.met[i]
		at := x.from[c.row]
		x.sorted[at] = *c
		x.from[c.row]++
	}
	copy(x.from[1:], x.from[:rows])
	x.from[0] = 0
	for r := range rows {
		row := x.sorted[x.from[r]:x.from[r+1]]
		for i := 1; i < len(row); i++ {
			c := row[i]
			k := i
			for ; k > 0 && c.before(&row[k-1]); k-- {
				row[k] = row[k-1]
			}
			row[k] = c
		}
	}
}

// add notes where the edges of an outline, turned, meet the rows from first to
// last.
func (x *crossings) add(poly []r2.Point, turn func(r2.Point) (s, t float64), step, first, last float64, mask bool) {
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
			x.met = append(x.met, crossing{at, int32(r - first), dir, mask})
		}
	}
}

// each calls f for every piece of a row that is inside an outline and outside
// the clearings, in axes turned along the rows.
func (h *hatchOf) each(outlines [][]r2.Point, off *clearings, f func(row int, t, s0, s1 float64)) {
	sin, cos := math.Sincos(h.angleDeg * math.Pi / 180)
	turn := func(p r2.Point) (s, t float64) {
		x, y := p.X-h.origin.X, -(p.Y - h.origin.Y)
		return x*cos + y*sin, -x*sin + y*cos
	}
	sMin, sMax, tMin, tMax := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, p := range h.view.Vertices() {
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
	rows := int(last-first) + 1
	x := h.mem
	x.met = x.met[:0]
	take := func(poly []r2.Point, mask bool) { x.add(poly, turn, step, first, last, mask) }
	whole := r2.EmptyRect()
	for _, o := range outlines {
		take(o, false)
		whole = whole.AddRect(r2.RectFromPoints(o...))
	}
	if off != nil {
		for i := range off.all {
			if off.all[i].box.InteriorIntersects(whole) {
				take(off.all[i].poly, true)
			}
		}
	}
	x.byRow(rows)
	for i := range rows {
		row := x.sorted[x.from[i]:x.from[i+1]]
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
func (h *hatchOf) back() func(s, t float64) r2.Point {
	sin, cos := math.Sincos(h.angleDeg * math.Pi / 180)
	return func(s, t float64) r2.Point {
		return r2.Point{X: h.origin.X + s*cos - t*sin, Y: h.origin.Y - (s*sin + t*cos)}
	}
}

// lines adds the pattern as open contours, cut at the edge of the picture.
func (h *hatchOf) lines(dst *pen.Path, outlines [][]r2.Point, off *clearings) {
	at := h.back()
	h.each(outlines, off, func(_ int, t, s0, s1 float64) {
		if s1-s0 < h.crumb {
			return
		}
		a, b := at(s0, t), at(s1, t)
		if t0, t1, ok := pen.Cut(h.view, a, b); ok {
			p, q := pen.Mix(a, b, t0), pen.Mix(a, b, t1)
			dst.Line(p.X, p.Y, q.X, q.Y)
		}
	})
}

// dots adds the pattern as small squares turned on a corner, every other row
// shifted by half: strokes as long as they are wide.
func (h *hatchOf) dots(dst *pen.Path, outlines [][]r2.Point, off *clearings, side float64) {
	at, r := h.back(), side/2*math.Sqrt2/2
	h.each(outlines, off, func(row int, t, s0, s1 float64) {
		shift := 0.0
		if row%2 != 0 {
			shift = h.spacing / 2
		}
		for i := math.Ceil((s0 - shift) / h.spacing); i*h.spacing+shift <= s1; i++ {
			if c := at(i*h.spacing+shift, t); h.view.ContainsPoint(c) {
				dst.Line(c.X-r, c.Y-r, c.X+r, c.Y+r)
			}
		}
	})
}

// counterClockwise turns outlines the same way round, as seen, so that areas
// that overlap add up.
func counterClockwise(poly []r2.Point) []r2.Point {
	if terrain.Area(poly) > 0 { // y points down: positive is clockwise as seen
		slices.Reverse(poly)
	}
	return poly
}

// unionEdges are the edges of the union of outlines as open runs: each edge is
// cut where it meets another outline, and the pieces inside one are left out.
// Edges outside the view are left out too.
func unionEdges(outlines [][]r2.Point, view r2.Rect) [][]r2.Point {
	boxes, wide := make([]r2.Rect, len(outlines)), make([]r2.Rect, len(outlines))
	for i, o := range outlines {
		boxes[i] = r2.RectFromPoints(o...)
		wide[i] = boxes[i].ExpandedByMargin(1e-9)
	}
	var out [][]r2.Point
	var run []r2.Point
	end := func() {
		if len(run) > 1 {
			out = append(out, run)
		}
		run = nil
	}
	var cuts []float64
	by := 0 // what hid the piece before mostly hides the next
	for i, o := range outlines {
		for k, a := range o {
			b := o[(k+1)%len(o)]
			t0, t1, ok := pen.Cut(view, a, b)
			if !ok {
				end()
				continue
			}
			eb := r2.RectFromPoints(a, b).ExpandedByMargin(1e-9)
			out1 := b.Sub(a).Normalize().Ortho() // outward: outlines run counter-clockwise as seen
			cuts = append(cuts[:0], t0, t1)
			for j, other := range outlines {
				if j == i || !wide[j].InteriorIntersects(eb) {
					continue
				}
				cuts = addCuts(cuts, a, b, other, t0, t1)
			}
			slices.Sort(cuts)
			for n := 1; n < len(cuts); n++ {
				if cuts[n]-cuts[n-1] < 1e-9 {
					continue
				}
				if hidden(pen.Along(pen.Mix(a, b, (cuts[n]+cuts[n-1])/2), out1, edgeNudge), i, &by, outlines, boxes) {
					end()
					continue
				}
				p, q := pen.Mix(a, b, cuts[n-1]), pen.Mix(a, b, cuts[n])
				if len(run) == 0 || run[len(run)-1].Sub(p).Norm() > 1e-6 {
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
func addCuts(cuts []float64, a, b r2.Point, poly []r2.Point, t0, t1 float64) []float64 {
	d := b.Sub(a)
	p := poly[len(poly)-1]
	side := d.Cross(p.Sub(a))
	for _, q := range poly {
		ap, e, was := p.Sub(a), q.Sub(p), side
		side, p = d.Cross(q.Sub(a)), q
		den := d.Cross(e)
		if den == 0 || was > 0 && side > 0 || was < 0 && side < 0 { // both ends on one side of ab
			continue
		}
		t, u := ap.Cross(e)/den, ap.Cross(d)/den
		if t > t0 && t < t1 && u >= 0 && u <= 1 {
			cuts = append(cuts, t)
		}
	}
	return cuts
}

// edgeNudge is how far outside an edge is looked, pen units: outlines that run
// together keep their edge, outlines that abut lose it.
const edgeNudge = 0.01

// hidden reports whether a place just outside outline i is inside another, and
// notes which; that noted before is asked first.
func hidden(p r2.Point, i int, by *int, outlines [][]r2.Point, boxes []r2.Rect) bool {
	for n := range outlines {
		j := (*by + n) % len(outlines)
		if j != i && boxes[j].ContainsPoint(p) && terrain.Inside(outlines[j], p) {
			*by = j
			return true
		}
	}
	return false
}
