package effort

import (
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// physics computes
//
//	R = Σ_turning N·c + Σ_locked μ·N + W·sin a,  c = max(c_surface, 0.02 + 0.0059·p)
//
// with p the sinkage in cm. The 0.02 is the rolling itself: the larger of the
// two fractions counts, never their sum. The rule ends at 15 cm, or where axle
// or belly touch. (Standard Handbook for Civil Engineers, earthmoving.)
func (p *pull) physics(res *ResistanceResult, derivation *part.Derivation) {
	cm := max(0, float64(p.stuck.Sinkage)*100)
	switch {
	case p.stuck.Overturned:
		res.Physics.Why = WhyOverturned
		return
	case !finite(cm):
		res.Physics.Why = WhyNotFinite
		return
	case p.depth == plan.DepthHub || p.depth == plan.DepthChassis || p.depth == plan.DepthBody || cm > sinkageLimitCm():
		res.Physics.Why = WhySunk
		if p.found != nil {
			raise(p.found, "sinkage-beyond-rule", part.Notice, p.id, part.Length("limit", sinkageLimitCm()/100))
		}
		return
	}
	// With the depth not known physics still gives the low end: the vehicle is
	// not less than resting on its surface. The high end comes from the handbook.
	locked := p.locked
	sunk := facts.SinkageBase.Value() + sinkagePerCm()*cm
	var rolling, sinkage, dragged, slope, total, loose triple
	for e := range total {
		w := p.weight[e]
		n := w * p.flat
		turning := n * (1 - locked[e])
		base := p.c[e]
		if cm > 0 && sunk > base {
			base = facts.SinkageBase.Value()
			sinkage[e] = turning * (sunk - base)
		}
		rolling[e] = turning * base
		dragged[e] = n * locked[e] * p.mu[e]
		slope[e] = w * p.sinA
		total[e] = max(0, rolling[e]+sinkage[e]+dragged[e]+slope[e]+p.current[e])
		loose[e] = max(total[e], p.k(e)*(rolling[e]+sinkage[e])+dragged[e]+slope[e]+p.current[e]) + p.suction()
	}
	if slope[high] < 0 { // downhill more weight lowers the sum: keep it in order
		slope[low], slope[high] = slope[high], slope[low]
	}
	if !ascending(&total) || !ascending(&loose) || !finite(total[high], loose[high]) {
		res.Physics.Why = WhyNotFinite
		return
	}
	res.Physics.Range, res.Physics.Break = rangeOf(total), rangeOf(loose)
	res.Terms = Terms{rangeOf(rolling), rangeOf(slope), rangeOf(sinkage), rangeOf(dragged), rangeOf(p.current)}
	if derivation.On() {
		p.recordPhysics(derivation, &physicsTerms{rolling[high], sinkage[high], dragged[high], slope[high], total[high], loose[high], locked[high], cm})
	}
}

// physicsTerms are the terms of physics at the high end, newtons, with the
// share of the weight that is dragged and the ruts in centimetres.
type physicsTerms struct{ rolling, sinkage, dragged, slope, total, loose, locked, cm float64 }

// recordPhysics writes each term and their sum, and what breaks it loose.
func (p *pull) recordPhysics(derivation *part.Derivation, t *physicsTerms) {
	w := computed(part.Force("weight", p.weight[high]))
	flat, turns := computed(number("flat", p.flat)), computed(number("turning", 1-t.locked))
	if p.sinA != 0 || p.flat != 1 {
		derivation.Add("slope-flat", number("flat", p.flat), computed(angle("ahead", p.in.GradeDeg)), computed(angle("left", p.in.LateralDeg)))
	}
	fraction := fromFact(number("fraction", p.c[high]), p.surfaceID())
	if t.sinkage > 0 {
		fraction = fromFact(number("fraction", facts.SinkageBase.Value()), facts.SinkageBase)
		derivation.Add("resistance-sinkage", part.Force("sinkage", t.sinkage), w, flat, turns, fromFact(number("per-cm", sinkagePerCm()), facts.SinkagePerCm), computed(number("cm", t.cm)))
	}
	derivation.Add("resistance-rolling", part.Force("rolling", t.rolling), w, flat, turns, fraction)
	if t.locked > 0 {
		derivation.Add("resistance-dragged", part.Force("dragged", t.dragged), w, flat, computed(number("locked", t.locked)), computed(number("grip", p.mu[high])))
	}
	if p.sinA != 0 {
		derivation.Add("resistance-slope", part.Force("slope", t.slope), w, computed(angle("grade", p.in.GradeDeg)))
	}
	terms := []part.Operand{computed(part.Force("rolling", t.rolling)), computed(part.Force("sinkage", t.sinkage)), computed(part.Force("dragged", t.dragged)),
		computed(part.Force("slope", t.slope)), computed(part.Force("current", p.current[high]))}
	if t.loose > t.total {
		k := fromFact(number("k", p.k(high)), facts.BreakawayFactor)
		if p.k(low) == p.k(high) {
			k = typed(number("k", p.k(high)))
		}
		derivation.Add("resistance-break", part.Force("loose", t.loose), append([]part.Operand{k, computed(part.Force("suction", p.suction()))}, terms...)...)
	}
	formula := "resistance-physics"
	if t.rolling+t.sinkage+t.dragged+t.slope+p.current[high] < 0 { // the slope does it all
		formula = "resistance-physics-none"
	}
	derivation.Add(formula, part.Force("physics", t.total), terms...)
}

// ascending sorts three figures that a fall of the ground may have turned
// round; false if one is not a number.
func ascending(t *triple) bool {
	if t[low] > t[high] {
		t[low], t[high] = t[high], t[low]
	}
	t[likely] = min(max(t[likely], t[low]), t[high])
	return t[low] <= t[likely] && t[likely] <= t[high]
}

// handbook takes 1, 2 or 3 times the weight by depth, half of it for an
// overturned vehicle, and the weight itself as the upper bound of a grade,
// which already covers the slope: W·sin a is never added.
// (US Army FM 20-22, FM 9-43-2, FM 4-30.31.)
func (p *pull) handbook(res *ResistanceResult, derivation *part.Derivation) {
	var f triple
	var row facts.ID
	switch p.depth {
	case plan.DepthHub:
		f, row = triple{p.n.mire[low], p.n.mire[low], p.n.mire[low]}, facts.MireHub
	case plan.DepthChassis:
		f, row = triple{p.n.mire[likely], p.n.mire[likely], p.n.mire[likely]}, facts.MireChassis
	case plan.DepthBody:
		f, row = triple{p.n.mire[high], p.n.mire[high], p.n.mire[high]}, facts.MireBody
	case plan.DepthUnknown:
		f, row = p.n.mire, facts.MireBody
		if p.stuck.Overturned { // lying on firm ground it takes what uprights it
			f[low], f[likely] = facts.OverturnUpright.Value(), facts.OverturnUpright.Value()
		}
	}
	if p.in.GradeDeg >= facts.GradeHandbookFrom.Value() && f[low] < facts.GradeHandbook.Value() {
		if f[high] < facts.GradeHandbook.Value() {
			row = facts.GradeHandbook
		}
		for e := range f {
			f[e] = max(f[e], facts.GradeHandbook.Value())
		}
	}
	if p.stuck.Overturned && f[high] < facts.OverturnUpright.Value() {
		f, row = triple{facts.OverturnUpright.Value(), facts.OverturnUpright.Value(), facts.OverturnUpright.Value()}, facts.OverturnUpright
	}
	if f[high] == 0 {
		res.Handbook.Why = WhyNoDepth
		return
	}
	less := 1.0
	if p.stuck.BackTheWay {
		less -= facts.ReduceWayIn.Value()
	}
	var r triple
	for e := range r {
		r[e] = p.weight[e]*f[e]*less + p.current[e]
	}
	res.Handbook.Range, res.Handbook.Break = rangeOf(r), p.pulledLoose(r)
	if derivation.On() {
		derivation.Add("resistance-handbook", part.Force("handbook", r[high]),
			computed(part.Force("weight", p.weight[high])), fromFact(factor("times", f[high]), row),
			fromFact(factor("less", less), facts.ReduceWayIn), computed(part.Force("current", p.current[high])))
	}
}

// common takes the fraction of the surface, on a climb with the rule weight
// times degrees over 60; downhill takes nothing off. A vehicle sunk to its
// hubs or deeper runs from there to the bog fraction.
func (p *pull) common(res *ResistanceResult, derivation *part.Derivation) {
	if p.stuck.Overturned {
		res.Common.Why = WhyOverturned
		return
	}
	f := triple{p.fraction, p.fraction, p.fraction}
	row, bog := p.fractionFact(), facts.FractionBog.Value()
	if !p.cKnown {
		f, row = triple{p.n.leastFraction, bog, bog}, facts.FractionBog
	}
	if p.depth != plan.DepthNone {
		if f[low] == 0 || p.depth == plan.DepthChassis || p.depth == plan.DepthBody {
			f[low] = bog
		}
		f[likely], f[high], row = max(f[likely], bog), max(f[high], bog), facts.FractionBog
	}
	if f[high] == 0 {
		res.Common.Why = WhyNoFraction
		return
	}
	climb := max(0, p.in.GradeDeg) / facts.FractionGradeDegrees.Value()
	var r triple
	for e := range r {
		r[e] = p.weight[e]*(f[e]+climb) + p.current[e]
	}
	res.Common.Range, res.Common.Break = rangeOf(r), p.pulledLoose(r)
	if derivation.On() {
		derivation.Add("resistance-common", part.Force("common", r[high]),
			computed(part.Force("weight", p.weight[high])), fromFact(number("fraction", f[high]), row),
			fromFact(number("climb", climb), facts.FractionGradeDegrees), computed(part.Force("current", p.current[high])))
	}
}
