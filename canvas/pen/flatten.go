package pen

import (
	"math"

	"github.com/golang/geo/r2"
)

// Flattening of curves into straight pieces.
const (
	// flatTolerance is the greatest distance, in pixels, between a curve and the
	// pieces that stand for it. Pieces are chords: a disc loses two thirds of it
	// all round, which at a fiftieth is under the steps of 256 levels.
	flatTolerance = 0.02
	// edgedTolerance is the same for what has an edge drawn round it: both sides
	// of the edge move together, and the fill's own edge lies under it.
	edgedTolerance = 0.06
	// glyphTolerance is the same for letters, whose curves are short.
	glyphTolerance = 0.05
	// haloTolerance is the same for the outline round letters, of which nobody
	// sees the exact edge and which has eight times as many pieces.
	haloTolerance = 0.2
	// maxFlatPieces bounds one curve at deep zoom, where most of it is outside.
	maxFlatPieces = 1024
)

// contour is a run of points in an arena.
type contour struct {
	from, to int
	closed   bool
}

// flattener turns a mapped Path into contours of straight pieces. Its slices
// are arenas: append only, reset by the owner.
type flattener struct {
	pts      []r2.Point
	contours []contour
}

func (f *flattener) reset() { f.pts, f.contours = f.pts[:0], f.contours[:0] }

// add flattens p under m and returns the range of new contours.
func (f *flattener) add(p *Path, m Affine, tolerance float64) (from, to int) {
	from = len(f.contours)
	i, begun := 0, false
	begin := len(f.pts)
	end := func(closed bool) {
		if n := len(f.pts) - begin; n > 0 && begun {
			f.contours = append(f.contours, contour{begin, len(f.pts), closed})
		}
		begin, begun = len(f.pts), false
	}
	var cur r2.Point
	for _, v := range p.verbs {
		switch v {
		case MoveVerb:
			end(false)
			cur = m.Apply(p.pts[i])
			f.pts = append(f.pts, cur)
			begun = true
		case LineVerb:
			cur = m.Apply(p.pts[i])
			f.pts = append(f.pts, cur)
		case QuadVerb:
			b, c := m.Apply(p.pts[i]), m.Apply(p.pts[i+1])
			f.quad(cur, b, c, tolerance)
			cur = c
		case CubeVerb:
			b, c, d := m.Apply(p.pts[i]), m.Apply(p.pts[i+1]), m.Apply(p.pts[i+2])
			f.cube(cur, b, c, d, tolerance)
			cur = d
		case CloseVerb:
			end(true)
		}
		i += v.points()
	}
	end(false)
	return from, len(f.contours)
}

// pieces is how many straight pieces keep the error of a Bézier of the given
// degree under the tolerance (Wang's bound on the second difference d):
//
//	n = √( degree·(degree−1)·d / (8·tolerance) )
func pieces(degree, d, tolerance float64) int {
	n := math.Ceil(math.Sqrt(degree * (degree - 1) * d / (8 * tolerance)))
	return int(math.Max(1, math.Min(n, maxFlatPieces)))
}

func (f *flattener) quad(a, b, c r2.Point, tolerance float64) {
	n := pieces(2, math.Hypot(a.X-2*b.X+c.X, a.Y-2*b.Y+c.Y), tolerance)
	for i := 1; i < n; i++ {
		t := float64(i) / float64(n)
		u := 1 - t
		f.pts = append(f.pts, r2.Point{
			X: u*u*a.X + 2*u*t*b.X + t*t*c.X,
			Y: u*u*a.Y + 2*u*t*b.Y + t*t*c.Y,
		})
	}
	f.pts = append(f.pts, c)
}

func (f *flattener) cube(a, b, c, d r2.Point, tolerance float64) {
	dev := math.Max(
		math.Hypot(a.X-2*b.X+c.X, a.Y-2*b.Y+c.Y),
		math.Hypot(b.X-2*c.X+d.X, b.Y-2*c.Y+d.Y))
	n := pieces(3, dev, tolerance)
	for i := 1; i < n; i++ {
		t := float64(i) / float64(n)
		u := 1 - t
		w0, w1, w2, w3 := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
		f.pts = append(f.pts, r2.Point{
			X: w0*a.X + w1*b.X + w2*c.X + w3*d.X,
			Y: w0*a.Y + w1*b.Y + w2*c.Y + w3*d.Y,
		})
	}
	f.pts = append(f.pts, d)
}
