package travel

import (
	"math"
	"slices"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// asker asks for the figures of a rig with the casualty at any place of its way: a way
// to follow values along. They are what [solver.Assess] answers there.
type asker struct {
	*mover
	stages stages

	askedM float64 // the place of f
	f      solver.Figures
	err    error

	parts  []string // ids, as they come
	index  map[string]int
	states map[string]int
	key    []byte
	cache  map[float64][]float64
	long   map[float64][]float64 // length of every stretch of the rig
}

// stage is a part of the way on which the casualty lies in one thing: the figures
// that the plan has are the same all along it.
type stage struct {
	fromM    float64
	prepared *solver.Prepared
	err      error
}

// stages are those of a casualty, in order: the first begins where it is drawn.
type stages []stage

func newStages(v *plan.Vehicle) stages {
	all := stages{{}}
	for _, atM := range stagesOf(v) {
		all = append(all, stage{fromM: atM})
	}
	return all
}

// at is the stage of a place of the way, metres.
func (s stages) at(sM float64) *stage {
	k := len(s) - 1
	for k > 0 && sM < s[k].fromM {
		k--
	}
	return &s[k]
}

// Values of a place by index; behind them the share of every part.
const (
	askOffWay = iota
	askState  // which of the states seen: layers, slack slings, the way sheaves turn
	firstPart
)

func newAsker(m *mover) *asker {
	return &asker{mover: m, stages: newStages(&m.p.Site.Vehicles[m.v]), askedM: math.NaN(), index: map[string]int{}, states: map[string]int{}, cache: map[float64][]float64{}, long: map[float64][]float64{}}
}

// known is the index of a part. Some are parts at some places only: a vehicle that may
// tip counts as one from where it might.
func (q *asker) known(id string) int {
	k, known := q.index[id]
	if !known {
		k = len(q.parts)
		q.index[id] = k
		q.parts = append(q.parts, id)
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
	g := q.stages.at(sM)
	if g.prepared == nil && g.err == nil {
		g.prepared, g.err = solver.Prepare(q.moved(g.fromM), q.rig)
	}
	if q.err = g.err; q.err != nil {
		return false
	}
	g.prepared.Plan().Site.Vehicles[q.v] = q.moved(sM).Site.Vehicles[q.v]
	q.err = g.prepared.Ask(&q.f)
	return q.err == nil
}

// all is what is followed at a place, found once.
func (q *asker) all(sM float64) []float64 {
	if v, known := q.cache[sM]; known {
		return v
	}
	var v []float64
	if q.ask(sM) {
		for i := range q.f.Parts {
			q.known(q.f.Parts[i].ID)
		}
		v = make([]float64, firstPart+len(q.parts))
		for i := range v {
			v[i] = math.NaN()
		}
		q.lengths(sM)
		v[askOffWay], v[askState] = q.f.OffWayDeg, float64(q.state())
		for i := range q.f.Parts {
			v[firstPart+q.known(q.f.Parts[i].ID)] = used(&q.f.Parts[i])
		}
	}
	q.cache[sM] = v
	return v
}

// lengths are those of the stretches at a place, in the order of the rig, metres; nil:
// not known there.
func (q *asker) lengths(sM float64) []float64 {
	if v, known := q.long[sM]; known {
		return v
	}
	var v []float64
	if q.ask(sM) {
		for i := range q.f.Stretches {
			v = append(v, float64(q.f.Stretches[i].Length))
		}
	}
	q.long[sM] = v
	return v
}

// one is one of those values; NaN: not known there.
func (q *asker) one(i int, sM float64) float64 {
	if v := q.all(sM); i < len(v) {
		return v[i]
	}
	return math.NaN()
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

// used is what is used of a part's limit by the pull as planned; NaN: not known.
func used(p *part.Part) float64 {
	if !p.Known() || p.Status == part.Refused || p.Status == part.NotUnderstood {
		return math.NaN()
	}
	return p.Most()
}
