package board_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/canvas/board"
	"kedge/canvas/draw"
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

// anyPath is a board with a casualty on any path: forward, in reverse or free, of any
// length or none, with up to three bends.
func anyPath(t testing.TB, rt *rapid.T) *hand {
	h := stuckAt(t, func(k *plan.Stuck) {
		k.Way = rapid.SampledFrom([]string{"", plan.WayForward, plan.WayReverse, plan.WayFree}).Draw(rt, "way")
		if k.Way == plan.WayFree && rapid.Bool().Draw(rt, "known") {
			k.WayBearing = plan.Known(quantity.Degrees(rapid.IntRange(0, 359).Draw(rt, "bearing")))
		}
		k.WayLength = quantity.Length(rapid.SampledFrom([]float64{0, 0.5, 3, 8, 12, 40}).Draw(rt, "length"))
		for range rapid.IntRange(0, 3).Draw(rt, "bends") {
			k.Bends = append(k.Bends, plan.Point{X: float64(rapid.IntRange(2, 30).Draw(rt, "x")), Y: float64(rapid.IntRange(2, 22).Draw(rt, "y"))})
		}
		k.TurnRadius = quantity.Length(rapid.SampledFrom([]float64{0, 2, 8}).Draw(rt, "turns"))
	})
	if rapid.Bool().Draw(rt, "axles known") {
		p := *h.b.Plan()
		v := p.Site.Vehicles[0]
		v.Wheelbase, v.FrontOverhang = 2.5, 0.7
		h = sit(t, plan.WithVehicle(&p, 0, v))
		h.b.Select("V1")
	}
	return h
}

// Whatever is drawn by hand, the path ends at its last corner, on its line: to a
// millimetre, which is what its length is kept to, and two more where it turns right
// back, in an arc of a millimetre. Its corners lie apart, and what was
// previewed is kept.
func TestAnyPathDrawnEndsAtItsLastCorner(t *testing.T) {
	drawn := 0
	rapid.Check(t, func(rt *rapid.T) {
		h := anyPath(t, rt)
		start := h.bytes()
		steps := 0
		for range rapid.IntRange(1, 5).Draw(rt, "gestures") {
			before := h.b.Plan()
			at := rapid.SampledFrom(h.b.Overlay().Handles).Draw(rt, "handle")
			x, y := rapid.Float64Range(0, 35).Draw(rt, "x"), rapid.Float64Range(0, 25).Draw(rt, "y")
			h.move(at.At.X, at.At.Y)
			h.down(at.At.X, at.At.Y)
			h.move(x, y)
			shown := bytesOf(rt, h.b.Shown())
			h.up(x, y)
			require.Equal(rt, shown, h.bytes())
			if h.b.Plan() == before {
				continue
			}
			steps++
			k := pathOf(h).Stuck
			if at.Kind == "turn" || pathOf(h).Bearing != before.Site.Vehicles[0].Bearing || len(k.Bends) == 0 || k.WayLength == 0 {
				continue
			}
			drawn++
			w, known := pathOf(h).WayLine()
			require.True(rt, known)
			require.InDelta(rt, 0, w.Track(float64(k.WayLength)).Dist(k.Bends[len(k.Bends)-1]), 3e-3, "where it ends")
			from := w.Track(0)
			for _, q := range k.Bends {
				require.Greater(rt, q.Dist(from), 0.09, "corners lie apart")
				from = q
			}
		}
		for range steps {
			h.b.Undo()
		}
		require.Equal(rt, start, h.bytes())
	})
	require.Positive(t, drawn)
}

// What the arrows do to a handle, a drag by as much does too. Alt keeps the pointer
// from snapping; it stands on whole centimetres, and each arrow rounds to millimetres.
func TestAnyHandleByKeysAndByHand(t *testing.T) {
	compared := 0
	rapid.Check(t, func(rt *rapid.T) {
		h := anyPath(t, rt)
		was := h.b.Plan()
		h.keys("e")
		for range rapid.IntRange(0, 6).Draw(rt, "tabs") {
			h.keys("<Tab>")
		}
		hot := func() (plan.Point, string) {
			list := h.b.Overlay().Handles
			i := slices.IndexFunc(list, func(x draw.Handle) bool { return x.Hot })
			require.GreaterOrEqual(rt, i, 0, "one is taken")
			return list[i].At, list[i].Kind
		}
		at, _ := hot()
		for _, x := range h.b.Overlay().Handles { // which of two that lie together is meant, a hand cannot tell
			if !x.Hot && x.At.Dist(at)*h.b.View().PerM < 20 {
				return
			}
		}
		dx, dy := rapid.IntRange(-8, 8).Draw(rt, "dx"), rapid.IntRange(-8, 8).Draw(rt, "dy")
		press := func(n int, plus, minus string) {
			for range max(n, -n) {
				h.keys(map[bool]string{true: plus, false: minus}[n > 0])
			}
		}
		press(dx, "<ArrowRight>", "<ArrowLeft>")
		press(dy, "<ArrowUp>", "<ArrowDown>")
		to := at.Plus(0.5*float64(dx), 0.5*float64(dy)) // the grid's step
		now, _ := hot()
		if h.b.Plan() == was || len(pathOf(h).Stuck.Bends) == 0 || now.Dist(to) > 0.02 { // straight, or refused on the way
			return
		}
		g := sit(t, was)
		g.b.Select("V1")
		g.move(at.X, at.Y)
		g.down(at.X, at.Y)
		g.move(to.X, to.Y, board.Mods{Alt: true})
		g.up(to.X, to.Y, board.Mods{Alt: true})
		mine, other := pathOf(h).Stuck, pathOf(g).Stuck
		require.Len(rt, other.Bends, len(mine.Bends))
		compared++
		for i := range mine.Bends {
			require.InDelta(rt, 0, mine.Bends[i].Dist(other.Bends[i]), 0.05, "bend %d", i)
		}
		require.InDelta(rt, float64(mine.WayLength), float64(other.WayLength), 0.1, "length")
	})
	require.Greater(t, compared, 10)
}

// stuckVehicle is that board with the vehicle itself changed.
func stuckVehicle(t testing.TB, change func(*plan.Vehicle)) *hand {
	p := stuckAt(t, nil).b.Plan()
	v := p.Site.Vehicles[0]
	v.Unshare()
	change(&v)
	h := sit(t, plan.WithVehicle(p, 0, v))
	h.b.Select("V1")
	return h
}

// The end is taken where the front of the body comes to; of one that goes in reverse
// its tail: 10 m from x 8, for the nose is at 12.
func TestThePathsEndIsTakenAtItsFront(t *testing.T) {
	for way, x := range map[string]float64{plan.WayForward: 22, plan.WayReverse: -2} {
		h := stuckVehicle(t, func(v *plan.Vehicle) { v.Wheelbase, v.FrontOverhang, v.Stuck.Way = 2.5, 0.7, way })
		hs := h.b.Overlay().Handles
		require.Equal(t, "end", hs[len(hs)-1].Kind)
		require.InDelta(t, 0, hs[len(hs)-1].At.Dist(plan.Point{X: x, Y: 10}), 1e-3, way)
	}
}

// A press on the body takes the body, though the path leads through it.
func TestThePathUnderTheBodyIsNotBent(t *testing.T) {
	h := stuckAt(t, nil)
	h.drag([2]float64{11.5, 10}, [2]float64{11.5, 13})
	require.Empty(t, pathOf(h).Stuck.Bends)
	require.Equal(t, plan.Point{X: 10, Y: 13}, pathOf(h).At)
	h = stuckAt(t, func(k *plan.Stuck) { k.WayLength = 3 }) // its middle lies under the body
	for _, x := range h.b.Overlay().Handles {
		require.NotEqual(t, "add", x.Kind)
	}
}

// A bend says nothing of how far a path goes of which nobody said it; the end does. A
// length in doubt is none any more once it is drawn.
func TestWhatADrawnPathSaysOfItsLength(t *testing.T) {
	h := stuckAt(t, func(k *plan.Stuck) { k.WayLength, k.Bends = 0, []plan.Point{{X: 16, Y: 10}, {X: 22, Y: 16}} })
	h.drag([2]float64{16, 10}, [2]float64{16, 12})
	require.Equal(t, plan.Point{X: 16, Y: 12}, pathOf(h).Stuck.Bends[0])
	require.Zero(t, pathOf(h).Stuck.WayLength)

	h = stuckVehicle(t, func(v *plan.Vehicle) {
		v.Doubts = []plan.Doubt{{Member: "casualty.way_length_m", Low: 8, High: 12}, {Member: "mass_kg", Low: 1, High: 2}}
	})
	h.drag([2]float64{22, 10}, [2]float64{23, 10})
	require.Equal(t, []plan.Doubt{{Member: "mass_kg", Low: 1, High: 2}}, pathOf(h).Doubts)
}

// Near the line of the wheels the first bend lies on it.
func TestTheFirstBendLiesAheadOfTheWheels(t *testing.T) {
	h := stuckVehicle(t, func(v *plan.Vehicle) { v.Bearing = 60 })
	e, n := plan.Heading(60)
	on := func(m, aside float64) [2]float64 { return [2]float64{10 + m*e + aside*n, 10 + m*n - aside*e} }
	h.drag(on(5, 0), on(7, 1), on(7, 0.2))
	q := pathOf(h).Stuck.Bends[0]
	require.InDelta(t, 0, (q.X-10)*n-(q.Y-10)*e, 1e-3, "on the line")
	h.b.Undo()
	h.drag(on(5, 0), on(7, 2))
	q = pathOf(h).Stuck.Bends[0]
	require.Greater(t, (q.X-10)*n-(q.Y-10)*e, 1.5, "far from it where it is let go")
}

// A length typed that ends before the last bend is driven is refused: with an arc of
// 2 m the bend at 6 m is driven after 6 − 2 + π m, closed form.
func TestATypedPathEndsAfterItsLastBend(t *testing.T) {
	h := stuckAt(t, func(k *plan.Stuck) {
		k.TurnRadius, k.Bends, k.WayLength = 2, []plan.Point{{X: 16, Y: 10}, {X: 16, Y: 20}}, 12
	})
	hs := h.b.Overlay().Handles
	end := hs[len(hs)-1].At
	typed := func(length string) {
		h.move(end.X, end.Y)
		h.down(end.X, end.Y)
		h.keys(length)
		h.up(end.X, end.Y)
	}
	before := h.bytes()
	typed("7.1")
	require.Equal(t, before, h.bytes())
	require.Contains(t, h.b.Prompt(), "cannot end there")
	typed("7.2")
	require.Equal(t, quantity.Length(7.2), pathOf(h).Stuck.WayLength)
}
