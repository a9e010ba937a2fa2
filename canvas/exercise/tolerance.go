package exercise

import (
	"math"
	"slices"

	"github.com/golang/geo/r3"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// What a reading on paper is good for. (ours)
const (
	protractorDeg = 2.0
	rulerReadMM   = 1.0
)

// leastTolerance is the least ± of an answer as a share of it: what rounding on
// the way costs a careful student. (ours)
const leastTolerance = 0.01

// tolerance is the ± within which an answer measured on a drawing at 1 : n
// counts as right: a millimetre in the place of every vehicle and anchor that
// the rig hangs on, two degrees in the direction of every end of a line at a
// vehicle, and two in the way out, carried through the solver one by one and
// added as squares:
//
//	± = √ Σ (x(+d) − x(−d))²/4
//
// and never less than [leastTolerance] of the answer.
// With angle, the protractor's own two degrees are added to it; turns is the
// vehicle whose own direction is read too, or empty.
func (m *Model) tolerance(value func(*solver.Assessment) (float64, bool), n float64, turns plan.ID, angle bool) float64 {
	p, rig := m.p, m.rig
	sum := 0.0
	if angle {
		sum = protractorDeg * protractorDeg
	}
	difference := func(plus, minus *plan.Plan) {
		a, okA := value(solver.Assess(plus, rig))
		b, okB := value(solver.Assess(minus, rig))
		if okA && okB {
			sum += (a - b) * (a - b) / 4
		}
	}
	d := rulerReadMM * n / mmPerM
	aside := func(move func(dx, dy float64) *plan.Plan) {
		difference(move(d, 0), move(-d, 0))
		difference(move(0, d), move(0, -d))
	}
	on := hangsOn(m.r)
	base := m.a
	for i := range p.Site.Vehicles {
		v := p.Site.Vehicles[i]
		if !on[v.ID] {
			continue
		}
		move := func(dx, dy float64) *plan.Plan {
			w := v
			w.At.X, w.At.Y = v.At.X+dx, v.At.Y+dy
			return plan.WithVehicle(p, i, w)
		}
		aside(move)
		if angle {
			continue
		}
		if v.ID == turns {
			difference(headed(p, i, protractorDeg), headed(p, i, -protractorDeg))
		}
		if v.Stuck != nil {
			difference(turned(p, i, protractorDeg), turned(p, i, -protractorDeg))
		}
		k := math.Tan(protractorDeg * math.Pi / 180)
		for _, along := range stretchesAt(base, v.ID) {
			difference(move(-along.Y*k, along.X*k), move(along.Y*k, -along.X*k))
		}
	}
	for i := range p.Site.Anchors {
		a := p.Site.Anchors[i]
		if on[a.ID] {
			aside(func(dx, dy float64) *plan.Plan {
				w := a
				w.At.X, w.At.Y = a.At.X+dx, a.At.Y+dy
				return plan.WithAnchor(p, i, w)
			})
		}
	}
	here, _ := value(base)
	return max(math.Sqrt(sum), leastTolerance*here)
}

// stretchesAt are the stretches that end on a thing, from end to end.
func stretchesAt(a *solver.Assessment, id plan.ID) (all []r3.Vector) {
	for i := range a.Stretches {
		if s := &a.Stretches[i]; s.PortA.Thing == id || s.PortB.Thing == id {
			all = append(all, s.B.Sub(s.A))
		}
	}
	return all
}

// turned is the plan with the way out of vehicle i read so many degrees off.
func turned(p *plan.Plan, i int, deg float64) *plan.Plan {
	v := p.Site.Vehicles[i]
	way, ok := v.WayOut()
	if !ok {
		return p
	}
	stuck := *v.Stuck
	stuck.Way, stuck.WayBearing = plan.WayFree, plan.Known((way + quantity.Degrees(deg)).Normal())
	v.Stuck = &stuck
	return plan.WithVehicle(p, i, v)
}

// turns is the vehicle whose direction the load of a part depends on, if it is
// one of [byDirection].
func turns(p *part.Part) plan.ID {
	if slices.Contains(byDirection, p.Kind) && p.Kind != part.KindSlide {
		return p.Thing
	}
	return ""
}

// headed is the plan with the direction of vehicle i read so many degrees off,
// its way out where it was.
func headed(p *plan.Plan, i int, deg float64) *plan.Plan {
	v := p.Site.Vehicles[i]
	if way, ok := v.WayOut(); ok && v.Stuck != nil {
		stuck := *v.Stuck
		stuck.Way, stuck.WayBearing = plan.WayFree, plan.Known(way)
		v.Stuck = &stuck
	}
	v.Bearing = (v.Bearing + quantity.Degrees(deg)).Normal()
	return plan.WithVehicle(p, i, v)
}

// hangsOn are the things of the site that a rig hangs on.
func hangsOn(r *plan.Rig) map[plan.ID]bool {
	on := map[plan.ID]bool{}
	for i := range r.Lines {
		for _, q := range r.Lines[i].Path {
			on[q.Thing] = true
		}
	}
	for i := range r.Slings {
		on[r.Slings[i].On.Thing] = true
		on[r.Slings[i].Holds.Thing] = true
	}
	for i := range r.Blocks {
		on[r.Blocks[i].Fixed.Thing] = true
	}
	return on
}
