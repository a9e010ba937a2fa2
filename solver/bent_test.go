package solver_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// roundCorner ties the truck's rear back by a line over a corner to a point aside.
func roundCorner(over plan.ID) change {
	return func(p *plan.Plan) {
		p.Site.Vehicles[1].Recovery[1].MaxAngle = 80
		p.Site.Anchors = append(p.Site.Anchors, ratedPoint("A9", 26, 26))
		l := winchLine("L9", port("V2", "rear"), port(over, ""), port("A9", ""))
		l.Use, l.Length = plan.UseTieBack, 11
		p.Rigs[0].Lines = append(p.Rigs[0].Lines, l)
	}
}

// What a tie-back runs over, branches to or hangs on is loaded by nobody knows
// how much: never slack, and never within a limit by what else loads it.
func TestWhatABentTieBackPassesIsNotComputed(t *testing.T) {
	corner := func(p *plan.Plan) { p.Site.Anchors = append(p.Site.Anchors, ratedPoint("A8", 20, 27)) }
	hung := func(fixed bool) change {
		return do(corner, func(p *plan.Plan) {
			b := block("B9", 20, 26)
			s := strap("S9", port("A8", ""), port("B9", ""))
			s.Length = 1
			if fixed {
				b.Fixed = port("A8", "")
			} else {
				p.Rigs[0].Slings = append(p.Rigs[0].Slings, s)
			}
			p.Rigs[0].Blocks = append(p.Rigs[0].Blocks, b)
		}, roundCorner("B9"))
	}
	branch := do(corner, func(p *plan.Plan) {
		p.Site.Anchors = append(p.Site.Anchors, ratedPoint("A9", 26, 26))
		r := &p.Rigs[0]
		for _, s := range []plan.Sling{strap("S7", port("V2", "rear"), port("K9", "")), strap("S8", port("K9", ""), port("A8", "")), strap("S9", port("K9", ""), port("A9", ""))} {
			s.Use = plan.UseTieBack
			r.Slings = append(r.Slings, s)
		}
		r.Shackles = append(r.Shackles, plan.Shackle{Head: plan.Head{ID: "K9"}, Kind: plan.ShackleBow, At: plan.Point{X: 20, Y: 23}, Rating: working(47000), Body: 0.019})
	})
	for what, c := range map[string]struct {
		change change
		parts  []string
	}{
		"over a block on a point":    {hung(true), []string{"B9", "A8", "V2/rear", "L9/1"}},
		"over a block in a sling":    {hung(false), []string{"B9", "S9", "A8", "V2/rear", "L9/1"}},
		"round a post":               {do(corner, roundCorner("A8")), []string{"A8", "V2/rear", "L9/1"}},
		"to two points":              {branch, []string{"K9", "S7", "S8", "S9", "A8", "A9", "V2/rear"}},
		"over the block of the pull": {roundCorner("B1"), []string{"B1", "S1", "K1", "A1", "V2/rear"}},
	} {
		p := basePlan()
		c.change(p)
		a := solver.Assess(p, "R1")
		for _, id := range c.parts {
			q := partOf(t, a, id)
			assert.Equal(t, part.NotComputed, q.Status, "%s: %s", what, id)
			assert.False(t, q.Move.Known, "%s: %s", what, id)
		}
		assert.NotContains(t, levels(a), "slack-sling", what)
		assert.Contains(t, levels(a), "restraint-not-computed", what)
		assert.False(t, a.Complete, what)
	}
}

// What is over its limit by the pull alone is over, whatever a tie-back adds.
func TestWhatIsOverByThePullAloneIsOver(t *testing.T) {
	p := basePlan()
	p.Rigs[0].Blocks[0].Rating = working(500)
	roundCorner("B1")(p)
	assert.Equal(t, part.Over, partOf(t, solver.Assess(p, "R1"), "B1").Status)
}

// A strap between two points of the casualty on which the line ends is no bridle:
// what it does to either point is not known, and not zero.
func TestAPointThatOnlyATetherHangsOnIsNotComputed(t *testing.T) {
	p := basePlan()
	v := &p.Site.Vehicles[0]
	v.Recovery = append(v.Recovery, vehiclePoint("right", 2.6, -0.5, 0))
	s := strap("S7", port("V1", "right"), port("V1", "front"))
	s.Length = 3
	r := &p.Rigs[0]
	r.Slings = append(r.Slings, s)
	r.Lines[0].Path[2] = port("S7", "")
	a := solver.Assess(p, "R1")
	assert.Equal(t, part.NotComputed, partOf(t, a, "V1/right").Status)
	assert.True(t, partOf(t, a, "V1/front").Move.Known)
	assert.False(t, a.Complete)
}

// A length between 0.2 and 6 m is no length: that it is assumed at its middle is
// a CAUTION, where a tenth more or less is a NOTICE. (ours: a fifth)
func TestAWideDoubtAtItsMiddleIsACaution(t *testing.T) {
	for level, d := range map[part.Level]plan.Doubt{part.Notice: {Member: "length_m", Low: 1.81, High: 2.19}, part.Caution: {Member: "length_m", Low: 1.79, High: 2.21}} {
		p := basePlan()
		p.Rigs[0].Slings[0].Doubts = []plan.Doubt{d}
		assert.Equal(t, level, levels(solver.Assess(p, "R1"))["doubt-at-middle"])
	}
}
