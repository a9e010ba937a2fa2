package board_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/solver/plan"
)

// An obstacle that is a boulder may serve as anchor: yes or no, one thing and
// not two. Source: the design's board, Tools and keys.
func TestAnchorOnABoulderAsks(t *testing.T) {
	cases := []struct {
		name string
		keys []string
		want bool
	}{
		{"yes", []string{"y", "<Enter>"}, true}, {"with Tab", []string{"<Tab>", "yes", "<Enter>"}, true},
		{"no", []string{"n", "<Enter>"}, false}, {"nothing said", []string{"<Enter>"}, false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			h := rigged(t)
			before, trees := h.bytes(), len(h.b.Plan().Site.Anchors)
			h.keys("a")
			h.move(18.5, 8.5)
			assert.Nil(t, h.b.Overlay().Ghost, "nothing is set on it")
			h.click(18.5, 8.5)
			q := h.b.Question()
			require.NotNil(t, q)
			assert.Equal(t, "Boulder 1 may serve as anchor: no. Change?", q.Label)
			assert.Equal(t, q.Label, h.b.Prompt())
			assert.Equal(t, []plan.ID{"O1"}, h.b.Selection())
			assert.Equal(t, board.ToolAnchor, h.b.Tool())
			h.keys(c.keys...)
			assert.Equal(t, c.want, h.b.Plan().Site.Obstacles[0].Anchor)
			assert.Len(t, h.b.Plan().Site.Anchors, trees, "one thing, not two")
			assert.Equal(t, board.ToolAnchor, h.b.Tool(), "y and n are the answer, no tools")
			if c.want {
				h.click(18.5, 8.5)
				require.NotNil(t, h.b.Question())
				assert.Equal(t, "Boulder 1 may serve as anchor: yes. Change?", h.b.Question().Label)
				h.keys("n", "<Enter>")
				assert.False(t, h.b.Plan().Site.Obstacles[0].Anchor)
				h.b.Undo()
				h.b.Undo()
			}
			assert.Equal(t, before, h.bytes())
		})
	}
}

func TestAnchorOnWhatIsNoBoulder(t *testing.T) {
	h := rigged(t)
	require.NoError(t, h.b.Set("O1", "kind", "wall"))
	n := len(h.b.Plan().Site.Anchors)
	h.keys("a")
	h.click(18.5, 8.5)
	assert.Len(t, h.b.Plan().Site.Anchors, n+1, "a ring in a wall is an anchor of its own")
	h = rigged(t)
	h.b.Select("O1")
	h.ctrl("l")
	h.keys("a")
	h.click(18.5, 8.5)
	assert.Nil(t, h.b.Question())
	assert.Equal(t, "Boulder 1 is locked", h.b.Prompt())
	// the keyboard gives the same question
	h = rigged(t)
	h.keys("a", "18.5;8.5", "<Enter>", "<Enter>")
	require.NotNil(t, h.b.Question())
	assert.Equal(t, "may_serve_as_anchor", h.b.Question().Member)
}
