package board_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

func measured(points ...plan.SurveyPoint) board.Measured {
	return board.Measured{Name: "moss.csv", Survey: &plan.Survey{Source: "moss.csv, CSV.", Points: points}}
}

// same fails unless taking for good gives the plan that was previewed, in one
// step that undoes.
func same(t *testing.T, h *hand, m board.Measured, use board.MeasuredUse, rises bool) board.Taking {
	t.Helper()
	was := h.bytes()
	taking := h.b.Take(m, use, rises)
	require.Empty(t, taking.Why)
	require.NotNil(t, taking.Plan)
	assert.Equal(t, was, h.bytes(), "a preview edits nothing")
	require.NoError(t, h.b.TakeMeasured(m, use, rises))
	assert.Equal(t, bytesOf(t, taking.Plan), h.bytes(), "preview and edit are the same")
	assert.Equal(t, taking.Name, h.b.UndoName())
	assert.Equal(t, taking.IDs, h.b.Selection())
	h.b.Undo()
	assert.Equal(t, was, h.bytes())
	h.b.Redo()
	return taking
}

func TestTakePoints(t *testing.T) {
	h := sit(t, nil)
	m := measured(plan.SurveyPoint{Name: "gate", X: 1, Y: 2, Z: 211.5}, plan.SurveyPoint{X: 3, Y: 4})
	same(t, h, m, board.MeasuredPoints, true)
	assert.Equal(t, m.Survey, h.b.Plan().Site.Survey)
	assert.Equal(t, "Take 2 survey points from moss.csv", plain(h.b.UndoName()))

	// a second list has no origin in common: it takes the place of the first
	other := measured(plan.SurveyPoint{X: 9, Y: 9})
	taking := same(t, h, other, board.MeasuredPoints, true)
	require.Len(t, taking.Notes, 1)
	assert.Contains(t, taking.Notes[0], "replace")
	assert.Len(t, h.b.Plan().Site.Survey.Points, 1)

	h.keys("<Delete>")
	assert.Nil(t, h.b.Plan().Site.Survey)
	assert.Equal(t, "Remove survey points", h.b.UndoName())
}

func TestTakePointsAboutOneOrigin(t *testing.T) {
	h := sit(t, nil)
	globe := func(x float64) board.Measured {
		m := measured(plan.SurveyPoint{X: x})
		m.OnGlobe, m.Survey.LatDeg, m.Survey.LonDeg = true, 54.1, -2.3
		return m
	}
	same(t, h, globe(1), board.MeasuredPoints, false)
	taking := same(t, h, globe(2), board.MeasuredPoints, false)
	assert.Contains(t, taking.Notes[0], "added")
	require.Len(t, h.b.Plan().Site.Survey.Points, 2)
	near(t, 1, h.b.Plan().Site.Survey.Points[0].X, 0, "the first")
	near(t, 2, h.b.Plan().Site.Survey.Points[1].X, 0, "the second")
}

// The lowest point stands on the plane; on a slope of 45° falling to the east
// the plane is 1 m lower for each metre to the east (tan 45° = 1).
func TestTakeAnchors(t *testing.T) {
	points := []plan.SurveyPoint{{Name: "Pine A", X: 0, Y: 0, Z: 213.2}, {Name: "Pine B", X: 1, Y: 5, Z: 211.5}, {Name: "Pine C", X: 2, Y: 9}}
	for _, c := range []struct {
		name  string
		slope quantity.Degrees
		rises bool
		zs    []quantity.Length
		want  []float64
		note  string
	}{
		{"level", 0, true, nil, []float64{1.7, 0, 0}, "1 point has no height"},
		{"on a slope", 45, true, nil, []float64{1.7 - 1, 0, 0}, "Heights count from 211.5 m"},
		{"heights left out", 0, false, nil, []float64{0, 0, 0}, "Heights are left out"},
		{"from a peg of one's own 0 is a height", 0, true, []quantity.Length{0.4, -0.3, 0}, []float64{0.7, 0, 0.3}, "Heights count from -0.3 m"},
		{"no heights", 0, true, []quantity.Length{0, 0, 0}, []float64{0, 0, 0}, "There are no heights"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := board.Empty()
			p.Site.Ground.Slope, p.Site.Ground.Downhill = plan.Known(c.slope), plan.Known(quantity.Degrees(90))
			h := sit(t, p)
			m := measured(append([]plan.SurveyPoint{}, points...)...)
			for i, z := range c.zs {
				m.Survey.Points[i].Z = z
			}
			taking := same(t, h, m, board.MeasuredAnchors, c.rises)
			list := h.b.Plan().Site.Anchors
			require.Len(t, list, 3)
			for i, a := range list {
				assert.Equal(t, plan.AnchorTree, a.Kind)
				assert.Equal(t, points[i].Name, a.Name)
				near(t, points[i].X, a.At.X, 1e-9, "x")
				near(t, points[i].Y, a.At.Y, 1e-9, "y")
				near(t, c.want[i], float64(a.Rise), 1e-9, "rise of "+a.Name)
				assert.Zero(t, a.Trunk, "nobody measured the trunk")
				assert.Equal(t, plan.HealthUnknown, a.Health)
			}
			found := false
			for _, n := range taking.Notes {
				n = plain(n)
				found = found || len(n) >= len(c.note) && n[:len(c.note)] == c.note
			}
			assert.True(t, found, "%q is not among %q", c.note, taking.Notes)
		})
	}
}

func TestTakeAnchorsOfATrackWithMarks(t *testing.T) {
	h := sit(t, nil)
	m := measured(plan.SurveyPoint{Name: "Pine", X: 1}, plan.SurveyPoint{X: 2}, plan.SurveyPoint{X: 3})
	taking := same(t, h, m, board.MeasuredAnchors, false)
	assert.Len(t, h.b.Plan().Site.Anchors, 1)
	assert.Contains(t, plain(taking.Notes[0]), "2 points without a name are left out")
}

func TestTakeObstacles(t *testing.T) {
	square := func(at float64) []plan.Point {
		return []plan.Point{{X: at}, {X: at + 4}, {X: at + 4, Y: 4}, {X: at, Y: 4}}
	}
	for _, c := range []struct {
		name string
		m    board.Measured
		want [][]plan.Point
	}{
		{"areas before lines", board.Measured{Name: "a", Outlines: []board.MeasuredWay{{Name: "Bog", Corners: square(0), Closed: true}, {Corners: square(9)}, {Corners: square(20), Closed: true}}},
			[][]plan.Point{square(0), square(20)}},
		{"the only line is closed", board.Measured{Name: "a", Outlines: []board.MeasuredWay{{Corners: square(9)}}}, [][]plan.Point{square(9)}},
		{"points in order", measured(plan.SurveyPoint{}, plan.SurveyPoint{X: 4}, plan.SurveyPoint{X: 4, Y: 4}, plan.SurveyPoint{Y: 4}, plan.SurveyPoint{}), [][]plan.Point{square(0)}},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := sit(t, nil)
			same(t, h, c.m, board.MeasuredObstacles, false)
			list := h.b.Plan().Site.Obstacles
			require.Len(t, list, len(c.want))
			for i := range list {
				assert.Equal(t, c.want[i], list[i].Outline)
				assert.Contains(t, list[i].Presets, "height_m")
			}
		})
	}
}

func TestNotTaken(t *testing.T) {
	var many []plan.SurveyPoint
	for i := range 501 {
		many = append(many, plan.SurveyPoint{X: float64(i)})
	}
	for _, c := range []struct {
		name string
		m    board.Measured
		use  board.MeasuredUse
		why  string
	}{
		{"no points", board.Measured{}, board.MeasuredPoints, "There are no points in it."},
		{"no points for anchors", board.Measured{}, board.MeasuredAnchors, "There are no points in it."},
		{"a wood", measured(many...), board.MeasuredAnchors, "501 points are too many anchors, more than 500."},
		{"two corners", measured(plan.SurveyPoint{}, plan.SurveyPoint{X: 1}), board.MeasuredObstacles, "at least three corners"},
		{"edges cross", measured(plan.SurveyPoint{}, plan.SurveyPoint{X: 4, Y: 4}, plan.SurveyPoint{X: 4}, plan.SurveyPoint{Y: 4}), board.MeasuredObstacles, "cross"},
		{"nothing at all", board.Measured{}, board.MeasuredObstacles, "no area"},
		{"a place that is none", measured(plan.SurveyPoint{X: math.NaN()}), board.MeasuredPoints, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := sit(t, nil)
			was := h.bytes()
			require.Error(t, h.b.TakeMeasured(c.m, c.use, true))
			assert.Contains(t, plain(h.b.Prompt()), c.why)
			assert.NotEmpty(t, h.b.Prompt())
			assert.Equal(t, was, h.bytes())
			assert.Empty(t, h.b.UndoName())
		})
	}
}

// A hundred thousand points are taken, edited beside, and undone.
func TestTakeALargeSurvey(t *testing.T) {
	h := sit(t, nil)
	var points []plan.SurveyPoint
	for i := range plan.MaxSurveyPoints {
		points = append(points, plan.SurveyPoint{Name: fmt.Sprint("p", i), X: float64(i % 1000), Y: float64(i / 1000), Z: 1})
	}
	m := measured(points...)
	require.NoError(t, h.b.TakeMeasured(m, board.MeasuredPoints, false))
	list := h.b.Plan().Site.Survey.Points
	h.keys("v")
	h.click(10, 10)
	assert.Same(t, &list[0], &h.b.Plan().Site.Survey.Points[0], "the points are shared between plans")
	h.b.Undo()
	h.b.Undo()
	assert.Nil(t, h.b.Plan().Site.Survey)
}

// An edit beside a large survey, with its answer: 35 µs without the survey.
func BenchmarkEditBesideSurvey(b *testing.B) {
	h := sit(b, nil)
	points := make([]plan.SurveyPoint, plan.MaxSurveyPoints)
	for i := range points {
		points[i].X, points[i].Y = float64(i%1000), float64(i/1000)
	}
	require.NoError(b, h.b.TakeMeasured(measured(points...), board.MeasuredPoints, false))
	h.keys("v")
	h.click(10, 10)
	b.ReportAllocs()
	for b.Loop() {
		h.click(20, 10)
		if h.b.Answer() == nil {
			b.Fatal("no answer")
		}
		h.b.Undo()
	}
}

// Of a file with several things each becomes what it is: an area an obstacle, a point
// with a tree's name a tree, another point a survey point; in one step.
func TestTakeEachAsWhatItIs(t *testing.T) {
	h := sit(t, nil)
	m := measured(plan.SurveyPoint{Name: "Tree 7", X: 1, Y: 2}, plan.SurveyPoint{Name: "gate", X: 3, Y: 4}, plan.SurveyPoint{Name: "old TREE", X: 5, Y: 6})
	m.Outlines = []board.MeasuredWay{
		{Name: "pond", Closed: true, Corners: []plan.Point{{X: 10}, {X: 14}, {X: 12, Y: 3}}},
		{Name: "track", Corners: []plan.Point{{X: 20}, {X: 24}}},
	}
	same(t, h, m, board.MeasuredEach, false)
	s := h.b.Plan().Site
	require.Len(t, s.Anchors, 2)
	assert.Equal(t, []string{"Tree 7", "old TREE"}, []string{s.Anchors[0].Name, s.Anchors[1].Name})
	assert.Equal(t, plan.Point{X: 5, Y: 6}, s.Anchors[1].At)
	require.Len(t, s.Obstacles, 1, "a line is no area")
	assert.Equal(t, "pond", s.Obstacles[0].Name)
	require.NotNil(t, s.Survey)
	require.Len(t, s.Survey.Points, 1)
	assert.Equal(t, "gate", s.Survey.Points[0].Name)

	none := h.b.Take(board.Measured{Name: "a.json", Outlines: m.Outlines[1:]}, board.MeasuredEach, false)
	assert.Nil(t, none.Plan)
	assert.NotEmpty(t, none.Why)
}

// What is made of measured points is known as well as they are stated to be: a tree as its
// point, an outline as its corner known least.
func TestMeasuredThingsTakeTheStatedAccuracy(t *testing.T) {
	m := measured(plan.SurveyPoint{Name: "Pine A", Doubt: 0.4}, plan.SurveyPoint{Name: "Pine B", X: 4, Doubt: 0.9}, plan.SurveyPoint{Name: "Pine C", X: 4, Y: 4})
	h := sit(t, nil)
	require.NoError(t, h.b.TakeMeasured(m, board.MeasuredAnchors, false))
	for i, want := range []float64{0.4, 0.9, 0} {
		east, north := h.b.Plan().Site.Anchors[i].PlaceDoubt()
		assert.InDelta(t, want, float64(east), 1e-12)
		assert.InDelta(t, want, float64(north), 1e-12)
	}
	h = sit(t, nil)
	require.NoError(t, h.b.TakeMeasured(m, board.MeasuredObstacles, false))
	o := h.b.Plan().Site.Obstacles[0]
	east, _ := o.PlaceDoubt()
	assert.InDelta(t, 0.9, float64(east), 1e-12)
	h = sit(t, nil)
	require.NoError(t, h.b.TakeMeasured(m, board.MeasuredPoints, false))
	assert.InDelta(t, 0.9, float64(h.b.Plan().Site.Survey.Points[1].Doubt), 1e-12)
}
