package exercise

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// The figures of usual mistakes, by their closed forms: of a block twice the pull, the
// pull, and twice the pull times the sine of half the angle; of a tip the whole pull, and
// its part along the vehicle; of a fairlead the pull, and the sine of the whole angle; of
// a line the resistance, and half of it.
func TestUsualMistakes(t *testing.T) {
	m := modelOf(t, openPlan(t, "redirect"), "R1")
	b, ok := m.a.Part("B1")
	require.True(t, ok)
	winch := float64(m.a.Move.Tension)
	says := func(p *part.Part, id string, n float64) {
		t.Helper()
		assert.Contains(t, m.wrongLoads(p), m.label(id, part.Text("figure", m.w.Load(quantity.Force(n)))))
	}
	says(b, "wrong-twice", 2*winch)
	says(b, "wrong-once", winch)
	says(b, "wrong-sine", 2*winch*math.Sin(float64(b.Angle)/2*math.Pi/180))

	x, err := m.Work([]Question{{Kind: AskAngle, Part: "B1"}}, nil, 100)
	require.NoError(t, err)
	assert.Equal(t, []string{m.label("wrong-supplement", part.Text("figure", m.w.Angle(180-b.Angle)))}, x.Asked[0].Wrong)

	line, ok := m.a.Part("L1/2")
	require.True(t, ok)
	says(line, "wrong-half", float64(m.a.Resistance.Planned)/2)

	far := float64(line.Move.Force) // ends on the casualty
	tip := &part.Part{Kind: part.KindTip, Thing: m.a.Casualty, Move: part.Load{Known: true, Force: quantity.Force(0.6 * far)}}
	says(tip, "wrong-whole", far)
	says(tip, "wrong-cosine", 0.8*far)
	lead := &part.Part{Kind: part.KindFairlead, Thing: m.a.Casualty, Angle: 20, Move: part.Load{Known: true, Force: quantity.Force(0.1 * far)}}
	says(lead, "wrong-fairlead-pull", far)
	says(lead, "wrong-fairlead-whole", 2*far*math.Sin(20*math.Pi/180))
}

// The way on paper to the load of a block ends with the law of cosines over its two
// stretches, after what the block keeps and the pull of the winch.
func TestWayOnPaperToABlock(t *testing.T) {
	m := modelOf(t, openPlan(t, "redirect"), "R1")
	b, _ := m.a.Part("B1")
	near, _ := m.a.Part("L1/1")
	far, _ := m.a.Part("L1/2")
	way := m.method(b)
	require.Len(t, way, 3)
	kept := part.Value{X: math.Round(1e3*float64(far.Move.Force/near.Move.Force)) / 1e3}
	assert.Equal(t, m.label("way-block", part.Text("part", m.w.PartName(b, m.names)), part.Text("angle", m.w.Angle(b.Angle)), part.Text("keeps", m.w.Value(kept, nil))), way[0])
	assert.Contains(t, way[1], m.w.Load(near.Move.Force))
	assert.Equal(t, m.label("way-cosines", part.Text("one", m.figure(near.Move.Force)), part.Text("two", m.figure(far.Move.Force)),
		part.Text("angle", m.w.Angle(b.Angle)), part.Text("load", m.w.Load(b.Move.Force))), way[2])
	assert.Len(t, m.method(far), 3)
}

// What slides a vehicle, tips it or lies in its fairlead is worked out on paper to the
// solver's figure on level ground, wherever that is asked for.
func TestWayOnPaperToADirection(t *testing.T) {
	seen := map[part.Kind]int{}
	for _, name := range []string{"redirect", "doubled", "straight"} {
		p := openPlan(t, name)
		p.Site.Ground.Slope = plan.Known(quantity.Degrees(0))
		for i := range p.Site.Vehicles { // none stands in line with what pulls on it
			p.Site.Vehicles[i].Bearing = (p.Site.Vehicles[i].Bearing + 17).Normal()
		}
		m := modelOf(t, p, p.Rigs[0].ID)
		for k := range m.a.Parts {
			q := &m.a.Parts[k]
			if why := m.level(); q.Kind != part.KindSlide && q.Kind != part.KindTip && q.Kind != part.KindFairlead || !q.Move.Known || why != "" {
				continue
			}
			if len(m.endings(q.Thing)) > 1 && q.Kind != part.KindTip {
				continue // which of the ends it is does not show
			}
			line, ok := m.onPaper(q)
			assert.True(t, ok, "%s %s: %s", name, q.ID, line)
			assert.Contains(t, line, m.w.Load(q.Move.Force))
			seen[q.Kind]++
		}
	}
	assert.Len(t, seen, 3)
}

// What varies stays within what was said, either way, and a stem keeps its taper.
func TestWhatVariesStaysWithin(t *testing.T) {
	p := openPlan(t, "redirect")
	tree := -1
	for i := range p.Site.Anchors {
		if a := &p.Site.Anchors[i]; a.Kind == plan.AnchorTree && hangsOn(&p.Rigs[0])[a.ID] {
			a.Trunk, a.Girth, tree = 0.4, 0.3, i
		}
	}
	require.GreaterOrEqual(t, tree, 0)
	was := p.Site.Anchors[tree]
	random := rand.New(rand.NewPCG(3, 4))
	least, most := math.Inf(1), math.Inf(-1)
	for range 60 {
		q := Varied(p, "R1", Vary{PlaceM: 1.5, Trunks: 0.1, TurnDeg: 5}, random)
		a := q.Site.Anchors[tree]
		dx := a.At.X - was.At.X
		least, most = min(least, dx), max(most, dx)
		assert.LessOrEqual(t, math.Abs(a.At.Y-was.At.Y), 1.5+placeStepM)
		assert.InDelta(t, 0.4, float64(a.Trunk), 0.1*0.4+0.005+1e-9, "a tenth, drawn to the centimetre")
		assert.InDelta(t, float64(a.Trunk)*0.75, float64(a.Girth), 0.005+1e-9, "three quarters of the trunk as before")
		for i := range q.Site.Vehicles {
			if v := &q.Site.Vehicles[i]; v.Stuck != nil {
				assert.LessOrEqual(t, math.Abs(math.Remainder(float64(v.Bearing-p.Site.Vehicles[i].Bearing), 360)), 5+turnStepDeg)
			}
		}
	}
	assert.GreaterOrEqual(t, least, -1.5-placeStepM)
	assert.LessOrEqual(t, most, 1.5+placeStepM)
	assert.Less(t, least, -0.75)
	assert.Greater(t, most, 0.75)

	p.Site.Anchors[tree].Trunk = 0 // known by what its strap goes round alone
	for range 20 {
		assert.InDelta(t, 0.3, float64(Varied(p, "R1", Vary{Trunks: 0.1}, random).Site.Anchors[tree].Girth), 0.1*0.3+0.005+1e-9)
	}
}

// What counts as right reaches from the answer less its ± to the answer and its ±, and
// not below nothing.
func TestWhatCountsAsRight(t *testing.T) {
	w, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	for _, c := range []struct {
		a        Asked
		from, to string
	}{
		{Asked{Unit: "°", X: 80, Tol: 3}, w.Angle(77), w.Angle(83)},
		{Asked{Unit: "°", X: 1, Tol: 3}, w.Angle(0), w.Angle(4)},
		{Asked{Unit: "m", X: 6, Tol: 0.5}, w.Length(5.5), w.Length(6.5)},
		{Asked{Unit: "kN", X: 20_000, Tol: 1_500}, "18.5 kN", "21.5 kN"},
	} {
		c.a.Answer = "so much"
		assert.Equal(t, quantity.PlainSpaces(w.Label("sheet-answer-range", part.Text("answer", "so much"), part.Text("from", c.from), part.Text("to", c.to))),
			quantity.PlainSpaces(c.a.Right(w)))
	}
}

// The mass that is given is that of the vehicle with its load.
func TestMassThatIsGivenHasTheLoad(t *testing.T) {
	p := openPlan(t, "redirect")
	for i := range p.Site.Vehicles {
		if v := &p.Site.Vehicles[i]; v.Stuck != nil {
			v.Mass, v.Load = 2000, 300
		}
	}
	m := modelOf(t, p, "R1")
	x, err := m.Work([]Question{{Kind: AskLoad, Part: "B1"}}, nil, 100)
	require.NoError(t, err)
	assert.Contains(t, x.Known, m.label("known-mass", part.Text("thing", m.thing(m.a.Casualty)), part.Text("mass", m.w.Mass(2300))))
}

// What gives first has the highest share of what it gives at; what comes within a
// twentieth of it counts too, and what is plainly less is no mistake that counts.
func TestWhatGivesFirst(t *testing.T) {
	m := modelOf(t, openPlan(t, "doubled"), "R1")
	x, err := m.Work([]Question{{Kind: AskFirst}}, nil, 100)
	require.NoError(t, err)
	a := x.Asked[0]
	top := 0.0
	for _, q := range m.compared(true) {
		if q.Kind != part.KindWinch {
			top = max(top, float64(q.Move.Force/q.Ultimate.Low))
		}
	}
	assert.InDelta(t, top, a.X, 1e-12)
	for _, q := range m.compared(true) {
		name, share := m.w.PartName(q, m.names), float64(q.Move.Force/q.Ultimate.Low)
		if q.Kind == part.KindWinch || q.ID == a.Part {
			continue
		}
		if share >= 0.95*top {
			assert.Contains(t, a.Also, name)
		} else {
			assert.NotContains(t, a.Also, name)
		}
	}
	assert.LessOrEqual(t, len(a.Sums), 3)
}
