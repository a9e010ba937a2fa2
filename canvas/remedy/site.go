package remedy

import (
	"math"
	"slices"

	"github.com/golang/geo/r3"

	"kedge/canvas/form"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// placeGrain, metres: a turned vehicle's middle is kept to the micrometre, so
// that its fairlead stays where it was and the plan has no tail of digits.
const placeGrain = 1e-6

func grained(x float64) float64 { return math.Round(x/placeGrain) * placeGrain }

func turnsWinch(c *request) error {
	v, ok := c.thing.At.(*plan.Vehicle)
	switch {
	case !ok || v.Winch == nil:
		return c.no("no-winch")
	case v.Stuck != nil:
		return c.no("stuck")
	case v.Locked:
		return c.no("locked")
	case math.IsNaN(c.Value.X) || math.Abs(c.Value.X) < fineTurn/2:
		return c.no("not-by-turning")
	}
	return nil
}

// fineTurn, degrees, is the step that bearings are kept in.
const fineTurn = 0.1

// turnVehicle turns a vehicle about its fairlead by the remedy's angle,
// clockwise positive: the line stays where it is.
func turnVehicle(c *request) (*plan.Plan, error) {
	i := slices.IndexFunc(c.Plan.Site.Vehicles, func(v plan.Vehicle) bool { return v.ID == c.Thing })
	v := c.Plan.Site.Vehicles[i]
	fairlead := v.Place(v.Winch.Ahead, v.Winch.Left.Or(0))
	v.Bearing = quantity.Degrees(math.Round(float64(v.Bearing+quantity.Degrees(c.Value.X))/fineTurn) / (1 / fineTurn)).Normal()
	moved := v.Place(v.Winch.Ahead, v.Winch.Left.Or(0))
	v.At = plan.Point{X: grained(v.At.X + fairlead.X - moved.X), Y: grained(v.At.Y + fairlead.Y - moved.Y)}
	next := plan.WithVehicle(c.Plan, i, v)
	if !c.clears(next) {
		return nil, c.no("not-by-turning")
	}
	return next, nil
}

// set changes the thing itself; the member is the person's own then.
func (c *request) set(path string, value string) (*plan.Plan, error) {
	p, _, err := form.Set(c.Plan, c.Rig, c.Thing, path, value, c.Words)
	return p, err
}

// standsFree: a vehicle that is not chocked at all wheels already.
func standsFree(c *request) error {
	if v, ok := c.thing.At.(*plan.Vehicle); !ok || v.Chocks == plan.ChocksAll {
		return c.no("chocked")
	}
	return nil
}

// chockAll puts chocks at all wheels.
func chockAll(c *request) (*plan.Plan, error) { return c.set("chocks", plan.ChocksAll) }

// braked: a vehicle whose wheels something holds.
func braked(c *request) error {
	v, ok := c.thing.At.(*plan.Vehicle)
	if !ok || !v.FootBrake && !v.InGear && !v.Chocked() && (v.Brake == plan.BrakeNone || !v.BrakeKnown()) {
		return c.no("not-braked")
	}
	return nil
}

// releaseBrakes lets all wheels turn: brake off, chocks away, out of gear.
func releaseBrakes(c *request) (*plan.Plan, error) {
	p := c.Plan
	for _, m := range [...][2]string{{"brake", plan.BrakeNone}, {"chocks", plan.ChocksNone}, {"in_gear", form.No}, {"foot_brake", form.No}} {
		next, _, err := form.Set(p, c.Rig, c.Thing, m[0], m[1], c.Words)
		if err != nil {
			return nil, err
		}
		p = next
	}
	return p, nil
}

// markAsAnchor lets a boulder serve as anchor.
func markAsAnchor(c *request) (*plan.Plan, error) { return c.set("may_serve_as_anchor", form.Yes) }

func hasWinch(c *request) error {
	if v, ok := c.thing.At.(*plan.Vehicle); !ok || v.Winch == nil {
		return c.no("no-winch")
	}
	return nil
}

func runEngine(c *request) (*plan.Plan, error) { return c.set("winch/engine_off", form.No) }

// turnsInGround: what is set into the ground is set anew; a rated point is
// where it is.
func turnsInGround(c *request) error {
	a, ok := c.thing.At.(*plan.Anchor)
	switch {
	case !ok || !a.IsSet():
		return c.no("not-turned")
	case a.Locked:
		return c.no("locked")
	}
	return nil
}

// turnAnchor sets a holdfast or deadman for the pull that comes on it.
func turnAnchor(c *request) (*plan.Plan, error) {
	a := c.answer()
	for i := range a.Parts {
		q := &a.Parts[i]
		if q.Thing != c.Thing || q.Kind != part.KindAnchor || !q.Move.Known {
			continue
		}
		level := r3.Vector{X: q.Move.Vec.X, Y: q.Move.Vec.Y}
		if !(level.Norm() > 0) {
			break
		}
		to := math.Round(float64(terrain.VecBearing(level))/fineTurn) / (1 / fineTurn)
		return c.set("set_bearing_deg", form.Plain(float64(quantity.Degrees(to).Normal())))
	}
	return nil, c.no("no-pull")
}

// lowerStrap puts the slings round a tree at the height from which lower gains
// nothing.
func lowerStrap(c *request) (*plan.Plan, error) {
	low := leastStrap()
	done := false
	p, err := c.rigged(func(r *plan.Rig) error {
		for i := range r.Slings {
			if s := &r.Slings[i]; s.On.Thing == c.Thing && s.Height > low {
				s.Height, done = low, true
				s.Presets = withoutMembers(s.Presets, "height_m")
			}
		}
		return nil
	})
	if err == nil && !done {
		err = c.no("no-strap")
	}
	return p, err
}

// withoutMembers is a list of presets without some members.
func withoutMembers(presets []string, members ...string) []string {
	out := slices.DeleteFunc(slices.Clone(presets), func(n string) bool { return slices.Contains(members, n) })
	if len(out) == 0 {
		return nil
	}
	return out
}
