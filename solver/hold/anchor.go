package hold

import (
	"math"

	"github.com/golang/geo/r3"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// In is an anchor of the plan, or an obstacle used as one, and its load.
type In struct {
	Anchor   *plan.Anchor
	Obstacle *plan.Obstacle  // instead of Anchor
	Soil     string          // of the ground, if the anchor has none of its own
	Load     r3.Vector       // what the anchor takes, newtons
	Normal   r3.Vector       // of the ground, upward; zero: straight up
	Lacks    string          // member of the ground without which its slope along the load is not known; empty: none
	Water    plan.ID         // the water it stands in; empty: none
	Height   quantity.Length // of the highest strap above ground
	Strap    plan.ID         // a strap of which nobody entered how high it lies; empty: none
	Run      float64         // of a deadman: run per rise of its line, 0: not known
	Lifting  bool
}

// State is what an anchor may be loaded with and how its load lies.
type State struct {
	part.Capacity
	Axis  r3.Vector        // direction it was set for, a unit vector; zero: none, or not known
	Whole bool             // the whole load lies to Axis; else its share along the level, for what lifts is no side-load
	Off   quantity.Degrees // of the load off that direction
	Side  quantity.Force   // the part of the load across it
}

// Lies is the load, or the share of it, that has a direction to keep to.
func (s *State) Lies(load r3.Vector) r3.Vector {
	if !s.Whole {
		load.Z = 0
	}
	return load
}

// Anchor is what an anchor of any kind may be loaded with. A measured hold
// overrules the tables; health, movement, a wrong direction and a kind that is not
// known do not yield to it. An anchor set for one direction has its side-load: over
// 15° off warning, over 45° refused [ours]; a ground screw is refused over 5° off
// its axis in space.
func Anchor(in In, derivation *part.Derivation, found *[]part.Finding) State {
	if in.Obstacle != nil {
		return obstacle(in, derivation, found)
	}
	a := in.Anchor
	if a == nil {
		return State{}
	}
	k, known := kinds[a.Kind]
	if !known {
		raise(found, "anchor-kind-unknown", part.Warning, a.ID, "type-kind")
		lacks(found, "kind")
		return State{}
	}
	aim := In.aim
	if k.aim != nil {
		aim = k.aim
	}
	out, may := aim(in, found)
	if k.stands != nil && !k.stands(in, found) || !may {
		return out
	}
	if a.HoldTyped() {
		out.Capacity = measured(in, derivation, found)
	} else {
		out.Capacity = k.hold(in, derivation, found)
	}
	// From a side that nobody knows it may hold nothing.
	out.Limit.AtMost = out.Limit.AtMost || out.Limit.Known && a.MayBeSet() && out.Axis == (r3.Vector{})
	return out
}

// soil is the anchor's own, else the ground's.
func (in In) soil() string {
	if in.Anchor.Soil != "" {
		return in.Anchor.Soil
	}
	return in.Soil
}

// ground is the anchor as one in or on the ground.
func (in In) ground() GroundIn {
	return GroundIn{Anchor: in.Anchor, Soil: in.soil(), Rise: rise(in), Run: in.Run, Lacks: in.Lacks, Lifting: in.Lifting}
}

// obstacle is an obstacle that a line or sling is made fast to: only one that
// is marked as anchor, and then a boulder.
func obstacle(in In, derivation *part.Derivation, found *[]part.Finding) State {
	o := in.Obstacle
	if !o.Anchor {
		raise(found, "obstacle-no-anchor", part.Danger, o.ID, "mark-as-anchor")
		return State{}
	}
	return State{Capacity: Boulder(BoulderIn{
		Thing: o.ID, Mass: o.Mass, Volume: seen(math.Abs(terrain.Area(o.Outline)), float64(o.Height)), Rise: rise(in), Slope: fall(in), Lacks: in.Lacks, Preset: presetMass(o), Lifting: in.Lifting,
	}, derivation, found)}
}

// squat is how many times as wide as it is high a boulder without an outline may
// be [ours].
const squat = 3

// seen is the volume of a boulder of that outline, m², and height, metres; one
// without a height may be as high as it is wide.
func seen(area, height float64) float64 {
	if !(height > 0) {
		height = math.Sqrt(area)
	}
	return area * height
}

func presetMass(o *plan.Obstacle) bool {
	for _, p := range o.Presets {
		if p == "mass_kg" {
			return true
		}
	}
	return false
}

// Directions off what an anchor was set for, degrees [ours]: a warning from the
// first, refused beyond the second.
const (
	asideWarning = 15
	asideRefused = 45
)

// aim is the direction on the map that an anchor was set for and how the load lies
// to it; false if that comes too far from the side, or from nowhere that can be said.
func (in In) aim(found *[]part.Finding) (s State, may bool) {
	a := in.Anchor
	k := plan.AnchorKindOf(a.Kind)
	if k == nil || !k.Set && !(k.Bearing && a.SetKnown) { // a free tree or boulder has no direction
		return s, true
	}
	if !a.SetKnown {
		raise(found, "anchor-direction-unknown", part.Caution, a.ID, "type-direction")
		lacks(found, "set_bearing_deg")
		return s, true
	}
	bearing := a.SetBearing.Radians()
	s.Axis = r3.Vector{X: math.Sin(bearing), Y: math.Cos(bearing)}
	s.lay(in.Load)
	off := float64(s.Off)
	if off <= asideWarning {
		return s, true
	}
	severity := part.Warning
	if !(off <= asideRefused) {
		severity = part.Danger
	}
	raise(found, "anchor-aside", severity, a.ID, "turn-anchor", part.Number("off", part.UnitAngle, off),
		part.Force("side", s.Side), part.Number("most", part.UnitAngle, asideWarning))
	return s, off <= asideRefused
}

// lay says how a load lies to the axis, if there is one.
func (s *State) lay(load r3.Vector) {
	if v := s.Lies(load); v.Norm() != 0 {
		s.Off = part.Angle(v, s.Axis)
		s.Side = quantity.Force(v.Norm() * math.Abs(math.Sin(s.Off.Radians())))
	}
}

// normal is the ground's upward normal.
func normal(in In) r3.Vector {
	if n := in.Normal.Normalize(); n != (r3.Vector{}) {
		return n
	}
	return r3.Vector{Z: 1}
}

// rise is the angle of the load above the ground.
func rise(in In) quantity.Degrees {
	if in.Load.Norm() == 0 {
		return 0
	}
	return 90 - part.Angle(in.Load, normal(in))
}

// fall is the slope of the ground toward the load, falling positive.
func fall(in In) quantity.Degrees {
	level := r3.Vector{X: in.Load.X, Y: in.Load.Y}.Normalize()
	n := normal(in)
	if level == (r3.Vector{}) || !(n.Z > 0) {
		return 0
	}
	return quantity.FromRadians(math.Atan(level.Dot(r3.Vector{X: n.X, Y: n.Y}) / n.Z))
}
