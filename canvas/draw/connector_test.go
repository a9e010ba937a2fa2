package draw_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/draw"
	"kedge/solver/plan"
)

// A connector over its limit is named in the tag that it shares with its line;
// within it, it is one of those that are counted.
func TestAConnectorIsNamedWhenItIsOver(t *testing.T) {
	said := func(rating plan.Rating) (worst string, texts string) {
		p := example(t, "redirect.kedge")
		p.Rigs[0].Lines = slices.Clone(p.Rigs[0].Lines)
		p.Rigs[0].Lines[0].Connector.Rating = rating
		s := sceneOf(t, p, "R1", 1400, 900)
		s.Labels = &draw.Labels{}
		texts = strings.Join(textsOf(record(t, s, draw.Draw)), "|")
		i := slices.IndexFunc(s.Labels.Boxes, func(b draw.LabelBox) bool { return slices.Contains(b.Parts, "L1/end") })
		require.GreaterOrEqual(t, i, 0)
		return s.Labels.Boxes[i].Part, texts
	}
	const hook = "|Line, hook at Casualty OVER LIMIT "
	worst, texts := said(plan.Rating{Force: 9000, Basis: plan.BasisWorking})
	assert.Equal(t, "L1/end", worst)
	assert.Contains(t, texts, hook)
	worst, texts = said(plan.Rating{Force: 120000, Basis: plan.BasisWorking})
	assert.NotEqual(t, "L1/end", worst)
	assert.NotContains(t, texts, hook)
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
