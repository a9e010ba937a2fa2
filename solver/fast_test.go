package solver_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// A strap that the way out slackens at first is taut again once the casualty has
// passed what it is fast to, if its way leads so far. By hand: the point at
// 2.6 m; a post ahead and aside is nearest after its ahead, and as far again
// after twice that.
func TestAStrapAheadStopsTheCasualtyOnItsWay(t *testing.T) {
	for _, tt := range []struct {
		ahead, aside, way float64
		level             part.Level
	}{
		{4, 1, 7.9, part.Warning},
		{4, 1, 8.2, part.Danger},
		{3, 3, 5.9, part.Warning},
		{3, 3, 6.2, part.Danger},
		{4, 1, 0, part.Warning}, // not known, and said so
	} {
		p := basePlan()
		p.Site.Vehicles[0].Stuck.WayLength = quantity.Length(tt.way)
		p.Site.Anchors = append(p.Site.Anchors, ratedPoint("A9", 2.6+tt.ahead, tt.aside))
		s := strap("S9", port("A9", ""), port("V1", "front"))
		s.Length = quantity.Length(math.Hypot(tt.ahead, tt.aside))
		p.Rigs[0].Slings = append(p.Rigs[0].Slings, s)
		a := solver.Assess(p, "R1")
		assert.Equal(t, tt.level, levels(a)["still-fastened"], "%v", tt)
		for i := range a.Findings {
			if f := &a.Findings[i]; f.ID == part.NotDecidedID {
				assert.Contains(t, f.Lacks, part.Lack{Thing: "V1", Member: "casualty.way_length_m", Rule: "still-fastened"})
			}
		}
	}
}

// Two straps one behind another reach as far as both: 4.12 m to the post and as far
// again after 8 m; 5.5 m of slack ones after 4 + √(5.5² − 1) = 9.4 m.
func TestStrapsOneBehindAnotherReachTogether(t *testing.T) {
	for way, tt := range map[float64]struct {
		one, two float64
		level    part.Level
	}{
		7.9: {math.Hypot(4, 1) / 2, math.Hypot(4, 1) / 2, part.Warning}, 8.4: {math.Hypot(4, 1) / 2, math.Hypot(4, 1) / 2, part.Danger},
		9.2: {4, 1.5, part.Warning}, 9.7: {4, 1.5, part.Danger},
	} {
		p := basePlan()
		p.Site.Vehicles[0].Stuck.WayLength = quantity.Length(way)
		p.Site.Anchors = append(p.Site.Anchors, ratedPoint("A9", 6.6, 1))
		k := plan.Shackle{Head: plan.Head{ID: "K9"}, Kind: plan.ShackleBow, At: plan.Point{X: 4.6, Y: 0.5}, Rating: working(47000), Body: 0.019}
		x, y := strap("S8", port("A9", ""), port("K9", "")), strap("S9", port("K9", ""), port("V1", "front"))
		x.Length, y.Length = quantity.Length(tt.one), quantity.Length(tt.two)
		r := &p.Rigs[0]
		r.Shackles, r.Slings = append(r.Shackles, k), append(r.Slings, x, y)
		assert.Equal(t, tt.level, levels(solver.Assess(p, "R1"))["still-fastened"], way)
	}
}
