package survey

import (
	"math"
	"strconv"

	"github.com/golang/geo/s1"
	"github.com/golang/geo/s2"

	"kedge/solver/plan"
)

// Reach is how far from the origin a point may lie, metres. A site is a few
// hundred metres; a point farther away is a slip.
const Reach = 100_000

// closeM is how near the end of a track must come to its beginning to be an
// outline: the scatter of a handset's fix under open sky (common practice).
const closeM = 5.0

// awayDeg is farther from 0°, 0° than a survey that is really there reaches.
const awayDeg = 1.0

// minOutline is the fewest corners of an outline.
const minOutline = 3

// onGlobe lays what was gathered in degrees on a plane.
func (g *gathered) onGlobe(f Format, o Options) (Result, error) {
	if err := g.checkDegrees(); err != nil {
		return Result{}, err
	}
	origin, ok := g.middle()
	if !ok {
		return Result{}, noPoint.At("")
	}
	if o.Origin != nil {
		if origin = *o.Origin; !origin.angles().IsValid() {
			return Result{}, badOrigin.At("")
		}
	}
	plane := NewPlane(origin)
	r, err := g.lay(f, func(m mark) (xM, yM float64) {
		// Dropped on to the plane the far side of the earth is near.
		if at := (LatLon{m.lat, m.lon}); at.angles().Distance(origin.angles()) < 90*s1.Degree {
			return plane.Place(at)
		}
		return math.Inf(1), math.Inf(1)
	})
	if err != nil {
		return Result{}, err
	}
	r.OnGlobe, r.OriginLat, r.OriginLon = true, origin.Lat, origin.Lon
	return r, nil
}

// each calls f for every mark, those of the trails too, until it says no.
func (g *gathered) each(f func(m *mark) bool) {
	for i := range g.marks {
		if !f(&g.marks[i]) {
			return
		}
	}
	for i := range g.trails {
		for j := range g.trails[i].marks {
			if !f(&g.trails[i].marks[j]) {
				return
			}
		}
	}
}

func (g *gathered) checkDegrees() (err error) {
	g.each(func(m *mark) bool {
		if !(LatLon{m.lat, m.lon}).angles().IsValid() {
			err = noPlace.At("", number(m.lat), number(m.lon))
		}
		return err == nil
	})
	return err
}

// middle is the middle of all places, rounded to 1e-7 degrees (a centimetre), so
// that it can be written down. Places at 0°, 0° are what a recorder without a
// fix writes: they are left out if all others are far from there. Round a pole
// the middle of the angles is a place among them, though not the middle one.
func (g *gathered) middle() (LatLon, bool) {
	nowhere, away, near := 0, 0, 0
	g.each(func(m *mark) bool {
		switch {
		case m.lat == 0 && m.lon == 0:
			nowhere++
		case math.Abs(m.lat) > awayDeg || math.Abs(m.lon) > awayDeg:
			away++
		default:
			near++
		}
		return true
	})
	if nowhere > 0 && away > 0 && near == 0 {
		g.dropNowhere()
		g.note(nowhereLeft.At("", nowhere))
	}
	box := s2.EmptyRect()
	g.each(func(m *mark) bool {
		box = box.AddPoint(LatLon{m.lat, m.lon}.angles())
		return true
	})
	const parts = 1e7
	c := box.Center()
	return LatLon{
		Lat: math.Round(c.Lat.Degrees()*parts) / parts,
		Lon: math.Round(c.Lng.Degrees()*parts) / parts,
	}, !box.IsEmpty()
}

// number is a figure as a file writes it.
func number(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

func (g *gathered) dropNowhere() {
	keep := func(marks []mark) []mark {
		var out []mark
		for _, m := range marks {
			if m.lat != 0 || m.lon != 0 {
				out = append(out, m)
			}
		}
		return out
	}
	g.marks = keep(g.marks)
	for i := range g.trails {
		g.trails[i].marks = keep(g.trails[i].marks)
	}
}

// within is where place puts a mark, refused over Reach.
func within(place func(mark) (xM, yM float64), m mark) (plan.Point, error) {
	x, y := place(m)
	if !(math.Hypot(x, y) <= Reach) {
		if m.name == "" {
			return plan.Point{}, farPoint.At("", int(Reach/1000))
		}
		return plan.Point{}, farMark.At("", m.name, int(Reach/1000))
	}
	return plan.Point{X: x, Y: y}, nil
}

// lay puts everything on the plane by place; a mark that it places infinitely far
// away is refused.
func (g *gathered) lay(f Format, place func(mark) (xM, yM float64)) (Result, error) {
	r := Result{Format: f}
	noHeight, heights, known := 0, 0, 0
	point := func(m mark) error {
		p, err := within(place, m)
		if err != nil {
			return err
		}
		if !(math.Abs(float64(m.height)) <= Reach) {
			return badHeight.At("", number(float64(m.height)))
		}
		if !(m.doubt >= 0) || m.doubt > Reach {
			return badDoubt.At("", number(float64(m.doubt)))
		}
		known += min(1, int(math.Ceil(float64(m.doubt))))
		if m.height == 0 {
			noHeight++
		} else {
			heights++
		}
		r.Points = append(r.Points, plan.SurveyPoint{Name: m.name, X: p.X, Y: p.Y, Z: m.height, Doubt: m.doubt})
		return nil
	}
	if g.count > 0 {
		r.Points = make([]plan.SurveyPoint, 0, g.count)
	}
	for _, m := range g.marks {
		if err := point(m); err != nil {
			return Result{}, err
		}
	}
	for _, t := range g.trails {
		out := Outline{Name: t.name, Closed: t.closed, Corners: make([]plan.Point, 0, len(t.marks))}
		for _, m := range t.marks {
			p, err := within(place, m)
			if err == nil && !t.closed {
				err = point(m)
			}
			if err != nil {
				return Result{}, err
			}
			out.Corners, out.Doubt = append(out.Corners, p), max(out.Doubt, m.doubt)
		}
		if out.finish() {
			r.Outlines = append(r.Outlines, out)
		}
	}
	if heights > 0 && noHeight > 0 {
		g.note(noHeightCounted.At("", noHeight))
	}
	if known > 0 {
		g.note(doubtTaken.At("", known))
	}
	r.Notes = g.noteds
	if len(r.Points) == 0 && len(r.Outlines) == 0 {
		return Result{}, noPoint.At("")
	}
	return r, nil
}

// finish takes off a repeated first corner and tells whether anything is left to
// draw. A line whose end comes back to its beginning is an outline.
func (o *Outline) finish() bool {
	n := len(o.Corners)
	if n < 2 {
		return false
	}
	a, b := o.Corners[0], o.Corners[n-1]
	gap := math.Hypot(a.X-b.X, a.Y-b.Y)
	switch {
	case o.Closed && gap == 0:
		o.Corners = o.Corners[:n-1]
	case !o.Closed && n > minOutline && gap <= closeM && o.longerThan(4*closeM):
		o.Closed = true
		if gap == 0 {
			o.Corners = o.Corners[:n-1]
		}
	}
	return !o.Closed || len(o.Corners) >= minOutline
}

// longerThan reports whether the line is longer than lengthM: one that never left
// its place has no inside.
func (o *Outline) longerThan(lengthM float64) bool {
	sum := 0.0
	for i := 1; i < len(o.Corners); i++ {
		a, b := o.Corners[i-1], o.Corners[i]
		if sum += math.Hypot(a.X-b.X, a.Y-b.Y); sum > lengthM {
			return true
		}
	}
	return false
}
