package plan_test

import (
	"fmt"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

func near(t require.TestingT, want, got, delta float64, about ...any) {
	if !(math.Abs(want-got) <= delta) { // fails on NaN
		assert.Fail(t, "not near", "want %v, got %v, within %v; %v", want, got, delta, about)
	}
}

func redirect(t testing.TB) *plan.Plan {
	t.Helper()
	data, err := os.ReadFile("../../testdata/v1/redirect.kedge")
	require.NoError(t, err)
	p, err := plan.ParsePlan(data)
	require.NoError(t, err)
	return p
}

func TestIndexFindsEverything(t *testing.T) {
	p := redirect(t)
	x := plan.NewIndex(p, &p.Rigs[1])
	assert.Same(t, &p.Site.Vehicles[1], x.Vehicle("V2"))
	assert.Same(t, &p.Site.Anchors[2], x.Anchor("T3"))
	assert.Same(t, &p.Site.Obstacles[0], x.Obstacle("O1"))
	assert.Same(t, &p.Site.People[0], x.Person("P1"))
	assert.Same(t, &p.Rigs[1].Lines[0], x.Line("L1"))
	assert.Same(t, &p.Rigs[1].Blocks[0], x.Block("B1"))
	assert.Same(t, &p.Rigs[1].Slings[0], x.Sling("S1"))
	assert.Same(t, &p.Rigs[1].Shackles[0], x.Shackle("K1"))
	assert.Same(t, &p.Rigs[1].Dampers[0], x.Damper("D1"))
	assert.Nil(t, x.Vehicle("T1"))
	assert.Nil(t, x.Block("none"))
	assert.Nil(t, x.UnknownThing("V1"))
	assert.Equal(t, plan.NoThing, x.Kind("none"))
	assert.Equal(t, plan.Slot{Kind: plan.ThingAnchor, Pos: 1}, x.Find("T2"))
	assert.Nil(t, plan.NewIndex(p, nil).Block("B1"), "the site alone")
	assert.Zero(t, testing.AllocsPerRun(100, func() { x.Block("B1") }))

	v, ok := p.Vehicle("V1")
	require.True(t, ok)
	assert.Same(t, v, p.Casualty())
	r, ok := p.RigByName("Redirect")
	require.True(t, ok)
	assert.Equal(t, plan.ID("R2"), r.ID)
	assert.Equal(t, 1, p.RigIndex("R2"))
	_, ok = r.Sling("S2")
	assert.False(t, ok)
}

func TestNames(t *testing.T) {
	p := redirect(t)
	assert.Equal(t, map[plan.ID]string{ // the names of storyboard A
		"V1": "Casualty", "V2": "Winch vehicle", "T1": "Tree 1", "T2": "Tree 2", "T3": "Tree 3", "O1": "Boulder 1",
		"P1": "Spotter 1", "P2": "Operator 1", "L1": "Line 1", "B1": "Block 1", "S1": "Sling 1", "K1": "Shackle 1", "D1": "Damper 1",
	}, plan.Names(p, &p.Rigs[1]))
	assert.Equal(t, "Redirect", plan.RigName(p, 1))
	assert.Equal(t, "fairlead", plan.PointName(&p.Site.Vehicles[1], plan.PortWinch))
	assert.Equal(t, "front point", plan.PointName(&p.Site.Vehicles[0], "front"))

	q := plan.New()
	q.Site.Vehicles = []plan.Vehicle{
		{Head: plan.Head{ID: "a"}, Winch: &plan.Winch{}},
		{Head: plan.Head{ID: "b"}, Winch: &plan.Winch{}},
		{Head: plan.Head{ID: "c"}},
		{Head: plan.Head{ID: "d", Name: "Warden's truck"}, Stuck: &plan.Stuck{}},
	}
	q.Site.Anchors = []plan.Anchor{
		{Head: plan.Head{ID: "e"}, Kind: plan.AnchorTree},
		{Head: plan.Head{ID: "f", Name: "Tree 1"}, Kind: plan.AnchorTree},
		{Head: plan.Head{ID: "g"}, Kind: plan.AnchorBoulder},
		{Head: plan.Head{ID: "h"}, Kind: plan.AnchorPickets},
	}
	q.Site.Obstacles = []plan.Obstacle{{Head: plan.Head{ID: "i"}, Kind: "boulder"}, {Head: plan.Head{ID: "j"}}}
	q.Site.Unknown = []plan.UnknownThing{{ID: "k", Kind: "kite"}}
	assert.Equal(t, map[plan.ID]string{
		"a": "Winch vehicle 1", "b": "Winch vehicle 2", "c": "Vehicle 3", "d": "Warden's truck",
		"e": "Tree 2", "f": "Tree 1", "g": "Boulder 1", "h": "Picket holdfast 1", "i": "Boulder 2", "j": "Obstacle 1", "k": "Unknown thing 1",
	}, plan.Names(q, nil))
}

func TestNamesAreUnique(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plan.New()
		own := rapid.SampledFrom([]string{"", "", "Tree 1", "Boulder 2", "Casualty"})
		typed := map[string]bool{}
		for i := range rapid.IntRange(0, 8).Draw(t, "things") {
			name := own.Draw(t, "name")
			if typed[name] {
				name = ""
			}
			typed[name] = true
			h := plan.Head{ID: plan.ID(fmt.Sprint("x", i)), Name: name}
			switch rapid.IntRange(0, 3).Draw(t, "kind") {
			case 0:
				p.Site.Anchors = append(p.Site.Anchors, plan.Anchor{Head: h, Kind: plan.AnchorTree})
			case 1:
				p.Site.Anchors = append(p.Site.Anchors, plan.Anchor{Head: h, Kind: plan.AnchorBoulder})
			case 2:
				p.Site.Obstacles = append(p.Site.Obstacles, plan.Obstacle{Head: h, Kind: "boulder"})
			case 3:
				p.Site.Vehicles = append(p.Site.Vehicles, plan.Vehicle{Head: h, Stuck: &plan.Stuck{}})
			}
		}
		names := plan.Names(p, nil)
		seen := map[string]plan.ID{}
		for id, n := range names {
			require.NotEmpty(t, n)
			require.Empty(t, seen[n], "%s and %s are both %s", id, seen[n], n)
			seen[n] = id
		}
		require.Len(t, names, len(p.Site.Anchors)+len(p.Site.Obstacles)+len(p.Site.Vehicles))
	})
}

func TestNewID(t *testing.T) {
	p := redirect(t)
	for prefix, want := range map[string]plan.ID{
		plan.PrefixVehicle: "V3", plan.PrefixTree: "T4", plan.PrefixAnchor: "A1", plan.PrefixRig: "R3", plan.PrefixSling: "S2", plan.PrefixDamper: "D2",
	} {
		assert.Equal(t, want, plan.NewID(p, prefix))
	}
	p.Site.Anchors = p.Site.Anchors[2:]
	assert.Equal(t, plan.ID("T4"), plan.NewID(p, "T"), "no gap is filled")
	p.Site.Notes = []plan.Note{{Head: plan.Head{ID: "T99999999999999999999"}}, {Head: plan.Head{ID: "T-8"}}, {Head: plan.Head{ID: "T+80"}}}
	assert.Equal(t, plan.ID("T4"), plan.NewID(p, "T"))
}

func TestPlaceOfPoints(t *testing.T) {
	p := redirect(t)
	x := plan.NewIndex(p, nil)
	// storyboard A, step 5 and 12; 1 cm, its rounding
	winch, ok := x.PortPlace(plan.Port{Thing: "V2", Point: plan.PortWinch})
	require.True(t, ok)
	near(t, 29.95, winch.At.X, 0.01)
	near(t, 7.60, winch.At.Y, 0.01)
	near(t, 0.85, float64(winch.Height), 1e-12)
	front, ok := x.PortPlace(plan.Port{Thing: "V1", Point: "front"})
	require.True(t, ok)
	assert.Equal(t, plan.Point{X: 8.1, Y: 8.5}, front.At)
	assert.Equal(t, quantity.Degrees(90), front.Axis)
	assert.True(t, front.AxisAssumed)
	tree, ok := x.PortPlace(plan.Port{Thing: "T1"})
	require.True(t, ok)
	assert.Equal(t, plan.Spot{At: plan.Point{X: 24, Y: 19.5}}, tree)
	_, ok = x.PortPlace(plan.Port{Thing: "V1", Point: plan.PortWinch})
	assert.False(t, ok)
	_, ok = x.PortPlace(plan.Port{Thing: "P1"})
	assert.False(t, ok)

	v := plan.Vehicle{At: plan.Point{X: 10, Y: 20}, Bearing: 180, Length: 4, Width: 2}
	// by definition: heading south, left is east
	assert.Equal(t, plan.Point{X: 11, Y: 18}, v.Place(2, 1))
	assert.Equal(t, [4]plan.Point{{X: 11, Y: 18}, {X: 11, Y: 22}, {X: 9, Y: 22}, {X: 9, Y: 18}}, v.Corners())
	v.Stuck = &plan.Stuck{Way: plan.WayReverse}
	way, ok := v.WayOut()
	assert.True(t, ok)
	assert.Equal(t, quantity.Degrees(0), way)
	v.Stuck.Way = "sideways"
	_, ok = v.WayOut()
	assert.False(t, ok)
	_, _, known := v.Axles()
	assert.False(t, known)
	v.Wheelbase, v.FrontOverhang = 2.5, 0.7
	f, r, known := v.Axles()
	assert.True(t, known)
	near(t, 1.3, float64(f), 1e-12)
	near(t, -1.2, float64(r), 1e-12)
}

func TestCentroid(t *testing.T) {
	// closed form: an L of three unit squares, (0.5+1.5+0.5)/3
	l := []plan.Point{{X: 0, Y: 0}, {X: 2, Y: 0}, {X: 2, Y: 1}, {X: 1, Y: 1}, {X: 1, Y: 2}, {X: 0, Y: 2}}
	c := plan.Centroid(l)
	near(t, 2.5/3, c.X, 1e-12)
	near(t, 2.5/3, c.Y, 1e-12)
	assert.Equal(t, plan.Point{X: 1, Y: 1}, plan.Centroid([]plan.Point{{X: 0, Y: 0}, {X: 2, Y: 2}}))
	assert.Equal(t, plan.Point{}, plan.Centroid(nil))
}

func TestHeadingQuarterTurnsAreExact(t *testing.T) {
	for bearing, want := range map[quantity.Degrees][2]float64{0: {0, 1}, 90: {1, 0}, 180: {0, -1}, 270: {-1, 0}, -90: {-1, 0}, 360: {0, 1}, -360: {0, 1}} {
		e, n := plan.Heading(bearing)
		assert.Equal(t, want, [2]float64{e, n}, bearing)
	}
	e, n := plan.Heading(30)
	near(t, 0.5, e, 1e-15)
	near(t, math.Sqrt(3)/2, n, 1e-15)
}

func TestRangeHoldsTheValue(t *testing.T) {
	h := plan.Head{Presets: []string{"load_kg"}, Doubts: []plan.Doubt{{Member: "mass_kg", Low: 2300, High: 2600}}}
	for value, want := range map[float64][2]float64{2450: {2300, 2600}, 2000: {2000, 2600}, 3000: {2300, 3000}} {
		low, high := plan.Range(&h, "mass_kg", value)
		assert.Equal(t, want, [2]float64{low, high})
	}
	low, high := plan.Range(&h, "load_kg", 100)
	assert.Equal(t, [2]float64{100, 100}, [2]float64{low, high})
	assert.True(t, h.Preset("load_kg"))
	assert.False(t, h.Preset("mass_kg"))
}

func TestOutlineFaults(t *testing.T) {
	near := 1 + 0x1p-52
	for _, tt := range []struct { // by drawing them
		name    string
		corners []plan.Point
		simple  bool
	}{
		{"triangle", []plan.Point{{X: 0, Y: 0}, {X: 1, Y: 0}, {X: 0, Y: 1}}, true},
		{"clockwise", []plan.Point{{X: 0, Y: 0}, {X: 0, Y: 1}, {X: 1, Y: 0}}, true},
		{"a corner on a straight edge", []plan.Point{{X: 0, Y: 0}, {X: 1, Y: 0}, {X: 2, Y: 0}, {X: 0, Y: 1}}, true},
		{"a corner touches another edge", []plan.Point{{X: 0, Y: 0}, {X: 4, Y: 0}, {X: 4, Y: 2}, {X: 2, Y: 0}, {X: 0, Y: 2}}, false},
		{"two corners at one place", []plan.Point{{X: 0, Y: 0}, {X: 2, Y: 2}, {X: 4, Y: 0}, {X: 4, Y: 4}, {X: 2, Y: 2}, {X: 0, Y: 4}}, false},
		{"bow tie", []plan.Point{{X: 0, Y: 0}, {X: 2, Y: 2}, {X: 2, Y: 0}, {X: 0, Y: 2}}, false},
		{"spike", []plan.Point{{X: 0, Y: 0}, {X: 4, Y: 0}, {X: 2, Y: 0}, {X: 2, Y: 2}}, false},
		{"thin as rounding allows", []plan.Point{{X: 0, Y: 0}, {X: 1, Y: 1}, {X: 2, Y: 2 * near}}, true},
		{"flat", []plan.Point{{X: 0.1, Y: 0.1}, {X: 0.2, Y: 0.2}, {X: 0.4, Y: 0.4}}, false},
	} {
		t.Run(tt.name, func(t *testing.T) {
			assert.Equal(t, tt.simple, plan.OutlineFault(tt.corners) == nil, plan.OutlineFault(tt.corners))
		})
	}
}

func TestTurnIsExact(t *testing.T) {
	// Kettner et al., Classroom examples of robustness problems, 2008: points
	// near (0.5, 0.5) against the line through (12, 12) and (24, 24)
	b, c := plan.Point{X: 12, Y: 12}, plan.Point{X: 24, Y: 24}
	for i := range 64 {
		for j := range 64 {
			a := plan.Point{X: 0.5 + float64(i)*0x1p-53, Y: 0.5 + float64(j)*0x1p-53}
			want := 0
			if a.Y > a.X { // above the diagonal: c is to the left of the way from a to b
				want = 1
			} else if a.Y < a.X {
				want = -1
			}
			if got := plan.Turn(a, b, c); got != want {
				t.Fatalf("Turn(%v): want %d, got %d", a, want, got)
			}
		}
	}
}

func TestWithLeavesThePlanAlone(t *testing.T) {
	p := redirect(t)
	before, err := plan.FormatPlan(p)
	require.NoError(t, err)
	q := plan.WithRig(p, 2, plan.Rig{Head: plan.Head{ID: "R3"}})
	assert.Len(t, q.Rigs, 3)
	r := plan.WithRig(p, 3, plan.Rig{})
	assert.Same(t, p, r)
	q = plan.WithAnchor(q, 0, plan.Anchor{Head: plan.Head{ID: "T1"}})
	assert.Same(t, &p.Site.Vehicles[0], &q.Site.Vehicles[0], "what did not change is shared")
	d := plan.Edit(q, "R1")
	d.Site.Obstacles[0], d.Site.People[0], d.Laid.Lines[0] = plan.Obstacle{}, plan.Person{}, plan.Line{}
	assert.Empty(t, d.Site.People[0].ID)
	assert.NotEmpty(t, q.Site.People[0].ID, "a draft has lists of its own")
	after, err := plan.FormatPlan(p)
	require.NoError(t, err)
	assert.Equal(t, string(before), string(after))
}

func ExampleParsePlan() {
	p, err := plan.ParsePlan([]byte(`{"format": "kedge-plan", "version": 1, "min_reader": 1,
		"site": {"vehicles": [{"id": "V1", "at": {"x_m": 0, "y_m": 0}, "bearing_deg": 90, "mass_kg": 1e9}]}}`))
	fmt.Println(p == nil, err)
	// Output: true plan: /site/vehicles/0/mass_kg: more-than x="1e9 kg" most="1 000 t"
}

// A winch line is hooked on at its far end, a secondary line at both; a shackle
// that holds an end is the connector itself.
func TestConnected(t *testing.T) {
	winch, block, front, anchor, bow := plan.Port{Thing: "V2", Point: plan.PortWinch}, plan.Port{Thing: "B1"}, plan.Port{Thing: "V1", Point: "front"}, plan.Port{Thing: "A1"}, plan.Port{Thing: "K1"}
	r := plan.Rig{Shackles: []plan.Shackle{{Head: plan.Head{ID: "K1"}}}}
	for _, c := range []struct {
		path       []plan.Port
		start, end bool
	}{
		{[]plan.Port{winch, block, front}, false, true},
		{[]plan.Port{winch, block, bow}, false, false},
		{[]plan.Port{anchor, block, front}, true, true},
		{[]plan.Port{bow, front}, false, true},
		{[]plan.Port{front, bow}, true, false},
		{[]plan.Port{winch, bow, front}, false, true}, // it runs through that one
		{[]plan.Port{front}, false, false},
		{nil, false, false},
	} {
		start, end := r.Connected(&plan.Line{Path: c.path})
		assert.Equal(t, [2]bool{c.start, c.end}, [2]bool{start, end}, "%v", c.path)
	}
}
