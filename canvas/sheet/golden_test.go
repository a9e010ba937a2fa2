package sheet_test

import (
	"bytes"
	"flag"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/canvas/sheet"
)

var update = flag.Bool("update", false, "write the pictures of testdata anew")

// Pictures of pages are compared small and soft: what matters is where things
// lie on the page. The mean difference of a pixel stays under a hundredth of
// white, for figures may change by a digit. (ours)
const (
	goldenDPI  = 30
	goldenMean = 0.01
)

func TestPagesLookAsTheyDid(t *testing.T) {
	usual := booklet(t, example(t, "redirect"), sheet.Options{Sheets: everything()})
	incident := booklet(t, example(t, "incidents/birch"), sheet.Options{Sheets: []sheet.Kind{sheet.Inquiry, sheet.InquiryKey}})
	for _, k := range everything() {
		t.Run(string(k), func(t *testing.T) {
			b := usual
			if k == sheet.Inquiry || k == sheet.InquiryKey {
				b = incident
			}
			i := slices.IndexFunc(b.Pages, func(g *sheet.Page) bool { return g.Has(k) })
			require.GreaterOrEqual(t, i, 0)
			data, err := b.PNG(i, goldenDPI)
			require.NoError(t, err)
			name := filepath.Join("testdata", "golden", string(k)+".png")
			if *update {
				require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o755))
				require.NoError(t, os.WriteFile(name, data, 0o644))
				return
			}
			want, err := os.ReadFile(name)
			require.NoError(t, err, "run with -update to make it")
			if d := difference(t, want, data); !(d <= goldenMean) {
				t.Errorf("%s differs by %.4f of white; look at it, then run with -update", name, d)
			}
		})
	}
}

// difference is the mean difference of two pictures' pixels, 0 to 1.
func difference(t *testing.T, a, b []byte) float64 {
	t.Helper()
	p, err := png.Decode(bytes.NewReader(a))
	require.NoError(t, err)
	q, err := png.Decode(bytes.NewReader(b))
	require.NoError(t, err)
	require.Equal(t, p.Bounds(), q.Bounds())
	sum, r := 0.0, p.Bounds()
	grey := func(m image.Image, x, y int) float64 {
		c, _, _, _ := m.At(x, y).RGBA()
		return float64(c) / 0xffff
	}
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			d := grey(p, x, y) - grey(q, x, y)
			sum += max(d, -d)
		}
	}
	return sum / float64(r.Dx()*r.Dy())
}
