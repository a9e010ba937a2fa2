package solver_test

import (
	"math"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// lacked reports whether a rule said it could not decide for want of a member.
func lacked(a *solver.Assessment, rule string, thing plan.ID, member string) bool {
	return slices.ContainsFunc(a.Findings, func(f part.Finding) bool {
		return slices.Contains(f.Lacks, part.Lack{Thing: thing, Member: member, Rule: rule})
	})
}

// What an anchor needs of the ground and of its strap is not taken for level and
// for low.
func TestAnchorsSayWhatTheyLack(t *testing.T) {
	slopeless := func(p *plan.Plan) { p.Site.Ground.Slope = plan.Maybe[quantity.Degrees]{} }
	a := assessed(t, do(onBoulder, slopeless))
	assert.True(t, lacked(a, "boulder-slides", "", "slope_deg"))
	assert.False(t, partOf(t, a, "A1").Limit.Known, "a boulder's hold hangs on the slope")
	directionless := func(p *plan.Plan) { p.Site.Ground.Slope = plan.Known(quantity.Degrees(4)) }
	assert.True(t, lacked(assessed(t, do(onPickets, directionless)), "pickets-lifted", "", "downhill_bearing_deg"))
	assert.True(t, lacked(assessed(t, do(onTree, theSling(func(s *plan.Sling) { s.Height = 0 }))), "tree-strap-high", "S1", "height_m"))
	assert.False(t, lacked(assessed(t, onTree), "tree-strap-high", "S1", "height_m"))
}

// The side-load of an anchor set for a direction lies along the ground: the
// horizontal part of its load times the sine of the angle, whatever the line
// lifts.
func TestSideLoadOfAnAnchorLiesAlongTheGround(t *testing.T) {
	q := partOf(t, assessed(t, do(onPickets, high(2), theAnchor(func(a *plan.Anchor) { a.SetBearing = 315 + 10 }))), "A1")
	require.True(t, q.Move.Known)
	v := q.Move.Vec
	require.Greater(t, v.Z, 0.2*math.Hypot(v.X, v.Y), "it lifts")
	s, c := math.Sincos(float64(quantity.Degrees(315 + 10).Radians()))
	require.InDelta(t, math.Abs(v.X*c-v.Y*s), float64(q.Move.Side), 1e-6)
	require.Less(t, float64(q.Move.Off), 12.0)
	require.InDelta(t, math.Sqrt(v.Dot(v)), float64(q.Move.Force), 1e-6)
}

// The thin end of a girth's doubt counts, and a hold that may be nothing is none.
func TestDoubtsOfAnAnchorCountAtTheirLowEnd(t *testing.T) {
	known := partOf(t, assessed(t, onTree), "A1").Limit.Force
	thin := partOf(t, assessed(t, do(onTree, theAnchor(func(a *plan.Anchor) {
		a.Doubts = []plan.Doubt{{Member: "girth_m", Low: float64(a.Girth) / 2, High: float64(a.Girth)}}
	}))), "A1").Limit.Force
	half := partOf(t, assessed(t, do(onTree, theAnchor(func(a *plan.Anchor) { a.Girth /= 2 }))), "A1").Limit.Force
	assert.Less(t, float64(half), float64(known)/2)
	assert.Equal(t, half, thin)
	a := assessed(t, do(onTree, theAnchor(func(a *plan.Anchor) {
		a.HoldLow, a.Doubts = plan.Known(quantity.Force(20000)), []plan.Doubt{{Member: "hold_low_n", High: 40000}}
	})))
	assert.Equal(t, part.Danger, levels(a)["holds-nothing"])
	assert.Equal(t, part.Over, partOf(t, a, "A1").Status)
}

// A tree known by its girth alone has a thickness for all that asks for one.
func TestAGirthIsAThicknessToo(t *testing.T) {
	bare := do(onTree, on(func(r *plan.Rig) {
		r.Blocks, r.Slings, r.Shackles = nil, nil, nil
		r.Lines[0].Path[1] = port("A1", "")
	}), theAnchor(func(a *plan.Anchor) { a.At = plan.Point{X: 20} }))
	byGirth := theAnchor(func(a *plan.Anchor) { a.Trunk = 0 })
	unmeasured := theAnchor(func(a *plan.Anchor) { a.Girth, a.Trunk = 0, 0 })
	lacks := func(a *solver.Assessment) bool {
		return slices.ContainsFunc(a.Findings, func(f part.Finding) bool {
			return slices.ContainsFunc(f.Lacks, func(l part.Lack) bool { return l.Member == "trunk_m" })
		})
	}
	assert.False(t, lacks(assessed(t, do(bare, byGirth))))
	assert.True(t, lacks(assessed(t, do(bare, unmeasured))))
	beside := func(p *plan.Plan) { // 0.4 m by its girth, 0.5 m at the strap: the line passes at 0.24 m
		treeBeside(0.24)(p)
		t := &p.Site.Anchors[len(p.Site.Anchors)-1]
		t.Girth, t.Trunk = 0.4*math.Pi, 0
	}
	assert.Equal(t, part.Danger, levels(assessed(t, beside))["line-on-trunk"])
}

// A plan that knows a tree by its thickness at the strap alone, as plans did
// before the girth was asked for, opens and says what it takes for the girth.
func TestAPlanWithoutGirthsSaysWhatItTakes(t *testing.T) {
	data, err := os.ReadFile("../testdata/v1/redirect.kedge")
	require.NoError(t, err)
	require.NotContains(t, string(data), "girth_m")
	p, err := plan.ParsePlan(data)
	require.NoError(t, err)
	for i := range p.Site.Anchors { // nobody entered more than the trunks of these trees
		p.Site.Anchors[i].Health, p.Site.Anchors[i].Height = plan.HealthAlive, 20
	}
	a := solver.Assess(p, p.Rigs[1].ID) // the first bears on the boulder
	i := slices.IndexFunc(a.Findings, func(f part.Finding) bool { return f.ID == "tree-girth-assumed" })
	require.GreaterOrEqual(t, i, 0)
	assert.Equal(t, part.Notice, a.Findings[i].Level)
	tree, ok := p.Anchor(a.Findings[i].Things[0])
	require.True(t, ok)
	assert.InDelta(t, 0.8*float64(tree.Trunk), a.Findings[i].Values[0].X, 1e-12)
	assert.True(t, partOf(t, a, string(tree.ID)).Limit.Known)
}
