package layout_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/solver"
	"kedge/solver/facts"
	"kedge/solver/layout"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
)

func example(t testing.TB, name string) *plan.Plan { return seeded.Example(t, name) }

func starter(t testing.TB) layout.Kit {
	t.Helper()
	kit, err := facts.StarterGear()
	require.NoError(t, err)
	return kit
}

func written(t require.TestingT, p *plan.Plan) string {
	data, err := plan.FormatPlan(p)
	require.NoError(t, err)
	return string(data)
}

// percent fails unless got is a number within one part in a hundred of want, the
// tolerance the storyboard's reference figures state.
func percent(t *testing.T, want, got float64, what string) {
	t.Helper()
	require.Falsef(t, math.IsNaN(got) || math.IsInf(got, 0), "%s is not a number", what)
	require.InEpsilonf(t, want, got, 0.01, "%s", what)
}

func over(ways []layout.Way, kind string, ids ...plan.ID) *layout.Way {
	for i := range ways {
		if ways[i].Kind == kind && slices.Equal(ways[i].Over, ids) {
			return &ways[i]
		}
	}
	return nil
}

func leftOver(list []layout.Left, ids ...plan.ID) *layout.Left {
	for i := range list {
		if list[i].Kind == layout.Redirect && slices.Equal(list[i].Over, ids) {
			return &list[i]
		}
	}
	return nil
}

func value(t *testing.T, values []part.Value, name string) float64 {
	t.Helper()
	for _, v := range values {
		if v.Name == name {
			require.Falsef(t, math.IsNaN(v.X) || math.IsInf(v.X, 0), "%s is not a number", name)
			return v.X
		}
	}
	require.Failf(t, "value missing", "%q among %v", name, values)
	return 0
}

// The site of the storyboard, its straight line refused: the way round is the
// redirect over Tree 1. Source of the figures: the storyboard's independent
// reference (plan view, no sheave radius).
func TestWayRoundTheBoulder(t *testing.T) {
	p := example(t, "straight")
	before := written(t, p)
	got := layout.Propose(p, "R1", starter(t))
	require.Empty(t, got.Why)
	assert.Equal(t, before, written(t, p), "the plan handed in stays")
	w := over(got.Ways, layout.Redirect, "T1")
	require.NotNil(t, w)
	a := w.Answer
	require.Equal(t, part.Within, a.Status)
	require.Len(t, a.Stretches, 2)
	node := func(id plan.ID) part.Node {
		for _, n := range a.Nodes {
			if n.Thing == id {
				return n
			}
		}
		return part.Node{}
	}("B1")
	percent(t, 23.75, node.At.X, "block x")
	percent(t, 18.43, node.At.Y, "block y")
	percent(t, 87.4, float64(node.Angle), "angle")
	percent(t, 12.48, float64(a.Stretches[0].Length), "stretch from the winch")
	percent(t, 18.54, float64(a.Stretches[1].Length), "stretch to the casualty")
	percent(t, 12.48+18.54, float64(w.Line), "line needed")
	percent(t, 3.19, float64(a.Stretches[1].Clear), "clearance to the boulder")
	load := func(id string) float64 {
		q, ok := a.Part(id)
		require.Truef(t, ok, "part %s", id)
		require.True(t, q.Move.Known, id)
		return float64(q.Move.Force)
	}
	percent(t, 1.030, load("L1/1")/load("L1/2"), "winch line over casualty's line")
	percent(t, 1.468, load("B1")/load("L1/2"), "block load over casualty's line")
	sling, _ := a.Part("S1")
	percent(t, 25.3, float64(sling.Angle), "legs")
	// After 6 m of way out its line passes (16, 9) at 1.03 m: it lasts. Closed form:
	// (16, 9) off the line from (14.1, 8.5) to the block at (23.75, 18.43).
	assert.Equal(t, quantity.Length(6), got.WayOut)
	assert.Equal(t, got.WayOut, w.Lasts)
	assert.Nil(t, w.Then)

	// What is listed is what the plan taken says, after a way through its file.
	again, err := plan.ParsePlan([]byte(written(t, w.Plan)))
	require.NoError(t, err)
	assert.Equal(t, solver.Assess(again, w.Rig), a)
	require.Len(t, w.Plan.Rigs, 2)
	assert.Equal(t, p.Rigs[0], w.Plan.Rigs[0], "the rig refused stays as it is")
	for _, b := range w.Plan.Rigs[1].Blocks { // drawn where it settles, to the centimetre
		assert.InDelta(t, node.At.X, b.At.X, layout.FineM)
		assert.InDelta(t, node.At.Y, b.At.Y, layout.FineM)
	}
	for l := range w.Found {
		n := 0
		for _, f := range a.Findings {
			if f.Level == part.Level(l) {
				n++
			}
		}
		assert.Equal(t, n, w.Found[l], part.Level(l).String())
	}
}

// distance is the least distance between the segments ab and cd that do not
// meet: closed form, an end of one to the other.
func distance(a, b, c, d plan.Point) float64 {
	to := func(p, a, b plan.Point) float64 {
		dx, dy := b.X-a.X, b.Y-a.Y
		s := max(0, min(1, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/(dx*dx+dy*dy)))
		return math.Hypot(p.X-a.X-s*dx, p.Y-a.Y-s*dy)
	}
	return min(to(a, c, d), to(b, c, d), to(c, a, b), to(d, a, b))
}

// What is left out says why: the storyboard's words for Tree 3 are "passes 0.4 m
// from Boulder 1, needs 1.0 m". The distance is checked against the segments'
// closed form, the angle of Tree 2 against the directions of both lines.
func TestLeftOutOnTheStoryboard(t *testing.T) {
	p := example(t, "straight")
	got := layout.Propose(p, "R1", starter(t))
	l := leftOver(got.Left, "T3")
	require.NotNil(t, l)
	require.Len(t, l.Reasons, 1)
	r := l.Reasons[0]
	assert.Equal(t, layout.ReasonNear, r.ID)
	assert.Equal(t, plan.ID("O1"), r.Thing)
	assert.Equal(t, 1.0, value(t, r.Values, "want"))
	clear := value(t, r.Values, "clear")
	assert.InDelta(t, 0.4, clear, 0.05, "as the storyboard prints it")
	a := solver.Assess(l.Plan, l.Rig)
	outline, best := p.Site.Obstacles[0].Outline, math.Inf(1)
	for _, s := range a.Stretches {
		for i := range outline {
			best = min(best, distance(plan.Point{X: s.A.X, Y: s.A.Y}, plan.Point{X: s.B.X, Y: s.B.Y}, outline[i], outline[(i+1)%len(outline)]))
		}
	}
	assert.InDelta(t, best, clear, 1e-9)

	l = leftOver(got.Left, "T2")
	require.NotNil(t, l)
	require.Len(t, l.Reasons, 1)
	require.Equal(t, layout.ReasonRefused, l.Reasons[0].ID)
	f := l.Reasons[0].Finding
	require.NotNil(t, f)
	assert.Equal(t, "off-way-out-refused", f.ID)
	a = solver.Assess(l.Plan, l.Rig)
	last := a.Stretches[1] // the way out is east: the angle is that of the line at the casualty
	want := math.Abs(math.Atan2(last.A.Y-last.B.Y, last.A.X-last.B.X)) * 180 / math.Pi
	assert.InDelta(t, want, value(t, f.Values, "off"), 1e-6)

	for _, l := range got.Left {
		assert.NotEmpty(t, l.Reasons, "%v", l.Over)
	}
}

// field is a site of its own: the winch at the origin pulls a casualty whose
// front point lies at (20, 0) and whose way out leads along out, clockwise from
// north. Anchors are rated points: a block fixed to one lies at it exactly.
func field(t testing.TB, out quantity.Degrees, lineM quantity.Length, points ...plan.Point) *plan.Plan {
	t.Helper()
	p := example(t, "straight")
	s := &p.Site
	s.Anchors, s.Obstacles, s.People = nil, nil, nil
	c, w := &s.Vehicles[0], &s.Vehicles[1]
	c.Bearing, c.At = 270, plan.Point{X: 20 + float64(c.Recovery[0].Ahead), Y: 0}
	c.Stuck.Way, c.Stuck.WayBearing = plan.WayFree, plan.Known(out)
	w.Bearing, w.At = 90, plan.Point{X: -float64(w.Winch.Ahead), Y: 0}
	p.Rigs[0].Lines[0].Length = lineM
	for i, at := range points {
		s.Anchors = append(s.Anchors, plan.Anchor{Head: plan.Head{ID: plan.ID(fmt.Sprint("A", i+1))}, Kind: plan.AnchorRated, At: at,
			Rating: plan.Rating{Force: 200 * quantity.Kilonewton, Basis: plan.BasisWorking}})
	}
	return p
}

func box(p *plan.Plan, x0, y0, x1, y1 float64) {
	p.Site.Obstacles = append(p.Site.Obstacles, plan.Obstacle{Head: plan.Head{ID: plan.NewID(p, plan.PrefixObstacle)}, Kind: "wall",
		Outline: []plan.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}})
}

// An anchor above the middle of a box: the stretch from the origin to (10, h)
// passes the corner (8, 4) at |8h − 40|/√(100 + h²), the other stretch likewise.
// Closed form: distance of a point from a line.
func TestClearanceByClosedForm(t *testing.T) {
	for _, tt := range []struct {
		h   float64
		way bool
	}{{6, false}, {6.4, false}, {6.6, true}, {9, true}} {
		t.Run(fmt.Sprint(tt.h), func(t *testing.T) {
			p := field(t, 315, 60, plan.Point{X: 10, Y: tt.h})
			box(p, 8, -3, 12, 4)
			want := (8*tt.h - 40) / math.Hypot(10, tt.h)
			require.Equal(t, tt.way, want >= 1, "the case itself")
			got := layout.Propose(p, "R1", starter(t))
			if tt.way {
				w := over(got.Ways, layout.Redirect, "A1")
				require.NotNil(t, w, "%+v", got.Left)
				assert.InDelta(t, want, float64(w.Answer.Stretches[0].Clear), 1e-6)
				assert.InDelta(t, 2*math.Hypot(math.Hypot(10, tt.h), 0.6), float64(w.Line), 1e-6, "the point lies 0.6 m lower than both ends")
				return
			}
			assert.Nil(t, over(got.Ways, layout.Redirect, "A1"))
			l := leftOver(got.Left, "A1")
			require.NotNil(t, l)
			require.Len(t, l.Reasons, 1)
			assert.Equal(t, layout.ReasonNear, l.Reasons[0].ID)
			assert.InDelta(t, want, value(t, l.Reasons[0].Values, "clear"), 1e-6)
		})
	}
}

// A trunk of 0.4 m beside either stretch from (0, 0) and (20, 0) to (10, 9) is
// kept away from like an obstacle: its bark lies |across| − 0.2 m off. Closed
// form. The tree a block hangs on is no obstacle to that line.
func TestOtherTrunksAreKeptAwayFrom(t *testing.T) {
	for _, tt := range []struct {
		across float64
		way    bool
	}{{1.15, false}, {1.25, true}} {
		p := field(t, 315, 60, plan.Point{X: 10, Y: 9})
		box(p, 8, -3, 12, 5)
		l := math.Hypot(10, 9)
		east, north := tt.across*9/l, tt.across*10/l
		tree := func(id plan.ID, x, y float64) {
			p.Site.Anchors = append(p.Site.Anchors, plan.Anchor{Head: plan.Head{ID: id}, Kind: plan.AnchorTree, Trunk: 0.4, At: plan.Point{X: x, Y: y}})
		}
		tree("T8", 5-east, 4.5+north)
		tree("T9", 15+east, 4.5+north)
		got := layout.Propose(p, "R1", starter(t))
		w := over(got.Ways, layout.Redirect, "A1")
		if tt.way {
			assert.NotNil(t, w, "%+v", got.Left)
			continue
		}
		assert.Nil(t, w)
		left := leftOver(got.Left, "A1")
		require.NotNil(t, left, "%+v", got.Ways)
		require.Len(t, left.Reasons, 2)
		for i, id := range []plan.ID{"T8", "T9"} {
			assert.Equal(t, id, left.Reasons[i].Thing)
			assert.InDelta(t, tt.across-0.2, value(t, left.Reasons[i].Values, "clear"), 1e-9)
		}
	}
}

// A line of 20 m, some of it always on the drum, over (10, 9): it lacks five
// metres more than one of 25 m. Closed form: what lacks is linear in the line.
func TestLineTooShort(t *testing.T) {
	lacks := func(lineM quantity.Length) float64 {
		p := field(t, 315, lineM, plan.Point{X: 10, Y: 9})
		box(p, 8, -3, 12, 4)
		l := leftOver(layout.Propose(p, "R1", starter(t)).Left, "A1")
		require.NotNil(t, l)
		require.Len(t, l.Reasons, 1)
		assert.Equal(t, layout.ReasonShort, l.Reasons[0].ID)
		assert.Equal(t, plan.ID("L1"), l.Reasons[0].Thing)
		return value(t, l.Reasons[0].Values, "missing")
	}
	out := 2 * math.Hypot(10, 9)
	short := lacks(20)
	assert.Greater(t, short, out-20, "the wraps on the drum stay there")
	assert.InDelta(t, short-5, lacks(25), 1e-6)
}

// A box that no single anchor leads round: over the left one the second stretch
// bears on it, over the right one the first. Over both it does.
func TestTwoAnchors(t *testing.T) {
	p := field(t, 345, 60, plan.Point{X: 3, Y: 11}, plan.Point{X: 17, Y: 11})
	box(p, 4.2, -9, 15.8, 8)
	got := layout.Propose(p, "R1", starter(t))
	require.Len(t, got.Ways, 1, "%+v", got.Left)
	w := got.Ways[0]
	assert.Equal(t, []plan.ID{"A1", "A2"}, w.Over)
	assert.InDelta(t, 2*math.Hypot(math.Hypot(3, 11), 0.6)+14, float64(w.Line), 1e-6, "the points lie 0.6 m lower than both ends")
	for _, l := range got.Left {
		assert.NotEqual(t, layout.Redirect, l.Kind, "both anchors are in a way")
	}
	require.Len(t, w.Answer.Stretches, 3)
	require.Len(t, w.Plan.Rigs[1].Blocks, 2)
	// Each turn costs the line some of its pull.
	first, _ := w.Answer.Part("L1/1")
	last, _ := w.Answer.Part("L1/3")
	assert.Greater(t, float64(first.Move.Force), float64(last.Move.Force))
}

// A casualty heavier than the winch pulls is moved by the doubled line: two
// parallel stretches, the second with the roller's 0.962 of the first, so
// 1 + ρ of the winch line (handbook: roller block, half a turn).
func TestDoubledWhereTheWinchIsWeak(t *testing.T) {
	p := field(t, 270, 80, plan.Point{X: 10, Y: 30})
	p.Site.Vehicles[0].Mass = 6500
	got := layout.Propose(p, "R1", starter(t))
	w := over(got.Ways, layout.Doubled)
	require.NotNil(t, w, "%+v", got.Left)
	assert.Equal(t, plan.ID("V2"), w.End)
	percent(t, 1.962, w.Answer.Advantage, "pull along the way out over winch line")
	for _, o := range got.Ways {
		assert.Equal(t, layout.Doubled, o.Kind, "a single line does not move it")
	}
	l := leftOver(got.Left, "A1")
	if l != nil && l.Reasons[0].ID == layout.ReasonWeak {
		assert.Greater(t, value(t, l.Reasons[0].Values, "need"), value(t, l.Reasons[0].Values, "stall"))
	}
	// the straight line is known to be too weak: it is the rig itself, so it is no way
	assert.Nil(t, over(got.Ways, layout.Straight))
}

// A casualty that moves west from (20, 0), led over (12, 12): its line leaves at
// atan(12 / (8 − s)) to its way out after s metres: 56.3° at first, 59.7° after
// one, 63.4° after two, where 60° is the most. Closed form.
func TestAWayIsFollowed(t *testing.T) {
	p := field(t, 270, 60, plan.Point{X: 12, Y: 12}, plan.Point{X: 1, Y: 4})
	p.Site.Vehicles[0].Stuck.WayLength = 5
	got := layout.Propose(p, "R1", starter(t))
	assert.Equal(t, quantity.Length(5), got.WayOut)
	w := over(got.Ways, layout.Redirect, "A1")
	require.NotNil(t, w, "%+v", got.Left)
	assert.InDelta(t, 1, float64(w.Lasts), 1e-12)
	require.Len(t, w.Then, 1)
	require.NotNil(t, w.Then[0].Finding)
	assert.Equal(t, "off-way-out-refused", w.Then[0].Finding.ID)
	assert.InDelta(t, math.Atan2(12, 6)*180/math.Pi, value(t, w.Then[0].Finding.Values, "off"), 1e-6)

	whole := over(got.Ways, layout.Redirect, "A2") // flat over (1, 4): atan(4 / 19) to atan(4 / 14)
	require.NotNil(t, whole, "%+v", got.Left)
	assert.Nil(t, whole.Then)
	assert.Equal(t, quantity.Length(5), whole.Lasts)
	first := got.Ways[0]
	assert.Nil(t, first.Then, "those that last come first")

	other := p.Site.Vehicles[0] // listed first, and not hooked on
	other.Unshare()
	other.ID, other.At, other.Stuck.WayLength = "V77", plan.Point{X: -60, Y: -60}, 1
	q := *p
	q.Site.Vehicles = append([]plan.Vehicle{other}, p.Site.Vehicles...)
	got = layout.Propose(&q, "R1", starter(t))
	assert.Equal(t, quantity.Length(5), got.WayOut)
	w = over(got.Ways, layout.Redirect, "A1")
	require.NotNil(t, w, "%+v", got.Left)
	assert.InDelta(t, 1, float64(w.Lasts), 1e-12)

	p.Site.Vehicles[0].Stuck.WayLength = 0
	got = layout.Propose(p, "R1", starter(t))
	assert.Zero(t, got.WayOut)
	for _, w := range got.Ways {
		assert.Zero(t, w.Lasts)
		assert.Nil(t, w.Then)
	}
}

// A pull that ends because the casualty runs into something does not last to the end,
// and says into what: its nose moves west and meets the edge of a water across its
// path. A way that is refused before keeps its own reason. Closed form: the
// difference of the two places.
func TestAWayEndsWhereTheCasualtyRunsIntoSomething(t *testing.T) {
	p := field(t, 270, 60, plan.Point{X: 12, Y: 12}, plan.Point{X: 1, Y: 4})
	v := &p.Site.Vehicles[0]
	v.Stuck.WayLength = 5
	nose := float64(v.At.X) - float64(v.Length)/2
	water := func(x float64) *plan.Plan {
		q := *p
		q.Site.Obstacles = []plan.Obstacle{{Head: plan.Head{ID: "O1"}, Kind: plan.ObstacleWater, Height: 0.02, SeeOver: true,
			Outline: []plan.Point{{X: x - 1, Y: -3}, {X: x, Y: -3}, {X: x, Y: 3}, {X: x - 1, Y: 3}}}}
		return &q
	}
	for _, after := range []float64{0.5, 4.1} {
		got := layout.Propose(water(nose-after), "R1", starter(t))
		w := over(got.Ways, layout.Redirect, "A2")
		require.NotNil(t, w, "%+v", got.Left)
		assert.InDelta(t, after, float64(w.Lasts), 1e-6)
		require.Len(t, w.Then, 1)
		require.NotNil(t, w.Then[0].Finding)
		assert.Equal(t, "casualty-meets", w.Then[0].Finding.ID)
		assert.Contains(t, w.Then[0].Finding.Things, plan.ID("O1"))
		assert.InDelta(t, after, value(t, w.Then[0].Finding.Values, "after"), 1e-6)
	}
	got := layout.Propose(water(nose-4.1), "R1", starter(t))
	w := over(got.Ways, layout.Redirect, "A1")
	require.NotNil(t, w, "%+v", got.Left)
	assert.InDelta(t, 1, float64(w.Lasts), 1e-12)
	assert.Equal(t, "off-way-out-refused", w.Then[0].Finding.ID)

	got = layout.Propose(water(nose-5.5), "R1", starter(t))
	w = over(got.Ways, layout.Redirect, "A2")
	require.NotNil(t, w, "%+v", got.Left)
	assert.Nil(t, w.Then, "it lies beyond the end")
}

// From a redirect the straight pull is a way as soon as nothing is in its path.
func TestStraightAgain(t *testing.T) {
	p := example(t, "redirect")
	p.Site.Obstacles = nil
	got := layout.Propose(p, "R1", starter(t))
	w := over(got.Ways, layout.Straight)
	require.NotNil(t, w, "%+v", got.Left)
	r := w.Plan.Rigs[len(w.Plan.Rigs)-1]
	assert.Empty(t, r.Blocks)
	assert.Empty(t, r.Slings)
	assert.Empty(t, r.Shackles)
	require.Len(t, r.Lines, len(p.Rigs[0].Lines))
	require.Len(t, r.Lines[0].Path, 2)
	assert.Equal(t, p.Rigs[0].Lines[0].Rating, r.Lines[0].Rating, "it is the same line")
}

// A casualty that doubles its line back from a tree: the tree it pulls on is the
// end, not a way; what hung there is hung anew.
func TestOwnWinch(t *testing.T) {
	p := example(t, "doubled")
	got := layout.Propose(p, "R1", starter(t))
	require.Empty(t, got.Why)
	w := over(got.Ways, layout.Straight)
	require.NotNil(t, w)
	l := leftOver(got.Left, "T1")
	require.NotNil(t, l)
	assert.Equal(t, layout.ReasonIsEnd, l.Reasons[0].ID)
	r := w.Plan.Rigs[len(w.Plan.Rigs)-1]
	require.Len(t, r.Slings, 1)
	assert.Equal(t, plan.Port{Thing: "T1"}, r.Slings[0].On)
}

// An empty rig is begun between the casualty and the winch; what lacks is named.
func TestWithoutALine(t *testing.T) {
	for _, tt := range []struct {
		name   string
		change func(p *plan.Plan)
		why    string
	}{
		{"empty rig", func(p *plan.Plan) { p.Rigs = []plan.Rig{{Head: plan.Head{ID: "R1"}}} }, ""},
		{"no rig", func(p *plan.Plan) { p.Rigs = nil }, ""},
		{"no casualty", func(p *plan.Plan) { p.Site.Vehicles[0].Stuck = nil; p.Rigs = nil }, layout.WhyNoCasualty},
		{"no casualty to a line", func(p *plan.Plan) { p.Site.Vehicles[0].Stuck = nil }, layout.WhyNoCasualty},
		{"no point", func(p *plan.Plan) { p.Site.Vehicles[0].Recovery = nil; p.Rigs = nil }, layout.WhyNoCasualty},
		{"no winch", func(p *plan.Plan) { p.Site.Vehicles[1].Winch = nil; p.Rigs = nil }, layout.WhyNoWinch},
		{"nothing", func(p *plan.Plan) { *p = *plan.New() }, layout.WhyNoCasualty},
		{"own winch, no line", func(p *plan.Plan) {
			p.Site.Vehicles[0].Winch, p.Site.Vehicles[1].Winch, p.Rigs = p.Site.Vehicles[1].Winch, nil, nil
		}, layout.WhyNoFarEnd},
	} {
		t.Run(tt.name, func(t *testing.T) {
			p := example(t, "straight")
			tt.change(p)
			got := layout.Propose(p, "R1", starter(t))
			assert.Equal(t, tt.why, got.Why)
			if tt.why == "" {
				require.NotNil(t, over(got.Ways, layout.Redirect, "T1"))
				return
			}
			assert.Empty(t, got.Ways)
			assert.Zero(t, got.Tried)
		})
	}
}

// Two lines over one block cannot be parted.
func TestEntangled(t *testing.T) {
	p := example(t, "redirect")
	r := &p.Rigs[0]
	r.Lines = append(r.Lines, plan.Line{Head: plan.Head{ID: "L9"}, Length: 8, Path: []plan.Port{{Thing: "V2", Point: "front"}, {Thing: "B1", Point: plan.PortBecket}}})
	got := layout.Propose(p, "R1", starter(t))
	assert.Equal(t, layout.WhyEntangled, got.Why)
}

// More rigs than may be tried are counted, and the answer stays bounded.
func TestBounded(t *testing.T) {
	p := example(t, "straight")
	p.Site.Anchors = p.Site.Anchors[1:] // without Tree 1 none is a way
	for i := range 40 {
		a := p.Site.Anchors[0]
		a.ID, a.At = plan.ID(fmt.Sprint("T", 100+i)), plan.Point{X: float64(i), Y: 60}
		p.Site.Anchors = append(p.Site.Anchors, a)
	}
	got := layout.Propose(p, "R1", starter(t))
	assert.Equal(t, layout.MaxTried, got.Tried)
	assert.Positive(t, got.Untried)
	assert.LessOrEqual(t, len(got.Ways), layout.MaxWays)
}

// Of random sites: each way is a valid plan that is not refused, says what
// Assess says of it, keeps its distance, and none that is listed before another
// ranks behind it. The plan handed in stays, and the same plan gives the same.
func TestWaysAreWhatTheySay(t *testing.T) {
	kit := starter(t)
	base := example(t, "straight")
	rapid.Check(t, func(t *rapid.T) {
		p := *base
		p.Site.Anchors, p.Site.Obstacles = nil, nil
		at := func(name string) plan.Point {
			return plan.Point{X: rapid.Float64Range(-5, 40).Draw(t, name+" x"), Y: rapid.Float64Range(-12, 30).Draw(t, name+" y")}
		}
		for i := range rapid.IntRange(0, 4).Draw(t, "anchors") {
			a := base.Site.Anchors[0]
			a.ID = plan.ID(fmt.Sprint("T", i+1))
			a.At = at("anchor")
			a.Kind = rapid.SampledFrom(plan.AnchorWords()).Draw(t, "kind")
			a.Trunk = quantity.Length(rapid.Float64Range(0.05, 0.9).Draw(t, "trunk"))
			p.Site.Anchors = append(p.Site.Anchors, a)
		}
		for i := range rapid.IntRange(0, 2).Draw(t, "obstacles") {
			m, r := at("obstacle"), rapid.Float64Range(0.4, 4).Draw(t, "size")
			p.Site.Obstacles = append(p.Site.Obstacles, plan.Obstacle{Head: plan.Head{ID: plan.ID(fmt.Sprint("O", i+1))}, Kind: "boulder",
				Anchor:  rapid.Bool().Draw(t, "serves"),
				Outline: []plan.Point{{X: m.X - r, Y: m.Y - r}, {X: m.X + r, Y: m.Y - r}, {X: m.X + r, Y: m.Y + r}, {X: m.X - r, Y: m.Y + r}}})
		}
		p.Site.Vehicles = slices.Clone(p.Site.Vehicles)
		p.Site.Vehicles[0].Mass = quantity.Mass(rapid.Float64Range(0, 9000).Draw(t, "mass"))
		before := written(t, &p)
		got := layout.Propose(&p, "R1", kit)
		require.Equal(t, before, written(t, &p))
		require.LessOrEqual(t, got.Tried, layout.MaxTried)
		for i, w := range got.Ways {
			require.NoError(t, plan.Validate(w.Plan))
			require.Equal(t, part.Within, w.Answer.Status)
			again, err := plan.ParsePlan([]byte(written(t, w.Plan)))
			require.NoError(t, err)
			require.Equal(t, solver.Assess(again, w.Rig), w.Answer)
			for _, s := range w.Answer.Stretches {
				require.Empty(t, s.Contacts)
				require.False(t, s.Refused)
				require.True(t, s.ClearOf == "" || s.Clear >= layout.WantClear, "%v", s)
			}
			for _, l := range w.Answer.Lines {
				require.Zero(t, l.Missing)
			}
			if i > 0 {
				q := got.Ways[i-1]
				require.False(t, len(q.Then) > 0 && len(w.Then) == 0, "one that lasts comes first")
				if len(q.Then) == 0 && len(w.Then) > 0 {
					continue
				}
				require.False(t, !q.Answer.Complete && w.Answer.Complete, "one of which all is understood comes first")
				if q.Answer.Complete != w.Answer.Complete {
					continue
				}
				// a part without a known limit is as bad as a danger
				require.LessOrEqual(t, q.Found[part.Danger]+q.Unrated, w.Found[part.Danger]+w.Unrated)
				if q.Found[part.Danger]+q.Unrated == w.Found[part.Danger]+w.Unrated {
					require.LessOrEqual(t, q.Found[part.Warning], w.Found[part.Warning])
				}
			}
		}
		for _, l := range got.Left {
			require.NotEmpty(t, l.Reasons)
		}
		require.Equal(t, got, layout.Propose(&p, "R1", kit))
	})
}

// Every anchor is either in a way or says why it is not.
func TestEveryAnchorIsAnsweredFor(t *testing.T) {
	for _, name := range []string{"straight", "redirect", "doubled"} {
		p := example(t, name)
		got := layout.Propose(p, "R1", starter(t))
		for _, a := range p.Site.Anchors {
			in := slices.ContainsFunc(got.Ways, func(w layout.Way) bool { return slices.Contains(w.Over, a.ID) })
			assert.True(t, in || leftOver(got.Left, a.ID) != nil, "%s: %s", name, a.ID)
		}
	}
}

// Rigs judged a second, two assessments for those that are ways: on a site with
// many trees, none of which leads round.
func BenchmarkPropose(b *testing.B) {
	kit, p := starter(b), example(b, "straight")
	for i := range 20 {
		a := p.Site.Anchors[1]
		a.ID, a.At = plan.ID(fmt.Sprint("T", 10+i)), plan.Point{X: float64(i * 2), Y: 40 + float64(i%3)}
		p.Site.Anchors = append(p.Site.Anchors, a)
	}
	n := 0
	for b.Loop() {
		n += layout.Propose(p, "R1", kit).Tried
	}
	b.ReportMetric(float64(n)/b.Elapsed().Seconds(), "rigs/s")
}

// A vehicle that stands in the way is in the way: the line keeps from it as from
// an obstacle.
func TestAParkedVehicleIsInTheWay(t *testing.T) {
	p := example(t, "redirect")
	tree := p.Site.Anchors[0]
	before := over(layout.Propose(p, "R2", starter(t)).Ways, layout.Redirect, tree.ID)
	require.NotNil(t, before, "the redirect is a way while nothing stands there")
	require.Equal(t, []plan.ID{tree.ID}, before.Over)
	s := before.Answer.Stretches[1]
	v := p.Site.Vehicles[1]
	v.ID, v.Winch, v.At = "V9", nil, plan.Point{X: (s.A.X + s.B.X) / 2, Y: (s.A.Y + s.B.Y) / 2}
	q := *p
	q.Site.Vehicles = append(slices.Clone(p.Site.Vehicles), v)
	got := layout.Propose(&q, "R2", starter(t))
	assert.Nil(t, over(got.Ways, layout.Redirect, tree.ID), "it runs over a vehicle")
	found := false
	for _, l := range got.Left {
		for _, r := range l.Reasons {
			found = found || r.ID == layout.ReasonRefused && r.Finding.ID == "line-bears" && slices.Contains(r.Finding.Things, "V9")
		}
	}
	assert.True(t, found, "%+v", got.Left)
}

// What is left of the way out grows shorter as it is followed.
func TestTheWayOutGetsShorter(t *testing.T) {
	p := example(t, "redirect")
	v := p.Casualty()
	long := v.Stuck.WayLength
	next := plan.AdvancedOf(p, p.Casualty().ID, 2).Casualty()
	assert.InDelta(t, float64(v.At.X)+2, next.At.X, 1e-12) // its nose to the east
	assert.InDelta(t, float64(long-2), float64(next.Stuck.WayLength), 1e-12)
	assert.Positive(t, plan.AdvancedOf(p, p.Casualty().ID, long).Casualty().Stuck.WayLength, "zero would say that nobody knows")
	assert.Equal(t, long, p.Casualty().Stuck.WayLength)
}
