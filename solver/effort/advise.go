package effort

import (
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// Words of the pull at which a vehicle is judged.
const (
	pullMove   = "pull-move"
	pullLoosen = "pull-loosen"
	pullStall  = "pull-stall"
)

// advise raises what there is to say of a vehicle that may not hold.
//
// To move the casualty and to break it loose are what the rig is for: what
// slides or pitches then is a danger. The winch stalls only where the casualty
// jams. An anchor vehicle that is dragged then lets the whole rig swing, a
// danger. A puller that slides toward what it pulls slackens its own line, and
// with a winch that pulls more than the truck weighs nearly every puller would:
// a caution with both figures, so that a danger keeps its meaning. Loads are
// those at stall all the same: grip may be better than its low end.
func (b *brace) advise(res *HoldResult, found *[]part.Finding) {
	v := b.in.Vehicle
	if res.Preset {
		f := raise(found, "centre-of-gravity-assumed", part.Caution, v.ID)
		if !(v.CGBehindFront > 0) {
			f.Lacks = append(f.Lacks, part.Lack{Thing: v.ID, Member: "cg_behind_front_axle_m", Rule: f.ID})
		}
		if !(v.CGHeight > 0) {
			f.Lacks = append(f.Lacks, part.Lack{Thing: v.ID, Member: "cg_height_m", Rule: f.ID})
		}
	}
	move, loosen, stall := b.in.move(), b.in.LoosenN, b.in.StallN
	b.pitches(found, move, loosen, stall)
	if b.in.TiedBack {
		return
	}
	low, tie := float64(res.Hold.Low), part.Force("tie", facts.TiebackFactor.Value()*b.in.most())
	at, needs := pullMove, move
	if !(move >= low) && loosen > move {
		at, needs = pullLoosen, loosen
	}
	switch used := needs / low; {
	case !(needs > 0):
	case !(used < 1):
		f := raise(found, ruleSlides, part.Danger, v.ID, part.Word("pull", at), part.Force("needs", needs), holds("holds", low), tie)
		if res.Turns {
			f.ID = "vehicle-turns"
		}
		f.Remedies = b.remedies(res, needs)
		return
	case used >= part.NearShare:
		raise(found, "vehicle-near-sliding", part.Warning, v.ID, part.Word("pull", at), part.Force("needs", needs), holds("holds", low), share("used", used), tie)
	}
	if !(stall > 0) || stall < low {
		return
	}
	level := part.Caution
	if b.in.Anchor {
		level = part.Danger
	}
	raise(found, "vehicle-slides-at-stall", level, v.ID, part.Force("needs", stall), holds("holds", low), tie).Remedies = b.remedies(res, stall)
}

// Pitches judges whether the pull lifts an axle of a casualty that stands on its
// wheels: it then pitches over the other one. How high mud or a current hold a
// sunk one back is not known, and one that lies has no axles to lift.
func Pitches(in HoldIn, found *[]part.Finding) {
	v := in.Vehicle
	if v == nil || found == nil || !finite(in.FallAheadDeg, in.FallLeftDeg) {
		return
	}
	if s := v.Stuck; s != nil && (s.Overturned || s.InWater || s.Depth != plan.DepthNone) {
		return
	}
	_, stands := stand(v, 0.5, 0)
	if !stands {
		part.NotDecided(found, "axle-lifts", v.ID, part.Lack{Thing: v.ID, Member: "wheelbase_m"})
	}
	if !weighed(v) {
		part.NotDecided(found, "axle-lifts", v.ID, part.Lack{Thing: v.ID, Member: "mass_kg"})
	}
	if stands && weighed(v) {
		b := brace{in: in, n: book()}
		b.sum()
		b.pitches(found, in.move(), in.LoosenN, 0)
	}
}

// pitches raises the first pull at which an axle carries nothing. At stall that
// is an anchor vehicle's matter: a puller slides before, see advise.
func (b *brace) pitches(found *[]part.Finding, move, loosen, stall float64) {
	if !b.in.Anchor {
		stall = 0
	}
	for i, t := range [...]float64{move, loosen, stall} {
		if !(t > 0) || t >= unboundedN {
			continue
		}
		axle := "rear"
		switch front, rear := b.axlesAt(t); {
		case !(front > 0):
			axle = "front"
		case rear > 0:
			continue
		}
		raise(found, "axle-lifts", part.Danger, b.in.Vehicle.ID, part.Word("axle", axle), part.Word("pull", [...]string{pullMove, pullLoosen, pullStall}[i]), part.Force("needs", t))
		return
	}
}

// remedies are a tie-back for the greatest pull, and chocks where they hold.
func (b *brace) remedies(res *HoldResult, needs float64) []part.Remedy {
	v := b.in.Vehicle
	rs := []part.Remedy{{Do: "tie-back", Thing: v.ID, Value: part.Force("good", facts.TiebackFactor.Value()*b.in.most())}}
	if needs = max(needs, b.in.move(), b.in.LoosenN); res.Chocked > 0 && needs < float64(res.Chocked) && v.Chocks != plan.ChocksAll {
		rs = append(rs, part.Remedy{Do: "chock-all", Thing: v.ID, Value: holds("hold", float64(res.Chocked))})
	}
	return rs
}
