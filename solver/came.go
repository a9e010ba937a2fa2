package solver

import (
	"math"

	"github.com/golang/geo/r3"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/statics"
)

// came records how a load at one balance came about, for the sum of its part,
// and tells what the recorded steps give.
type came func(t *tracer) (n float64)

// cameSlack is the share by which what the steps of a load give may differ from
// it: the noise of sines and roots. (ours)
const cameSlack = 1e-9

// gives reports whether a force is that load.
func gives(n float64, l part.Load) bool { return l.Known && same(n, float64(l.Force)) }

func same(x, y float64) bool { return math.Abs(x-y) <= cameSlack*max(math.Abs(x), math.Abs(y)) }

func operand(name string, unit part.Unit, x float64) part.Operand {
	return part.Operand{Value: part.Number(name, unit, x)}
}

func forceOperand(name string, n float64) part.Operand { return operand(name, part.UnitForce, n) }

// tracer follows forces back to the tensions at the hauling ends of the lines,
// at one balance.
type tracer struct {
	a          *rating
	derivation *part.Derivation
	r          *solution
	times      float64 // factor on every force
	legs       bool    // legs of fixed bridles count with their factor
	lost       bool    // a force was not followed to its end
	pulled     bool    // a tension at a hauling end is in it
	depth      int
}

// pullOn is one of the forces on a place, and what records how it came about.
type pullOn struct {
	vec  r3.Vector
	tell func()
}

// add records a step that gives a force.
func (t *tracer) add(formula string, n float64, operands ...part.Operand) float64 {
	t.derivation.Add(formula, part.Force("load", n), operands...)
	return n
}

// together records the forces on a place one after another, each added to those
// before by the angle between them, and gives their sum.
func (t *tracer) together(all []pullOn) (sum r3.Vector) {
	for i, p := range all {
		p.tell()
		if i == 0 {
			sum = p.vec
			continue
		}
		before := sum
		sum = sum.Add(p.vec)
		formula := "load-of-lines"
		if i > 1 {
			formula = "load-with-next"
		}
		t.add(formula, sum.Norm(), forceOperand("one", before.Norm()), forceOperand("two", p.vec.Norm()),
			operand("between", part.UnitAngle, float64(part.Angle(before, p.vec))))
	}
	return sum
}

// stretch is the pull of one stretch of a line on one of its ends.
func (t *tracer) stretch(line, k, node int) pullOn {
	l := &t.r.Lines[line]
	st := &l.Stretches[k]
	vec := st.Dir.Mul(st.TensionN * t.r.times * t.times)
	if st.B == node {
		vec = vec.Mul(-1)
	}
	return pullOn{vec, func() {
		end := t.r.tension(line) * t.times
		t.pulled = true
		whole, n := t.a.hauled(t.r)
		all := same(end, whole)
		if n > 1 && whole > 0 && !all {
			t.add("winch-share", end, forceOperand("whole", whole), operand("share", part.UnitNone, end/whole))
		}
		passed := 0.0
		if end > 0 {
			passed = vec.Norm() / end
		}
		if all && same(passed, 1) {
			return // told before
		}
		t.add("load-of-line", vec.Norm(), forceOperand("tension", end), operand("passed", part.UnitNone, passed))
	}}
}

// stretchesAt are the pulls of the stretches that end at a point.
func (t *tracer) stretchesAt(node int) (all []pullOn) {
	for i := range t.r.Lines {
		for k, st := range t.r.Lines[i].Stretches {
			if st.A == node || st.B == node {
				all = append(all, t.stretch(i, k, node))
			}
		}
	}
	return all
}

// through are the pulls of the lines on a block, as [loading.linesOn] has them.
func (t *tracer) through(node int) (all []pullOn) {
	held := t.a.g.held(node)
	for i := range t.r.Lines {
		sts := t.r.Lines[i].Stretches
		if !held && (sts[0].A == node || sts[len(sts)-1].B == node) {
			continue
		}
		for k, st := range sts {
			if st.A == node || st.B == node {
				all = append(all, t.stretch(i, k, node))
			}
		}
	}
	return all
}

// factor is that of a sling by a fixed bridle.
func (t *tracer) factor(rs *riggedSling) float64 {
	if t.legs {
		return max(1, rs.times)
	}
	return 1
}

// sling is the pull of a sling on one of its ends.
func (t *tracer) sling(rs *riggedSling, node int) pullOn {
	vec := rs.pullAt(t.r, node).Mul(t.times * t.factor(rs))
	return pullOn{vec, func() {
		if !t.tellSling(rs, node) {
			t.lost = true
		}
	}}
}

// tellSling records what loads a sling whose force arrives at a point: what is
// on its other end. −1: whichever end that is.
func (t *tracer) tellSling(rs *riggedSling, at int) bool {
	if t.depth++; t.depth > mostJoints {
		return false
	}
	defer func() { t.depth-- }()
	mark := len(t.derivation.Steps)
	for _, n := range [2]int{rs.to, rs.from} {
		if n == at || t.a.g.rig.Points[n].Kind != statics.Free {
			continue
		}
		legs, up := t.meeting(rs, n)
		if len(up) > 0 {
			f := t.together(up)
			if !t.lost && t.leg(rs, legs, n, f) {
				return true
			}
		}
		t.derivation.Steps, t.lost = t.derivation.Steps[:mark], false
	}
	return false
}

// meeting is what pulls at a free point beside a sling: the slings on its own
// side, itself with them, and the pulls that they share.
func (t *tracer) meeting(rs *riggedSling, n int) (legs []*riggedSling, up []pullOn) {
	if t.a.g.lineAt(n) {
		up = t.stretchesAt(n)
	}
	for _, side := range t.a.legsAt(t.r, n) {
		own := len(up) > 0 // beside a line they are all on one side
		for _, o := range side {
			own = own || o == rs
		}
		for _, o := range side {
			if own {
				legs = append(legs, o)
			} else {
				up = append(up, t.sling(o, n))
			}
		}
	}
	return legs, up
}

// leastWide is the sine of the angle between two legs below which their shares
// are no longer told by it. (ours)
const leastWide = 0.01

// leg records the share of a sling in what it and others carry together.
func (t *tracer) leg(rs *riggedSling, legs []*riggedSling, n int, whole r3.Vector) bool {
	mine := rs.pullAt(t.r, n).Norm() * t.times * t.factor(rs)
	switch {
	case len(legs) == 1:
		return same(whole.Norm(), mine)
	case !(whole.Norm() > 0):
		return false
	case len(legs) == 2 && t.factor(rs) == 1:
		other := legs[0]
		if other == rs {
			other = legs[1]
		}
		p, q := rs.pullAt(t.r, n), other.pullAt(t.r, n)
		between, off := part.Angle(p, q), part.Angle(q.Mul(-1), whole)
		if wide := math.Sin(between.Radians()); wide > leastWide && same(whole.Norm()*math.Sin(off.Radians())/wide, mine) {
			t.add("leg-of-two", mine, forceOperand("whole", whole.Norm()), operand("off", part.UnitAngle, float64(off)), operand("between", part.UnitAngle, float64(between)))
			return true
		}
	}
	t.add("leg-share", mine, forceOperand("whole", whole.Norm()), operand("share", part.UnitNone, mine/whole.Norm()))
	return true
}

// site are the pulls on the ports of the site that match.
func (t *tracer) site(match func(plan.Port) bool) (all []pullOn) {
	for n, on := range t.a.g.on {
		if on.IsZero() || !match(on) {
			continue
		}
		all = append(all, t.stretchesAt(n)...)
		for i := range t.a.g.slings {
			if rs := &t.a.g.slings[i]; rs.meets(n) {
				all = append(all, t.sling(rs, n))
			}
		}
	}
	return all
}

// takenUp records all that a leg carries when the others beside it carry nothing,
// and gives it as the pull on what it is fast to.
func (t *tracer) takenUp(rs *riggedSling) r3.Vector {
	_, up := t.meeting(&t.a.g.slings[rs.takes.chain[0]], rs.takes.node)
	n := t.together(up).Norm()
	if t.lost = t.lost || len(up) == 0; n > 0 {
		t.add("leg-share", n, forceOperand("whole", n), operand("share", part.UnitNone, 1))
	}
	return t.a.whole(t.r, rs.takes).Mul(t.times)
}

// alone are the pulls on ports of the site with one leg of several carrying all
// of what they hold.
func (t *tracer) alone(rs *riggedSling, match func(plan.Port) bool) (all []pullOn) {
	at := t.a.g.onPort(match)
	if rs.takes == nil || rs.index < 0 || &t.a.g.slings[rs.takes.chain[0]] != rs || !at(rs.takes.end) {
		return nil
	}
	beside := func(o *riggedSling) bool {
		for _, l := range rs.takes.group {
			if l.last == o {
				return true
			}
		}
		return false
	}
	for n := range t.a.g.on {
		if !at(n) {
			continue
		}
		all = append(all, t.stretchesAt(n)...)
		for i := range t.a.g.slings {
			if o := &t.a.g.slings[i]; o.meets(n) && !beside(o) {
				all = append(all, t.sling(o, n))
			}
		}
	}
	return append(all, pullOn{t.a.whole(t.r, rs.takes).Mul(t.times), func() { t.takenUp(rs) }})
}

// ties are the pulls of restraints on them.
func (t *tracer) ties(match func(plan.Port) bool) (all []pullOn) {
	for i := range t.a.g.restraints {
		k := &t.a.g.restraints[i]
		for e, p := range [2]plan.Port{k.own, k.far} {
			if p.IsZero() || !match(p) {
				continue
			}
			l := k.load.move
			if k.use == plan.UseTieBack {
				l = t.a.tieLoad(t.r, k)
			}
			if !l.Known {
				continue
			}
			vec := l.Vec.Mul(t.times)
			if e == 0 {
				vec = vec.Mul(-1)
			}
			all = append(all, pullOn{vec, func() {
				n := t.tie(k)
				if t.times != 1 {
					n = t.add("load-times", n*t.times, forceOperand("one", n), operand("times", part.UnitNone, t.times))
				}
				t.lost = t.lost || !same(n, vec.Norm())
			}})
		}
	}
	return all
}

// hauled is what the winches of the pull give together at a balance, and how
// many they are.
func (a *rating) hauled(r *solution) (wholeN float64, n int) {
	for i := range a.g.lines {
		if rl := &a.g.lines[i]; rl.index >= 0 && rl.winch != nil {
			wholeN += r.tension(rl.index)
			n++
		}
	}
	return wholeN, n
}

// onStretch is the tension of a stretch.
func onStretch(line, k int, times float64) []came {
	return []came{func(t *tracer) float64 {
		if line < 0 || k >= len(t.r.Lines[line].Stretches) {
			return math.NaN()
		}
		t.times = times
		return t.together([]pullOn{t.stretch(line, k, t.r.Lines[line].Stretches[k].A)}).Norm()
	}}
}

// onBlock is what lines put on a block, or the most that a sling does.
func (a *rating) onBlock(node int, times float64) []came {
	all := []came{func(t *tracer) float64 { t.times = times; return t.together(t.through(node)).Norm() }}
	for i := range a.g.slings {
		if rs := &a.g.slings[i]; rs.meets(node) {
			all = append(all, onSling(rs, times, false)...)
		}
	}
	return all
}

// onSling is the force of a sling.
func onSling(rs *riggedSling, times float64, legs bool) []came {
	return []came{func(t *tracer) float64 {
		if t.times = times; rs.index < 0 || rs.takes == nil {
			return math.NaN()
		}
		return t.takenUp(rs).Norm()
	}, func(t *tracer) float64 {
		t.times, t.legs = times, legs
		if rs.index < 0 || !t.tellSling(rs, -1) {
			return math.NaN()
		}
		return rs.pullAt(t.r, rs.to).Norm() * times * t.factor(rs)
	}}
}

// onShackle is the load of what a shackle joins, or of what meets in it.
func (a *rating) onShackle(k *plan.Shackle, node int, times float64) (all []came) {
	for _, j := range k.Joins {
		for i := range a.g.slings {
			if rs := &a.g.slings[i]; rs.sling.ID == j.Thing {
				all = append(all, onSling(rs, times, true)...)
			}
		}
		for i := range a.g.blocks {
			if rb := &a.g.blocks[i]; rb.block.ID == j.Thing {
				all = append(all, a.onBlock(rb.node, times)...)
			}
		}
		for i := range a.g.lines {
			if rl := &a.g.lines[i]; rl.line.ID == j.Thing {
				all = append(all, onStretch(rl.index, len(rl.path)-2, times)...)
			}
		}
	}
	return append(all, a.onBlock(node, times)...)
}

// onSite is what pulls on ports of the site: the pull, the restraints, or both.
func (a *rating) onSite(match func(plan.Port) bool, times float64) []came {
	of := func(legs, pull, tie bool) came {
		return func(t *tracer) float64 {
			t.times, t.legs = times, legs
			var all []pullOn
			if pull {
				all = append(all, t.site(match)...)
			}
			if tie {
				all = append(all, t.ties(match)...)
			}
			if len(all) == 0 {
				return math.NaN()
			}
			return t.together(all).Norm()
		}
	}
	hows := []came{of(true, true, false), of(true, false, true), of(true, true, true), of(false, true, false)}
	for i := range a.g.slings {
		hows = append(hows, func(t *tracer) float64 {
			if t.times, t.legs = times, true; len(t.alone(&a.g.slings[i], match)) == 0 {
				return math.NaN()
			}
			return t.together(t.alone(&a.g.slings[i], match)).Norm()
		})
	}
	return hows
}

// fromBalance is the last resort: a force as the balance has it, by what it comes
// to eastward, northward and upward.
func fromBalance(derivation *part.Derivation, l part.Load) {
	if !same(l.Vec.Norm(), float64(l.Force)) {
		return
	}
	derivation.Add("load-of-balance", part.Force("load", l.Force),
		forceOperand("east", l.Vec.X), forceOperand("north", l.Vec.Y), forceOperand("up", l.Vec.Z))
}

// say records where a part's load comes from, that to break loose too where it
// is another: by the first of several ways that gives it.
func (a *rating) say(id string, b pulls, ways func() []came) {
	derivation := a.derivationOf(id)
	if !derivation.On() || !b.move.Known {
		return
	}
	hows := ways()
	a.sayPull(derivation, "to-move", float64(a.res.Planned), &a.solved.move, b.move, hows)
	if b.loosen.Known && b.loosen.Force != b.move.Force {
		a.sayPull(derivation, "to-break-loose", float64(a.res.BreakPlanned), &a.solved.loosen, b.loosen, hows)
	}
}

func (a *rating) sayPull(derivation *part.Derivation, from string, resistanceN float64, balance *balances, l part.Load, hows []came) {
	for _, how := range hows {
		for _, r := range balance {
			if r.isNone() {
				continue
			}
			t := tracer{a: a, derivation: &part.Derivation{}, r: r, times: 1}
			n := how(&t)
			if t.lost || !gives(n, l) {
				continue
			}
			if t.pulled {
				a.sayTension(derivation, from, resistanceN, r)
			}
			if k := len(t.derivation.Steps); k > 0 {
				t.derivation.Steps[k-1].Result.X = float64(l.Force) // to the last bit
			}
			derivation.Steps = append(derivation.Steps, t.derivation.Steps...)
			return
		}
	}
	a.sayTension(derivation, from, resistanceN, balance.main())
	fromBalance(derivation, l)
}

// sayTension records what the winches give together.
func (a *rating) sayTension(derivation *part.Derivation, from string, resistanceN float64, r *solution) {
	if r.isNone() {
		return
	}
	whole, _ := a.hauled(r)
	tension := part.Force("tension", whole)
	adv := orNothing(r.Advantage.ByForce)
	switch {
	case !(adv > 0) || a.g.allTyped():
		derivation.Add("tension-typed", tension, forceOperand("typed", whole))
		return
	case r == a.solved.move[1] || r == a.solved.loosen[1]:
		from += "-low"
	}
	derivation.Add(from, tension, forceOperand("resistance", resistanceN), operand("advantage", part.UnitNone, adv))
}

// tie records the load of a tie-back or hold-back: of the first from the pull on
// its vehicle, of the other from what the casualty does by itself.
func (t *tracer) tie(k *restraint) float64 {
	a := t.a
	if k.use != plan.UseTieBack {
		a.sayNeed(t.derivation, k)
		return float64(k.load.move.Force)
	}
	l := a.tieLoad(t.r, k)
	f := a.timesOf(a.g.liesOn(ofThing(k.own.Thing))).planned
	var pull r3.Vector
	a.drawnOn(t.r, k.own.Thing, func(_, v r3.Vector) { pull = pull.Add(v.Mul(f)) })
	n, mark := pull.Norm(), len(t.derivation.Steps)
	on := tracer{a: a, derivation: t.derivation, r: t.r, times: f, depth: t.depth}
	told := false
	for _, on.legs = range [2]bool{true, false} {
		on.lost = false
		if got := on.together(on.site(ofThing(k.own.Thing))); !on.lost && same(got.Norm(), n) {
			told = true
			break
		}
		t.derivation.Steps = t.derivation.Steps[:mark]
	}
	if tension := f * a.winchTension(t.r, k.own.Thing); tension > n { // it is tied back against all of the line
		t.derivation.Steps, n = t.derivation.Steps[:mark], tension
		told = a.tellHauling(&on, k.own.Thing)
	}
	t.lost, t.pulled = t.lost || !told, true
	a.tieBackSum(t.derivation, k, n)
	return float64(l.Force)
}

// tellHauling records the tension of a vehicle's own winch line.
func (a *rating) tellHauling(t *tracer, vehicle plan.ID) bool {
	if i := a.haulingLine(vehicle); i >= 0 {
		t.together([]pullOn{t.stretch(i, 0, t.r.Lines[i].Stretches[0].A)})
		return true
	}
	return false
}

// onHauling is the tension of a vehicle's winch line.
func onHauling(vehicle plan.ID, times float64) []came {
	return []came{func(t *tracer) float64 {
		t.times = times
		if !t.a.tellHauling(t, vehicle) {
			return math.NaN()
		}
		return t.a.winchTension(t.r, vehicle) * times
	}}
}

// acrossLead is the load across a fairlead that turns what a way gives.
func acrossLead(hows []came, lead quantity.Degrees) (all []came) {
	for _, how := range hows {
		all = append(all, func(t *tracer) float64 {
			n := how(t)
			over := float64(turned(part.Load{Known: true, Force: quantity.Force(n)}, lead).Force)
			return t.add("fairlead-load", over, forceOperand("tension", n), operand("lead", part.UnitAngle, float64(lead)))
		})
	}
	return all
}
