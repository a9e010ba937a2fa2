package gear

import (
	"math"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// FairleadIn is a line leaving a winch.
type FairleadIn struct {
	Vehicle plan.ID
	Part    string
	Winch   *plan.Winch
	Tension quantity.Force
	Lead    quantity.Degrees // line off the straight lead, plan and height together
	Side    quantity.Degrees // in plan: clockwise positive, the turn of the vehicle that squares it
	Assumed bool             // nobody said where the winch leads straight to
	Guide   quantity.Length  // without a fairlead: from the drum to the first thing that guides the line; 0: not known
}

// FairleadLoad is the load across a fairlead:
//
//	2·T·sin(φ/2)
func FairleadLoad(tension quantity.Force, lead quantity.Degrees) quantity.Force {
	return tension * quantity.Force(2*math.Sin(lead.Radians()/2))
}

// Fairlead is the load across a fairlead, which has no known limit, and what
// the line's direction means: over 15, 30, 45° caution, warning, danger; over
// 5° in plan the line piles up on one side [ours]. Without a fairlead the
// fleet angle counts instead: over 1.5° caution, over 3° warning, plain drum.
func Fairlead(in FairleadIn, derivation *part.Derivation, found *[]part.Finding) quantity.Force {
	where := at{thing: in.Vehicle, part: in.Part}
	load, lead := FairleadLoad(in.Tension, in.Lead), float64(in.Lead)
	if derivation.On() {
		derivation.Add("fairlead-load", part.Force("load", load),
			computed("tension", part.UnitForce, float64(in.Tension)), computed("lead", part.UnitAngle, lead))
	}
	if in.Winch.NoFairlead {
		fleet(in, where, found)
		return load
	}
	if in.Assumed {
		part.NotDecided(found, "winch-lead", in.Vehicle, member(in.Vehicle, "winch.axis_deg"))
	}
	if level, over := leadLevel(lead); over {
		raise(found, "winch-lead", level, where,
			&part.Remedy{Do: "turn-vehicle", Thing: in.Vehicle, Value: part.Number("turn", part.UnitAngle, in.Side)},
			part.Number("off", part.UnitAngle, lead), part.Number("turn", part.UnitAngle, math.Abs(float64(in.Side))),
			part.Word("way", way(in.Side)), part.Force("load", load))
	}
	if pilesUp(in.Side) {
		raise(found, "winch-piles-up", part.Notice, where,
			&part.Remedy{Do: "turn-vehicle", Thing: in.Vehicle, Value: part.Number("turn", part.UnitAngle, in.Side)},
			part.Number("off", part.UnitAngle, math.Abs(float64(in.Side))), part.Number("least", part.UnitAngle, facts.WinchPileUp.Conservative().X))
	}
	return load
}

// leadLevel is the level of a line off the straight lead; over is false within
// the first band.
func leadLevel(leadDeg float64) (level part.Level, over bool) {
	switch {
	case leadDeg <= facts.WinchFairleadCaution.Conservative().X:
		return part.Notice, false
	case leadDeg <= facts.WinchFairleadWarning.Conservative().X:
		return part.Caution, true
	case leadDeg <= facts.WinchFairleadDanger.Conservative().X:
		return part.Warning, true
	}
	return part.Danger, true // not a number is danger too
}

// way is the word for a turn.
func way(side quantity.Degrees) string {
	if side < 0 {
		return "counter-clockwise"
	}
	return "clockwise"
}

// pilesUp reports whether a line so far off the straight lead, either way, piles up on one
// side of the drum.
func pilesUp(side quantity.Degrees) bool {
	return !(math.Abs(float64(side)) <= facts.WinchPileUp.Conservative().X)
}

// FleetAngle is the angle at which a line without a fairlead reaches the
// flange, when what guides it stands square before the middle of the drum:
//
//	arctan(half drum width / distance)
func FleetAngle(drumWidth, distance quantity.Length) (quantity.Degrees, bool) {
	if !positive(float64(drumWidth)) || !positive(float64(distance)) {
		return 0, false
	}
	return quantity.FromRadians(math.Atan2(float64(drumWidth)/2, float64(distance))), true
}

func fleet(in FairleadIn, where at, found *[]part.Finding) {
	angle, ok := FleetAngle(in.Winch.DrumWidth, in.Guide)
	if in.Assumed {
		part.NotDecided(found, "fleet-angle", in.Vehicle, member(in.Vehicle, "winch.axis_deg"))
	}
	if !ok {
		part.NotDecided(found, "fleet-angle", in.Vehicle, member(in.Vehicle, "winch.drum_width_m"))
		return
	}
	total := float64(angle) + math.Abs(float64(in.Side))
	if total <= facts.FleetPlain.Conservative().X {
		return
	}
	level := part.Caution
	if !(total <= facts.FleetPlainNSW.Conservative().X) {
		level = part.Warning
	}
	raise(found, "fleet-angle", level, where,
		&part.Remedy{Do: "turn-vehicle", Thing: in.Vehicle, Value: part.Number("turn", part.UnitAngle, in.Side)},
		part.Number("angle", part.UnitAngle, total), part.Number("most", part.UnitAngle, facts.FleetPlain.Conservative().X))
}
