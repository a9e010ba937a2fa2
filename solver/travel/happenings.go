package travel

import (
	"cmp"
	"math"
	"slices"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// Happening is something that happens on the way of a rig of a plan, of the kinds
// LayerChange, ReachesBlock, ReachesFairlead, OffWayBeyond, OffWayWithin, OverLimit,
// SheaveReverses, SheaveSticks, SlingSlack and SlingTaut.
type Happening struct {
	Kind     EventKind
	AtM      float64
	Start    bool    // so already as drawn
	Part     string  // id: OverLimit, LayerChange
	Thing    plan.ID // what it happens to: a damper, a joined line, a block, a sling
	Other    plan.ID // the block or vehicle it happens at
	LimitDeg float64 // OffWayBeyond and OffWayWithin
	ByJump   bool    // OverLimit: by a step, from share Before to share After
	Before   float64
	After    float64
	From, To int // layers
}

// anglesDeg are the angles off the way out that are told of: those of the findings
// about them.
var anglesDeg = [...]float64{15, 30, 60}

// lookout finds what happens between the moments of a pull.
type lookout struct {
	*scan
	q      *asker
	first  *solver.Assessment
	events []Happening
	sides  []float64 // places on both sides of every change of state
}

// happen finds what happens on the way as far as it was followed, and looks at both
// sides of each place where loads or limits may step.
func (f *follower) happen() error {
	o := f.out
	if !(o.EndM > 0) {
		return nil
	}
	places := make([]float64, len(o.Moments))
	for i := range o.Moments {
		places[i] = o.Moments[i].AtM
	}
	l := &lookout{q: newAsker(f.mover), first: o.Moments[0].Assessment}
	l.scan = newScan(l.q, places, func() bool { return f.ctx.Err() != nil })
	if err := f.ctx.Err(); err != nil {
		return err
	}
	for _, x := range stagesOf(solver.CasualtyOf(f.p, f.rig)) {
		l.cut(x, 0)
	}
	l.states()
	l.limits()
	l.angles()
	l.onLines(f.rig)
	if err := f.ctx.Err(); err != nil {
		return err
	}
	slices.SortStableFunc(l.events, func(a, b Happening) int { return cmp.Compare(a.AtM, b.AtM) })
	o.Events, f.off = l.events, l.askew()
	return f.lookAt(l.sides)
}

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
func (f *lookout) states() {
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
		f.sides = append(f.sides, lo, hi)
		before := len(f.nodes)
		if f.cutBetween(lo, hi, hi); len(f.nodes) > before {
			k++ // go on from the far side of the cut
		}
	}
}

// changes enters what differs between two states.
func (f *lookout) changes(sM float64, was, is state) {
	for _, id := range f.q.parts {
		if from, to := was.layers[id], is.layers[id]; from != to {
			f.events = append(f.events, Happening{Kind: LayerChange, AtM: sM, Part: id, From: from, To: to})
		}
	}
	for i := range f.first.Slings {
		id := f.first.Slings[i].Sling
		if was.slack[id] != is.slack[id] {
			kind := SlingSlack
			if was.slack[id] {
				kind = SlingTaut
			}
			f.events = append(f.events, Happening{Kind: kind, AtM: sM, Thing: id})
		}
	}
	for i := range f.first.Nodes {
		id := f.first.Nodes[i].Thing
		if from, to := was.turns[id], is.turns[id]; from != to && to != "" {
			kind := SheaveReverses
			if to == "stands" {
				kind = SheaveSticks
			}
			f.events = append(f.events, Happening{Kind: kind, AtM: sM, Thing: id})
		}
	}
}

// limits finds where parts come over their limits.
func (f *lookout) limits() {
	for i, id := range f.q.parts {
		for _, x := range f.crossings(firstPart+i, 1, 0) {
			if x.rises {
				f.events = append(f.events, Happening{Kind: OverLimit, AtM: x.sM, Start: x.start, Part: id, ByJump: x.jump, Before: x.before, After: x.after})
			}
		}
	}
}

// angles finds where the pull comes to lie far off the way out, or less far again.
func (f *lookout) angles() {
	for _, deg := range anglesDeg {
		for _, x := range f.crossings(askOffWay, deg, 0) {
			kind := OffWayBeyond
			if !x.rises {
				kind = OffWayWithin
			}
			f.events = append(f.events, Happening{Kind: kind, AtM: x.sM, Start: x.start, LimitDeg: deg})
		}
	}
}

// tail is how much of a line lies beyond the hauling end of each of its stretches: a
// way to follow values along.
type tail struct {
	q         *asker
	stretches []int // of the line, in its order, by index among those of the rig
}

func newTail(q *asker, line plan.ID) *tail {
	t := &tail{q: q}
	if q.ask(0) {
		for i := range q.f.Stretches {
			if q.f.Stretches[i].Line == line {
				t.stretches = append(t.stretches, i)
			}
		}
	}
	return t
}

func (t *tail) all(sM float64) []float64 {
	long := t.q.lengths(sM)
	v := make([]float64, len(t.stretches))
	sum := 0.0
	for k := len(v) - 1; k >= 0; k-- {
		if v[k] = math.NaN(); t.stretches[k] < len(long) {
			sum += long[t.stretches[k]]
			v[k] = sum
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
func (f *lookout) onLines(rig plan.ID) {
	r, _ := f.q.p.Rig(rig)
	var places []float64
	for i := range f.nodes {
		places = append(places, f.nodes[i].sM)
	}
	for i := range r.Lines {
		l := &r.Lines[i]
		t := newTail(f.q, l.ID)
		things := f.thingsOn(r, l, t)
		if len(things) == 0 {
			continue
		}
		s := newScan(t, places, f.stop)
		for _, thing := range things {
			for k := range t.stretches {
				kind := ReachesBlock
				if k == 0 {
					if kind = ReachesFairlead; l.Path[0].Point != plan.PortWinch {
						continue
					}
				}
				for _, x := range s.crossings(k, thing.fromM, 0) {
					if !x.rises {
						f.events = append(f.events, Happening{Kind: kind, AtM: x.sM, Thing: thing.thing, Other: l.Path[k].Thing})
						break
					}
				}
			}
		}
	}
}

// thingsOn are the dampers and joints that lie on a line's path as drawn. A joint has
// the line's own id.
func (f *lookout) thingsOn(r *plan.Rig, l *plan.Line, t *tail) []onLine {
	if len(l.Joins) == 0 && !slices.ContainsFunc(r.Dampers, func(d plan.Damper) bool { return d.Line == l.ID }) {
		return nil
	}
	beyond := append(t.all(0), 0)
	var out []onLine
	for i := range r.Dampers {
		if d := &r.Dampers[i]; d.Line == l.ID && d.Stretch >= 0 && d.Stretch < len(t.stretches) {
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
