package board_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/canvas/draw"
	"kedge/canvas/form"
	"kedge/solver/part"
	"kedge/solver/plan"
)

func TestSelecting(t *testing.T) {
	h := redirect(t)
	shift := board.Mods{Shift: true}
	h.click(24, 19.5)
	h.click(12, 21.5, shift)
	assert.Equal(t, []plan.ID{"T1", "T2"}, h.b.Selection())
	h.click(24, 19.5, shift)
	assert.Equal(t, []plan.ID{"T2"}, h.b.Selection())
	h.drag([2]float64{10, 23}, [2]float64{18, 20}, [2]float64{26, 17}) // a frame round two trees, the block and the sling
	got := h.b.Selection()
	assert.Subset(t, got, []plan.ID{"T1", "T2", "B1", "S1"})
	assert.NotContains(t, got, plan.ID("L1"), "the line reaches out of the frame")
	h.click(40, 25)
	assert.Empty(t, h.b.Selection())
	h.click(27, 2)
	h.b.Handle(board.Command{ID: "select-kind"})
	assert.Equal(t, []plan.ID{"T1", "T2", "T3"}, h.b.Selection())
	h.ctrl("a")
	assert.Subset(t, h.b.Selection(), []plan.ID{"V1", "V2", "T1", "T2", "T3", "O1", "L1", "B1", "S1", "K1"})
}

// A line is picked before an obstacle under it, what lies behind with Alt.
// Source: the design's storyboard A.
func TestLineIsPickedBeforeTheObstacleUnderIt(t *testing.T) {
	h := rigged(t)
	straight(h)
	h.keys("<Escape>", "<Escape>")
	h.click(18.5, 8.07)
	assert.Equal(t, []plan.ID{"L1"}, h.b.Selection())
	h.click(18.5, 8.07, board.Mods{Alt: true})
	assert.Equal(t, []plan.ID{"O1"}, h.b.Selection())
	h.click(18.5, 8.07, board.Mods{Alt: true})
	assert.Equal(t, []plan.ID{"L1"}, h.b.Selection())
}

func TestMoving(t *testing.T) {
	cases := []struct {
		name     string
		from, to [2]float64
		mods     board.Mods
		thing    func(p *plan.Plan) plan.Point
		want     plan.Point
		undo     string
	}{
		{"a tree, on the grid", [2]float64{24, 19.5}, [2]float64{25.3, 20.6}, board.Mods{}, func(p *plan.Plan) plan.Point { return p.Site.Anchors[0].At }, plan.Point{X: 25.5, Y: 20.5}, "Move Tree 1"},
		{"a tree, held off the grid", [2]float64{24, 19.5}, [2]float64{25.31, 20.62}, board.Mods{Alt: true}, func(p *plan.Plan) plan.Point { return p.Site.Anchors[0].At }, plan.Point{X: 25.31, Y: 20.62}, "Move Tree 1"},
		{"a vehicle, taken beside its middle", [2]float64{4, 8.3}, [2]float64{5, 9.3}, board.Mods{}, func(p *plan.Plan) plan.Point { return p.Site.Vehicles[0].At }, plan.Point{X: 6.5, Y: 9.5}, "Move Casualty"},
		{"the boulder, by all its corners", [2]float64{18, 7.5}, [2]float64{18, 6.5}, board.Mods{}, func(p *plan.Plan) plan.Point { return p.Site.Obstacles[0].Outline[3] }, plan.Point{X: 20.5, Y: 9}, "Move Boulder 1"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			h := rigged(t)
			before := h.bytes()
			h.move(c.from[0], c.from[1])
			h.down(c.from[0], c.from[1])
			h.move((c.from[0]+c.to[0])/2, (c.from[1]+c.to[1])/2, c.mods)
			h.move(c.to[0], c.to[1], c.mods)
			h.up(c.to[0], c.to[1], c.mods)
			assert.Equal(t, c.want, c.thing(h.b.Plan()))
			assert.Equal(t, c.undo, h.b.UndoName())
			h.b.Undo()
			assert.Equal(t, before, h.bytes())
		})
	}
}

// A vehicle moves with what hangs on it: its line's end is its point.
func TestVehicleMovesWithItsLine(t *testing.T) {
	h := redirect(t)
	long := h.b.Answer().Stretches[0].Length
	h.drag([2]float64{32.5, 7.0}, [2]float64{34, 6.5}, [2]float64{36.5, 6})
	assert.NotEqual(t, long, h.b.Answer().Stretches[0].Length)
	v, _ := h.b.Plan().Vehicle("V2")
	spot, _ := v.PortPlace(plan.PortWinch)
	assert.InDelta(t, spot.At.X, h.b.Answer().Stretches[0].A.X, 1e-9)
	assert.Equal(t, plan.Point{X: 23.75, Y: 18.43}, rounded2(h.b.Plan().Rigs[0].Blocks[0].At, 23.75, 18.43), "the block's drawn place is nobody's to move")
}

// rounded2 is the place x ; y if p lies within two centimetres of it.
func rounded2(p plan.Point, x, y float64) plan.Point {
	if hyp(p.X-x, p.Y-y) < 0.02 {
		return plan.Point{X: x, Y: y}
	}
	return p
}

func TestLockedStays(t *testing.T) {
	h := rigged(t)
	h.click(24, 19.5)
	h.ctrl("l")
	assert.Equal(t, "Lock", h.b.UndoName())
	before := h.b.Plan()
	h.drag([2]float64{24, 19.5}, [2]float64{28, 21})
	assert.True(t, before == h.b.Plan())
	assert.Equal(t, "Tree 1 is locked", h.b.Prompt())
	h.keys("<ArrowLeft>", "<Delete>")
	assert.True(t, before == h.b.Plan())
	h.b.Select("T1")
	h.ctrl("l")
	assert.False(t, h.b.Plan().Site.Anchors[0].Locked)
	h.ctrl("h")
	assert.True(t, h.b.Plan().Site.Anchors[0].Hidden)
	h.click(24, 19.5)
	assert.Empty(t, h.b.Selection(), "what is hidden is not met")
	h.b.Handle(board.Command{ID: "show-all"})
	assert.False(t, h.b.Plan().Site.Anchors[0].Hidden)
}

func TestTurning(t *testing.T) {
	h := rigged(t)
	h.click(32.5, 6.9)
	require.Equal(t, []plan.ID{"V2"}, h.b.Selection())
	var at plan.Point
	for _, x := range h.b.Overlay().Handles {
		if x.Kind == "turn" {
			at = x.At
		}
	}
	require.NotZero(t, at)
	h.drag([2]float64{at.X, at.Y}, [2]float64{32, 12}, [2]float64{32.7, 13}) // about north
	assert.InDelta(t, 0, float64(h.b.Plan().Site.Vehicles[1].Bearing), 1e-9, "15° steps")
	assert.Equal(t, plan.Point{X: 32.5, Y: 7.5}, h.b.Plan().Site.Vehicles[1].At)
	assert.Equal(t, "Turn Winch vehicle", h.b.UndoName())
	h.keys("r", "<ArrowLeft>")
	assert.InDelta(t, 355, float64(h.b.Plan().Site.Vehicles[1].Bearing), 1e-9)
	h.b.Handle(board.Key{Name: "ArrowLeft", Mods: board.Mods{Shift: true}})
	assert.InDelta(t, 354, float64(h.b.Plan().Site.Vehicles[1].Bearing), 1e-9)
}

func TestCopies(t *testing.T) {
	h := redirect(t)
	h.click(24, 19.5)
	h.ctrl("c")
	before := h.bytes()
	h.ctrl("v")
	require.Len(t, h.b.Plan().Site.Anchors, 4)
	n := h.b.Plan().Site.Anchors[3]
	assert.Equal(t, plan.ID("T4"), n.ID)
	assert.Equal(t, plan.Point{X: 25, Y: 18.5}, n.At)
	assert.InDelta(t, 0.48, float64(n.Trunk), 1e-12)
	assert.Equal(t, []plan.ID{"T4"}, h.b.Selection())
	h.b.Undo()
	assert.Equal(t, before, h.bytes())

	h.ctrl("a")
	h.ctrl("d")
	p := h.b.Plan()
	require.NoError(t, plan.Validate(p))
	assert.Len(t, p.Site.Vehicles, 4)
	require.Len(t, p.Rigs[0].Lines, 2)
	l := p.Rigs[0].Lines[1]
	assert.Equal(t, []plan.Port{{Thing: "V4", Point: plan.PortWinch}, {Thing: "B2"}, {Thing: "V3", Point: "front"}}, l.Path, "copies hang on copies")
	assert.Equal(t, plan.ID("T4"), p.Rigs[0].Slings[1].On.Thing)
	assert.Equal(t, "Duplicate", h.b.UndoName())
	h.b.Undo()
	assert.Equal(t, before, h.bytes())

	h.b.Select("T2")
	h.ctrl("x")
	assert.Len(t, h.b.Plan().Site.Anchors, 2)
	h.ctrl("v")
	require.Len(t, h.b.Plan().Site.Anchors, 3)
	assert.InDelta(t, 0.34, float64(h.b.Plan().Site.Anchors[2].Trunk), 1e-12)
}

func TestArranging(t *testing.T) {
	trees := func(h *hand) []plan.Point {
		var pts []plan.Point
		for _, a := range h.b.Plan().Site.Anchors {
			pts = append(pts, a.At)
		}
		return pts
	}
	cases := []struct {
		command string
		want    []plan.Point // of trees at (24, 19.5), (12, 21.5), (27, 2)
	}{
		{"align-west", []plan.Point{{X: 12, Y: 19.5}, {X: 12, Y: 21.5}, {X: 12, Y: 2}}},
		{"align-east", []plan.Point{{X: 27, Y: 19.5}, {X: 27, Y: 21.5}, {X: 27, Y: 2}}},
		{"align-north", []plan.Point{{X: 24, Y: 21.5}, {X: 12, Y: 21.5}, {X: 27, Y: 21.5}}},
		{"align-south", []plan.Point{{X: 24, Y: 2}, {X: 12, Y: 2}, {X: 27, Y: 2}}},
		{"distribute", []plan.Point{{X: 24, Y: 11.75}, {X: 12, Y: 21.5}, {X: 27, Y: 2}}}, // higher than wide: the middle one goes to (2+21.5)/2
		{"mirror", []plan.Point{{X: 15, Y: 19.5}, {X: 27, Y: 21.5}, {X: 12, Y: 2}}},      // about x = 19.5
	}
	for _, c := range cases {
		t.Run(c.command, func(t *testing.T) {
			h := rigged(t)
			before := h.bytes()
			h.b.Select("T1", "T2", "T3")
			if c.command == "distribute" {
				want := c.want[0]
				h.b.Handle(board.Command{ID: c.command})
				assert.InDelta(t, want.Y, trees(h)[0].Y, 1e-9)
			} else {
				h.b.Handle(board.Command{ID: c.command})
				assert.Equal(t, c.want, trees(h))
			}
			h.b.Undo()
			assert.Equal(t, before, h.bytes())
		})
	}
	h := rigged(t)
	h.b.Select("T1")
	h.b.Handle(board.Command{ID: "align-west"})
	assert.Equal(t, "Select two items or more", h.b.Prompt())
}

// Mirrored twice, everything stands where it stood.
func TestMirrorTwice(t *testing.T) {
	h := rigged(t)
	before := h.bytes()
	h.b.Select("V1", "V2", "T1", "T2", "T3", "O1")
	h.b.Handle(board.Command{ID: "mirror"})
	require.NotEqual(t, before, h.bytes())
	h.b.Handle(board.Command{ID: "mirror"})
	v := h.b.Plan().Site.Vehicles[1]
	assert.InDelta(t, 272.3, float64(v.Bearing), 1e-9)
	assert.InDelta(t, 0.45, float64(v.Recovery[0].Left.Or(0)), 1e-12)
	assert.Equal(t, plan.Point{X: 24, Y: 19.5}, h.b.Plan().Site.Anchors[0].At)
}

func TestSnapping(t *testing.T) {
	h := rigged(t)
	h.click(24, 19.5)
	h.keys("<Escape>")
	h.b.Handle(board.Wheel{X: 500, Y: 380, DY: 6}) // closer, so that the grid is coarse
	h.keys("p")
	v := h.b.View()
	// Three pixels east of Tree 3's meridian moved off the grid by hand.
	require.Greater(t, v.PerM, 40.0)
	h.move(27.05, 4.26)
	o := h.b.Overlay()
	require.NotEmpty(t, o.Guides)
	assert.Equal(t, "in line with Tree 3", o.Guides[0].Why)
	h.keys("<Escape>")
	h.keys("m")
	h.click(10, 10)
	h.click(14, 10)
	h.move(14.05, 13)
	assert.Contains(t, whys(h.b.Overlay()), "right angle")
	h.move(14, 14.02)
	assert.Contains(t, whys(h.b.Overlay()), "same length")
	h.move(14.21, 13.37, board.Mods{Alt: true})
	assert.Empty(t, h.b.Overlay().Guides)
	r := h.b.Overlay().Rubber
	assert.Equal(t, plan.Point{X: 14.21, Y: 13.37}, r[len(r)-1])
}

func TestHookOnPoints(t *testing.T) {
	h := redirect(t)
	assert.Empty(t, h.b.Overlay().Ports, "hidden until a tool offers them")
	h.keys("l")
	h.move(front[0], front[1])
	states := map[draw.PortState]int{}
	for _, m := range h.b.Overlay().Ports {
		states[m.State]++
	}
	assert.Equal(t, 1, states[draw.PortUnder])
	assert.Greater(t, states[draw.PortOffered], 5)
	assert.Contains(t, plain(under(h.b.Overlay()).Label), "front recovery point · 40")
	// A block whose sheave is too small for the rope: refused with the reason.
	p := h.b.Plan()
	k := p.Rigs[0].Blocks[0]
	k.LineMin, k.LineMax = 0.004, 0.006
	r := p.Rigs[0]
	r.Blocks = []plan.Block{k}
	h = sit(t, plan.WithRig(p, 0, r))
	h.keys("l")
	at, ok := nodeOf(h, "B1")
	require.True(t, ok)
	h.move(at.X, at.Y)
	found := false
	for _, m := range h.b.Overlay().Ports {
		if (m.Port == plan.Port{Thing: "B1"}) {
			found = true
			assert.Equal(t, draw.PortRefused, m.State)
			assert.Equal(t, "rope 10 mm, sheave takes 4.0 mm to 6.0 mm", plain(m.Label))
		}
	}
	require.True(t, found)
}

// Every text the board shows has its words.
func TestNoTextIsMissing(t *testing.T) {
	h := redirect(t)
	check := func(s, what string) {
		assert.NotContains(t, s, "[", what)
		assert.NotEmpty(t, s, what)
	}
	for _, c := range h.b.Commands() {
		check(c.Label, c.ID)
		assert.Equal(t, c.Enabled, c.Why == "", c.ID)
		if !c.Enabled {
			check(c.Why, c.ID)
		}
	}
	for _, tool := range board.Tools() {
		h.b.Arm(tool)
		h.move(20, 14)
		check(h.b.Prompt(), string(tool))
		for _, s := range append(texts(h.b.Overlay()), whys(h.b.Overlay())...) {
			check(s, string(tool))
		}
		h.click(20.5, 15)
		if h.b.UndoName() != "" {
			check(h.b.UndoName(), string(tool))
		}
		check(h.b.Prompt(), string(tool))
		for range 4 { // every kind it can place
			if q := h.b.Question(); q != nil {
				check(q.Label, string(tool))
				h.keys("<Enter>")
			}
			if tool == board.ToolVehicle || tool == board.ToolAnchor || tool == board.ToolPerson {
				h.keys(string(tool[0]))
				h.click(41, 20)
				check(h.b.Prompt(), string(tool))
				check(h.b.UndoName(), string(tool))
			}
		}
	}
	for _, s := range board.StartRigs() {
		h.b.Handle(board.Command{ID: "start." + s})
		check(h.b.Prompt(), s)
		check(h.b.UndoName(), s)
	}
	for _, tab := range h.b.Tabs() {
		check(tab.Text, string(tab.Rig))
	}
	assert.False(t, strings.Contains(h.b.Prompt(), "safe"))
}

func TestPersonInAVehicle(t *testing.T) {
	h := rigged(t)
	h.keys("pppp")
	h.click(5.2, 8.3)
	q := h.b.Plan().Site.People[0]
	assert.Equal(t, plan.RoleDriver, q.Role)
	assert.Equal(t, plan.ID("V1"), q.Vehicle)
	h.keys("<Escape>")
	h.b.Select("V1")
	h.keys("<Delete>")
	q = h.b.Plan().Site.People[0]
	assert.Empty(t, q.Vehicle, "deleted, its driver stands where it stood")
	assert.Equal(t, plan.Point{X: 5.5, Y: 8.5}, q.At)
}

func TestGroundAndMeasureAndNote(t *testing.T) {
	h := rigged(t)
	h.keys("g")
	assert.Equal(t, []plan.ID{form.ThingGround}, h.b.Selection())
	h.drag([2]float64{10, 15}, [2]float64{12, 15}, [2]float64{15, 15}) // falls to the east
	near(t, 90, float64(h.b.Plan().Site.Ground.Downhill.Or(0)), 1e-9, "downhill")
	h.keys("20 %", "<Enter>") // atan 0.20 = 11.31° (closed form)
	near(t, 11.3099, float64(h.b.Plan().Site.Ground.Slope.Or(0)), 1e-4, "slope")
	h.keys("m")
	h.click(10, 15)
	h.click(13, 15)
	h.click(13, 19)
	require.Len(t, h.b.Plan().Site.Measures, 1)
	assert.Len(t, h.b.Plan().Site.Measures[0].Points, 3)
	h.drag([2]float64{30, 20}, [2]float64{32, 20}, [2]float64{35, 20})
	require.Len(t, h.b.Plan().Site.Measures, 2)
	assert.Equal(t, []plan.Point{{X: 30, Y: 20}, {X: 35, Y: 20}}, h.b.Plan().Site.Measures[1].Points)
	h.keys("n")
	h.click(38, 20)
	h.keys("very soft here", "<Enter>")
	require.Len(t, h.b.Plan().Site.Notes, 1)
	assert.Equal(t, "very soft here", h.b.Plan().Site.Notes[0].Text)
}

func TestRoundObstacle(t *testing.T) {
	h := sit(t, nil)
	h.keys("o")
	h.drag([2]float64{20, 10}, [2]float64{21, 10}, [2]float64{22, 10})
	require.Len(t, h.b.Plan().Site.Obstacles, 1)
	for _, c := range h.b.Plan().Site.Obstacles[0].Outline {
		near(t, 2, hyp(c.X-20, c.Y-10), 2e-3, "radius")
	}
	h.b.Select("O1")
	h.keys("<Escape>")
	h.click(20, 10)
	c := h.b.Plan().Site.Obstacles[0].Outline[0]
	h.drag([2]float64{c.X, c.Y}, [2]float64{c.X + 0.5, c.Y}, [2]float64{c.X + 1, c.Y})
	assert.Equal(t, plan.Point{X: c.X + 1, Y: c.Y}, h.b.Plan().Site.Obstacles[0].Outline[0])
	assert.Equal(t, "Move a corner of Boulder 1", h.b.UndoName())
}

func TestDampers(t *testing.T) {
	h := redirect(t)
	s := h.b.Answer().Stretches[1]
	x, y := s.A.X+(s.B.X-s.A.X)*0.25, s.A.Y+(s.B.Y-s.A.Y)*0.25
	h.keys("d")
	h.click(x, y)
	r := h.b.Plan().Rigs[0]
	require.Len(t, r.Dampers, 1)
	assert.Equal(t, 1, r.Dampers[0].Stretch)
	near(t, 0.25, r.Dampers[0].Share, 0.011, "share")
	near(t, 3, float64(r.Dampers[0].Mass), 0, "mass")
	before := h.b.Plan()
	h.click(2, 2)
	assert.True(t, before == h.b.Plan(), "off the line there is nothing to lay it over")
	h.keys("<Escape>")
	// Out of the line goes the block; the damper stays where it lay on the line.
	h.b.Select("B1")
	h.keys("<Delete>")
	d := h.b.Plan().Rigs[0].Dampers
	require.Len(t, d, 1)
	assert.Equal(t, 0, d[0].Stretch)
	near(t, 0.625, d[0].Share, 0.011, "half and a quarter of the other half")
}

func TestZoneOfAPersonIsTheAnswers(t *testing.T) {
	h := redirect(t)
	h.keys("p")
	h.click(22, 13)
	require.Len(t, h.b.Answer().People, 1)
	assert.Contains(t, h.b.Answer().People[0].Inside, part.ZoneBight)
}

// A driver who is selected with the vehicle stays in it and goes as far as it
// does.
func TestAVehicleMovedWithItsDriver(t *testing.T) {
	p := fieldPlan(t)
	v := &p.Site.Vehicles[0]
	p.Site.People = []plan.Person{{Head: plan.Head{ID: "P1"}, Role: plan.RoleDriver, At: v.At, Vehicle: v.ID}}
	h := sit(t, p)
	h.b.Select(v.ID, "P1")
	h.keys("<ArrowRight>")
	moved, q := h.b.Plan().Site.Vehicles[0], h.b.Plan().Site.People[0]
	near(t, v.At.X+float64(board.PresetSnap), moved.At.X, 1e-9, "one step of the grid")
	assert.Equal(t, moved.At, q.At)
	assert.Equal(t, v.ID, q.Vehicle)
}
