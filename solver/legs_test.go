package solver_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// chained hangs the block by two straps, one behind another in a shackle.
func chained(p *plan.Plan) {
	r := &p.Rigs[0]
	r.Slings[0].Length, r.Slings[0].Holds = 1, port("K2", "")
	s := strap("S2", port("K2", ""), port("B1", ""))
	s.Length = 1
	r.Slings = append(r.Slings, s)
	r.Shackles[0].Joins = []plan.Port{port("S2", ""), port("B1", "")}
	r.Shackles = append(r.Shackles, plan.Shackle{Head: plan.Head{ID: "K2"}, Kind: plan.ShackleBow, At: plan.Point{X: 20.7, Y: -0.7}, Rating: working(47000), Body: 0.019})
}

// turnedRound draws a sling from its other end.
func turnedRound(s *plan.Sling) { s.On, s.Holds = s.Holds, s.On }

// What hangs in a chain carries all of its pull, a shackle between two straps
// too: the force of one on it is that of the other, turned round. They are no two
// legs.
func TestAShackleBetweenTwoStrapsCarriesThePull(t *testing.T) {
	for name, turn := range map[string]change{
		"drawn one after the other": func(*plan.Plan) {},
		"drawn toward each other":   on(func(r *plan.Rig) { turnedRound(&r.Slings[1]) }),
		"drawn from each other":     on(func(r *plan.Rig) { turnedRound(&r.Slings[0]) }),
	} {
		t.Run(name, func(t *testing.T) {
			a := assessed(t, do(chained, turn))
			for _, id := range []string{"S1", "K2", "S2", "A1"} {
				p := partOf(t, a, id)
				assert.InEpsilon(t, float64(partOf(t, a, "B1").Move.Force), float64(p.Move.Force), 1e-6, id)
				assert.Equal(t, part.Within, p.Status, id)
			}
			assert.NotContains(t, levels(a), "shackle-legs-wide")
			assert.Equal(t, solver.Settled, a.Verdict())
		})
	}
}

// A bridle is one whichever way its legs are drawn.
func TestABridleDrawnFromTheOtherEnd(t *testing.T) {
	want := assessed(t, bridled(2))
	for _, id := range []string{"S8", "S9"} {
		turn := on(func(r *plan.Rig) {
			for i := range r.Slings {
				if string(r.Slings[i].ID) >= id { // one leg, or both
					turnedRound(&r.Slings[i])
				}
			}
		})
		got := assessed(t, do(bridled(2), turn))
		for _, part := range []string{"S8", "S9", "K8", "V1/left", "V1/right"} {
			assert.InEpsilon(t, float64(partOf(t, want, part).Move.Force), float64(partOf(t, got, part).Move.Force), 1e-6, part)
		}
		assert.Contains(t, levels(got), "bridle-fixed")
	}
}

// A line that ends on a block loads it as one that runs through it does.
func TestABlockThatALineEndsOnIsAPart(t *testing.T) {
	a := assessed(t, do(func(p *plan.Plan) { // straight to a block on a strap at the pickup
		r := &p.Rigs[0]
		r.Lines[0].Path = []plan.Port{port("V2", "winch"), port("B1", "becket")}
		r.Slings[0].On = port("V1", "front")
		r.Blocks[0].At = plan.Point{X: 4.7}
		p.Site.Vehicles[1].At, p.Site.Vehicles[1].Bearing = plan.Point{X: 25}, 270
		r.Dampers = r.Dampers[:1]
	}))
	b := partOf(t, a, "B1")
	assert.Equal(t, part.Within, b.Status)
	assert.InEpsilon(t, 2000, float64(b.Move.Force), 1e-3, "all of the measured pull")
}

// A block that nothing holds refuses the rig, though a strap hangs on it.
func TestABlockOnAStrapThatHangsLoose(t *testing.T) {
	a := assessed(t, on(func(r *plan.Rig) { r.Slings[0].On = plan.Port{} }))
	assert.Equal(t, part.Refused, a.Status)
	assert.True(t, slices.ContainsFunc(a.Findings, func(f part.Finding) bool {
		return f.ID == "loose-end" && f.Level == part.Warning && f.Things[0] == "B1"
	}))
}

// How long each piece of a chain is decides where its block hangs.
func TestAPieceOfAChainNobodyMeasured(t *testing.T) {
	a := assessed(t, do(chained, on(func(r *plan.Rig) { r.Slings[0].Length = 0 })))
	assert.Equal(t, part.Refused, a.Status)
	assert.Equal(t, part.Warning, levels(a)["sling-length-unknown"])
	a = assessed(t, do(onTree, chained, on(func(r *plan.Rig) { r.Slings[0].Length = 0.9 })))
	assert.Equal(t, part.Refused, a.Status, "round a trunk of 0.94 m girth")
	assert.Equal(t, part.Danger, levels(a)["sling-too-short"])
}

// Which leg of a bridle is taut hangs on how thick a trunk its strap goes round.
func TestALegRoundATrunkNobodyMeasured(t *testing.T) {
	legs := do(onTree, func(p *plan.Plan) {
		p.Site.Anchors = append(p.Site.Anchors, ratedPoint("A2", 22.5, -0.5))
		s := strap("S2", port("A2", ""), port("B1", ""))
		s.Length = 2.4
		p.Rigs[0].Slings = append(p.Rigs[0].Slings, s)
	})
	require.NotEqual(t, part.Refused, assessed(t, legs).Status)
	a := assessed(t, do(legs, theAnchor(func(a *plan.Anchor) { a.Trunk, a.Girth = 0, 0 })))
	assert.Equal(t, part.Refused, a.Status)
	assert.Equal(t, part.Warning, levels(a)["sling-trunk-unknown"])
	a = assessed(t, do(legs, theAnchor(func(a *plan.Anchor) { a.Kind = "" })))
	assert.Equal(t, "anchor-kind-unknown", a.Why, "it may be a tree")
	assert.Equal(t, part.Warning, levels(a)["anchor-kind-unknown"])
}

// A vehicle that nothing draws on is no part of the pull, on a side slope either.
func TestAHoldBackWithNothingToHold(t *testing.T) {
	behind := do(sloped(0.4, 180), heldFrom(false), on(func(r *plan.Rig) {
		l := &r.Lines[1]
		l.Use, l.Fixed = plan.UseHoldBack, 0
	}))
	a := assessed(t, behind)
	_, ok := a.Part("V3/slide")
	assert.False(t, ok)
	assert.NotContains(t, levels(a), "hold-not-computed")
	a = assessed(t, do(behind, func(p *plan.Plan) {
		p.Site.Vehicles[2].Brake, p.Site.Vehicles[2].Chocks = plan.BrakeNone, plan.ChocksNone
	}))
	assert.Equal(t, part.Danger, levels(a)["no-brake"], "it must stand all the same")
}

// A choked strap carries less than a straight one whatever it is round.
func TestATieBackChokedOnAPoint(t *testing.T) {
	straight := partOf(t, assessed(t, tiedBack(40000, 0)), "S2").Limit.Force
	choked := partOf(t, assessed(t, do(tiedBack(40000, 0), on(func(r *plan.Rig) { r.Slings[1].Hitch = plan.HitchChoked }))), "S2").Limit
	assert.True(t, !choked.Known || choked.Force < straight, "%v, straight %v", choked, straight)
}

// Where the pull to move is not known, what an anchor takes from the side is told
// at stall, not of a pull nobody makes. By hand: sin of the angle times the load.
func TestASidePullIsToldAtAPullThatIsMade(t *testing.T) {
	a := assessed(t, do(onPickets, theAnchor(func(a *plan.Anchor) { a.SetBearing += 30 }), casualty(func(v *plan.Vehicle) { v.Mass = 0 }), byRules))
	f, ok := findingOf(a, "anchor-aside")
	require.True(t, ok)
	p := partOf(t, a, "A1")
	require.False(t, p.Move.Known)
	level := math.Hypot(p.Stall.Vec.X, p.Stall.Vec.Y)
	for _, v := range f.Values {
		if v.Name == "side" {
			assert.InEpsilon(t, level*math.Sin(p.Stall.Off.Radians()), v.X, 1e-2)
		}
	}
}

// The factor of a fixed bridle goes on to the vehicle that its leg is fast to: it
// must hold the whole, as the point must. By hand: pulled along its middle, what
// slides it is the force on its one point.
func TestABridleLegOnAnAnchorVehicle(t *testing.T) {
	legs := do(onVehicle, func(p *plan.Plan) {
		p.Site.Anchors = append(p.Site.Anchors, ratedPoint("A2", 23.2, -0.2))
		r := &p.Rigs[0]
		r.Slings[0].Holds = port("K2", "")
		r.Slings[0].Length = 1.1
		s, one := strap("S2", port("A2", ""), port("K2", "")), strap("S3", port("K2", ""), port("B1", ""))
		s.Length, one.Length = 2.1, 0.9
		r.Slings = append(r.Slings, s, one)
		r.Shackles[0].Joins = []plan.Port{port("S3", ""), port("B1", "")}
		r.Shackles = append(r.Shackles, plan.Shackle{Head: plan.Head{ID: "K2"}, Kind: plan.ShackleBow, At: plan.Point{X: 20.7, Y: -0.7}, Rating: working(47000), Body: 0.019})
	})
	a := assessed(t, legs)
	whole := assessed(t, do(legs, on(func(r *plan.Rig) { r.Slings = slices.Delete(r.Slings, 1, 2) })))
	require.Contains(t, levels(a), "bridle-fixed")
	one, all := partOf(t, a, "V3/slide"), partOf(t, whole, "V3/slide")
	point, wholePoint := partOf(t, a, "V3/front"), partOf(t, whole, "V3/front")
	assert.InEpsilon(t, float64(wholePoint.Move.Force), float64(point.Move.Force), 0.1, "the whole, along a leg that stands askew")
	assert.InEpsilon(t, all.Used, one.Used, 0.25)
}

// Each truck of two is told by its own line, and what ties it back carries the
// whole as its line does.
// The pickup helps with its own winch on the point that holds the block: what
// that carries is no less than what hangs on it alone, whichever winch stops: each
// has half of the pull while both haul, and all of it alone.
func TestTwoWinchesOnOneAnchor(t *testing.T) {
	a := assessed(t, func(p *plan.Plan) {
		v := &p.Site.Vehicles[0]
		w := *p.Site.Vehicles[1].Winch
		w.Ahead = 2.6
		v.Winch = &w
		r := &p.Rigs[0]
		r.Lines = append(r.Lines, winchLine("L2", port("V1", "winch"), port("A1", "")))
	})
	load := func(id string) *part.Part { return partOf(t, a, id) }
	for _, id := range []string{"S1", "L2/1"} {
		assert.GreaterOrEqual(t, float64(load("A1").Move.Force), float64(load(id).Move.Force)*(1-1e-9), id)
		assert.GreaterOrEqual(t, float64(load("A1").Loosen.Force), float64(load(id).Loosen.Force)*(1-1e-9), id)
		assert.GreaterOrEqual(t, float64(load("A1").Stall.Force), float64(load(id).Stall.Force)*(1-1e-9), id)
	}
	// And no more than the worse of the two: whatever share each has, together
	// they are between the two ends (the norm is convex).
	assert.InDelta(t, 1, float64(load("A1").Move.Force/load("S1").Move.Force), 1e-6)
}

func TestTwoWinchesTiedBack(t *testing.T) {
	two := func(p *plan.Plan) {
		v := truck()
		v.ID, v.Name, v.At, v.Bearing = "V3", "Second truck", plan.Point{X: 25, Y: 3}, 270
		v.Winch.LinePull, v.Winch.Limiter = 21000, 3000
		p.Site.Vehicles = append(p.Site.Vehicles, v)
		p.Site.Vehicles[1].At, p.Site.Vehicles[1].Bearing = plan.Point{X: 25, Y: -1}, 270
		p.Site.Anchors = []plan.Anchor{ratedPoint("A1", 32, -1)}
		r := &p.Rigs[0]
		r.Blocks, r.Shackles, r.Dampers = nil, nil, nil
		r.Lines = []plan.Line{winchLine("L1", port("V2", "winch"), port("V1", "front")), winchLine("L2", port("V3", "winch"), port("V1", "front"))}
		r.Slings = []plan.Sling{strap("S1", port("A1", ""), port("V2", "rear"))}
		r.Slings[0].Use, r.Slings[0].Length = plan.UseTieBack, 4
	}
	a := assessed(t, two)
	whole := partOf(t, a, "L1/1").Move.Force
	require.InEpsilon(t, float64(whole), float64(partOf(t, a, "L2/1").Move.Force), 1e-6)
	for _, id := range []string{"S1", "A1", "V2/rear", "V2/slide", "V3/slide"} {
		p := partOf(t, a, id)
		assert.InEpsilon(t, float64(whole), float64(p.Move.Force), 1e-2, id)
	}
}

// A line that comes back to its truck draws on it twice: the line tension that a
// tie-back is good for is half of its limit. By hand: pull over tension, both
// lines parallel.
func TestATieBackOfATruckThatItsLineComesBackTo(t *testing.T) {
	a := assessed(t, do(tiedBack(40000, 0), func(p *plan.Plan) {
		v := &p.Site.Vehicles[1]
		v.At, v.Bearing = plan.Point{X: 25}, 270
		v.Brake, v.Chocks = plan.BrakeNone, plan.ChocksNone
		p.Site.Anchors[1].At = plan.Point{X: 32}
		r := &p.Rigs[0]
		r.Lines[0].Path = []plan.Port{port("V2", "winch"), port("B1", ""), port("V2", "front")}
		r.Blocks[0].At, r.Blocks[0].Fixed = plan.Point{X: 2.6}, port("V1", "front")
		r.Slings = r.Slings[1:]
		r.Shackles, r.Dampers = nil, nil
	}))
	slide, strap := partOf(t, a, "V2/slide"), partOf(t, a, "S2")
	require.Equal(t, "tie-back", slide.Limit.Basis)
	assert.InEpsilon(t, float64(strap.Move.Force/slide.Move.Force), 1.96, 1e-2, "1 + 0.96")
	assert.InEpsilon(t, float64(slide.Limit.Force)*1.96, float64(strap.Limit.Force), 2e-2)
}
