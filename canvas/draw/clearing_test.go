package draw_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/golang/geo/r2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/draw"
	"kedge/canvas/pen"
)

// hatchMarks are the hatches of a drawing: what a pen is told lies apart.
func hatchMarks(r *pen.Recorder) []*pen.Mark {
	var out []*pen.Mark
	for i := range r.Marks {
		if m := &r.Marks[i]; m.Kind == pen.PathMark && m.Style.Apart {
			out = append(out, m)
		}
	}
	return out
}

// fromStrip is the distance of a point from the edge of what is drawn.
func fromStrip(p r2.Point, s *draw.Strip) float64 {
	dx, dy := s.B.X-s.A.X, s.B.Y-s.A.Y
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = math.Max(0, math.Min(1, ((p.X-s.A.X)*dx+(p.Y-s.A.Y)*dy)/l))
	}
	return math.Hypot(p.X-s.A.X-t*dx, p.Y-s.A.Y-t*dy) - s.Half
}

func fromBox(p r2.Point, b *draw.LabelBox) float64 {
	return math.Hypot(math.Max(0, math.Max(b.Box.X.Lo-p.X, p.X-b.Box.X.Hi)), math.Max(0, math.Max(b.Box.Y.Lo-p.Y, p.Y-b.Box.Y.Hi)))
}

// nearestHatch samples every hatch line and dot of a picture, ends and the half
// of its stroke counted in, and gives what comes nearest to a line, a vehicle's
// edge, a trunk or a label.
func nearestHatch(t *testing.T, s *draw.Scene) (least float64, what string, segments int) {
	t.Helper()
	s.Labels = &draw.Labels{}
	var r pen.Recorder
	draw.Draw(&r, s)
	require.NoError(t, r.Err())
	drawn := draw.Drawn(s)
	least = math.Inf(1)
	note := func(d float64, name string) {
		if !(d >= least) {
			least, what = d, name
		}
	}
	for _, m := range hatchMarks(&r) {
		half := m.Style.Width / 2
		var a r2.Point
		m.Path.Each(func(v pen.Verb, pts []r2.Point) {
			if v == pen.MoveVerb {
				a = pts[0]
				return
			}
			b := pts[0]
			segments++
			reach, length := half, math.Hypot(b.X-a.X, b.Y-a.Y)
			if length <= 2.01*half { // a dot: a square, looked at from its middle
				a = r2.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
				b, reach = a, half*math.Sqrt2
			}
			n := math.Ceil(length/(2*s.View.UnitsPerPx)) + 1
			for i := 0.0; i <= n; i++ {
				p := r2.Point{X: a.X + (b.X-a.X)*i/n, Y: a.Y + (b.Y-a.Y)*i/n}
				for k := range drawn {
					note(fromStrip(p, &drawn[k])-reach, drawn[k].What)
				}
				for k := range s.Labels.Boxes {
					note(fromBox(p, &s.Labels.Boxes[k])-reach, "label "+s.Labels.Boxes[k].Key)
				}
			}
		})
	}
	return least, what, segments
}

// Hatches stop 2 mm off lines and labels, so that a protractor can be laid.
// (ours) On a screen a millimetre is 96/25.4 px, on a sheet it is one.
func TestHatchesStopOffLinesAndLabels(t *testing.T) {
	const screenMM, sheetMM = 96 / 25.4, 1.0
	for _, c := range []struct {
		name     string
		w, h, mm float64
		look     draw.Look
		unitsPx  float64
	}{
		{"screen", 1000, 700, screenMM, draw.Look{}, 1},
		{"small", 700, 460, screenMM, draw.Look{Dark: true}, 1},
		{"field", 1000, 700, screenMM, draw.Look{Field: true}, 1},
		{"sheet", 257, 160, sheetMM, draw.Look{Print: true, TextScale: 1.1}, 0.3},
	} {
		check := func(name string, least int, s *draw.Scene) {
			t.Run(c.name+" "+name, func(t *testing.T) {
				s.Look, s.Show.ZonesApart = c.look, true
				s.View.UnitsPerPx = c.unitsPx
				nearest, what, segments := nearestHatch(t, s)
				require.GreaterOrEqual(t, segments, least, "there is a hatch to look at")
				assert.GreaterOrEqual(t, nearest, 2*c.mm-1e-6, "at %s", what)
			})
		}
		for _, f := range []string{"redirect.kedge", "doubled.kedge"} {
			check(f, 60, sceneOf(t, example(t, f), "R1", c.w, c.h))
		}
		for seed := range uint64(3) {
			check(fmt.Sprint("made up ", seed), 1, busyScene(t, seed, c.w, c.h))
		}
	}
}

// A hatch is still there where there is room: it is cut, not left out.
func TestHatchesFillWhatIsFree(t *testing.T) {
	s := sceneOf(t, example(t, "redirect.kedge"), "R1", 1400, 900)
	s.Labels, s.Show.ZonesApart = &draw.Labels{}, true
	var r pen.Recorder
	draw.Draw(&r, s)
	for _, m := range hatchMarks(&r) {
		least, most := math.Inf(1), math.Inf(-1)
		m.Path.Each(func(_ pen.Verb, pts []r2.Point) {
			least, most = math.Min(least, pts[0].X), math.Max(most, pts[0].X)
		})
		assert.Greater(t, most-least, 100.0, "a hatch reaches over the picture")
	}
	assert.GreaterOrEqual(t, len(hatchMarks(&r)), 3, "bight, recoil and the tree's dots")
}

// The edge of a zone is broken where a name or a figure without a frame lies on
// it: a dash between digits would be read with them.
func TestEdgesOfZonesDoNotRunThroughLetters(t *testing.T) {
	scenes := []*draw.Scene{sceneOf(t, example(t, "redirect.kedge"), "R1", 960, 760), sceneOf(t, example(t, "redirect.kedge"), "R2", 640, 500), busyScene(t, 1, 1200, 800)}
	for n, s := range scenes {
		s.Labels = &draw.Labels{}
		r := record(t, s, draw.DrawMoving)
		colours := draw.Palette(s.Look)
		pieces := 0
		for i := range r.Marks {
			m := &r.Marks[i]
			if m.Kind != pen.PathMark || m.Style.Apart || m.Style.Width != 1.5 && m.Style.Width != 1 || m.Style.Stroke != colours.ZoneRed && m.Style.Stroke != colours.ZoneOrange {
				continue
			}
			var a r2.Point
			m.Path.Each(func(v pen.Verb, pts []r2.Point) {
				if v == pen.LineVerb {
					pieces++
					for k := 1.0; k < 200; k++ {
						p := r2.Point{X: a.X + (pts[0].X-a.X)*k/200, Y: a.Y + (pts[0].Y-a.Y)*k/200}
						for _, b := range s.Labels.Boxes {
							in := p.X > b.Box.X.Lo+0.01 && p.X < b.Box.X.Hi-0.01 && p.Y > b.Box.Y.Lo+0.01 && p.Y < b.Box.Y.Hi-0.01
							assert.False(t, b.Bare && in, "scene %d: an edge runs through %s", n, b.Key)
						}
					}
				}
				a = pts[0]
			})
		}
		assert.Greater(t, pieces, 10)
	}
}
