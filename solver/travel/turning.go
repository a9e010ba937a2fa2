package travel

import (
	"math"
	"slices"

	"kedge/solver/statics"
)

// turnWatch is a lossy sheave: visit at of a line.
type turnWatch struct{ line, at int }

const (
	// lateM, metres, is how far beyond the place where a sheave comes to stand the
	// solver is asked for what it does then: it shows only when the line runs by some
	// 1e-7 of the way. It is looked for up to mostLateM.
	lateM     = 1e-6
	mostLateM = 1e-3
	// unsureSpare, of the logarithm of a ratio, is what rounding makes of none: what a
	// sheave spares is more, or it is looked for farther on.
	unsureSpare = 1e-9
	// mostPhases ends a search that goes to and fro.
	mostPhases = 100
)

// way is how a sheave turns at the place solved; known: it is no matter of rounding.
func (t *tour) way(w turnWatch) (way statics.SheaveMotion, known bool) {
	v := t.turn(w.line, w.at)
	if !t.ok || v == nil {
		return statics.Stick, false
	}
	return v.Motion, v.Determined
}

// turning finds where sheaves come to turn the other way or to stick, and cuts the
// way there. From each such place on the sheaves go on turning as they did before it,
// but for the one.
func (t *tour) turning() {
	if len(t.turns) == 0 {
		return
	}
	first := phase{ways: make([]statics.SheaveMotion, len(t.turns))}
	t.at(0)
	for i, w := range t.turns {
		way, known := t.way(w)
		if first.ways[i] = way; known && way == statics.Stick && first.held == nil {
			first.held, first.tailM = &t.turns[i], t.tail(w.line, w.at)
			t.events = append(t.events, t.turnEvent(SheaveSticks, w, 0))
		}
	}
	t.phases = []phase{first}
	for len(t.phases) < mostPhases {
		p := &t.phases[len(t.phases)-1]
		if p.held != nil {
			t.again(p.fromM)
			if !t.letGo(p) {
				return
			}
			continue
		}
		which, sM := t.nextTurn(p)
		if which < 0 {
			return
		}
		t.turnRound(p, which, sM)
	}
}

// nextTurn is the sheave that next leaves the way it turns in the last phase, and
// where; -1: none does.
func (t *tour) nextTurn(p *phase) (which int, sM float64) {
	which, sM = -1, math.Inf(1)
	for i, w := range t.turns {
		left := func(x float64) float64 { // above zero while it turns as it did
			t.at(x)
			way, known := t.way(w)
			v := t.turn(w.line, w.at)
			switch {
			case !t.ok || v == nil || p.ways[i] == statics.Stick:
				return math.NaN()
			case known && way == statics.Stick:
				return -lateM
			case p.ways[i] == statics.Pay:
				return -v.RunPerMetre
			}
			return v.RunPerMetre
		}
		a, fa := p.fromM+2*mostLateM, 0.0
		if p.fromM == 0 {
			a = 0
		}
		fa = left(a)
		for k := range t.nodes {
			b := t.nodes[k].sM
			if b <= a || b >= sM+stepM {
				continue
			}
			fb := left(b)
			if fa > 0 && fb <= 0 {
				if x := root(left, a, b, fa, fb); x < sM {
					which, sM = i, x
				}
				break
			}
			a, fa = b, fb
		}
	}
	return which, sM
}

// turnRound ends a phase where a sheave comes to stand, and begins one in which it
// turns the other way, or sticks.
func (t *tour) turnRound(p *phase, which int, sM float64) {
	w := t.turns[which]
	e := t.turnEvent(SheaveReverses, w, sM)
	e.RatioBefore = t.ratioAt(w, sM-besideM)
	tail := t.tail(w.line, w.at)
	next := phase{fromM: sM, ways: slices.Clone(p.ways)}
	next.ways[which] = statics.Haul
	if p.ways[which] == statics.Haul {
		next.ways[which] = statics.Pay
	}
	was := p.ways[which]
	t.phases = append(t.phases, next)
	if t.sticks(w, was, sM) {
		last := &t.phases[len(t.phases)-1]
		last.held, last.tailM = &t.turns[which], tail
		e.Kind = SheaveSticks
	}
	e.RatioAfter = t.ratioAt(w, sM+besideM)
	t.events = append(t.events, e)
	t.cut(sM, besideM)
	t.again(sM)
}

// sticks reports whether a sheave beyond a place turns neither as it did nor the
// other way.
func (t *tour) sticks(w turnWatch, was statics.SheaveMotion, sM float64) bool {
	for late := lateM; late <= mostLateM; late *= 4 {
		t.at(sM + late)
		if way, known := t.way(w); known && way != was {
			return way == statics.Stick
		}
	}
	return false
}

// letGo ends the phase of a sheave that sticks where it would need more friction than
// it has; false: it has enough to the end.
func (t *tour) letGo(p *phase) bool {
	w := *p.held
	sheave := t.c.Rig.Lines[w.line].Sheaves[w.at]
	spare := func(x float64) float64 {
		if t.at(x); !t.ok {
			return math.NaN()
		}
		b, a := t.stretch(w.line, w.at), t.stretch(w.line, w.at+1)
		most := -math.Log(hauling(sheave, b.Dir.Mul(-1).Angle(a.Dir).Radians()))
		return most - math.Abs(math.Log(a.TensionN/b.TensionN))
	}
	index := slices.Index(t.turns, w)
	a, fa := p.fromM+lateM, 0.0
	for late := lateM; late <= mostLateM && math.Abs(fa) <= unsureSpare; late *= 4 { // it spares little at first, as the square of the way
		a = p.fromM + late
		fa = spare(a)
	}
	if !(fa > 0) { // it gives at once: the block snaps over, and the solver finds where to
		p.held, p.ways[index] = nil, statics.Stick
		e := &t.events[len(t.events)-1]
		e.Kind, e.RatioAfter = SheaveReverses, t.ratioAt(w, p.fromM+lateM)
		t.again(p.fromM)
		return true
	}
	for k := range t.nodes {
		b := t.nodes[k].sM
		if b <= a {
			continue
		}
		fb := spare(b)
		if fa > 0 && fb > 0 {
			a, fa = b, fb
			continue
		}
		if fb != fb {
			return false
		}
		sM := root(spare, a, b, fa, fb)
		e := t.turnEvent(SheaveReverses, w, sM)
		e.RatioBefore = t.ratioAt(w, sM-besideM)
		next := phase{fromM: sM, ways: slices.Clone(p.ways)}
		next.ways[index] = statics.Haul
		if e.RatioBefore > 1 {
			next.ways[index] = statics.Pay
		}
		t.phases = append(t.phases, next)
		e.RatioAfter = t.ratioAt(w, sM+besideM)
		t.events = append(t.events, e)
		t.cut(sM, besideM)
		t.again(sM)
		return true
	}
	return false
}

func (t *tour) turnEvent(kind EventKind, w turnWatch, sM float64) Event {
	return Event{Kind: kind, AtM: sM, Start: sM == 0, Line: w.line, Visit: w.at, Point: t.c.Rig.Lines[w.line].Path[w.at+1]}
}

// ratioAt is the ratio of a sheave at a place; NaN: not computed.
func (t *tour) ratioAt(w turnWatch, sM float64) float64 {
	if t.at(math.Max(sM, 0)); !t.ok {
		return math.NaN()
	}
	return t.ratio(w.line, w.at)
}

// hauling is the ratio of a sheave that hauls, with the angle between its legs: by
// Constant its efficiency; by the friction of its pin κ|N| with κ from its efficiency
// at a half turn, ρ = (a − √(a² − b²))/b, a = 1 + κ² cos θ, b = 1 − κ²; of a ring
// e^(−μ(π − θ)).
func hauling(h statics.Sheave, angleRad float64) float64 {
	switch h.Model {
	case statics.Constant:
		return h.Eta
	case statics.Ring:
		return math.Exp(-h.Mu * (math.Pi - angleRad))
	}
	kappa := (1 - h.Eta) / (1 + h.Eta)
	cos := math.Cos(angleRad)
	a, b := 1+kappa*kappa*cos, 1-kappa*kappa
	return (a - math.Sqrt(kappa*kappa*(1+cos)*(a+b))) / b
}
