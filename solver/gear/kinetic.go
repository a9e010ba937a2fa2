package gear

import (
	"math"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// KineticIn is a stretchy piece in a chain of gear.
type KineticIn struct {
	Thing    plan.ID
	Part     string
	Material string
	Tension  quantity.Force
	Length   quantity.Length
	Rating   plan.Rating
	OnWinch  bool // a winch pulls the chain
}

// Kinetic says what a kinetic rope in a winch rig means, and any other that
// stretches as much before it breaks: danger, with the energy it stores, 0 where
// that is not known. (Between two vehicles the pull is refused, see effort.)
func Kinetic(in KineticIn, found *[]part.Finding) (stored quantity.Energy) {
	strain, level, is := stretchy(in.Material)
	if !is || level != part.Danger {
		return 0
	}
	where := at{thing: in.Thing, part: in.Part}
	if f := float64(in.Rating.Force); positive(f) && in.Rating.Basis != plan.BasisWorking {
		stored, _ = StoredEnergy(float64(in.Tension), float64(in.Length), f/strain, f, facts.StiffeningNylon.Conservative().X)
	}
	switch {
	case in.OnWinch && stored > 0:
		raise(found, "kinetic-energy", part.Danger, where, &part.Remedy{Do: "static-line", Thing: in.Thing},
			part.Number("energy", part.UnitEnergy, stored), part.Force("tension", in.Tension))
	case in.OnWinch:
		onWinch(strain, level, "static-line", where, found)
	}
	return stored
}

// ExtensionIn is a sling that lengthens a line.
type ExtensionIn struct {
	Sling *plan.Sling
	Part  string
}

// Extension reports whether a sling may lengthen a winch line: a static sling
// pulled straight. A stretchy or unknown one may not.
func Extension(in ExtensionIn, found *[]part.Finding) bool {
	s, where := in.Sling, at{thing: in.Sling.ID, part: in.Part}
	if Snatches(s.Material) {
		raise(found, "extension-stretches", part.Danger, where, &part.Remedy{Do: "static-sling", Thing: s.ID})
		return false
	}
	if s.Hitch == plan.HitchChoked || s.Hitch == plan.HitchBasket {
		raise(found, "extension-hitch", part.Warning, where, &part.Remedy{Do: "straight-sling", Thing: s.ID})
		return false
	}
	if s.Hitch == plan.HitchDefault {
		part.NotDecided(found, "extension-hitch", s.ID, member(s.ID, "hitch"))
	}
	return knownMaterial(s.Material)
}

// Joint raises a join in mid-line: it flies if the line parts.
func Joint(l *plan.Line, found *[]part.Finding) {
	for i := range l.Joins {
		j := &l.Joins[i]
		raise(found, "line-join", part.Caution, at{thing: l.ID}, &part.Remedy{Do: "damper-at-join", Thing: l.ID},
			part.Length("from-winch", j.At), part.Number("mass", part.UnitMass, j.Mass), part.Word("kind", j.Kind))
	}
}

// PassIn is something on a line and a block or fairlead it runs through.
type PassIn struct {
	Line  plan.ID
	What  string          // "join", "hook", "damper"
	Item  quantity.Length // from the hauling end
	Block quantity.Length // from the hauling end; 0: the fairlead
	Name  plan.ID         // of the block, or the vehicle of the fairlead
	Haul  quantity.Length // line that will be hauled in
}

// Passing tells after how much haul a join, hook or damper reaches the block
// or fairlead, which none of them can pass. reaches is false if it does not
// within the haul asked about. An item already there reaches after 0.
func Passing(in PassIn, found *[]part.Finding) (after quantity.Length, reaches bool) {
	gap := in.Item - in.Block
	if !(gap >= 0) || !(gap <= in.Haul) || math.IsInf(float64(in.Haul), 1) {
		return 0, false
	}
	level := part.Warning
	if gap < passClose {
		level = part.Danger
	}
	raise(found, "line-cannot-pass", level, at{thing: in.Line}, nil, part.Word("what", in.What),
		part.Length("after", gap), part.Length("haul", in.Haul))
	with(found, in.Name)
	return gap, true
}

// passClose, metres of line: nearer than this a shackle or hook is in the
// block already, about its own length [ours].
const passClose = 0.2

// BridleIn is a two-legged bridle.
type BridleIn struct {
	Thing   plan.ID
	Part    string
	Load    quantity.Force   // on its apex
	Between quantity.Degrees // between the legs
	Equal   bool             // the legs are shown to be equal: one sling through a free shackle or block
}

// BridleLeg is the force assumed in one leg of a bridle: F/(2·cos h) if
// the legs are equal, all of F/cos-free if they are not shown to be (count one
// of two, DGUV Regel 100-500), never less than the even share. ok is false from
// 120° between the legs, h 60° (EN 1492, both standards' end).
func BridleLeg(in BridleIn, found *[]part.Finding) (leg quantity.Force, ok bool) {
	where := at{thing: in.Thing, part: in.Part}
	half := in.Between.Radians() / 2
	if !(float64(in.Between) >= 0 && float64(in.Between) <= 2*facts.SlingAngleLimit.Conservative().X) {
		raise(found, "bridle-wide", part.Danger, where, nil, part.Number("between", part.UnitAngle, in.Between),
			part.Number("most", part.UnitAngle, 2*facts.SlingAngleLimit.Conservative().X))
		return 0, false
	}
	even := float64(in.Load) / (2 * math.Cos(half))
	leg = quantity.Force(even)
	if !in.Equal {
		leg = quantity.Force(math.Max(even, float64(in.Load)*facts.FactorFixedBridleLeg.Conservative().X))
		raise(found, "bridle-fixed", part.Notice, where, &part.Remedy{Do: "equalise", Thing: in.Thing},
			part.Force("leg", leg))
	}
	return leg, true
}

// TwoWinches is the factor on the loads of one winch's chain when several pull:
// each chain is checked as if it carried the whole. It is 1 for one winch.
func TwoWinches(thing plan.ID, own, whole quantity.Force, found *[]part.Finding) float64 {
	if !positive(float64(own)) || !(whole > own) || !positive(float64(whole)) {
		return 1
	}
	raise(found, "two-winches", part.Notice, at{thing: thing}, nil,
		part.Force("own", own), part.Force("whole", float64(whole)*facts.FactorTwoWinches.Conservative().X))
	return float64(whole/own) * facts.FactorTwoWinches.Conservative().X
}
