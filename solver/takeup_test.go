package solver_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// secondAnchor is a rated point of that tag behind the first, seen from the block.
func secondAnchor(tag float64) change {
	return func(p *plan.Plan) {
		a := ratedPoint("A2", 21.9, -1.9)
		a.Rating = working(quantity.Force(tag))
		p.Site.Anchors = append(p.Site.Anchors, a)
	}
}

// legTo adds a leg from there to the block, longer by that than the way: √2·1.9 m
// less the block's 0.1 m.
func legTo(thing, point plan.ID, longer float64) change {
	return on(func(r *plan.Rig) {
		s := strap("S2", port(thing, point), port("B1", ""))
		s.Length = quantity.Length(1.9*math.Sqrt2 - 0.1 + longer)
		r.Slings = append(r.Slings, s)
	})
}

// A leg that is a little longer than the way is slack as drawn and takes all once
// the other has stretched: both are judged for all that the block carries, and
// what they end on with them. (ours: within 2 % or 5 cm)
func TestALongerLegTakesUp(t *testing.T) {
	for what, c := range map[string]change{
		"on the same point":          second(2.03),
		"on a point of its own":      do(secondAnchor(60000), legTo("A2", "", 0.02)),
		"as long, on the same point": second(2),
	} {
		p := basePlan()
		c(p)
		a := solver.Assess(p, "R1")
		whole := partOf(t, a, "B1")
		for _, id := range []string{"S1", "S2", "A1"} {
			q := partOf(t, a, id)
			assert.InEpsilon(t, float64(whole.Move.Force), float64(q.Move.Force), 1e-3, "%s: %s", what, id)
			assert.InEpsilon(t, float64(whole.Stall.Force), float64(q.Stall.Force), 1e-3, "%s: %s at stall", what, id)
		}
		require.Equal(t, part.Within, a.Status, what)
	}
}

// What is weak behind the longer leg is over its limit, through a shackle too,
// and a car behind it has to stand.
func TestWhatIsBehindALongerLeg(t *testing.T) {
	weak := basePlan()
	do(secondAnchor(500), legTo("A2", "", 0.02))(weak)
	a := solver.Assess(weak, "R1")
	assert.Equal(t, part.Over, partOf(t, a, "A2").Status)
	assert.Equal(t, part.Caution, levels(a)["leg-takes-up"])

	long := basePlan()
	do(secondAnchor(500), legTo("A2", "", 0.06))(long) // 2 % of it is 5.4 cm
	a = solver.Assess(long, "R1")
	assert.Contains(t, levels(a), "slack-sling")
	assert.Zero(t, float64(partOf(t, a, "S2").Move.Force))

	chain := basePlan()
	do(secondAnchor(60000), func(p *plan.Plan) {
		r := &p.Rigs[0]
		r.Shackles = append(r.Shackles, plan.Shackle{Head: plan.Head{ID: "K9"}, Kind: plan.ShackleBow, At: plan.Point{X: 21, Y: -1}, Rating: working(470), Body: 0.019})
		x, y := strap("S2", port("A2", ""), port("K9", "")), strap("S3", port("K9", ""), port("B1", ""))
		x.Length, y.Length = 1.3, 1.3
		r.Slings = append(r.Slings, x, y)
	})(chain)
	assert.Equal(t, part.Over, partOf(t, solver.Assess(chain, "R1"), "K9").Status)

	car := basePlan()
	do(func(p *plan.Plan) {
		v := truck()
		v.ID, v.Winch, v.Mass, v.Brake, v.Chocks = "V3", nil, 900, plan.BrakeNone, plan.ChocksNone
		v.At, v.Bearing = plan.Point{X: 21.9 + 3/math.Sqrt2, Y: -1.9 - 3/math.Sqrt2}, 315
		v.Recovery[0].Left = plan.Known(quantity.Length(0))
		p.Site.Vehicles = append(p.Site.Vehicles, v)
	}, legTo("V3", "front", 0.02))(car)
	a = solver.Assess(car, "R1")
	assert.Equal(t, part.Danger, levels(a)["vehicle-not-braked"])
	assert.InEpsilon(t, float64(partOf(t, a, "B1").Move.Force), float64(partOf(t, a, "V3/front").Move.Force), 1e-3)
}

// Legs that lie beside each other share as nobody can tell: each is judged for
// all of it, though the balance gives each its share.
func TestLegsBesideEachOtherAreEachJudgedForAll(t *testing.T) {
	p := basePlan()
	p.Site.Anchors = []plan.Anchor{ratedPoint("A1", 21.6, -1.35), ratedPoint("A2", 21.35, -1.6)} // a hand beside each other, 10° apart
	s := strap("S2", port("A2", ""), port("B1", ""))
	s.Length = quantity.Length(math.Hypot(1.6, 1.35) - 0.1)
	p.Rigs[0].Slings[0].Length = s.Length
	p.Rigs[0].Slings = append(p.Rigs[0].Slings, s)
	a := solver.Assess(p, "R1")
	for _, id := range []string{"S1", "S2", "A1", "A2"} {
		assert.GreaterOrEqual(t, float64(partOf(t, a, id).Move.Force), 0.99*float64(partOf(t, a, "B1").Move.Force), id)
	}
	assert.Contains(t, levels(a), "shared-slings")
}
