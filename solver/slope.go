package solver

import (
	"math"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// What sets heights against the slope that was entered. (ours)
const (
	slopeOff   = 5.0  // degrees between the two: ground is not as even as a plane
	spreadM    = 2.0  // points that lie closer, on average, tell no slope
	apartM     = 3.0  // vehicles that stand closer do not either
	thinShare  = 0.02 // of their spread: points that lie so near one line tell a slope along it alone
	nearLevelM = 30.0 // a height of 0 counts as measured where others are no further from it
)

// slopes sets the heights that were measured, and those that vehicles are said to
// stand at, against the slope: the way the casualty climbs, and all that rolls,
// rests on the slope alone.
func (a *resolving) slopes() {
	if a.g.ground.Lacks() != "" {
		return
	}
	slope, _ := a.g.p.Site.Ground.Slope.Get()
	if s := a.g.p.Site.Survey; s != nil {
		if gx, gy, ok := a.tilt(s.Points); ok && math.Hypot(gx, gy) > math.Tan(slopeOff*math.Pi/180) {
			n := a.g.ground.Normal()
			x, y := gx-n.X/n.Z, gy-n.Y/n.Z
			a.find(part.Finding{ID: "slope-against-heights", Level: part.Warning, Values: []part.Value{
				part.Number("slope", part.UnitAngle, slope),
				part.Number("measured", part.UnitAngle, quantity.FromRadians(math.Atan(math.Hypot(x, y)))),
				part.Number("toward", part.UnitBearing, quantity.FromRadians(math.Atan2(-x, -y)).Normal())}})
		}
	}
	vs := a.g.p.Site.Vehicles
	for i := range vs {
		for j := range vs[:i] {
			a.stepped(&vs[j], &vs[i])
		}
	}
}

// stepped says that of two vehicles one is said to stand higher than the slope
// between them puts it.
func (a *resolving) stepped(v, w *plan.Vehicle) {
	over := math.Hypot(w.At.X-v.At.X, w.At.Y-v.At.Y)
	rise, plane := float64(w.Rise-v.Rise), a.g.ground.Z(w.At.X, w.At.Y)-a.g.ground.Z(v.At.X, v.At.Y)
	if over < apartM || math.Abs(rise) <= over*math.Tan(slopeOff*math.Pi/180) {
		return
	}
	a.find(part.Finding{ID: "slope-against-rise", Level: part.Caution, Things: a.things(v.ID, w.ID), Values: []part.Value{
		part.Number("slope", part.UnitAngle, math.Abs(float64(quantity.FromRadians(math.Atan(plane/over))))),
		part.Number("stands", part.UnitAngle, math.Abs(float64(quantity.FromRadians(math.Atan((plane+rise)/over)))))}})
}

// tilt is how measured points rise over the plane of the ground, metres a metre
// east and north: least squares, along and across the line they lie along.
func (a *resolving) tilt(points []plan.SurveyPoint) (gx, gy float64, ok bool) {
	near := false
	for _, q := range points {
		near = near || q.Z != 0 && math.Abs(float64(q.Z)) <= nearLevelM
	}
	var n, mx, my, mz float64
	visit := func(each func(x, y, z float64)) {
		for _, q := range points {
			if q.Z != 0 || near {
				each(q.X, q.Y, float64(q.Z)-a.g.ground.Z(q.X, q.Y))
			}
		}
	}
	visit(func(x, y, z float64) { n, mx, my, mz = n+1, mx+x, my+y, mz+z })
	if n < 2 {
		return 0, 0, false
	}
	mx, my, mz = mx/n, my/n, mz/n
	var xx, xy, yy, xz, yz float64
	visit(func(x, y, z float64) {
		x, y, z = x-mx, y-my, z-mz
		xx, xy, yy, xz, yz = xx+x*x, xy+x*y, yy+y*y, xz+x*z, yz+y*z
	})
	sin, cos := math.Sincos(math.Atan2(2*xy, xx-yy) / 2)
	long := xx*cos*cos + 2*xy*sin*cos + yy*sin*sin
	wide := xx + yy - long
	if !(long > n*spreadM*spreadM) {
		return 0, 0, false
	}
	g, h := (xz*cos+yz*sin)/long, 0.0
	if wide > thinShare*long {
		h = (yz*cos - xz*sin) / wide
	}
	gx, gy = g*cos-h*sin, g*sin+h*cos
	return gx, gy, !math.IsNaN(gx+gy) && !math.IsInf(gx+gy, 0)
}
