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
	sure    []float64       // the answers for the likely figures, where one that is asked for is refused
	Refused float64         // share of the points in which it is
	drawn   *solver.Figures // as the figures stand
	atM     float64         // where along its way the casualty is
	shift   []float64       // of each figure: by how much it is another there than at the first place
	real    []float64       // of each group: load over the one that its factor gives, which is against one strength at all places
	first   *rigModel       // of a place farther on; else nil
	losing  sync.Mutex
	unknown []part.Part // farther on, see lost
	later   []*rigModel // the same rig at the places that follow; none: its pull is not followed
}

// asker is a prepared rig of one goroutine.
type asker struct {
	q   *solver.Prepared
	own []settable
	not []Doubtful
	f   solver.Figures
}

// newModel makes a rig ready: its groups are those of its figures as they stand, at every
// place of the way that is followed.
func newModel(p *plan.Plan, rig plan.ID, r Request, along []WayPoint) (*rigModel, error) {
	q, stated := dressed(p, rig)
	m := &rigModel{plan: q, was: p, rig: rig}
	if !stated.own {
		m.stall = facts.DoubtStallElectric
		for _, row := range stated.stall {
			m.stall = row
		}
	}
	if err := m.open(stated); err != nil {
		return nil, err
	}
	m.gather(m.drawn.Parts)
	for _, d := range m.figures {
		m.dists = append(m.dists, d.Dist)
	}
	for i := 1; i < len(along) && m.follows(along[i]); i++ {
		continue
	}
	places := m.places()
	for k := range places {
		places[k].groups = m.groups
		for i := range m.groups {
			_, real, _ := m.groups[i].factor(places[k].drawn, places[k].first)
			places[k].real = append(places[k].real, real)
		}
		if !places[k].settle() {
			if k == 0 {
				return nil, ErrNotComputed
			}
			m.later, places = m.later[:k-1], places[:k]
			break
		}
	}
	shared(len(places), r.Workers, func(k int) { places[k].fit(r) })
	if r.given() {
		return nil, r.Context.Err()
	}
	for k, place := range m.later { // a rig that must be asked itself at each of them is asked too often
		if place.surface == nil && len(m.dists) > 0 {
			m.later = m.later[:k]
			break
		}
	}
	slices.SortFunc(m.unknown, func(a, b part.Part) int { return strings.Compare(a.ID, b.ID) })
	return m, nil
}

// places are the rig at the first place and at those that follow.
func (m *rigModel) places() []*rigModel { return append([]*rigModel{m}, m.later...) }

// open prepares the rig and asks it with its figures as they stand.
func (m *rigModel) open(stated dressing) error {
	a, err := m.asker(stated.efficiency)
	if err != nil {
		return err
	}
	m.figures, m.not = a.own, a.not
	if err := a.q.Ask(&a.f); err != nil {
		return err
	}
	f := &a.f
	if lines, _ := hauled(f); lines > 1 {
		return ErrTwoLines
	}
	if !f.Move.Known || !(f.Move.Tension > 0) || !f.Stall.Known || !(f.Stall.Tension > 0) || !f.Resistance.Known || !(f.Resistance.Planned > 0) || !f.Resistance.Breakaway.Known {
		return ErrNotComputed
	}
	m.pool.New = func() any {
		a, err := m.asker(stated.efficiency)
		if err != nil { // it was prepared before
			return (*asker)(nil)
		}
		return a
	}
	m.drawn = f
	return nil
}

// follows adds a place of the way; false: the rig is not computed there with the same
// figures.
func (m *rigModel) follows(at WayPoint) bool {
	q, stated := dressed(at.Plan, m.rig)
	same := *q
	same.Site.Ground = m.plan.Site.Ground
	o := &rigModel{plan: &same, was: at.Plan, rig: m.rig, atM: at.AtM, dists: m.dists, first: m}
	if o.open(stated) != nil || len(o.figures) != len(m.figures) {
		return false
	}
	for i := range o.figures {
		if o.figures[i].id() != m.figures[i].id() {
			return false
		}
		o.shift = append(o.shift, o.figures[i].at-m.figures[i].at)
	}
	lacked := func(p part.Part) bool { // what has no strength at first has none that counts
		return slices.ContainsFunc(m.drawn.Parts, func(q part.Part) bool { return q.ID == p.ID && q.Status != part.Slack && !hasStrength(&q) })
	}
	m.gather(slices.DeleteFunc(slices.Clone(o.drawn.Parts), lacked))
	m.later = append(m.later, o)
	return true
}

// settle asks the rig for its likely figures; false: it is not computed with them.
func (m *rigModel) settle() bool {
	m.sure = make([]float64, rigAnswers+len(m.groups))
	x := make([]float64, len(m.dists))
	for i, d := range m.dists {
		x[i] = d.OfNormal(0)
	}
	return m.ask(x, m.sure)
}

// fit lays a surface through the rig's answers, if its figures scatter. Farther on, where
// the rig itself is never asked again, what it is refused at in the tails is not drawn.
func (m *rigModel) fit(r Request) {
	if len(m.dists) == 0 {
		return
	}
	var drawn float64
	m.surface, m.Refused, drawn, _ = fit(m.dists, len(m.sure), func(x, y []float64) bool { return !r.given() && m.ask(x, y) }, m.mayBeOut)
	if m.first != nil {
		m.Refused = drawn
	}
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

// gather makes groups of the parts that may give, beside those that there are.
func (m *rigModel) gather(parts []part.Part) {
	at := map[string]int{}
	for k := range m.groups {
		at[m.groups[k].id] = k
	}
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
		case !hasStrength(p) && m.isMember(id, p.ID):
			continue // farther on: see lost
		case !hasStrength(p):
			if p.Kind != part.KindSlide && !slices.ContainsFunc(m.without, func(q part.Part) bool { return q.ID == p.ID }) {
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

// hasStrength reports whether load and strength of a part are known.
func hasStrength(p *part.Part) bool {
	return p.Move.Known && p.Ultimate.Known && p.Ultimate.Likely > 0
}

// isMember reports whether a part stands for a group that there is.
func (m *rigModel) isMember(of, id string) bool {
	k := slices.IndexFunc(m.groups, func(g group) bool { return g.id == of })
	return k >= 0 && m.groups[k].members[id]
}

// ask is what the rig answers for figures; false: it is refused.
func (m *rigModel) ask(x, y []float64) bool {
	a := m.pool.Get().(*asker)
	if a == nil {
		return false
	}
	defer m.pool.Put(a)
	for i := range x {
		if m.shift == nil {
			a.own[i].set(x[i])
		} else {
			a.own[i].set(x[i] + m.shift[i])
		}
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
	if m.layered() {
		of := f
		if m.first != nil || len(m.later) > 0 { // from place to place it is another, and hardly with the figures
			of = m.drawn
		}
		_, layer := hauled(of)
		y[ansLayer] = float64(layer)
	}
	y[ansJPerN2] = m.energy(f)
	for i := range m.groups {
		factor, _, ok := m.groups[i].factor(f, m.first)
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

// hauled are how many lines a winch hauls, and on which layer of its drum the first of them
// lies; 0: that is not known.
func hauled(f *solver.Figures) (lines, layer int) {
	for i := range f.Lines {
		if l := &f.Lines[i]; !l.Held {
			if lines++; lines == 1 {
				layer = l.Layer
			}
		}
	}
	return lines, layer
}

// layered reports whether a layer was seen: it goes by steps, which lie on no surface, and
// is asked for by nothing else.
func (m *rigModel) layered() bool { return m.pinned(plan.PinLayer) }

// pinned reports whether evidence of a kind was noted.
func (m *rigModel) pinned(kind string) bool {
	n := m.laid().Incident
	return n != nil && slices.ContainsFunc(n.Pins, func(q plan.Pin) bool { return q.Kind == kind })
}

// leastFactor is the load of what may slide over the line tension below which it is not
// told from none.
const leastFactor = 1e-6

// factor is the load of a group over the line tension, against its strength as the
// figures stand at first, and by how much that is more, with which it is the load itself.
// Farther on, of first, a strength that is not known there is that one.
func (g *group) factor(f *solver.Figures, first *rigModel) (most, real float64, ok bool) {
	real = 1
	for i := range f.Parts {
		p := &f.Parts[i]
		if !g.members[p.ID] {
			continue
		}
		switch {
		case p.Status == part.Slack:
			continue
		case !p.Move.Known:
			return 0, 1, false
		}
		strength := p.Ultimate.Likely
		if !hasStrength(p) {
			if first == nil {
				return 0, 1, false
			}
			first.lost(p)
			strength = g.likely()
		}
		if x := float64(p.Move.Force / f.Move.Tension * g.likely() / strength); x > most {
			most, real = x, float64(strength/g.likely())
		}
	}
	return most, real, true
}

// lost notes a part of which no strength is known somewhere on the way, though it is at
// first.
func (m *rigModel) lost(p *part.Part) {
	m.losing.Lock()
	defer m.losing.Unlock()
	if !slices.ContainsFunc(m.unknown, func(q part.Part) bool { return q.ID == p.ID }) {
		m.unknown = append(m.unknown, *p)
	}
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
