package effort

import (
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Word ids of the rule sets, and of why one was not computed.
const (
	RulePhysics  = "physics"
	RuleHandbook = "handbook"
	RuleCommon   = "common practice"
	RuleMeasured = "measured"

	WhyMass       = "mass not known"
	WhyMassOdd    = "mass of no vehicle"
	WhyMeasured   = "measured instead"
	WhySunk       = "sunk past the sinkage rule"
	WhyOverturned = "overturned"
	WhyNoDepth    = "neither sunk nor on a grade"
	WhyNoFraction = "no fraction for this ground"
	WhyNotFinite  = "not a number"
	WhyWater      = "push of the current not known"
)

// ResistanceIn is what the rules of resistance read. GradeDeg is the angle of
// the ground along the way out, positive where it climbs; LateralDeg the angle
// across it, sign of no matter. Both in degrees, their sines the components of
// the plane's fall:
//
//	sin a = sin β · cos ψ, ψ from the fall line
type ResistanceIn struct {
	Vehicle    *plan.Vehicle // the casualty; Stuck may be nil: nothing then is known of how it lies
	Ground     *plan.Ground
	GradeDeg   float64
	LateralDeg float64
	Lacks      []part.Lack // what the plan lacks to tell the slope; the two angles then mean nothing
}

// RuleRange is what one set of rules says, or why it says nothing.
type RuleRange struct {
	part.Range
	Break part.Range // the pull along the way out that breaks it loose, by these rules
	Why   string     // word id of the reason if it is not known
}

// Terms are what the resistance by physics is made of, newtons at low, likely
// and high. Slope is negative downhill. Where the sinkage rule governs, Rolling
// is its 0.02 and Sinkage the rest.
type Terms struct {
	Rolling, Slope, Sinkage, Dragged, Current part.Range
}

// ResistanceResult is the force along the way out that just moves the
// casualty. The zero value is "not computed".
type ResistanceResult struct {
	part.Range                                // over all rule sets; not narrower than physics to handbook
	Physics, Handbook, Common RuleRange       // side by side
	Terms                     Terms           // what physics is made of
	LowRule, LikelyRule       string          // rule sets behind the ends
	HighRule                  string          //
	PlannedOn                 string          // plan.PlanHigh, …
	PlannedKnown              bool            //
	Planned                   quantity.Force  // what the pull is planned on
	Breakaway                 part.Range      // the pull along the way out that breaks it loose, at the start and at every restart; never under the resistance
	BreakPlanned              quantity.Force  // the end of it that the plan is planned on; meaningful if Breakaway is known
	Weight                    part.Range      // with load and trapped water
	Measured                  bool            // a measured figure overrules the rules
	CurrentSide               part.Range      // push of a current across the way out
	Depth                     string          // plan.DepthHub, …; as used
	Confidence                part.Confidence // the weakest that governs an end
}

// Values names what the resistance is made of at its planned end, for the
// board; it allocates.
func (r *ResistanceResult) Values() []part.Value {
	if !r.Physics.Known {
		return nil
	}
	at := func(x part.Range) float64 { return float64(pick(x, r.PlannedOn)) }
	vs := make([]part.Value, 0, 5)
	for _, t := range [...]struct {
		name string
		x    part.Range
	}{{"rolling", r.Terms.Rolling}, {"slope", r.Terms.Slope}, {"sinkage", r.Terms.Sinkage}, {"dragged", r.Terms.Dragged}, {"current", r.Terms.Current}} {
		if t.x.Known && at(t.x) != 0 {
			vs = append(vs, part.Force(t.name, at(t.x)))
		}
	}
	return vs
}

// pick is one end of a range by its word in the plan; high unless told.
func pick(r part.Range, on string) quantity.Force {
	switch on {
	case plan.PlanLow:
		return r.Low
	case plan.PlanLikely:
		return r.Likely
	}
	return r.High
}

// pull is the state of one computation.
type pull struct {
	in       ResistanceIn
	n        *numbers
	stuck    plan.Stuck
	sinA     float64
	flat     float64 // cos β
	weight   triple
	locked   triple // share of the weight on wheels that do not turn
	c, mu    triple
	cKnown   bool
	fraction float64 // of common practice; 0: none for this ground
	sure     part.Confidence
	current  triple
	depth    string
	found    *[]part.Finding
	id       plan.ID
}

// Resistance computes what moves the casualty, by each set of rules and over
// all of them. What is not known widens the range or leaves it not computed,
// with a finding; it never counts as nothing. Where the slope is not known the
// answer is that of level ground, and a finding says that it is not decided.
func Resistance(in ResistanceIn, derivation *part.Derivation, found *[]part.Finding) (res ResistanceResult) {
	p := pull{in: in, n: book(), found: found}
	if in.Vehicle == nil || !finite(in.GradeDeg, in.LateralDeg) {
		res.say(WhyNotFinite)
		return res
	}
	p.id = in.Vehicle.ID
	if in.Vehicle.Stuck != nil {
		p.stuck = *in.Vehicle.Stuck
	}
	sinB := sinDeg(in.LateralDeg)
	p.sinA = sinDeg(in.GradeDeg)
	p.flat = flatness(p.sinA, sinB)
	p.locked = lockedShare(in.Vehicle, p.stuck.LockedWheels)
	p.drifts()
	part.NotDecided(found, ruleLoosens, "", in.Lacks...)
	res.PlannedOn = p.stuck.PlanOn
	switch res.PlannedOn {
	case plan.PlanHigh, plan.PlanLikely, plan.PlanLow:
	default:
		res.PlannedOn = plan.PlanHigh
	}
	if b := p.stuck.Breakaway; found != nil && b > 0 && b < 1 {
		raise(found, "breakaway-odd", part.Caution, p.id, number("factor", b), number("low", facts.BreakawayFactor.Low().X), number("high", facts.BreakawayFactor.High().X))
	}
	m := float64(p.stuck.Measured)
	if !(m > 0) || !finite(m) || !p.measured(&res, m, derivation) {
		if oddMass(nil, in.Vehicle) { // nothing follows from such a figure
			oddMass(found, in.Vehicle)
			res.say(WhyMassOdd)
			return res
		}
		p.rules(&res, derivation)
	}
	p.braked(&res)
	return res
}

// rules computes by the three sets of rules.
func (p *pull) rules(res *ResistanceResult, derivation *part.Derivation) {
	if !p.weigh(res) {
		res.say(WhyMass)
		return
	}
	waterKnown := p.water(res)
	p.ground()
	p.sink()
	res.Depth = p.depth
	p.physics(res, derivation)
	p.handbook(res, derivation)
	p.common(res, derivation)
	if !waterKnown {
		// A current pushes with a force nobody can state: no range at all.
		res.say(WhyWater)
		return
	}
	p.join(res)
	p.planOn(res, derivation)
	p.uncounted(res)
	if p.found != nil && p.stuck.OwnDrive {
		raise(p.found, "own-drive-not-counted", part.Notice, p.id)
	}
}

// uncounted names what the plan says of the casualty and no rule here reads.
func (p *pull) uncounted(res *ResistanceResult) {
	if p.found == nil || !res.Known {
		return
	}
	switch {
	case p.stuck.LockedWheels <= 0 || res.Physics.Known:
	case p.stuck.Overturned: // they are in the air
		raise(p.found, "not-counted", part.Notice, p.id, part.Word("member", "field-locked_wheels"))
	default:
		raise(p.found, "locked-not-computed", part.Caution, p.id)
	}
	if p.stuck.BackTheWay && !res.Handbook.Known {
		raise(p.found, "not-counted", part.Notice, p.id, part.Word("member", "field-back_the_way_it_came"))
	}
	if p.stuck.Sinkage > 0 && !res.Physics.Known && p.depth == p.stuck.Depth {
		raise(p.found, "not-counted", part.Notice, p.id, part.Word("member", "field-sinkage_m"))
	}
}

// say marks every rule set that has not answered yet with a reason.
func (r *ResistanceResult) say(why string) {
	for _, rr := range [...]*RuleRange{&r.Physics, &r.Handbook, &r.Common} {
		if !rr.Known || why == WhyWater {
			*rr = RuleRange{Why: why}
		}
	}
}

// weigh finds the weight, low to high with trapped water. False: mass unknown.
func (p *pull) weigh(res *ResistanceResult) bool {
	v := p.in.Vehicle
	m := float64(v.Mass + v.Load)
	if !(v.Mass > 0) || !(v.Load >= 0) || !finite(m) {
		if p.found != nil {
			lacking(p.found, "mass-not-known", part.Warning, p.id, "mass_kg")
		}
		return false
	}
	oddMass(p.found, v)
	kg := triple{m, m, m}
	if p.stuck.InWater {
		trapped := three(facts.WaterTrapped)
		if t := float64(p.stuck.TrappedWater); t > 0 {
			trapped = triple{t, t, t}
		} else if p.found != nil && !res.Measured {
			raise(p.found, "trapped-water-assumed", part.Notice, p.id, mass("high", trapped[high]))
		}
		for e := range kg {
			kg[e] += trapped[e]
		}
	}
	p.weight = kg.scale(quantity.Gravity)
	res.Weight = rangeOf(p.weight)
	return true
}

// surface is the row of what the casualty stands on.
func (p *pull) surface() (s surface, known bool) {
	id := p.stuck.Surface
	if id == "" && p.in.Ground != nil {
		id = p.in.Ground.Surface
	}
	return find(p.n.rolling, id)
}

// ground reads rolling fraction, grip and the fraction of common practice.
func (p *pull) ground() {
	s, ok := p.surface()
	p.c, p.cKnown, p.sure = s.v, ok, part.ConfidenceOf(string(s.confidence))
	if ok {
		p.fraction = p.n.fractions[s.fraction]
	} else {
		p.c, p.sure = p.n.widestRoll, part.ConfidenceOurs
		if p.found != nil {
			f := raise(p.found, "surface-not-known", part.Caution, p.id, factor("low", p.c[low]), factor("high", p.c[high]))
			f.Lacks = []part.Lack{{Member: "surface", Rule: f.ID}}
		}
	}
	if p.locked[high] > 0 {
		p.mu = gripOf(p.in.Vehicle, p.in.Ground, p.n, p.found)
	}
}

// gripOf is the grip under a vehicle; the widest range of the book, with a
// finding, if nobody says what it stands on.
func gripOf(v *plan.Vehicle, g *plan.Ground, n *numbers, found *[]part.Finding) triple {
	id := v.Grip
	if id == "" && g != nil {
		id = g.Grip
	}
	s, ok := find(n.grip, id)
	if !ok {
		if found != nil {
			f := raise(found, "grip-not-known", part.Caution, v.ID, factor("low", n.widestMu[low]), factor("high", n.widestMu[high]))
			f.Lacks = []part.Lack{{Member: "grip", Rule: f.ID}}
		}
		return n.widestMu
	}
	return s.v
}

// sink settles how deep it sits, from what is said and what is measured.
func (p *pull) sink() {
	p.depth = p.stuck.Depth
	cm := float64(p.stuck.Sinkage) * 100
	switch {
	case p.depth == plan.DepthNone && cm > sinkageLimitCm():
		p.depth = plan.DepthUnknown // the ruts say otherwise: the widest rows
	case p.depth == plan.DepthUnknown && cm > 0 && cm <= sinkageLimitCm():
		p.depth = plan.DepthNone // measured, and the rule reaches that far
	}
	switch p.depth {
	case plan.DepthNone, plan.DepthHub, plan.DepthChassis, plan.DepthBody:
	default:
		p.depth = plan.DepthUnknown
		if p.found != nil {
			f := lacking(p.found, "depth-not-known", part.Caution, p.id, "casualty.depth")
			f.Values = []part.Value{factor("low", p.n.mire[low]), factor("high", p.n.mire[high])}
		}
	}
}

// join spans the range over the rule sets.
func (p *pull) join(res *ResistanceResult) {
	res.take(RulePhysics, res.Physics)
	res.take(RuleHandbook, res.Handbook)
	res.take(RuleCommon, res.Common)
	if !res.Known {
		return
	}
	// The likely figure is one rule's own, never a mean: physics where it
	// reaches; common practice for a wheeled vehicle bogged to its hubs, which
	// is what its bog fraction speaks of; the handbook for anything deeper.
	switch {
	case res.Physics.Known && p.depth == plan.DepthNone:
		res.LikelyRule = RulePhysics
	case p.depth == plan.DepthHub && res.Common.Known:
		res.LikelyRule = RuleCommon
	case res.Handbook.Known:
		res.LikelyRule = RuleHandbook
	}
	likely := res.by(res.LikelyRule)
	res.Likely = min(max(likely.Likely, res.Low), res.High)
	res.Breakaway.Likely = min(max(likely.Break.Likely, res.Breakaway.Low), res.Breakaway.High)
	res.Confidence = p.confidence(res)
}

// take widens the range by what a rule set says.
func (r *ResistanceResult) take(rule string, s RuleRange) {
	switch {
	case !s.Known:
		return
	case !r.Known:
		r.Range, r.Breakaway = s.Range, s.Break
		r.LowRule, r.LikelyRule, r.HighRule = rule, rule, rule
		return
	}
	r.Breakaway.Low, r.Breakaway.High = min(r.Breakaway.Low, s.Break.Low), max(r.Breakaway.High, s.Break.High)
	if s.Low < r.Low {
		r.Low, r.LowRule = s.Low, rule
	}
	if s.High > r.High {
		r.High, r.HighRule = s.High, rule
	}
}

// by is what one rule set says; the zero value for a word that is none.
func (r *ResistanceResult) by(rule string) RuleRange {
	switch rule {
	case RulePhysics:
		return r.Physics
	case RuleHandbook:
		return r.Handbook
	case RuleCommon:
		return r.Common
	case "":
		return RuleRange{Range: r.Range, Break: r.Breakaway}
	}
	return RuleRange{}
}

func (p *pull) confidence(res *ResistanceResult) part.Confidence {
	var s part.Confidence
	for _, rule := range [...]string{res.LowRule, res.LikelyRule, res.HighRule} {
		switch rule {
		case RulePhysics:
			s = s.Weaker(p.sure)
		case RuleHandbook:
			s = s.Weaker(part.ConfidenceMemory)
		case RuleCommon:
			s = s.Weaker(part.ConfidenceCommon).Weaker(part.ConfidenceMemory)
		}
	}
	return s
}

// planOn takes the end, and the rule set, that the user plans on.
func (p *pull) planOn(res *ResistanceResult, derivation *part.Derivation) {
	if !res.Known {
		return
	}
	on := res.by(p.stuck.Rule)
	if !on.Known {
		if p.found != nil {
			raise(p.found, "plan-rule-not-computed", part.Caution, p.id, part.Word("rule", p.stuck.Rule), part.Force("high", res.High))
		}
		on = res.by("")
	}
	res.Planned, res.PlannedKnown = pick(on.Range, res.PlannedOn), true
	res.BreakPlanned = max(res.Planned, pick(on.Break, res.PlannedOn))
	if p.found != nil && res.Planned < res.High {
		// Whatever the choice, the high case stands beside it.
		raise(p.found, "planned-below-high", part.Caution, p.id,
			part.Word("on", res.PlannedOn), part.Force("planned", res.Planned), part.Force("high", res.High))
	}
	if derivation.On() {
		ops := []part.Operand{computed(part.Force("low", res.Low)), computed(part.Force("likely", res.Likely)), computed(part.Force("high", res.High))}
		derivation.Add("resistance-planned", part.Force("resistance", res.Planned), ops...)
	}
}

// fractionFact is the row of common practice for a surface; empty: none.
func (p *pull) fractionFact() facts.ID {
	id := p.stuck.Surface
	if id == "" && p.in.Ground != nil {
		id = p.in.Ground.Surface
	}
	s, _ := find(p.n.rolling, id)
	return s.fraction
}

// surfaceID is the rolling row in use; empty: the widest of all.
func (p *pull) surfaceID() facts.ID {
	if !p.cKnown {
		return ""
	}
	if p.stuck.Surface != "" {
		return facts.ID(p.stuck.Surface)
	}
	return facts.ID(p.in.Ground.Surface)
}
