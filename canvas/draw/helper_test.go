package draw_test

import (
	"image"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/assets"
	"kedge/canvas/draw"
	"kedge/canvas/pen"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
)

func english(t testing.TB) *words.Words {
	t.Helper()
	w, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	return w
}

func example(t testing.TB, name string) *plan.Plan { return seeded.Read(t, assets.Plans(), name) }

// sceneOf is a plan's rig as assessed, fitted into w by h pixels.
func sceneOf(t testing.TB, p *plan.Plan, rig plan.ID, w, h float64) *draw.Scene {
	t.Helper()
	s := &draw.Scene{Plan: p, Rig: rig, Words: english(t)}
	s.Answer = solver.Assess(p, rig)
	box := draw.Bounds(p, s.Answer)
	require.False(t, box.IsEmpty())
	s.View = draw.Fit(box, w, h, 50)
	return s
}

func paint(t testing.TB, s *draw.Scene) *image.RGBA {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, int(s.View.W), int(s.View.H)))
	r := pen.NewRaster(img, 1)
	draw.Draw(r, s)
	require.NoError(t, r.Flush())
	return img
}

// textsOf are the texts of a drawing with plain spaces for the ones that do
// not break.
func textsOf(r *pen.Recorder) []string {
	out := r.Texts()
	for i := range out {
		out[i] = strings.NewReplacer("\u00a0", " ", "\u202f", " ").Replace(out[i])
	}
	return out
}
