package board_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/draw"
	"kedge/solver/plan"
)

// A number typed during a gesture fixes its length or angle; the pointer gives
// the rest. Every expected place is the closed form from + length · heading.

func plainTexts(o *draw.Overlay) []string {
	var list []string
	for _, t := range texts(o) {
		list = append(list, plain(t))
	}
	return list
}

// held presses at a place, moves to another and types.
func (h *hand) held(from, to [2]float64, typed ...string) {
	h.move(from[0], from[1])
	h.down(from[0], from[1])
	h.move((from[0]+to[0])/2, (from[1]+to[1])/2)
	h.move(to[0], to[1])
	h.keys(typed...)
}

func TestMoveByATypedLength(t *testing.T) {
	tree := [2]float64{24, 19.5}
	diagonal := plan.Point{X: 24 + 8*math.Sqrt2/2, Y: 19.5 + 8*math.Sqrt2/2}
	cases := []struct {
		name  string
		to    [2]float64
		typed []string
		want  plan.Point
		text  string
	}{
		{"east", [2]float64{30, 19.5}, []string{"8"}, plan.Point{X: 32, Y: 19.5}, "8 m, fixed"},
		{"near the diagonal: 15° steps", [2]float64{28, 23.6}, []string{"8"}, diagonal, "8 m, fixed"},
		{"unit", [2]float64{30, 19.5}, []string{"250 cm"}, plan.Point{X: 26.5, Y: 19.5}, "2.5 m, fixed"},
		{"comma", [2]float64{30, 19.5}, []string{"2,5"}, plan.Point{X: 26.5, Y: 19.5}, "2.5 m, fixed"},
		{"edited", [2]float64{30, 19.5}, []string{"85", "<Backspace>"}, plan.Point{X: 32, Y: 19.5}, "8 m, fixed"},
		{"with an angle", [2]float64{30, 19.5}, []string{"8 m 180°"}, plan.Point{X: 24, Y: 11.5}, "8 m at 180°, fixed"},
		{"with an angle, no sign", [2]float64{30, 19.5}, []string{"8 m 180"}, plan.Point{X: 24, Y: 11.5}, "8 m at 180°, fixed"},
		{"the angle first", [2]float64{30, 19.5}, []string{"180° 8"}, plan.Point{X: 24, Y: 11.5}, "8 m at 180°, fixed"},
		{"with a semicolon", [2]float64{30, 19.5}, []string{"8;270"}, plan.Point{X: 16, Y: 19.5}, "8 m at 270°, fixed"},
		{"the angle alone", [2]float64{30, 25.6}, []string{"90°"}, plan.Point{X: 30, Y: 19.5}, "90°, fixed"},
		{"on the way to a figure", [2]float64{30, 19.5}, []string{"8."}, plan.Point{X: 32, Y: 19.5}, "8 m, fixed"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			h := rigged(t)
			before := h.bytes()
			h.held(tree, c.to, c.typed...)
			assert.Contains(t, plainTexts(h.b.Overlay()), c.text)
			assert.Contains(t, plain(h.b.Prompt()), "is fixed: Backspace edits it")
			shown := bytesOf(t, h.b.Shown())
			require.NotEqual(t, before, shown)
			h.up(c.to[0], c.to[1])
			at := h.b.Plan().Site.Anchors[0].At
			near(t, c.want.X, at.X, 0.0011, "x") // places are kept to a millimetre
			near(t, c.want.Y, at.Y, 0.0011, "y")
			assert.Equal(t, shown, h.bytes(), "the preview is what is kept")
			h.b.Undo()
			assert.Equal(t, before, h.bytes())
		})
	}
}

// The pointer turns the way while its length stands; Escape lets go of the
// number first and then of the gesture.
func TestFixedLengthFollowsThePointerAndIsLetGo(t *testing.T) {
	h := rigged(t)
	h.held([2]float64{24, 19.5}, [2]float64{30, 19.5}, "8")
	h.move(24, 25)
	at := h.b.Shown().Site.Anchors[0].At
	near(t, 24, at.X, 1e-9, "x")
	near(t, 27.5, at.Y, 1e-9, "y")
	h.keys("<Escape>")
	assert.Equal(t, plan.Point{X: 24, Y: 25}, h.b.Shown().Site.Anchors[0].At, "free again")
	h.keys("3", "<Backspace>", "<Backspace>")
	assert.Equal(t, plan.Point{X: 24, Y: 25}, h.b.Shown().Site.Anchors[0].At, "one Backspace too many takes nothing away")
	h.keys("3", "<Escape>", "<Escape>")
	assert.True(t, h.b.Shown() == h.b.Plan(), "the gesture is gone")
	before := h.b.Plan()
	h.up(24, 25)
	assert.True(t, before == h.b.Plan())
	h.keys("8")
	assert.Equal(t, "Go to 8", plain(h.b.Prompt()), "with nothing held a number is a place")
}

// What cannot be read moves nothing and says so.
func TestFixedLengthRefused(t *testing.T) {
	for _, typed := range []string{"8 kg", "0", "8 m x°", "99999999999", "8 m 3 t"} {
		t.Run(typed, func(t *testing.T) {
			h := rigged(t)
			before := h.b.Plan()
			h.held([2]float64{24, 19.5}, [2]float64{30, 19.5}, typed)
			assert.Equal(t, bytesOf(t, before), bytesOf(t, h.b.Shown()))
			assert.Contains(t, h.b.Prompt(), "is no length to fix")
			h.up(30, 19.5)
			assert.True(t, before == h.b.Plan(), "the plan is untouched")
			assert.Contains(t, h.b.Prompt(), "is no length to fix")
		})
	}
}

func TestTurnToATypedAngle(t *testing.T) {
	for typed, want := range map[string]float64{"47": 47, "-30": 330, "12.5": 12.5, "200°": 200} {
		t.Run(typed, func(t *testing.T) {
			h := rigged(t)
			h.click(32.5, 6.9)
			at := h.handle("turn")
			h.held([2]float64{at.X, at.Y}, [2]float64{32.7, 13}, typed)
			near(t, want, float64(h.b.Shown().Site.Vehicles[1].Bearing), 1e-9, "shown")
			h.up(32.7, 13)
			near(t, want, float64(h.b.Plan().Site.Vehicles[1].Bearing), 1e-9, "bearing")
			assert.Equal(t, "Turn Winch vehicle", h.b.UndoName())
		})
	}
}

// handle is where a handle of a kind is.
func (h *hand) handle(kind string) plan.Point {
	h.t.Helper()
	for _, x := range h.b.Overlay().Handles {
		if x.Kind == kind {
			return x.At
		}
	}
	require.Failf(h.t, "no handle", "%s", kind)
	return plan.Point{}
}

func TestSlingOfATypedLength(t *testing.T) {
	h := redirect(t)
	at, _ := nodeOf(h, "B1")
	h.held([2]float64{at.X, at.Y}, [2]float64{21, 14}, "3.7")
	assert.Contains(t, plainTexts(h.b.Overlay()), "sling 3.7 m, fixed")
	shown, answer := bytesOf(t, h.b.Shown()), h.b.Answer()
	h.up(21, 14)
	near(t, 3.7, float64(h.b.Plan().Rigs[0].Slings[0].Length), 0, "sling, of the kit or not")
	assert.Equal(t, shown, h.bytes())
	assert.Equal(t, answer.Parts, h.b.Answer().Parts, "preview = release, to the digit")
	assert.Equal(t, "Length of Sling 1", h.b.UndoName())

	// A trunk of 0.48 m is 1.51 m round (closed form, π·d): 1.5 m do not close.
	before := h.b.Plan()
	at, _ = nodeOf(h, "B1")
	h.held([2]float64{at.X, at.Y}, [2]float64{21, 14}, "1.5")
	assert.Equal(t, "A sling of 1.5 m does not close round Tree 1", plain(h.b.Prompt()))
	h.up(21, 14)
	assert.True(t, before == h.b.Plan())

	// Over another tree: hung there with that sling.
	h.held([2]float64{at.X, at.Y}, [2]float64{12.2, 21.2}, "5")
	h.up(12.2, 21.2)
	s := h.b.Plan().Rigs[0].Slings[0]
	assert.Equal(t, plan.ID("T2"), s.On.Thing)
	near(t, 5, float64(s.Length), 0, "sling")
}

func TestEdgesOfATypedLength(t *testing.T) {
	h := sit(t, nil)
	h.keys("o")
	h.click(10, 10)
	h.move(13, 10)
	h.keys("4")
	assert.Contains(t, plainTexts(h.b.Overlay()), "4 m, fixed")
	h.click(13, 10)
	h.move(14, 12)
	h.keys("2.5", "<Enter>") // Enter clicks too
	h.move(12, 16)
	h.keys("3 m 270", "<Enter>")
	h.keys("<Escape>") // nothing typed any more: the outline goes
	assert.Empty(t, h.b.Plan().Site.Obstacles)
	h.click(10, 10)
	h.move(13, 10)
	h.keys("4")
	h.click(13, 10)
	h.move(14, 12)
	h.keys("2.5", "<Enter>")
	h.move(12, 16)
	h.keys("3 m 270", "<Enter>", "<Enter>")
	require.Len(t, h.b.Plan().Site.Obstacles, 1)
	assert.Equal(t, []plan.Point{{X: 10, Y: 10}, {X: 14, Y: 10}, {X: 14, Y: 12.5}, {X: 11, Y: 12.5}}, h.b.Plan().Site.Obstacles[0].Outline)

	// dragged, an edge ends where it is let go
	h.click(20, 10)
	h.held([2]float64{20, 10}, [2]float64{22, 10}, "6")
	h.up(22, 10)
	h.click(26, 14)
	h.keys("<Enter>")
	require.Len(t, h.b.Plan().Site.Obstacles, 2)
	assert.Equal(t, []plan.Point{{X: 20, Y: 10}, {X: 26, Y: 10}, {X: 26, Y: 14}}, h.b.Plan().Site.Obstacles[1].Outline)

	// a corner taken by its handle: the edge from the corner before it
	h.keys("<Escape>")
	h.b.Select("O2")
	h.held([2]float64{26, 14}, [2]float64{26, 17}, "5")
	h.up(26, 17)
	assert.Equal(t, plan.Point{X: 26, Y: 15}, h.b.Plan().Site.Obstacles[1].Outline[2])
}

func TestRoundObstacleOfATypedWidth(t *testing.T) {
	h := sit(t, nil)
	h.keys("o")
	h.held([2]float64{20, 10}, [2]float64{22, 10}, "3")
	assert.Contains(t, plainTexts(h.b.Overlay()), "3 m, fixed")
	h.up(22, 10)
	require.Len(t, h.b.Plan().Site.Obstacles, 1)
	for _, c := range h.b.Plan().Site.Obstacles[0].Outline {
		near(t, 1.5, hyp(c.X-20, c.Y-10), 2e-3, "half of 3 m across")
	}
}

func TestMeasureOfATypedLength(t *testing.T) {
	h := sit(t, nil)
	h.keys("m")
	h.held([2]float64{10, 10}, [2]float64{10, 12}, "7.25")
	h.up(10, 12)
	require.Len(t, h.b.Plan().Site.Measures, 1)
	assert.Equal(t, []plan.Point{{X: 10, Y: 10}, {X: 10, Y: 17.25}}, h.b.Plan().Site.Measures[0].Points)
	h.click(20, 10)
	h.move(22, 10)
	h.keys("8")
	h.click(22, 10)
	h.move(28, 14)
	h.keys("6 0", "<Enter>")
	require.Len(t, h.b.Plan().Site.Measures, 2)
	assert.Equal(t, []plan.Point{{X: 20, Y: 10}, {X: 28, Y: 10}, {X: 28, Y: 16}}, h.b.Plan().Site.Measures[1].Points)
}

// A stretch of a fixed length shows what lies within reach; a hook-on point
// lies as far as it lies, and its length is then its own.
func TestLineOfATypedLength(t *testing.T) {
	h := rigged(t)
	h.keys("l")
	h.held(fairlead, [2]float64{26, 14}, "8")
	o := h.b.Overlay()
	r := o.Rubber
	require.GreaterOrEqual(t, len(r), 2)
	near(t, 8, hyp(r[len(r)-1].X-29.95, r[len(r)-1].Y-7.6), 0.01, "rubber")
	assert.Contains(t, plainTexts(o), "8 m, fixed")
	before := h.b.Plan()
	h.up(26, 14)
	assert.True(t, before == h.b.Plan())
	assert.Equal(t, "loose end", h.b.Prompt())
	h.keys("<Escape>", "<Escape>", "l")
	h.held(fairlead, front, "21.9") // the point lies 21.87 m off (storyboard A)
	assert.NotContains(t, plainTexts(h.b.Overlay()), "21.9 m, fixed")
	h.up(front[0], front[1])
	assert.Len(t, h.b.Plan().Rigs[0].Lines, 1)
}

// At the crosshair a number stays a place: nothing of the keyboard's changes.
func TestTypedPlaceAtTheCrosshairIsNoLength(t *testing.T) {
	h := sit(t, nil)
	h.keys("o", "10;10", "<Enter>", "<Enter>", "14;10", "<Enter>", "<Enter>", "14;13", "<Enter>", "<Enter>", "<Enter>")
	require.Len(t, h.b.Plan().Site.Obstacles, 1)
	assert.Equal(t, []plan.Point{{X: 10, Y: 10}, {X: 14, Y: 10}, {X: 14, Y: 13}}, h.b.Plan().Site.Obstacles[0].Outline)
	// begun with the pointer, gone on with places
	h.click(20, 10)
	h.move(22, 12)
	h.keys("24;10", "<Enter>", "<Enter>", "24;13", "<Enter>", "<Enter>", "<Enter>")
	require.Len(t, h.b.Plan().Site.Obstacles, 2)
	assert.Equal(t, []plan.Point{{X: 20, Y: 10}, {X: 24, Y: 10}, {X: 24, Y: 13}}, h.b.Plan().Site.Obstacles[1].Outline)
}

func TestTypedLengthInFeet(t *testing.T) {
	h := rigged(t)
	h.keys("u") // imperial
	h.held([2]float64{24, 19.5}, [2]float64{30, 19.5}, "10")
	h.up(30, 19.5)
	near(t, 24+3.048, h.b.Plan().Site.Anchors[0].At.X, 0.0011, "10 ft = 3.048 m (by definition)")
}
