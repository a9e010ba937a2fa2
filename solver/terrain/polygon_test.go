package terrain_test

import (
	"math"
	"testing"

	"github.com/golang/geo/r2"
	"github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/solver/plan"
	"kedge/solver/terrain"
)

// places are n to m places on a grid of quarter metres, so that lines through
// three of them, and places met twice, are common.
func places(t *rapid.T, n, m int, what string) []plan.Point {
	at := rapid.Custom(func(t *rapid.T) plan.Point {
		return plan.Point{X: float64(rapid.IntRange(-40, 40).Draw(t, "x")) / 4, Y: float64(rapid.IntRange(-40, 40).Draw(t, "y")) / 4}
	})
	return rapid.SliceOfN(at, n, m).Draw(t, what)
}

// simple is a random outline that a plan would take.
func simple(t *rapid.T, what string) []plan.Point {
	ps := rapid.Custom(func(t *rapid.T) []plan.Point { return places(t, 3, 7, "corners") }).
		Filter(func(ps []plan.Point) bool { return plan.OutlineFault(ps) == nil }).Draw(t, what)
	return ps
}

func onPicture(ps []plan.Point) []r2.Point {
	out := make([]r2.Point, len(ps))
	for i, p := range ps {
		out[i] = r2.Point(p)
	}
	return out
}

// The hull against simplefeatures: the area is the same, and every place is in it.
func TestHull(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ps := places(t, 1, 20, "places")
		seq := make([]geom.Point, len(ps))
		for i, p := range ps {
			seq[i] = geom.NewPoint(geom.Coordinates{XY: geom.XY{X: p.X, Y: p.Y}})
		}
		want := geom.NewMultiPoint(seq).AsGeometry().ConvexHull().Area()
		h := terrain.Hull(ps)
		near(t, want, terrain.Area(h), 1e-9, "area")
		if want == 0 {
			require.Nil(t, h)
			return
		}
		require.True(t, terrain.Convex(h))
		for _, p := range ps {
			require.True(t, terrain.Inside(h, p))
		}
	})
}

// Inside, Meets, Within and Overlap against simplefeatures. Quarter metres are
// exact in binary, so that nothing hangs on rounding but the millimetre of
// Overlap, which is finer than any gap on that grid: two edges of at most 28 m
// between its places are 1/16 ÷ 28 m² apart or meet.
func TestPolygonsAgainstTheLibrary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ps, qs := simple(t, "p"), simple(t, "q")
		ab := places(t, 2, 2, "segment")
		a, b := ab[0], ab[1]
		poly := polygonOf(ps).AsGeometry()
		point := geom.NewPoint(geom.Coordinates{XY: geom.XY{X: a.X, Y: a.Y}}).AsGeometry()
		segment := point
		if a != b {
			segment = geom.NewLineString(geom.NewSequence([]float64{a.X, a.Y, b.X, b.Y}, geom.DimXY)).AsGeometry()
		}
		require.Equal(t, geom.Intersects(poly, point), terrain.Inside(ps, a), "inside")
		require.Equal(t, geom.Intersects(poly, segment), terrain.Meets(ps, a, b), "meets")
		require.Equal(t, geom.Intersects(poly, polygonOf(qs).AsGeometry()), terrain.Overlap(ps, qs), "overlap")
		d, ok := geom.Distance(poly, point)
		require.True(t, ok)
		require.True(t, terrain.Within(ps, a, d+1e-9), "within")
		require.False(t, d > 1e-6 && terrain.Within(ps, a, d-1e-9), "without")
	})
}

// A picture's polygon is the ground's.
func TestPolygonsOfPictures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ps, at := simple(t, "p"), places(t, 1, 1, "place")[0]
		qs, q := onPicture(ps), r2.Point(at)
		require.Equal(t, terrain.Inside(ps, at), terrain.Inside(qs, q))
		near(t, terrain.Area(ps), terrain.Area(qs), 0)
		near(t, terrain.EdgeDistance(ps, at), terrain.EdgeDistance(qs, q), 0)
		require.Equal(t, terrain.Bounds(ps), r2.RectFromPoints(qs...))
	})
}

// The outer rings of a union, by closed forms of their areas.
func TestUnion(t *testing.T) {
	bar := func(x0, y0, x1, y1 float64) []plan.Point {
		return []plan.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
	}
	ring := [][]plan.Point{bar(0, 0, 10, 1), bar(9, 0, 10, 10), bar(0, 9, 10, 10), bar(0, 0, 1, 10)}
	for _, tt := range []struct {
		name  string
		of    [][]plan.Point
		areas []float64 // closed form
	}{
		{"one, clockwise", [][]plan.Point{reversed(bar(0, 0, 3, 2))}, []float64{6}},
		{"two that overlap", [][]plan.Point{bar(0, 0, 2, 2), bar(1, 1, 3, 3)}, []float64{7}},
		{"two apart", [][]plan.Point{bar(0, 0, 2, 2), bar(5, 0, 6, 1)}, []float64{4, 1}},
		{"a ring is its outer edge", ring, []float64{100}},
		{"what lies in a ring goes", append([][]plan.Point{bar(4, 4, 5, 5)}, ring...), []float64{100}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got, err := terrain.Union(tt.of)
			require.NoError(t, err)
			var areas []float64
			for _, r := range got {
				areas = append(areas, terrain.Area(r))
			}
			assert.InDeltaSlice(t, tt.areas, areas, 1e-9)
		})
	}
}

// A square of 2 m: closed forms.
func TestSquare(t *testing.T) {
	s := []plan.Point{{X: 1, Y: 1}, {X: 3, Y: 1}, {X: 3, Y: 3}, {X: 1, Y: 3}}
	near(t, 8, terrain.Perimeter(s), 1e-12)
	middle, r := terrain.RoundOf(s)
	assert.Equal(t, plan.Point{X: 2, Y: 2}, middle)
	near(t, 8/(2*math.Pi), float64(r), 1e-12)
	lo, hi := terrain.Span(s, r2.Point{X: math.Sqrt2 / 2, Y: math.Sqrt2 / 2})
	near(t, math.Sqrt2, lo, 1e-12)
	near(t, 3*math.Sqrt2, hi, 1e-12)
	assert.True(t, terrain.Convex(s))
	assert.False(t, terrain.Convex(reversed(s)))
	assert.False(t, terrain.Convex(cup))
	for _, n := range []int{3, 24, 72} { // the inscribed circle touches each edge
		near(t, 5, terrain.EdgeDistance(terrain.Circle(plan.Point{X: 1, Y: 2}, 5, n), plan.Point{X: 1, Y: 2}), 1e-12)
	}
	assert.True(t, terrain.Bounds([]plan.Point(nil)).IsEmpty())
	assert.False(t, terrain.Within(nil, plan.Point{}, 9))
	d, share := terrain.ToSegment(plan.Point{X: 3, Y: 4}, plan.Point{}, plan.Point{X: 6})
	near(t, 4, d, 1e-12)
	near(t, 0.5, share, 1e-12)
}
