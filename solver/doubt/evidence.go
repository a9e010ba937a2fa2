package doubt

import (
	"math"
	"slices"
	"strings"

	"kedge/solver"
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// PinUse is what became of a pin.
type PinUse struct {
	Pin   *plan.Pin
	Why   string // word id of why it weighs nothing; empty: it is a fact
	Fact  int    // index of its fact; meaningful if it is one
	Trust float64
}

// Weighs reports whether the pin moves any answer: it is a fact, and more than assumed.
func (u *PinUse) Weighs() bool { return u.Why == "" && u.Trust > plan.TrustAssumed }

// Why a pin weighs nothing. The words are ids of labels.
const (
	NotOfRig    = "pin-not-of-rig"   // what it is about is no part that may fail here
	NoFigure    = "pin-no-figure"    // the figure that it needs was not entered
	AtRest      = "pin-at-rest"      // a resting place says nothing
	NoFlight    = "pin-no-flight"    // it names no piece of gear that may fly
	SetsPlace   = "pin-sets-place"   // it says where the casualty was
	SetsTag     = "pin-sets-tag"     // it says what a rating is
	SetsPrior   = "pin-sets-prior"   // it says what was known before the pull
	SaidBefore  = "pin-said-before"  // what was seen before the pull has already made a prior
	NotCasualty = "pin-not-casualty" // a rut says where the casualty was if it is of the casualty
	PlaceKnown  = "pin-place-known"  // where the casualty was is known from what was observed
	Unplaced    = "pin-unplaced"     // it does not say exactly where the casualty was, and the pull is not followed
	OfEarlier   = "pin-of-earlier"   // it is of an earlier pull, of which only what was held counts
	TagTold     = "pin-tag-told"     // only a tag that was seen sets a rating
	TagsDiffer  = "pin-tags-differ"  // another tag of the same piece says another rating
	SeenIdle    = "pin-seen-idle"    // it is only assumed, or no weakness that its part may have
	NoMark      = "pin-no-mark"      // a mark was looked for, and there is none
	NoStretch   = "pin-no-stretch"   // how far the line stretches is not known
	NoLayer     = "pin-no-layer"     // the layer on the drum is not computed
)

// waysOfLook are the states that a look of a break agrees with.
var waysOfLook = map[string][]string{
	plan.LookCut: {plan.WeakCut}, plan.LookWorn: {plan.WeakWorn}, plan.LookHeat: {plan.WeakHeat}, plan.LookKnot: {plan.WeakKnot},
	plan.LookOpened: {plan.WeakClosed, plan.WeakOff}, plan.LookTorn: {Sound},
}

// breaking are the states in which a part is broken when it has failed.
var breaking = []string{Sound, plan.WeakCut, plan.WeakWorn, plan.WeakHeat, plan.WeakKnot, plan.WeakClosed}

// evidence turns the pins of a rig into facts.
func (m *rigModel) evidence(stretches bool, layer float64) (all []Fact, used []PinUse) {
	n := m.laid().Incident
	if n == nil {
		return nil, nil
	}
	broken := m.brokenParts(n)
	for i := range n.Pins {
		q := &n.Pins[i]
		f, why := m.fact(n, q, broken)
		switch {
		case why != "":
		case f.Kind == FoundAt && !stretches:
			why = NoStretch
		case f.Kind == OnLayer && layer == 0:
			why = NoLayer
		}
		use := PinUse{Pin: q, Why: why, Fact: len(all), Trust: q.Trusted()}
		if why == "" {
			f.Trust, f.Source = use.Trust, strings.ToLower(strings.Join(strings.Fields(q.Source), " ")) // however it is typed
			all = append(all, f)
		}
		used = append(used, use)
	}
	return all, used
}

// brokenParts are all that was found broken: which of them was the first is not said.
func (m *rigModel) brokenParts(n *plan.Incident) (ids []string) {
	for i := range n.Pins {
		if n.Pins[i].Kind == plan.PinBroken {
			ids = append(ids, m.about(n.Pins[i].Thing)...)
		}
	}
	slices.Sort(ids)
	return slices.Compact(ids)
}

// about are the groups that a pin is about, none of which yields.
func (m *rigModel) about(thing plan.ID) (ids []string) {
	for i := range m.groups {
		if g := &m.groups[i]; !g.yields && g.is(thing) {
			ids = append(ids, g.id)
		}
	}
	return ids
}

// fact is what a pin says, or why it says nothing.
func (m *rigModel) fact(n *plan.Incident, q *plan.Pin, broken []string) (f Fact, why string) {
	among := m.about(q.Thing)
	high := float64(q.High)
	if high == 0 {
		high = math.MaxFloat64
	}
	f = Fact{Among: among, LowN: float64(q.Low), HighN: high, Layer: q.Layer}
	ofPart := func(kind FactKind, ways []string) (Fact, string) {
		if len(among) == 0 {
			return f, NotOfRig
		}
		f.Kind, f.Ways = kind, ways
		return f, ""
	}
	if q.Earlier && q.Kind != plan.PinTension && q.Kind != plan.PinStalled {
		return f, OfEarlier
	}
	switch q.Kind {
	case plan.PinBroken:
		f, why = ofPart(Ended, breaking)
		f.Among = broken
		return f, why
	case plan.PinWhole:
		return ofPart(NotEnded, breaking)
	case plan.PinOff:
		if !slices.ContainsFunc(among, m.comesOff) {
			return f, NotOfRig
		}
		return ofPart(Ended, []string{plan.WeakOff})
	case plan.PinFirst:
		return ofPart(Ended, nil)
	case plan.PinLook:
		if saidBefore(n, q) {
			return f, SaidBefore
		}
		if waysOfLook[q.Look] == nil {
			return f, NoFigure
		}
		return ofPart(Ended, waysOfLook[q.Look])
	case plan.PinTension, plan.PinStalled:
		return m.tensionFact(f, q)
	case plan.PinLayer:
		if f.Kind = OnLayer; q.Layer == 0 {
			return f, NoFigure
		}
		return f, ""
	case plan.PinRut:
		return m.rutFact(f, n, q)
	case plan.PinSkid, plan.PinMoved:
		v := solver.CasualtyOf(m.was, m.rig)
		if len(m.later) > 0 && q.Kind == plan.PinSkid && v != nil && v.ID == q.Thing && q.Length.Or(1) > 0 { // what rolls leaves none
			return cameFact(f, q)
		}
		return m.yieldFact(f, q)
	case plan.PinLanding:
		return m.landingFact(f, q)
	}
	return f, m.beside(n, q)
}

// comesOff reports whether a group may come off unbroken.
func (m *rigModel) comesOff(id string) bool {
	i := slices.IndexFunc(m.groups, func(g group) bool { return g.id == id })
	ways, _ := m.weaknesses(&m.groups[i])
	return slices.Contains(ways, plan.WeakOff)
}

// saidBefore reports whether what a look of a break says was seen before the pull.
func saidBefore(n *plan.Incident, q *plan.Pin) bool {
	return slices.ContainsFunc(n.Pins, func(o plan.Pin) bool {
		return o.Kind == plan.PinSeenBefore && o.Thing == q.Thing && o.Look == q.Look
	})
}

// tensionFact is what a line tension or a stall says.
func (m *rigModel) tensionFact(f Fact, q *plan.Pin) (Fact, string) {
	switch {
	case q.Earlier:
		f.Kind = HeldBefore
	case q.Kind == plan.PinStalled:
		f.Kind = Stalled
	case q.Low == 0 && q.High == 0:
		return f, NoFigure
	default:
		f.Kind = TensionBetween
	}
	return f, ""
}

// yieldFact is what a trace of sliding or stirring says: there is one, or it was looked
// for and there is none.
func (m *rigModel) yieldFact(f Fact, q *plan.Pin) (Fact, string) {
	trace, known := q.Length.Get()
	if !known {
		return f, NoFigure
	}
	f.Kind, f.Share = Yielded, 1
	if trace == 0 {
		f.Kind = NotYielded
	}
	for i := range m.groups {
		g := &m.groups[i]
		skids := q.Kind == plan.PinSkid && g.part.Kind == part.KindSlide
		stirs := q.Kind == plan.PinMoved && g.part.Kind == part.KindAnchor
		if g.part.Thing == q.Thing && (skids || stirs) {
			if f.Part = g.id; stirs {
				f.Share = facts.DoubtStirs.Value()
			}
			return f, ""
		}
	}
	return f, NotOfRig
}

// landingFact is what a first mark says: the end of its range nearest by counts.
func (m *rigModel) landingFact(f Fact, q *plan.Pin) (Fact, string) {
	d, known := q.Length.Get()
	x := plan.NewIndex(m.plan, m.laid())
	s := x.Find(q.Thing)
	ofLine := s.Kind == plan.ThingLine || slices.ContainsFunc(m.groups, func(g group) bool { return g.id == string(q.Thing) && g.goesWithLine() })
	if !s.InRig && !ofLine { // a vehicle, a tree, what is there no more
		return f, NoFlight
	}
	mass := float64(q.Mass)
	if b := x.Block(q.Thing); mass == 0 && b != nil {
		mass = float64(b.Mass)
	}
	if !known || !(mass > 0) {
		return f, NoFigure
	}
	if d == 0 {
		return f, NoMark
	}
	f.Kind, f.DistanceM, f.DropM, f.MassKg = FoundAt, float64(d), float64(q.Drop), mass
	if low, _ := lengthOf(q); low < f.DistanceM {
		f.DistanceM = low
	}
	for i := range m.groups {
		g := &m.groups[i]
		frees := g.goesWithLine() == ofLine || s.Kind == plan.ThingDamper // it lies on a line, whatever lets go
		if !g.yields && frees {
			f.Thrown = append(f.Thrown, g.id)
		}
	}
	if len(f.Thrown) == 0 {
		return f, NotOfRig
	}
	return f, ""
}

// goesWithLine reports whether a line flies when the group fails, and not what hangs on a
// block.
func (g *group) goesWithLine() bool {
	return g.part.Kind == part.KindStretch || g.part.Kind == part.KindEnd || g.part.Kind == part.KindPoint
}

// Contradictions are pairs of facts, by index into the pins, that cannot both be right.
func Contradictions(used []PinUse) (pairs [][2]int) {
	for i := range used {
		for k := range i {
			if used[i].says() && used[k].says() && contradict(used[k].Pin, used[i].Pin) {
				pairs = append(pairs, [2]int{k, i})
			}
		}
	}
	return pairs
}

// contradict reports whether two pins cannot both be right, whatever the rig.
func contradict(a, b *plan.Pin) bool {
	is := func(x, y string) bool { return a.Kind == x && b.Kind == y || a.Kind == y && b.Kind == x }
	same := a.Thing == b.Thing
	failed := func(q *plan.Pin) bool {
		return q.Kind == plan.PinBroken || q.Kind == plan.PinOff || q.Kind == plan.PinFirst || q.Kind == plan.PinTension || q.Kind == plan.PinLook
	}
	held := func(q *plan.Pin) bool { return q.Kind == plan.PinStalled && !q.Earlier }
	la, oka := a.Length.Get()
	lb, okb := b.Length.Get()
	apart := func() bool { return a.High > 0 && a.High < b.Low || b.High > 0 && b.High < a.Low }
	switch {
	case a.Earlier || b.Earlier: // of which pull is not said
		return false
	case same && (is(plan.PinBroken, plan.PinWhole) || is(plan.PinBroken, plan.PinOff) || is(plan.PinFirst, plan.PinWhole)):
		return true
	case same && is(plan.PinLook, plan.PinWhole): // what is open may be whole
		return a.Look != plan.LookOpened && b.Look != plan.LookOpened
	case is(plan.PinFirst, plan.PinFirst):
		return !same
	case is(plan.PinLayer, plan.PinLayer):
		return a.Layer != b.Layer
	case is(plan.PinTension, plan.PinTension), held(a) && held(b):
		return apart()
	case failed(a) && held(b), failed(b) && held(a):
		return true
	case same && is(plan.PinTag, plan.PinTag):
		return otherTag(a, b)
	case same && is(plan.PinRut, plan.PinRut):
		lowA, highA := lengthOf(a)
		lowB, highB := lengthOf(b)
		paced := 2 * facts.DoubtPlace.Value()
		return oka && okb && (highA+paced < lowB-paced || highB+paced < lowA-paced)
	case same && (is(plan.PinMoved, plan.PinMoved) || is(plan.PinSkid, plan.PinSkid)):
		return oka && okb && (la == 0) != (lb == 0)
	}
	return false
}
