package board_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

func (h *hand) do(id string) { h.b.Handle(board.Command{ID: id}) }

func TestRigs(t *testing.T) {
	h := redirect(t)
	before := h.bytes()
	h.do("rig.new")
	require.Len(t, h.b.Plan().Rigs, 2)
	assert.Equal(t, plan.ID("R2"), h.b.Rig())
	assert.Equal(t, "Rig 2 · –", h.b.Tabs()[1].Text)
	straight(h)
	assert.Len(t, h.b.Plan().Rigs[1].Lines, 1)
	assert.Len(t, h.b.Plan().Rigs[0].Lines, 1, "the other rig is untouched")
	assert.Equal(t, "Straight", h.b.Tabs()[1].Name)
	h.ctrl("Tab")
	assert.Equal(t, plan.ID("R1"), h.b.Rig())
	h.do("rig.duplicate")
	require.Len(t, h.b.Plan().Rigs, 3)
	assert.Equal(t, plan.ID("R3"), h.b.Rig())
	assert.Equal(t, plan.ID("R3"), h.b.Plan().Rigs[1].ID, "beside the one it is a copy of")
	assert.Equal(t, "Redirect, copy", h.b.Tabs()[1].Name)
	assert.Equal(t, h.b.Plan().Rigs[0].Slings, h.b.Plan().Rigs[1].Slings)
	h.b.Select("B1")
	h.keys("<Delete>")
	assert.Empty(t, h.b.Plan().Rigs[1].Blocks)
	assert.Len(t, h.b.Plan().Rigs[0].Blocks, 1, "deleted in the copy alone")
	assert.Len(t, h.b.Plan().Rigs[0].Lines[0].Path, 3)
	h.b.Undo()
	h.b.Select("T1")
	h.keys("<Delete>")
	assert.True(t, h.b.Plan().Rigs[0].Slings[0].On.IsZero(), "a tree goes from all rigs")
	assert.True(t, h.b.Plan().Rigs[1].Slings[0].On.IsZero(), "a tree goes from all rigs")
	h.b.Undo()
	h.do("rig.left")
	assert.Equal(t, plan.ID("R3"), h.b.Plan().Rigs[0].ID)
	h.do("rig.left")
	assert.Equal(t, "It is the first tab", h.b.Prompt())
	require.NoError(t, h.b.Set("R3", "name", "By the pine"))
	assert.Equal(t, "By the pine", h.b.Tabs()[0].Name)
	h.do("rig.delete")
	assert.Len(t, h.b.Plan().Rigs, 2)
	assert.Equal(t, plan.ID("R1"), h.b.Rig())
	for h.b.Plan().RigIndex("R2") >= 0 {
		h.b.Undo()
	}
	assert.Equal(t, before, h.bytes())
	assert.Equal(t, plan.ID("R1"), h.b.Rig())
}

func TestUndoReturnsToTheRigItWasDoneIn(t *testing.T) {
	h := redirect(t)
	h.do("rig.new")
	h.ctrl("Tab")
	h.b.Select("B1")
	h.keys("<Delete>")
	h.ctrl("Tab")
	require.Equal(t, plan.ID("R2"), h.b.Rig())
	h.b.Undo()
	assert.Equal(t, plan.ID("R1"), h.b.Rig(), "what is taken back is seen")
}

// Rigs to start from, fitted to the two vehicles of the storyboard. The
// advantages are closed forms: 1 for a straight pull, under 2 for a doubled
// line.
func TestStartRigs(t *testing.T) {
	cases := []struct {
		kind   string
		blocks int
		low    float64 // of advantage
		high   float64
		status part.Status
	}{
		{board.StartStraight, 0, 0, 0, part.Refused}, // the boulder lies between
		{board.StartRedirect, 1, 0.7, 1, part.Within},
		{board.StartDoubled, 1, 0, 0, part.Refused},
		{board.StartDoubledRedirect, 2, 0, 0, part.Refused}, // it comes back past the boulder
	}
	for _, c := range cases {
		t.Run(c.kind, func(t *testing.T) {
			h := rigged(t)
			h.do("start." + c.kind)
			require.Len(t, h.b.Plan().Rigs, 1, "an empty rig is filled")
			r := h.b.Plan().Rigs[0]
			require.Len(t, r.Lines, 1)
			assert.Len(t, r.Blocks, c.blocks)
			a := h.b.Answer()
			assert.Equal(t, c.status, a.Status, "%v", ids(a.Findings))
			if c.status == part.Within {
				require.Greater(t, a.Advantage, c.low)
				require.LessOrEqual(t, a.Advantage, c.high)
			}
			assert.Equal(t, 1, len(h.b.Plan().Rigs))
			h.do("start." + c.kind)
			assert.Len(t, h.b.Plan().Rigs, 2, "one that is not is left alone")
		})
	}
	open := func(t *testing.T) *hand {
		h := rigged(t)
		h.b.Select("O1")
		h.keys("<Delete>")
		return h
	}
	t.Run("straight on open ground", func(t *testing.T) {
		h := open(t)
		h.do("start.straight")
		a := h.b.Answer()
		require.Equal(t, part.Within, a.Status)
		near(t, 1, a.Advantage, 0.01, "advantage")
	})
	t.Run("doubled on open ground", func(t *testing.T) {
		h := open(t)
		h.do("start.doubled")
		a := h.b.Answer()
		require.Equal(t, part.Within, a.Status, "%v", ids(a.Findings))
		require.Greater(t, a.Advantage, 1.9) // 1 + 0.96 of the block at a half turn (closed form), less the angle
		require.LessOrEqual(t, a.Advantage, 1.96)
		near(t, 2, a.MotionRatio, 0.02, "line hauled per metre")
	})
	t.Run("bridle", func(t *testing.T) {
		h := open(t)
		h.do("start.bridle")
		assert.Equal(t, "Casualty has not two points on the side of the pull", h.b.Prompt())
		p := h.b.Plan()
		v := p.Site.Vehicles[0]
		left, right := v.Recovery[0], v.Recovery[0]
		left.ID, left.Left, right.ID, right.Left = "fl", plan.Known(quantity.Length(0.5)), "fr", plan.Known(quantity.Length(-0.5))
		v.Recovery = []plan.RecoveryPoint{left, right}
		h = sit(t, plan.WithVehicle(p, 0, v))
		h.do("start.bridle")
		r := h.b.Plan().Rigs[0]
		require.Len(t, r.Slings, 2)
		require.Len(t, r.Shackles, 1)
		a := h.b.Answer()
		require.Equal(t, part.Within, a.Status, "%v", ids(a.Findings))
		near(t, 1, a.Advantage, 0.01, "advantage")
	})
	t.Run("nothing to fit to", func(t *testing.T) {
		h := sit(t, nil)
		h.do("start.straight")
		assert.Equal(t, "Place the vehicle to be moved and one with a winch first", h.b.Prompt())
		assert.Empty(t, h.b.UndoName())
	})
}

func TestPlanWithoutARigGetsOneWhenRigged(t *testing.T) {
	p := plan.New()
	h := sit(t, p)
	site(h)
	assert.Empty(t, h.b.Plan().Rigs)
	straight(h)
	require.Len(t, h.b.Plan().Rigs, 1)
	assert.Equal(t, h.b.Plan().Rigs[0].ID, h.b.Rig())
}

func TestSavedAndDirty(t *testing.T) {
	h := rigged(t)
	require.True(t, h.b.Dirty())
	h.b.MarkSaved()
	assert.False(t, h.b.Dirty())
	h.click(24, 19.5)
	assert.False(t, h.b.Dirty(), "selecting is no edit")
	h.keys("<ArrowUp>")
	assert.True(t, h.b.Dirty())
	h.b.Undo()
	assert.False(t, h.b.Dirty())
	assert.NotEmpty(t, h.b.UndoName(), "the undo list survives saving")
}

// Fit all shows where people may be: everybody and the stand-off, whose corner
// lies its radius off a line's end.
func TestFitAllShowsTheStandOffAndPeople(t *testing.T) {
	h := redirect(t)
	h.keys("p")
	h.click(30, 2)
	require.NoError(t, h.b.Set(h.b.Plan().Site.People[0].ID, "at/x_m", "200"))
	h.do("fit")
	v := h.b.View()
	seen := func(q plan.Point) bool {
		x, y := v.ToPen(q)
		return x > 0 && x < v.W && y > 0 && y < v.H
	}
	assert.True(t, seen(h.b.Plan().Site.People[0].At), "the bystander")
	rings := 0
	for _, z := range h.b.Answer().Zones {
		if z.Kind == part.ZoneStandOff {
			rings++
			for _, q := range z.Outline {
				assert.True(t, seen(q), "%v of the stand-off", q)
			}
		}
	}
	assert.Positive(t, rings)
}

func TestViewMoves(t *testing.T) {
	h := rigged(t)
	at := h.b.View().ToPlan(300, 200)
	h.b.Handle(board.Wheel{X: 300, Y: 200, DY: 3})
	now := h.b.View().ToPlan(300, 200)
	near(t, at.X, now.X, 1e-9, "zoomed about the pointer")
	near(t, at.Y, now.Y, 1e-9, "zoomed about the pointer")
	h.do("fit")
	v := h.b.View()
	for _, c := range h.b.Plan().Site.Anchors {
		x, y := v.ToPen(c.At)
		assert.True(t, x > 0 && x < v.W && y > 0 && y < v.H, "%s is seen", c.ID)
	}
	g := h.b.Generation()
	h.b.Handle(board.PointerDown{X: 500, Y: 300, Button: board.ButtonMiddle})
	h.b.Handle(board.PointerMove{X: 560, Y: 340})
	h.b.Handle(board.PointerUp{X: 560, Y: 340})
	near(t, v.Middle.X-60/v.PerM, h.b.View().Middle.X, 1e-9, "dragged with the middle button")
	near(t, v.Middle.Y+40/v.PerM, h.b.View().Middle.Y, 1e-9, "dragged with the middle button")
	assert.Greater(t, h.b.Generation(), g)
}

// Tabs put in another order keep their names, whether those come from the shape
// of the rig or from its number; one step each, by command as by any other way.
func TestTabsKeepTheirNamesWhenTheyChangePlaces(t *testing.T) {
	h := rigged1(t)
	h.do("rig.new")
	straight(h)
	h.do("rig.new")
	names := func() map[plan.ID]string {
		m := map[plan.ID]string{}
		for _, tab := range h.b.Tabs() {
			m[tab.Rig] = tab.Name
		}
		return m
	}
	want := map[plan.ID]string{"R1": "Straight", "R2": "Straight 2", "R3": "Rig 3"}
	require.Equal(t, want, names())
	before := h.bytes()
	for range 2 {
		h.do("rig.left")
		assert.Equal(t, want, names())
	}
	assert.Equal(t, plan.ID("R3"), h.b.Plan().Rigs[0].ID)
	assert.Equal(t, "Move Rig 3", h.b.UndoName())
	h.do("rig.right")
	assert.Equal(t, want, names())
	for range 3 {
		h.b.Undo()
	}
	assert.Equal(t, before, h.bytes())
}
