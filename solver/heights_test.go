package solver_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Heights measured anywhere on a plane that falls 15° toward 30° say so, whatever slope
// was entered, and whichever way that falls (closed form).
func TestHeightsOfAPlaneThatFallsAskew(t *testing.T) {
	fall, toward := math.Tan(15*math.Pi/180), 30*math.Pi/180
	for name, at := range map[string][]plan.Point{
		"spread": {{X: 1, Y: 2}, {X: 11, Y: 6}, {X: 4, Y: 14}, {X: 15, Y: 13}, {X: 6, Y: 7}},
		"long":   {{X: 0, Y: 0}, {X: 20, Y: 9}, {X: 41, Y: 22}, {X: 60, Y: 26}, {X: 33, Y: 30}},
	} {
		for _, entered := range []change{sloped(0, 0), sloped(6, 90), sloped(7, 200)} {
			a := assessed(t, do(levelled(15), entered, func(p *plan.Plan) {
				p.Site.Survey.Points = nil
				for _, q := range at {
					p.Site.Survey.Points = append(p.Site.Survey.Points, plan.SurveyPoint{X: q.X, Y: q.Y,
						Z: quantity.Length(30 - fall*(q.X*math.Sin(toward)+q.Y*math.Cos(toward)))})
				}
			}))
			f, ok := findingOf(a, "slope-against-heights")
			require.True(t, ok, name)
			assert.InDelta(t, 15, valueOf(t, &f, "measured"), 1e-6, name)
			assert.InDelta(t, 30, valueOf(t, &f, "toward"), 1e-6, name)
		}
	}
}

// Of two vehicles one is said to stand 3 m higher than a slope of 6° from it to the
// other puts it: together the tangent of the slope and three over their distance.
func TestVehiclesThatStandSteeperThanTheSlope(t *testing.T) {
	for rise, sign := range map[quantity.Length]float64{3: 1, -3: -1} {
		p := basePlan()
		v, w := &p.Site.Vehicles[0], &p.Site.Vehicles[1]
		down := quantity.FromRadians(math.Atan2(w.At.X-v.At.X, w.At.Y-v.At.Y)).Normal() // from the first to the second
		over := math.Hypot(w.At.X-v.At.X, w.At.Y-v.At.Y)
		a := assessed(t, do(sloped(6, down), func(p *plan.Plan) { p.Site.Vehicles[0].Rise = rise }))
		f, ok := findingOf(a, "slope-against-rise")
		require.True(t, ok)
		assert.InDelta(t, 6, valueOf(t, &f, "slope"), 1e-6)
		want := math.Atan(math.Tan(6*math.Pi/180)+sign*3/over) * 180 / math.Pi
		assert.InDelta(t, math.Abs(want), valueOf(t, &f, "stands"), 1e-6)
	}
}

// A tie-back that pulls aside holds a vehicle by the cosine of how far aside it pulls:
// one of 20 kN, used (0.85: ours), 4 m back and up to 2 m aside, on a vehicle that holds
// less by itself. The pull
// itself goes a little aside, to where its block hangs: half a hundredth.
func TestATieBackAsideHoldsByItsCosine(t *testing.T) {
	for _, aside := range []float64{0, 1, 2} {
		a := assessed(t, do(tiedBack(20000, aside), func(p *plan.Plan) {
			v := &p.Site.Vehicles[1]
			v.Brake, v.Chocks, v.FootBrake = plan.BrakeRear, plan.ChocksNone, false
		}))
		slide := partOf(t, a, "V2/slide")
		assert.Equal(t, "tie-back", slide.Limit.Basis)
		assert.InEpsilon(t, 0.85*20000*4/math.Hypot(4, aside), float64(slide.Limit.Force), 5e-3, "%v m", aside)
	}
}

// A block known by what its line may carry takes the heavier of its two stretches.
func TestBlockKnownByItsLine(t *testing.T) {
	a := assessed(t, theBlock(func(b *plan.Block) { b.Rating, b.RatingOn = working(4000), plan.RatedLine }))
	heavier := max(partOf(t, a, "L1/1").Move.Force, partOf(t, a, "L1/2").Move.Force)
	assert.InDelta(t, float64(heavier)/4000, partOf(t, a, "B1").Used, 1e-9)
}
