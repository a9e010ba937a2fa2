package solver

import (
	"fmt"
	"math"
	"slices"

	"github.com/golang/geo/r3"

	"kedge/solver/effort"
	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// Assess answers for one rig of a plan. A rig that is not in the plan gives an
// assessment of the site alone, in which nothing is computed.
func Assess(p *plan.Plan, rig plan.ID) *Assessment {
	return assess(p, rig, "", nil).out
}

// Explain is the sum of one part of a rig: Assess with a recorder. Its last
// step has the part's used share, or says why there is none.
func Explain(p *plan.Plan, rig plan.ID, partID string) (*part.Derivation, error) {
	derivation := &part.Derivation{}
	a := assess(p, rig, partID, derivation).out
	if partID == ResistancePart {
		if a.Casualty == "" {
			return nil, fmt.Errorf("solver: rig %q has no casualty, so it has no resistance to explain", rig)
		}
		return derivation, nil
	}
	if _, ok := a.Part(partID); !ok {
		return nil, fmt.Errorf("solver: rig %q has no part %q", rig, partID)
	}
	return derivation, nil
}

// ResistancePart is the id under which [Explain] explains the resistance.
const ResistancePart = "resistance"

// An assessment is made in stages, each of which knows the stages before it and
// none behind: resolve, solve, lay out, load, rate, zone, conclude. What a stage
// finds out stays as it is for those behind it.

// notes is what every stage writes to: the answer, its findings, and the sum of
// the part that is explained.
type notes struct {
	out        *Assessment
	why        string           // part to explain
	derivation *part.Derivation // nil: none

	quiet   bool // figures alone are asked for: nothing is found
	refused bool // a contact or loose end makes every load misleading
	whyNot  string

	ids    []plan.ID    // room for the things of findings, see things
	values []part.Value // room for their values
	names  []string     // room for their parts
	turn   []string     // ids that were joined, see joined
	ofTurn int
}

// resolving is the stage that turns the plan into a rig, its figures into their
// conservative ends, and the casualty into a resistance.
type resolving struct {
	*notes
	g            *rigging
	empty        bool // nothing is rigged
	lifting      bool
	conservative conservative // things at the conservative end of their doubts
	res          effort.ResistanceResult
	stallN       []float64 // what each line's winch gives at most; 0: not known, or none
}

// solving is the stage that finds the equilibrium at each pull.
type solving struct {
	resolving
	work   *workspace
	solved solved
}

// laying is the stage that lays out how lines and straps lie, and finds what they
// and the casualty meet.
type laying struct {
	solving
	bodies    []terrain.Body // what lines can bear on; from contacts on
	unclosed  bool           // a sling does not close round its tree
	undecided bool           // whether a line bears on something, or which way a sheave turns, is not decided
}

// loading is the stage that finds the load of each part from the equilibrium.
type loading struct{ laying }

// rating is the stage that makes the parts: each load against what it is put on.
type rating struct {
	loading
	rolls        bool            // the casualty rolls by itself once it is free
	moving       []*plan.Vehicle // those that leave their place by themselves
	mayMove      []mayMove
	casualtyTips effort.TipResult
	unmoved      []plan.ID // vehicles that the pull presses down so that none moves them
	lastFound    int       // the part that was looked for last, see listed
}

// zoning is the stage that draws the zones and finds who stands in them.
type zoning struct{ rating }

// concluding is the stage that draws the conclusions over all parts.
type concluding struct {
	zoning
	open []bool // of each part: a rule that lacks a figure may refuse it; nil: none
}

// mayMove is a vehicle that may leave its place by itself, and what would decide.
type mayMove struct {
	vehicle *plan.Vehicle
	lacks   []part.Lack
}

func assess(p *plan.Plan, rig plan.ID, why string, derivation *part.Derivation) *concluding {
	a := &concluding{}
	a.notes = &notes{out: &Assessment{Rig: rig, Worst: -1, First: -1}, why: why, derivation: derivation}
	a.work = &workspace{}
	a.resolve(p, rig)
	if !a.empty {
		a.solve()
		a.layOut()
		a.load()
		a.rate()
	}
	a.idle()
	a.zones()
	a.finish()
	return a
}

// resolve is the stage that needs no equilibrium.
func (a *resolving) resolve(p *plan.Plan, rig plan.ID) {
	r, ok := p.Rig(rig)
	if !ok {
		r = &plan.Rig{Head: plan.Head{ID: rig}}
	}
	if !a.quiet {
		a.out.Findings = make([]part.Finding, 0, 16+3*(len(r.Blocks)+len(r.Slings)+len(r.Shackles)))
	}
	a.empty = len(r.Lines) == 0 && len(r.Blocks) == 0 && len(r.Slings) == 0
	a.g = newRigging(p, r)
	a.lifting = r.Basis != "" && r.Basis != plan.BasisPulling // a word that is not known counts as the stricter basis
	if v := a.g.casualty; v != nil {
		a.out.Casualty = v.ID
		a.lifting = a.lifting || v.Stuck.Overturned // past its balance the load hangs
	}
	a.out.Lifting = a.lifting
	if r.Travel != 0 {
		a.find(part.Finding{ID: "travel-not-computed", Level: part.Caution, Things: a.things(r.ID), Values: a.given(part.Length("travel", r.Travel))})
	}
	a.doubts()
	a.feet()
	a.groundKnown()
	a.resistance()
	a.unknownThings(p, r)
	a.figures()
	a.slopes()
	if !a.empty {
		a.fairleads()
		a.joints()
		a.connected()
		a.deadLines()
		a.snatch()
		a.stallN = a.stallPulls()
	}
}

// solve is the stage of the equilibrium: none of a rig that is refused already.
func (a *solving) solve() {
	if a.refused {
		return
	}
	planned, loosen := 0.0, 0.0
	if a.res.PlannedKnown {
		planned, loosen = float64(a.res.Planned), float64(a.res.BreakPlanned)
	}
	a.equilibrium(planned, loosen)
	a.refused, a.whyNot = a.solved.status == part.Refused, a.solved.why
	if v := a.g.casualty; v != nil && a.solved.status == part.Within && a.g.touches(v.ID) {
		if off, _ := a.offWay(v, a.found()); off.Refused {
			a.refuse("off-way-out-refused")
		}
	}
}

// layOut is the stage of where everything lies; what bears on something may
// refuse the rig yet.
func (a *laying) layOut() {
	a.geometry()
	a.contacts()
	a.eitherWay()
	a.wayOut()
	a.inWater()
	a.heights()
	a.reaches()
}

// load is the stage of what each chain, leg and restraint carries.
func (a *loading) load() {
	a.pulls()
	a.takesUp()
	if a.solved.status == part.Within && !a.refused {
		a.flags(a.solved.unit.Result)
	}
	a.chains()
	a.bridles()
	a.judgeRestraints()
}

// rate is the stage of the parts and of what the whole rig holds; if the world
// does not balance after it, all is taken back.
func (a *rating) rate() {
	a.parts()
	a.loosens()
	a.fastened()
	a.checkWorld()
	a.linesUsed()
}

// find takes a finding.
func (a *notes) find(f part.Finding) {
	if !a.quiet {
		a.out.Findings = append(a.out.Findings, f)
	}
}

// found is where packages raise findings.
func (a *notes) found() *[]part.Finding {
	if a.quiet {
		return nil
	}
	return &a.out.Findings
}

// derivationOf is the recorder for a part: nil unless that part is to be explained.
func (a *notes) derivationOf(id string) *part.Derivation {
	if a.derivation != nil && id == a.why {
		return a.derivation
	}
	return nil
}

// resistance asks effort what moves the casualty.
func (a *resolving) resistance() {
	v := a.g.casualty
	if v == nil {
		return
	}
	out, lacks := a.wayFall(v)
	ground := &a.g.p.Site.Ground
	derivation := a.derivationOf(ResistancePart)
	steps := &part.Derivation{}
	if !derivation.On() {
		steps = nil
	}
	a.res = effort.Resistance(effort.ResistanceIn{
		Vehicle: v, Ground: ground,
		GradeDeg:   -float64(a.g.ground.Fall(out)),
		LateralDeg: float64(a.g.ground.Lateral(out)), Lacks: lacks,
	}, steps, a.found())
	if derivation.On() { // the cross-check first: a sum ends in the figure it explains
		a.armyChain(derivation)
		derivation.Steps = append(derivation.Steps, steps.Steps...)
	}
	a.widen(v, ground, out)
	r := &a.out.Resistance
	r.Range, r.PlanOn, r.Depth, r.Breakaway, r.Confidence = a.res.Range, a.res.PlannedOn, a.res.Depth, a.res.Breakaway, a.res.Confidence
	r.LowRule, r.HighRule = a.res.LowRule, a.res.HighRule
	if a.res.PlannedKnown {
		r.Planned = a.res.Planned
	}
	r.Parts = a.res.Values()
	r.Rules = slices.Grow(r.Rules[:0], 3)
	for _, rule := range [...]struct {
		name string
		r    effort.RuleRange
	}{{effort.RulePhysics, a.res.Physics}, {effort.RuleHandbook, a.res.Handbook}, {effort.RuleCommon, a.res.Common}} {
		r.Rules = append(r.Rules, RuleRange{Rule: rule.name, Range: rule.r.Range, Why: rule.r.Why})
	}
}

// widen widens the resistance by what is in doubt about the casualty itself.
func (a *resolving) widen(v *plan.Vehicle, ground *plan.Ground, out quantity.Degrees) {
	for _, heavy := range []bool{false, true} {
		w, ok := heavier(v, heavy)
		if !ok || !a.res.Known {
			return
		}
		end := effort.Resistance(effort.ResistanceIn{Vehicle: w, Ground: ground,
			GradeDeg: -float64(a.g.ground.Fall(out)), LateralDeg: float64(a.g.ground.Lateral(out))}, nil, nil)
		if !end.Known {
			continue
		}
		a.res.Low, a.res.High = min(a.res.Low, end.Low), max(a.res.High, end.High)
		a.res.Breakaway.Low, a.res.Breakaway.High = min(a.res.Breakaway.Low, end.Breakaway.Low), max(a.res.Breakaway.High, end.Breakaway.High)
		switch {
		case a.res.PlannedOn == plan.PlanHigh && heavy:
			a.res.Planned, a.res.BreakPlanned = max(a.res.Planned, end.Planned), max(a.res.BreakPlanned, end.BreakPlanned)
		case a.res.PlannedOn == plan.PlanLow && !heavy:
			a.res.Planned, a.res.BreakPlanned = min(a.res.Planned, end.Planned), min(a.res.BreakPlanned, end.BreakPlanned)
		}
	}
}

// armyChain adds the army's paper method to the sum of the resistance, as a
// cross-check beside the exact statics.
func (a *resolving) armyChain(derivation *part.Derivation) {
	if !a.res.Handbook.Known || !(a.res.Weight.Likely > 0) {
		return
	}
	for i := range a.g.lines {
		if w := a.g.lines[i].winch; w != nil && w.Winch.LinePull > 0 {
			weight := float64(a.res.Weight.Likely)
			effort.ArmyChain(effort.ArmyIn{WeightN: weight, MireFactor: float64(a.res.Handbook.High) / weight, WinchN: float64(w.Winch.LinePull)}, derivation)
			return
		}
	}
}

// unknownThings reports what this version does not know.
func (a *resolving) unknownThings(p *plan.Plan, r *plan.Rig) {
	if plan.Understood(p) && len(p.Site.Unknown)+len(r.Unknown) == 0 {
		return
	}
	if paths := plan.UnknownMembers(p); len(paths) > 0 {
		a.out.Status = part.NotUnderstood
		a.find(part.Finding{ID: "unknown-members", Level: part.Caution, Values: []part.Value{
			part.Count("count", len(paths)), part.Word("path", paths[0])}})
	}
	if paths := plan.UnknownWords(p); len(paths) > 0 {
		a.out.Status = part.NotUnderstood
		a.find(part.Finding{ID: "unknown-words", Level: part.Caution, Values: []part.Value{
			part.Count("count", len(paths)), part.Word("path", paths[0])}})
	}
	for _, list := range [][]plan.UnknownThing{p.Site.Unknown, r.Unknown} {
		for i := range list {
			a.out.Status = part.NotUnderstood
			a.find(part.Finding{ID: "unknown-thing", Level: part.Caution, Things: a.things(list[i].ID)})
		}
	}
}

// connected checks that something pulls on something before anything is
// solved, and names what does not.
func (a *resolving) connected() {
	g := a.g
	for _, id := range g.loose {
		if !g.inPath(id) {
			a.find(part.Finding{ID: "loose-end", Level: part.Caution, Things: a.things(id)})
			continue
		}
		a.refuse("loose-end")
		a.find(part.Finding{ID: "loose-end", Level: part.Warning, Things: a.things(id)})
	}
	fast := g.holdsFast()
	for i := range g.blocks {
		if rb := &g.blocks[i]; !rb.loose && !fast[rb.node] && g.inPath(rb.block.ID) {
			a.refuse("loose-end")
			a.find(part.Finding{ID: "loose-end", Level: part.Warning, Things: a.things(rb.block.ID)})
		}
	}
	a.slingsReach()
	if g.strange {
		a.refuse("unknown-thing")
	}
	if g.strangeUse() || g.strangeWay() {
		a.refuse("unknown-words")
	}
	a.drumsShared()
	a.hauls()
	casualties := 0
	for i := range g.p.Site.Vehicles {
		if g.p.Site.Vehicles[i].Stuck != nil {
			casualties++
		}
	}
	if casualties > 1 {
		a.find(part.Finding{ID: "several-casualties", Level: part.Caution, Things: a.things(g.casualty.ID)})
	}
}

// hauls checks that a winch hauls a line, the right way round, and that what it
// hauls reaches the casualty.
func (a *resolving) hauls() {
	g, drums, reaches := a.g, 0, false
	for i := range g.lines {
		rl := &g.lines[i]
		if rl.line.Use != plan.UsePull {
			continue
		}
		n := len(rl.line.Path)
		if rl.winch != nil {
			drums++
		} else if n > 1 && g.winchOf(rl.line.Path[n-1]) != nil {
			a.refuse("line-backwards")
			a.find(part.Finding{ID: "line-backwards", Level: part.Warning, Things: a.things(rl.line.ID)})
		}
	}
	if g.casualty != nil {
		reaches = g.touches(g.casualty.ID)
	}
	switch {
	case len(g.r.Lines) == 0:
		a.refuse("nothing-pulls")
		a.find(part.Finding{ID: "nothing-pulls", Level: part.Caution, Things: a.things(g.r.ID)})
	case drums == 0:
		a.refuse("no-winch")
		a.find(part.Finding{ID: "no-winch", Level: part.Warning, Things: a.things(g.r.Lines[0].ID)})
	case g.casualty == nil:
		a.find(part.Finding{ID: "no-casualty", Level: part.Warning, Things: a.things(g.r.ID)})
	case !reaches:
		a.find(part.Finding{ID: "not-hooked", Level: part.Warning, Things: a.things(g.casualty.ID)})
	}
}

// drumsShared refuses two lines off one drum: it hauls one, and what two share
// nobody can tell.
func (a *resolving) drumsShared() {
	first := make(map[plan.ID]plan.ID)
	for i := range a.g.r.Lines {
		l := &a.g.r.Lines[i]
		for k, p := range l.Path {
			v := a.g.winchOf(p)
			if v == nil || k > 0 && k+1 < len(l.Path) {
				continue
			}
			if other, has := first[v.ID]; has && other != l.ID {
				a.refuse("winch-taken")
				a.find(part.Finding{ID: "winch-taken", Level: part.Danger, Things: a.things(v.ID, other, l.ID)})
				return
			}
			first[v.ID] = l.ID
		}
	}
}

// slingsReach refuses a rig with a sling that does not go round, or that may.
func (a *resolving) slingsReach() {
	for i := range a.g.slings {
		rs := &a.g.slings[i]
		if a.g.restrains[rs.sling.ID] || !a.g.between(rs) {
			continue
		}
		if rs.round.Short > 0 {
			a.refuse("sling-too-short")
		}
		if on := a.g.things.Anchor(rs.sling.On.Thing); a.g.leg(rs) { // which leg is taut is not known round a trunk nobody measured
			switch {
			case rs.onTrunk && !(rs.radius > 0):
				a.refuse("sling-trunk-unknown")
			case on != nil && plan.AnchorKindOf(on.Kind) == nil: // it may be a tree
				a.refuse("anchor-kind-unknown")
			}
		}
		if !(rs.sling.Length > 0) { // nobody knows where what it holds comes to rest
			a.refuse("sling-length-unknown")
			a.find(part.Finding{ID: "sling-length-unknown", Level: part.Warning, Things: a.things(rs.sling.ID), Parts: []string{string(rs.sling.ID)},
				Lacks: []part.Lack{{Thing: rs.sling.ID, Member: "length_m", Rule: "sling-length-unknown"}}})
		}
	}
}

// strangeUse tells a line or sling whose use is a word nobody knows: whether it
// pulls, or holds back, is not known.
func (g *rigging) strangeUse() bool {
	strange := func(use string) bool {
		return use != plan.UsePull && use != plan.UseTieBack && use != plan.UseHoldBack
	}
	return slices.ContainsFunc(g.r.Lines, func(l plan.Line) bool { return strange(l.Use) }) ||
		slices.ContainsFunc(g.r.Slings, func(s plan.Sling) bool { return strange(s.Use) })
}

// strangeWay reports whether the casualty's way out is a word nobody knows.
func (g *rigging) strangeWay() bool {
	if g.casualty == nil {
		return false
	}
	_, known := g.casualty.WayOut()
	return !known && g.casualty.Stuck.Way != plan.WayFree
}

// refuse makes every load of the rig "refused": what would be computed from
// here on would mislead.
func (a *notes) refuse(id string) {
	if !a.refused {
		a.refused, a.whyNot = true, id
	}
}

// pulls fills in the two pulls.
func (a *solving) pulls() {
	s := &a.solved
	if a.refused || s.status != part.Within {
		a.out.Why = a.whyNot
		if a.out.Status != part.NotUnderstood {
			a.out.Status = part.Refused
		}
		return
	}
	if a.out.Status != part.NotUnderstood {
		a.out.Status = part.Within
	}
	pull := func(r *solution) Pull {
		if r.isNone() {
			return Pull{}
		}
		p := Pull{Known: true}
		for i := range a.g.lines {
			if rl := &a.g.lines[i]; rl.index >= 0 && rl.winch != nil {
				p.Tension = quantity.Force(r.tension(rl.index))
				break
			}
		}
		if len(r.Bodies) > 0 {
			p.Along = quantity.Force(r.Bodies[0].PullN * r.times)
		}
		if !finite(r3.Vector{X: float64(p.Tension), Y: float64(p.Along)}) {
			return Pull{} // statics does not know it
		}
		return p
	}
	a.out.Move, a.out.Loosen, a.out.Stall = pull(s.move.main()), pull(s.loosen.main()), pull(s.stall.main())
	ref := s.unit
	if a.g.casualty != nil && a.g.touches(a.g.casualty.ID) {
		a.out.Advantage, a.out.MotionRatio, a.out.Efficiency = orNothing(ref.Advantage.ByForce), orNothing(ref.Advantage.ByMotion), orNothing(ref.Advantage.Efficiency)
	}
	a.out.ResidualN = ref.ResidualN
	if ref.ReferenceN > 0 {
		a.out.ResidualOfMax = ref.ResidualN / ref.ReferenceN
	}
	v := a.g.casualty
	switch {
	case v == nil:
	case !a.res.PlannedKnown:
		a.find(part.Finding{ID: "resistance-not-computed", Level: part.Warning, Things: a.things(v.ID)})
	case a.out.Move.Known && a.out.Stall.Known:
		a.moves(v)
	}
}

// moves tells whether every winch can give what the planned resistance takes of
// it; one whose tension is typed is measured, and may be too little.
func (a *solving) moves(v *plan.Vehicle) {
	a.out.Moves = true
	say := func(id string, level part.Level, gives, needs float64) {
		a.out.Moves = false
		a.find(part.Finding{ID: id, Level: level, Things: a.things(v.ID), Values: a.given(
			part.Number("stall", part.UnitLimit, gives), part.Force("need", needs))})
	}
	move := a.solved.move.main()
	typed := 1.0 // share of what is computed that a doubtful tension gives for sure
	for i := range a.g.lines {
		rl := &a.g.lines[i]
		if rl.index < 0 || rl.winch == nil {
			continue
		}
		if rl.line.Fixed > 0 {
			least, most := plan.Range(&rl.line.Head, "tension_n", float64(rl.line.Fixed))
			typed = min(typed, least/most)
			continue
		}
		gives := gear.StallPull(a.conservative.vehicle(rl.winch).Winch)
		if t := move.tension(rl.index); gives.Known && t > float64(gives.High) {
			say("does-not-move", part.Warning, float64(gives.High), t)
			return
		}
	}
	if along := float64(a.out.Move.Along) * typed; along < float64(a.res.Planned)*(1-alongShare) {
		say("tension-too-small", part.Warning, along, float64(a.res.Planned))
	}
}

// alongShare, of the resistance: what a pull that gives it may seem short by.
const alongShare = 1e-6

// orNothing is x, or 0 (not computed) where statics does not know it.
func orNothing(x float64) float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return 0
	}
	return x
}
