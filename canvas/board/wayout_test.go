package board_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// stuckAt is a board with a casualty of 4 m alone, nose east, its middle at 10;10: the
// axles are not known, so that what moves along its way is its middle and the front
// lies 2 m ahead of that.
func stuckAt(t testing.TB, change func(*plan.Stuck)) *hand {
	p := board.Empty()
	v := plan.Vehicle{Head: plan.Head{ID: "V1"}, At: plan.Point{X: 10, Y: 10}, Bearing: 90, Length: 4, Width: 1.8, Stuck: &plan.Stuck{WayLength: 10}}
	if change != nil {
		change(v.Stuck)
	}
	p.Site.Vehicles = []plan.Vehicle{v}
	h := sit(t, p)
	h.b.Select("V1")
	return h
}

// pathOf is the casualty of the board, with its path.
func pathOf(h *hand) *plan.Vehicle { return &h.b.Plan().Site.Vehicles[0] }

// The end of a straight path is dragged along the wheels: 3 m farther is 3 m longer,
// whatever the hand strays aside.
func TestThePathsEndIsDragged(t *testing.T) {
	h := stuckAt(t, nil)
	before := h.bytes()
	h.drag([2]float64{22, 10}, [2]float64{24, 10.6}, [2]float64{25, 10.4}) // the front at the end: 10 + 10 + 2
	require.Equal(t, quantity.Length(13), pathOf(h).Stuck.WayLength)
	require.Empty(t, pathOf(h).Stuck.Bends)
	h.b.Undo()
	require.Equal(t, before, h.bytes())

	h.drag([2]float64{22, 10}, [2]float64{9, 10}) // behind its start
	require.Equal(t, before, h.bytes(), "it would lead back")
	require.NotEmpty(t, h.b.Prompt())

	h.move(22, 10)
	h.down(22, 10)
	h.keys("7.5") // a number is the length of the whole path
	h.up(22, 10)
	require.Equal(t, quantity.Length(7.5), pathOf(h).Stuck.WayLength)
}

// A path without a length gets one, and a free one a direction too: due north, from the
// front of the body 6 m on.
func TestAPathIsDrawnFromNothing(t *testing.T) {
	h := stuckAt(t, func(k *plan.Stuck) { k.WayLength, k.Way = 0, plan.WayFree })
	hs := h.b.Overlay().Handles
	end := hs[len(hs)-1].At
	h.drag([2]float64{end.X, end.Y}, [2]float64{10, 18})
	require.Equal(t, quantity.Length(6), pathOf(h).Stuck.WayLength)
	to, known := pathOf(h).Stuck.WayBearing.Get()
	require.True(t, known)
	require.Equal(t, quantity.Degrees(0), to)
}

// A press on the path bends it there; the end stays where it was. Two legs of a right
// angle round an arc of 2 m are 2·(leg − 2) + π·2/2 long: closed form.
func TestAPressOnThePathBendsIt(t *testing.T) {
	h := stuckAt(t, func(k *plan.Stuck) { k.TurnRadius, k.WayLength = 2, 12 })
	before := h.bytes()
	h.drag([2]float64{17, 10}, [2]float64{17, 11}, [2]float64{16, 16}) // press on the leg
	require.Equal(t, []plan.Point{{X: 16, Y: 16}, {X: 22, Y: 10}}, pathOf(h).Stuck.Bends)
	leg := math.Hypot(6, 6)
	near(t, 2*(leg-2)+math.Pi*2/2, float64(pathOf(h).Stuck.WayLength), 1e-3, "length")

	h.drag([2]float64{16, 16}, [2]float64{19, 10}) // the bend is dragged on
	require.Equal(t, plan.Point{X: 19, Y: 10}, pathOf(h).Stuck.Bends[0])
	tip := plan.Point{X: 24, Y: 10}
	h.drag([2]float64{tip.X, tip.Y}, [2]float64{19, 20}) // the end: its front comes to 19;20
	require.Equal(t, plan.Point{X: 19, Y: 18}, pathOf(h).Stuck.Bends[1])
	near(t, 9-2+8-2+math.Pi, float64(pathOf(h).Stuck.WayLength), 1e-3, "length")
	for range 3 {
		h.b.Undo()
	}
	require.Equal(t, before, h.bytes())
}

// Delete takes out the bend that was clicked, and leaves the vehicle; the path is
// straight again.
func TestDeleteTakesABendOut(t *testing.T) {
	for _, key := range []string{"<Delete>", "<Backspace>"} {
		h := stuckAt(t, func(k *plan.Stuck) { k.Bends = []plan.Point{{X: 16, Y: 10}, {X: 16, Y: 20}} })
		h.keys(key) // without a bend taken it is the vehicle that goes
		require.Empty(t, h.b.Plan().Site.Vehicles)
		h.b.Undo()
		h.b.Select("V1")
		h.click(16, 10)
		h.keys(key)
		require.Len(t, h.b.Plan().Site.Vehicles, 1)
		require.Empty(t, pathOf(h).Stuck.Bends)
		h.keys(key) // the end is taken now: nothing to take out
		require.Len(t, h.b.Plan().Site.Vehicles, 1)
		h.b.Undo()
		require.Len(t, pathOf(h).Stuck.Bends, 2)
	}
}

// The keys draw what the pointer draws, to the byte.
func TestThePathByKeyboard(t *testing.T) {
	h := stuckAt(t, nil)
	h.drag([2]float64{15, 10}, [2]float64{15.5, 11}) // on the leg's middle
	h.drag([2]float64{15.5, 11}, [2]float64{16, 12})
	want := h.bytes()

	k := stuckAt(t, nil)
	k.keys("e", "<Tab>", "<ArrowUp>", "<ArrowRight>", "<ArrowUp>", "<ArrowUp>", "<ArrowRight>", "<ArrowUp>")
	require.Equal(t, want, k.bytes())
	k.keys("<Tab>", "<Tab>", "<Delete>") // the leg, the end
	require.Equal(t, want, k.bytes(), "there is no bend at the end")
	k.keys("<Tab>", "<Tab>", "<Delete>")
	require.Empty(t, pathOf(k).Stuck.Bends)

	g := stuckAt(t, nil) // grabbed at the crosshair
	g.keys("15;10", "<Enter>")
	g.b.Undo() // a click alone puts a straight bend in
	require.Empty(t, pathOf(g).Stuck.Bends)
	g.keys("15;10", "<Enter>", "<Escape>")
}

// A path that is moved, turned or mirrored with its casualty keeps its shape: as long
// as before.
func TestBendsGoWithTheCasualty(t *testing.T) {
	shape := func(h *hand) []float64 {
		v := pathOf(h)
		var all []float64
		for _, q := range v.Stuck.Bends {
			all = append(all, q.Dist(v.At))
		}
		return all
	}
	for name, do := range map[string]func(*hand){
		"moved":    func(h *hand) { h.drag([2]float64{9, 10.5}, [2]float64{12, 14}) },
		"mirrored": func(h *hand) { h.b.Handle(board.Command{ID: "mirror"}) },
		"turned":   func(h *hand) { h.keys("r", "<ArrowRight>", "<ArrowRight>", "<Enter>") },
	} {
		h := stuckAt(t, func(k *plan.Stuck) { k.Bends = []plan.Point{{X: 16, Y: 10}, {X: 17, Y: 20}} })
		was := shape(h)
		first := pathOf(h).Stuck.Bends[0]
		do(h)
		require.NotEqual(t, first, pathOf(h).Stuck.Bends[0], name)
		require.InDeltaSlice(t, was, shape(h), 2e-3, name)
		to, _ := pathOf(h).WayOut()
		require.InDelta(t, 0, math.Remainder(float64(to-pathOf(h).Bearing), 360), 0.1, "%s: it begins as the wheels stand", name)
	}
}
