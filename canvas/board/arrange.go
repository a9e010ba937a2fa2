package board

import (
	"math"
	"slices"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// aligned puts the middles of what is selected in line with the outermost of
// them on that side.
func aligned(sc *scene, how string) outcome {
	ids := movable(sc, sc.selection)
	x := sc.at()
	edge := math.Inf(1)
	if how == "align-east" || how == "align-north" {
		edge = math.Inf(-1)
	}
	of := func(p plan.Point) float64 {
		if how == "align-west" || how == "align-east" {
			return p.X
		}
		return p.Y
	}
	for _, id := range ids {
		p, _ := middleOf(x, id)
		if how == "align-east" || how == "align-north" {
			edge = math.Max(edge, of(p))
		} else {
			edge = math.Min(edge, of(p))
		}
	}
	d := sc.draft(false)
	for _, id := range ids {
		p, _ := middleOf(x, id)
		if how == "align-west" || how == "align-east" {
			shift(d, []plan.ID{id}, edge-p.X, 0)
		} else {
			shift(d, []plan.ID{id}, 0, edge-p.Y)
		}
	}
	return outcome{plan: d.Plan, name: sc.label("edit-align")}
}

// middleOf is the middle of a thing on the site.
func middleOf(x *plan.Index, id plan.ID) (plan.Point, bool) {
	if o := x.Obstacle(id); o != nil {
		return plan.Centroid(o.Outline), true
	}
	return placeOf(x, id)
}

// distributed puts the middles of what is selected at equal distances between
// the two that are farthest apart, in their order along the longer way.
func distributed(sc *scene) outcome {
	ids := movable(sc, sc.selection)
	x := sc.at()
	at := func(id plan.ID) plan.Point { p, _ := middleOf(x, id); return p }
	low, high := at(ids[0]), at(ids[0])
	for _, id := range ids {
		p := at(id)
		low = plan.Point{X: math.Min(low.X, p.X), Y: math.Min(low.Y, p.Y)}
		high = plan.Point{X: math.Max(high.X, p.X), Y: math.Max(high.Y, p.Y)}
	}
	along := func(p plan.Point) float64 { return p.X }
	across := high.X-low.X < high.Y-low.Y
	if across {
		along = func(p plan.Point) float64 { return p.Y }
	}
	slices.SortStableFunc(ids, func(i, j plan.ID) int {
		switch d := along(at(i)) - along(at(j)); {
		case d < 0:
			return -1
		case d > 0:
			return 1
		}
		return 0
	})
	first, last := along(at(ids[0])), along(at(ids[len(ids)-1]))
	d := sc.draft(false)
	for i, id := range ids {
		to := first + (last-first)*float64(i)/float64(len(ids)-1)
		if by := to - along(at(id)); across {
			shift(d, []plan.ID{id}, 0, by)
		} else {
			shift(d, []plan.ID{id}, by, 0)
		}
	}
	return outcome{plan: d.Plan, name: sc.label("edit-distribute")}
}

// mirrored mirrors what is selected about the north-south line through its
// middle.
func mirrored(sc *scene) outcome {
	ids := movable(sc, sc.selection)
	x := sc.at()
	low, high := math.Inf(1), math.Inf(-1)
	for _, id := range ids {
		p, _ := middleOf(x, id)
		low, high = math.Min(low, p.X), math.Max(high, p.X)
	}
	axis := (low + high) / 2
	d := sc.draft(false)
	y := d.Index()
	flip := func(p plan.Point) plan.Point {
		return rounded(plan.Point{X: 2*axis - p.X, Y: p.Y}, fineM/10)
	}
	for _, id := range ids {
		s := y.Find(id)
		switch s.Kind {
		case plan.ThingVehicle:
			v := &d.Site.Vehicles[s.Pos]
			v.At = flip(v.At)
			mirrorVehicle(v)
			carryBends(v, flip)
		case plan.ThingObstacle:
			o := &d.Site.Obstacles[s.Pos]
			o.Outline = slices.Clone(o.Outline)
			for i := range o.Outline {
				o.Outline[i] = flip(o.Outline[i])
			}
			slices.Reverse(o.Outline)
		case plan.ThingMeasure:
			m := &d.Site.Measures[s.Pos]
			m.Points = slices.Clone(m.Points)
			for i := range m.Points {
				m.Points[i] = flip(m.Points[i])
			}
		case plan.ThingAnchor:
			a := &d.Site.Anchors[s.Pos]
			a.At = flip(a.At)
			if a.SetKnown {
				a.SetBearing = (360 - a.SetBearing).Normal()
			}
		default:
			if p, ok := placeOf(y, id); ok {
				shift(d, []plan.ID{id}, 2*(axis-p.X), 0)
			}
		}
	}
	return outcome{plan: d.Plan, name: sc.label("edit-mirror")}
}

// mirrorVehicle mirrors a vehicle about its own middle, east for west.
func mirrorVehicle(v *plan.Vehicle) {
	v.Bearing = (360 - v.Bearing).Normal()
	v.Recovery = slices.Clone(v.Recovery)
	for i := range v.Recovery { // its points change sides with it
		v.Recovery[i].Left, v.Recovery[i].Axis = mirrorLeft(v.Recovery[i].Left), mirrorAxis(v.Recovery[i].Axis)
	}
	if v.Winch != nil {
		w := *v.Winch
		w.Left, w.Axis = mirrorLeft(w.Left), mirrorAxis(w.Axis)
		v.Winch = &w
	}
	if v.Stuck != nil && v.Stuck.Way == plan.WayFree {
		k := *v.Stuck
		if way, known := k.WayBearing.Get(); known {
			k.WayBearing = plan.Known((360 - way).Normal())
		}
		v.Stuck = &k
	}
}

func mirrorLeft(left plan.Maybe[quantity.Length]) plan.Maybe[quantity.Length] {
	if l, known := left.Get(); known {
		return plan.Known(-l + 0)
	}
	return left
}

func mirrorAxis(axis plan.Maybe[quantity.Degrees]) plan.Maybe[quantity.Degrees] {
	d, known := axis.Get()
	if !known || d == 0 || d == 180 {
		return axis
	}
	return plan.Known((360 - d).Normal())
}
