package window

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/solver/plan"
)

// Over a bare sheet four ways to begin are offered, and the examples, at every size; Escape leaves
// the bare board, a new plan offers them again; each rigs a plan and asks for its figures.
func TestABareSheetOffersWaysToBegin(t *testing.T) {
	for _, size := range [][2]float32{{1440, 900}, {1024, 640}, {800, 600}} {
		s := sitAt(t, size[0], size[1], "")
		s.focusBoard()
		s.refresh()
		require.True(t, s.begin.pane.Visible())
		for _, id := range board.Begins() {
			i := s.begin.pane.Find("begin " + id)
			require.GreaterOrEqual(t, i, 0, id)
			h := s.begin.pane.Hits[i]
			assert.LessOrEqual(t, h.Y1, float64(s.begin.pane.Size().Height), "%s at %v", id, size)
			assert.LessOrEqual(t, h.X1, float64(s.begin.pane.Size().Width))
		}
		for _, id := range []string{"begin place-picture", "begin place-survey", "example redirect"} {
			assert.GreaterOrEqual(t, s.begin.pane.Find(id), 0, id)
		}
		s.keys("<Escape>")
		assert.False(t, s.begin.pane.Visible(), "the bare board")
		s.commands.run("new")
		assert.True(t, s.begin.pane.Visible())

		s.click(s.begin.pane, "begin redirect")
		assert.False(t, s.begin.pane.Visible())
		require.NotNil(t, s.board.Question())
		s.keys("2", "4", "5", "0", "<Return>", "h", "<Return>")
		assert.InDelta(t, 2450, float64(s.board.Plan().Casualty().Mass), 1e-9)
		assert.Equal(t, plan.DepthHub, s.board.Plan().Casualty().Stuck.Depth)
		assert.NotNil(t, s.board.Question(), "the next is asked")
	}
	s := sitAt(t, 1440, 900, "")
	s.focusBoard()
	s.keys("v")
	assert.False(t, s.begin.pane.Visible(), "a tool takes the board")
}
