package plan

import (
	"slices"

	"kedge/solver/quantity"
)

// Heading is the unit vector of a bearing: its part east and its part north.
// Quarter turns are exact.
func Heading(bearing quantity.Degrees) (east, north float64) { return bearing.SinCos() }

// Place is the point ahead of the middle of v's footprint and left of its
// middle line, in plan coordinates.
func (v *Vehicle) Place(ahead, left quantity.Length) Point {
	e, n := Heading(v.Bearing)
	a, l := float64(ahead), float64(left)
	return Point{v.At.X + a*e - l*n, v.At.Y + a*n + l*e}
}

// Corners are the corners of v's footprint, counter-clockwise as seen from
// above: front left, rear left, rear right, front right. A length or width that
// is not known counts as zero.
func (v *Vehicle) Corners() [4]Point {
	a, l := v.Length/2, v.Width/2
	return [4]Point{v.Place(a, l), v.Place(-a, l), v.Place(-a, -l), v.Place(a, -l)}
}

// Axles are the middles of v's axles on the ground, ahead of the middle of its
// footprint. They are known only with length, wheelbase and front overhang.
func (v *Vehicle) Axles() (front, rear quantity.Length, known bool) {
	if v.Length <= 0 || v.Wheelbase <= 0 || v.FrontOverhang <= 0 {
		return 0, 0, false
	}
	front = v.Length/2 - v.FrontOverhang
	return front, front - v.Wheelbase, true
}

// WayOut is the bearing in which the casualty's way out begins; an empty way is
// forward, one with bends leads to the first of them. False if v is no casualty,
// its way is a word this version does not know, or the bearing of a free way
// without bends is not known.
func (v *Vehicle) WayOut() (quantity.Degrees, bool) {
	if v.Stuck == nil {
		return 0, false
	}
	if b, _, bent := v.firstBend(); bent {
		return b, slices.Contains(ways, v.Stuck.Way)
	}
	switch v.Stuck.Way {
	case WayReverse:
		return (v.Bearing + 180).Normal(), true
	case WayFree:
		b, known := v.Stuck.WayBearing.Get()
		return b.Normal(), known
	case "", WayForward:
		return v.Bearing.Normal(), true
	}
	return 0, false
}

// Spot is where a hook-on point is: above which point of the plan, and how high
// above the ground there, the thing's rise counted in.
type Spot struct {
	At     Point
	Height quantity.Length  // above the ground plane
	Axis   quantity.Degrees // bearing it is meant to be pulled in; meaningful if HasAxis
	// HasAxis tells that the point is meant to be pulled in one direction:
	// recovery points and fairleads are, anchors and boulders are not.
	HasAxis bool
	// AxisAssumed tells that nobody said which direction: Axis then leads out of
	// the vehicle's nose or tail, whichever the point is nearer to, and nothing
	// may rest on it.
	AxisAssumed bool
}

// hook is the spot of a hook-on point of v.
func (v *Vehicle) hook(ahead, left, height quantity.Length, axis Maybe[quantity.Degrees]) Spot {
	straight := quantity.Degrees(0)
	if ahead < 0 {
		straight = 180
	}
	return Spot{At: v.Place(ahead, left), Height: v.Rise + height, Axis: (v.Bearing + axis.Or(straight)).Normal(), HasAxis: true, AxisAssumed: !axis.Known()}
}

// PortPlace is the place of a hook-on point of v; false if v has no such point.
func (v *Vehicle) PortPlace(point ID) (Spot, bool) {
	if point == PortWinch {
		w := v.Winch
		if w == nil {
			return Spot{}, false
		}
		return v.hook(w.Ahead, w.Left.Or(0), w.Height, w.Axis), true
	}
	q := v.RecoveryPoint(point)
	if q == nil {
		return Spot{}, false
	}
	return v.hook(q.Ahead, q.Left.Or(0), q.Height, q.Axis), true
}

// PortPlace is the place of a hook-on point of the site: of a vehicle, an
// anchor (its base; how high a strap sits on a trunk is the sling's to say), or
// a boulder that may serve as one (the middle of its outline, on the ground).
// False for points of the rig, whose places are computed, and for points that
// do not exist.
func (x *Index) PortPlace(port Port) (Spot, bool) {
	switch s := x.at[port.Thing]; s.Kind {
	case ThingVehicle:
		return x.Plan.Site.Vehicles[s.Pos].PortPlace(port.Point)
	case ThingAnchor:
		a := &x.Plan.Site.Anchors[s.Pos]
		return Spot{At: a.At, Height: a.Rise}, port.Point == ""
	case ThingObstacle:
		return Spot{At: Centroid(x.Plan.Site.Obstacles[s.Pos].Outline)}, port.Point == ""
	}
	return Spot{}, false
}

// Centroid is the middle of the area inside corners; of corners without area
// their mean. The zero point if there are none.
//
//	c = Σ (pᵢ + pᵢ₊₁)·(pᵢ × pᵢ₊₁) / 3 Σ (pᵢ × pᵢ₊₁)
func Centroid(corners []Point) Point {
	if len(corners) == 0 {
		return Point{}
	}
	o := corners[0] // a local origin keeps the digits of grid coordinates
	var area, cx, cy, mx, my float64
	for i := range corners {
		a, b := corners[i], corners[(i+1)%len(corners)]
		ax, ay, bx, by := a.X-o.X, a.Y-o.Y, b.X-o.X, b.Y-o.Y
		cross := ax*by - bx*ay
		area += cross
		cx += (ax + bx) * cross
		cy += (ay + by) * cross
		mx += ax
		my += ay
	}
	if area == 0 {
		n := float64(len(corners))
		return Point{o.X + mx/n, o.Y + my/n}
	}
	return Point{o.X + cx/(3*area), o.Y + cy/(3*area)}
}
