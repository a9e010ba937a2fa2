package effort

import (
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// What it takes to break the casualty loose, at the start and at every restart:
// wheels that have stood settle in, and the ground closes round them.
//
//	physics   R_break = k·(rolling + sinkage) + dragged + slope + current + suction
//	handbook  its own pull + suction
//	common    its own pull + suction
//	measured  R_break = W·sin a + k·(R − W·sin a) + suction
//
// k multiplies what wheels roll and sink in, and nothing else. The slope pulls
// the same at rest. Dragged wheels slide from the first: μ is the friction at
// which they begin to, and what that is above the sliding one (1.05 to 1.4 in
// the tables the grip rows come from) lies within the rows' own ranges. The
// handbook's mire factors, and the fractions of common practice, are pulls that
// got vehicles out: standing still is in them already. Suction is the user's
// own figure and comes on top of each.

// ruleLoosens is the finding that a rule about breaking loose raises.
const ruleLoosens = "does-not-break-loose"

// k is the factor on rolling and sinkage at one end of the range: the user's
// own, or the handbook's.
func (p *pull) k(end int) float64 {
	if b := p.stuck.Breakaway; b >= 1 && finite(b) {
		return b
	}
	return three(facts.BreakawayFactor)[end]
}

// suction is what the user says belly and suction take, newtons.
func (p *pull) suction() float64 {
	if s := float64(p.stuck.Suction); s > 0 && finite(s) {
		return s
	}
	return 0
}

// pulledLoose is the break of rules whose figures are break-out pulls already.
func (p *pull) pulledLoose(r triple) part.Range {
	for e := range r {
		r[e] += p.suction()
	}
	return rangeOf(r)
}

// measuredLoose is the break of a measured resistance, whose slope is known if
// the weight is: the rest of it counts as rolling and sinkage.
func (p *pull) measuredLoose(r part.Range) part.Range {
	along := p.weight.scale(p.sinA)
	if along[low] > along[high] {
		along[low], along[high] = along[high], along[low]
	}
	var b triple
	for e, x := range [...]quantity.Force{r.Low, r.Likely, r.High} {
		// What is not slope is most where the slope is least.
		slope := min(along[high-e], float64(x))
		b[e] = max(float64(x), slope+p.k(e)*(float64(x)-slope)) + p.suction()
	}
	ascending(&b)
	return rangeOf(b)
}

// LoosenIn is a casualty to be broken loose. GivesN is the pull along its way
// out that the rig gives where its winches give what they surely do on the
// layer their rope is on: not the stall they may reach.
type LoosenIn struct {
	Casualty   plan.ID
	Breakaway  part.Range
	GivesN     float64
	GivesKnown bool
	Lacks      []part.Lack // what the plan lacks to tell what is given
}

// Loosens judges whether the rig breaks the casualty loose: under the low end
// of the breakaway it does not, under the high end it may not.
func Loosens(in LoosenIn, found *[]part.Finding) {
	if found == nil {
		return
	}
	if !in.GivesKnown || !finite(in.GivesN) || !in.Breakaway.Known {
		part.NotDecided(found, ruleLoosens, in.Casualty, in.Lacks...)
		return
	}
	level := part.Caution
	switch gives := quantity.Force(in.GivesN); {
	case in.Breakaway.Low > gives:
		level = part.Warning
	case !(in.Breakaway.High > gives):
		return
	}
	raise(found, ruleLoosens, level, in.Casualty,
		part.Force("low", in.Breakaway.Low), part.Force("high", in.Breakaway.High), holds("gives", in.GivesN))
}
