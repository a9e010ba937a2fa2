package gear

import (
	"kedge/solver/part"
	"kedge/solver/plan"
)

// StallCheck says of every part whether the winch can break it: to failure at
// stall from 100 % danger, from 50 % warning (a winch should stall below half
// of the weakest part: MGN 592). Parts without a known load at stall or a
// known ultimate are not judged. The winch, the fairlead and what holds a
// vehicle still (slide, tip) are other rules' matter.
func StallCheck(winch plan.ID, parts []part.Part, found *[]part.Finding) {
	b := book()
	for i := range parts {
		p := &parts[i]
		switch p.Kind {
		case part.KindWinch, part.KindFairlead, part.KindSlide, part.KindTip:
			continue
		}
		share, ok := p.ToFailure(p.Stall)
		if !ok || share < b.stallWarning.x {
			continue
		}
		level, id := part.Warning, "stall-near"
		if !(share < b.stallDanger.x) {
			level, id = part.Danger, "stall-breaks"
		}
		raise(found, id, level, at{p.Thing, p.ID}, &part.Remedy{Do: "stronger-part", Thing: p.Thing},
			value("load", part.UnitForce, float64(p.Stall.Force)), value("ultimate", part.UnitLimit, float64(p.Ultimate.Low)),
			value("share", part.UnitShare, share), part.Value{Name: "winch", Unit: part.UnitThing, Text: string(winch)})
	}
}
