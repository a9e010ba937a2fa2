package travel

import (
	"math"
	"slices"

	"github.com/golang/geo/r3"

	"kedge/solver"
	"kedge/solver/effort"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// mover tells where the casualty of a rig is along its way.
type mover struct {
	p    *plan.Plan // drawn
	rig  plan.ID
	v    int // index of the casualty; -1: there is none
	drag *dragged
}

// newMover is the way of a rig's casualty: where its lines drag it if nothing guides
// it, else as drawn.
func newMover(p *plan.Plan, rig plan.ID) *mover {
	m := guided(p, rig)
	if m.v >= 0 {
		if v := &m.p.Site.Vehicles[m.v]; effort.Dragged(v) {
			m.drag = newDragged(m)
		}
	}
	return m
}

// guided is the way of a rig's casualty as drawn.
func guided(p *plan.Plan, rig plan.ID) *mover {
	m := &mover{p: Drawn(p, rig), rig: rig, v: -1}
	if c := solver.CasualtyOf(m.p, rig); c != nil {
		for i := range m.p.Site.Vehicles {
			if m.p.Site.Vehicles[i].ID == c.ID {
				m.v = i
			}
		}
	}
	return m
}

// moved is the plan with the casualty alone s metres along its way.
func (m *mover) moved(s float64) *plan.Plan {
	if m.v < 0 {
		return m.p
	}
	at := plan.AdvancedOf(m.p, m.p.Site.Vehicles[m.v].ID, quantity.Length(s))
	if m.drag == nil || at == m.p {
		return at
	}
	p, _ := m.where(s)
	return plan.WithVehicle(at, m.v, stood(at.Site.Vehicles[m.v], &p))
}

// where is how a dragged casualty stands s metres along its way, beyond what is known
// of that where it is last known; false: it is dragged and that is not known.
func (m *mover) where(s float64) (p stance, ok bool) {
	if m.drag == nil {
		return p, true
	}
	if p, ok = m.drag.path.at(s); ok {
		return p, true
	}
	return m.drag.path.nodes[len(m.drag.path.nodes)-1], false
}

// at is that with the lines that are paid out on the way.
func (m *mover) at(s float64) *plan.Plan { return paidOut(m.p, m.moved(s), m.rig) }

// dragged is the way of a casualty that goes where its lines drag it.
type dragged struct {
	m      *mover
	path   drift
	stages stages
	f      solver.Figures
	ground terrain.Ground
	last   plan.Vehicle // as asked about last
}

func newDragged(m *mover) *dragged {
	v := &m.p.Site.Vehicles[m.v]
	out, known := v.WayOut()
	ground, err := terrain.NewGround(m.p.Site.Ground)
	if !known || err != nil {
		return nil
	}
	d := &dragged{m: m, ground: ground, stages: newStages(v)}
	e, n := plan.Heading(out)
	d.path = drift{on: d.on, nodes: []stance{{ref: r3.Vector{X: v.At.X, Y: v.At.Y}, turnRad: yawOf(v.Bearing), way: r3.Vector{X: e, Y: n}}}}
	return d
}

// yawOf is a bearing as an angle from east, counter-clockwise, radians.
func yawOf(b quantity.Degrees) float64 { return (90 - b).Radians() }

// stood is a casualty where it is dragged: its way lies ahead as it moves there, and
// as far as that is straight.
func stood(v plan.Vehicle, p *stance) plan.Vehicle {
	v.At = plan.Point{X: p.ref.X, Y: p.ref.Y}
	v.Bearing = (90 - quantity.FromRadians(p.turnRad)).Normal()
	stuck := *v.Stuck
	stuck.Way, stuck.WayBearing = plan.WayFree, plan.Known(terrain.VecBearing(p.way))
	ahead := func(m float64) plan.Point { return plan.Point{X: p.ref.X + m*p.way.X, Y: p.ref.Y + m*p.way.Y} }
	stuck.Bends = []plan.Point{ahead(freeStepM), ahead(freeStepM + 1)}
	v.Stuck = &stuck
	return v
}

// on finds how the casualty moves on: by the pull of its lines on it where it stands.
// Where it has come out of what it was dragged through it rolls on as it points.
func (d *dragged) on(p *stance) bool {
	p.heading = unit(p.turnRad)
	i, g := d.m.v, d.stages.at(p.sM)
	at := plan.AdvancedOf(d.m.p, d.m.p.Site.Vehicles[i].ID, quantity.Length(p.sM))
	v := stood(at.Site.Vehicles[i], p)
	if !effort.Dragged(&v) {
		p.way, p.turnPerM = p.heading.Mul(math.Copysign(1, p.heading.Dot(p.way))), 0
		return true
	}
	d.last = v
	if g.prepared == nil && g.err == nil {
		g.prepared, g.err = solver.Prepare(plan.WithVehicle(at, i, v), d.m.rig)
	}
	if g.err != nil {
		return false
	}
	g.prepared.Plan().Site.Vehicles[i] = v
	if g.prepared.Ask(&d.f) != nil {
		return false
	}
	f := turned(r3.Vector{X: d.f.OnCasualty[0], Y: d.f.OnCasualty[1]}, -p.turnRad)
	ahead, aside, turn, ok := effort.Drag(effort.DragIn{Vehicle: &v, Pull: [3]float64{f.X, f.Y, d.f.OnCasualty[2]}, ResistN: d.resistN(&v),
		FallAheadDeg: float64(d.ground.Fall(v.Bearing)), FallLeftDeg: float64(d.ground.Fall(v.Bearing - 90))})
	if !ok {
		return false
	}
	p.way, p.turnPerM = turned(r3.Vector{X: ahead, Y: aside}, p.turnRad), turn
	return true
}

// resistN is what the ground resists where the casualty was asked about, without what
// its weight does on the slope, newtons; any figure on level ground, where the way it
// takes does not hang on it.
func (d *dragged) resistN(v *plan.Vehicle) float64 {
	way, _ := v.WayOut()
	n := float64(d.f.Resistance.Planned) + float64((v.Mass+v.Load).Weight())*math.Sin(d.ground.Fall(way).Radians())
	if !(n > 0) && d.ground.Fall(way) == 0 {
		return 1
	}
	return n
}

// lostID is the finding that nobody knows how a casualty is dragged on.
const lostID = "drag-not-computed"

// reached are the places to which the casualty is known to be dragged, if it is, and
// the last of all.
func (f *follower) reached(places []float64) []float64 {
	good := 0.0
	for i, s := range places {
		if f.known(s) {
			good = s
			continue
		}
		f.lost = true
		for beyond := s; beyond-good > stopM; {
			if mid := (good + beyond) / 2; f.known(mid) {
				good = mid
			} else {
				beyond = mid
			}
		}
		places = places[:i]
		if good > 0 && (i == 0 || good > places[i-1]) {
			places = append(places, good)
		}
		f.known(s) // the last that was asked about is beyond
		return places
	}
	return places
}

func (m *mover) known(s float64) bool {
	_, ok := m.where(s)
	return ok
}

// losing says why it is not known how the casualty is dragged on: what refuses the rig
// there, or that it lacks something.
func (f *follower) losing() []part.Finding {
	v := &f.p.Site.Vehicles[f.v]
	at := plan.WithVehicle(f.moved(f.out.EndM), f.v, f.drag.last)
	if m := (solver.Moment{AtM: f.out.EndM, Assessment: solver.Assess(at, f.rig)}); m.Status != part.Within {
		return f.ending(&m)
	}
	out := []part.Finding{{ID: lostID, Level: part.Warning, Things: []plan.ID{v.ID}, Travel: f.out.EndM}}
	if !(v.Wheelbase > 0) {
		part.NotDecided(&out, lostID, v.ID, part.Lack{Thing: v.ID, Member: "wheelbase_m"})
	}
	if !(v.Mass > 0) {
		part.NotDecided(&out, lostID, v.ID, part.Lack{Thing: v.ID, Member: "mass_kg"})
	}
	return out
}

// Where a dragged casualty leaves its drawn way by less than this, nothing is said of
// it. (ours)
const (
	asideM   = 0.1
	asideDeg = 1
)

// drags says where the casualty comes to lie that goes where its lines drag it, and
// not where its way out is drawn.
func (f *follower) drags(all []part.Finding) []part.Finding {
	v := &f.p.Site.Vehicles[f.v]
	p, _ := f.where(f.out.EndM)
	drawn := plan.AdvancedOf(f.p, v.ID, quantity.Length(f.out.EndM)).Site.Vehicles[f.v]
	off := drawn.At.Dist(plan.Point{X: p.ref.X, Y: p.ref.Y})
	turn := float64(quantity.FromRadians(math.Abs(math.Remainder(p.turnRad-yawOf(drawn.Bearing), 2*math.Pi))))
	if off < asideM && turn < asideDeg {
		return all
	}
	return append(all, part.Finding{ID: "way-dragged", Level: part.Warning, Things: []plan.ID{v.ID}, Travel: f.out.EndM, Values: []part.Value{
		part.Length("end", f.out.EndM), part.Length("off", off), part.Number("turn", part.UnitAngle, turn)}})
}

// asDrawn compares a dragged casualty's pull with that along the way that is drawn: what
// is worse there is said.
func (f *follower) asDrawn() error {
	o := f.out
	if f.drag == nil || !(o.EndM > 0) {
		return nil
	}
	g := &follower{ctx: f.ctx, mover: guided(f.p, f.rig), out: &Answer{}}
	if err := g.follow(); err != nil {
		return err
	}
	worse := part.Finding{ID: "way-drawn-worse", Level: part.Warning, Things: []plan.ID{f.p.Site.Vehicles[f.v].ID}}
	most := 0.0
	for i := range g.out.Parts {
		q := &g.out.Parts[i]
		is, ok := o.Part(q.ID)
		if used := q.Most(); q.Known() && used > most && (!ok || used > is.Most()) && (q.Status == part.Near || q.Status == part.Over) {
			most, worse.Parts, worse.Travel = used, []string{q.ID}, q.AtM
		}
	}
	if most > 1 {
		worse.Level = part.Danger
	}
	if worse.Parts != nil {
		worse.Values = []part.Value{part.Number("used", part.UnitShare, most)}
		o.Findings = o.Sorted(append(o.Findings, worse))
	}
	o.Findings = o.Sorted(append(o.Findings, graver(g.out.Findings, o.Findings)...))
	return nil
}

// graver are the findings of DANGER of the drawn way that the dragged one has not:
// somebody stands in a zone, something is met. Of parts the worst is told, and a pull
// that ends there does not end here.
func graver(drawn, dragged []part.Finding) (all []part.Finding) {
	for _, f := range drawn {
		same := func(g part.Finding) bool { return g.Key() == f.Key() && g.Level >= f.Level }
		if f.Level == part.Danger && len(f.Parts) == 0 && !slices.ContainsFunc(dragged, same) {
			all = append(all, f)
		}
	}
	return all
}
