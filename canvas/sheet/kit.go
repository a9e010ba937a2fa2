package sheet

import (
	"math"
	"slices"
	"strings"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/travel"
)

// piece is one thing of the kit: what it is, and how its rating is changed.
type piece struct {
	id     plan.ID
	kind   string // word id of it
	what   string
	size   string
	rating plan.Rating
	with   func(r *plan.Rig, x plan.Rating) // sets its rating in a rig of its own
}

// pieceConnector is the piece that hooks a line on: no thing of its own.
const pieceConnector = "connector"

// has reports whether a part of the rig is the piece, or one of its parts.
func (x *piece) has(p *part.Part) bool {
	return p.Thing == x.id && p.Kind != part.KindWinch && (p.Kind == part.KindEnd) == (x.kind == pieceConnector)
}

// pieces are all things of the rig, in the order of the plan.
func (m *maker) pieces() []piece {
	w, r := m.w, m.r
	var all []piece
	say := func(words ...string) string {
		return strings.Join(slices.DeleteFunc(words, func(s string) bool { return s == "" }), ", ")
	}
	length := func(x quantity.Length) string {
		if x <= 0 {
			return ""
		}
		return w.Dimension(x)
	}
	thick := func(x quantity.Length) string {
		if x <= 0 {
			return ""
		}
		return "⌀ " + w.Thickness(x)
	}
	for i := range r.Lines {
		l := &r.Lines[i]
		all = append(all, piece{l.ID, "line", say(m.label("kit-line"), m.choice("material", l.Material)), say(thick(l.Diameter), length(l.Length)), l.Rating,
			func(r *plan.Rig, x plan.Rating) { r.Lines = slices.Clone(r.Lines); r.Lines[i].Rating = x }})
		if start, end := r.Connected(l); start || end {
			each := ""
			if start && end {
				each = m.label("kit-each-end")
			}
			all = append(all, piece{l.ID, pieceConnector, say(m.label("kit-connector"), m.choice("connector", l.Connector.Kind)), each, l.Connector.Rating,
				func(r *plan.Rig, x plan.Rating) { r.Lines = slices.Clone(r.Lines); r.Lines[i].Connector.Rating = x }})
		}
	}
	for i := range r.Blocks {
		b := &r.Blocks[i]
		takes := ""
		if b.LineMax > 0 {
			takes = m.label("kit-takes", part.Text("from", w.Thickness(b.LineMin)), part.Text("to", w.Thickness(b.LineMax)))
		}
		all = append(all, piece{b.ID, "block", say(m.label("kit-block"), m.choice("block", b.Kind)), say(thick(b.Sheave), takes), b.Rating,
			func(r *plan.Rig, x plan.Rating) { r.Blocks = slices.Clone(r.Blocks); r.Blocks[i].Rating = x }})
	}
	for i := range r.Slings {
		s := &r.Slings[i]
		all = append(all, piece{s.ID, "sling", say(m.label("kit-sling"), m.choice("material", s.Material), m.choice("hitch", s.Hitch)), say(length(s.Length), wide(m, s.Width)), s.Rating,
			func(r *plan.Rig, x plan.Rating) { r.Slings = slices.Clone(r.Slings); r.Slings[i].Rating = x }})
	}
	for i := range r.Shackles {
		s := &r.Shackles[i]
		all = append(all, piece{s.ID, "shackle", say(m.label("kit-shackle"), m.choice("shackle", s.Kind)), thick(s.Body), s.Rating,
			func(r *plan.Rig, x plan.Rating) { r.Shackles = slices.Clone(r.Shackles); r.Shackles[i].Rating = x }})
	}
	for i := range r.Dampers {
		d := &r.Dampers[i]
		mass := ""
		if d.Mass > 0 {
			mass = w.Mass(d.Mass)
		}
		all = append(all, piece{d.ID, "damper", m.label("kit-damper"), mass, plan.Rating{}, nil})
	}
	return all
}

// choice is what a word of the plan is called, without the remark behind it; a
// word of its own stands as it is.
func (m *maker) choice(of, word string) string {
	id := "choice-" + of + "-" + word
	if word == "" || !m.w.HasLabel(id) {
		return word
	}
	name, _, _ := strings.Cut(m.w.Label(id), ": ")
	return name
}

func wide(m *maker, x quantity.Length) string {
	if x <= 0 {
		return ""
	}
	return m.label("kit-wide", part.Text("width", m.w.Thickness(x)))
}

// Bounds of the search for the least rating. (ours: above any gear there is)
const (
	mostRatingN = 2e6
	ratingStepN = 1e3 // whole kilonewtons, rounded up
)

// about are the findings of WARNING and more that concern a piece, by key, and
// that the winch stalls over half of what it gives way at: a new piece is to be
// good for that. That a rating is beyond its size is left out: a stronger piece
// is a thicker one.
func about(a *solver.Assessment, x *piece) []string {
	var all []string
	for i := range a.Findings {
		f := &a.Findings[i]
		if f.Level < part.Warning && f.ID != "stall-near" || f.ID == "rating-beyond-size" {
			continue
		}
		hit, others := slices.Contains(f.Things, x.id), 0
		for _, p := range f.Parts {
			q, ok := a.Part(p)
			hit = hit || p == string(x.id) || ok && x.has(q)
			if ok && q.Thing == x.id && !x.has(q) {
				others++
			}
		}
		if hit && (others == 0 || others < len(f.Parts)) { // a line's connector is not the line
			all = append(all, f.Key())
		}
	}
	return all
}

// moments are the plan at the places of the pull that a piece's rating goes by: as
// drawn, where its parts carry most and where findings name it. What a part carries
// does not hang on its rating, so that it is there that it must suffice.
func (m *maker) moments(x *piece) []*plan.Plan {
	at := []float64{0}
	for i := range m.a.Parts {
		if p := &m.a.Parts[i]; p.Thing == x.id {
			at = append(at, p.AtM)
		}
	}
	for i := range m.a.Findings {
		if f := &m.a.Findings[i]; slices.Contains(f.Things, x.id) {
			at = append(at, f.Travel)
		}
	}
	slices.Sort(at)
	var all []*plan.Plan
	for _, s := range slices.Compact(at) {
		all = append(all, travel.At(m.p, m.rig, s))
	}
	return all
}

// least is the smallest rating, on the basis the piece has or else working, at
// which over the whole pull no more findings of WARNING or DANGER concern it than
// with one that never breaks, and its used share is under 100 %. False if the rig was
// not computed: then nobody can say.
func (m *maker) least(x piece) (plan.Rating, bool) {
	if x.with == nil || !m.computed() {
		return plan.Rating{}, false
	}
	basis := x.rating.Basis
	if basis == plan.BasisUnsaid {
		basis = plan.BasisWorking
	}
	moments := m.moments(&x)
	try := func(p *plan.Plan, n float64) *solver.Assessment {
		i := p.RigIndex(m.rig)
		r := p.Rigs[i]
		x.with(&r, plan.Rating{Force: quantity.Force(n), Basis: basis})
		return solver.Assess(plan.WithRig(p, i, r), m.rig)
	}
	var never []string
	for _, p := range moments {
		never = append(never, about(try(p, mostRatingN), &x)...)
	}
	good := func(n float64) bool {
		return !slices.ContainsFunc(moments, func(p *plan.Plan) bool { return falls(try(p, n), &x, never) })
	}
	lo, hi := 0, int(mostRatingN/ratingStepN)
	if !good(float64(hi) * ratingStepN) {
		return plan.Rating{}, false
	}
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; good(float64(mid) * ratingStepN) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return plan.Rating{Force: quantity.Force(float64(hi) * ratingStepN), Basis: basis}, true
}

// falls reports whether a piece is over its limit, has none, or has findings about it
// that one that never breaks has not.
func falls(a *solver.Assessment, x *piece, never []string) bool {
	return slices.ContainsFunc(a.Parts, func(p part.Part) bool { return x.has(&p) && (p.Status == part.Over || p.Status == part.NoLimit) }) ||
		slices.ContainsFunc(about(a, x), func(k string) bool { return !slices.Contains(never, k) })
}

func (m *maker) ratingText(r plan.Rating, known bool, as quantity.As) string {
	if !known {
		return noFigure
	}
	s := m.w.Written(quantity.FormatForce(r.Force, m.w.System(), as)).String()
	if r.Basis == plan.BasisUnsaid {
		return s + " " + m.label("rating-unsaid")
	}
	return s + " " + m.label("rating-"+string(r.Basis))
}

// kit lists every piece with the least rating it needs, and what goes along.
func (m *maker) kit() error {
	f, err := m.flow(Kit, m.kindName(Kit))
	if err != nil {
		return err
	}
	if err := f.para(m.label("kit-how"), 0); err != nil {
		return err
	}
	f.gap(2)
	t := &table{cols: []column{{head: m.label("column-tick")}, {head: m.label("column-piece"), flex: 1}, {head: m.label("column-what"), flex: 1}, {head: m.label("column-size"), flex: 1},
		{head: m.label("column-tag"), right: true}, {head: m.label("column-least"), right: true}}}
	spare := map[string]plan.Rating{} // the strongest needed, by kind
	for _, x := range m.pieces() {
		tag := m.ratingText(x.rating, x.rating.Known(), quantity.AsLimit)
		if x.with != nil && !x.rating.Known() {
			tag = m.w.Label("no-rating")
		}
		need, ok := m.least(x)
		if s := spare[x.kind]; ok && need.Force > s.Force {
			spare[x.kind] = need
		}
		r := row{cells: []string{"☐", m.thing(x.id), x.what, x.size, tag, m.ratingText(need, ok, quantity.AsLoad)}}
		if x.with != nil && ok && (!x.rating.Known() || x.rating.Force < need.Force) {
			r.dress, r.state = true, part.Over
		}
		t.rows = append(t.rows, r)
	}
	if len(t.rows) == 0 {
		if err := f.para(m.w.Label("verdict-nothing"), 0); err != nil {
			return err
		}
	} else if err := f.table(t); err != nil {
		return err
	}
	if err := f.title(m.label("kit-line-total")); err != nil {
		return err
	}
	total := 0.0
	for _, l := range m.a.Lines {
		total += float64(l.Out)
	}
	lines := append(m.lineLines(), m.label("kit-total", part.Length("length", math.Max(total, 0))))
	if err := f.items("–", lines); err != nil {
		return err
	}
	if err := f.title(m.label("kit-along")); err != nil {
		return err
	}
	along, err := m.list("kit")
	if err != nil {
		return err
	}
	return f.ticked(append(m.counted(spare), along...))
}

// What goes along by number. (ours, common practice: chocks before and behind a
// wheel; operator and spotter always have gloves)
const (
	chocksEach  = 2
	leastGloves = 2
)

// counted are the things that go along by number: spares, gloves, dampers,
// chocks.
func (m *maker) counted(spare map[string]plan.Rating) []listLine {
	var all []listLine
	add := func(id string, values ...part.Value) { all = append(all, listLine{Text: m.label(id, values...)}) }
	for _, kind := range [...]string{"sling", "shackle"} {
		if need, ok := spare[kind]; ok {
			add("kit-spare-"+kind, part.Text("rating", m.ratingText(need, true, quantity.AsLoad)))
		}
	}
	hands := 0
	for i := range m.p.Site.People {
		if m.p.Site.People[i].Role != plan.RoleBystander {
			hands++
		}
	}
	add("kit-gloves", part.Count("n", max(hands, leastGloves)))
	var paidOut []string
	for i := range m.r.Lines {
		if l := &m.r.Lines[i]; l.Use == plan.UseHoldBack && l.PaidOut == plan.PaidOutFriction {
			paidOut = append(paidOut, m.thing(l.ID))
		}
	}
	if n := len(paidOut); n > 0 {
		add("kit-friction", part.Count("n", n), part.Text("lines", m.w.List(paidOut)))
	}
	if n := len(m.a.Stretches); n > 0 {
		add("kit-dampers", part.Count("n", n+1), part.Count("stretches", n), part.Count("has", len(m.r.Dampers)))
	}
	if n := len(m.p.Site.Vehicles); n > 0 {
		add("kit-chocks", part.Count("n", chocksEach*n), part.Count("vehicles", n))
	}
	return all
}
