package doubt

import (
	"math"
	"slices"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// planSample is what trials of a plan share.
type planSample struct {
	rig       plan.ID
	typed     bool
	all       []settable // what is drawn, by id; the resistance is behind the figures and sets nothing
	not       []Doubtful
	assumed   []Assumption
	parts     []part.Part
	strengths []drawnStrength // of parts
	resists   bool            // the resistance is drawn
	ground    plan.Ground     // as stated
	stated    *plan.Plan
	dims      int
}

// newPlanSample makes a rig ready. typed: only what the plan says itself is drawn.
func newPlanSample(p *plan.Plan, rig plan.ID, typed bool) (*planSample, error) {
	s := &planSample{rig: rig, typed: typed}
	if !typed {
		d := plan.Edit(p, rig)
		if d.Laid != nil {
			state(&d, rig)
		}
		s.ground = d.Site.Ground
	}
	q, own, not, err := s.prepare(p)
	if err != nil {
		return nil, err
	}
	s.all, s.not = slices.Clone(own), not
	var f solver.Figures
	if err := q.Ask(&f); err != nil {
		return nil, err
	}
	if !typed {
		s.assume(&f)
	}
	if len(s.all) == 0 {
		return nil, ErrNoDoubt
	}
	s.meet(f.Parts)
	if err := s.ends(p); err != nil {
		return nil, err
	}
	s.stated, s.dims = q.Plan(), len(s.all)
	s.draw(0)
	if s.dims > MaxDims {
		return nil, ErrIncident
	}
	return s, nil
}

// prepare makes a plan ready to be asked with its own figures, settled.
func (s *planSample) prepare(p *plan.Plan) (q *solver.Prepared, own []settable, not []Doubtful, err error) {
	var x dressing
	if !s.typed {
		if d := plan.Edit(p, s.rig); d.Laid != nil {
			x = state(&d, s.rig)
			d.Site.Ground = s.ground
			p = d.Plan
		}
	}
	if q, err = solver.Prepare(p, s.rig); err != nil {
		return nil, nil, nil, err
	}
	if s.typed {
		own, not = figures(q.Plan(), s.rig)
	} else {
		own, not = doubtfulFigures(q.Plan(), s.rig, x.efficiency)
		own = append(own, stalls(q.Plan(), x.stall)...)
	}
	byID(own)
	for _, d := range own {
		d.settle()
	}
	return q, own, not, nil
}

// ends meets the parts that are loaded only at an end of a figure.
func (s *planSample) ends(p *plan.Plan) error {
	q, own, _, err := s.prepare(p)
	if err != nil {
		return err
	}
	var f solver.Figures
	for i := range own {
		for _, z := range [...]float64{-2, 2} {
			own[i].set(own[i].Dist.OfNormal(z))
			if q.Ask(&f) == nil {
				s.meet(f.Parts)
			}
		}
		own[i].set(own[i].Dist.OfNormal(0))
	}
	return nil
}

// meet adds the parts that are not among those of the sample.
func (s *planSample) meet(parts []part.Part) {
	for i := range parts {
		if s.at(parts[i].ID, i) < 0 {
			p := parts[i]
			p.Values = slices.Clone(p.Values)
			s.parts = append(s.parts, p)
		}
	}
}

// at is where a part is among those of the sample, looked for at a place first; -1: it is
// none of them.
func (s *planSample) at(id string, hint int) int {
	if hint < len(s.parts) && s.parts[hint].ID == id {
		return hint
	}
	return slices.IndexFunc(s.parts, func(p part.Part) bool { return p.ID == id })
}

// assume puts down what is drawn beside what is typed. Loads go up with the resistance
// where one line is hauled: with more it is taken as check takes it.
func (s *planSample) assume(f *solver.Figures) {
	for i := range s.all {
		if d := &s.all[i]; d.fact != "" {
			s.assumed = append(s.assumed, Assumption{Thing: d.Thing, Member: d.Member, Dist: d.Dist, Fact: d.fact})
		}
	}
	r := &f.Resistance
	lines, _ := hauled(f)
	if s.resists = lines == 1 && r.Breakaway.Known && r.Breakaway.Low < r.Breakaway.High && r.Planned > 0; s.resists {
		s.all = append(s.all, settable{Doubtful: Doubtful{What: "resistance", Dist: unit}})
		s.assumed = append(s.assumed, Assumption{What: "resistance", Dist: unit})
	}
}

// drawnStrength is how the strength of a part is drawn.
type drawnStrength struct {
	dim  int
	over Dist // of it over the likely one; the zero Dist: anything from low to high, the likely one likeliest
}

// of is the strength of a part in a trial, N; NaN: not known.
func (d *drawnStrength) of(p *part.Part, u []float64) float64 {
	r := p.Ultimate
	x := 0.0
	switch {
	case !r.Known:
	case d.over != Dist{}:
		x = d.over.At(u[d.dim]) * float64(r.Likely)
	default:
		if t, err := triangleOf(r); err == nil {
			x = t.At(u[d.dim])
		}
	}
	if !(x > 0) {
		return math.NaN()
	}
	return x
}

// draw gives the strength of each part from one on its dimension, by its id: what is one
// piece, such as the stretches of a line, has one.
func (s *planSample) draw(from int) {
	m := &rigModel{plan: s.stated, rig: s.rig}
	if !s.typed {
		m.gather(s.parts)
	}
	s.strengths = append(slices.Clone(s.strengths), make([]drawnStrength, len(s.parts)-from)...)
	ids, known := make([]string, len(s.parts)), map[string]int{}
	for i := range s.parts {
		ids[i] = s.parts[i].ID
		for k := range m.groups {
			g := &m.groups[k]
			if !g.members[ids[i]] {
				continue
			}
			sound, row := m.strength(g)
			ids[i], s.strengths[i].over = g.id, sound.times(1/float64(g.likely()))
			if g.part.ID == s.parts[i].ID && i >= from {
				s.assumed = append(s.assumed, Assumption{What: "strength", Part: g.id, Dist: sound, Fact: row})
			}
		}
	}
	for i := range from {
		known[ids[i]] = s.strengths[i].dim
	}
	for _, id := range slices.Sorted(slices.Values(ids[from:])) {
		if _, ok := known[id]; !ok {
			known[id], s.dims = s.dims, s.dims+1
		}
	}
	for i := from; i < len(ids); i++ {
		s.strengths[i].dim = known[ids[i]]
	}
}

// drawnMoment is a moment of a plan that is asked by one goroutine.
type drawnMoment struct {
	q     *solver.Prepared
	own   []settable
	shift []float64 // of each figure: by how much it is another there than as drawn
	f     solver.Figures
}

// moment prepares a plan with the figures of the sample; without any it is refused.
func (s *planSample) moment(p *plan.Plan) *drawnMoment {
	m := &drawnMoment{}
	q, own, _, err := s.prepare(p)
	figures := len(s.all)
	if s.resists {
		figures--
	}
	if err != nil || len(own) != figures {
		return m
	}
	for i := range own {
		if own[i].id() != s.all[i].id() {
			return m
		}
		m.shift = append(m.shift, own[i].at-s.all[i].at)
	}
	m.q, m.own = q, own
	return m
}

// ask is what the rig answers for drawn figures; nil: it is refused.
func (m *drawnMoment) ask(x []float64) *solver.Figures {
	if m.q == nil {
		return nil
	}
	for i := range m.own {
		m.own[i].set(x[i] + m.shift[i])
	}
	if m.q.Ask(&m.f) != nil {
		return nil
	}
	return &m.f
}

// scale is what the drawn resistance makes of loads; false: it is not known.
func (s *planSample) scale(f *solver.Figures, u []float64) (scale float64, known bool) {
	if !s.resists {
		return 1, true
	}
	b := f.Resistance.Breakaway
	d, err := triangleOf(b)
	if !b.Known || err != nil || !(f.Resistance.Planned > 0) {
		return 0, false
	}
	return d.At(u[len(s.all)-1]) / float64(f.Resistance.Planned), true
}

// load is what a part takes to move the casualty or break it loose, N; NaN: not known.
func (s *planSample) load(p *part.Part, scale float64, known bool) float64 {
	l := p.Planned()
	if s.resists {
		l = p.Move
	}
	switch {
	case p.Status == part.Slack:
		return 0
	case !l.Known || !known:
		return math.NaN()
	}
	return float64(l.Force) * scale
}
