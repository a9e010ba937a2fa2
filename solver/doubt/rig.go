package doubt

import (
	"errors"
	"math"
	"slices"
	"strings"
	"sync"

	"kedge/solver"
	"kedge/solver/facts"
	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Errors of rigs that are not drawn.
var (
	ErrNotComputed = errors.New("doubt: what the pull needs, or what the winch gives, is not computed")
	ErrTwoLines    = errors.New("doubt: the loads do not go up with one line tension: more than one line is hauled")
)

// Answers of a rig, before those of its groups: their factors, of what yields the
// reciprocal. Those that are forces are logarithms.
const (
	ansTau    = iota // line tension over the resistance along the way out
	ansLow           // resistance to break loose
	ansLikely        //
	ansHigh          //
	ansStall         // line tension at stall
	ansJPerN2
	ansLayer
	rigAnswers
)

// group is a part that may fail, with all parts of the answer that stand for it: the
// stretches of a line are one.
type group struct {
	id      string
	part    part.Part // the first of them
	members map[string]bool
	yields  bool
}

// rigModel is a rig of a plan as what its figures make of it.
type rigModel struct {
	plan    *plan.Plan // dressed
	was     *plan.Plan // as it was
	rig     plan.ID
	figures []settable // those of plan itself, for their names and scatter
	not     []Doubtful
	groups  []group
	without []part.Part // parts whose strength or load is not known
	stall   facts.ID    // the row by which the stall factor is drawn; empty: it is not
	pool    sync.Pool
	surface *surface // nil: the rig itself is asked
	dists   []Dist
	sure    []float64 // the answers for the likely figures, where one that is asked for is refused
	Refused float64   // share of the points in which it is
}

// asker is a prepared rig of one goroutine.
type asker struct {
	q   *solver.Prepared
	own []settable
	not []Doubtful
	f   solver.Figures
}

// newModel makes a rig ready: its groups are those of its figures as they stand.
func newModel(p *plan.Plan, rig plan.ID, r Request) (*rigModel, error) {
	q, stated := dressed(p, rig)
	efficiency := stated.efficiency
	m := &rigModel{plan: q, was: p, rig: rig}
	if !stated.own {
		m.stall = facts.DoubtStallElectric
		for _, row := range stated.stall {
			m.stall = row
		}
	}
	a, err := m.asker(efficiency)
	if err != nil {
		return nil, err
	}
	m.figures, m.not = a.own, a.not
	if err := a.q.Ask(&a.f); err != nil {
		return nil, err
	}
	f := &a.f
	if len(f.Lines) > 1 {
		return nil, ErrTwoLines
	}
	if !f.Move.Known || !(f.Move.Tension > 0) || !f.Stall.Known || !(f.Stall.Tension > 0) || !f.Resistance.Known || !(f.Resistance.Planned > 0) || !f.Resistance.Breakaway.Known {
		return nil, ErrNotComputed
	}
	m.gather(f.Parts)
	m.pool.New = func() any {
		a, err := m.asker(efficiency)
		if err != nil { // it was prepared before
			return (*asker)(nil)
		}
		return a
	}
	for _, d := range m.figures {
		m.dists = append(m.dists, d.Dist)
	}
	m.sure = make([]float64, rigAnswers+len(m.groups))
	x := make([]float64, len(m.dists))
	for i, d := range m.dists {
		x[i] = d.OfNormal(0)
	}
	if !m.ask(x, m.sure) {
		return nil, ErrNotComputed
	}
	if len(m.dists) > 0 {
		m.surface, m.Refused, _ = fit(m.dists, len(m.sure), func(x, y []float64) bool { return !r.given() && m.ask(x, y) }, m.mayBeOut)
	}
	if r.given() {
		return nil, r.Context.Err()
	}
	return m, nil
}

// mayBeOut is by how much a surface may be out in an answer. A logarithm may be near
// nought where the force is not. What slides fails nothing: it is asked for by a trace of
// it alone.
func (m *rigModel) mayBeOut(answer int, is float64) float64 {
	switch {
	case answer == ansLow || answer == ansLikely || answer == ansHigh:
		return fitEffort
	case answer == ansTau || answer == ansStall:
		return fitMost
	case answer >= rigAnswers && m.groups[answer-rigAnswers].yields && !m.pinned(plan.PinSkid):
		return math.Inf(1)
	}
	return fitMost * max(math.Abs(is), 1e-9)
}

// asker prepares the rig anew, with its doubts settled: every figure is known in a
// trial.
func (m *rigModel) asker(efficiency map[plan.ID]facts.ID) (*asker, error) {
	q, err := solver.Prepare(m.plan, m.rig)
	if err != nil {
		return nil, err
	}
	a := &asker{q: q}
	a.own, a.not = doubtfulFigures(q.Plan(), m.rig, efficiency)
	for _, d := range a.own {
		d.settle()
	}
	return a, nil
}

// gather makes groups of the parts that may give.
func (m *rigModel) gather(parts []part.Part) {
	at := map[string]int{}
	for i := range parts {
		p := &parts[i]
		id := p.ID
		switch p.Kind {
		case part.KindWinch, part.KindFairlead, part.KindTip:
			continue
		case part.KindStretch:
			id = string(p.Thing)
		}
		switch {
		case p.Status == part.Slack:
			continue
		case !p.Move.Known || !p.Ultimate.Known || !(p.Ultimate.Likely > 0):
			if p.Kind != part.KindSlide {
				m.without = append(m.without, *p)
			}
			continue
		}
		k, ok := at[id]
		if !ok {
			k = len(m.groups)
			at[id] = k
			m.groups = append(m.groups, group{id: id, part: *p, members: map[string]bool{}, yields: p.Kind == part.KindSlide})
		}
		m.groups[k].members[p.ID] = true
	}
	slices.SortFunc(m.groups, func(a, b group) int { return strings.Compare(a.id, b.id) })
}

// ask is what the rig answers for figures; false: it is refused.
func (m *rigModel) ask(x, y []float64) bool {
	a := m.pool.Get().(*asker)
	if a == nil {
		return false
	}
	defer m.pool.Put(a)
	for i := range x {
		a.own[i].set(x[i])
	}
	f := &a.f
	if a.q.Ask(f) != nil || !f.Move.Known || !(f.Move.Tension > 0) || !f.Stall.Known || !f.Resistance.Breakaway.Known || !(f.Resistance.Breakaway.Low > 0) {
		return false
	}
	b := f.Resistance.Breakaway
	y[ansTau] = math.Log(float64(f.Move.Tension / f.Resistance.Planned))
	y[ansLow], y[ansHigh] = math.Log(float64(b.Low)), math.Log(float64(b.High))
	y[ansLikely] = math.Log(float64(min(max(b.Likely, b.Low), b.High)))
	y[ansStall], y[ansLayer] = math.Log(float64(f.Stall.Tension)), 0
	if len(f.Lines) == 1 && m.pinned(plan.PinLayer) { // it goes by steps, which lie on no surface: asked for by nothing else
		y[ansLayer] = float64(f.Lines[0].Layer)
	}
	y[ansJPerN2] = m.energy(f)
	for i := range m.groups {
		factor, ok := m.groups[i].factor(f)
		if !ok {
			return false
		}
		if m.groups[i].yields { // what holds goes nearly straight with the slope, and so the reciprocal
			factor = 1 / max(factor, leastFactor)
		}
		y[rigAnswers+i] = factor
	}
	return true
}

// pinned reports whether evidence of a kind was noted.
func (m *rigModel) pinned(kind string) bool {
	n := m.laid().Incident
	return n != nil && slices.ContainsFunc(n.Pins, func(q plan.Pin) bool { return q.Kind == kind })
}

// leastFactor is the load of what may slide over the line tension below which it is not
// told from none.
const leastFactor = 1e-6

// factor is the load of a group over the line tension, against its strength as the
// figures stand at first.
func (g *group) factor(f *solver.Figures) (most float64, ok bool) {
	for i := range f.Parts {
		p := &f.Parts[i]
		if !g.members[p.ID] {
			continue
		}
		switch {
		case p.Status == part.Slack:
			continue
		case !p.Move.Known || !p.Ultimate.Known || !(p.Ultimate.Likely > 0):
			return 0, false
		}
		most = max(most, float64(p.Move.Force/f.Move.Tension*g.likely()/p.Ultimate.Likely))
	}
	return most, true
}

// likely is the strength that factors of a group are against.
func (g *group) likely() quantity.Force { return g.part.Ultimate.Likely }

// energy is what the hauled lines store over the square of the line tension:
// Σ F²L/(2EA)/T²; 0 if a stiffness is not known.
func (m *rigModel) energy(f *solver.Figures) float64 {
	sum := 0.0
	r, _ := m.plan.Rig(m.rig)
	for i := range f.Stretches {
		s := &f.Stretches[i]
		l, ok := r.Line(s.Line)
		if !ok || l.Use != plan.UsePull {
			continue
		}
		k := slices.IndexFunc(f.Parts, func(p part.Part) bool { return p.ID == s.Part })
		if k < 0 || !f.Parts[k].Move.Known {
			return 0
		}
		ea := float64(gear.LineStiffness(l))
		if !(ea > 0) {
			return 0
		}
		t := float64(f.Parts[k].Move.Force / f.Move.Tension)
		sum += t * t * float64(s.Length) / (2 * ea)
	}
	return sum
}
