package doubt

import (
	"slices"

	"kedge/solver"
	"kedge/solver/facts"
	"kedge/solver/plan"
)

// RutM is how far along its way a casualty had come, by its ruts that were observed and of
// which no range is entered. exact is false if there is none, or if they do not all say the
// same: what is told of the place, or not known better than by a range, is evidence like
// any other where the pull is followed, and sets no place where it is not.
func RutM(n *plan.Incident, casualty plan.ID) (m float64, exact bool) {
	if n == nil {
		return 0, false
	}
	for i := range n.Pins {
		q := &n.Pins[i]
		if !exactRut(q, casualty) {
			continue
		}
		l := float64(q.Length.Or(0))
		if exact && l != m {
			return 0, false
		}
		m, exact = l, true
	}
	return m, exact
}

// exactRut reports whether a pin alone would say where a casualty was.
func exactRut(q *plan.Pin, casualty plan.ID) bool {
	_, known := q.Length.Get()
	low, high := lengthOf(q)
	return known && q.Kind == plan.PinRut && q.Thing == casualty && !q.Earlier && q.Trusted() == Observed && !(low < high)
}

// lengthOf is the range of a trace that was entered, m; both ends alike: there is none.
func lengthOf(q *plan.Pin) (low, high float64) {
	l, _ := q.Length.Get()
	for _, r := range q.Doubts {
		if r.Member == "trace_m" {
			return max(0, r.Low), r.High
		}
	}
	return float64(l), float64(l)
}

// cameFact is what a trace that the casualty left says of a pull that is followed: without
// a range it is as well known as any place that was paced.
func cameFact(f Fact, q *plan.Pin) (Fact, string) {
	if _, known := q.Length.Get(); !known {
		return f, NoFigure
	}
	f.Kind = CameTo
	if f.LowM, f.HighM = lengthOf(q); !(f.LowM < f.HighM) {
		f.LowM, f.HighM = f.LowM-2*facts.DoubtPlace.Value(), f.HighM+2*facts.DoubtPlace.Value()
	}
	return f, ""
}

// rutFact is what a rut says: of a pull that is followed it is a fact; else it sets the
// place, or is of no use.
func (m *rigModel) rutFact(f Fact, n *plan.Incident, q *plan.Pin) (Fact, string) {
	v := solver.CasualtyOf(m.was, m.rig)
	switch {
	case v == nil || v.ID != q.Thing:
		return f, NotCasualty
	case len(m.later) > 0:
		return cameFact(f, q)
	}
	if _, known := q.Length.Get(); !known {
		return f, NoFigure
	}
	_, exact := RutM(n, v.ID)
	switch {
	case exact && exactRut(q, v.ID):
		return f, SetsPlace
	case exact:
		return f, PlaceKnown
	}
	return f, Unplaced
}

// Past reports whether a trace of the casualty says that it came farther than a way that it
// had to go, m; 0: how far that is is not known.
func (u *PinUse) Past(casualty plan.ID, wayM float64) bool {
	q := u.Pin
	low, _ := lengthOf(q)
	of := q.Kind == plan.PinRut || q.Kind == plan.PinSkid && u.Why == "" && q.Thing == casualty
	return of && u.says() && u.Trust > plan.TrustAssumed && wayM > 0 && low-2*facts.DoubtPlace.Value() > wayM
}

// unplaced are the ruts that would weigh if the pull were followed.
func unplaced(used []PinUse) (pins []int) {
	for i, u := range used {
		if u.Why == Unplaced && u.Trust > plan.TrustAssumed {
			pins = append(pins, i)
		}
	}
	return pins
}

// says reports whether a pin says something of the pull: it is a fact, or it says where the
// casualty was or what a rating is, whether or not that weighs.
func (u *PinUse) says() bool {
	return slices.Contains([]string{"", SetsPlace, PlaceKnown, Unplaced, SetsTag, TagTold, TagsDiffer}, u.Why)
}
