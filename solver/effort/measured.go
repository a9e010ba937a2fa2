package effort

import (
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// measured takes the user's own figure instead of every rule. False: it is less
// than the weight along the slope alone, which is no resistance at all; then the
// plan is reckoned on the high end of the rules.
func (p *pull) measured(res *ResistanceResult, n float64, sum *part.Sum) bool {
	rules := p.unheard()
	part.NotDecided(p.found, "measured-below-slope", "", p.in.Lacks...)
	if mass := (part.Lack{Thing: p.id, Member: "mass_kg"}); !rules.Weight.Known && (p.sinA != 0 || len(p.in.Lacks) > 0) {
		part.NotDecided(p.found, "measured-below-slope", p.id, mass)
		// What of the figure is not slope is not known either.
		part.NotDecided(p.found, ruleLoosens, p.id, mass)
	}
	along := float64(rules.Weight.Low) * p.sinA
	if n < along {
		if p.found != nil {
			raise(p.found, "measured-below-slope", part.Warning, p.id,
				force("measured", n), force("slope", along), force("planned", float64(rules.High)))
		}
		p.stuck.Measured, p.stuck.PlanOn, p.stuck.Rule = 0, "", ""
		res.PlannedOn = plan.PlanHigh
		return false
	}
	_, surfaceKnown := p.surface()
	switch {
	case p.found == nil:
	case !rules.Known:
		part.NotDecided(p.found, "measured-below-rules", p.id, rules.lacks(p)...)
	case !surfaceKnown && n >= p.n.measuredLow*float64(rules.Low) && n < p.n.measuredLow*float64(rules.High):
		part.NotDecided(p.found, "measured-below-rules", p.id, part.Lack{Member: "surface"})
	case n < p.n.measuredLow*float64(rules.Low):
		raise(p.found, "measured-below-rules", part.Caution, p.id, force("measured", n), force("low", float64(rules.Low)))
	}
	res.say(WhyMeasured)
	res.Measured = true
	res.Range = rangeOf(triple{n, n, n})
	for _, d := range p.in.Vehicle.Doubts {
		if d.Member == "measured_resistance_n" && finite(d.Low, d.High) && d.Low > 0 && d.Low <= n && d.High >= n {
			res.Low, res.High = quantity.Force(d.Low), quantity.Force(d.High)
		}
	}
	res.LowRule, res.LikelyRule, res.HighRule = RuleMeasured, RuleMeasured, RuleMeasured
	res.Surety = part.SuretyTyped
	res.Depth = p.stuck.Depth
	p.stuck.Rule = ""
	if rules.Weight.Known {
		p.weigh(res)
	}
	p.water(res) // the figure has in it what pushes along, not what pushes across
	res.Breakaway = p.measuredLoose(res.Range)
	p.planOn(res, sum)
	if p.found != nil {
		raise(p.found, "resistance-measured", part.Notice, p.id, force("measured", n))
	}
	return true
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
