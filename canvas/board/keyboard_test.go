package board_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/canvas/form"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// siteByKeys draws the same site without a pointer.
func siteByKeys(h *hand) {
	h.keys("v", "5.5;8.5", "<Enter>", "<Enter>", "2450", "<Tab>", "h", "<Enter>")
	h.keys("v") // again: the next kind, so back to what the plan asks for
	h.keys("<Escape>", "v", "32.5;7.5", "<Enter>", "<Enter>")
	h.keys("o")
	for _, c := range []string{"16.5;6.5", "19;6", "21;7.5", "20.5;10", "18;11", "16;9"} {
		h.keys(c, "<Enter>", "<Enter>")
	}
	h.keys("<Enter>")
	h.keys("a")
	for _, c := range [][3]string{{"24;19.5", "145", "48"}, {"12;21.5", "100", "34"}, {"27;2", "90", "30"}} {
		h.keys(c[0], "<Enter>", "<Enter>", c[1], "<Tab>", c[2], "<Enter>")
	}
}

// tabTo presses Tab until the crosshair stands near a place.
func (h *hand) tabTo(x, y float64) {
	h.t.Helper()
	for range 40 {
		h.keys("<Tab>")
		if c := h.b.Overlay().Cross; c != nil && (c.X-x)*(c.X-x)+(c.Y-y)*(c.Y-y) < 0.05 {
			return
		}
	}
	require.FailNowf(h.t, "Tab", "does not reach %g ; %g", x, y)
}

// tabSelect presses Tab until a thing is selected.
func (h *hand) tabSelect(id plan.ID) {
	h.t.Helper()
	for range 60 {
		if s := h.b.Selection(); len(s) == 1 && s[0] == id {
			return
		}
		h.keys("<Tab>")
	}
	require.FailNowf(h.t, "Tab", "does not reach %s", id)
}

// The storyboard without a pointer gives the plan it gives with one, byte for
// byte. Source: the design's storyboard A, "Keyboard alone gives the same
// bytes".
func TestKeyboardAloneGivesTheSameBytes(t *testing.T) {
	p, k := rigged(t), sit(t, nil)
	siteByKeys(k)
	require.Equal(t, p.bytes(), k.bytes(), "the site")

	straight(p)
	k.keys("l")
	k.tabTo(29.95, 7.6)
	k.keys("<Enter>")
	k.tabTo(8.1, 8.5)
	k.keys("<Enter>", "<Enter>")
	require.Equal(t, p.bytes(), k.bytes(), "the straight line")
	require.Equal(t, board.ToolSelect, k.b.Tool())

	bendOnTree(p)
	k.tabSelect("L1")
	k.keys("h")
	k.tabTo(24, 19.5)
	k.keys("<Enter>")
	require.Equal(t, p.bytes(), k.bytes(), "the bend")
	redirected(t, k)

	p.keys("pp")
	p.click(22, 13)
	p.keys("<Escape>")
	p.drag([2]float64{22, 13}, [2]float64{29, 15}, [2]float64{36, 16})
	k.keys("pp", "22;13", "<Enter>", "<Enter>", "<Escape>", "<Escape>")
	k.tabSelect("P1")
	for range 28 { // 14 m east
		k.keys("<ArrowRight>")
	}
	for range 6 {
		k.keys("<ArrowUp>")
	}
	require.Equal(t, p.bytes(), k.bytes(), "the spotter moved")
	assert.Equal(t, "Move Spotter 1", k.b.UndoName())
	k.b.Undo()
	assert.Equal(t, plan.Point{X: 22, Y: 13}, k.b.Plan().Site.People[0].At, "presses of the arrows in a row are one step")

	// a longer sling: the arc of 4 m, and ]
	p.keys("<Escape>")
	k.b.Redo()
	longer(p, 4)
	k.keys("<Escape>")
	k.tabSelect("B1")
	k.keys("]")
	assert.Equal(t, p.bytes(), k.bytes(), "the longer sling")

	// hung on another tree
	at, ok := nodeOf(p, "B1")
	require.True(t, ok)
	p.drag([2]float64{at.X, at.Y}, [2]float64{18, 20}, [2]float64{12, 21.5})
	k.tabSelect("B1")
	k.keys("h")
	k.tabTo(12, 21.5)
	k.keys("<Enter>")
	assert.Equal(t, p.bytes(), k.bytes(), "hung elsewhere")
	assert.Equal(t, plan.ID("T2"), k.b.Plan().Rigs[0].Slings[0].On.Thing)

	// turned
	p.click(32.5, 6.8)
	require.Equal(t, []plan.ID{"V2"}, p.b.Selection())
	p.keys("r", "<ArrowRight>", "<ArrowRight>")
	k.keys("<Escape>")
	k.tabSelect("V2")
	k.keys("r", "<ArrowRight>", "<ArrowRight>", "<Enter>")
	assert.Equal(t, p.bytes(), k.bytes(), "turned")
	assert.Equal(t, "Turn Winch vehicle", k.b.UndoName())
}

func TestCrosshair(t *testing.T) {
	h := sit(t, nil)
	h.keys("a", "12;4.5", "<Enter>")
	require.Equal(t, plan.Point{X: 12, Y: 4.5}, *h.b.Overlay().Cross)
	h.keys("<ArrowRight>")
	assert.Equal(t, plan.Point{X: 12.5, Y: 4.5}, *h.b.Overlay().Cross)
	h.b.Handle(board.Key{Name: "ArrowUp", Mods: board.Mods{Shift: true}})
	assert.Equal(t, plan.Point{X: 12.5, Y: 4.6}, *h.b.Overlay().Cross)
	h.b.Handle(board.Key{Name: "ArrowLeft", Mods: board.Mods{Ctrl: true}})
	assert.Equal(t, plan.Point{X: 7.5, Y: 4.6}, *h.b.Overlay().Cross)
	for _, typed := range []string{"8 m 30°", "8 m 30", "8 30 deg", "30° 8 m"} { // 8 m at 30° from north: 4 m east, 6.928 m north (closed form)
		h.keys("7.5;4.6", "<Enter>", typed, "<Enter>")
		c := h.b.Overlay().Cross
		require.NotNil(t, c)
		near(t, 11.5, c.X, 1e-9, "x")
		near(t, 11.528, c.Y, 1e-3, "y")
	}
	for _, typed := range []string{"8 m", "30°", "8 m 30° 8 m", "8 ft 30", "1 200", "8 m < 30"} {
		h.keys("7.5;4.6", "<Enter>", typed, "<Enter>")
		assert.Contains(t, h.b.Prompt(), "is no place", typed)
	}
	h.keys("8 ; x", "<Enter>")
	assert.Contains(t, h.b.Prompt(), "is no place")
	assert.Empty(t, h.b.Plan().Site.Anchors)
}

func longer(h *hand, lengthM float64) {
	h.t.Helper()
	at, ok := nodeOf(h, "B1")
	require.True(h.t, ok)
	h.move(at.X, at.Y)
	h.down(at.X, at.Y)
	h.move(at.X-0.4, at.Y-0.4)
	for _, a := range h.b.Overlay().Arcs {
		if plain(a.Label) != "4 m" {
			continue
		}
		d := a.RadiusM
		ux, uy := at.X-a.Centre.X, at.Y-a.Centre.Y
		l := hyp(ux, uy)
		x, y := a.Centre.X+ux*d/l, a.Centre.Y+uy*d/l
		h.move(x, y)
		h.up(x, y)
		return
	}
	require.Failf(h.t, "no arc", "of %g m", lengthM)
}

// Points at one place are told apart by Tab: a line ends at the becket of a
// block whose sheave lies at the same place.
func TestTabTellsPointsAtOnePlaceApart(t *testing.T) {
	h := redirect(t)
	h.keys("<Escape>", "l")
	seen := map[plan.Port]bool{}
	for range 30 {
		h.keys("<Tab>")
		if m := under(h.b.Overlay()); m != nil {
			seen[m.Port] = true
		}
	}
	assert.True(t, seen[plan.Port{Thing: "B1"}])
	assert.True(t, seen[plan.Port{Thing: "B1", Point: plan.PortBecket}])
	assert.True(t, seen[plan.Port{Thing: "V2", Point: plan.PortWinch}])
}

// A place is shown in the unit a typed one is read in.
func TestPlacesInFeet(t *testing.T) {
	h := sit(t, nil)
	h.keys("u")
	require.Equal(t, quantity.Imperial, h.b.Words().System())
	assert.Contains(t, h.b.Prompt(), "Units: lbf")
	h.keys("p", "10;20", "<Enter>")
	c := h.b.Overlay().Cross
	require.NotNil(t, c)
	near(t, 3.048, c.X, 1e-9, "10 ft") // 0.3048 m each by definition
	near(t, 6.096, c.Y, 1e-9, "20 ft")
	assert.Contains(t, texts(h.b.Overlay()), "10 ; 20 ft")
	h.keys("<Enter>", "u", "u")
	assert.Equal(t, quantity.Metric, h.b.Words().System())
	near(t, 3.048, h.b.Plan().Site.People[0].At.X, 1e-9, "placed there")
}

func TestPresetsAreMarkedForDetails(t *testing.T) {
	h := rigged(t)
	straight(h)
	origin := map[string]form.Origin{}
	for _, f := range h.b.Fields("V1") {
		origin[f.Member] = f.Origin
	}
	assert.Equal(t, form.OriginTyped, origin["mass_kg"])
	assert.Equal(t, form.OriginPreset, origin["length_m"])
	assert.Equal(t, form.OriginPreset, origin["casualty/way_length_m"])
	assert.Equal(t, form.OriginPreset, origin["recovery_points/front/rating"])
	for _, f := range h.b.Fields("V2") {
		origin[f.Member] = f.Origin
	}
	assert.Equal(t, form.OriginPreset, origin["winch/line_pull_n"])
	for _, f := range h.b.Fields("L1") {
		origin[f.Member] = f.Origin
	}
	assert.Equal(t, form.OriginPreset, origin["rating"])
	assert.Equal(t, form.OriginPreset, origin["condition"])
	f, ok := h.finding("presets")
	require.True(t, ok)
	// The winch's pull, the casualty's front point and the line: the ratings of
	// what the straight rig is made of.
	assert.InDelta(t, 3, f.Values[0].X, 0)
}

// Whatever is typed as a place leads to a place in reach or is refused with what
// to type instead.
func FuzzPlaceTyped(f *testing.F) {
	for _, s := range []string{"12;4.5", "8 m 30°", "-3 ; 2,5", "1;", "°", "30 8 m°", "1e308;1e308", "9999999999;1", "12;4.5;7", "8 x°", "0 0°", "1/2;3", "99999999999999999999 m 10°"} {
		f.Add(s)
	}
	h := sit(f, nil)
	f.Fuzz(func(t *testing.T, typed string) {
		h.keys("<Escape>", "<Escape>", "<Escape>", "p", "1;1", "<Enter>")
		before := *h.b.Overlay().Cross
		h.b.Handle(board.Rune{R: '0'})
		for _, r := range typed {
			h.b.Handle(board.Rune{R: r})
		}
		h.keys("<Enter>")
		c := h.b.Overlay().Cross
		require.NotNil(t, c)
		require.True(t, math.Abs(c.X) <= 1e7 && math.Abs(c.Y) <= 1e7, "in the bounds of a plan")
		if *c == before {
			return // refused, or the very place
		}
		h.keys("<Enter>") // a place that can be stood on, or the plan refuses it
		require.NoError(t, plan.Validate(h.b.Plan()))
		for h.b.UndoName() != "" {
			h.b.Undo()
		}
	})
}
