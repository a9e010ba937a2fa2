package board_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/solver/plan"
)

// press presses a key with its modifiers as a menu shows them.
func (h *hand) press(shortcut string) {
	k := board.Key{}
	rest := shortcut
	for _, m := range []struct {
		word string
		set  func()
	}{{"Ctrl+", func() { k.Mods.Ctrl = true }}, {"Shift+", func() { k.Mods.Shift = true }}} {
		if len(rest) > len(m.word) && rest[:len(m.word)] == m.word {
			rest = rest[len(m.word):]
			m.set()
		}
	}
	k.Name = rest
	h.b.Handle(k)
}

// Every command on many things: by its id and by its keys it does the same, as
// one undo step of its name, and what was selected stays so.
func TestArrangingByKeys(t *testing.T) {
	cases := []struct{ id, keys, undo string }{
		{"align-west", "Ctrl+Shift+ArrowLeft", "Align"}, {"align-east", "Ctrl+Shift+ArrowRight", "Align"},
		{"align-north", "Ctrl+Shift+ArrowUp", "Align"}, {"align-south", "Ctrl+Shift+ArrowDown", "Align"},
		{"distribute", "Ctrl+Shift+D", "Space evenly"}, {"mirror", "Ctrl+M", "Mirror"},
		{"lock", "Ctrl+L", "Lock"}, {"hide", "Ctrl+H", "Hide"}, {"duplicate", "Ctrl+D", "Duplicate"}, {"cut", "Ctrl+X", "Cut"},
		{"delete", "Delete", "Delete 3 items"},
	}
	for _, c := range cases {
		t.Run(c.id, func(t *testing.T) {
			trees := []plan.ID{"T1", "T2", "T3"}
			p, k := rigged(t), rigged(t)
			before := p.bytes()
			p.b.Select(trees...)
			k.b.Select(trees...)
			p.b.Handle(board.Command{ID: c.id})
			k.press(c.keys)
			require.NotEqual(t, before, p.bytes())
			assert.Equal(t, p.bytes(), k.bytes(), "the keys do what the command does")
			assert.Equal(t, c.undo, p.b.UndoName())
			assert.Equal(t, c.undo, k.b.UndoName())
			for _, e := range p.b.Commands() {
				if e.ID == c.id {
					assert.Equal(t, c.keys, e.Shortcut)
				}
			}
			p.b.Undo()
			assert.Equal(t, before, p.bytes(), "one undo step")
			p.b.Redo()
			assert.Equal(t, k.bytes(), p.bytes())
		})
	}
}

func TestLockAndHideTurnRound(t *testing.T) {
	h := rigged(t)
	h.b.Select("T1", "T2")
	h.press("Ctrl+L")
	h.b.Select("T1")
	h.press("Ctrl+L")
	assert.Equal(t, "Unlock", h.b.UndoName())
	assert.False(t, h.b.Plan().Site.Anchors[0].Locked)
	assert.True(t, h.b.Plan().Site.Anchors[1].Locked)
}

// All of a kind, also of several kinds at once, by command and keys.
func TestAllOfAKind(t *testing.T) {
	h := redirect(t)
	h.keys("p")
	h.click(30, 16)
	h.click(34, 16)
	h.keys("<Escape>", "<Escape>")
	h.b.Select("T2", "P1")
	h.press("Ctrl+Shift+A")
	assert.Equal(t, []plan.ID{"T1", "T2", "T3", "P1", "P2"}, h.b.Selection())
	h.b.Select("T3")
	h.press("Ctrl+H")
	h.b.Select("T1")
	h.press("Ctrl+Shift+A")
	assert.Equal(t, []plan.ID{"T1", "T2"}, h.b.Selection(), "what is hidden is not selected")
}

// What is hidden is listed, counts as before, and comes back at once.
func TestHiddenThingsAreListed(t *testing.T) {
	h := redirect(t)
	entry := func() board.Entry {
		for _, e := range h.b.Commands() {
			if e.ID == "show-all" {
				return e
			}
		}
		return board.Entry{}
	}
	assert.Empty(t, h.b.Hidden())
	assert.False(t, entry().Enabled)
	assert.Equal(t, "Nothing is hidden", entry().Why)
	before, parts := h.bytes(), h.b.Answer().Parts
	h.b.Select("T2", "B1", "O1")
	h.press("Ctrl+H")
	assert.Equal(t, []plan.ID{"T2", "O1", "B1"}, h.b.Hidden(), "in file order")
	assert.Equal(t, "Hidden, but counted: Tree 2, Boulder 1 and Block 1 (show: Ctrl+Shift+H)", plain(h.b.Prompt()))
	assert.Equal(t, parts, h.b.Answer().Parts, "loads are what they were")
	assert.True(t, entry().Enabled)
	h.b.Reveal("O1", "T1", "nobody")
	assert.Equal(t, []plan.ID{"T2", "B1"}, h.b.Hidden())
	assert.Equal(t, []plan.ID{"O1"}, h.b.Selection())
	h.press("Ctrl+Shift+H")
	assert.Empty(t, h.b.Hidden())
	assert.Equal(t, []plan.ID{"T2", "B1"}, h.b.Selection(), "what comes back is selected")
	assert.Equal(t, "Show what was hidden", h.b.UndoName())
	assert.Equal(t, before, h.bytes())
	h.b.Undo()
	h.b.Undo()
	h.b.Undo()
	assert.Equal(t, before, h.bytes())
	steps := undoSteps(h.b)
	h.press("Ctrl+Shift+H")
	assert.Equal(t, "Nothing is hidden", h.b.Prompt())
	assert.Equal(t, steps, undoSteps(h.b), "nothing to show is no edit")
}
