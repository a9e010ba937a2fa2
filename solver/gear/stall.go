package gear

import (
	"slices"

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
	if found == nil {
		return
	}
	caution, warning, danger := facts.WinchStallCaution.Conservative().X, facts.WinchStallWarning.Conservative().X, facts.WinchStallDanger.Conservative().X
	near := 0
	for i := range parts {
		if share, ok := stallShare(&parts[i]); ok && !(share < caution) {
			near++
		}
	}
	*found = slices.Grow(*found, near)
	room := make(part.Room, 0, near)
	for i := range parts {
		p := &parts[i]
		share, ok := stallShare(p)
		if !ok || share < caution {
			continue
		}
		f := part.Finding{ID: "stall-near", Level: part.Caution}
		switch {
		case !(share < danger):
			f.ID, f.Level = "stall-breaks", part.Danger
		case share >= warning:
			f.Level = part.Warning
		}
		room.About(&f, p.Thing, p.ID, &part.Remedy{Do: "stronger-part", Thing: p.Thing},
			part.Force("load", p.Stall.Force), part.Number("ultimate", part.UnitLimit, p.Ultimate.Low),
			part.Number("share", part.UnitShare, share), part.Force("wants", float64(p.Stall.Force)/caution),
			part.Value{Name: "winch", Unit: part.UnitThing, Text: string(winch)})
		*found = append(*found, f)
	}
}

// stallShare is the share of the low end of what a part gives at that the winch puts
// on it at stall; ok is false for one that is not judged.
func stallShare(p *part.Part) (share float64, ok bool) {
	switch p.Kind {
	case part.KindWinch, part.KindFairlead, part.KindSlide, part.KindTip:
		return 0, false
	}
	if p.Use == plan.UseHoldBack { // no winch of the pull loads it
		return 0, false
	}
	return p.ToFailure(p.Stall)
}
