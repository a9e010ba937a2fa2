package travel

import (
	"math"
	"slices"
	"strings"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// asker asks for the figures of a rig with the casualty at any place of its way.
type asker struct {
	p      *plan.Plan
	rig    plan.ID
	v      int // index of the casualty
	way    *plan.WayLine
	stages []stage

	parts []string // ids, in the order of the rig
	index map[string]int
	f     solver.Figures
	err   error
	seen  []Worst

	judged  bool // Assess has been asked at every place of the grid
	askedM  float64
	cache   map[float64][]float64
	moments []Moment
	states  map[string]int
	key     []byte
}

// stage is a part of the way on which the casualty lies in one thing: the figures
// that the plan has are the same all along it.
type stage struct {
	fromM    float64
	prepared *solver.Prepared
	err      error
}

// Values of a place by index; behind them a share and a load for every part.
const (
	askTension = iota
	askOffWay
	askState // which of the states seen: layers, slack slings, the way sheaves turn
	firstPart
)

func shareOf(i int) int { return firstPart + 2*i }
func loadOf(i int) int  { return firstPart + 2*i + 1 }

func newAsker(p *plan.Plan, rig plan.ID, start *solver.Assessment) *asker {
	q := &asker{p: p, rig: rig, index: map[string]int{}, states: map[string]int{}, askedM: math.NaN(), cache: map[float64][]float64{}}
	q.v = slices.IndexFunc(p.Site.Vehicles, func(v plan.Vehicle) bool { return v.Stuck != nil })
	q.way, _ = p.Site.Vehicles[q.v].WayLine()
	for i := range start.Parts {
		q.known(&start.Parts[i])
	}
	q.stages = []stage{{}}
	for _, atM := range stagesOf(&p.Site.Vehicles[q.v]) {
		q.stages = append(q.stages, stage{fromM: atM})
	}
	return q
}

// known is the index of a part. Some are parts at some places only: a vehicle that may
// tip counts as one from where it might.
func (q *asker) known(p *part.Part) int {
	k, known := q.index[p.ID]
	if !known {
		k = len(q.parts)
		q.index[p.ID] = k
		q.parts = append(q.parts, p.ID)
		q.seen = append(q.seen, Worst{ID: p.ID, Part: *p, Share: math.NaN(), LoadN: math.NaN(), Status: part.Within, StatusM: math.NaN()})
	}
	return k
}

// stagesOf are the places where the casualty comes to lie in something else, metres
// along its way, in order.
func stagesOf(v *plan.Vehicle) []float64 {
	var at []float64
	for _, g := range v.Stuck.Stages {
		if g.After > 0 {
			at = append(at, float64(g.After))
		}
	}
	slices.Sort(at)
	return slices.Compact(at)
}

// ask asks for the figures at a place.
func (q *asker) ask(sM float64) bool {
	if sM == q.askedM {
		return q.err == nil
	}
	q.askedM = sM
	k := len(q.stages) - 1
	for k > 0 && sM < q.stages[k].fromM {
		k--
	}
	g := &q.stages[k]
	if g.prepared == nil && g.err == nil {
		g.prepared, g.err = solver.Prepare(advanced(q.p, g.fromM), q.rig)
	}
	if q.err = g.err; q.err != nil {
		return false
	}
	g.prepared.Plan().Site.Vehicles[q.v] = advanced(q.p, sM).Site.Vehicles[q.v]
	q.err = g.prepared.Ask(&q.f)
	return q.err == nil
}

// why is the id of the finding that refused the rig at the place asked about.
func (q *asker) why() string {
	if q.err == nil {
		return ""
	}
	return strings.TrimPrefix(q.err.Error(), solver.ErrRefused.Error()+": ")
}

// all is what is followed at a place, and notes in what state the parts are there.
func (q *asker) all(sM float64) []float64 {
	v := q.values(sM)
	if v[askState] != v[askState] || !q.ask(sM) {
		return v
	}
	m := q.moment(sM)
	for i := range q.f.Parts {
		p := &q.f.Parts[i]
		k := q.known(p)
		if !q.judged || p.Status != part.Undecided { // that is for Assess to say
			q.seen[k].note(p.Status, sM)
		}
		m.take(k, v[shareOf(k)])
	}
	q.moments = append(q.moments, m)
	return v
}

// one is one of those values.
func (q *asker) one(i int, sM float64) float64 {
	if v := q.values(sM); i < len(v) {
		return v[i]
	}
	return math.NaN()
}

// values are those of a place, found once.
func (q *asker) values(sM float64) []float64 {
	if v, known := q.cache[sM]; known {
		return v
	}
	asked := q.ask(sM)
	for i := range q.f.Parts {
		q.known(&q.f.Parts[i])
	}
	v := make([]float64, firstPart+2*len(q.parts))
	for i := range v {
		v[i] = math.NaN()
	}
	if asked {
		v[askTension], v[askOffWay], v[askState] = tension(&q.f.Move), q.f.OffWayDeg, float64(q.state())
		for i := range q.f.Parts {
			p := &q.f.Parts[i]
			k := q.known(p)
			v[shareOf(k)], v[loadOf(k)] = share(p), load(p)
		}
	}
	q.cache[sM] = v
	return v
}

// moment is the pull at the place asked about, its shares still to come.
func (q *asker) moment(sM float64) Moment {
	m := Moment{AtM: sM, On: q.way.At(sM), Resistance: math.NaN(), Move: q.f.Move, Loosen: q.f.Loosen, Stall: q.f.Stall,
		Advantage: q.f.Advantage, OffWayDeg: q.f.OffWayDeg, Share: math.NaN(), Most: -1, Shares: make([]float64, len(q.parts))}
	if q.f.Resistance.Planned > 0 {
		m.Resistance = float64(q.f.Resistance.Planned)
	}
	for i := range m.Shares {
		m.Shares[i] = math.NaN()
	}
	return m
}

// take enters the share of part k.
func (m *Moment) take(k int, share float64) {
	m.Shares[k] = share
	if share == share && !(m.Share >= share) {
		m.Share, m.Most = share, k
	}
}

// state is the number of the state of the rig at the place asked about.
func (q *asker) state() int {
	k := q.key[:0]
	for i := range q.f.Parts {
		switch p := &q.f.Parts[i]; {
		case p.Kind == part.KindWinch:
			k = append(k, byte('a'+min(p.Layer, 25)))
		case p.Kind == part.KindSling && p.Status == part.Slack:
			k = append(k, '-')
		case !p.Known():
			k = append(k, '?') // it may have a limit at some places and none at others
		default:
			k = append(k, '.')
		}
	}
	for i := range q.f.Nodes {
		if t := q.f.Nodes[i].Turns; t != "" {
			k = append(k, t[0])
		} else {
			k = append(k, ' ')
		}
	}
	q.key = k
	n, known := q.states[string(k)]
	if !known {
		n = len(q.states)
		q.states[string(k)] = n
	}
	return n
}

// part is part i at the place asked about; nil: there is none.
func (q *asker) part(i int) *part.Part {
	if i < len(q.f.Parts) && q.f.Parts[i].ID == q.parts[i] {
		return &q.f.Parts[i]
	}
	for k := range q.f.Parts {
		if q.f.Parts[k].ID == q.parts[i] {
			return &q.f.Parts[k]
		}
	}
	return nil
}

func tension(p *solver.Pull) float64 {
	if !p.Known {
		return math.NaN()
	}
	return float64(p.Tension)
}

// share is what is used of a part's limit by the pull as planned; NaN: not known.
func share(p *part.Part) float64 {
	if !p.Known() || p.Status == part.Refused || p.Status == part.NotUnderstood {
		return math.NaN()
	}
	return p.Most()
}

func load(p *part.Part) float64 {
	if l := p.Planned(); l.Known {
		return float64(l.Force)
	}
	return math.NaN()
}

// advanced is the plan with the casualty so far along its way.
func advanced(p *plan.Plan, sM float64) *plan.Plan { return plan.Advanced(p, lengthOf(sM)) }
