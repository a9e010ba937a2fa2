package doubt

import (
	"cmp"
	"context"
	"errors"
	"maps"
	"math"
	"slices"
	"sync"

	"kedge/solver"
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// ErrNoEvidence is the error of a rig of which nothing was seen or told.
var ErrNoEvidence = errors.New("doubt: nothing was seen or told of the rig")

// Reconstruction is what the evidence of a rig says of what may have happened, under
// assumptions that stand beside it. The casualty is where the plan has it, or is followed
// along its way from there.
type Reconstruction struct {
	Rig        plan.ID
	Seed       uint64
	Trials     int
	Assumed    []Assumption // every figure drawn, inputs first, then strengths by part
	NotDrawn   []Doubtful   // in doubt, but no figure that can be drawn
	Priors     []PriorOf
	Idle       []plan.Prior // of the plan, which are of no part that may be weak so
	JerkPrior  float64
	NonePrior  float64 // of what is not drawn: nothing can be reckoned of it
	Pins       []PinUse
	Blocked    []int       // of Pins that say what failed, of which no strength is known: there is no answer
	Unplaced   []int       // of Pins that say where the casualty was, which is not used; one of them observed: there is no answer
	Contradict [][2]int    // of Pins
	Without    []part.Part // parts of which load or strength is not known: they are no candidates
	Unknown    []part.Part // parts of which no strength is known in some draws farther along the way: the one at first stands in
	Refused    float64     // share of draws in which the rig would be refused, at the place where it most often is: the likely figures stand in
	Slides     []part.Part // what slides at the pull to move as drawn, and yet is taken to pull or hold as hard as is asked of it
	Slow       bool        // the rig itself was asked in each trial: there are fewer
	ToM        float64     // how far along its way the pull was followed, by the places of the request that are computed; 0: it was not
	Answer     Answer
	Ratios     []CandidateRatio // of the candidates of Answer, in their order
	Moments    []Moment         // of the same
	Sensitive  []Sensitivity
	HalfPrior  float64 // prior of the first candidate's part being below strength that would bring that candidate to one half; NaN: none would
	Changes    []NamedChange
}

// CandidateRatio is how much better the facts fit the first candidate than another.
type CandidateRatio struct {
	Ratio Ratio
	Known bool
}

// Moment is what the pull was like when a candidate failed, given the facts: 5, 50 and
// 95 % points. NaN: hardly a trial is left of it.
type Moment struct {
	TensionN [3]float64 // of the line at the winch
	LoadN    [3]float64 // on the part that failed; NaN of no part too
	AtM      [3]float64 // where along the way the casualty was; 0 of a pull that was not followed
}

// moment is that of a candidate.
func (s *Sample) moment(c *Candidate) (m Moment) {
	fill(m.TensionN[:], math.NaN())
	fill(m.LoadN[:], math.NaN())
	fill(m.AtM[:], math.NaN())
	if !(c.Posterior.Value >= leastMoment) {
		return m
	}
	weight := Both(s.Is(*c), s.Weight())
	copy(m.TensionN[:], s.Bands(weight, 0.05, 0.5, 0.95))
	copy(m.AtM[:], s.bandsOf(func(t *Trial) float64 { return t.CameM }, weight, 0.05, 0.5, 0.95))
	if c.Part != "" {
		copy(m.LoadN[:], s.bandsOf(func(t *Trial) float64 { return t.LoadN }, weight, 0.05, 0.5, 0.95))
	}
	return m
}

// leastMoment is the chance given the facts below which the trials of a candidate are
// too few for a band. (ours)
const leastMoment = 0.002

// NamedChange is what one thing done otherwise would have changed.
type NamedChange struct {
	Change
	Err error // of a rig that is not computed with it
	Changed
}

// Change is one thing done otherwise: a plan with the same rig, and how its pull goes on.
type Change struct {
	Name  string
	Plan  *plan.Plan
	Along []WayPoint // at the places of the request; of a way of another length, at its own
	Short bool       // its way ends before the place of the request's plan: the pull never comes there
}

// Request is how a rig is drawn, and what is asked of a reconstruction. Who wants to show
// an answer early asks with fewer points first, then with more: what both say differs by
// no more than their errors.
type Request struct {
	Context context.Context // gives it up, looked at before each trial that asks the rig; nil: nobody does
	Per     int             // points of a set: a power of two
	Seed    uint64
	Workers int
	Changes []Change
	Typed   bool       // of a plan that is drawn: only what it says itself is in doubt
	Along   []WayPoint // the pull, from where it is drawn on; none: that alone
}

// WayPoint is a plan with the casualty some way along its way out.
type WayPoint struct {
	AtM  float64
	Plan *plan.Plan
}

// given reports whether it was given up.
func (q *Request) given() bool { return q.Context != nil && q.Context.Err() != nil }

// Reconstruct asks what may have happened with a rig.
func Reconstruct(p *plan.Plan, rig plan.ID, q Request) (*Reconstruction, error) {
	r, ok := p.Rig(rig)
	if !ok || !r.Incident.Seen() {
		return nil, ErrNoEvidence
	}
	m, err := newModel(p, rig, q, q.Along)
	if err != nil {
		return nil, err
	}
	out := &Reconstruction{Rig: rig, Seed: q.Seed, NotDrawn: m.not, Without: m.without, Unknown: m.unknown}
	for _, p := range m.drawn.Parts {
		if p.Kind == part.KindSlide && p.Status == part.Over {
			out.Slides = append(out.Slides, p)
		}
	}
	for _, place := range m.places() {
		out.Refused, out.ToM = max(out.Refused, place.Refused), place.atM
	}
	for i := range r.Incident.Pins {
		q := &r.Incident.Pins[i]
		for _, d := range q.Doubts {
			if d.Member != "trace_m" {
				out.NotDrawn = append(out.NotDrawn, Doubtful{Thing: q.ID, Member: d.Member})
			}
		}
	}
	in := m.incident(out)
	in.Context = q.Context
	batches := m.batches(in, rig, q, out)
	s, err := Take(batches[0].in, q.Per, q.Seed, q.Workers)
	if err != nil {
		return nil, err
	}
	out.Trials, out.Answer = s.Points, s.Answer()
	if out.Answered() {
		if err := out.ask(s, q); err != nil {
			return nil, err
		}
	} else {
		out.Answer.Candidates, out.Answer.Fits = nil, nil
	}
	out.change(s, batches[0].of)
	for _, more := range batches[1:] {
		if s, err = Take(more.in, q.Per, q.Seed, q.Workers); err != nil {
			return nil, err
		}
		out.change(s, more.of)
	}
	if q.given() {
		return nil, q.Context.Err()
	}
	slices.SortStableFunc(out.Changes, func(a, b NamedChange) int {
		return cmp.Or(cmp.Compare(b2f(a.Err != nil), b2f(b.Err != nil)), cmp.Compare(b.Less.Value, a.Less.Value))
	})
	return out, nil
}

// Answered reports whether there is an answer: enough trials agree, and no piece of
// evidence says that something failed that cannot fail here, or that the casualty was
// elsewhere.
func (out *Reconstruction) Answered() bool {
	return out.Answer.Verdict != TooFew && len(out.Blocked) == 0 && !out.Elsewhere()
}

// Elsewhere reports whether it was observed that the casualty was not where it is drawn, and
// not known where it was.
func (out *Reconstruction) Elsewhere() bool {
	return slices.ContainsFunc(out.Unplaced, func(i int) bool { return out.Pins[i].Trust == Observed })
}

// blocked are the pins that say that something failed of which no strength is known, or
// which is not in the rig. To pass them over would give the blame to what is.
func blocked(used []PinUse) (pins []int) {
	for i, u := range used {
		kind := u.Pin.Kind
		if u.Why == NotOfRig && u.Trust > plan.TrustAssumed && (kind == plan.PinBroken || kind == plan.PinOff || kind == plan.PinFirst || kind == plan.PinLook) {
			pins = append(pins, i)
		}
	}
	return pins
}

// ids of inputs that are no figures of the plan. They sort behind the figures.
const (
	inResistance = "~resistance"
	inStall      = "~stall"
	inDamage     = "~damage"
	inAnchor     = "~damage-anchor"
	inBefore     = "~stall-before"
)

// incident is the rig as an incident; what it assumes is put down.
func (m *rigModel) incident(out *Reconstruction) *Incident {
	n := m.laid().Incident
	in := &Incident{Inputs: map[string]Dist{}, Jerk: spreadOf(facts.DoubtJerk)}
	in.Flying, _ = Uniform(facts.DoubtFlying.Low().X, facts.DoubtFlying.High().X)
	read := func(id string, a Assumption) {
		in.Inputs[id] = a.Dist
		in.Reads = append(in.Reads, id)
		out.Assumed = append(out.Assumed, a)
	}
	for i := range m.figures {
		f := &m.figures[i]
		read(f.id(), Assumption{Thing: f.Thing, Member: f.Member, Dist: f.Dist, Typed: f.fact == "", Fact: f.fact})
	}
	read(inResistance, Assumption{What: "resistance", Dist: unit})
	if m.stall != "" {
		read(inStall, Assumption{What: "stall", Dist: spreadOf(m.stall), Fact: m.stall})
	}
	in.Jerked = n.Jerk.Or(facts.DoubtPriorJerk.Value())
	out.JerkPrior, out.NonePrior = in.Jerked, n.None.Or(facts.DoubtPriorNone.Value())
	if in.Jerked > 0 {
		out.Assumed = append(out.Assumed, Assumption{What: "jerk", Dist: in.Jerk, Fact: facts.DoubtJerk})
		if len(m.later) > 0 {
			out.Assumed = append(out.Assumed, Assumption{What: "jerk-place", Dist: unit})
		}
	}
	in.Facts, out.Pins = m.evidence(m.sure[ansJPerN2] > 0, m.sure[ansLayer])
	out.Contradict, out.Blocked, out.Unplaced = Contradictions(out.Pins), blocked(out.Pins), unplaced(out.Pins)
	out.Idle = m.idle()
	m.before(in.Facts, read)
	if slices.ContainsFunc(in.Facts, func(f Fact) bool { return f.Kind == FoundAt }) {
		out.Assumed = append(out.Assumed, Assumption{What: "flying", Dist: in.Flying, Fact: facts.DoubtFlying})
	}
	for i := range m.groups {
		g := &m.groups[i]
		sound, row := m.strength(g)
		p := Part{ID: g.id, Sound: sound, Yields: g.yields}
		var priors []PriorOf
		p.Weak, priors = m.weak(g, sound.mean())
		for _, w := range p.Weak {
			p.PriorBelow += w.Prior
		}
		in.Parts, out.Priors = append(in.Parts, p), append(out.Priors, priors...)
		out.Assumed = append(out.Assumed, Assumption{What: "strength", Part: g.id, Dist: sound, Fact: row})
	}
	if len(m.later) > 0 {
		in.WayM = m.wayM()
	}
	in.Pull, in.Slow = m.pull(in), m.slow()
	out.Slow = in.Slow
	return in
}

// wayM are the places along the way, m.
func (m *rigModel) wayM() (all []float64) {
	for _, place := range m.places() {
		all = append(all, place.atM)
	}
	return all
}

// before are the inputs that an earlier pull asks for.
func (m *rigModel) before(all []Fact, read func(id string, a Assumption)) {
	earlier := func(f Fact) bool { return f.Kind == HeldBefore }
	if !slices.ContainsFunc(all, earlier) {
		return
	}
	wears := func(id string) bool {
		return slices.ContainsFunc(m.groups, func(g group) bool { return m.wears(&g) == id })
	}
	if wears(inDamage) {
		read(inDamage, Assumption{What: "damage", Dist: spreadOf(facts.DoubtDamage), Fact: facts.DoubtDamage})
	}
	if wears(inAnchor) {
		read(inAnchor, Assumption{What: "damage-anchor", Dist: spreadOf(facts.DoubtDamageAnchor), Fact: facts.DoubtDamageAnchor})
	}
	if slices.ContainsFunc(all, func(f Fact) bool { return earlier(f) && f.LowN == 0 }) {
		row := facts.DoubtStallPulls
		if d, err := Lognormal(1, row.Value()); err == nil {
			read(inBefore, Assumption{What: "stall-before", Dist: d, Fact: row})
		}
	}
}

// pull is the rig as what its figures make of it, in the order that in reads them.
func (m *rigModel) pull(in *Incident) func(x []float64, p *Pull) {
	at := func(id string) int { return slices.Index(in.Reads, id) }
	resistance, stall, before := at(inResistance), at(inStall), at(inBefore)
	left := make([]int, len(m.groups)) // where what an earlier pull left each is read; -1: all
	for i := range m.groups {
		left[i] = at(m.wears(&m.groups[i]))
	}
	if m.stall == "" {
		stall = -1
	}
	own, places := len(m.figures), m.places()
	return func(x []float64, p *Pull) {
		var room [rigAnswers + 64]float64
		y, place := room[:len(m.sure)], places[p.Place]
		place.answers(x[:own], y)
		low, likely, high := math.Exp(y[ansLow]), math.Exp(y[ansLikely]), math.Exp(y[ansHigh])
		low = min(low, likely, high)
		high = max(low, likely, high)
		r := Dist{triangular, low, min(max(likely, low), high), high}
		need := math.Exp(y[ansTau]) * r.At(min(max(x[resistance], 1e-12), 1-1e-12))
		p.StallN = math.Exp(y[ansStall])
		if stall >= 0 {
			p.StallN *= x[stall]
		}
		p.EndN = min(need, p.StallN)
		p.JPerN2, p.Layer, p.BeforeN = max(0, y[ansJPerN2]), math.Round(y[ansLayer]), 0
		if before >= 0 {
			p.BeforeN = p.StallN * x[before]
		}
		copy(p.Real, place.real)
		for i := range m.groups {
			p.Factors[i] = max(0, y[rigAnswers+i])
			if m.groups[i].yields {
				p.Factors[i] = 1 / max(p.Factors[i], leastFactor)
			}
			if k := left[i]; k >= 0 {
				p.Factors[i] /= x[k]
				if len(p.Left) > 0 {
					p.Left[i] = x[k]
				}
			}
		}
	}
}

// answers are those of the surface, or of the rig itself; where that is refused, those
// of the likely figures.
func (m *rigModel) answers(x, y []float64) {
	if m.surface != nil {
		m.surface.at(x, y)
		return
	}
	if len(x) == 0 || !m.ask(x, y) {
		copy(y, m.sure)
	}
}

// ask asks a sample for all but the changes. The error is the request's context's.
func (out *Reconstruction) ask(s *Sample, q Request) error {
	first := &out.Answer.tallies[0]
	for i, c := range out.Answer.Candidates {
		if q.given() {
			return q.Context.Err()
		}
		r, err := first.ratio(&out.Answer.tallies[i].tally)
		out.Ratios = append(out.Ratios, CandidateRatio{r, err == nil && i > 0})
		out.Moments = append(out.Moments, s.moment(&c))
	}
	var other *Sample
	if in := s.Incident.otherShape(); in != nil {
		var err error
		if other, err = Take(in, q.Per, q.Seed, q.Workers); err != nil {
			return err
		}
	}
	out.sensitive(s, other)
	return nil
}

// change asks a sample for what its changes do, those of so many of Changes. Where there is
// no answer, nothing is asked of pulls like this one, and the trials count that were drawn
// before any were sought.
func (out *Reconstruction) change(s *Sample, changes []int) {
	of := *s
	if !out.Answered() {
		of.strata = s.drawn
	}
	for k, i := range changes {
		if s.amiss>>k&1 == 1 {
			out.Changes[i].Err = ErrIncident
			continue
		}
		out.Changes[i].Changed = of.changes(k, of.Weight())
	}
}

// batch is an incident with some of the changes of a request, which are asked of the same
// trials.
type batch struct {
	in *Incident
	of []int // of those of the request
}

// batches are an incident with the changes of a request that are computed: the same trials,
// with what each changed rig makes of the same figures. The first has the trials of the
// incident itself; those whose rig is asked itself each time are apart, of fewer.
func (m *rigModel) batches(in *Incident, rig plan.ID, q Request, out *Reconstruction) []batch {
	all := []batch{{in: in}}
	for i, c := range q.Changes {
		o, err := newModel(c.Plan, rig, q, c.Along)
		another := wayLength(c.Plan, rig) != wayLength(m.was, rig)
		if err == nil && !m.answersFor(o, another, c, q) {
			err = ErrNotComputed
		}
		if err == nil {
			var way []float64
			if another && len(m.later) > 0 {
				way = o.wayM()
			}
			all, err = m.join(all, o, i, way)
		}
		out.Changes = append(out.Changes, NamedChange{Change: c, Err: err})
	}
	return all
}

// join puts a change where there is room for it; way are the places of one that it goes
// alone.
func (m *rigModel) join(all []batch, o *rigModel, i int, way []float64) ([]batch, error) {
	slow := m.slow() || o.slow()
	for k := range all {
		b := &all[k]
		if b.in.Slow != slow {
			continue
		}
		with := m.with(b.in, o, way)
		if _, err := ready(with); err == nil {
			b.in, b.of = with, append(b.of, i)
			return all, nil
		}
	}
	own := *all[0].in
	own.Slow, own.More, own.Spare, own.Changes, own.ChangeWays = slow, nil, nil, nil, nil
	with := m.with(&own, o, way)
	if _, err := ready(with); err != nil {
		return all, err
	}
	return append(all, batch{with, []int{i}}), nil
}

// slow reports whether the rig is asked itself each time: there is no surface in its place.
func (m *rigModel) slow() bool { return m.surface == nil && len(m.dists) > 0 }

// with is an incident with a change more: what another rig makes of its figures, and the
// way that it goes alone.
func (m *rigModel) with(in *Incident, o *rigModel, way []float64) *Incident {
	both := *in
	both.Inputs, both.More, both.Spare = maps.Clone(in.Inputs), slices.Clone(in.More), slices.Clone(in.Spare)
	from := make([]int, 0, len(o.figures)) // where the figures of the other rig are read
	for i := range o.figures {
		id, dist := o.figures[i].id(), o.figures[i].Dist
		for d, ok := both.Inputs[id]; ok && d != dist; d, ok = both.Inputs[id] {
			id += otherwise
		}
		k := slices.Index(in.Reads, id)
		if k < 0 {
			if k = slices.Index(both.More, id); k < 0 {
				k = len(both.More)
				both.More, both.Inputs[id] = append(both.More, id), dist
			}
			k += len(in.Reads)
		}
		from = append(from, k)
	}
	scale, where := make([]float64, len(o.groups)), make([]int, len(o.groups))
	for i := range o.groups {
		g := &o.groups[i]
		sound, _ := o.strength(g)
		k := slices.IndexFunc(in.Parts, func(p Part) bool { return p.ID == g.id })
		if where[i], scale[i] = k, 1; k >= 0 {
			scale[i] = in.Parts[k].Sound.mean() / sound.mean()
			continue
		}
		part := Part{ID: g.id, Sound: sound, Yields: g.yields}
		if k = slices.IndexFunc(both.Spare, part.same); k < 0 {
			k = len(both.Spare)
			both.Spare = append(both.Spare, part)
		}
		where[i] = len(in.Parts) + k
	}
	both.Changes = append(slices.Clone(in.Changes), m.changing(in, o, from, where, scale))
	both.ChangeWays = append(slices.Clone(in.ChangeWays), way)
	return &both
}

// same reports whether two sound parts are one.
func (p *Part) same(q Part) bool { return p.ID == q.ID && p.Sound == q.Sound && p.Yields == q.Yields }

// answersFor reports whether the places of a rig tell what a change makes of the pull: of a
// way like the own, as far as that is followed; of another, both to their ends. No more
// strengths may be unknown. A moment
// says nothing of a way that is longer or shorter, unless it is known that it failed there.
func (m *rigModel) answersFor(o *rigModel, another bool, c Change, q Request) bool {
	unknown := func(p part.Part) bool {
		return !slices.ContainsFunc(m.without, func(q part.Part) bool { return q.ID == p.ID })
	}
	switch {
	case c.Short, slices.ContainsFunc(o.without, unknown): // what has no strength seems never to fail
		return false
	case !another:
		return len(o.later) >= len(m.later)
	case len(m.later) > 0:
		return len(o.later) > 0 && len(o.later) == len(c.Along)-1 && len(m.later) == len(q.Along)-1
	}
	v := solver.CasualtyOf(m.was, m.rig)
	if v == nil {
		return false
	}
	_, exact := RutM(m.laid().Incident, v.ID)
	return exact
}

// wayLength is how far the casualty is said to have to go.
func wayLength(p *plan.Plan, rig plan.ID) quantity.Length {
	if v := solver.CasualtyOf(p, rig); v != nil {
		return v.Stuck.WayLength
	}
	return 0
}

// changing is what another rig makes of the figures of an incident: from are the places
// of its figures among those that are read, where and scale its groups among the parts,
// and the strength they are against.
func (m *rigModel) changing(in *Incident, o *rigModel, from, where []int, scale []float64) func(x []float64, p *Pull) {
	inner := o.pull(&Incident{Reads: append(o.ids(), in.Reads[len(m.figures):]...)})
	type room struct {
		own  []float64
		pull Pull
	}
	rooms := sync.Pool{New: func() any { return &room{pull: Pull{Factors: make([]float64, len(o.groups))}} }}
	return func(x []float64, p *Pull) {
		r := rooms.Get().(*room)
		defer rooms.Put(r)
		r.own = r.own[:0]
		for _, k := range from {
			r.own = append(r.own, x[k])
		}
		r.own = append(r.own, x[len(m.figures):len(in.Reads)]...)
		r.pull.Place = p.Place
		inner(r.own, &r.pull)
		p.EndN, p.StallN = r.pull.EndN, r.pull.StallN
		fill(p.Factors, 0)
		for i, k := range where {
			p.Factors[k] = r.pull.Factors[i] * scale[i]
		}
	}
}

// ids are those of the figures that the rig reads.
func (m *rigModel) ids() (all []string) {
	for i := range m.figures {
		all = append(all, m.figures[i].id())
	}
	return all
}
