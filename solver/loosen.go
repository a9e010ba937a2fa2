package solver

import (
	"math"

	"kedge/solver/effort"
	"kedge/solver/gear"
	"kedge/solver/part"
)

// loosens judges whether the rig breaks the casualty loose with what its
// winches surely give on the layers their ropes are on. Where that takes no
// more than moving it, the rules about moving it have spoken.
func (a *rating) loosens() {
	v := a.g.casualty
	if v == nil || !a.out.Moves || !a.out.Move.Known || !(a.res.Breakaway.High > a.res.Planned) {
		return
	}
	in := effort.LoosenIn{Casualty: v.ID, Breakaway: a.res.Breakaway}
	times := math.Inf(1)
	for i := range a.g.lines {
		rl := &a.g.lines[i]
		if rl.index < 0 || rl.winch == nil || rl.line.Fixed > 0 {
			continue
		}
		sure, ok := a.sureOf(rl)
		if !ok {
			in.Lacks = append(in.Lacks, part.Lack{Thing: rl.winch.ID, Member: "winch.line_pull_n"})
			continue
		}
		times = min(times, sure/a.solved.move.main().tension(rl.index))
	}
	if len(in.Lacks) == 0 && !math.IsInf(times, 1) {
		in.GivesN, in.GivesKnown = float64(a.out.Move.Along)*times, true
	}
	effort.Loosens(in, a.found())
}

// sureOf is what the winch of a line gives for sure: the low end of what it
// stalls at, on the layer its rope is on, and no more than its limiter lets.
func (a *rating) sureOf(rl *riggedLine) (float64, bool) {
	w := *a.conservative.vehicle(rl.winch).Winch
	limiter := float64(w.Limiter)
	w.Limiter = 0
	stall := gear.StallPull(&w)
	for i := range a.out.Parts {
		p := &a.out.Parts[i]
		if p.Kind != part.KindWinch || p.Thing != rl.winch.ID || p.To != rl.line.ID || !p.Limit.Known || !stall.Known || !(w.LinePull > 0) {
			continue
		}
		sure := float64(p.Limit.Force) * float64(stall.Low/w.LinePull)
		if limiter > 0 {
			sure = min(sure, limiter)
		}
		return sure, true
	}
	return 0, false
}
