package pen

import (
	"image"
	"testing"
)

// BenchmarkRaster draws whole frames of 1400×900 pixels; the budget for a full
// redraw is 15 ms.
func BenchmarkRaster(b *testing.B) {
	img := image.NewRGBA(image.Rect(0, 0, 1400, 900))
	r := NewRaster(img, 1)
	run := func(name string, draw func()) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				r.Target(img, 1, 0, 0)
				r.Paper(paper)
				draw()
				if err := r.Flush(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	run("scene", func() { trialScene(r, 1400, 900) })
	run("paper", func() {})
	run("texts", func() {
		for i := range 200 {
			r.Text(float64(i%10)*140, float64(i/10)*40+20, "41.8 kN on Block 1", &TextStyle{Size: 12, Colour: ink, Halo: paper, HaloWidth: 2})
		}
	})
	var zone Path
	zone.Circle(700, 450, 400)
	run("hatch", func() {
		r.Path(&zone, &Style{Fill: tint, Hatch: Hatch{Colour: red, AngleDeg: 45, Spacing: 8, Width: 1}, Stroke: red, Width: 2})
	})
	run("dots", func() {
		r.Path(&zone, &Style{Hatch: Hatch{Colour: red, Spacing: 10, Width: 2, Dots: true}})
	})
}
