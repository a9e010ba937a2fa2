package board_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/canvas/form"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// ground is where a pixel of the slanted picture of 200 by 100 lies: a map from plane to
// plane, made up, with its horizon at 25 pixels above the upper edge.
func ground(right, down float64) plan.Point {
	w := 0.2 + 0.008*down
	return plan.Point{X: 0.1 * (right - 100) / w, Y: (10 - 0.08*down) / w}
}

// onSheet is where a pixel lies on the sheet before the picture is laid.
func onSheet(u *plan.Underlay, right, down float64) plan.Point {
	return u.At.Plus((right-100)*u.Metres, (50-down)*u.Metres)
}

var clicked = [][2]float64{{20, 90}, {180, 85}, {150, 20}, {40, 10}, {100, 50}}

// typePoint clicks a pixel of the picture as it lies now and types a place.
func typePoint(h *hand, at plan.Point, typed string) {
	h.click(at.X, at.Y)
	h.keys(typed, "<Enter>")
}

func place(p plan.Point, more string) string { return fmt.Sprintf("%.4f ; %.4f%s", p.X, p.Y, more) }

func slanted(t *testing.T) *hand {
	h := withPictureOnBoard(t)
	command(h, "picture.points")
	u := *h.b.Picture()
	for i, c := range clicked[:4] {
		assert.Contains(t, h.b.Prompt(), fmt.Sprint("measured point ", i+1))
		typePoint(h, onSheet(&u, c[0], c[1]), place(ground(c[0], c[1]), " ± 0.1"))
	}
	return h
}

// Four clicks on a picture, each with its place, lay it: its pixels lie where the map has them.
func TestLayPictureByPoints(t *testing.T) {
	h := slanted(t)
	u := h.b.Plan().Site.Underlay
	require.Len(t, u.Points, 4)
	assert.Equal(t, "Lay picture by measured points", h.b.UndoName())
	assert.Contains(t, h.b.Prompt(), "the fit can't be checked. Measure a fifth.")
	assert.Equal(t, board.ToolPicturePoints, h.b.Tool(), "the fifth may follow")
	assert.Equal(t, []plan.ID{form.ThingUnderlay}, h.b.Selection())
	for _, text := range h.b.Overlay().Texts {
		assert.NotContains(t, text.Text, "not to scale")
	}
	for i, q := range u.Points {
		near(t, clicked[i][0], q.Right, 0.06, "right")
		near(t, clicked[i][1], q.Down, 0.06, "down")
		assert.Equal(t, quantity.Length(0.1), q.Doubt)
	}
	// The fifth is clicked where the picture lies now.
	was := h.bytes()
	fifth := ground(clicked[4][0], clicked[4][1])
	typePoint(h, fifth, place(fifth.Plus(0.3, 0), " ± 0.1"))
	u = h.b.Plan().Site.Underlay
	require.Len(t, u.Points, 5)
	near(t, clicked[4][0], u.Points[4].Right, 0.15, "right")
	near(t, clicked[4][1], u.Points[4].Down, 0.15, "down")
	assert.Contains(t, h.b.Prompt(), "They are missed by")
	require.Len(t, h.b.Overlay().Ports, 5)
	assert.NotEmpty(t, h.b.Overlay().Guides, "a line from each place to where the picture has it")
	h.b.Undo()
	assert.Equal(t, was, h.bytes())
	h.b.Undo()
	assert.Empty(t, h.b.Plan().Site.Underlay.Points)
}

// By keys alone the same plan comes about, byte for byte.
func TestLayPictureByKeys(t *testing.T) {
	want := slanted(t).bytes()
	h := withPictureOnBoard(t)
	command(h, "picture.points")
	u := *h.b.Picture()
	for _, c := range clicked[:4] {
		at := onSheet(&u, c[0], c[1])
		h.keys(fmt.Sprintf("%.6f;%.6f", at.X, at.Y), "<Enter>", "<Enter>", place(ground(c[0], c[1]), " ± 0.1"), "<Enter>")
	}
	assert.Equal(t, want, h.bytes())
}

// A survey point is a measured place: by a click on it or by its name.
func TestLayPictureBySurveyPoints(t *testing.T) {
	h := withPictureOnBoard(t)
	p := *h.b.Plan()
	u := *p.Site.Underlay
	s := &plan.Survey{}
	for i, c := range clicked[:4] {
		at := ground(c[0], c[1])
		s.Points = append(s.Points, plan.SurveyPoint{Name: fmt.Sprint("peg ", i), X: at.X, Y: at.Y})
	}
	p.Site.Survey = s
	h = sit(t, &p)
	command(h, "picture.points")
	for i, c := range clicked[:4] {
		at := onSheet(&u, c[0], c[1])
		if i == 1 {
			h.click(at.X, at.Y)
			h.click(s.Points[i].X, s.Points[i].Y)
			continue
		}
		typePoint(h, at, fmt.Sprint("PEG ", i, map[bool]string{true: " ± 2", false: ""}[i == 2]))
	}
	u = *h.b.Plan().Site.Underlay
	require.Len(t, u.Points, 4)
	for i, q := range u.Points {
		assert.Equal(t, fmt.Sprint("peg ", i), q.Name)
		near(t, 0, q.At.Dist(ground(clicked[i][0], clicked[i][1])), 1e-3, q.Name)
	}
	assert.Equal(t, quantity.Length(2), u.Points[2].Doubt)
}

// Points that are too few to lay the picture are lost by nothing: Escape says that they are
// kept, the tool goes on with them, and undo takes back one at a time.
func TestTooFewPointsAreKept(t *testing.T) {
	h := withPictureOnBoard(t)
	want := slanted(t).bytes()
	command(h, "picture.points")
	u := *h.b.Picture()
	measure := func(i int) {
		typePoint(h, onSheet(&u, clicked[i][0], clicked[i][1]), place(ground(clicked[i][0], clicked[i][1]), " ± 0.1"))
	}
	collected := func(n int, why string) {
		t.Helper()
		h.b.Select(form.ThingUnderlay)
		assert.Len(t, h.b.Overlay().Ports, n, why)
	}
	was, steps := h.bytes(), undoSteps(h.b)
	measure(0)
	measure(1)
	h.keys("<Escape>")
	assert.Equal(t, board.ToolSelect, h.b.Tool())
	assert.Contains(t, h.b.Prompt(), "Kept: 2 of 4 measured points")
	collected(2, "Escape")
	h.keys("a")
	h.click(12, 12)
	command(h, "picture.points")
	assert.Contains(t, h.b.Prompt(), "measured point 3", "it goes on")
	assert.Equal(t, steps+3, undoSteps(h.b))
	h.b.Undo() // the tree
	assert.Equal(t, was, h.bytes())
	collected(2, "undone an edit of something else")
	h.b.Undo()
	collected(1, "one at a time")
	h.b.Redo()
	collected(2, "redone")
	command(h, "picture.points")
	measure(2)
	h.click(onSheet(&u, 30, 30).X, onSheet(&u, 30, 30).Y)
	h.b.Undo()
	collected(3, "a point without a place goes alone")
	command(h, "picture.points")
	h.keys("<Backspace>")
	collected(2, "Backspace")
	h.b.Undo()
	collected(3, "and that can be undone")
	command(h, "picture.points")
	measure(3)
	assert.Equal(t, want, h.bytes())
	h.b.Undo()
	assert.Equal(t, was, h.bytes())
	collected(3, "the last of four")
	command(h, "picture.remove")
	h.b.Undo()
	collected(3, "the picture is back with its points")
}

// What cannot lay the picture is refused with the question still open; Backspace takes back
// the last point.
func TestLayPictureRefused(t *testing.T) {
	h := withPictureOnBoard(t)
	command(h, "picture.points")
	u := *h.b.Picture()
	was := h.bytes()
	h.click(u.At.X, u.At.Y+60*u.Metres)
	assert.Contains(t, h.b.Prompt(), "beside the picture")
	for i, c := range clicked[:3] {
		typePoint(h, onSheet(&u, c[0], c[1]), place(ground(c[0], c[1]), ""))
		require.Len(t, h.b.Overlay().Ports, i+1)
	}
	assert.Equal(t, was, h.bytes(), "three points lay nothing")
	first := ground(clicked[0][0], clicked[0][1])
	typePoint(h, onSheet(&u, clicked[3][0], clicked[3][1]), place(first, ""))
	require.NotNil(t, h.b.Question())
	assert.Contains(t, h.b.Question().Error, "points 1 and 4 of the picture were measured at one place")
	h.keys("<Escape>", "<Backspace>")
	require.Len(t, h.b.Overlay().Ports, 3, "the point that was clicked")
	h.keys("<Backspace>")
	require.Len(t, h.b.Overlay().Ports, 2)
	assert.Equal(t, was, h.bytes())
	typePoint(h, onSheet(&u, 50, 50), "3")
	assert.Contains(t, h.b.Question().Error, "so far east and so far north")
}

// Two points and a length scale only a picture that looks straight down; else it is laid by
// points. One that is laid is neither scaled, moved nor turned.
func TestPictureThatDoesNotLookStraightDown(t *testing.T) {
	h := withPictureOnBoard(t)
	was := h.bytes()
	h.click(10, 10)
	h.click(18, 10)
	h.keys("12", "<Enter>")
	q := h.b.Question()
	require.NotNil(t, q)
	assert.Contains(t, q.Label, "straight down")
	h.keys("2")
	assert.Equal(t, was, h.bytes())
	assert.Equal(t, board.ToolPicturePoints, h.b.Tool())
	assert.Contains(t, h.b.Prompt(), "at least four are needed")
	h.keys("<Escape>")
	command(h, "picture.scale")
	h.click(10, 10)
	h.click(18, 10)
	h.keys("12")
	h.click(14, 14) // what was typed is taken, and the click asks nothing else
	require.NotNil(t, h.b.Question())
	assert.Contains(t, h.b.Question().Label, "straight down")
	h.keys("<Escape>")
	assert.Equal(t, was, h.bytes(), "who does not say leaves it unscaled")
	h.keys("<Escape>", "<Escape>")
	command(h, "picture.scale")
	h.click(10, 10)
	h.click(18, 10)
	h.keys("12", "<Tab>")
	require.NotNil(t, h.b.Question(), "Tab takes the answer as Enter does")
	assert.Contains(t, h.b.Question().Label, "straight down")
	h.keys("1")
	assert.NotNil(t, h.b.Plan().Site.Underlay.Scaled)

	h = slanted(t)
	was = h.bytes()
	for _, id := range []string{"picture.scale", "picture.turn", "picture.move"} {
		command(h, id)
		assert.Contains(t, h.b.Prompt(), "lies by its measured points", id)
		h.click(2, 10)
		h.click(3, 12)
		h.drag([2]float64{0, 10}, [2]float64{4, 10})
		h.keys("12", "<Enter>", "1", "<Escape>")
		assert.Equal(t, was, h.bytes(), id)
	}
}

// What is set down over a picture that lies by points is known no better than they.
func TestTracedThingsTakeTheFitsDoubt(t *testing.T) {
	h := slanted(t)
	f := h.b.Plan().Site.Underlay.Fit()
	require.NotNil(t, f)
	h.keys("a")
	at := ground(100, 60)
	h.click(at.X, at.Y)
	require.Len(t, h.b.Plan().Site.Anchors, 1)
	a := h.b.Plan().Site.Anchors[0]
	east, north := a.PlaceDoubt()
	assert.GreaterOrEqual(t, east, f.Doubt(a.At))
	near(t, float64(f.Doubt(a.At)), float64(east), 0.01, "up to the centimetre")
	near(t, float64(east), float64(north), 1e-9, "to any side")
	assert.Greater(t, float64(east), 0.05, "points known to 0.1 m")
}
