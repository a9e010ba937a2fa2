package pen

import (
	"image"
	"math"

	"github.com/golang/geo/r2"
	"github.com/srwiley/rasterx"
	"golang.org/x/image/math/fixed"
)

// strokeScale refines rasterx's fixed point from 1/64 to 1/256 of a pixel:
// the stroker rounds its normals towards zero, which at 1/64 makes a slanted
// one-pixel line three percent thin.
const strokeScale = 4

// maxUnits bounds a half-width in fixed-point units: the stroker multiplies two
// of them in 32 bits (46340² < 2³¹). Strokes wider than some 350 pixels get a
// coarser scale.
const maxUnits = 46000

// minStrokePx is the thinnest stroke: below it fixed point loses the normal.
const minStrokePx = 1.0 / 16

// minDashPx is the shortest dash pattern, in pixels, drawn as dashes; a finer
// one is a solid line.
const minDashPx = 0.25

// edgeScanner receives the stroker's outline. The stroker sends open chains
// that only together are closed: raw edges are kept, nothing is closed here.
type edgeScanner struct {
	edges []edge
	box   r2.Rect
	unit  float64 // pixels to one fixed-point unit
	at    fixed.Point26_6
}

func (s *edgeScanner) Start(a fixed.Point26_6) { s.at = a }

func (s *edgeScanner) Line(b fixed.Point26_6) {
	s.edges = addEdge(s.edges, &s.box,
		float64(s.at.X)*s.unit, float64(s.at.Y)*s.unit, float64(b.X)*s.unit, float64(b.Y)*s.unit)
	s.at = b
}

func (s *edgeScanner) Draw()                              {}
func (s *edgeScanner) GetPathExtent() fixed.Rectangle26_6 { return fixed.Rectangle26_6{} }
func (s *edgeScanner) SetBounds(w, h int)                 {}
func (s *edgeScanner) SetColor(any)                       {}
func (s *edgeScanner) SetWinding(bool)                    {}
func (s *edgeScanner) Clear()                             {}
func (s *edgeScanner) SetClip(image.Rectangle)            {}

// stroker outlines contours. Contours are clipped to the box in float64 before
// they reach fixed point; cut ends lie so far outside that they are not seen.
type stroker struct {
	scan    edgeScanner
	rx      *rasterx.Stroker
	reach   r2.Rect // the box widened by what a stroke can reach
	fixed   float64 // fixed-point units to a pixel
	last    fixed.Point26_6
	running bool
	moved   bool // running contour has a step of some length
	butt    bool

	dash    []float64
	dashSum float64
	offset  float64
}

func newStroker() *stroker {
	s := &stroker{}
	s.rx = rasterx.NewStroker(1, 1, &s.scan)
	return s
}

// set prepares for strokes of one op; edges go to s.scan.edges.
func (s *stroker) set(box r2.Rect, width float64, lineCap Cap, join Join, dash []float64, offset float64) {
	width = math.Max(width, minStrokePx)
	s.fixed = math.Min(64*strokeScale, maxUnits/(width/2))
	s.scan.box, s.scan.unit = box, 1/s.fixed
	reach := width/2*MiterLimit + 2
	s.reach = Box(box.X.Lo-reach, box.Y.Lo-reach, box.X.Hi+reach, box.Y.Hi+reach)

	s.butt = lineCap == ButtCap
	capF := rasterx.ButtCap
	switch lineCap {
	case RoundCap:
		capF = roundCap
	case SquareCap:
		capF = rasterx.SquareCap
	}
	mode, gap := rasterx.Miter, rasterx.FlatGap
	switch join {
	case RoundJoin:
		mode, gap = rasterx.Round, roundGap
	case BevelJoin:
		mode = rasterx.Bevel
	}
	s.rx.SetStroke(fixed.Int26_6(math.Round(width*s.fixed)), MiterLimit<<6, capF, capF, gap, mode)

	s.dash, s.dashSum, s.offset = dash, 0, offset
	for _, d := range dash {
		s.dashSum += d
	}
	if !(s.dashSum >= minDashPx) {
		s.dash = nil
	}
}

// roundGap bridges a corner by an arc in straight pieces; rasterx's own makes
// a Bézier curve and allocates for it.
func roundGap(p rasterx.Adder, a, from, to fixed.Point26_6) {
	// Pieces within 1/32 pixel of the arc at the fine scale: r·(1−cos(step/2)).
	const tolerance = 64 * strokeScale / 32
	fx, fy, tx, ty := float64(from.X), float64(from.Y), float64(to.X), float64(to.Y)
	r := math.Sqrt(fx*fx + fy*fy)
	if r > tolerance && fx*ty-fy*tx >= 0 {
		// One piece is enough if cos(sweep) ≥ 2·cos²(step/2) − 1: no angle has
		// to be known, as at the corners of a flattened curve.
		k := 1 - tolerance/r
		if fx*tx+fy*ty >= (2*k*k-1)*r*r {
			p.Line(a.Add(to))
			return
		}
	}
	t0 := math.Atan2(float64(from.Y), float64(from.X))
	sweep := math.Atan2(float64(to.Y), float64(to.X)) - t0
	if sweep < 0 {
		sweep += 2 * math.Pi
	}
	n := 1
	if r > tolerance {
		n = int(math.Ceil(sweep / (2 * math.Acos(1-tolerance/r))))
	} else if sweep > math.Pi/2 {
		n = 2
	}
	for i := 1; i < n; i++ {
		sin, cos := math.Sincos(t0 + sweep*float64(i)/float64(n))
		p.Line(fixed.Point26_6{X: a.X + fixed.Int26_6(math.Round(r*cos)), Y: a.Y + fixed.Int26_6(math.Round(r*sin))})
	}
	p.Line(a.Add(to))
}

func roundCap(p rasterx.Adder, a, n fixed.Point26_6) {
	p.Start(a.Add(n))
	roundGap(p, a, n, fixed.Point26_6{X: -n.X, Y: -n.Y})
}

func (s *stroker) point(p r2.Point) fixed.Point26_6 {
	return fixed.Point26_6{X: fixed.Int26_6(math.Round(p.X * s.fixed)), Y: fixed.Int26_6(math.Round(p.Y * s.fixed))}
}

func (s *stroker) start(p r2.Point) {
	s.last = s.point(p)
	s.rx.Start(s.last)
	s.running, s.moved = true, false
}

func (s *stroker) line(p r2.Point) {
	if q := s.point(p); q != s.last {
		s.rx.Line(q)
		s.last, s.moved = q, true
	}
}

// stop ends the running contour; one of no length becomes a dot if its caps
// have a shape.
func (s *stroker) stop(closed bool) {
	if !s.running {
		return
	}
	s.running = false
	if !s.moved {
		if s.butt {
			return
		}
		// One unit to the right: for a step of no length the stroker would turn
		// the caps as its previous contour happened to end.
		s.rx.Line(s.last.Add(fixed.Point26_6{X: 1}))
		closed = false
	}
	s.rx.Stop(closed)
}

// inside reports whether both ends are within reach.
func (s *stroker) inside(p r2.Point) bool {
	return p.X >= s.reach.X.Lo && p.X <= s.reach.X.Hi && p.Y >= s.reach.Y.Lo && p.Y <= s.reach.Y.Hi
}

// clipLine returns the part of a→b within reach as parameters in [0, 1].
func (s *stroker) clipLine(a, b r2.Point) (t0, t1 float64, ok bool) {
	t0, t1 = 0, 1
	cut := func(d, room float64) bool { // d·t ≤ room
		if d == 0 {
			return room >= 0
		}
		if t := room / d; d > 0 {
			t1 = math.Min(t1, t)
		} else {
			t0 = math.Max(t0, t)
		}
		return t0 <= t1
	}
	dx, dy := b.X-a.X, b.Y-a.Y
	ok = cut(-dx, a.X-s.reach.X.Lo) && cut(dx, s.reach.X.Hi-a.X) && cut(-dy, a.Y-s.reach.Y.Lo) && cut(dy, s.reach.Y.Hi-a.Y)
	return t0, t1, ok
}

func between(a, b r2.Point, t float64) r2.Point {
	switch t {
	case 0:
		return a
	case 1:
		return b
	}
	return r2.Point{X: a.X + (b.X-a.X)*t, Y: a.Y + (b.Y-a.Y)*t}
}

// contour strokes one run of points.
func (s *stroker) contour(pts []r2.Point, closed bool) {
	if len(s.dash) > 0 {
		s.dashed(pts, closed)
		return
	}
	all := true
	for _, p := range pts {
		all = all && s.inside(p)
	}
	if all {
		s.start(pts[0])
		for _, p := range pts[1:] {
			s.line(p)
		}
		s.stop(closed)
		return
	}
	n := len(pts) - 1
	if closed {
		n++
	}
	for i := range n {
		a, b := pts[i], pts[(i+1)%len(pts)]
		t0, t1, ok := s.clipLine(a, b)
		if !ok {
			s.stop(false)
			continue
		}
		if t0 > 0 {
			s.stop(false)
		}
		if !s.running {
			s.start(between(a, b, t0))
		}
		s.line(between(a, b, t1))
		if t1 < 1 {
			s.stop(false)
		}
	}
	s.stop(false)
}
