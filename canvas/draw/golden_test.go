package draw_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/canvas/draw"
	"kedge/solver"
	"kedge/solver/plan"
)

var (
	update   = flag.Bool("update", false, "rewrite the golden pictures")
	refreeze = flag.Bool("refreeze", false, "take the plan and the answers of the golden pictures anew")
)

// Tolerances of a golden picture: how much a channel may differ before a pixel
// counts as other, and the share of pixels that may be other. Edges computed on
// another machine differ by a shade; a word or line that moved is thousands of
// pixels.
const (
	shadeTolerance = 24
	shareTolerance = 0.004
)

// The goldens are drawn from a plan and answers kept beside them, so that a new
// rule of the solver changes no picture. -refreeze takes both anew.
func frozen(t *testing.T, rig plan.ID) (*plan.Plan, *solver.Assessment) {
	t.Helper()
	planFile := filepath.Join("testdata", "redirect.kedge")
	if *refreeze {
		data, err := os.ReadFile(filepath.Join("..", "..", "assets", "plans", "redirect.kedge"))
		require.NoError(t, err)
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(planFile, data, 0o644))
	}
	data, err := os.ReadFile(planFile)
	require.NoError(t, err)
	p, err := plan.ParsePlan(data)
	require.NoError(t, err)
	if rig == "" {
		return p, nil
	}
	file := filepath.Join("testdata", "answer-"+string(rig)+".json")
	if *refreeze {
		out, err := json.Marshal(solver.Assess(p, rig))
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(file, append(out, '\n'), 0o644))
	}
	data, err = os.ReadFile(file)
	require.NoError(t, err)
	a := &solver.Assessment{}
	require.NoError(t, json.Unmarshal(data, a))
	return p, a
}

func TestGoldenPictures(t *testing.T) {
	for _, c := range []struct {
		name string
		rig  plan.ID
		w, h float64
		look draw.Look
	}{
		{"redirect", "R1", 900, 600, draw.Look{}},
		{"redirect-dark", "R1", 900, 600, draw.Look{Dark: true}},
		{"redirect-field", "R1", 900, 600, draw.Look{Field: true}},
		{"redirect-print", "R1", 900, 600, draw.Look{Print: true}},
		{"refused", "R2", 900, 600, draw.Look{}},
		{"site", "", 560, 380, draw.Look{}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, a := frozen(t, c.rig)
			s := &draw.Scene{Plan: p, Rig: c.rig, Answer: a, Words: english(t), Look: c.look}
			box := draw.Bounds(p, s.Answer)
			require.False(t, box.IsEmpty())
			s.View = draw.Fit(box, c.w, c.h, 50)
			compare(t, filepath.Join("testdata", c.name+".png"), paint(t, s))
		})
	}
}

func compare(t *testing.T, file string, got *image.RGBA) {
	t.Helper()
	if *update {
		var b bytes.Buffer
		require.NoError(t, (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&b, got))
		require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
		require.NoError(t, os.WriteFile(file, b.Bytes(), 0o644))
		return
	}
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	want, err := png.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	require.Equal(t, want.Bounds().Size(), got.Bounds().Size())
	other, b := 0, got.Bounds()
	for y := range b.Dy() {
		for x := range b.Dx() {
			wr, wg, wb, _ := want.At(x, y).RGBA()
			g := got.RGBAAt(x, y)
			if off(wr, g.R) || off(wg, g.G) || off(wb, g.B) {
				other++
			}
		}
	}
	share := float64(other) / float64(b.Dx()*b.Dy())
	require.LessOrEqual(t, share, shareTolerance, fmt.Sprintf("%s: %.2f %% of the pixels differ; look at it, then -update", file, share*100))
}

func off(want uint32, got uint8) bool {
	d := int(want>>8) - int(got)
	return d > shadeTolerance || d < -shadeTolerance
}
