package solver

import (
	"math"
	"slices"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/statics"
)

// A block over which more line runs than mayTurn, metres for a metre of the
// casualty's way, turns the way that it was found to, whatever friction does to its
// place: in 1.2 million drawn rigs with slings of up to 10 m and losses of up to 30 %
// it was no more than 0.73 where both ways agree with the motion. Other is one that
// the line goes almost straight through, straightDeg between its legs, if it loses
// more than straightLoss there. (ours)
//
// Over a block of unknown head with less than mayTurnUnmeasured it is not decided:
// somewhere within half a metre it may turn either way. (ours)
const (
	mayTurn           = 0.8
	straightDeg       = 165
	straightLoss      = 0.005
	mayTurnUnmeasured = 0.05
)

// otherWay is the most that another answer of a rig adds to a tension.
type otherWay struct {
	block, line plan.ID
	times       float64
}

// eitherWay tells of a sheave that agrees with the motion whichever way it is taken
// to turn: a block on a sling may lie where the line runs to the winch over it, and
// where it runs away from it, and friction holds it in either place. The loads are
// those of the one place, so that none is within its limit.
func (a *laying) eitherWay() {
	free := func(p *statics.Point) bool { return p.Kind == statics.Free }
	if a.refused || a.solved.status != part.Within || !some(a.g.rig.Points, free) {
		return
	}
	worst := otherWay{times: 1}
	a.solved.distinct(func(e int, r *solution) bool {
		a.undecided = a.undecided || stands(r.Result)
		a.turnOver([2][]statics.Line{a.g.rig.Lines, a.g.slick}[e], r.Result, &worst)
		return true
	})
	if worst.block == "" {
		return
	}
	a.undecided = true
	a.find(part.Finding{ID: "sheave-either-way", Level: part.Caution, Things: a.things(worst.block, worst.line),
		Values: a.given(part.Number("times", part.UnitShare, worst.times))})
}

// stands reports whether a sheave may stand: how its line shares the load over it is
// known within its loss alone, either way.
func stands(r *statics.Result) bool {
	return slices.ContainsFunc(r.Flags, func(f statics.Flag) bool {
		return f.Kind == statics.UndeterminedSheave || f.Kind == statics.UnsettledSheave
	})
}

// distinct gives each balance once, with the end of friction that it has: 0 the
// high one. Those that are others scaled are left out.
func (s *solved) distinct(yield func(e int, r *solution) bool) {
	var done [8]*statics.Result
	for k, b := range [...]balances{s.move, s.loosen, s.stall, {s.unit}} {
		for e, r := range b {
			if r.isNone() || slices.Contains(done[:], r.Result) {
				continue
			}
			done[2*k+e] = r.Result
			if !yield(e, r) {
				return
			}
		}
	}
}

// turnOver balances the lines of an answer again with each sheave that may turn
// either way begun the other way, and then with all of them.
func (a *laying) turnOver(lines []statics.Line, r *statics.Result, worst *otherWay) {
	n := 0
	a.unmeasuredHeads(r)
	each := func(do func(sh *statics.Sheave, v *statics.Visit)) {
		for i := range lines {
			for k := range lines[i].Sheaves {
				v := &r.Lines[i].Visits[k]
				if v.Determined && v.Ratio != 1 && a.g.rig.Points[v.Point].Kind == statics.Free && mayTurnOver(v) {
					do(&lines[i].Sheaves[k], v)
				}
			}
		}
	}
	over := func(sh *statics.Sheave, v *statics.Visit) {
		sh.Start = statics.Pay
		if v.Motion == statics.Pay {
			sh.Start = statics.Haul
		}
	}
	back := func(sh *statics.Sheave, _ *statics.Visit) { sh.Start = statics.Stick }
	each(func(sh *statics.Sheave, v *statics.Visit) {
		n++
		over(sh, v)
		a.compareTurned(lines, r, worst)
		back(sh, v)
	})
	if n > 1 {
		each(over)
		a.compareTurned(lines, r, worst)
		each(back)
	}
}

// mayTurnOver reports whether a sheave may turn the other way too, so that it is tried.
func mayTurnOver(v *statics.Visit) bool {
	straight := v.IncludedDeg > straightDeg && math.Abs(1-v.Ratio) > straightLoss
	return straight || math.Abs(v.RunPerMetre) < mayTurn
}

// unmeasuredHeads finds the sheaves of which it is not decided, until the heads of
// their blocks are known, whether they may turn either way.
func (a *laying) unmeasuredHeads(r *statics.Result) {
	for i := range a.g.blocks {
		b := &a.g.blocks[i]
		if b.block.HeadLength > 0 || b.loose || a.g.rig.Points[b.node].Kind != statics.Free {
			continue
		}
		for k := range r.Lines {
			for _, v := range r.Lines[k].Visits {
				if v.Point == b.node && v.Ratio != 1 && math.Abs(v.RunPerMetre) < mayTurnUnmeasured {
					a.undecided = true
					part.NotDecided(a.found(), "sheave-either-way", b.block.ID, part.Lack{Thing: b.block.ID, Member: "head_m"})
				}
			}
		}
	}
}

// compareTurned balances the lines, at the drum tensions of an answer, as they are
// begun, and notes where a sheave then turns another way and what that adds to the
// tensions: at the same tension of the drum, or at the same pull.
func (a *laying) compareTurned(lines []statics.Line, r *statics.Result, worst *otherWay) {
	w := a.work
	rig := a.g.rig
	w.turned = append(w.turned[:0], lines...)
	rig.Lines = w.turned
	for i := range rig.Lines {
		if rig.Lines[i].Drum {
			rig.Lines[i].TensionN = r.Lines[i].TensionN
		}
	}
	o := &w.other
	if !w.solver.Solve(&rig, o).HasForces() {
		return
	}
	line, at := otherTurn(r, o)
	if line < 0 {
		return
	}
	scale := 1.0 // for the same pull
	if len(r.Bodies) > 0 && o.Bodies[0].PullN > 0 && r.Bodies[0].PullN > 0 {
		scale = max(1, r.Bodies[0].PullN/o.Bodies[0].PullN)
	}
	l := &a.g.r.Lines[a.lineIndex(line)]
	if times := scale * mostMore(r, o); worst.block == "" || times > worst.times {
		*worst = otherWay{l.Path[at+1].Thing, l.ID, max(1, times)}
	}
}

// otherTurn is the first sheave, as line and visit, that is determined in two
// answers and turns another way in each; line -1: none.
func otherTurn(r, o *statics.Result) (line, at int) {
	for i := range r.Lines {
		for k := range r.Lines[i].Visits {
			if v, x := &r.Lines[i].Visits[k], &o.Lines[i].Visits[k]; v.Determined && x.Determined && v.Motion != x.Motion {
				return i, k
			}
		}
	}
	return -1, 0
}

// mostMore is the greatest tension of a stretch or sling of o over that of r.
func mostMore(r, o *statics.Result) float64 {
	most := 0.0
	more := func(t, x float64) {
		if t > slackShare*r.ReferenceN {
			most = max(most, x/t)
		}
	}
	for i := range r.Lines {
		for k := range r.Lines[i].Stretches {
			more(r.Lines[i].Stretches[k].TensionN, o.Lines[i].Stretches[k].TensionN)
		}
	}
	for i := range r.Slings {
		more(r.Slings[i].TensionN, o.Slings[i].TensionN)
	}
	return most
}
