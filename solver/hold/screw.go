package hold

import (
	"math"

	"github.com/golang/geo/r3"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// screwAxis is a ground screw's axis in space, out of the ground toward the pull,
// and how the load lies to it: its rise is measured from the ground along the
// bearing it was set for. Beyond 5° off the axis it may not be loaded. What is in
// doubt about bearing and rise is added to that angle, for it may be all of it.
// Without bearing, rise or the ground's slope nothing is decided.
func (in In) screwAxis(found *[]part.Finding) (s State, may bool) {
	a := in.Anchor
	s.Whole = true
	rise := float64(a.AxisRise)
	var lack []part.Lack
	if !a.SetKnown {
		lack = append(lack, part.Lack{Thing: a.ID, Member: "set_bearing_deg"})
	}
	if rise == 0 {
		lack = append(lack, part.Lack{Thing: a.ID, Member: "axis_rise_deg"})
	}
	if in.Lacks != "" {
		lack = append(lack, part.Lack{Member: in.Lacks})
	}
	if lack != nil {
		part.NotDecided(found, "screw-off-axis", a.ID, lack...)
		return s, true
	}
	if !(rise > 0 && rise <= 90) {
		raise(found, "anchor-impossible", part.Danger, a.ID, "type-size")
		return s, false
	}
	east, north := plan.Heading(a.SetBearing)
	along, n := r3.Vector{X: east, Y: north}, normal(in)
	sin, cos := math.Sincos(a.AxisRise.Radians() + math.Atan2(-along.Dot(n), n.Z))
	s.Axis = along.Mul(cos).Add(r3.Vector{Z: sin})
	s.lay(in.Load)
	lowest, steepest := plan.Range(&a.Head, "axis_rise_deg", rise)
	left, right := plan.Range(&a.Head, "set_bearing_deg", float64(a.SetBearing))
	middle := float64(a.SetBearing)
	off := float64(s.Off) + math.Max(rise-lowest, steepest-rise) + math.Max(middle-left, right-middle)*math.Abs(cos)
	most := facts.ScrewOffAxis.Conservative().X
	if off <= most {
		return s, true
	}
	raise(found, "screw-off-axis", part.Danger, a.ID, "pull-in-line", part.Number("off", part.UnitAngle, off),
		part.Force("side", s.Side), part.Number("most", part.UnitAngle, most))
	return s, false
}

// screwStands reports whether a ground screw may be loaded as it sits in the
// ground. No published table of what it holds is known that fits: one of which
// nobody typed what it was tested to has no hold, and is told, as is a plate that
// lies shallower than five of its diameters.
func screwStands(in In, found *[]part.Finding) bool {
	a := in.Anchor
	if !a.HoldTyped() {
		raise(found, "screw-untested", part.Warning, a.ID, "type-hold")
		lacks(found, "hold_low_n")
	}
	depth, plate := float64(a.Depth), float64(a.Helix)
	var lack []part.Lack
	for _, m := range [...]struct {
		name string
		x    float64
	}{{"depth_m", depth}, {"helix_m", plate}} {
		if m.x == 0 {
			lack = append(lack, part.Lack{Thing: a.ID, Member: m.name})
		} else if !positive(m.x) {
			raise(found, "anchor-impossible", part.Danger, a.ID, "type-size")
			return false
		}
	}
	least := plate * facts.ScrewDepth.Conservative().X
	switch {
	case lack != nil:
		part.NotDecided(found, "screw-shallow", a.ID, lack...)
	case depth < least-1/depthDigits: // a depth is read to the micrometre
		raise(found, "screw-shallow", part.Warning, a.ID, "other-anchor", part.Length("depth", depth),
			part.Length("plate", plate), part.Length("least", least))
	}
	return true
}
