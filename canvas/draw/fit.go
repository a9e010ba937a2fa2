package draw

import (
	"math"
	"slices"

	"github.com/golang/geo/r2"
	"github.com/golang/geo/r3"

	"kedge/canvas/pen"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/terrain"
)

// fitPlaces is at how many places of its way a casualty is kept in the picture. (ours)
const fitPlaces = 8

// Bounds is the smallest upright box, in metres of the plan, round everything
// that is drawn of a plan and an assessment: things with their true size, ways
// out, the rig as it lies, and the picture to trace if there is nothing else.
// Zones are left out: they reach far beyond what one works on. Hidden things
// are left out too. Empty if there is nothing.
func Bounds(p *plan.Plan, a *solver.Assessment) r2.Rect {
	b := extent{r2.EmptyRect()}
	if p != nil {
		b.site(&p.Site)
	}
	if a != nil {
		b.rig(a)
	}
	if b.IsEmpty() && p != nil && p.Site.Survey != nil {
		for _, q := range p.Site.Survey.Points {
			b.point(plan.Point{X: q.X, Y: q.Y}, 0)
		}
	}
	if u := underlayOf(p); b.IsEmpty() && u != nil && u.Metres > 0 {
		switch img, f := decodeSize(u), u.Fit(); {
		case img.X == 0:
		case f != nil:
			for _, p := range f.Outline(img.X, img.Y) {
				b.point(p, 0)
			}
		default:
			b.point(u.At, math.Hypot(float64(img.X), float64(img.Y))/2*u.Metres)
		}
	}
	return b.Rect
}

// BoundsOf is [Bounds] of some things alone, by their ids. It is empty if none of
// them is drawn.
func BoundsOf(p *plan.Plan, a *solver.Assessment, things []plan.ID) r2.Rect {
	if p == nil {
		return r2.EmptyRect()
	}
	one := *p
	site := &one.Site
	site.Underlay, site.Survey = nil, nil
	site.Vehicles = only(site.Vehicles, things, func(x *plan.Vehicle) plan.ID { return x.ID })
	site.Anchors = only(site.Anchors, things, func(x *plan.Anchor) plan.ID { return x.ID })
	site.Obstacles = only(site.Obstacles, things, func(x *plan.Obstacle) plan.ID { return x.ID })
	site.People = only(site.People, things, func(x *plan.Person) plan.ID { return x.ID })
	site.Notes = only(site.Notes, things, func(x *plan.Note) plan.ID { return x.ID })
	site.Measures = only(site.Measures, things, func(x *plan.Measure) plan.ID { return x.ID })
	site.Unknown = only(site.Unknown, things, func(x *plan.UnknownThing) plan.ID { return x.ID })
	var rig solver.Assessment
	if a != nil {
		rig.Stretches = only(a.Stretches, things, func(x *part.Stretch) plan.ID { return x.Line })
		rig.Nodes = only(a.Nodes, things, func(x *part.Node) plan.ID { return x.Thing })
		rig.Slings = only(a.Slings, things, func(x *part.SlingShape) plan.ID { return x.Sling })
	}
	return Bounds(&one, &rig)
}

// only are those of a list whose id is among the things.
func only[T any](all []T, things []plan.ID, id func(*T) plan.ID) []T {
	var some []T
	for i := range all {
		if slices.Contains(things, id(&all[i])) {
			some = append(some, all[i])
		}
	}
	return some
}

func underlayOf(p *plan.Plan) *plan.Underlay {
	if p == nil {
		return nil
	}
	return p.Site.Underlay
}

// extent is a growing box.
type extent struct{ r2.Rect }

func (b *extent) point(p plan.Point, radiusM float64) {
	if math.IsNaN(p.X) || math.IsNaN(p.Y) || math.IsInf(p.X, 0) || math.IsInf(p.Y, 0) || math.IsNaN(radiusM) {
		return
	}
	b.Rect = b.AddRect(pen.Around(r2.Point(p), 2*radiusM, 2*radiusM))
}

func (b *extent) site(s *plan.Site) {
	for i := range s.Vehicles {
		v := &s.Vehicles[i]
		if v.Hidden {
			continue
		}
		corners := v.Corners()
		for _, c := range corners {
			b.point(c, 0)
		}
		if !(v.Length > 0) || !(v.Width > 0) {
			b.point(v.At, unknownLengthM/2)
		}
		if way, ok := v.WayLine(); ok { // a way with bends may reach farther midway than at its end
			for k := 1.0; k <= fitPlaces; k++ {
				on := *v
				at := way.At(float64(v.Stuck.WayLength) * k / fitPlaces)
				on.At, on.Bearing = at.At, at.Bearing
				for _, c := range on.Corners() {
					b.point(c, 0)
				}
			}
		}
	}
	for i := range s.Anchors {
		if a := &s.Anchors[i]; !a.Hidden {
			b.point(a.At, math.Max(0.5, math.Max(float64(terrain.AtStrap(a))/2, float64(a.Crown))))
		}
	}
	for i := range s.Obstacles {
		if o := &s.Obstacles[i]; !o.Hidden {
			for _, c := range o.Outline {
				b.point(c, 0)
			}
		}
	}
	for i := range s.People {
		if p := &s.People[i]; !p.Hidden && p.Vehicle == "" {
			b.point(p.At, 0.5)
		}
	}
	for i := range s.Notes {
		if n := &s.Notes[i]; !n.Hidden {
			b.point(n.At, 0)
		}
	}
	for i := range s.Measures {
		if m := &s.Measures[i]; !m.Hidden {
			for _, q := range m.Points {
				b.point(q, 0)
			}
		}
	}
	for i := range s.Unknown {
		b.point(s.Unknown[i].At, 0.5)
	}
}

func (b *extent) rig(a *solver.Assessment) {
	at := func(v r3.Vector) { b.point(plan.Point{X: v.X, Y: v.Y}, 0.3) }
	for i := range a.Stretches {
		at(a.Stretches[i].A)
		at(a.Stretches[i].B)
	}
	for i := range a.Nodes {
		at(a.Nodes[i].At)
	}
	for i := range a.Slings {
		at(a.Slings[i].Apex)
	}
}

// Bounds of the scale that [Fit] chooses, pixels a metre: a single person does
// not fill the screen, and a grid of 100 km is still one. (ours)
const (
	fitMost  = 120
	fitLeast = 1e-3
)

// Fit is the view that shows a box of the plan in a picture of w by h pixels
// with a margin all round, pixels. A sheet in millimetres sets its own
// UnitsPerPx afterwards.
func Fit(box r2.Rect, w, h, marginPx float64) View {
	v := View{Middle: plan.Point(box.Center()), W: w, H: h, UnitsPerPx: 1, PerM: fitMost}
	room := func(size float64) float64 { return math.Max(size-2*marginPx, size*0.2) }
	if dx := box.X.Length(); dx > 0 {
		v.PerM = math.Min(v.PerM, room(w)/dx)
	}
	if dy := box.Y.Length(); dy > 0 {
		v.PerM = math.Min(v.PerM, room(h)/dy)
	}
	if !(v.PerM >= fitLeast) {
		v.PerM = fitLeast
	}
	return v
}
