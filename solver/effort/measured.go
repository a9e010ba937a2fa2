package effort

import (
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// measured takes the user's own figure instead of every rule. False: it is less
// than the weight along the slope alone, which is no resistance at all, or than
// what wheels that do not turn take with it; then the plan is computed on the
// high end of the rules.
func (p *pull) measured(res *ResistanceResult, n float64, derivation *part.Derivation) bool {
	rules := p.unheard()
	part.NotDecided(p.found, "measured-below-slope", "", p.in.Lacks...)
	mass := part.Lack{Thing: p.id, Member: "mass_kg"}
	if !rules.Weight.Known && p.locked[low] > 0 {
		part.NotDecided(p.found, "measured-below-locked", p.id, mass)
	}
	if !rules.Weight.Known && (p.sinA != 0 || len(p.in.Lacks) > 0) {
		part.NotDecided(p.found, "measured-below-slope", p.id, mass)
		// What of the figure is not slope is not known either.
		part.NotDecided(p.found, ruleLoosens, p.id, mass)
	}
	along := float64(rules.Weight.Low) * p.sinA
	drags := p.drags(&rules)
	if n < along || n < along+drags {
		switch {
		case p.found == nil:
		case n < along:
			raise(p.found, "measured-below-slope", part.Warning, p.id,
				part.Force("measured", n), part.Force("slope", along), part.Force("planned", rules.High))
		default:
			raise(p.found, "measured-below-locked", part.Warning, p.id,
				part.Force("measured", n), part.Force("locked", along+drags), part.Force("planned", rules.High))
		}
		p.stuck.Measured, p.stuck.PlanOn, p.stuck.Rule = 0, "", ""
		res.PlannedOn = plan.PlanHigh
		return false
	}
	p.belowRules(&rules, n)
	res.say(WhyMeasured)
	res.Measured = true
	res.Range = rangeOf(triple{n, n, n})
	if least, most := plan.Range(&p.in.Vehicle.Head, "casualty.measured_resistance_n", n); finite(least, most) {
		res.Low, res.High = quantity.Force(max(0, least)), quantity.Force(most)
	}
	res.LowRule, res.LikelyRule, res.HighRule = RuleMeasured, RuleMeasured, RuleMeasured
	res.Confidence = part.ConfidenceTyped
	res.Depth = p.stuck.Depth
	p.stuck.Rule = ""
	if rules.Weight.Known {
		p.weigh(res)
	}
	p.water(res) // the figure has in it what pushes along, not what pushes across
	res.Breakaway = p.measuredLoose(res.Range)
	p.planOn(res, derivation)
	if p.found != nil {
		raise(p.found, "resistance-measured", part.Notice, p.id, part.Force("measured", n))
	}
	return true
}

// belowRules says so if the figure is well below what the rules find, or which input a
// rule lacks to tell.
func (p *pull) belowRules(rules *ResistanceResult, n float64) {
	share := facts.MeasuredLowShare.Value()
	switch {
	case p.found == nil:
	case !rules.Known:
		part.NotDecided(p.found, "measured-below-rules", p.id, rules.lacks(p)...)
	case n < share*float64(rules.Low):
		raise(p.found, "measured-below-rules", part.Caution, p.id, part.Force("measured", n), part.Force("low", rules.Low))
	case n < share*float64(rules.High):
		if _, known := p.surface(); !known {
			part.NotDecided(p.found, "measured-below-rules", p.id, part.Lack{Member: "surface"})
		}
		if rules.Depth == plan.DepthUnknown {
			part.NotDecided(p.found, "measured-below-rules", p.id, part.Lack{Thing: p.id, Member: "casualty.depth"})
		}
	}
}

// drags is the least that wheels which do not turn take, newtons, however deep
// they are: grip at its low end times their load, but of those that the parking
// brake alone holds no more than its strength. 0: all turn, none stands on the
// ground, or it is not known.
func (p *pull) drags(rules *ResistanceResult) float64 {
	if !rules.Weight.Known || p.stuck.Overturned || !(p.locked[low] > 0) {
		return 0
	}
	v := *p.in.Vehicle
	v.Brake = plan.BrakeNone
	all := float64(rules.Weight.Low) * p.flat * p.locked[low] * gripOf(&v, p.in.Ground, p.n, nil)[low]
	fast := all * lockedShare(&v, p.stuck.LockedWheels)[low] / p.locked[low]
	brake := float64(v.BrakeForce)
	if !(brake > 0) {
		brake = facts.BrakeParking.Value() * float64(rules.Weight.Low)
	}
	return fast + min(brake, all-fast)
}

// unheard is what the rules say, without a word about it.
func (p *pull) unheard() (res ResistanceResult) {
	q := *p
	q.found, q.stuck.Measured = nil, 0
	q.rules(&res, nil)
	return res
}

// lacks is what keeps the rules from an answer.
func (r *ResistanceResult) lacks(p *pull) []part.Lack {
	switch {
	case !r.Weight.Known:
		return []part.Lack{{Thing: p.id, Member: "mass_kg"}}
	case r.Physics.Why == WhyWater:
		return p.waterLacks()
	}
	return nil
}
