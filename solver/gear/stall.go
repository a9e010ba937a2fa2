package gear

import (
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// StallCheck says of every part whether the winch can bring it to failure: at
// stall from 50 % of the low end of what it gives at caution (a winch should
// stall below half of the weakest part: MGN 592), from 75 % warning, from 100 %
// danger [ours]. Parts without a known load at stall or a known ultimate are
// not judged: they have no limit either, and that is said. The winch, the
// fairlead and what holds a vehicle still (slide, tip) are other rules' matter.
func StallCheck(winch plan.ID, parts []part.Part, found *[]part.Finding) {
	for i := range parts {
		p := &parts[i]
		switch p.Kind {
		case part.KindWinch, part.KindFairlead, part.KindSlide, part.KindTip:
			continue
		}
		share, ok := p.ToFailure(p.Stall)
		if p.Use == plan.UseHoldBack { // no winch of the pull loads it
			continue
		}
		if !ok || share < facts.WinchStallCaution.Conservative().X {
			continue
		}
		level, id := part.Caution, "stall-near"
		switch {
		case !(share < facts.WinchStallDanger.Conservative().X):
			level, id = part.Danger, "stall-breaks"
		case share >= facts.WinchStallWarning.Conservative().X:
			level = part.Warning
		}
		raise(found, id, level, at{thing: p.Thing, part: p.ID}, &part.Remedy{Do: "stronger-part", Thing: p.Thing},
			value("load", part.UnitForce, float64(p.Stall.Force)), value("ultimate", part.UnitLimit, float64(p.Ultimate.Low)),
			value("share", part.UnitShare, share), value("wants", part.UnitForce, float64(p.Stall.Force)/facts.WinchStallCaution.Conservative().X),
			part.Value{Name: "winch", Unit: part.UnitThing, Text: string(winch)})
	}
}
