package pen

import (
	"math"
	"testing"

	"kedge/solver/quantity"

	"github.com/golang/geo/r2"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

var everywhereLo, everywhereHi = r2.Point{X: -1e9, Y: -1e9}, r2.Point{X: 1e9, Y: 1e9}

// contours splits a path of straight steps.
func contoursOf(p *Path) (all [][]r2.Point) {
	p.Each(func(v Verb, pts []r2.Point) {
		switch v {
		case MoveVerb:
			all = append(all, append([]r2.Point(nil), pts...))
		case LineVerb:
			all[len(all)-1] = append(all[len(all)-1], pts...)
		}
	})
	return all
}

func TestHatchOfARectangle(t *testing.T) {
	var box Path
	box.Rect(0, 0, 100, 50)
	h := Hatch{Colour: red, Spacing: 10, Width: 1, OriginY: 5}
	var got Path
	new(hatcher).add(&got, &box, &h, everywhereLo, everywhereHi)
	// Level lines at 5, 15 … 45, from side to side.
	lines := contoursOf(&got)
	require.Len(t, lines, 5)
	for i, l := range lines {
		require.Len(t, l, 2)
		near(t, 5+10*float64(i), l[0].Y, 1e-9)
		near(t, 0, math.Min(l[0].X, l[1].X), 1e-9)
		near(t, 100, math.Max(l[0].X, l[1].X), 1e-9)
	}
}

func TestHatchLeavesHolesAndBounds(t *testing.T) {
	var ring Path
	ring.Rect(0, 0, 90, 90)
	ring.Polygon(r2.Point{X: 30, Y: 30}, r2.Point{X: 30, Y: 60}, r2.Point{X: 60, Y: 60}, r2.Point{X: 60, Y: 30}) // the other way round
	h := Hatch{Colour: red, Spacing: 10, Width: 1, OriginY: 5}
	var got Path
	new(hatcher).add(&got, &ring, &h, everywhereLo, everywhereHi)
	var length float64
	for _, l := range contoursOf(&got) {
		length += math.Hypot(l[1].X-l[0].X, l[1].Y-l[0].Y)
	}
	near(t, 9*90-3*30, length, 1e-6) // nine lines, three of them with the hole's 30 missing
	got.Reset()
	new(hatcher).add(&got, &ring, &h, r2.Point{X: 0, Y: 0}, r2.Point{X: 20, Y: 20})
	lines := contoursOf(&got)
	require.Len(t, lines, 2) // at 5 and 15
	for _, l := range lines {
		require.LessOrEqual(t, math.Max(l[0].X, l[1].X), 21.0+1e-9) // bound and a line's width
	}
}

// Whatever the angle, lines of spacing s have the total length area/s, up to
// what one line more or less, of the outline's longest chord, makes.
func TestHatchLengthIsAreaBySpacing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := Hatch{Colour: red, Width: 0.1,
			AngleDeg: rapid.Float64Range(-400, 400).Draw(t, "angle"),
			Spacing:  rapid.Float64Range(0.5, 3).Draw(t, "spacing"),
			OriginX:  rapid.Float64Range(-1000, 1000).Draw(t, "ox"),
			OriginY:  rapid.Float64Range(-1000, 1000).Draw(t, "oy")}
		const r = 40.0
		var disc, got Path
		disc.Circle(7, 9, r)
		new(hatcher).add(&got, &disc, &h, everywhereLo, everywhereHi)
		var length float64
		sin, cos := quantity.Degrees(h.AngleDeg).SinCos()
		for _, l := range contoursOf(&got) {
			for _, q := range l {
				require.LessOrEqual(t, math.Hypot(q.X-7, q.Y-9), r+h.Spacing/50)
			}
			dx, dy := l[1].X-l[0].X, l[1].Y-l[0].Y
			length += math.Hypot(dx, dy)
			near(t, 0, dx*sin+dy*cos, 1e-6) // along the angle, counter-clockwise as seen
		}
		near(t, math.Pi*r*r/h.Spacing, length, 2*r)
	})
}

func TestDots(t *testing.T) {
	var box, got Path
	box.Rect(0, 0, 100, 100)
	h := Hatch{Colour: red, Spacing: 10, Width: 2, Dots: true, OriginX: 5, OriginY: 5}
	new(hatcher).add(&got, &box, &h, everywhereLo, everywhereHi)
	// Ten rows from 5 to 95: ten dots at 5, 15 … in the five unshifted rows,
	// eleven at 0, 10 … 100 in the others.
	dots := contoursOf(&got)
	require.Len(t, dots, 5*10+5*11)
	var area float64
	d := dots[0]
	for i, p := range d {
		q := d[(i+1)%len(d)]
		area += (p.X*q.Y - q.X*p.Y) / 2
	}
	near(t, math.Pi, math.Abs(area), 1e-9) // π(d/2)²
}

func TestHatchTooFineIsThinnedOut(t *testing.T) {
	var box, got Path
	box.Rect(0, 0, 1e6, 1e6)
	new(hatcher).add(&got, &box, &Hatch{Colour: red, Spacing: 0.01, Width: 1}, everywhereLo, everywhereHi)
	n := len(contoursOf(&got))
	require.Greater(t, n, maxHatchRows/4)
	require.LessOrEqual(t, n, maxHatchRows+1)
}

func TestPensGetTheSameHatch(t *testing.T) {
	var zone, want Path
	zone.Circle(50, 50, 30)
	h := Hatch{Colour: red, AngleDeg: 45, Spacing: 5, Width: 1}
	new(hatcher).add(&want, &zone, &h, everywhereLo, everywhereHi)
	var r Recorder
	r.Path(&zone, &Style{Fill: tint, Hatch: h, Stroke: ink, Width: 1})
	require.Len(t, r.Marks, 3) // fill, hatch, edge
	require.Equal(t, tint, r.Marks[0].Style.Fill)
	require.Equal(t, want.pts, r.Marks[1].Path.pts)
	require.Equal(t, Style{Stroke: red, Width: 1, Apart: true}, r.Marks[1].Style)
	require.Equal(t, ink, r.Marks[2].Style.Stroke)
	require.Zero(t, r.Marks[2].Style.Fill.A)
}
