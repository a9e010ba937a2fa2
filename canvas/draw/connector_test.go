package draw_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/draw"
	"kedge/solver/plan"
)

// A connector over its limit has its tag, at the end of its line; within it, the
// line's own tag is enough.
func TestAConnectorHasATagWhenItIsOver(t *testing.T) {
	tag := func(rating plan.Rating) (box draw.LabelBox, has bool) {
		p := example(t, "redirect.kedge")
		p.Rigs[0].Lines = slices.Clone(p.Rigs[0].Lines)
		p.Rigs[0].Lines[0].Connector.Rating = rating
		s := sceneOf(t, p, "R1", 1400, 900)
		s.Labels = &draw.Labels{}
		record(t, s, draw.Draw)
		i := slices.IndexFunc(s.Labels.Boxes, func(b draw.LabelBox) bool { return b.Key == "tag L1/end" })
		if i < 0 {
			return box, false
		}
		v, _ := p.Vehicle("V1")
		spot, ok := v.PortPlace("front")
		require.True(t, ok)
		x, y := s.View.ToPen(spot.At)
		assert.InDelta(t, x, s.Labels.Boxes[i].At.X, 1)
		assert.InDelta(t, y, s.Labels.Boxes[i].At.Y, 1)
		return s.Labels.Boxes[i], true
	}
	_, has := tag(plan.Rating{Force: 9000, Basis: plan.BasisWorking})
	assert.True(t, has)
	_, has = tag(plan.Rating{Force: 120000, Basis: plan.BasisWorking})
	assert.False(t, has)
}

// A line's end has a mark of its own only where nothing else marks it: on a
// sling's eye, not on the point of a vehicle, which is ringed already.
func TestConnectorMark(t *testing.T) {
	rings := func(change func(r *plan.Rig)) (n int, s *draw.Scene) {
		p := example(t, "redirect.kedge")
		change(&p.Rigs[0])
		s = sceneOf(t, p, "R1", 1400, 900)
		for _, m := range record(t, s, draw.Draw).Marks {
			box := m.Path.Bounds()
			if !box.IsEmpty() && math.Abs(box.X.Length()-10) < 0.1 && math.Abs(box.Y.Length()-10) < 0.1 {
				n++
			}
		}
		return n, s
	}
	straight, _ := rings(func(*plan.Rig) {})
	onSling, s := rings(func(r *plan.Rig) {
		r.Slings = append(slices.Clone(r.Slings), plan.Sling{Head: plan.Head{ID: "S9"}, On: plan.Port{Thing: "V1", Point: "front"}, Length: 3, Material: plan.MaterialWeb})
		r.Lines = slices.Clone(r.Lines)
		r.Lines[0].Path = slices.Clone(r.Lines[0].Path)
		r.Lines[0].Path[len(r.Lines[0].Path)-1] = plan.Port{Thing: "S9"}
	})
	require.Len(t, s.Answer.Stretches, 2)
	assert.Equal(t, 1, straight, "the point's ring")
	assert.Equal(t, 1, onSling, "the connector's ring; the point has none, no line ends there")
}
