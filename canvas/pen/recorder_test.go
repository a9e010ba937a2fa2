package pen

import (
	"math"
	"strings"
	"testing"

	"github.com/golang/geo/r2"
	"github.com/stretchr/testify/require"
)

func TestRecorderListsPrimitives(t *testing.T) {
	var r Recorder
	var p Path
	p.Line(0, 0, 10, 5)
	r.Path(&p, &Style{Stroke: ink, Width: 2, Dash: []float64{4, 2}, Cap: RoundCap})
	r.Path(&p, &Style{}) // draws nothing
	p.Reset()
	ClipRect(&r, 0, 0, 5, 5)
	r.Text(1, 2, "12 kN", &TextStyle{Size: 3, Bold: true, Colour: red, Anchor: End, RotateDeg: 45})
	r.PopClip()
	ImageBox(&r, checker(), 0, 0, 4, 2, 0, 0.5)
	require.Equal(t, strings.Join([]string{
		"path M0,0 L10,5 stroke #202428 width 2 cap 1 join 0 dash 4 2 from 0",
		"clip M0,0 L5,0 L5,5 L0,5 Z",
		`text 1 2 "12 kN" size 3 #9b2423 bold end turned 45`,
		"unclip",
		"image (8,8) by 0.5 0 0 0.25 0 0 alpha 0.5",
		"",
	}, "\n"), r.String())
	require.Equal(t, []string{"12 kN"}, r.Texts())
	require.NoError(t, r.Err())
}

func TestAtScalesEverything(t *testing.T) {
	draw := func(p Pen, k, dx, dy float64) {
		var q Path
		q.Line(dx+1*k, dy+2*k, dx+3*k, dy+4*k)
		p.Path(&q, &Style{Stroke: ink, Width: 0.5 * k, Dash: []float64{1 * k, 2 * k}, DashOffset: k,
			Hatch: Hatch{Colour: red, Spacing: 1 * k, Width: 0.1 * k, OriginX: dx, OriginY: dy}})
		q.Reset()
		q.Rect(dx, dy, 10*k, 10*k)
		p.Path(&q, &Style{Hatch: Hatch{Colour: red, Spacing: 3 * k, Width: 0.1 * k, OriginX: dx, OriginY: dy}})
		ClipRect(p, dx, dy, 5*k, 5*k)
		p.Text(dx+k, dy+k, "x", &TextStyle{Size: 2 * k, Colour: ink, Halo: paper, HaloWidth: k})
		p.Image(checker(), ScaleMove(k, dx, dy), 1)
		p.PopClip()
	}
	var want, got Recorder
	draw(&want, 2.5, 20, 30)
	draw(At(&got, 2.5, 20, 30), 1, 0, 0)
	require.Equal(t, want.String(), got.String())
	require.Equal(t, want.Marks[len(want.Marks)-3].Type, got.Marks[len(got.Marks)-3].Type)
}

// What is not finite is left out whole and said, on every pen.
func TestNothingNotFiniteIsDrawn(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	bad := map[string]func(p Pen){
		"path NaN": func(p Pen) {
			var q Path
			q.Polyline(r2.Point{X: 1, Y: 1}, r2.Point{X: 50, Y: nan}, r2.Point{X: 9, Y: 9})
			p.Path(&q, &Style{Stroke: ink, Width: 1})
		},
		"path infinite": func(p Pen) { var q Path; q.Line(1, 1, inf, 1); p.Path(&q, &Style{Stroke: ink, Width: 1}) },
		"arc NaN":       func(p Pen) { var q Path; q.Arc(1, 1, 5, 0, nan); p.Path(&q, &Style{Stroke: ink, Width: 1}) },
		"text place":    func(p Pen) { p.Text(nan, 0, "x", &TextStyle{Size: 10, Colour: ink}) },
		"text size":     func(p Pen) { p.Text(10, 10, "x", &TextStyle{Size: inf, Colour: ink}) },
		"text angle":    func(p Pen) { p.Text(10, 10, "x", &TextStyle{Size: 10, RotateDeg: nan, Colour: ink}) },
		"image":         func(p Pen) { p.Image(checker(), Affine{A: nan, D: 1}, 1) },
	}
	for name, draw := range bad {
		t.Run(name, func(t *testing.T) {
			var rec Recorder
			draw(&rec)
			require.ErrorIs(t, rec.Err(), ErrNotFinite)
			require.Empty(t, rec.Marks)

			img, white := newWhite(60), newWhite(60)
			r := NewRaster(img, 1)
			draw(r)
			require.ErrorIs(t, r.Flush(), ErrNotFinite)
			require.Equal(t, white.Pix, img.Pix)

			pdf := NewPDF(About{})
			pdf.NewPage(60, 60)
			draw(pdf)
			_, err := pdf.Bytes()
			require.ErrorIs(t, err, ErrNotFinite)

			svg := NewSVG(60, 60)
			draw(svg)
			_, err = svg.WriteTo(&strings.Builder{})
			require.ErrorIs(t, err, ErrNotFinite)
		})
	}
}
