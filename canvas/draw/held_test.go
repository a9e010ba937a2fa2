package draw_test

import (
	"math"
	"os"
	"slices"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/draw"
	"kedge/canvas/pen"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
)

func held(t testing.TB) *plan.Plan { return seeded.Read(t, os.DirFS("../../testdata"), "held.kedge") }

// Lines and straps that tie back and hold back are drawn from end to end like
// the line that pulls.
func TestWhatHoldsIsDrawn(t *testing.T) {
	s := sceneOf(t, held(t), "R1", 1400, 900)
	ends := map[string][2]r3.Vector{}
	for _, st := range s.Answer.Stretches {
		ends[st.Part] = [2]r3.Vector{st.A, st.B}
	}
	for _, sl := range s.Answer.Slings {
		ends[string(sl.Sling)] = [2]r3.Vector{sl.Centre, sl.Apex}
	}
	marks := record(t, s, draw.Draw).Marks
	for _, id := range []string{"L1/1", "L2/1", "L3/1", "S2"} {
		e, ok := ends[id]
		require.True(t, ok, id)
		x0, y0 := s.View.ToPen(plan.Point{X: e[0].X, Y: e[0].Y})
		x1, y1 := s.View.ToPen(plan.Point{X: e[1].X, Y: e[1].Y})
		assert.True(t, slices.ContainsFunc(marks, func(m pen.Mark) bool {
			box := m.Path.Bounds()
			near := func(a, b float64) bool { return math.Abs(a-b) < 1 }
			return !box.IsEmpty() && m.Style.Width > 4 && near(box.X.Lo, min(x0, x1)) && near(box.X.Hi, max(x0, x1)) && near(box.Y.Lo, min(y0, y1)) && near(box.Y.Hi, max(y0, y1))
		}), id)
	}
}

// A tag has the load to move; of a part that only breaking loose brings near or
// over its limit, the load that does: 15.4 kN, of 9.0 to move.
func TestTagsToBreakLoose(t *testing.T) {
	texts := func(rating quantity.Force) []string {
		p := held(t)
		p.Rigs[0].Lines[0].Rating.Force = rating
		p.Site.Vehicles[1].Winch.LinePull = 200e3 // the line governs
		return textsOf(record(t, sceneOf(t, p, "R1", 1400, 900), draw.DrawMoving))
	}
	within := texts(95e3)
	assert.Contains(t, within, "9.0 kN")
	assert.Contains(t, within, "Line 1, fairlead to Survey pickup 43 %, to break loose · 3 more")
	over := texts(40e3)
	assert.Contains(t, over, "▲ 15.4 kN, to break loose · OVER LIMIT")
	assert.Contains(t, over, "101 % of line limit")
}
