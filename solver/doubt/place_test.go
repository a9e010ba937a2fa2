package doubt_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/doubt"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// walled is the redirect with a wall south of its first stretch, its place known to ± r
// north and south, and by how far north the wall has to lie to refuse the rig.
func walled(t *testing.T, r quantity.Length) (p *plan.Plan, refusedM float64) {
	t.Helper()
	p = redirect(t, func(p *plan.Plan) {})
	a := solver.Assess(p, p.Rigs[0].ID)
	require.NotEmpty(t, a.Stretches)
	s := a.Stretches[0]
	x, y := (s.A.X+s.B.X)/2, (s.A.Y+s.B.Y)/2
	wall := plan.Obstacle{Head: plan.Head{ID: "O9"}, Kind: "wall", Outline: []plan.Point{{X: x - 0.3, Y: y - 2}, {X: x + 0.3, Y: y - 2}, {X: x + 0.3, Y: y - 1}, {X: x - 0.3, Y: y - 1}}}
	north := wall.WithPlaceDoubt(plan.Centroid(wall.Outline), r)[1:]
	wall.Doubts = north
	p.Site.Obstacles = []plan.Obstacle{wall}
	low, high := 0.0, 2.0
	for range 40 { // bisection
		mid := (low + high) / 2
		q := *p
		o := wall
		o.Doubts, o.Outline = nil, nil
		for _, c := range wall.Outline {
			o.Outline = append(o.Outline, c.Plus(0, mid))
		}
		q.Site.Obstacles = []plan.Obstacle{o}
		if solver.Assess(&q, p.Rigs[0].ID).Status == part.Refused {
			high = mid
		} else {
			low = mid
		}
	}
	return p, high
}

// An obstacle whose place is in doubt is drawn there: it refuses the rig as often as a
// normal, two of whose standard deviations are its ±, reaches the line. (closed form)
func TestAnObstacleIsDrawnWhereItMayLie(t *testing.T) {
	p, refusedM := walled(t, 2)
	before := p.Site.Obstacles[0].Outline[0]
	c := sampled1(t, p)
	require.Len(t, c.Drawn, 1)
	assert.Equal(t, "at.y_m", c.Drawn[0].Member)
	want := math.Erfc(refusedM/1/math.Sqrt2) / 2 // beyond it, of sd 1 m
	assert.InDelta(t, want, float64(c.Refused)/float64(c.Trials), 0.01, "refused from %g m on", refusedM)
	assert.Equal(t, before, p.Site.Obstacles[0].Outline[0], "the plan keeps its own")
	assert.Empty(t, c.NotDrawn)
}

// Where somebody stands is in no trial: no load hangs on it; that is said, unless it is not
// where they are.
func TestWhereSomebodyStandsIsNotDrawn(t *testing.T) {
	p := redirect(t, func(p *plan.Plan) {
		m := float64(p.Site.Vehicles[0].Mass)
		doubtMass(p, m-100, m+100, true)
	})
	alone := sampled1(t, p)
	q := plan.Person{Head: plan.Head{ID: "P9"}, Role: plan.RoleSpotter, At: plan.Point{X: 40, Y: 40}}
	q.Doubts = q.WithPlaceDoubt(q.At, 1)
	p.Site.People = append(p.Site.People, q)
	c := sampled1(t, p)
	assert.Equal(t, alone.MoveN, c.MoveN, "it takes no dimension")
	require.Len(t, c.NotDrawn, 2)
	assert.Equal(t, plan.ID("P9"), c.NotDrawn[0].Thing)
	p.Site.People[len(p.Site.People)-1].Vehicle = p.Site.Vehicles[0].ID
	assert.Empty(t, sampled1(t, p).NotDrawn)
	p.Site.Vehicles[0].Doubts = nil
	p.Site.People[len(p.Site.People)-1].Vehicle = ""
	_, err := doubt.SamplePlan(p, p.Rigs[0].ID, doubt.Request{Per: trials, Seed: 3, Typed: true})
	assert.True(t, errors.Is(err, doubt.ErrNoDoubt))
}
