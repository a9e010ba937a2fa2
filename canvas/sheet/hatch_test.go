package sheet_test

import (
	"math"
	"testing"

	"github.com/golang/geo/r2"
	"github.com/stretchr/testify/assert"

	"kedge/canvas/pen"
	"kedge/canvas/sheet"
)

// On paper no hatch comes nearer than 2 mm to a line or to a figure's box, so
// that a protractor can be laid. (ours) A sheet's unit is the millimetre.
func TestHatchesStopTwoMillimetresOffOnPaper(t *testing.T) {
	for _, name := range []string{"redirect", "doubled"} {
		for _, landscape := range []bool{false, true} {
			hatches, drawn := 0, 0
			for _, g := range booklet(t, example(t, name), sheet.Options{Sheets: []sheet.Kind{sheet.Zones, sheet.Overview}, Landscape: landscape, ZonesApart: true}).Pages {
				var r pen.Recorder
				g.Draw(&r)
				// Lines are the only single straight steps as wide as a line's edge.
				type line struct {
					a, b r2.Point
					half float64
				}
				var lines []line
				step := func(m *pen.Mark) (pts []r2.Point) {
					m.Path.Each(func(_ pen.Verb, p []r2.Point) { pts = append(pts, p...) })
					return pts
				}
				for i := range r.Marks {
					if m := &r.Marks[i]; m.Kind == pen.PathMark && m.Style.Width > 1.5 && m.Style.Stroke.R < 128 {
						if pts := step(m); len(pts) == 2 {
							lines = append(lines, line{pts[0], pts[1], m.Style.Width / 2})
						}
					}
				}
				drawn += len(lines)
				for i := range r.Marks {
					m := &r.Marks[i]
					if !m.Style.Apart {
						continue
					}
					pts := step(m)
					for k := 0; k+1 < len(pts); k += 2 {
						hatches++
						a, b := pts[k], pts[k+1]
						for n := 0.0; n <= 40; n++ {
							p := r2.Point{X: a.X + (b.X-a.X)*n/40, Y: a.Y + (b.Y-a.Y)*n/40}
							for _, l := range lines {
								u := r2.Point{X: l.b.X - l.a.X, Y: l.b.Y - l.a.Y}
								s := math.Max(0, math.Min(1, ((p.X-l.a.X)*u.X+(p.Y-l.a.Y)*u.Y)/(u.X*u.X+u.Y*u.Y)))
								if d := math.Hypot(p.X-l.a.X-s*u.X, p.Y-l.a.Y-s*u.Y) - l.half; !(d >= 2) {
									t.Fatalf("%s, %s: a hatch is %.2f mm from a line", name, g.Name, d)
								}
							}
							for _, q := range g.Figures {
								d := math.Hypot(math.Max(0, math.Max(q.X0-p.X, p.X-q.X1)), math.Max(0, math.Max(q.Y0-p.Y, p.Y-q.Y1)))
								if !(d >= 2) {
									t.Fatalf("%s, %s: a hatch is %.2f mm from the figure of %s", name, g.Name, d, q.Part)
								}
							}
						}
					}
				}
			}
			assert.Greater(t, hatches, 50, "hatches looked at")
			assert.GreaterOrEqual(t, drawn, 4, "two stretches of edge and core at least")
		}
	}
}
