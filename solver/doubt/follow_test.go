package doubt_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/doubt"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// twoPlaces is a pull of 4 m that is looked at where it begins and where it ends. The load
// of the sling goes up along it from 10 to 20 kN, that of the line is 12 kN all along. Their
// strengths are anywhere alike: the sling's from 5 to 25 kN, the line's from 10 to 20 kN.
func twoPlaces(t *testing.T, facts ...doubt.Fact) *doubt.Incident {
	t.Helper()
	alike := func(low, high float64) doubt.Dist {
		d, err := doubt.Uniform(low, high)
		require.NoError(t, err)
		return d
	}
	return &doubt.Incident{
		Parts: []doubt.Part{{ID: "line", Sound: alike(10e3, 20e3)}, {ID: "sling", Sound: alike(5e3, 25e3)}},
		WayM:  []float64{0, 4},
		Pull: func(_ []float64, p *doubt.Pull) {
			p.EndN, p.StallN = 10e3, 50e3
			p.Factors[0], p.Factors[1] = 1.2, 1+float64(p.Place)
		},
		Facts: facts,
	}
}

// drawn is a sample of an incident.
func drawn(t *testing.T, in *doubt.Incident) *doubt.Sample {
	t.Helper()
	s, err := doubt.Take(in, 4096, 3, 2)
	require.NoError(t, err)
	return s
}

// The closed form of [twoPlaces], with a and b the strengths. The line fails at the start or
// never: P(a <= 12) = 0.2. The tension rises from nothing there, so that of two that would
// fail the one first that is nearer to its load: the sling if b/10 < a/12. Farther on the
// sling alone fails, where 10 + 2.5 s = b.
//
//	P(sling, s = 0) = ∫ over a of P(b <= 10 min(1, a/12)) = 0.8·0.25 + 0.2·(10·(11/12) - 5)/20
//	P(line)         = 0.2·(1 - (10·11/12 - 5)/20)
//	P(sling, s > 0) = 0.8·P(10 < b <= 20) = 0.8·0.5, s anywhere from 0 to 4 m alike
//
// A rut of 1 to 2 m, observed, leaves P = 0.8·2.5/20 = 0.1, all of it the sling's; told with
// a trust of 0.8 it weighs 0.8 there and 0.2 elsewhere.
func TestWhereAFollowedPullFailsIsTheClosedForm(t *testing.T) {
	near := func(want float64, got doubt.Estimate, what string) {
		t.Helper()
		assert.InDelta(t, want, got.Value, 4*got.Error+2e-4, what)
	}
	early := (10*11.0/12 - 5) / 20
	start, line, later := 0.8*0.25+0.2*early, 0.2*(1-early), 0.8*0.5
	s := drawn(t, twoPlaces(t))
	near(line, s.Mean(s.First("line")), "line")
	near(start+later, s.Mean(s.First("sling")), "sling")
	near(start, s.Mean(doubt.Both(s.First("sling"), func(c *doubt.Trial) float64 { return b2f(c.CameM == 0) })), "sling, at once")
	near(0.8*0.5/4, s.Mean(doubt.Both(s.First("sling"), func(c *doubt.Trial) float64 { return b2f(c.CameM > 1 && c.CameM <= 2) })), "sling, on the second metre")
	near(12.5e3, s.Given(func(c *doubt.Trial) float64 { return c.LoadN }, doubt.Both(s.First("sling"), func(c *doubt.Trial) float64 { return b2f(c.CameM > 0 && c.CameM <= 2) })), "half way in, 10 to 15 kN alike")
	near(4, s.Given(func(c *doubt.Trial) float64 { return c.CameM }, s.Is(doubt.Candidate{})), "what holds all along comes to the end")

	rut := doubt.Fact{Kind: doubt.CameTo, LowM: 1, HighM: 2, Trust: doubt.Observed}
	a := drawn(t, twoPlaces(t, rut)).Answer()
	near(0.1, a.Outright, "the rut")
	assert.Equal(t, "sling", a.Candidates[0].Part)
	assert.InDelta(t, 1, a.Candidates[0].Posterior.Value, 1e-12)

	rut.Trust = doubt.Told
	s = drawn(t, twoPlaces(t, rut))
	all := 0.1*0.8 + 0.9*0.2
	for _, c := range s.Answer().Candidates {
		switch c.Part {
		case "line":
			near(line*0.2/all, c.Posterior, "line, told of the rut")
		case "sling":
			near((0.1*0.8+(start+later-0.1)*0.2)/all, c.Posterior, "sling, told of the rut")
		default:
			near((1-line-start-later)*0.2/all, c.Posterior, "none, told of the rut")
		}
	}
}

// A jerk of twice the tension comes anywhere along [twoPlaces] alike. Of a line of 12 kN
// that holds 15 to 20 kN, and a sling of 50 kN, the line fails under it wherever it comes:
// at 2 m in the middle. Of a line of 50 kN and a sling of 30 kN, which is loaded with
// 20 + 5 s under the jerk, the sling does if that comes beyond 2 m: half of all, at 3 m in
// the middle.
func TestAJerkComesAnywhereAlongTheWay(t *testing.T) {
	in := twoPlaces(t)
	in.Jerked, in.Jerk = 1-1e-9, doubt.Sure(2)
	in.Parts[1].Sound = doubt.Sure(50e3)
	var err error
	in.Parts[0].Sound, err = doubt.Uniform(15e3, 20e3)
	require.NoError(t, err)
	s := drawn(t, in)
	assert.InDelta(t, 1, s.Mean(s.First("line")).Value, 1e-6)
	middle := func(s *doubt.Sample) float64 {
		return s.Given(func(c *doubt.Trial) float64 { return c.CameM }, func(c *doubt.Trial) float64 { return b2f(c.Fails()) }).Value
	}
	assert.InDelta(t, 2, middle(s), 0.01)
	in.Parts[0].Sound, in.Parts[1].Sound = doubt.Sure(50e3), doubt.Sure(30e3)
	s = drawn(t, in)
	assert.InDelta(t, 0.5, s.Mean(s.First("sling")).Value, 0.003)
	assert.InDelta(t, 3, middle(s), 0.01)

	// A sling of 15 kN fails at 2 m under 10 + 2.5 s without a jerk, and earlier under any: in
	// half of the pulls under the jerk, in half before it comes.
	in.Parts[1].Sound = doubt.Sure(15e3)
	s = drawn(t, in)
	is := func(jerk bool) float64 {
		return s.Mean(s.Is(doubt.Candidate{Part: "sling", Jerk: jerk})).Value
	}
	assert.InDelta(t, 0.5, is(true), 0.003)
	assert.InDelta(t, 0.5, is(false), 0.003)
}

// A pull ends where the winch stalls: what would fail beyond holds. What an earlier pull
// held is asked of the rig as it began, and a change of the whole pull.
func TestAFollowedPullEndsWhereItStalls(t *testing.T) {
	in := twoPlaces(t)
	in.WayM = []float64{0, 2, 4}
	in.Pull = func(_ []float64, p *doubt.Pull) {
		p.EndN, p.StallN = 10e3, 50e3
		if p.Place > 0 {
			p.EndN, p.StallN = 10e3, 10e3
		}
		p.Factors[0], p.Factors[1] = 1e-9, 1+float64(p.Place)/2
	}
	in.Changes = []func([]float64, *doubt.Pull){func(x []float64, p *doubt.Pull) {
		in.Pull(x, p)
		p.StallN = 50e3
	}}
	s := drawn(t, in)
	assert.InDelta(t, 0.5, s.Mean(s.First("sling")).Value, 0.002, "P(b <= 15)")
	assert.InDelta(t, 0.75, s.Answer().Changes[0].After.Value, 0.002, "P(b <= 20)")
	in.Facts = []doubt.Fact{{Kind: doubt.HeldBefore, LowN: 10e3, Trust: doubt.Observed}, {Kind: doubt.Yielded, Part: "sling", Share: 0.75, Trust: doubt.Observed}}
	s = drawn(t, in)
	assert.InDelta(t, 0.5, s.Mean(s.Agrees()).Value, 0.002, "P(10 < b <= 20): held at first, and 15 is three quarters of 20")
}

// With a way of another length the same strengths are followed along that. The load of the
// sling of [twoPlaces] goes on rising by 2.5 kN a metre, so that a part fails in
//
//	1 - P(a > 12)·P(b > 10 + 2.5·s) = 1 - 0.8·(15 - 2.5·s)/20
//
// of all pulls over s: 0.8 over the 4 m, 0.6 over 2 m, 0.9 over 5 m. A jerk of 1.5 times
// the tension comes as far along as a share of either way: of a sling of 35 kN, and a line
// that holds, 15 + 3.75·s reaches that beyond 5.33 m, in 1/9 of the pulls over 6 m.
func TestAChangeMayHaveAWayOfItsOwn(t *testing.T) {
	for long, want := range map[float64]float64{2: 0.6, 4: 0.8, 5: 0.9} {
		in := twoPlaces(t)
		in.ChangeWays = [][]float64{{0, long / 2, long}}
		in.Changes = alongOwnWay(in)
		c := drawn(t, in).Answer().Changes[0]
		assert.InDelta(t, 0.8, c.Before.Value, 0.002)
		assert.InDelta(t, want, c.After.Value, 0.002, "%v m", long)
		assert.InDelta(t, 0.8-want, c.Less.Value, 0.002, "%v m: it is the same strengths that fail", long)
	}
	in := twoPlaces(t)
	in.Jerked, in.Jerk = 1-1e-9, doubt.Sure(1.5)
	in.Parts[0].Sound, in.Parts[1].Sound = doubt.Sure(50e3), doubt.Sure(35e3)
	in.ChangeWays = [][]float64{{0, 6}}
	in.Changes = alongOwnWay(in)
	c := drawn(t, in).Answer().Changes[0]
	assert.Zero(t, c.Before.Value, "at most 30 kN")
	assert.InDelta(t, 1.0/9, c.After.Value, 0.002)
}

// alongOwnWay are the loads of [twoPlaces] along the way of its one change.
func alongOwnWay(in *doubt.Incident) []func([]float64, *doubt.Pull) {
	return []func([]float64, *doubt.Pull){func(_ []float64, p *doubt.Pull) {
		p.EndN, p.StallN = 10e3, 50e3
		p.Factors[0], p.Factors[1] = 1.2, 1+in.ChangeWays[0][p.Place]/4
	}}
}

// Between places that lie in one straight line it makes no difference how many are asked.
func TestPlacesBetweenChangeNothing(t *testing.T) {
	few, many := twoPlaces(t), twoPlaces(t)
	many.WayM = []float64{0, 1, 2.5, 4}
	many.Pull = func(_ []float64, p *doubt.Pull) {
		p.EndN, p.StallN = 10e3, 50e3
		p.Factors[0], p.Factors[1] = 1.2, 1+many.WayM[p.Place]/4
	}
	a, b := drawn(t, few), drawn(t, many)
	for _, part := range []string{"line", "sling"} {
		assert.Equal(t, a.Mean(a.First(part)), b.Mean(b.First(part)))
		x, y := a.Bands(a.First(part), 0.05, 0.5, 0.95), b.Bands(b.First(part), 0.05, 0.5, 0.95)
		for i := range x {
			assert.InEpsilon(t, x[i], y[i], 1e-9)
		}
	}
}

func b2f(is bool) float64 {
	if is {
		return 1
	}
	return 0
}

// A rig of a plan that is followed for one moment more: where a part may fail is known of
// each candidate, no load is beyond its strength there, and a rut weighs. The same bits come
// of one worker and of eight.
func TestAPlanIsFollowed(t *testing.T) {
	whole(t)
	p := seen(t, slingBroken)
	ask := func(p *plan.Plan, workers int) *doubt.Reconstruction {
		q := doubt.Request{Per: 256, Seed: 2, Workers: workers}
		for s := 0.0; s <= 4; s++ {
			q.Along = append(q.Along, doubt.WayPoint{AtM: s, Plan: plan.AdvancedOf(p, "V1", quantity.Length(s))})
		}
		r, err := doubt.Reconstruct(p, "R1", q)
		require.NoError(t, err)
		return r
	}
	r := ask(p, 1)
	assert.Equal(t, 4.0, r.ToM)
	require.Equal(t, "S1", r.Answer.Candidates[0].Part)
	at := r.Moments[0].AtM
	assert.True(t, 0 <= at[0] && at[0] <= at[1] && at[1] <= at[2] && at[2] <= 4, at)
	assert.Greater(t, at[2], at[0])
	assert.Equal(t, r.Answer, ask(p, 8).Answer)
	rut := plan.Pin{ID: "B", Kind: plan.PinRut, Thing: "V1", Known: plan.KnownObserved, Length: plan.Known(quantity.Length(3)), Doubts: []plan.Doubt{{Member: "trace_m", Low: 2.5, High: 3.5}}}
	noSkid := plan.Pin{ID: "C", Kind: plan.PinSkid, Thing: "V1", Known: plan.KnownObserved, Length: plan.Known(quantity.Length(0))}
	ruts := ask(plan.WithPin(plan.WithPin(p, 0, rut), 0, noSkid), 2)
	assert.Empty(t, ruts.Pins[1].Why)
	assert.Equal(t, doubt.NotOfRig, ruts.Pins[2].Why, "that it did not skid is not that it did not roll")
	for _, m := range ruts.Moments {
		if !math.IsNaN(m.AtM[0]) {
			assert.True(t, m.AtM[0] >= 2.5 && m.AtM[2] <= 3.5, m.AtM)
		}
	}
	_, exact := doubt.RutM(plan.WithPin(p, 0, rut).Rigs[0].Incident, "V1")
	assert.False(t, exact, "of a range the place is not known")
	rut.Doubts = nil
	m, exact := doubt.RutM(plan.WithPin(p, 0, rut).Rigs[0].Incident, "V1")
	assert.True(t, exact && m == 3)
	rut.Known = plan.KnownTold
	_, exact = doubt.RutM(plan.WithPin(p, 0, rut).Rigs[0].Incident, "V1")
	assert.False(t, exact, "what is told is evidence")
}
