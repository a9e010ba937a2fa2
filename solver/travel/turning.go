package travel

import (
	"math"

	"kedge/solver/statics"
)

// stuck reports whether a sheave holds its line, other than one of which it is not
// known what it does.
func stuck(v *statics.Visit) bool { return v.Motion == statics.Stick && v.Determined }

// lateM, metres, is how far beyond the place where a sheave stands still the solver is
// asked for the way it turns then: it shows only when the line runs by some 1e-7 of
// the way. It is looked for up to mostLateM.
const (
	lateM     = 1e-6
	mostLateM = 1e-3
)

// turnEvents finds where a sheave comes to turn the other way, or to stick, and cuts
// the way there.
func (t *tour) turnEvents(w turnWatch) {
	for from := 0.0; ; {
		x, found := t.turnsAt(w, from)
		if !found {
			return
		}
		e := Event{Kind: SheaveReverses, AtM: x.sM, Start: x.start, Line: w.line, Visit: w.at, Point: t.c.Rig.Lines[w.line].Path[w.at+1]}
		if e.RatioBefore = t.ratioAt(w, x.sM-besideM); x.start {
			e.RatioBefore = math.NaN()
		}
		late := t.late(w, x.sM)
		if v := t.turn(w.line, w.at); v != nil && stuck(v) {
			e.Kind = SheaveSticks
			until := t.hold(w, x.sM)
			e.RatioAfter = t.ratioAt(w, x.sM+besideM)
			t.events = append(t.events, e)
			t.cut(x.sM, besideM)
			if until >= t.c.EndM {
				return
			}
			e.Kind, e.AtM, e.Start, e.RatioBefore = SheaveReverses, until, false, t.ratioAt(w, until-besideM)
			x.sM = until
			late = t.late(w, until)
		}
		e.RatioAfter = t.ratioAt(w, x.sM+late)
		t.events = append(t.events, e)
		t.cut(x.sM, late)
		from = x.sM + 4*late
	}
}

func (t *tour) ratioAt(w turnWatch, sM float64) float64 {
	t.at(math.Max(sM, 0))
	return t.ratio(w.line, w.at)
}

// late is how far beyond a place the way a sheave turns from there on shows, that
// place being solved.
func (t *tour) late(w turnWatch, atM float64) float64 {
	t.at(math.Max(atM-besideM, 0))
	was := statics.Stick
	if v := t.turn(w.line, w.at); v != nil {
		was = v.Motion
	}
	for late := lateM; ; late *= 4 {
		t.at(atM + late)
		if v := t.turn(w.line, w.at); late > mostLateM || v != nil && (v.Motion != was && v.Determined) {
			return late
		}
	}
}

// turnsAt is the next place beyond from where the sheave leaves the way it turns.
func (t *tour) turnsAt(w turnWatch, from float64) (x crossing, found bool) {
	if from == 0 {
		t.at(0)
		if v := t.turn(w.line, w.at); v != nil && stuck(v) {
			return crossing{start: true}, true
		}
	}
	for _, x := range t.crossings(w.value, 0, 0) {
		if x.sM > from && !x.start {
			return x, true
		}
	}
	return x, false
}

// hold makes a sheave stick from fromM on, the line behind it as long as it is there,
// until it would need more friction than it has; that place is given, and the way
// computed anew up to it.
func (t *tour) hold(w turnWatch, fromM float64) float64 {
	t.at(math.Max(fromM-besideM, 0))
	t.ride.held = append(t.ride.held, held{line: w.line, at: w.at, fromM: fromM, untilM: math.Inf(1), tailM: t.tail(w.line, w.at)})
	h := &t.ride.held[len(t.ride.held)-1]
	sheave := t.c.Rig.Lines[w.line].Sheaves[w.at]
	spare := func(sM float64) float64 {
		if t.at(sM); !t.ok {
			return math.NaN()
		}
		b, a := t.stretch(w.line, w.at), t.stretch(w.line, w.at+1)
		least := math.Log(1 / hauling(sheave, b.Dir.Mul(-1).Angle(a.Dir).Radians()))
		return least - math.Abs(math.Log(a.TensionN/b.TensionN))
	}
	until := t.c.EndM
	at, fa := fromM, math.NaN()
	for at < t.c.EndM {
		next := math.Min(at+stepM, t.c.EndM)
		f := spare(next)
		if !(f > 0) {
			if until = next; fa == fa {
				until = root(spare, at, next, fa, f)
			} else if y := spare(at + besideM); y > 0 {
				until = root(spare, at+besideM, next, y, f)
			} else {
				until = at
			}
			break
		}
		at, fa = next, f
	}
	if until < t.c.EndM {
		h.untilM = until
	}
	t.again(fromM, until)
	return until
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
