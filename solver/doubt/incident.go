package doubt

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
)

// ErrIncident is wrapped by the errors of incidents that cannot be sampled.
var ErrIncident = errors.New("doubt: the incident cannot be sampled")

// Incident is one pull in which the line tension rises until a part fails or the end is
// reached, with all that is not known of it.
type Incident struct {
	Parts  []Part
	Inputs map[string]Dist // figures of the rig that are in doubt, by id
	Reads  []string        // the inputs that Pull is given, in its order; others take no dimension
	// WayM are places along the way, m, rising: the pull is followed from one to the next.
	// None: the casualty is at one place.
	WayM []float64
	// Pull is what the figures make of the rig, at the place of p. It depends on them alone
	// and is asked by many at once; what it writes is all it may change.
	Pull   func(x []float64, p *Pull)
	Flying Dist    // share of the stored energy that a thrown part takes
	Jerk   Dist    // by which a jerk raises the line tension at the end, past what stalls the winch
	Jerked float64 // how likely a jerk is before any fact; 0: there is none
	Facts  []Fact
	Slow   bool // Pull takes long: a combination of states is given fewer trials
	// Changes are the same pull with one thing done otherwise each, in the same trials. They
	// are given Spare behind Parts, and the figures of More behind those of Reads: neither
	// touches what is drawn of the pull itself.
	Changes    []func(x []float64, p *Pull)
	ChangeWays [][]float64 // of each of Changes: places like WayM of a way of its own; nil, or none: WayM
	Spare      []Part      // sound; what scatters alike has one id
	More       []string
	// Context gives the sampling up; it is looked at every few trials. nil: nobody does.
	Context context.Context
}

// given reports whether the sampling is given up.
func (in *Incident) given() bool { return in.Context != nil && in.Context.Err() != nil }

// Part is what may fail. Whether it is below strength does not hang on the others.
type Part struct {
	ID         string
	Sound      Dist    // strength, N
	Below      Dist    // strength if it is below strength, N
	PriorBelow float64 // how likely that is before any fact is known; 0: it never is
	Weak       []Weak  // ways of being below strength, in place of Below; their priors add up to PriorBelow
	Yields     bool    // it gives way without letting the line go, as what slides does: it is never the first to fail
	Batch      string  // parts of one coil or bag share one place in their scatter; empty: of its own
}

// Weak is one way of being below strength, or of letting go unbroken.
type Weak struct {
	ID       string
	Prior    float64
	Strength Dist // N; the load at which it lets go
	Unbroken bool // it lets go without breaking
}

// Pull is a rig in numbers. Its loads go up with one line tension.
type Pull struct {
	Place   int       // index into WayM, or of a change into its own; 0 if there is none. It is set before anybody is asked
	EndN    float64   // line tension that is reached if nothing fails; +Inf, of a pull at one place: rises without end
	StallN  float64   // at which the winch stalls
	Factors []float64 // load of each part over the line tension
	JPerN2  float64   // energy stored in the lines over the square of the line tension
	Left    []float64 // share of its strength that an earlier pull left each part, which the factors have in them; 1 before anybody writes it
	Real    []float64 // load of each part over the one that the factors give, which are against one strength; 1 before anybody writes it
	BeforeN float64   // at which the winch stalled in an earlier pull; 0: at StallN
	Layer   float64   // on the drum; 0: not known
	worstN  []float64 // line tension at which each part fails
	heldN   float64   // of a pull that is followed: the least tension at which a part would have failed in an earlier one
	cameM   float64   // of a pull that is followed: where a part failed, or where it was over
	flying  float64
	first   int   // of the parts, the one that fails at the least tension
	ways    []int // of the parts that are below strength: which way
	below   uint64
	yields  uint64
}

// Trial is what came of one draw.
type Trial struct {
	First    int     // part that fails first; -1: none does
	Later    int     // part that would fail first if the tension rose without end
	TensionN float64 // line tension at failure, or at the end
	LoadN    float64 // on the part that fails first, then; NaN: none does
	CameM    float64 // where along the way that was; 0 of a pull at one place
	Calm     bool    // of a pull that is followed: the line was jerked, and no part failed there
	broken   bool    // a figure is none
	Below    uint64  // bit i: part i is below strength; bit jerk: the line was jerked
	Way      int     // 1 and on: the way in which the part that fails first is weak; 0: it is sound, or has but one
	agree    uint64  // bit i: fact i holds
	changed  uint64  // bit i: a part fails with change i
	amiss    uint64  // bit i: a figure of it is none
	weight   float64 // prior over proposal
}

// Fails reports whether a part fails.
func (t *Trial) Fails() bool { return t.First >= 0 }

// place is where a scattering figure comes from: its dimension and, of a strength, the
// two ways it scatters.
type place struct {
	dim  int // -1: it does not scatter
	dist Dist
}

// setup is an incident made ready: each scattering figure has a dimension by its id.
type setup struct {
	*Incident
	dims   int    // of the pull itself; the next one is for who refines it, those behind for changes
	row    int    // all of these
	all    []Part // those of the pull, and those to spare
	inputs []place
	flying place
	parts  []int // dimension of each part's strength, those to spare too
	ways   []int // dimension that chooses among a part's ways of being weak; -1: it has but one
	jerk   place
	jerkAt place // where along the way, as a share of it
	byID   []int // parts by id
	facts  []readyFact
	hard   uint64 // facts that are observed
	fewer  int    // by how many times fewer trials a combination is drawn with than one that is asked quickly
}

// ready checks an incident and gives every scattering figure its dimension.
func ready(in *Incident) (*setup, error) {
	s := &setup{Incident: in, flying: place{-1, in.Flying}, fewer: 1}
	if in.Slow {
		s.fewer = slowFewer
	}
	if len(in.Parts) == 0 || len(in.Parts) > 62 || len(in.Facts) > 64 || len(in.Changes) > mostChanges || in.Pull == nil {
		return nil, fmt.Errorf("%w: %d parts, %d facts, %d changes", ErrIncident, len(in.Parts), len(in.Facts), len(in.Changes))
	}
	dims := scattering{}
	if err := dims.read(in, in.Reads); err != nil {
		return nil, err
	}
	seen := map[string]bool{}
	for i := range in.Parts {
		p := &in.Parts[i]
		if seen[p.ID] || !(p.PriorBelow >= 0 && p.PriorBelow < 1) || !p.waysFit() {
			return nil, fmt.Errorf("%w: part %q", ErrIncident, p.ID)
		}
		seen[p.ID] = true
		dims.ask(strengthID(p), p.scatters())
		dims.ask("way "+p.ID, len(p.Weak) > 1)
	}
	dims.ask("jerk", in.Jerked > 0 && in.Jerk.Scatters())
	dims.ask("jerk place", in.Jerked > 0 && len(in.WayM) > 0)
	if err := s.readFacts(); err != nil {
		return nil, err
	}
	if slices.ContainsFunc(in.Facts, func(f Fact) bool { return f.Kind == FoundAt }) {
		dims.ask("flying", in.Flying.Scatters())
	}
	of := number(dims, nil, 0)
	s.dims = len(of)
	if err := dims.read(in, in.More); err != nil {
		return nil, err
	}
	for i := range in.Spare {
		dims.ask(strengthID(&in.Spare[i]), in.Spare[i].Sound.Scatters())
	}
	of = number(dims, of, s.dims+1)
	if s.row = len(of) + 1; s.row > MaxDims {
		return nil, fmt.Errorf("%w: %d figures scatter", ErrIncident, len(of))
	}
	s.places(func(id string) int {
		if d, ok := of[id]; ok {
			return d
		}
		return -1
	})
	return s, nil
}

// scattering are the ids of what scatters.
type scattering map[string]bool

func (d scattering) ask(id string, scatters bool) {
	if scatters {
		d[id] = true
	}
}

// read asks for inputs.
func (d scattering) read(in *Incident, ids []string) error {
	for _, id := range ids {
		dist, ok := in.Inputs[id]
		if !ok {
			return fmt.Errorf("%w: no input %q", ErrIncident, id)
		}
		d.ask(inputID(id), dist.Scatters())
	}
	return nil
}

// number gives the ids that have none yet a dimension, by id, from one on.
func number(ids scattering, have map[string]int, from int) map[string]int {
	all := maps.Clone(have)
	if all == nil {
		all = map[string]int{}
	}
	for _, id := range slices.Sorted(maps.Keys(ids)) {
		if _, ok := all[id]; !ok {
			all[id] = from
			from++
		}
	}
	return all
}

// places notes which dimension each figure is drawn from.
func (s *setup) places(dim func(id string) int) {
	in := s.Incident
	for _, id := range slices.Concat(in.Reads, in.More) {
		s.inputs = append(s.inputs, place{dim(inputID(id)), in.Inputs[id]})
	}
	s.all = slices.Concat(in.Parts, in.Spare)
	for i := range s.all {
		s.parts = append(s.parts, dim(strengthID(&s.all[i])))
	}
	for i := range in.Parts {
		s.ways = append(s.ways, dim("way "+in.Parts[i].ID))
		s.byID = append(s.byID, i)
	}
	slices.SortFunc(s.byID, func(a, b int) int { return cmp.Compare(in.Parts[a].ID, in.Parts[b].ID) })
	s.flying.dim = dim("flying")
	s.jerk, s.jerkAt = place{dim("jerk"), in.Jerk}, place{dim("jerk place"), unit}
}

// jerk is the bit of a combination of states that stands for a jerk.
const jerk = 62

// scatters reports whether a part's strength scatters in any of its states.
func (p *Part) scatters() bool {
	if len(p.Weak) > 0 {
		return p.Sound.Scatters() || slices.ContainsFunc(p.Weak, func(w Weak) bool { return w.Strength.Scatters() })
	}
	return p.Sound.Scatters() || p.PriorBelow > 0 && p.Below.Scatters()
}

// waysFit reports whether the ways of being weak add up to the prior of it.
func (p *Part) waysFit() bool {
	sum := 0.0
	for _, w := range p.Weak {
		if sum += w.Prior; !(w.Prior >= 0) {
			return false
		}
	}
	return len(p.Weak) == 0 || math.Abs(sum-p.PriorBelow) <= 1e-9
}

// way is which of a part's ways of being weak a share of their prior stands for.
func (p *Part) way(share float64) int {
	at := share * p.PriorBelow
	for i, w := range p.Weak {
		if at -= w.Prior; at < 0 {
			return i
		}
	}
	return len(p.Weak) - 1
}

// mostChanges is how many changes of an incident there may be.
const mostChanges = 64

// otherwise ends the id of an input that scatters otherwise with a change.
const otherwise = "~otherwise"

// inputID is what the dimension of an input goes by. One that scatters otherwise lies as
// far out in its scatter as the input does in its own.
func inputID(id string) string {
	id, _, _ = strings.Cut(id, otherwise)
	return "input " + id
}

func strengthID(p *Part) string {
	if p.Batch != "" {
		return "strength of batch " + p.Batch
	}
	return "strength " + p.ID
}

// trier draws trials for one goroutine.
type trier struct {
	*setup
	x        []float64
	strength []float64 // of all parts, N
	pull     Pull
	other    Pull      // with a change
	course   *course   // nil: the pull is not followed
	turns    []*course // the same with each change
	over     *Pull     // what facts are asked of
	sparing  bool      // changes are tried in trials alone that agree with what was observed
}

func (s *setup) trier() *trier {
	n, all := len(s.Parts), len(s.all)
	t := &trier{setup: s, x: make([]float64, len(s.inputs)), strength: make([]float64, all), pull: newPull(n), other: newPull(all)}
	t.pull.ways = make([]int, n)
	t.over = &t.pull
	if len(s.WayM) > 0 {
		t.course = newCourse(s.WayM, s.Parts, t.strength, t.pull.ways)
		same := newCourse(s.WayM, s.all, t.strength, t.pull.ways)
		for i := range s.Changes {
			turn := same
			if i < len(s.ChangeWays) && s.ChangeWays[i] != nil {
				turn = newCourse(s.ChangeWays[i], s.all, t.strength, t.pull.ways)
			}
			t.turns = append(t.turns, turn)
		}
		t.over = &t.course.pull
	}
	return t
}

// newPull is a pull of so many parts that nobody has written to.
func newPull(parts int) Pull {
	p := Pull{Factors: make([]float64, parts), Left: make([]float64, parts), Real: make([]float64, parts), worstN: make([]float64, parts)}
	fill(p.Left, 1)
	fill(p.Real, 1)
	return p
}

// try is the trial that a point gives with these parts below strength. of is the
// figure that a distribution has at the point's place.
func (t *trier) try(below uint64, z []float64, of func(d Dist, at float64) float64) Trial {
	figure := func(p place) float64 {
		if p.dim < 0 {
			return p.dist.OfNormal(0) // it does not scatter
		}
		return of(p.dist, z[p.dim])
	}
	for i, p := range t.inputs {
		t.x[i] = figure(p)
	}
	for i := range t.all {
		at := place{t.parts[i], t.state(i, below, figure)}
		if !at.dist.Scatters() {
			at.dim = -1
		}
		t.strength[i] = figure(at)
	}
	jerked := 1.0
	if below>>jerk&1 == 1 {
		jerked = figure(t.jerk)
	}
	out, share := Trial{Below: below, weight: 1}, 0.0
	if t.course == nil {
		t.ends(t.Pull, &t.pull, t.Parts, jerked)
	} else {
		if jerked > 1 {
			share = figure(t.jerkAt)
		}
		t.follows(jerked, share, &out)
	}
	p := t.over
	p.below, p.flying = below, figure(t.flying)
	out.First, out.Later, out.TensionN, out.LoadN = -1, p.first, p.EndN, math.NaN()
	out.broken = p.broken()
	if p.fails() {
		out.First, out.TensionN, out.LoadN = p.first, p.worstN[p.first], p.loadN()
		if len(t.Parts[p.first].Weak) > 0 && below>>p.first&1 == 1 {
			out.Way = p.ways[p.first] + 1
		}
	}
	for i := range t.facts {
		if t.facts[i].miss(p) <= 0 {
			out.agree |= 1 << i
		}
	}
	if !t.sparing || out.agree&t.hard == t.hard {
		t.tryChanges(jerked, share, &out)
	}
	return out
}

// ends is a pull at one place, at its end.
func (t *trier) ends(pull func([]float64, *Pull), p *Pull, parts []Part, jerked float64) {
	pull(t.x, p)
	p.EndN *= jerked
	copy(p.worstN, t.strength)
	p.weakest(parts)
}

// tryChanges is what comes of a trial with each change.
func (t *trier) tryChanges(jerked, share float64, out *Trial) {
	for i, change := range t.Changes {
		if t.course == nil {
			t.ends(change, &t.other, t.all, jerked)
			out.changes(i, &t.other)
			continue
		}
		turn := t.turns[i]
		turn.begin(func(p *Pull) { change(t.x, p) })
		turn.follow(jerked, share)
		out.changes(i, &turn.pull)
	}
}

// follows is the pull that is followed.
func (t *trier) follows(jerked, share float64, out *Trial) {
	c := t.course
	c.begin(func(p *Pull) { t.Pull(t.x, p) })
	_, out.CameM = c.follow(jerked, share)
	out.Calm = !c.jerkFailed
	c.pull.cameM = out.CameM
}

// changes notes what came of a pull with a change.
func (t *Trial) changes(i int, p *Pull) {
	if p.fails() {
		t.changed |= 1 << i
	}
	if p.broken() {
		t.amiss |= 1 << i
	}
}

// state is how a part's strength scatters in its state, and notes in which way it is
// weak.
func (t *trier) state(i int, below uint64, figure func(place) float64) Dist {
	part := &t.all[i]
	switch {
	case i >= len(t.Parts) || below>>i&1 == 0:
		return part.Sound
	case len(part.Weak) == 0:
		return part.Below
	}
	k := 0
	if t.ways[i] >= 0 {
		k = part.way(figure(place{t.ways[i], unit}))
	}
	t.pull.ways[i] = k
	return part.Weak[k].Strength
}

// unit is anything between nought and one alike.
var unit = Dist{uniform, 0, 0, 1}

// weakest turns the strengths into line tensions and finds the least.
func (p *Pull) weakest(parts []Part) {
	for i, f := range p.Factors {
		if f > 0 {
			p.worstN[i] /= f
		} else {
			p.worstN[i] = math.Inf(1)
		}
	}
	p.least(parts)
}

// least finds the part with the least line tension at which it fails.
func (p *Pull) least(parts []Part) {
	p.first, p.yields = -1, 0
	for i := range p.worstN {
		if parts[i].Yields {
			p.yields |= 1 << i
		} else if p.first < 0 || p.worstN[i] < p.worstN[p.first] {
			p.first = i
		}
	}
}

// loadN is the load on the part that fails first when it does: the factors have in them
// what an earlier pull took of its strength, which is no load.
func (p *Pull) loadN() float64 {
	return p.worstN[p.first] * p.Factors[p.first] * p.Left[p.first] * p.Real[p.first]
}

// broken reports whether a figure of the pull is none.
func (p *Pull) broken() bool {
	sum := p.StallN + p.flying + p.JPerN2
	for i, f := range p.Factors {
		if sum += f; math.IsNaN(p.worstN[i]) || f < 0 {
			return true
		}
	}
	return math.IsNaN(sum) || math.IsNaN(p.EndN)
}

// violation is by how much a trial misses the observed facts: the most that one of
// them is missed; 0 or less: by nothing.
func (t *trier) violation() float64 {
	g := math.Inf(-1)
	for i := range t.facts {
		if t.hard>>i&1 == 1 {
			g = max(g, t.facts[i].miss(t.over))
		}
	}
	return g
}
