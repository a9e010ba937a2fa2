package layout

import (
	"cmp"
	"slices"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

const (
	// MaxTried bounds the rigs that one proposal judges, so that it answers while
	// a key is held down. (ours: about 50 ms at the 4 600 rigs a second measured
	// on one core; fourteen anchors give all their ways over one and over two)
	MaxTried = 200
	// MaxWays is the longest list of ways: what is read at a glance. (ours)
	MaxWays = 12
	// WantClear is how far, in metres, a proposed line keeps from every obstacle,
	// and from every trunk that it is not hung on.
	// (common practice: a line moves sideways as the casualty does, and whips)
	WantClear quantity.Length = 1.0
)

// The kinds of way.
const (
	Straight = "straight"
	Redirect = "redirect" // over one anchor or two
	Doubled  = "doubled"  // a block at the casualty, its end back at the winch vehicle or at an anchor
)

// Proposal is what else could be rigged.
type Proposal struct {
	Ways    []Way  // best first
	Left    []Left // what leads to no way, in the order of the plan
	Why     string // id of the reason why nothing could be tried; empty: it could
	Tried   int    // rigs that were judged
	Untried int    // rigs that were not, being more than MaxTried
	// WayOut is the length of way out over which the ways were followed; 0: it is
	// not known, they were judged as drawn alone.
	WayOut quantity.Length
	More   int // ways behind the last that is listed
}

// Reasons why nothing can be tried.
const (
	WhyNoCasualty = "no-casualty" // no vehicle is marked as the one to be moved, or it has no hook-on point
	WhyNoWinch    = "no-winch"    // no vehicle has a winch
	WhyNoFarEnd   = "no-far-end"  // the casualty's own winch: its line must first be led to an anchor
	WhyEntangled  = "entangled"   // another line runs over what this one would leave
)

// Way is one rig that could be taken.
type Way struct {
	Kind   string
	Over   []plan.ID          // anchors the line is led over, from the winch
	End    plan.ID            // of a doubled line: what its end is made fast to
	Plan   *plan.Plan         // with the rig added behind the others
	Rig    plan.ID            // that rig
	Answer *solver.Assessment // of that rig
	Line   quantity.Length    // the line it takes, along its stretches
	Found  [4]int             // findings by their level
	// Lasts is how far along the way out it stays a way; Then says why not
	// further, nil if it lasts to the end or the way out is not known.
	Lasts quantity.Length
	Then  []Reason
	// Unrated counts parts under load without a known limit: any may be the
	// weakest.
	Unrated int
}

// Tension is what the winch pulls to move the casualty; of several the most that
// one of them is checked for. False if it is not known.
func (w *Way) Tension() (quantity.Force, bool) {
	most := w.Answer.Move.Tension
	for i := range w.Answer.Parts {
		if p := &w.Answer.Parts[i]; p.Kind == part.KindWinch && p.Move.Known {
			most = max(most, p.Move.Force)
		}
	}
	return most, w.Answer.Move.Known
}

func incomplete(w Way) int {
	if w.Answer.Complete {
		return 0
	}
	return 1
}

// Worst is the part with the highest used share; false if none is known.
func (w *Way) Worst() (*part.Part, bool) {
	if i := w.Answer.Worst; i >= 0 && i < len(w.Answer.Parts) {
		return &w.Answer.Parts[i], true
	}
	return nil, false
}

// Left is a rig that was tried in vain: the redirect over an anchor, or the one
// of its kind that came nearest to being a way.
type Left struct {
	Kind    string
	Over    []plan.ID
	End     plan.ID
	Plan    *plan.Plan // that was judged, for the names of its things; nil: none was
	Rig     plan.ID
	Reasons []Reason
}

// Reason is why, with figures.
type Reason struct {
	ID      string        // ReasonNear …
	Thing   plan.ID       // obstacle, line or anchor it is about
	Values  []part.Value  // numbers of its sentence
	Finding *part.Finding // of a refusal: what the assessment says
}

// Reasons why a rig is left out.
const (
	ReasonNear       = "near"         // passes {clear} from Thing, needs {want}
	ReasonShort      = "line-short"   // the line Thing is too short by {missing}
	ReasonWeak       = "winch-weak"   // needs {need}, the winch stalls at {stall}
	ReasonRefused    = "refused"      // the assessment refuses it; see Finding
	ReasonMeets      = "meets"        // the casualty runs into something; see Finding
	ReasonUnsolved   = "not-computed" // the assessment has no answer
	ReasonIsEnd      = "is-end"       // the line ends there already
	ReasonNotReached = "not-tried"    // more than MaxTried rigs
)

// Propose finds what else could be rigged for the pull of a rig. A rig that is
// not in the plan, or in which nothing pulls yet, is begun anew between the
// casualty and the nearest vehicle with a winch.
func Propose(p *plan.Plan, rig plan.ID, kit Kit) Proposal {
	q, why := pullOf(p, rig, kit)
	if why != "" {
		return Proposal{Why: why}
	}
	t := &trial{pull: q}
	t.single()
	if len(t.ways) == 0 {
		t.pairs()
	}
	if t.computed && !t.suffices {
		t.doubled()
	}
	return t.result()
}

// winchSuffices reports whether a rig asks of its winches no more than their limit.
func winchSuffices(a *solver.Assessment) bool {
	return a.Moves && !slices.ContainsFunc(a.Parts, func(p part.Part) bool {
		return p.Kind == part.KindWinch && p.Status == part.Over
	})
}

// trial is a proposal in the making.
type trial struct {
	*pull
	ways     []Way
	left     map[plan.ID]Left // by anchor
	kinds    []Left           // pairs and doubled lines that all failed
	tried    int
	untried  int
	computed bool // what some rig asks of the winch is known
	suffices bool // the straight line or a way asks no more of it than its limit
}

// candidate is a rig to be judged.
type candidate struct {
	kind  string
	over  []anchor
	dead  *deadEnd
	longM float64 // of the way from anchor to anchor
}

// judge assesses a candidate: a way, or the reasons against it. One that is a
// way is assessed once more with its blocks drawn where they settled: that is
// the plan that would be taken, and those are its figures.
func (t *trial) judge(c candidate) (Way, []Reason) {
	t.tried++
	d := t.lay(c)
	a := solver.Assess(d.Plan, d.Laid.ID)
	t.computed = t.computed || a.Move.Known
	why := against(d, a)
	if len(why) == 0 {
		settleBy(d, a, t.isNew)
		a = solver.Assess(d.Plan, d.Laid.ID)
		why = against(d, a)
	}
	t.suffices = t.suffices || len(why) == 0 && winchSuffices(a)
	w := Way{Kind: c.kind, Plan: d.Plan, Rig: d.Laid.ID, Answer: a}
	w.Over, w.End = c.leads()
	for i := range a.Findings {
		if l := a.Findings[i].Level; l >= 0 && int(l) < len(w.Found) {
			w.Found[l]++
		}
	}
	for i := range a.Parts {
		if p := &a.Parts[i]; p.Status == part.NoLimit && p.Move.Known && p.Move.Force > 0 {
			w.Unrated++
		}
	}
	for i := range a.Lines {
		if a.Lines[i].Line == t.line {
			w.Line = a.Lines[i].Out
		}
	}
	return w, why
}

// leads are the ids of what a candidate is led over and made fast to.
func (c *candidate) leads() (over []plan.ID, end plan.ID) {
	for _, o := range c.over {
		over = append(over, o.port.Thing)
	}
	if c.dead != nil {
		end = c.dead.port.Thing
	}
	return over, end
}

func (w *Way) left(why []Reason) Left {
	return Left{Kind: w.Kind, Over: w.Over, End: w.End, Plan: w.Plan, Rig: w.Rig, Reasons: why}
}

// against are the reasons why a rig is no way.
func against(d plan.Draft, a *solver.Assessment) []Reason {
	if a.Status != part.Within {
		r := Reason{ID: ReasonUnsolved}
		for i := range a.Findings {
			if a.Findings[i].ID == a.Why && a.Why != "" {
				r = Reason{ID: ReasonRefused, Finding: &a.Findings[i]}
				break
			}
		}
		return []Reason{r}
	}
	list := tooNear(d, a)
	for i := range a.Lines {
		if m := a.Lines[i].Missing; m > 0 {
			list = append(list, Reason{ID: ReasonShort, Thing: a.Lines[i].Line, Values: []part.Value{
				part.Length("missing", m)}})
		}
	}
	if a.Move.Known && a.Stall.Known && !a.Moves {
		list = append(list, Reason{ID: ReasonWeak, Values: []part.Value{
			part.Force("need", a.Move.Tension),
			part.Number("stall", part.UnitLimit, a.Stall.Tension)}})
	}
	return list
}

// tooNear are the obstacles, trunks and vehicles that a stretch does not hang on
// and passes nearer than [WantClear]: each once, with the least distance.
func tooNear(d plan.Draft, a *solver.Assessment) []Reason {
	var list []Reason
	see := func(id plan.ID, clear quantity.Length) {
		if id == "" || clear >= WantClear {
			return
		}
		r := Reason{ID: ReasonNear, Thing: id, Values: []part.Value{
			part.Length("clear", clear),
			part.Length("want", WantClear)}}
		if k := slices.IndexFunc(list, func(o Reason) bool { return o.Thing == id }); k < 0 {
			list = append(list, r)
		} else if clear < quantity.Length(list[k].Values[0].X) {
			list[k] = r
		}
	}
	ground, _ := terrain.NewGround(d.Site.Ground)
	bodies := terrain.Bodies(&d.Site)
	for i := range a.Stretches {
		s := &a.Stretches[i]
		run := terrain.Line{A: s.A, B: s.B}
		for k := range bodies {
			b := &bodies[k]
			if hangsOn(d.Laid, s.PortA.Thing, b.ID) || hangsOn(d.Laid, s.PortB.Thing, b.ID) || b.Bears(&ground, &run).Over {
				continue
			}
			see(b.ID, quantity.Length(b.Clear(&run, float64(WantClear))))
		}
	}
	return list
}

// hangsOn reports whether a part of the rig is fixed to, or slung round, an anchor, or
// is the anchor itself.
func hangsOn(r *plan.Rig, id, anchor plan.ID) bool {
	if b, ok := r.Block(id); ok && b.Fixed.Thing == anchor {
		return true
	}
	return id == anchor || slices.ContainsFunc(r.Slings, func(s plan.Sling) bool {
		return s.On.Thing == anchor && (s.Holds.Thing == id || s.ID == id)
	})
}

// single tries the straight pull, which is no way if it is what the rig is
// already, and a redirect over each anchor.
func (t *trial) single() {
	t.left = make(map[plan.ID]Left, len(t.anchors))
	switch w, why := t.judge(candidate{kind: Straight}); {
	case t.isStraight:
	case len(why) == 0:
		t.ways = append(t.ways, w)
	default:
		t.kinds = append(t.kinds, w.left(why))
	}
	for _, a := range t.anchors {
		left := Left{Kind: Redirect, Over: []plan.ID{a.port.Thing}}
		switch {
		case a.port == t.far:
			left.Reasons = []Reason{{ID: ReasonIsEnd, Thing: a.port.Thing}}
		case t.tried >= MaxTried:
			t.untried++
			left.Reasons = []Reason{{ID: ReasonNotReached}}
		default:
			w, why := t.judge(candidate{kind: Redirect, over: []anchor{a}})
			if len(why) == 0 {
				t.ways = append(t.ways, w)
				continue
			}
			left = w.left(why)
		}
		t.left[a.port.Thing] = left
	}
}

// pairs tries every two anchors one after the other.
func (t *trial) pairs() {
	var list []candidate
	for _, a := range t.anchors {
		for _, b := range t.anchors {
			if a.port != b.port && a.port != t.far && b.port != t.far {
				list = append(list, candidate{kind: Redirect, over: []anchor{a, b},
					longM: t.from.Dist(a.at) + a.at.Dist(b.at) + b.at.Dist(t.to)})
			}
		}
	}
	t.try(list)
}

// doubled tries the doubled line: its end at the winch vehicle or at each
// anchor, led straight or over each anchor.
func (t *trial) doubled() {
	var list []candidate
	for _, e := range t.deadEnds() {
		back := t.to.Dist(e.at)
		list = append(list, candidate{kind: Doubled, dead: &e, longM: t.from.Dist(t.to) + back})
		for _, a := range t.anchors {
			if a.port != t.far {
				list = append(list, candidate{kind: Doubled, over: []anchor{a}, dead: &e,
					longM: t.from.Dist(a.at) + a.at.Dist(t.to) + back})
			}
		}
	}
	t.try(list)
}

// far tells how far from being a way something that was left out is: a longer
// line would do, another path is needed, or it cannot be.
func (l *Left) far() int {
	far := 0
	for _, r := range l.Reasons {
		switch r.ID {
		case ReasonShort, ReasonWeak:
		case ReasonNear:
			far = max(far, 1)
		default:
			far = 2
		}
	}
	return far
}

// try judges candidates of a kind, the shortest way first. If all fail, the one
// that comes nearest stands for them; of those as near the shortest.
func (t *trial) try(list []candidate) {
	slices.SortStableFunc(list, func(a, b candidate) int { return cmp.Compare(a.longM, b.longM) })
	var nearest Left
	any := false
	for _, c := range list {
		if t.tried >= MaxTried {
			t.untried++
			continue
		}
		w, why := t.judge(c)
		if len(why) == 0 {
			t.ways, any = append(t.ways, w), true
			continue
		}
		if l := w.left(why); nearest.Plan == nil || l.far() < nearest.far() {
			nearest = l
		}
	}
	if !any && nearest.Plan != nil {
		t.kinds = append(t.kinds, nearest)
	}
}

// result ranks the ways and lists what is left out.
func (t *trial) result() Proposal {
	slices.SortStableFunc(t.ways, better)
	out := Proposal{Ways: t.ways, Tried: t.tried, Untried: t.untried, WayOut: t.wayOut()}
	n := min(len(t.ways), maxFollowed)
	for i := range t.ways[:n] {
		t.follow(&t.ways[i], out.WayOut)
	}
	slices.SortStableFunc(t.ways[:n], better)
	if n := len(out.Ways); n > MaxWays {
		out.Ways, out.More = out.Ways[:MaxWays:MaxWays], n-MaxWays
	}
	for _, a := range t.anchors {
		id := a.port.Thing
		if l, ok := t.left[id]; ok && !slices.ContainsFunc(t.ways, func(w Way) bool { return slices.Contains(w.Over, id) }) {
			out.Left = append(out.Left, l)
		}
	}
	out.Left = append(out.Left, t.kinds...)
	return out
}

// better ranks ways: those that last over the whole way out, then those of which
// all is understood, then fewer dangers, a part without a known limit counted as
// one, then fewer warnings, then the lower worst share (one that is not known
// comes last), then the shorter line. Ways alike in
// all of it stay in the order in which they were tried.
func better(a, b Way) int {
	wa, knownA := a.Worst()
	wb, knownB := b.Worst()
	c := cmp.Or(cmp.Compare(min(len(a.Then), 1), min(len(b.Then), 1)), cmp.Compare(incomplete(a), incomplete(b)),
		cmp.Compare(a.Found[part.Danger]+a.Unrated, b.Found[part.Danger]+b.Unrated), cmp.Compare(a.Found[part.Warning], b.Found[part.Warning]))
	switch {
	case c != 0:
		return c
	case knownA != knownB && knownA:
		return -1
	case knownA != knownB:
		return 1
	case knownA:
		c = cmp.Compare(wa.Most(), wb.Most())
	}
	return cmp.Or(c, cmp.Compare(a.Line, b.Line))
}
