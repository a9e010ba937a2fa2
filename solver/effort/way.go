package effort

import (
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// OffWayIn is a pull on the casualty that does not lie along its way out.
// OffDeg is the angle between the two, 0 to 180; PullN the pull, known or not.
type OffWayIn struct {
	Casualty  plan.ID
	OffDeg    float64
	PullN     float64
	PullKnown bool
}

// OffWayResult is what the angle means. Refused: nothing is computed of it.
type OffWayResult struct {
	Refused bool
	Side    quantity.Force // across the way out; 0 if the pull is not known
	Known   bool
}

// OffWay judges a line off the way out: over 15° a notice with the side force,
// over 30° a warning (the limit surface governs), over 60° refused. (ours)
//
//	side = pull · sin(off)
func OffWay(in OffWayIn, derivation *part.Derivation, found *[]part.Finding) OffWayResult {
	if !finite(in.OffDeg) {
		return OffWayResult{Refused: true}
	}
	off := in.OffDeg
	if off < 0 {
		off = -off
	}
	res := OffWayResult{Refused: off > facts.WayOutRefused.Value()}
	if in.PullKnown && finite(in.PullN) {
		res.Known = true
		res.Side = quantity.Force(in.PullN * sinDeg(min(off, 180)))
		if derivation.On() {
			derivation.Add("side-force", part.Force("side", res.Side), computed(part.Force("pull", in.PullN)), computed(angle("off", off)))
		}
	}
	if found == nil || off <= facts.WayOutNotice.Value() {
		return res
	}
	id, level, limit := "off-way-out", part.Notice, facts.WayOutNotice.Value()
	switch {
	case res.Refused:
		id, level, limit = "off-way-out-refused", part.Danger, facts.WayOutRefused.Value()
	case off > facts.WayOutWarning.Value():
		level, limit = part.Warning, facts.WayOutWarning.Value()
	}
	f := raise(found, id, level, in.Casualty, angle("off", off), angle("limit", limit))
	if res.Known && !res.Refused {
		f.Values = append(f.Values, part.Force("side", res.Side))
	} else if !res.Refused {
		f.ID = "off-way-out-unknown"
	}
	return res
}
