package pen

import (
	"math"
	"testing"

	"github.com/golang/geo/r2"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func steps(p *Path) string {
	r := Recorder{}
	r.Path(p, &Style{Fill: black})
	return r.String()
}

func TestPathSteps(t *testing.T) {
	for _, c := range []struct {
		name, want string
		make       func(p *Path)
	}{
		{"line", "M1,2 L3,4", func(p *Path) { p.Line(1, 2, 3, 4) }},
		{"a line without a start starts there", "M3,4 L3,4", func(p *Path) { p.LineTo(3, 4) }},
		{"after Close a step starts at the contour's start", "M1,2 L3,4 Z M1,2 L5,6",
			func(p *Path) { p.Line(1, 2, 3, 4); p.Close(); p.LineTo(5, 6) }},
		{"closing twice is closing once", "M1,2 L3,4 Z", func(p *Path) { p.Line(1, 2, 3, 4); p.Close(); p.Close() }},
		{"rectangle", "M1,2 L4,2 L4,6 L1,6 Z", func(p *Path) { p.Rect(1, 2, 3, 4) }},
		{"no radius is a rectangle", "M1,2 L4,2 L4,6 L1,6 Z", func(p *Path) { p.RoundRect(1, 2, 3, 4, 0) }},
		{"curves", "M0,0 Q1,1 2,0 C3,1 4,1 5,0", func(p *Path) { p.MoveTo(0, 0); p.QuadTo(1, 1, 2, 0); p.CubeTo(3, 1, 4, 1, 5, 0) }},
		{"an arc joins an open contour", "M0,0 L10,0 C10,-2.652 8.946,-5.196 7.071,-7.071",
			func(p *Path) { p.MoveTo(0, 0); p.Arc(0, 0, 10, 0, 45) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			var p Path
			c.make(&p)
			require.Equal(t, "path "+c.want+" fill #000000\n", steps(&p))
			p.Reset()
			require.True(t, p.Empty())
			c.make(&p)
			require.Equal(t, "path "+c.want+" fill #000000\n", steps(&p), "after Reset")
		})
	}
}

// A point on a flattened arc is off the circle by the cubic's error, 4·10⁻⁶ of
// the radius at 45°, and by the flattening's tolerance.
func TestArcStaysOnItsCircle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		start := rapid.Float64Range(-720, 720).Draw(t, "start")
		sweep := rapid.Float64Range(-360, 360).Draw(t, "sweep")
		r := rapid.Float64Range(0.01, 1e5).Draw(t, "r")
		var p Path
		p.Arc(3, 4, r, start, sweep)
		var f flattener
		f.add(&p, Identity(), 0.01)
		for _, q := range f.pts {
			near(t, r, math.Hypot(q.X-3, q.Y-4), r*5e-6)
		}
		last := f.pts[len(f.pts)-1]
		end := (start + sweep) * math.Pi / 180
		near(t, 3+r*math.Cos(end), last.X, r*1e-9)
		near(t, 4-r*math.Sin(end), last.Y, r*1e-9) // counter-clockwise as seen, y down
	})
}

func TestAffine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string) float64 { return rapid.Float64Range(-100, 100).Draw(t, name) }
		m := Affine{f("a"), f("b"), f("c"), f("d"), f("e"), f("f")}
		n := ScaleMove(2, f("dx"), f("dy"))
		p := r2.Point{X: f("x"), Y: f("y")}
		want, got := m.Apply(n.Apply(p)), m.After(n).Apply(p)
		near(t, want.X, got.X, 1e-8)
		near(t, want.Y, got.Y, 1e-8)
		if det := m.A*m.D - m.B*m.C; math.Abs(det) > 1 {
			back, ok := m.invert()
			require.True(t, ok)
			got = back.Apply(m.Apply(p))
			near(t, p.X, got.X, 1e-6)
			near(t, p.Y, got.Y, 1e-6)
		}
	})
	_, ok := Affine{A: 1, C: 1}.invert()
	require.False(t, ok)
}

func TestBoxAffineCorners(t *testing.T) {
	// A picture of 200×100 pixels in a box of 20×10 at (30, 40).
	upright := BoxAffine(200, 100, 30, 40, 20, 10, 0)
	require.Equal(t, r2.Point{X: 30, Y: 40}, upright.Apply(r2.Point{}))
	require.Equal(t, r2.Point{X: 50, Y: 50}, upright.Apply(r2.Point{X: 200, Y: 100}))
	// A quarter turn counter-clockwise about the centre (40, 45) brings the top
	// left corner, 10 left of it and 5 above, to 5 left and 10 below.
	turned := BoxAffine(200, 100, 30, 40, 20, 10, 90)
	got := turned.Apply(r2.Point{})
	near(t, 35, got.X, 1e-12)
	near(t, 55, got.Y, 1e-12)
}

func TestBounds(t *testing.T) {
	var p Path
	require.True(t, p.Bounds().IsEmpty())
	p.Circle(10, 20, 5)
	box := p.Bounds()
	require.False(t, box.IsEmpty())
	require.LessOrEqual(t, box.X.Lo, 5.0)
	require.GreaterOrEqual(t, box.Y.Hi, 25.0)
	p.LineTo(math.Inf(1), 0)
	require.True(t, p.Bounds().IsEmpty())
}

func TestUprightRectangleIsRecognised(t *testing.T) {
	var p Path
	p.Rect(1, 2, 3, 4)
	require.True(t, p.rect())
	p.Reset()
	p.Polygon(r2.Point{X: 0, Y: 0}, r2.Point{X: 5, Y: 1}, r2.Point{X: 5, Y: 5}, r2.Point{X: 0, Y: 5})
	require.False(t, p.rect())
	p.Reset()
	p.Polygon(r2.Point{X: 0, Y: 0}, r2.Point{X: 5, Y: 5}, r2.Point{X: 5, Y: 0}, r2.Point{X: 0, Y: 5}) // crossed
	require.False(t, p.rect())
}

func TestShortNumbers(t *testing.T) {
	for v, want := range map[float64]string{0: "0", -0.0001: "0", 1: "1", -1.5: "-1.5", 100: "100", 0.0005: "0.001", 1234.5678: "1234.568", -20: "-20"} {
		require.Equal(t, want, short(v))
	}
}
