package board_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// turnPlan has a vehicle with its driver, pickets set for a pull, an obstacle, a
// measure, and a locked person.
func turnPlan(t *testing.T) *plan.Plan {
	p := fieldPlan(t)
	v := &p.Site.Vehicles[0]
	v.At, v.Bearing = plan.Point{X: 26, Y: 13}, 300
	stuck := *v.Stuck
	stuck.Way, stuck.WayBearing = plan.WayFree, plan.Known(quantity.Degrees(10))
	v.Stuck = &stuck
	p.Site.People = []plan.Person{
		{Head: plan.Head{ID: "P1"}, Role: plan.RoleDriver, At: v.At, Vehicle: v.ID},
		{Head: plan.Head{ID: "P2", Locked: true}, Role: plan.RoleSpotter, At: plan.Point{X: 15, Y: 3}},
	}
	p.Site.Anchors = append(p.Site.Anchors, plan.Anchor{Head: plan.Head{ID: "A9"}, Kind: plan.AnchorPickets, At: plan.Point{X: 20, Y: 16}, SetBearing: 45, SetKnown: true})
	p.Site.Obstacles = append(p.Site.Obstacles, plan.Obstacle{Head: plan.Head{ID: "O9"}, Kind: "boulder", Outline: []plan.Point{{X: 16, Y: 4}, {X: 18, Y: 4}, {X: 18, Y: 5}}})
	p.Site.Measures = []plan.Measure{{Head: plan.Head{ID: "M1"}, Points: []plan.Point{{X: 20, Y: 10}, {X: 25, Y: 10}}}}
	require.NoError(t, plan.Validate(p))
	return p
}

var turned = []plan.ID{"V1", "P1", "P2", "A9", "O9", "M1"}

// A quarter turn clockwise about (20, 10) takes (x, y) to (20 + y - 10,
// 10 - (x - 20)) and adds 90° to every bearing.
func TestTurningAboutAPoint(t *testing.T) {
	ways := []struct {
		name string
		do   func(h *hand)
	}{
		{"dragged", func(h *hand) { h.click(20, 10); h.drag([2]float64{23, 10}, [2]float64{22, 8}, [2]float64{20, 7}) }},
		{"dragged nearly", func(h *hand) { h.click(20, 10); h.drag([2]float64{23, 10}, [2]float64{20.3, 7}) }},
		{"typed while dragged", func(h *hand) {
			h.click(20, 10)
			h.move(23, 10)
			h.down(23, 10)
			h.move(23, 12)
			h.keys("90")
			h.up(23, 12)
		}},
		{"typed and clicked", func(h *hand) { h.click(20, 10); h.move(23, 12); h.keys("90"); h.click(23, 12) }},
		{"typed and entered", func(h *hand) { h.click(20, 10); h.move(23, 12); h.keys("90", "<Enter>") }},
		{"keys", func(h *hand) {
			h.keys("20;10", "<Enter>", "<Enter>", "21;10", "<Enter>", " ", "<ArrowLeft>", "<ArrowLeft>", "<ArrowDown>", "<ArrowDown>", "<Enter>")
		}},
		{"keys and a number", func(h *hand) { h.keys("20;10", "<Enter>", "<Enter>", " ", "90", "<Enter>") }},
	}
	want := ""
	for _, w := range ways {
		t.Run(w.name, func(t *testing.T) {
			h := sit(t, turnPlan(t))
			h.b.Select(turned...)
			before := h.bytes()
			h.keys("t")
			w.do(h)
			s := &h.b.Plan().Site
			assert.Equal(t, plan.Point{X: 23, Y: 4}, s.Vehicles[0].At)
			assert.Equal(t, quantity.Degrees(30), s.Vehicles[0].Bearing)
			assert.Equal(t, plan.Known(quantity.Degrees(100)), s.Vehicles[0].Stuck.WayBearing)
			assert.Equal(t, s.Vehicles[0].At, s.People[0].At, "the driver stays in it")
			assert.Equal(t, plan.ID("V1"), s.People[0].Vehicle)
			assert.Equal(t, plan.Point{X: 15, Y: 3}, s.People[1].At, "locked")
			a := s.Anchors[len(s.Anchors)-1]
			assert.Equal(t, plan.Point{X: 26, Y: 10}, a.At)
			assert.Equal(t, quantity.Degrees(135), a.SetBearing)
			assert.Equal(t, []plan.Point{{X: 14, Y: 14}, {X: 14, Y: 12}, {X: 15, Y: 12}}, s.Obstacles[len(s.Obstacles)-1].Outline)
			assert.Equal(t, []plan.Point{{X: 20, Y: 10}, {X: 20, Y: 5}}, s.Measures[0].Points)
			if want == "" {
				want = h.bytes()
			}
			assert.Equal(t, want, h.bytes(), "pointer and keys give the same plan")
			assert.Equal(t, "Turn 5 items", h.b.UndoName())
			h.b.Undo()
			assert.Equal(t, before, h.bytes(), "one step")
		})
	}
}

func TestTurningShowsWhatLettingGoGives(t *testing.T) {
	h := sit(t, turnPlan(t))
	h.b.Select("V1")
	h.keys("t")
	h.click(20, 10)
	h.move(23, 10)
	assert.True(t, h.b.Plan() == h.b.Shown(), "pointing turns nothing")
	h.down(23, 10)
	alt := board.Mods{Alt: true}
	h.move(22, 12.1, alt) // Alt holds off the steps of 15°: arctan 2.1/2 = 46.4° to the left
	assert.Contains(t, plainTexts(h.b.Overlay()), "46.4° anticlockwise")
	shown := bytesOf(t, h.b.Shown())
	h.up(22, 12.1, alt)
	assert.Equal(t, shown, h.bytes())
	assert.Equal(t, "Turn Casualty", h.b.UndoName())
	assert.InDelta(t, 300-46.4, float64(h.b.Plan().Site.Vehicles[0].Bearing), 1e-9)
}

func TestTurningNothing(t *testing.T) {
	h := sit(t, turnPlan(t))
	before := h.b.Plan()
	h.keys("t")
	assert.Equal(t, "First select what is to turn", h.b.Prompt())
	h.click(20, 10)
	h.drag([2]float64{23, 10}, [2]float64{20, 7})
	assert.True(t, before == h.b.Plan(), "nothing is selected")

	h.b.Select("P2")
	h.click(20, 10)
	assert.Equal(t, "First select what is to turn", h.b.Prompt(), "what is locked stays")

	h.b.Select("V1")
	h.click(20, 10)
	h.drag([2]float64{23, 10}, [2]float64{24, 10})
	assert.True(t, before == h.b.Plan(), "no angle, no edit")
	h.keys("<Escape>", "<Escape>")
	assert.Equal(t, board.ToolSelect, h.b.Tool())
	assert.Equal(t, []plan.ID{"V1"}, h.b.Selection())
	h.keys("t")
	h.click(20, 10)
	h.keys("<Backspace>")
	assert.Equal(t, "Click the point to turn about", h.b.Prompt())
	h.keys("30", "<Enter>")
	assert.True(t, before == h.b.Plan(), "a number turns nothing before there is a point")
}
