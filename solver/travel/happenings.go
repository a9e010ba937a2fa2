package travel

import (
	"math"
	"slices"

	"kedge/solver/part"
	"kedge/solver/plan"
)

// anglesDeg are the angles off the way out that are told of: those of the finding
// about them, and half-way between. (ours)
var anglesDeg = [...]float64{15, 30, 45, 60}

// state is what a rig is like between two changes.
type state struct {
	layers map[string]int
	slack  map[plan.ID]bool
	turns  map[plan.ID]string
}

func (q *asker) stateAt(sM float64) state {
	s := state{map[string]int{}, map[plan.ID]bool{}, map[plan.ID]string{}}
	if !q.ask(sM) {
		return s
	}
	for i := range q.f.Parts {
		switch p := &q.f.Parts[i]; p.Kind {
		case part.KindWinch:
			s.layers[p.ID] = p.Layer
		case part.KindSling:
			s.slack[p.Thing] = p.Status == part.Slack
		}
	}
	for i := range q.f.Nodes {
		if n := &q.f.Nodes[i]; n.Turns != "" {
			s.turns[n.Thing] = n.Turns
		}
	}
	return s
}

// stateM, metres: a change of state is found this closely.
const stateM = 1e-6

// states finds every place where the state of the rig changes, and cuts the way
// there.
func (f *follower) states() {
	for k := 1; k < len(f.nodes) && !f.stopped(); k++ {
		a, b := &f.nodes[k-1], &f.nodes[k]
		from, to := a.at(askState), b.at(askState)
		if b.side > 0 || from == to || from != from || to != to {
			continue
		}
		lo, hi := a.sM, b.sM
		for hi-lo > stateM {
			mid := lo + (hi-lo)/2
			if f.one(askState, mid) == from {
				lo = mid
			} else {
				hi = mid
			}
		}
		f.changes(hi, f.q.stateAt(lo), f.q.stateAt(hi))
		before := len(f.nodes)
		if f.cutBetween(lo, hi, hi); len(f.nodes) > before {
			k++ // go on from the far side of the cut
		}
	}
}

// changes enters what differs between two states.
func (f *follower) changes(sM float64, was, is state) {
	for _, id := range f.q.parts {
		if from, to := was.layers[id], is.layers[id]; from != to {
			f.h.Events = append(f.h.Events, Happening{Kind: LayerChange, AtM: sM, Part: id, From: from, To: to})
		}
	}
	for i := range f.h.Start.Slings {
		id := f.h.Start.Slings[i].Sling
		if was.slack[id] != is.slack[id] {
			kind := SlingSlack
			if was.slack[id] {
				kind = SlingTaut
			}
			f.h.Events = append(f.h.Events, Happening{Kind: kind, AtM: sM, Thing: id})
		}
	}
	for i := range f.h.Start.Nodes {
		id := f.h.Start.Nodes[i].Thing
		if from, to := was.turns[id], is.turns[id]; from != to && to != "" {
			kind := SheaveReverses
			if to == "stands" {
				kind = SheaveSticks
			}
			f.h.Events = append(f.h.Events, Happening{Kind: kind, AtM: sM, Thing: id})
		}
	}
}

// limits finds where parts come over their limits.
func (f *follower) limits() {
	for i, id := range f.q.parts {
		for _, x := range f.crossings(shareOf(i), 1, 0) {
			if x.rises {
				f.h.Events = append(f.h.Events, Happening{Kind: OverLimit, AtM: x.sM, Start: x.start, Part: id, ByJump: x.jump, Before: x.before, After: x.after})
			}
		}
	}
}

// angles finds where the pull comes to lie far off the way out, or less far again.
func (f *follower) angles() {
	for _, deg := range anglesDeg {
		for _, x := range f.crossings(askOffWay, deg, 0) {
			kind := OffWayBeyond
			if !x.rises {
				kind = OffWayWithin
			}
			f.h.Events = append(f.h.Events, Happening{Kind: kind, AtM: x.sM, Start: x.start, Level: deg})
		}
	}
}

// tail is how much of a line lies beyond one of its stretches at a place: follower
// and line as a way of its own, a value for each stretch.
type tail struct {
	q    *asker
	line plan.ID
	n    int
}

func (t *tail) all(sM float64) []float64 {
	v := make([]float64, t.n)
	if !t.q.ask(sM) {
		for k := range v {
			v[k] = math.NaN()
		}
		return v
	}
	for i := range t.q.f.Stretches {
		if s := &t.q.f.Stretches[i]; s.Line == t.line {
			for k := 0; k <= s.Index && k < t.n; k++ {
				v[k] += float64(s.Length)
			}
		}
	}
	return v
}

func (t *tail) one(i int, sM float64) float64 { return t.all(sM)[i] }

// onLine is a damper or a joint of a line, by its distance from the line's far end.
type onLine struct {
	thing plan.ID
	fromM float64
}

// onLines finds where dampers and joints run on to blocks and fairlead.
func (f *follower) onLines() {
	r, _ := f.q.p.Rig(f.h.Rig)
	for i := range r.Lines {
		l := &r.Lines[i]
		t := &tail{f.q, l.ID, len(l.Path) - 1}
		things := f.thingsOn(r, l, t)
		if len(things) == 0 {
			continue
		}
		s := newScan(t, f.h.UntilM, stepM, f.stop, nil)
		for _, thing := range things {
			for k := range t.n {
				kind := ReachesBlock
				if k == 0 {
					if kind = ReachesFairlead; l.Path[0].Point != plan.PortWinch {
						continue
					}
				}
				for _, x := range s.crossings(k, thing.fromM, 0) {
					if !x.rises {
						f.h.Events = append(f.h.Events, Happening{Kind: kind, AtM: x.sM, Thing: thing.thing, Other: l.Path[k].Thing})
						break
					}
				}
			}
		}
	}
}

// thingsOn are the dampers and joints that lie on a line's path as drawn. A joint has
// the line's own id.
func (f *follower) thingsOn(r *plan.Rig, l *plan.Line, t *tail) []onLine {
	if len(l.Joins) == 0 && !slices.ContainsFunc(r.Dampers, func(d plan.Damper) bool { return d.Line == l.ID }) {
		return nil
	}
	beyond := append(t.all(0), 0)
	var out []onLine
	for i := range r.Dampers {
		if d := &r.Dampers[i]; d.Line == l.ID && d.Stretch >= 0 && d.Stretch < t.n {
			long := beyond[d.Stretch] - beyond[d.Stretch+1]
			out = append(out, onLine{d.ID, beyond[d.Stretch+1] + (1-d.Share)*long})
		}
	}
	for i := range l.Joins {
		if from := beyond[0] - float64(l.Joins[i].At); from > 0 {
			out = append(out, onLine{l.ID, from})
		}
	}
	return out
}
