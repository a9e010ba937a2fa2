package doubt_test

import (
	"math"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"

	"kedge/solver"
	"kedge/solver/doubt"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// bent is a pull round a block that turns without loss on a rated point, with a mass
// anywhere from 2000 to 3000 kg.
func bent(t *testing.T) *plan.Plan {
	return redirect(t, func(p *plan.Plan) {
		p.Site.Anchors = append(p.Site.Anchors, plan.Anchor{Head: plan.Head{ID: "A1"}, Kind: plan.AnchorRated, At: plan.Point{X: 20, Y: 16}, Rise: 0.6, Rating: plan.Rating{Force: 500e3, Basis: plan.BasisWorking}})
		r := &p.Rigs[0]
		r.Slings, r.Shackles, r.Dampers = nil, nil, nil
		b := &r.Blocks[0]
		b.Fixed, b.At, b.Efficiency, b.HeadLength = plan.Port{Thing: "A1"}, plan.Point{X: 20, Y: 16}, 1, 0
		doubtMass(p, 2000, 3000, false)
		v := &p.Site.Vehicles[0] // where it stands at first is known: from there it goes on
		v.Doubts = append(v.Doubts, plan.Doubt{Member: "at.x_m", Low: v.At.X, High: v.At.X})
	})
}

// onBlock is the load on the block over the resistance, s metres on: two legs of one
// tension, |u+v| = 2·cos of half the angle between them, over what of the tension pulls
// along the way, to the east.
func onBlock(t *testing.T, p *plan.Plan, s float64) float64 {
	at := func(x, y, z float64) r3.Vector { return r3.Vector{X: x, Y: y, Z: z} }
	place := func(v plan.ID, point plan.ID) r3.Vector {
		x, ok := p.Vehicle(v)
		require.True(t, ok)
		spot, ok := x.PortPlace(point)
		require.True(t, ok)
		return at(spot.At.X, spot.At.Y, float64(spot.Height))
	}
	block := at(20, 16, 0.6)
	u := place("V2", plan.PortWinch).Sub(block).Normalize()
	v := place("V1", "front").Add(at(s, 0, 0)).Sub(block).Normalize()
	return u.Add(v).Norm() / -v.X
}

// Where the angle at a block closes on the way, the block is loaded most at the end: its
// load passes the limit where the resistance passes the limit over the greatest of the
// factors, in closed form.
func TestTheWorstOverThePullIsThatOfTheAngle(t *testing.T) {
	p := bent(t)
	a := solver.Assess(p, "R1")
	require.True(t, a.Move.Known)
	perKg := float64(a.Resistance.Planned / 3000) // which check takes at its high end
	b, ok := a.Part("B1")
	require.True(t, ok)
	require.InEpsilon(t, onBlock(t, p, 0), float64(b.Move.Force/a.Resistance.Planned), 1e-6, "the closed form is that of the moment drawn")
	var pull []doubt.WayPoint
	most := 0.0
	for s := 0.0; s <= 6; s += 0.25 {
		most = max(most, onBlock(t, p, s))
		pull = append(pull, doubt.WayPoint{AtM: s, Plan: plan.AdvancedOf(p, "V1", quantity.Length(s))})
	}
	require.Greater(t, most, 1.05*onBlock(t, p, 0))
	limit := perKg * 2600 * most // passed from 2600 kg on: 0.4 of all
	p.Rigs[0].Blocks[0].Rating = plan.Rating{Force: quantity.Force(limit), Basis: plan.BasisWorking}
	for i := range pull {
		q := plan.Edit(pull[i].Plan, "R1")
		q.Laid.Blocks[0].Rating = p.Rigs[0].Blocks[0].Rating
		pull[i].Plan = q.Plan
	}
	b, ok = solver.Assess(p, "R1").Part("B1")
	require.True(t, ok)
	require.InEpsilon(t, limit, float64(b.Limit.Force), 1e-9)
	c, err := doubt.SamplePlan(p, "R1", doubt.Request{Per: 512, Seed: 4, Workers: 2, Typed: true, Along: pull})
	require.NoError(t, err)
	require.NotNil(t, c.Along)
	assert.Equal(t, doubt.Sets*64, c.Along.Trials)
	assert.Equal(t, 6.0, c.Along.ToM)
	for i := range c.Parts {
		if x := &c.Parts[i]; x.Part.ID == "B1" {
			first := max(0, 1-(2600*most/onBlock(t, p, 0)-2000)/1000)
			assert.InDelta(t, first, x.OverLimit.Chance.Value, 0.002, "as drawn")
		}
	}
	for i := range c.Along.Parts {
		if x := &c.Along.Parts[i]; x.Part.ID == "B1" {
			assert.Zero(t, x.OverLimit.NotKnown)
			assert.InDelta(t, 0.4, x.OverLimit.Chance.Value, 0.004, "over the pull")
		}
	}
}

// A pull of one moment says what that moment says.
func TestAPullOfOneMomentIsThatMoment(t *testing.T) {
	p := bent(t)
	c, err := doubt.SamplePlan(p, "R1", doubt.Request{Per: 512, Seed: 4, Workers: 2, Along: []doubt.WayPoint{{Plan: p}}})
	require.NoError(t, err)
	one, err := doubt.SamplePlan(p, "R1", doubt.Request{Per: 64, Seed: 4, Workers: 1})
	require.NoError(t, err)
	require.Len(t, c.Along.Parts, len(one.Parts))
	for i := range one.Parts {
		x, y := &one.Parts[i], &c.Along.Parts[i]
		assert.Equal(t, x.OverLimit, y.OverLimit, x.Part.ID)
		assert.Equal(t, x.OverAtStall, y.OverAtStall, x.Part.ID)
		assert.Equal(t, x.Gives, y.Gives, x.Part.ID)
		assert.Equal(t, x.GivesStall, y.GivesStall, x.Part.ID)
	}
}

// Of a line whose strength nobody knows it is not known whether it fails first, nor whether
// anything does.
func TestWhatHasNoStrengthMayFailFirst(t *testing.T) {
	p := bent(t)
	p.Rigs[0].Lines[0].Rating = plan.Rating{}
	c, err := doubt.SamplePlan(p, "R1", doubt.Request{Per: 64, Seed: 4, Workers: 2, Typed: true, Along: []doubt.WayPoint{{Plan: p}}})
	require.NoError(t, err)
	assert.Zero(t, c.Along.Fails.Of)
	assert.Equal(t, c.Along.Trials, c.Along.Fails.NotKnown)
	assert.True(t, math.IsNaN(c.Along.FailsM[0]))
}

// What is known to scatter is drawn though the plan gives no range: the resistance as a
// triangle over the range of its rules, loads with it, and the strength of a line that was
// used by its own scatter. The chance that the line gives is an integral.
func TestKnownScatterIsDrawn(t *testing.T) {
	sure := func(h *plan.Head, member string, x float64) {
		h.Doubts = append(h.Doubts, plan.Doubt{Member: member, Low: x, High: x})
	}
	p := redirect(t, func(p *plan.Plan) {
		p.Site.Obstacles = nil
		v := &p.Site.Vehicles[0]
		sure(&v.Head, "mass_kg", float64(v.Mass))
		sure(&v.Head, "bearing_deg", float64(v.Bearing))
		sure(&v.Head, "at.x_m", v.At.X)
		sure(&v.Head, "at.y_m", v.At.Y)
		v.Stuck.Measured, p.Site.Ground.Slope = 10e3, plan.Maybe[quantity.Degrees]{}
		l := &p.Rigs[1].Lines[0]
		l.Rating.Force, l.Condition = 20e3, plan.ConditionUsed
	})
	c, err := doubt.SamplePlan(p, "R2", doubt.Request{Per: 1024, Seed: 4, Workers: 2})
	require.NoError(t, err)
	col := func(name string) []float64 {
		for i, n := range c.Columns {
			if n == name {
				return c.Samples.Columns[i]
			}
		}
		t.Fatal("no column ", name)
		return nil
	}
	r := solver.Assess(p, "R2").Resistance.Breakaway
	low, likely, high := float64(r.Low), float64(r.Likely), float64(r.High)
	resistance, move := col("resistance_n"), col("to_move_n")
	sum := 0.0
	for _, x := range resistance {
		sum += x
	}
	assert.InEpsilon(t, (low+likely+high)/3, sum/float64(len(resistance)), 1e-3)
	var line *doubt.PartChances
	for i := range c.Parts {
		if c.Parts[i].Part.ID == "L2" || string(c.Parts[i].Part.Thing) == "L2" && line == nil {
			line = &c.Parts[i]
		}
	}
	require.NotNil(t, line)
	var strength doubt.Dist
	for _, a := range c.Assumed {
		if a.What == "strength" && a.Part == "L2" {
			strength = a.Dist
		}
	}
	_, figures := strength.Words()
	k := move[0] / resistance[0] // of the line tension to the resistance, alike in all trials
	cv := figures[1] / figures[0]
	assert.InDelta(t, 0.08, cv, 1e-9, "used, inspected (ours)")
	sigma := math.Sqrt(math.Log1p(cv * cv))
	f := distuv.LogNormal{Mu: math.Log(figures[0]) - sigma*sigma/2, Sigma: sigma}
	tri := distuv.NewTriangle(low, high, likely, nil)
	// Its ends weaken the line as they are: what is drawn is what its weakest place holds.
	scale := float64(line.Part.Ultimate.Likely) / figures[0]
	pieces := quad.Fixed(func(x float64) float64 { return tri.Prob(x) * f.CDF(k*x/scale) }, low, likely, 200, nil, 0) +
		quad.Fixed(func(x float64) float64 { return tri.Prob(x) * f.CDF(k*x/scale) }, likely, high, 200, nil, 0)
	assert.Greater(t, pieces, 0.05)
	assert.Less(t, pieces, 0.95)
	assert.InDelta(t, pieces, line.Gives.Chance.Value, 0.003)
	_, err = doubt.SamplePlan(p, "R2", doubt.Request{Per: 64, Seed: 4, Workers: 2, Typed: true})
	assert.NoError(t, err)
}
