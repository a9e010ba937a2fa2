package window

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The verdict has its three cells, in one order, at every width and text size; where it is
// narrow they are rows. None is dropped.
func TestTheVerdictHasThreeCells(t *testing.T) {
	for _, c := range []struct {
		w, h float32
		rows bool
	}{{1440, 900, false}, {1920, 1080, false}, {1024, 640, true}, {800, 600, true}} {
		s := sitAt(t, c.w, c.h, example(t, "redirect"))
		said := texts(s.frame.verdict)
		for _, id := range []string{"cell-first", "cell-breaks", "cell-people"} {
			assert.Contains(t, said, s.label(id), "%v", c.w)
		}
		cells := s.words().Cells(s.answer(), s.names())
		assert.Contains(t, said, cells.People)
		assert.Contains(t, strings.Join(strings.Fields(said), " "), strings.Join(strings.Fields(cells.First), " "), "%v", c.w)
		rows, high := verdictIn(s.frame.verdict.Size().Width, 1)
		assert.Equal(t, c.rows, rows, "%v", c.w)
		assert.InDelta(t, high, s.frame.verdict.Size().Height, 0.5)
		assert.InDelta(t, s.frame.verdict.Position().Y+high, s.view.Position().Y, 0.5, "the board begins below it")
	}
	s := sitAt(t, 1440, 900, "")
	assert.Contains(t, texts(s.frame.verdict), "none drawn")
}
