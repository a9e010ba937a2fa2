package board_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/solver/layout"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/travel"
)

// refusedLine is storyboard A up to step 12: the line bears on the boulder.
func refusedLine(h *hand) {
	site(h)
	h.keys("l")
	h.down(fairlead[0], fairlead[1])
	h.move(front[0], front[1])
	h.up(front[0], front[1])
}

// Ways round of storyboard A, after step 12: a list, arrows preview in place,
// Enter takes one as a new tab; Tree 3 passes 0.4 m from Boulder 1, needs 1.0 m.
func TestWaysRound(t *testing.T) {
	h := sit(t, nil)
	refusedLine(h)
	before, steps := h.b.Plan(), undoSteps(h.b)
	f, ok := h.finding("line-bears")
	require.True(t, ok)
	require.Len(t, f.Remedies, 1)
	can, why := h.b.CanDo(f.Remedies[0])
	require.Truef(t, can, "%s", why)
	_, err := h.b.Do(f.Remedies[0])
	require.NoError(t, err)

	found, at := h.b.Ways()
	require.NotNil(t, found)
	require.Equal(t, 0, at)
	assert.True(t, before == h.b.Plan(), "the plan is untouched")
	require.NotEmpty(t, found.Ways)
	w := found.Ways[0]
	assert.Equal(t, []plan.ID{"T1"}, w.Over)
	assert.True(t, w.Plan == h.b.Shown(), "previewed as it would be taken")
	assert.Equal(t, w.Rig, h.b.Rig())
	assert.Equal(t, w.Answer, h.b.Pull().Moments[0].Assessment, "the figures listed are those as drawn")
	assert.True(t, h.b.Overlay().Preview)
	assert.Equal(t, "Over Tree 1 · 1 of 1 · Enter takes it as a new tab", plain(h.b.Prompt()))
	ws := h.b.Words()
	i := slices.IndexFunc(found.Left, func(l layout.Left) bool { return slices.Equal(l.Over, []plan.ID{"T3"}) })
	require.GreaterOrEqual(t, i, 0)
	l := found.Left[i]
	assert.Equal(t, "Over Tree 3: passes 0.4 m from Boulder 1, needs 1.0 m",
		plain(ws.Way(l.Kind, l.Over, l.End, ws.Names(before, "R1"))+": "+ws.WhyNoWay(&l, ws.Names(before, "R1"))))

	shown, answer := bytesOf(t, h.b.Shown()), h.b.Answer()
	h.keys("<Enter>")
	found, _ = h.b.Ways()
	assert.Nil(t, found)
	assert.Equal(t, shown, h.bytes(), "what was previewed is what is kept")
	assert.Equal(t, answer, h.b.Answer())
	assert.Equal(t, travel.Whole(h.b.Plan(), "R2"), h.b.Answer(), "and what kedge check says of it")
	assert.Equal(t, "Take way: Over Tree 1", plain(h.b.UndoName()))
	assert.Equal(t, steps+1, undoSteps(h.b))
	require.Len(t, h.b.Tabs(), 2)
	assert.Equal(t, "Straight · refused", h.b.Tabs()[0].Text)
	assert.Regexp(t, `^Redirect · worst ([\d ]+|over 3×)`, plain(h.b.Tabs()[1].Text))
	assert.True(t, h.b.Tabs()[1].Shown)
	redirected(t, h) // the reference figures of step 15
	h.ctrl("z")
	assert.True(t, before == h.b.Plan(), "undone to the very plan that was there")
	assert.Equal(t, plan.ID("R1"), h.b.Rig())
}

// The rig proposed is the one that dragging the line to the tree gives.
func TestAWayIsWhatTheHandDraws(t *testing.T) {
	a, b := sit(t, nil), sit(t, nil)
	refusedLine(a)
	a.keys("w", "<Enter>")
	refusedLine(b)
	x, y := (fairlead[0]+front[0])/2, (fairlead[1]+front[1])/2
	b.move(x, y)
	b.down(x, y)
	b.move(23.5, 18.5)
	b.up(23.5, 18.5)
	way, hand := a.b.Plan().Rigs[1], b.b.Plan().Rigs[0]
	assert.Equal(t, plan.ID("R2"), way.ID)
	way.ID = hand.ID
	assert.Equal(t, hand, way)
}

// many is a refused line with anchors enough for several ways.
func many(h *hand) {
	refusedLine(h)
	h.keys("a")
	for _, at := range [][2]float64{{20, 19}, {28, 19}, {16, 15}} {
		h.click(at[0], at[1])
		h.keys("40", "<Enter>")
	}
	h.keys("<Escape>", "<Escape>")
}

func TestWaysByKeyboard(t *testing.T) {
	h := sit(t, nil)
	many(h)
	before := h.b.Plan()
	h.keys("w")
	found, at := h.b.Ways()
	require.NotNil(t, found)
	n := len(found.Ways)
	require.GreaterOrEqual(t, n, 3)
	require.Equal(t, 0, at)
	look := func(key string, want int) {
		t.Helper()
		h.keys(key)
		_, at := h.b.Ways()
		assert.Equal(t, want, at)
		assert.True(t, found.Ways[want].Plan == h.b.Shown())
		assert.Equal(t, found.Ways[want].Answer, h.b.Pull().Moments[0].Assessment)
		assert.True(t, before == h.b.Plan(), "the plan is untouched")
	}
	look("<ArrowUp>", 0)
	look("<ArrowDown>", 1)
	look("<ArrowDown>", 2)
	look("<End>", n-1)
	look("<ArrowDown>", n-1)
	look("<Home>", 0)
	h.move(20, 12) // pointing at the sheet takes nothing away
	look("<ArrowDown>", 1)
	h.b.LookAtWay(2)
	h.b.LookAtWay(99)
	h.b.LookAtWay(-1)
	_, at = h.b.Ways()
	assert.Equal(t, 2, at)
	h.keys("<Escape>")
	found, _ = h.b.Ways()
	assert.Nil(t, found)
	assert.True(t, before == h.b.Plan())
	assert.True(t, before == h.b.Shown())
	assert.Equal(t, plan.ID("R1"), h.b.Rig())
	h.keys("ww") // it opens and closes
	found, _ = h.b.Ways()
	assert.Nil(t, found)
}

// Whatever else is done leaves the ways and does not touch what was previewed.
func TestWhatLeavesTheWays(t *testing.T) {
	for _, tt := range []struct {
		name  string
		do    func(h *hand)
		stays bool
	}{
		{"a press", func(h *hand) { h.click(24, 19.5) }, false},
		{"a tool", func(h *hand) { h.keys("a") }, false},
		{"undo", func(h *hand) { h.ctrl("z") }, false},
		{"another tab", func(h *hand) { h.b.ShowRig("R2") }, false},
		{"a new rig", func(h *hand) { h.do("rig.new") }, false},
		{"a remedy of the way", func(h *hand) { _, _ = h.b.Do(part.Remedy{Do: "add-damper", Thing: "L1"}) }, true},
		{"another plan", func(h *hand) { _ = h.b.Replace(board.Empty()) }, false},
		{"zooming", func(h *hand) { h.do("zoom-in") }, true},
		{"the wheel", func(h *hand) { h.b.Handle(board.Wheel{X: 100, Y: 100, DY: 1, Mods: board.Mods{Alt: true}}) }, true},
		{"the pointer gone", func(h *hand) { h.b.Handle(board.PointerLeave{}) }, true},
		{"other units", func(h *hand) { h.keys("u") }, true},
		{"a key that means nothing", func(h *hand) { h.keys("<Delete>", "<Backspace>", "<Tab>") }, true},
	} {
		t.Run(tt.name, func(t *testing.T) {
			h := sit(t, nil)
			refusedLine(h)
			h.do("rig.duplicate")
			h.b.ShowRig("R1")
			before := h.b.Plan()
			h.keys("w")
			found, _ := h.b.Ways()
			require.NotNil(t, found)
			tt.do(h)
			found, _ = h.b.Ways()
			assert.Equal(t, tt.stays, found != nil)
			if tt.stays {
				assert.True(t, before == h.b.Plan())
				return
			}
			assert.True(t, h.b.Plan() == h.b.Shown())
			assert.LessOrEqual(t, len(h.b.Plan().Rigs), 3)
			for _, r := range h.b.Plan().Rigs {
				assert.Empty(t, r.Blocks, "no way was taken")
			}
		})
	}
}

// Without ways a sentence says what is needed.
func TestNoWays(t *testing.T) {
	h := sit(t, nil)
	h.keys("w")
	found, at := h.b.Ways()
	require.NotNil(t, found)
	assert.Equal(t, -1, at)
	assert.Equal(t, "Place the vehicle to be moved, with a recovery point, and mark it as casualty in Details.", h.b.Prompt())
	h.keys("<Enter>")
	assert.Empty(t, h.b.UndoName(), "there is none to take")
	h.keys("<ArrowDown>", "<Escape>")
	found, _ = h.b.Ways()
	assert.Nil(t, found)

	h.keys("v")
	h.click(5.5, 8.5)
	h.click(32.5, 7.5)
	h.keys("o")
	for _, c := range boulder {
		h.click(c[0], c[1])
	}
	h.keys("<Enter>", "<Escape>", "<Escape>", "w")
	found, _ = h.b.Ways()
	require.NotNil(t, found)
	assert.Contains(t, h.b.Prompt(), "Place a tree")
}

// Any ways taken and undone leave the same bytes.
func TestWaysTakenAndUndone(t *testing.T) {
	h := sit(t, nil)
	many(h)
	before := h.bytes()
	h.keys("w")
	found, _ := h.b.Ways()
	n := len(found.Ways)
	for i := range n {
		h.keys("<Escape>", "w")
		h.b.LookAtWay(i)
		shown := bytesOf(t, h.b.Shown())
		h.b.TakeWay()
		assert.Equal(t, shown, h.bytes())
		assert.NotEqual(t, part.Refused, h.b.Answer().Status)
		h.ctrl("z")
		assert.Equal(t, before, h.bytes())
		assert.Equal(t, plan.ID("R1"), h.b.Rig())
	}
}
