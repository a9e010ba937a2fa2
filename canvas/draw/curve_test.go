package draw_test

import (
	"fmt"
	"image/color"
	"testing"

	"github.com/golang/geo/r2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/draw"
	"kedge/canvas/pen"
	"kedge/solver/plan"
	"kedge/solver/travel"
)

// curveTexts are the texts of a curve drawn into a box, with the boxes of their
// capitals.
func curveTexts(t *testing.T, box r2.Rect, c *draw.Curve) (draw.CurvePlot, []string, []r2.Rect) {
	var r pen.Recorder
	plot := draw.DrawCurve(&r, box, c)
	require.NoError(t, r.Err())
	var texts []string
	var boxes []r2.Rect
	for i := range r.Marks {
		m := &r.Marks[i]
		if m.Kind != pen.TextMark {
			continue
		}
		w, _, _ := pen.Measure(m.Text, &m.Type)
		x := m.X
		if m.Type.Anchor == pen.End {
			x -= w
		}
		texts = append(texts, m.Text)
		boxes = append(boxes, r2.RectFromPoints(r2.Point{X: x, Y: m.Y - pen.CapHeight(&m.Type)}, r2.Point{X: x + w, Y: m.Y}))
	}
	return plot, texts, boxes
}

// Whatever the room and the size of the letters, the texts of a curve lie inside its box
// and not over one another, the place of the handle at the start included; of a pull
// that is not followed to its end too.
func TestTextsOfACurveLieApart(t *testing.T) {
	short := example(t, "redirect.kedge")
	v := *short.Casualty()
	v.Unshare()
	v.Stuck.WayLength = 8
	for name, p := range map[string]*plan.Plan{"whole": short, "stopped": plan.WithVehicle(short, 0, v)} {
		w := english(t)
		pull := travel.Of(p, "R1")
		require.Positive(t, pull.EndM)
		require.Equal(t, name == "stopped", pull.EndM < pull.LongM)
		for _, wide := range []float64{320, 480, 640, 960, 1400} {
			for _, size := range []float64{11, 15} {
				for _, note := range []string{"", "Winch vehicle: hauls 12.3 m in 4 min, with 2 rests of 5 min for its motor"} {
					box := r2.RectFromPoints(r2.Point{X: 10, Y: 4}, r2.Point{X: 10 + wide, Y: 4 + 8*size})
					c := &draw.Curve{Pull: pull, Words: w, Names: w.Names(p, "R1"), Note: note, Text: size, Ink: color.NRGBA{A: 255}, Quiet: color.NRGBA{A: 200}}
					plot, texts, boxes := curveTexts(t, box, c)
					of := fmt.Sprintf("%s, %v wide, %v high", name, wide, size)
					if note != "" && wide == 1400 {
						assert.Contains(t, texts, note, of)
					}
					handle := r2.RectFromPoints(r2.Point{X: plot.X0 - 0.55*size, Y: box.Y.Hi - 2*size}, r2.Point{X: plot.X0, Y: box.Y.Hi - size})
					for i := range boxes {
						assert.True(t, box.X.Lo <= boxes[i].X.Lo && boxes[i].X.Hi <= box.X.Hi, "%s: %q lies outside", of, texts[i])
						assert.False(t, boxes[i].Intersects(handle), "%s: %q under the handle", of, texts[i])
						for k := range i {
							assert.False(t, boxes[i].Intersects(boxes[k]), "%s: %q over %q", of, texts[i], texts[k])
						}
					}
				}
			}
		}
	}
}
