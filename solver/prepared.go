package solver

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/golang/geo/r3"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/statics"
	"kedge/solver/terrain"
)

// ErrRefused is wrapped by the errors of [Prepare] and [Prepared.Ask] for a rig
// whose loads are not computed.
var ErrRefused = errors.New("solver: the rig is refused")

// Prepared is a rig of a plan that is asked again and again with other figures:
// what follows from how things hang together is found once. It is owned by one
// goroutine.
type Prepared struct {
	work rating
	plan *plan.Plan
	rig  plan.ID
	sure []sureness // of each part
	last int        // the one that was asked for last, see isSure
	near bool       // that hangs on where things lie: it is found anew each time
}

// sureness tells whether no missing figure leaves a part open.
type sureness struct {
	part string
	is   bool
}

// Figures are the loads and limits of a prepared rig. They say nothing of people,
// zones and findings: those are [Assess]'s. They last until the rig is asked again.
type Figures struct {
	Resistance          Resistance
	Move, Loosen, Stall Pull
	Advantage           float64     // force along the way out over winch line tension; 0: not computed
	OnCasualty          [3]float64  // pull of the lines east and north, newtons, and turning it to the left about the middle of its footprint, newton metres
	OffWayDeg           float64     // angle between the pull on the casualty and its way out, on the ground; NaN: none of either
	Parts               []part.Part // as of [Assessment], and so is the rest
	Stretches           []part.Stretch
	Nodes               []part.Node
	Lines               []LineUse // of those that a winch hauls or pays out
}

// Prepare makes a rig of a plan ready to be asked. The plan is copied as far as
// [Prepared.Plan] lets it be changed. A rig that [Assess] refuses is refused.
func Prepare(p *plan.Plan, rig plan.ID) (*Prepared, error) {
	if p.RigIndex(rig) < 0 {
		return nil, fmt.Errorf("solver: there is no rig %q", rig)
	}
	q := &Prepared{plan: ownFigures(p, rig), rig: rig}
	if whole := q.learn(); whole.Status != part.Within {
		return nil, fmt.Errorf("%w: %s", ErrRefused, whole.Why)
	}
	a := &q.work
	a.notes, a.work = &notes{out: &Assessment{}, quiet: true}, &workspace{keeping: &[2]statics.Solver{}}
	for i := range a.work.keeping {
		a.work.keeping[i].Keep()
	}
	return q, nil
}

// learn finds which parts a missing figure leaves open.
func (q *Prepared) learn() *Assessment {
	whole := assess(q.plan, q.rig, "", nil)
	q.sure = q.sure[:0]
	for i := range whole.out.Parts {
		q.sure = append(q.sure, sureness{whole.out.Parts[i].ID, whole.open == nil || !whole.open[i]})
	}
	q.near = whole.undecided || slices.ContainsFunc(q.plan.Site.Obstacles, func(o plan.Obstacle) bool { return o.Kind == "" })
	return whole.out
}

// isSure reports whether no missing figure leaves a part open; known tells that it was
// a part when that was found. It is looked for from the last one on: parts come in
// one order.
func (q *Prepared) isSure(id string) (sure, known bool) {
	for k := range q.sure {
		i := q.last + k
		if i >= len(q.sure) {
			i -= len(q.sure)
		}
		if s := &q.sure[i]; s.part == id {
			q.last = i
			return s.is, true
		}
	}
	return false, false
}

// ownFigures is a plan with things of its own on the site and in one rig.
func ownFigures(p *plan.Plan, rig plan.ID) *plan.Plan {
	d := plan.Edit(p, rig)
	for i := range d.Site.Vehicles {
		d.Site.Vehicles[i].Unshare()
	}
	return d.Plan
}

// Plan is the plan that is asked about. Its figures may be changed between two
// answers: masses, ratings, lengths, efficiencies, places and bearings. How
// things hang together, their kinds and ids, and which figures there are, may
// not.
func (q *Prepared) Plan() *plan.Plan { return q.plan }

// Ask answers for the figures as they stand, bit for bit as [Assess] does. An
// error wraps [ErrRefused] and says what refuses the rig.
func (q *Prepared) Ask(f *Figures) error {
	a := &q.work
	a.again(q.plan, q.rig)
	a.solve()
	if a.refused {
		return fmt.Errorf("%w: %s", ErrRefused, a.whyNot)
	}
	a.geometry()
	a.contacts()
	a.eitherWay()
	a.reaches()
	if a.refused {
		return fmt.Errorf("%w: %s", ErrRefused, a.whyNot)
	}
	a.load()
	a.parts()
	a.checkWorld()
	if a.refused {
		return fmt.Errorf("%w: %s", ErrRefused, a.whyNot)
	}
	o := a.out
	learn := q.near
	for i := range o.Parts {
		_, known := q.isSure(o.Parts[i].ID)
		learn = learn || !known
	}
	if learn {
		q.learn()
	}
	for i := range o.Parts {
		if p := &o.Parts[i]; p.Status == part.Within || p.Status == part.Near {
			if sure, _ := q.isSure(p.ID); a.undecided || !sure {
				p.Undecide()
			}
		}
	}
	*f = Figures{Resistance: o.Resistance, Move: o.Move, Loosen: o.Loosen, Stall: o.Stall, Advantage: o.Advantage,
		OnCasualty: a.onCasualty(), OffWayDeg: a.offWayDeg(), Parts: o.Parts, Stretches: o.Stretches, Nodes: o.Nodes, Lines: o.Lines}
	return nil
}

// offWayDeg is the angle between the pull on the casualty and its way out, on the
// ground; NaN: there is none of either.
func (a *solving) offWayDeg() float64 {
	v := a.g.casualty
	if v == nil || !a.g.touches(v.ID) {
		return math.NaN()
	}
	flat := a.g.ground.OnGround(a.pullOn(v))
	if flat.Norm() == 0 || a.g.way.Norm() == 0 {
		return math.NaN()
	}
	return float64(part.Angle(flat, a.g.way))
}

// onCasualty is what its lines do to the casualty in plan view.
func (a *solving) onCasualty() (sum [3]float64) {
	if v := a.g.casualty; v != nil {
		a.pullsOn(v, func(at, f r3.Vector) {
			x, y := at.X-v.At.X, at.Y-v.At.Y
			sum[0], sum[1], sum[2] = sum[0]+f.X, sum[1]+f.Y, sum[2]+x*f.Y-y*f.X
		})
	}
	return sum
}

// again is [resolving.resolve] for a rig whose make is known.
func (a *rating) again(p *plan.Plan, rig plan.ID) {
	n, w, g := a.notes, a.work, a.g
	*n.out = Assessment{Rig: rig, Worst: -1, First: -1, Resistance: Resistance{Rules: n.out.Resistance.Rules[:0]}, Parts: n.out.Parts[:0], Stretches: n.out.Stretches[:0], Nodes: n.out.Nodes[:0], Slings: n.out.Slings[:0], Lines: n.out.Lines[:0]}
	n.refused, n.whyNot, n.ids, n.values, n.names = false, "", n.ids[:0], n.values[:0], n.names[:0]
	n.ofTurn = 0
	w.taken, w.scaled, w.ends, w.sideways, w.legs = 0, 0, w.ends[:0], w.sideways[:0], w.legs[:0]
	lifting, bodies := a.lifting, a.bodies
	*a = rating{loading: loading{laying{solving: solving{resolving: resolving{notes: n, g: g, lifting: lifting, stallN: a.stallN}, work: w}, bodies: bodies}}}
	if g == nil || !g.measure() {
		a.resolve(p, rig)
		return
	}
	a.doubts()
	a.feet()
	a.resistance()
	a.slingsReach()
	a.stallN = a.stallPulls()
}

// measure takes the figures of the plan anew for a rig of the same make. False:
// it is another make, and must be made anew.
func (g *rigging) measure() bool {
	if len(g.rig.Points) > g.made {
		return false // what lies about has become points, which would be loose
	}
	for i := range g.restraints {
		r := &g.restraints[i]
		*r = restraint{use: r.use, first: r.first, members: r.members, joints: r.joints, own: r.own, far: r.far, winch: r.winch, bent: r.bent, over: r.over, passed: r.passed}
	}
	g.ground, _ = terrain.NewGround(g.p.Site.Ground)
	if g.casualty != nil {
		g.placeCasualty()
	}
	for n := range g.origin {
		if g.origin[n].end != nil {
			return false // where it starts goes by the point it hangs on
		}
		g.rig.Points[n].Pos = g.placed(g.origin[n])
	}
	for i := range g.slings {
		rs := &g.slings[i]
		rs.times, rs.takes = 0, nil
		if g.restrains[rs.sling.ID] {
			g.measureRestraint(rs)
			continue
		}
		length := g.measureSling(rs)
		if rs.index < 0 {
			if length > 0 && rs.from >= 0 && rs.to >= 0 && g.movable(rs.from, rs.to) {
				return false
			}
			continue
		}
		if !(length > 0) {
			return false
		}
		s := &g.rig.Slings[rs.index]
		s.LengthM, s.StiffnessNPerM = float64(length), float64(rs.sling.Stiffness)
		g.startFree(rs.to, rs.from, length)
	}
	g.measureLines()
	return true
}

// measureLines takes the figures of the lines and of what they run over.
func (g *rigging) measureLines() {
	for i := range g.lines {
		rl := &g.lines[i]
		rl.times, rl.reach = factors{}, nil
		if rl.index < 0 {
			continue
		}
		l := &g.rig.Lines[rl.index]
		*l = g.staticLine(rl.line, *rl, l.Sheaves[:0])
	}
	g.loosenSheaves()
}
