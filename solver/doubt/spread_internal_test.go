package doubt

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/facts"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// scatterOf is how a member scatters that nobody gave a range.
func scatterOf(t *testing.T, p *plan.Plan, member string) Doubtful {
	t.Helper()
	q, x := dressed(p, "R1")
	all, _ := doubtfulFigures(q, "R1", x.efficiency)
	k := slices.IndexFunc(all, func(f settable) bool { return f.Member == member })
	require.GreaterOrEqual(t, k, 0, member)
	return all[k].Doubtful
}

// A mass of papers has its load on top, 1 to 1.15 to 1.35 times (ours), unless the load is
// known, 5 %, or all of it is a guess, 10 % (ours).
func TestMassOfPapersIsThatOfTheEmptyVehicle(t *testing.T) {
	p := example(t).was
	v := &p.Site.Vehicles[0]
	v.Mass = 2000
	kind, figures := scatterOf(t, p, "mass_kg").Dist.Words()
	assert.Equal(t, "triangular", kind)
	assert.InDeltaSlice(t, []float64{2000, 2300, 2700}, figures, 1e-9)
	v.Load = 150
	kind, figures = scatterOf(t, p, "mass_kg").Dist.Words()
	assert.Equal(t, "lognormal", kind)
	assert.InDeltaSlice(t, []float64{2000, 100}, figures, 1e-9)
	v.Presets = []string{"mass_kg"}
	assert.Equal(t, facts.DoubtMassGuessed, scatterOf(t, p, "mass_kg").fact)
	v.Doubts = []plan.Doubt{{Member: "mass_kg", Low: 1900, High: 2100, PlusMinus: true}}
	_, figures = scatterOf(t, p, "mass_kg").Dist.Words()
	assert.InDeltaSlice(t, []float64{2000, 50}, figures, 1e-9, "what the plan says overrules it")
	v.Doubts = []plan.Doubt{{Member: "mass_kg", Low: 1900, High: 2200, Likely: true}}
	kind, figures = scatterOf(t, p, "mass_kg").Dist.Words()
	assert.Equal(t, "triangular", kind)
	assert.InDeltaSlice(t, []float64{1900, 2000, 2200}, figures, 1e-9, "the plan's own figure is the likely one")
	v.Mass = 2300
	_, figures = scatterOf(t, p, "mass_kg").Dist.Words()
	assert.InDeltaSlice(t, []float64{1900, 2300, 2300}, figures, 1e-9, "widened to hold it")
}

// Level ground tilts along the way out, by 1.5° (ours): three degrees up ask for 2·m·g·sin 3°
// more than three down, with the running resistance, which goes by the cosine, alike.
func TestSlopeScattersAlongTheWay(t *testing.T) {
	p := example(t).was
	p.Site.Vehicles[0].Stuck.Depth, p.Site.Vehicles[0].Stuck.Rule = plan.DepthNone, "physics"
	kind, figures := scatterOf(t, p, "slope_deg").Dist.Words()
	assert.Equal(t, "normal", kind)
	assert.Equal(t, []float64{0, 1.5}, figures)
	m, err := newModel(p, "R1", Request{}, nil)
	require.NoError(t, err)
	a, err := m.asker(nil)
	require.NoError(t, err)
	k := slices.IndexFunc(a.own, func(f settable) bool { return f.Member == "slope_deg" })
	need := func(x float64) float64 {
		a.own[k].set(x)
		require.NoError(t, a.q.Ask(&a.f))
		return float64(a.f.Resistance.Planned)
	}
	mass := float64(p.Site.Vehicles[0].Mass)
	assert.InEpsilon(t, 2*mass*gravity*math.Sin(3*math.Pi/180), need(3)-need(-3), 1e-9)
	assert.Greater(t, need(3), need(0))
	p.Site.Ground.Slope = plan.Maybe[quantity.Degrees]{}
	q, x := dressed(p, "R1")
	all, _ := doubtfulFigures(q, "R1", x.efficiency)
	assert.False(t, slices.ContainsFunc(all, func(f settable) bool { return f.Member == "slope_deg" }), "what nobody knows has no scatter")
}

// An earlier heavy pull takes of textiles and of what holds by the ground, of nothing else;
// to what it stalled is drawn by itself.
func TestAnEarlierPullWears(t *testing.T) {
	m := example(t)
	kinds := map[string]string{}
	for i := range m.groups {
		kinds[m.groups[i].id] = m.wears(&m.groups[i])
	}
	for id, want := range map[string]string{"L1": inDamage, "S1": inDamage, "T1": inAnchor, "K1": "", "B1": "", "V1/front": ""} {
		got, ok := kinds[id]
		require.True(t, ok, id)
		assert.Equal(t, want, got, id)
	}
	m.plan.Rigs[0].Lines[0].Material = plan.MaterialWire
	for i := range m.groups {
		if g := &m.groups[i]; g.id == "L1" {
			assert.Empty(t, m.wears(g), "wire")
		}
	}
	rows := func(facts_ ...Fact) (rows []facts.ID) {
		m.before(facts_, func(_ string, a Assumption) { rows = append(rows, a.Fact) })
		return rows
	}
	assert.Empty(t, rows(Fact{Kind: Stalled}))
	assert.Equal(t, []facts.ID{facts.DoubtDamage, facts.DoubtDamageAnchor}, rows(Fact{Kind: HeldBefore, LowN: 1e3}))
	assert.Equal(t, []facts.ID{facts.DoubtDamage, facts.DoubtDamageAnchor, facts.DoubtStallPulls}, rows(Fact{Kind: HeldBefore}))
}

// What an earlier pull left is of each part its own: that of the tree loads the tree alone.
func TestWhatIsLeftIsOfEachPart(t *testing.T) {
	m := example(t)
	m.plan = plan.WithIncident(m.plan, 0, &plan.Incident{})
	in := m.incident(&Reconstruction{})
	in.Reads = append(in.Reads, inDamage, inAnchor, inBefore)
	pull, x := m.pull(in), make([]float64, 0, len(in.Reads))
	for _, id := range in.Reads[:len(in.Reads)-3] {
		x = append(x, in.Inputs[id].OfNormal(0))
	}
	of := func(left ...float64) Pull {
		p := Pull{Factors: make([]float64, len(m.groups)), Left: make([]float64, len(m.groups))}
		fill(p.Left, 1)
		pull(append(x, left...), &p)
		return p
	}
	before, after := of(1, 1, 1), of(0.8, 0.5, 1.1)
	for i := range m.groups {
		want := map[string]float64{inDamage: 0.8, inAnchor: 0.5, "": 1}[m.wears(&m.groups[i])]
		assert.InEpsilon(t, want, after.Left[i], 1e-12)
		assert.InDelta(t, before.Factors[i]/want, after.Factors[i], 1e-12*(1+after.Factors[i]))
	}
	assert.InEpsilon(t, 1.1*after.StallN, after.BeforeN, 1e-12)
}
