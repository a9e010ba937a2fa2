package board_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/canvas/draw"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// site draws the site of the redirect round a boulder: two vehicles, the
// boulder, three trees.
func site(h *hand) {
	h.keys("v")
	h.click(5.5, 8.5)
	h.keys("2450", "<Tab>", "h", "<Enter>")
	h.click(32.5, 7.5)
	h.keys("o")
	for _, c := range boulder {
		h.click(c[0], c[1])
	}
	h.keys("<Enter>")
	h.keys("a")
	for _, t := range trees {
		h.click(t.x, t.y)
		h.keys(t.girth, "<Tab>", t.trunk, "<Enter>")
	}
}

var boulder = [][2]float64{{16.5, 6.5}, {19, 6}, {21, 7.5}, {20.5, 10}, {18, 11}, {16, 9}}

var trees = []struct {
	x, y         float64
	girth, trunk string
}{{24, 19.5, "145", "48"}, {12, 21.5, "100", "34"}, {27, 2, "90", "30"}}

// The fairlead of the winch vehicle of the storyboard, and the casualty's front
// point.
var (
	fairlead = [2]float64{29.95, 7.60}
	front    = [2]float64{8.1, 8.5}
)

// Event by event what the design's storyboard A tells; every figure is its
// independent reference (plan view, no sheave radius), to be met within 1 %.
func TestRedirectRoundABoulder(t *testing.T) {
	h := sit(t, nil)
	empty := h.bytes()
	require.False(t, h.b.Dirty())
	assert.Equal(t, "V  place the vehicle to be moved", h.b.Prompt())
	assert.Equal(t, "Rig 1 · –", h.b.Tabs()[0].Text)

	// 1: a ghost, no edit
	h.keys("v")
	h.move(5.5, 8.5)
	g := h.b.Overlay().Ghost
	require.NotNil(t, g)
	require.NotNil(t, g.Vehicle)
	assert.Equal(t, "casualty", g.Label)
	near(t, 90, float64(g.Vehicle.Bearing), 0, "nose east")
	near(t, 5.2, float64(g.Vehicle.Length), 1e-9, "length")
	near(t, 1.9, float64(g.Vehicle.Width), 1e-9, "width")
	assert.Contains(t, texts(h.b.Overlay()), "5.5 ; 8.5 m")
	assert.Empty(t, h.b.UndoName())
	assert.Equal(t, empty, h.bytes())

	// 2: placed, asks for its mass
	h.click(5.5, 8.5)
	require.Len(t, h.b.Plan().Site.Vehicles, 1)
	assert.Equal(t, "Place vehicle", h.b.UndoName())
	assert.Equal(t, plan.Point{X: 5.5, Y: 8.5}, h.b.Plan().Site.Vehicles[0].At)
	near(t, 6, float64(h.b.Plan().Site.Vehicles[0].Stuck.WayLength), 0, "way out")
	assert.Equal(t, "Mass of Casualty? type it, or skip", h.b.Prompt())

	// 3: mass and depth are two undo steps
	h.keys("2450", "<Tab>", "h", "<Enter>")
	require.Nil(t, h.b.Question())
	v := h.b.Plan().Site.Vehicles[0]
	near(t, 2450, float64(v.Mass), 0, "mass")
	assert.Equal(t, plan.DepthHub, v.Stuck.Depth)
	h.b.Undo()
	assert.Equal(t, plan.DepthUnknown, h.b.Plan().Site.Vehicles[0].Stuck.Depth)
	near(t, 2450, float64(h.b.Plan().Site.Vehicles[0].Mass), 0, "mass")
	h.b.Undo()
	assert.Zero(t, h.b.Plan().Site.Vehicles[0].Mass)
	h.b.Redo()
	h.b.Redo()
	assert.Equal(t, plan.DepthHub, h.b.Plan().Site.Vehicles[0].Stuck.Depth)

	// 4: the next one has a winch and turns to the casualty
	h.move(32.5, 7.5)
	g = h.b.Overlay().Ghost
	require.NotNil(t, g)
	assert.Equal(t, "with winch", g.Label)
	require.NotNil(t, g.Vehicle.Winch)
	assert.Contains(t, whys(h.b.Overlay()), "24.4 m")

	// 5
	h.click(32.5, 7.5)
	require.Len(t, h.b.Plan().Site.Vehicles, 2)
	w := h.b.Plan().Site.Vehicles[1]
	near(t, 177.7, 450-float64(w.Bearing)-0, 0.1, "nose, anticlockwise from east") // 450° − bearing
	lead, ok := w.PortPlace(plan.PortWinch)
	require.True(t, ok)
	near(t, 29.95, lead.At.X, 0.01, "fairlead x")
	near(t, 7.60, lead.At.Y, 0.01, "fairlead y")
	assert.Equal(t, "Assumed winch. Type the line pull on its plate, or carry on", h.b.Prompt())

	// 6 to 8: the boulder
	h.keys("o")
	assert.Equal(t, "click the corners, Enter closes · drag for round", h.b.Prompt())
	steps := undoSteps(h.b)
	for _, c := range boulder {
		h.click(c[0], c[1])
	}
	assert.Len(t, h.b.Overlay().Rubber, 7, "six corners and the pointer")
	assert.Empty(t, h.b.Plan().Site.Obstacles)
	h.keys("<Enter>")
	require.Len(t, h.b.Plan().Site.Obstacles, 1)
	require.Len(t, h.b.Plan().Site.Obstacles[0].Outline, 6)
	assert.Equal(t, plan.Point{X: 16.5, Y: 6.5}, h.b.Plan().Site.Obstacles[0].Outline[0])
	assert.Equal(t, steps+1, undoSteps(h.b))

	// 9: three trees with their girths and trunks
	h.keys("a")
	for _, tr := range trees {
		h.click(tr.x, tr.y)
		h.keys(tr.girth, "<Tab>", tr.trunk, "<Enter>")
	}
	require.Len(t, h.b.Plan().Site.Anchors, 3)
	near(t, 1.45, float64(h.b.Plan().Site.Anchors[0].Girth), 1e-12, "girth")
	near(t, 0.48, float64(h.b.Plan().Site.Anchors[0].Trunk), 1e-12, "trunk")
	near(t, 0.34, float64(h.b.Plan().Site.Anchors[1].Trunk), 1e-12, "trunk")
	near(t, 0.30, float64(h.b.Plan().Site.Anchors[2].Trunk), 1e-12, "trunk")
	assert.Equal(t, plan.AnchorTree, h.b.Plan().Site.Anchors[2].Kind)

	// 10: hook-on points are offered
	h.keys("l")
	h.move(fairlead[0], fairlead[1])
	assert.Equal(t, "Drag from the winch to what it pulls", h.b.Prompt())
	m := under(h.b.Overlay())
	require.NotNil(t, m)
	assert.Equal(t, "winch line · start here", m.Label)
	assert.Equal(t, draw.PortFairlead, m.Kind)

	// 11: past the boulder's edge it is refused
	before := h.b.Plan()
	h.down(fairlead[0], fairlead[1])
	h.move(22, 8)
	assert.Empty(t, h.b.Overlay().RubberRefused)
	h.move(18, 8.2)
	assert.Equal(t, "bears on Boulder 1", h.b.Overlay().RubberRefused)
	entry := h.b.Overlay().Rubber[h.b.Overlay().RubberFrom]
	percent(t, 9.1, hyp(entry.X-fairlead[0], entry.Y-fairlead[1]), "it bears from")
	assert.True(t, before == h.b.Plan(), "the plan is untouched")

	// 12: stays refused
	h.move(front[0], front[1])
	preview := bytesOf(t, h.b.Shown())
	h.up(front[0], front[1])
	assert.Equal(t, preview, h.bytes(), "what was previewed is what is kept")
	a := h.drawn()
	require.Len(t, a.Stretches, 1)
	percent(t, 21.87, float64(a.Stretches[0].Length), "chord")
	require.Len(t, a.Stretches[0].Contacts, 1)
	percent(t, 4.74, float64(a.Stretches[0].Contacts[0].Length), "contact")
	percent(t, 9.1, float64(a.Stretches[0].Contacts[0].From), "from")
	percent(t, 13.8, float64(a.Stretches[0].Contacts[0].To), "to")
	for _, p := range a.Parts {
		require.Falsef(t, p.Move.Known, "%s has a load", p.ID)
		require.Equal(t, part.Refused, p.Status)
	}
	f, ok := h.finding("line-bears")
	require.True(t, ok)
	assert.Equal(t, part.Danger, f.Level)
	assert.Equal(t, "Straight · refused", h.b.Tabs()[0].Text)
	assert.Equal(t, board.ToolSelect, h.b.Tool())
	assert.Equal(t, "Drag the line on to a tree or another anchor, past what it bears on", h.b.Prompt())

	// 13: bent at the pointer, the plan unchanged
	before = h.b.Plan()
	x, y := (fairlead[0]+front[0])/2, (fairlead[1]+front[1])/2
	h.move(x, y)
	h.down(x, y)
	h.move(20, 11)
	assert.NotEmpty(t, h.b.Overlay().RubberRefused, "over the boulder still")
	assert.False(t, h.b.Overlay().Preview)
	assert.True(t, before == h.b.Shown(), "no loads are shown of what bears on something")
	h.move(22, 14)
	o := h.b.Overlay()
	assert.True(t, o.Preview, "loads marked preview once free of the boulder")
	assert.True(t, h.b.Answer().Move.Known)
	assert.Contains(t, h.b.Prompt(), "nothing does: let go on an anchor")
	assert.Equal(t, plan.Point{X: 22, Y: 14}, rounded2(o.Rubber[1], 22, 14), "bent at the pointer")
	require.NotNil(t, o.Ghost)
	assert.True(t, before == h.b.Plan(), "the plan is untouched")
	assert.NotEmpty(t, o.Ports)

	// 14: within reach of the tree
	h.move(23.5, 18.5)
	o = h.b.Overlay()
	assert.True(t, o.Preview)
	assert.Equal(t, "Block + shackle + 3 m sling, basket, legs 25°", plain(h.b.Prompt()))
	shown, previewed := bytesOf(t, h.b.Shown()), h.b.Answer()
	assert.True(t, before == h.b.Plan(), "the plan is untouched")

	// 15
	h.up(23.5, 18.5)
	assert.Equal(t, shown, h.bytes(), "what was previewed is what is kept")
	assert.Equal(t, previewed.Move, h.b.Answer().Move)
	assert.Equal(t, "Added: block, shackle, sling 3 m (undo: Ctrl+Z)", plain(h.b.Prompt()))
	assert.Equal(t, "Redirect line", h.b.UndoName())
	redirected(t, h)
	assert.Regexp(t, `^Redirect · worst (\d+|over 3×)`, h.b.Tabs()[0].Text)

	// 16
	f, ok = h.finding("damper-missing")
	assert.Truef(t, ok, "damper-missing among %v", ids(h.b.Answer().Findings))
	lean := 0.0
	for _, f := range h.b.Answer().Findings {
		for _, r := range f.Remedies {
			if r.Do == "turn-vehicle" {
				lean = r.Value.X
			}
		}
	}
	percent(t, 58, math.Abs(lean), "off the winch's axis")

	// 17: the button turns the winch vehicle about its fairlead, the line stays
	move := h.drawn().Move
	for _, f := range h.b.Answer().Findings {
		for _, r := range f.Remedies {
			if f.ID == "winch-lead" && r.Do == "turn-vehicle" {
				_, err := h.b.Do(r)
				require.NoError(t, err)
			}
		}
	}
	w = h.b.Plan().Site.Vehicles[1]
	percent(t, 119.8, 450-float64(w.Bearing), "nose, anticlockwise from east") // 450° − bearing
	percent(t, 31.22, w.At.X, "middle x")
	percent(t, 5.39, w.At.Y, "middle y")
	percent(t, float64(move.Along), float64(h.drawn().Move.Along), "pull along the way out")
	percent(t, float64(move.Tension), float64(h.drawn().Move.Tension), "tension")
	redirected(t, h)

	// 18 and 19: a person
	h.keys("pp")
	h.move(22, 13)
	g = h.b.Overlay().Ghost
	require.NotNil(t, g)
	assert.Equal(t, "spotter", g.Label)
	assert.Contains(t, texts(h.b.Overlay())[0], "bight")
	h.click(22, 13)
	require.Len(t, h.b.Plan().Site.People, 1)
	assert.Equal(t, plan.RoleSpotter, h.b.Plan().Site.People[0].Role)
	kinds := standing(h, "P1")
	assert.Contains(t, kinds, part.ZoneBight)
	assert.Contains(t, kinds, part.ZoneStandOff)

	// 20 and 21: dragged out of the bight
	h.keys("<Escape>")
	require.Equal(t, board.ToolSelect, h.b.Tool())
	h.move(22, 13)
	h.down(22, 13)
	h.move(29, 15)
	assert.Equal(t, plan.Point{X: 29, Y: 15}, h.b.Shown().Site.People[0].At)
	assert.NotEmpty(t, texts(h.b.Overlay()))
	h.move(36, 16)
	h.up(36, 16)
	assert.Equal(t, plan.Point{X: 36, Y: 16}, h.b.Plan().Site.People[0].At)
	assert.NotContains(t, standing(h, "P1"), part.ZoneBight)
	assert.Contains(t, standing(h, "P1"), part.ZoneStandOff)

	// 24: everything is taken back, step by step, each named
	for h.b.UndoName() != "" {
		h.ctrl("z")
	}
	assert.Equal(t, empty, h.bytes())
	assert.False(t, h.b.Dirty())
}

// redirected checks the reference figures of step 15.
func redirected(t *testing.T, h *hand) {
	t.Helper()
	a := h.drawn()
	require.Equal(t, part.Within, a.Status, "findings %v", ids(a.Findings))
	require.Len(t, a.Stretches, 2)
	var node part.Node
	for _, n := range a.Nodes {
		if n.Thing == "B1" {
			node = n
		}
	}
	percent(t, 23.75, node.At.X, "block x")
	percent(t, 18.43, node.At.Y, "block y")
	percent(t, 87.4, float64(node.Angle), "angle")
	percent(t, 12.48, float64(a.Stretches[0].Length), "stretch from the winch")
	percent(t, 18.54, float64(a.Stretches[1].Length), "stretch to the casualty")
	percent(t, 3.19, float64(a.Stretches[1].Clear), "clearance to the boulder")
	load := func(id string) float64 {
		p, ok := a.Part(id)
		require.Truef(t, ok, "part %s", id)
		require.True(t, p.Move.Known, id)
		return float64(p.Move.Force)
	}
	percent(t, 1.030, load("L1/1")/load("L1/2"), "winch line over casualty's line")
	percent(t, 1.468, load("B1")/load("L1/2"), "block load over casualty's line")
	sling, _ := a.Part("S1")
	percent(t, 25.3, float64(sling.Angle), "legs")
}

func texts(o *draw.Overlay) []string {
	var s []string
	for _, t := range o.Texts {
		s = append(s, plain(t.Text))
	}
	return s
}

func whys(o *draw.Overlay) []string {
	var s []string
	for _, g := range o.Guides {
		s = append(s, plain(g.Why))
	}
	return s
}

// plain is a text with ordinary spaces.
func plain(s string) string {
	out := []rune(s)
	for i, r := range out {
		if r == '\u00a0' || r == '\u202f' || r == '\u2009' {
			out[i] = ' '
		}
	}
	return string(out)
}

func under(o *draw.Overlay) *draw.PortMark {
	for i := range o.Ports {
		if o.Ports[i].State == draw.PortUnder {
			return &o.Ports[i]
		}
	}
	return nil
}

func ids(fs []part.Finding) []string {
	var s []string
	for _, f := range fs {
		s = append(s, f.ID)
	}
	return s
}

func standing(h *hand, id plan.ID) []part.ZoneKind {
	for _, p := range h.b.Answer().People {
		if p.Person == id {
			return p.Inside
		}
	}
	return nil
}

// undoSteps counts the undo list by taking it back and doing it again.
func undoSteps(b *board.Board) int {
	n := 0
	for ; b.UndoName() != ""; n++ {
		b.Undo()
	}
	for range n {
		b.Redo()
	}
	return n
}
