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
	"kedge/solver/quantity"
)

// parked adds a second pickup, braked and chocked, with its middle there and its
// nose north: 1.9 m by 5.2 m on the ground.
func parked(x, y float64) change {
	return func(p *plan.Plan) {
		v := pickup()
		v.ID, v.Name, v.At, v.Bearing, v.Stuck = "V3", "Parked pickup", plan.Point{X: x, Y: y}, 0, nil
		v.Brake, v.Chocks = plan.BrakeAll, plan.ChocksAll
		p.Site.Vehicles = append(p.Site.Vehicles, v)
	}
}

func parkedAs(c func(v *plan.Vehicle)) change {
	return func(p *plan.Plan) { c(&p.Site.Vehicles[2]) }
}

// said is the finding of that id about those things, or nil.
func said(a *solver.Assessment, id string, things ...plan.ID) *part.Finding {
	for i := range a.Findings {
		if f := &a.Findings[i]; f.ID == id && slices.Equal(f.Things, things) {
			return f
		}
	}
	return nil
}

func valueOf(t *testing.T, f *part.Finding, name string) float64 {
	t.Helper()
	for _, v := range f.Values {
		if v.Name == name {
			return v.X
		}
	}
	t.Fatalf("%s has no %s", f.ID, name)
	return 0
}

// The line runs along y = 0 from 20 to 2.6 m.
func TestALineThroughAVehicleIsRefused(t *testing.T) {
	a := assessed(t, parked(12, 0))
	f := said(a, "line-bears", "L1", "V3")
	require.NotNil(t, f, "%v", a.Findings)
	require.Equal(t, part.Danger, f.Level)
	require.Equal(t, part.Refused, a.Status)
	require.Equal(t, []string{"L1/2"}, f.Parts)
	require.InDelta(t, 1.9, valueOf(t, f, "length"), 0.001)         // its width
	require.InDelta(t, 15+20-12-1.9/2, valueOf(t, f, "from"), 0.05) // from the winch, past the block
	require.NotEmpty(t, f.Remedies)

	a = assessed(t, parked(12, 3)) // 0.4 m beside its tail
	f = said(a, "line-near", "L1", "V3")
	require.NotNil(t, f, "%v", a.Findings)
	require.InDelta(t, 0.4, valueOf(t, f, "clear"), 0.02)
	require.Nil(t, said(assessed(t, parked(12, 3.2)), "line-near", "L1", "V3"), "0.6 m")

	a = assessed(t, do(parked(12, 0), parkedAs(func(v *plan.Vehicle) { v.Height = 0.3 })))
	require.Equal(t, part.Within, a.Status)
	require.InDelta(t, 0.3, valueOf(t, said(a, "line-over", "L1", "V3"), "clear"), 0.001)

	a = assessed(t, do(parked(12, 3.2), parkedAs(func(v *plan.Vehicle) { v.Width, v.Length = 0, 0 })))
	f = said(a, part.NotDecidedID, "V3")
	require.NotNil(t, f, "%v", a.Findings)
	require.Equal(t, []part.Lack{{Thing: "V3", Member: "length_m", Rule: "line-bears"}, {Thing: "V3", Member: "width_m", Rule: "line-bears"}}, f.Lacks)
}

// A line from the rear point of the pickup to the block leads through its cab.
func TestALineThroughItsOwnVehicleIsRefused(t *testing.T) {
	a := assessed(t, theLine(func(l *plan.Line) { l.Path[2] = port("V1", "rear") }))
	require.NotNil(t, said(a, "line-bears", "L1", "V1"), "%v", a.Findings)
	require.Equal(t, part.Refused, a.Status)
}

// A person who sits in a vehicle is no body beside it.
func TestWhatTheCasualtyMeets(t *testing.T) {
	tree := func(x, y float64, trunk quantity.Length) change {
		return func(p *plan.Plan) {
			p.Site.Anchors = append(p.Site.Anchors, plan.Anchor{Head: plan.Head{ID: "T1"}, Kind: plan.AnchorTree, At: plan.Point{X: x, Y: y}, Trunk: trunk, Height: 12})
		}
	}
	person := func(x, y float64) change {
		return func(p *plan.Plan) { p.Site.People[0].At = plan.Point{X: x, Y: y} }
	}
	way := func(long quantity.Length) change { return stuck(func(s *plan.Stuck) { s.WayLength = long }) }
	for _, tt := range []struct {
		name  string
		c     change
		thing plan.ID
		after float64 // its nose is at 2.6 m, its sides 0.95 m off the middle; less than 0: nothing is met
	}{
		{"a parked vehicle", do(parked(7, 3.5), way(4)), "V3", 7 - 0.95 - 2.6},
		{"not as far", do(parked(7, 3.5), way(3)), "V3", -1},
		{"its puller", puller(func(v *plan.Vehicle) { v.At = plan.Point{X: 5, Y: 3.9} }), "V2", 5 - 1.1 - 2.6},
		{"a tree", tree(4, 0.9, 0.4), "T1", 4 - 0.2 - 2.6},
		{"a tree beside", tree(4, 1.2, 0.4), "T1", -1},
		{"a tree nobody measured", tree(4, 0.9, 0), "T1", 4 - 2.6},
		{"somebody", person(4, 1.4), "P1", 4 - 2.6 - math.Sqrt(0.5*0.5-0.45*0.45)},
		{"somebody beside", person(4, 1.47), "P1", -1},
		{"somebody beside, 2 cm in doubt", do(person(4, 1.46), func(p *plan.Plan) {
			p.Site.People[0].Doubts = []plan.Doubt{{Member: "at.y_m", Low: 1.44, High: 1.48}}
		}), "P1", 4 - 2.6 - math.Sqrt(0.52*0.52-0.51*0.51)},
		{"a way that may be longer", do(parked(7, 3.5), way(3), casualty(func(v *plan.Vehicle) {
			v.Doubts = []plan.Doubt{{Member: "casualty.way_length_m", Low: 2, High: 4}}
		})), "V3", 7 - 0.95 - 2.6},
		{"somebody within it", person(-1, 0.9), "P1", 0},
		{"somebody it moves away from", person(-3.2, 0), "P1", -1},
		{"its block", way(18), "B1", 20 - 0.06 - 2.6},
		{"not up to its block", way(17), "B1", -1},
		{"its anchor", do(way(19), func(p *plan.Plan) { p.Site.Anchors[0].At = plan.Point{X: 21, Y: -0.5} }), "A1", 21 - 2.6},
		{"a stone", stoneAhead(4), "O1", 4 - 2.6},
		{"backwards it does not", do(stoneAhead(4), stuck(func(s *plan.Stuck) { s.Way = plan.WayReverse })), "O1", -1},
		{"a kerb of 4 cm", obstacleAt(0.04, plan.Point{X: 4, Y: 0.6}, plan.Point{X: 5, Y: 0.6}, plan.Point{X: 5, Y: 0.9}, plan.Point{X: 4, Y: 0.9}), "O1", -1},
	} {
		t.Run(tt.name, func(t *testing.T) {
			a := assessed(t, tt.c)
			f := said(a, "casualty-meets", "V1", tt.thing)
			if tt.after < 0 {
				require.Nil(t, f)
				return
			}
			require.NotNil(t, f, "%v", a.Findings)
			require.Equal(t, part.Danger, f.Level)
			require.InDelta(t, tt.after, valueOf(t, f, "after"), 0.025) // the block settles 2 cm off its drawn place
		})
	}
}

// Without a length of the way out nobody knows whether it gets that far; who
// stands in the way is met all the same.
func TestAWayOfUnknownLength(t *testing.T) {
	unknown := stuck(func(s *plan.Stuck) { s.WayLength = 0 })
	a := assessed(t, do(unknown, stoneAhead(9)))
	f := said(a, part.NotDecidedID, "V1")
	require.NotNil(t, f, "%v", a.Findings)
	assert.Contains(t, f.Lacks, part.Lack{Thing: "V1", Member: "casualty.way_length_m", Rule: "casualty-meets"})
	require.Nil(t, said(a, "casualty-meets", "V1", "O1"))
	a = assessed(t, do(unknown, func(p *plan.Plan) { p.Site.People[0].At = plan.Point{X: 9} }))
	require.InDelta(t, 9-2.6-0.5, valueOf(t, said(a, "casualty-meets", "V1", "P1"), "after"), 0.01)

	a = assessed(t, casualty(func(v *plan.Vehicle) { v.Length = 0 }))
	require.Nil(t, said(a, "casualty-meets", "V1", "B1"))
	f = said(a, part.NotDecidedID, "V1")
	require.Nil(t, f, "nothing is near enough to be met: %v", a.Findings)
	a = assessed(t, do(stoneAhead(6), casualty(func(v *plan.Vehicle) { v.Length = 0 })))
	f = said(a, part.NotDecidedID, "V1")
	require.NotNil(t, f, "%v", a.Findings)
	assert.Contains(t, f.Lacks, part.Lack{Thing: "V1", Member: "length_m", Rule: "casualty-meets"})
}

// A block that hangs on the casualty goes with it, and so does a shackle in
// which its two slings meet.
func TestWhatMovesWithTheCasualtyIsNotInItsWay(t *testing.T) {
	a := assessed(t, do(twoBlocks("A2"), stuck(func(s *plan.Stuck) { s.WayLength = 4 }), on(func(r *plan.Rig) {
		r.Blocks[1].Fixed = port("V1", "front")
		r.Lines[0].Path[3] = port("A2", "")
	}), func(p *plan.Plan) { p.Site.Anchors[1].At = plan.Point{X: 20, Y: 1} }))
	for i := range a.Findings {
		require.NotEqual(t, "casualty-meets", a.Findings[i].ID, "%v", a.Findings[i])
	}
}

// A height nobody entered is none: rules that turn on it are not decided, one
// finding a vehicle.
func TestHeightsOfPoints(t *testing.T) {
	lacks := func(a *solver.Assessment, v plan.ID) []part.Lack {
		if f := said(a, part.NotDecidedID, v); f != nil {
			return f.Lacks
		}
		return nil
	}
	flat := casualty(func(v *plan.Vehicle) { v.Recovery[0].Height = 0 })
	require.Equal(t, []part.Lack{{Thing: "V1", Member: "recovery_points.front.height_m", Rule: "tips-sideways"}}, lacks(assessed(t, flat), "V1"))
	require.Equal(t, []part.Lack{{Thing: "V1", Member: "recovery_points.front.height_m", Rule: "tips-sideways"},
		{Thing: "V1", Member: "recovery_points.front.height_m", Rule: "pickets-lifted"}}, lacks(assessed(t, do(onPickets, flat)), "V1"))
	aside := casualty(func(v *plan.Vehicle) { v.Recovery[0].Left = plan.Maybe[quantity.Length]{} })
	require.Equal(t, []part.Lack{{Thing: "V1", Member: "recovery_points.front.left_m", Rule: "tips-sideways"}}, lacks(assessed(t, aside), "V1"))
	a := assessed(t, winch(func(w *plan.Winch) { w.Height = 0 }))
	require.Equal(t, []part.Lack{{Thing: "V2", Member: "winch.height_m", Rule: "vehicle-slides"}}, lacks(a, "V2"))
	a = assessed(t, casualty(func(v *plan.Vehicle) { v.Recovery[1].Height = 0 }))
	require.Nil(t, lacks(a, "V1"), "nothing is hooked on there")
}

// A tie-back from a point of unknown height is not known to lie within its angle.
func TestATieBackFromAPointOfUnknownHeightHoldsNothing(t *testing.T) {
	a := assessed(t, do(lightTruck(410), tiedBack(40000, 0), puller(func(v *plan.Vehicle) { v.Recovery[1].Height = 0 })))
	f := said(a, part.NotDecidedID, "V2")
	require.NotNil(t, f, "%v", a.Findings)
	for _, rule := range []string{"tie-back-askew", "too-short"} {
		require.Contains(t, f.Lacks, part.Lack{Thing: "V2", Member: "recovery_points.rear.height_m", Rule: rule})
	}
	require.NotNil(t, said(a, "vehicle-slides", "V2"), "%v", a.Findings)
}

// A bridle of two slings from the pickup's front meets the line in a shackle that
// goes out with it.
func TestABridleIsNotInItsOwnWay(t *testing.T) {
	a := assessed(t, func(p *plan.Plan) {
		v, r := &p.Site.Vehicles[0], &p.Rigs[0]
		v.Recovery = []plan.RecoveryPoint{vehiclePoint("left", 2.6, 0.5, 0), vehiclePoint("right", 2.6, -0.5, 0)}
		for _, side := range []plan.ID{"left", "right"} {
			r.Slings = append(r.Slings, strap("S"+side, port("V1", side), port("K9", "")))
		}
		r.Shackles = append(r.Shackles, plan.Shackle{Head: plan.Head{ID: "K9"}, Kind: plan.ShackleBow, At: plan.Point{X: 4.5}, Rating: working(47000), Body: 0.019})
		r.Lines[0].Path[2] = port("K9", "")
	})
	require.Equal(t, part.Within, a.Status, "%v", a.Findings)
	require.Nil(t, said(a, "casualty-meets", "V1", "K9"))
}

// Whether a damper or join reaches a block in time turns on how far the casualty
// goes; with none on the line there is nothing to decide.
func TestPassingWantsTheLengthOfTheWay(t *testing.T) {
	unknown := stuck(func(s *plan.Stuck) { s.WayLength = 0 })
	lack := part.Lack{Thing: "V1", Member: "casualty.way_length_m", Rule: "line-cannot-pass"}
	f := said(assessed(t, unknown), part.NotDecidedID, "V1")
	require.NotNil(t, f)
	require.Contains(t, f.Lacks, lack)
	f = said(assessed(t, do(unknown, on(func(r *plan.Rig) { r.Dampers = nil }))), part.NotDecidedID, "V1")
	require.NotNil(t, f, "its block may be in its way")
	require.NotContains(t, f.Lacks, lack)
}

// A tree nobody measured may be up to 2 m thick (ours): within 1 m of its middle
// nobody knows whether the line rubs on it.
func TestALineBesideAnUnmeasuredTree(t *testing.T) {
	for off, decided := range map[float64]bool{0.99: false, 1.02: true} { // the line lies 0.01 m north there
		a := assessed(t, func(p *plan.Plan) {
			p.Site.Anchors = append(p.Site.Anchors, plan.Anchor{Head: plan.Head{ID: "T1"}, Kind: plan.AnchorTree, At: plan.Point{X: 12, Y: off}, Height: 12})
		})
		f := said(a, part.NotDecidedID, "T1")
		require.Equal(t, decided, f == nil, "%v", a.Findings)
		if !decided {
			require.Equal(t, []part.Lack{{Thing: "T1", Member: "trunk_m", Rule: "line-on-trunk"}}, f.Lacks)
		}
	}
}

// An anchor of a kind nobody knows may be such a tree (ours): no part is within its
// limit while the line may rub on it.
func TestALineBesideAnAnchorOfNoKnownKind(t *testing.T) {
	for off, decided := range map[float64]bool{0.99: false, 1.02: true} { // the line lies 0.01 m north there
		a := assessed(t, func(p *plan.Plan) {
			p.Site.Anchors = append(p.Site.Anchors, plan.Anchor{Head: plan.Head{ID: "T1"}, At: plan.Point{X: 12, Y: off}})
		})
		f := said(a, part.NotDecidedID, "T1")
		require.Equal(t, decided, f == nil, "%v", a.Findings)
		if !decided {
			require.Equal(t, []part.Lack{{Thing: "T1", Member: "kind", Rule: "line-on-trunk"}}, f.Lacks)
			require.Equal(t, part.Undecided, partOf(t, a, "L1/1").Status)
		}
	}
}

// A tie-back that nobody knows to run free is not counted: what it would hold
// still slides.
func TestATieBackBesideAnUnmeasuredTreeHoldsNothing(t *testing.T) {
	tied := do(lightTruck(410), tiedBack(40000, 0))
	require.Nil(t, said(assessed(t, tied), "vehicle-slides", "V2"))
	a := assessed(t, do(tied, func(p *plan.Plan) {
		p.Site.Anchors = append(p.Site.Anchors, plan.Anchor{Head: plan.Head{ID: "T1"}, Kind: plan.AnchorTree, At: plan.Point{X: 20.5, Y: 23}, Height: 12})
	}))
	require.NotNil(t, said(a, part.NotDecidedID, "T1"), "%v", a.Findings)
	require.NotNil(t, said(a, "vehicle-slides", "V2"), "%v", a.Findings)
}

// A tackle of four parts takes in four times the way out: over 1 m of it a join 3.9 m
// from the fairlead runs into it, one 4.1 m off does not.
func TestAJoinRunsInByTheTacklesHaul(t *testing.T) {
	for at, meets := range map[quantity.Length]bool{3.9: true, 4.1: false} {
		a := assessed(t, do(tackle(4, 1), func(p *plan.Plan) {
			p.Site.Vehicles[0].Stuck.WayLength = 1
			p.Rigs[0].Lines[0].Joins = []plan.Join{{At: at, Kind: "shackle"}}
		}))
		f, met := findingOf(a, "line-cannot-pass")
		require.Equal(t, meets, met, "%v", at)
		if met {
			assert.Equal(t, "haul", f.Values[2].Name)
			assert.InDelta(t, 4, f.Values[2].X, 1e-3)
			assert.InDelta(t, float64(at), f.Values[1].X, 1e-9)
		}
	}
}
