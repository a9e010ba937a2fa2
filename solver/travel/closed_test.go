package travel_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/travel"
)

// rolling is directPlan of a casualty that rolls on the level, by physics alone.
func rolling(t testing.TB, edit func(p *plan.Plan)) *plan.Plan {
	p := with(directPlan(t, 0), func(v *plan.Vehicle) {
		v.Stuck.Depth, v.Stuck.Rule, v.Stuck.Surface = plan.DepthNone, "physics", ""
		v.Mass = 2400
	})
	edit(p)
	return p
}

// Straight to the fairlead, which is by dz higher than the hook, the line pulls
// R·√((30 − s)² + dz²) / (30 − s). (closed form)
func TestAStraightPullByItsClosedForm(t *testing.T) {
	p := rolling(t, func(p *plan.Plan) {
		for i := range p.Site.Vehicles {
			if w := p.Site.Vehicles[i].Winch; w != nil {
				w.Height = 1.4
			}
		}
	})
	a := followed(t, p, "R1")
	require.InDelta(t, 8, a.EndM, 1e-9)
	v := p.Casualty()
	w := p.Site.Vehicles[slices.IndexFunc(p.Site.Vehicles, func(v plan.Vehicle) bool { return v.Winch != nil })].Winch
	dz := float64(w.Height - v.Recovery[0].Height)
	require.NotZero(t, dz)
	for _, m := range a.Moments {
		d := 30 - m.AtM
		assert.InEpsilon(t, float64(m.Resistance.Planned)*math.Hypot(d, dz)/d, float64(m.Move.Tension), 1e-9, "at %g m", m.AtM)
	}
}

// A block takes √(T₁² + T₂² + 2·T₁·T₂·cos θ) of its two legs, 2·T·cos θ/2 where they
// pull alike, θ the angle that they enclose where it has settled: by the law of cosines
// from their lengths and the way from fairlead to hook. (closed form)
func TestABlockTakesWhatItsLegsDo(t *testing.T) {
	p := examplePlan(t, "redirect")
	a := followed(t, p, "R1")
	for _, m := range a.Moments {
		at := travel.At(p, "R1", m.AtM)
		x := plan.NewIndex(at, &at.Rigs[0])
		from, okA := x.PortPlace(m.Stretches[0].PortA)
		to, okB := x.PortPlace(m.Stretches[1].PortB)
		require.True(t, okA && okB)
		d := math.Hypot(from.At.Dist(to.At), float64(from.Height-to.Height))
		l1, l2 := float64(m.Stretches[0].Length), float64(m.Stretches[1].Length)
		cos := (l1*l1 + l2*l2 - d*d) / (2 * l1 * l2)
		one, _ := m.Part(m.Stretches[0].Part)
		two, _ := m.Part(m.Stretches[1].Part)
		block, _ := m.Part(string(m.Stretches[0].PortB.Thing))
		t1, t2 := float64(one.Move.Force), float64(two.Move.Force)
		assert.InEpsilon(t, math.Sqrt(t1*t1+t2*t2+2*t1*t2*cos), float64(block.Move.Force), 1e-6, "at %g m", m.AtM)
	}
}

// The winch pulls on the smallest layer n with π·N·n·(D + n·d) of line or more on it, N
// whole turns a layer, and gives P₁·(D + d) / (D + (2n − 1)·d) there. (closed form)
func TestLayersAlongAPull(t *testing.T) {
	p := examplePlan(t, "doubled")
	a := followed(t, p, "R1")
	r := p.Rigs[0]
	l := &r.Lines[0]
	v, _ := p.Vehicle(l.Path[0].Thing)
	dia, d := float64(v.Winch.DrumDiameter), float64(l.Diameter)
	turns := math.Floor(float64(v.Winch.DrumWidth) / d)
	seen := map[int]quantity.Force{}
	for _, m := range a.Moments {
		on := float64(l.Length - m.Lines[0].Out)
		n := 1.0
		for math.Pi*turns*n*(dia+n*d) < on {
			n++
		}
		q, ok := m.Part(string(v.ID) + "/winch")
		require.True(t, ok)
		require.EqualValues(t, n, q.Layer, "at %g m", m.AtM)
		seen[q.Layer] = q.Limit.Force
	}
	require.Greater(t, len(seen), 1, "it changes on the way")
	for n, f := range seen {
		for k, g := range seen {
			assert.InEpsilon(t, (dia+float64(2*k-1)*d)/(dia+float64(2*n-1)*d), float64(f/g), 1e-9, "layers %d and %d", n, k)
		}
	}
}

// Up a slope the winch does as much more than down it as lifting and letting down the
// casualty are: 2·W·s·tan β for s metres in plan. Simpson's rule over what is paid in,
// line by line of Assess; no sheaves, fairlead and hook as high over the ground. (energy)
func TestHeightIsWork(t *testing.T) {
	const slopeDeg, end, n, h = 4.0, 6.0, 24, 1e-4
	work := func(downhill quantity.Degrees) float64 {
		p := rolling(t, func(p *plan.Plan) {
			p.Site.Ground.Slope, p.Site.Ground.Downhill = plan.Known(quantity.Degrees(slopeDeg)), plan.Known(downhill)
			for i := range p.Site.Vehicles {
				if w := p.Site.Vehicles[i].Winch; w != nil {
					w.Height = p.Casualty().Recovery[0].Height
				}
			}
		})
		sum := 0.0
		for i := 0; i <= n; i++ {
			s := 0.1 + end*float64(i)/n
			at := func(s float64) *solver.Assessment { return solver.Assess(travel.At(p, "R1", s), "R1") }
			m := at(s)
			require.Equal(t, part.Within, m.Status, m.Why)
			weight := end / n / 3 * float64(2+2*(i%2))
			if i == 0 || i == n {
				weight = end / n / 3
			}
			sum += weight * float64(m.Move.Tension) * float64(at(s - h).Stretches[0].Length-at(s + h).Stretches[0].Length) / (2 * h)
		}
		return sum
	}
	up, down := work(90), work(270) // it goes west
	w := 2400 * quantity.Gravity
	assert.InEpsilon(t, 2*w*end*math.Tan(slopeDeg*math.Pi/180), up-down, 1e-4)
}
