package doubt_test

import (
	"context"
	"io/fs"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/assets"
	"kedge/solver"
	"kedge/solver/doubt"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// redirect is the example plan with doubts.
func redirect(t testing.TB, change func(p *plan.Plan)) *plan.Plan {
	t.Helper()
	raw, err := fs.ReadFile(assets.Plans(), "redirect.kedge")
	require.NoError(t, err)
	p, err := plan.ParsePlan(raw)
	require.NoError(t, err)
	change(p)
	return p
}

func doubtMass(p *plan.Plan, low, high float64, plusMinus bool) {
	h := &p.Site.Vehicles[0].Head
	h.Doubts = append(h.Doubts, plan.Doubt{Member: "mass_kg", Low: low, High: high, PlusMinus: plusMinus})
}

const trials = 64 // points of a set

func sampled1(t testing.TB, p *plan.Plan) *doubt.Chances {
	t.Helper()
	c, err := doubt.SamplePlan(p, p.Rigs[0].ID, doubt.Request{Per: trials, Seed: 3, Workers: 2, Typed: true})
	require.NoError(t, err)
	return c
}

// A figure in doubt by nothing is the figure: the answer is that of Assess, every
// trial alike.
func TestADoubtOfNothingIsTheAssessment(t *testing.T) {
	p := redirect(t, func(p *plan.Plan) { m := float64(p.Site.Vehicles[0].Mass); doubtMass(p, m, m, false) })
	c := sampled1(t, p)
	a := solver.Assess(redirect(t, func(*plan.Plan) {}), p.Rigs[0].ID)
	assert.Equal(t, 0, c.Refused)
	assert.Equal(t, float64(a.Move.Tension), c.MoveN[0])
	require.Len(t, c.Parts, len(a.Parts))
	for i := range c.Parts {
		x, want := &c.Parts[i], &a.Parts[i]
		if load := want.Planned(); load.Known && want.Status != part.Slack {
			assert.Equal(t, float64(load.Force), x.PlannedN[1], want.ID)
		}
		switch want.Status {
		case part.Over:
			assert.Equal(t, c.Trials, x.OverLimit.Hits, want.ID)
		case part.Near, part.Within, part.Slack:
			assert.Equal(t, doubt.Count{Of: c.Trials, Chance: x.OverLimit.Chance}, x.OverLimit, want.ID)
		default:
			assert.Equal(t, c.Trials, x.OverLimit.NotKnown, "%s is never counted as within its limit", want.ID)
		}
		assert.Empty(t, x.Drivers)
	}
}

// The pull goes with the mass, so the bands of the tension are those of Assess with the
// mass at its own bands: m + 1.645 sd for ±, of a uniform one 5 % from its ends. What
// else there is drives nothing.
func TestBandsAreThoseOfTheFigureInDoubt(t *testing.T) {
	for _, tt := range []struct {
		plusMinus bool
		massKg    [3]float64
	}{
		{true, [3]float64{2500 - 1.6448536*100, 2500, 2500 + 1.6448536*100}},
		{false, [3]float64{2320, 2500, 2680}},
	} {
		p := redirect(t, func(p *plan.Plan) { p.Site.Vehicles[0].Mass = 2500; doubtMass(p, 2300, 2700, tt.plusMinus) })
		c := sampled1(t, p)
		for k, m := range tt.massKg {
			a := solver.Assess(redirect(t, func(p *plan.Plan) { setMass(p, m) }), p.Rigs[0].ID)
			assert.InEpsilon(t, float64(a.Move.Tension), c.MoveN[k], 5e-4, "%v", m)
		}
		i := slices.IndexFunc(c.Parts, func(x doubt.PartChances) bool { return len(x.Drivers) > 0 })
		require.GreaterOrEqual(t, i, 0)
		require.Len(t, c.Parts[i].Drivers, 1)
		d := c.Parts[i].Drivers[0]
		assert.Equal(t, plan.ID("V1"), d.Thing)
		assert.InDelta(t, 1, d.Rank, 1e-9)
		assert.InDelta(t, 1, d.Share, 0.01)
	}
}

// The chance that a part is over its limit is that of the mass being above the one at
// which it is: closed form for a uniform mass and a rating set to the load at 2600 kg.
func TestAChanceIsThatOfTheMass(t *testing.T) {
	at := solver.Assess(redirect(t, func(p *plan.Plan) { setMass(p, 2600) }), "R1")
	p := redirect(t, func(p *plan.Plan) { setMass(p, 2500); doubtMass(p, 2300, 2700, false) })
	b := slices.IndexFunc(at.Parts, func(x part.Part) bool { return x.Kind == part.KindBlock })
	require.GreaterOrEqual(t, b, 0)
	load := at.Parts[b].Planned()
	r := &p.Rigs[0]
	r.Blocks[0].Rating = plan.Rating{Force: load.Force, Basis: plan.BasisWorking}
	r.Blocks[0].RatingOn = plan.RatedHanger
	c := sampled1(t, p)
	i := slices.IndexFunc(c.Parts, func(x doubt.PartChances) bool { return x.Part.ID == at.Parts[b].ID })
	require.GreaterOrEqual(t, i, 0)
	assert.InDelta(t, 0.25, c.Parts[i].OverLimit.Chance.Value, 0.005)
	assert.Equal(t, c.Trials, c.Parts[i].OverLimit.Of)
}

func TestSamplesOfAPlanAreTheSameBits(t *testing.T) {
	p := redirect(t, func(p *plan.Plan) {
		doubtMass(p, 2300, 2700, true)
		b := &p.Rigs[0].Blocks[0]
		b.Efficiency = 0.93
		b.Doubts = append(b.Doubts, plan.Doubt{Member: "efficiency", Low: 0.9, High: 0.96})
	})
	before, err := plan.FormatPlan(p)
	require.NoError(t, err)
	one, err := doubt.SamplePlan(p, "R1", doubt.Request{Per: trials, Seed: 3, Workers: 1, Typed: true})
	require.NoError(t, err)
	eight, err := doubt.SamplePlan(p, "R1", doubt.Request{Per: trials, Seed: 3, Workers: 8, Typed: true})
	require.NoError(t, err)
	for i := range one.Parts { // NaN is never equal
		one.Parts[i].Part.Values, eight.Parts[i].Part.Values = nil, nil
	}
	assert.True(t, same(one, eight))
	after, err := plan.FormatPlan(p)
	require.NoError(t, err)
	assert.Equal(t, string(before), string(after), "the plan itself stays as it is")
}

func same(a, b *doubt.Chances) bool {
	eq := func(x, y [3]float64) bool {
		for k := range x {
			if math.Float64bits(x[k]) != math.Float64bits(y[k]) {
				return false
			}
		}
		return true
	}
	ok := eq(a.MoveN, b.MoveN) && len(a.Parts) == len(b.Parts)
	for i := range a.Parts {
		x, y := &a.Parts[i], &b.Parts[i]
		ok = ok && eq(x.PlannedN, y.PlannedN) && x.OverLimit == y.OverLimit && x.Gives == y.Gives && x.GivesStall == y.GivesStall && slices.Equal(x.Drivers, y.Drivers)
	}
	return ok
}

func TestAPlanWithoutDoubtHasNothingToDraw(t *testing.T) {
	_, err := doubt.SamplePlan(redirect(t, func(*plan.Plan) {}), "R1", doubt.Request{Per: trials, Seed: 1, Workers: 1, Typed: true})
	require.ErrorIs(t, err, doubt.ErrNoDoubt)
}

// What is in doubt but cannot be drawn is said, not passed over.
func TestADoubtThatCannotBeDrawnIsNamed(t *testing.T) {
	p := redirect(t, func(p *plan.Plan) {
		doubtMass(p, 2300, 2700, true)
		h := &p.Site.Vehicles[0].Head
		h.Doubts = append(h.Doubts, plan.Doubt{Member: "casualty.measured_nothing_n", Low: 1, High: 2}, plan.Doubt{Member: "wheels", Low: 1, High: 2})
	})
	c := sampled1(t, p)
	assert.Len(t, c.Drawn, 1)
	assert.Len(t, c.NotDrawn, 2)
}

func setMass(p *plan.Plan, kg float64) {
	p.Site.Vehicles[0].Mass = quantity.Mass(kg)
}

// A line that a winch pays out as a hold-back hauls nothing: loads go up with the one line
// that is hauled, so that the resistance is drawn, and what happened is reconstructed.
func TestAHoldBackIsNotHauled(t *testing.T) {
	p := seen(t, slingBroken)
	p.Site.Ground.Slope, p.Site.Ground.Downhill = plan.Known(quantity.Degrees(8)), plan.Known(quantity.Degrees(90))
	v := p.Site.Vehicles[1]
	v.ID, v.Name, v.At, v.Bearing = "V3", "Holder", plan.Point{X: p.Site.Vehicles[0].At.X - 14, Y: p.Site.Vehicles[0].At.Y}, 90
	p.Site.Vehicles = append(p.Site.Vehicles, v)
	l := p.Rigs[0].Lines[0]
	l.ID, l.Name, l.Use, l.Joins, l.Connector = "L9", "", plan.UseHoldBack, nil, plan.Connector{}
	l.Path = []plan.Port{{Thing: "V3", Point: plan.PortWinch}, {Thing: "V1", Point: "rear"}}
	p.Rigs[0].Lines = append(p.Rigs[0].Lines, l)
	a := solver.Assess(p, "R1")
	held := 0
	for _, u := range a.Lines {
		if u.Held {
			held++
		}
	}
	require.Equal(t, 1, held, "the holder's winch pays out")
	c, err := doubt.SamplePlan(p, "R1", doubt.Request{Per: 16, Seed: 1, Workers: 1})
	require.NoError(t, err)
	assert.Contains(t, c.Columns, "resistance_n")
	ctx, stop := context.WithCancel(context.Background())
	stop()
	_, err = doubt.Reconstruct(p, "R1", doubt.Request{Context: ctx, Per: 16, Seed: 1, Workers: 2})
	assert.ErrorIs(t, err, context.Canceled, "it is begun, and given up")
}

// BenchmarkSamples is 16 384 samples of the redirect by two workers: with two figures in
// doubt alone, and with all that scatters.
func BenchmarkSamples(b *testing.B) {
	p := redirect(b, func(p *plan.Plan) {
		doubtMass(p, 2300, 2700, true)
		l := &p.Site.Vehicles[1].Head
		l.Doubts = append(l.Doubts, plan.Doubt{Member: "mass_kg", Low: 2400, High: 2800})
	})
	for name, typed := range map[string]bool{"typed": true, "all": false} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := doubt.SamplePlan(p, "R1", doubt.Request{Per: 1024, Seed: 1, Workers: 2, Typed: typed}); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/(doubt.Sets*1024), "µs/sample")
		})
	}
}

// What a part hangs on is to the bit what the columns say by themselves.
func TestDriversAreThoseOfTheColumns(t *testing.T) {
	c, err := doubt.SamplePlan(redirect(t, func(*plan.Plan) {}), "R1", doubt.Request{Per: trials, Seed: 3, Workers: 2})
	require.NoError(t, err)
	column := func(name string) []float64 { return c.Samples.Columns[slices.Index(c.Columns, name)] }
	seen := 0
	for i := range c.Parts {
		for _, d := range c.Parts[i].Drivers {
			name := string(d.Thing) + "." + d.Member
			switch {
			case d.What != "":
				name = d.What + "_rank"
			case d.Thing == "":
				name = "ground." + d.Member
			}
			x, y := column(name), column(c.Parts[i].Part.ID+".used")
			if slices.ContainsFunc(y, math.IsNaN) {
				y = column(c.Parts[i].Part.ID + ".load_n")
			}
			assert.Equal(t, doubt.Share(x, y), d.Share, name)
			assert.Equal(t, doubt.RankCorrelation(x, y), d.Rank, name)
			seen++
		}
	}
	assert.Greater(t, seen, 10)
}
