package terrain_test

import (
	"math"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/solver/plan"
	"kedge/solver/terrain"
)

// near fails on NaN, which InDelta lets pass when both are.
func near(t require.TestingT, want, got, delta float64, about ...any) {
	if !(math.Abs(want-got) <= delta) {
		assert.Fail(t, "not near", "want %v, got %v, within %v; %v", want, got, delta, about)
	}
}

// The corners of Boulder 1, the fairlead, the casualty's front point, the block
// as it settles: storyboard A, steps 5, 7, 12 and 15 of the design.
var (
	boulder  = []plan.Point{{X: 16.5, Y: 6.5}, {X: 19, Y: 6}, {X: 21, Y: 7.5}, {X: 20.5, Y: 10}, {X: 18, Y: 11}, {X: 16, Y: 9}}
	fairlead = plan.Point{X: 29.95, Y: 7.60}
	front    = plan.Point{X: 8.1, Y: 8.5}
	block    = plan.Point{X: 23.75, Y: 18.43}
)

// seen is where the segment a–b meets s, whatever the heights.
func seen(s *terrain.Shape, a, b plan.Point) terrain.Contact {
	return s.Bears(&terrain.Flat, r3.Vector{X: a.X, Y: a.Y}, r3.Vector{X: b.X, Y: b.Y})
}

func reversed(ps []plan.Point) []plan.Point {
	var r []plan.Point
	for i := range ps {
		r = append(r, ps[len(ps)-1-i])
	}
	return r
}

func TestStoryboardLineBearsOnBoulder(t *testing.T) {
	for name, corners := range map[string][]plan.Point{"counter-clockwise": boulder, "clockwise": reversed(boulder)} {
		t.Run(name, func(t *testing.T) {
			s := terrain.Outline(corners)
			c := seen(&s, fairlead, front)
			require.True(t, c.Touches)
			// storyboard A, step 12; 1 % by its head, 5 cm where it gives one decimal
			near(t, 21.87, math.Hypot(fairlead.X-front.X, fairlead.Y-front.Y), 0.01*21.87)
			near(t, 4.74, float64(c.Length), 0.01*4.74)
			near(t, 9.1, float64(c.From), 0.05)
			near(t, 13.8, float64(c.To), 0.05)
			near(t, 0, s.Distance(fairlead, front, math.Inf(1)), 0)
		})
	}
}

func TestStoryboardRedirectPassesBoulder(t *testing.T) {
	s := terrain.Outline(boulder)
	require.False(t, seen(&s, fairlead, block).Touches)
	require.False(t, seen(&s, block, front).Touches)
	least := min(s.Distance(fairlead, block, math.Inf(1)), s.Distance(block, front, math.Inf(1)))
	near(t, 3.19, least, 0.01*3.19) // storyboard A, step 15
	near(t, 18.54, math.Hypot(block.X-front.X, block.Y-front.Y), 0.01*18.54)
	near(t, 12.48, math.Hypot(block.X-fairlead.X, block.Y-fairlead.Y), 0.01*12.48)
}

// A square 2 m by 2 m about (5, 0) and a U open to the north, closed forms.
var (
	square = []plan.Point{{X: 4, Y: -1}, {X: 6, Y: -1}, {X: 6, Y: 1}, {X: 4, Y: 1}}
	cup    = []plan.Point{{X: 0, Y: 0}, {X: 6, Y: 0}, {X: 6, Y: 4}, {X: 4, Y: 4}, {X: 4, Y: 2}, {X: 2, Y: 2}, {X: 2, Y: 4}, {X: 0, Y: 4}}
)

func TestContactClosedForms(t *testing.T) {
	type pt = plan.Point
	tests := []struct {
		name             string
		corners          []plan.Point
		a, b             plan.Point
		touches          bool
		from, to, length float64
	}{
		{"through the middle", square, pt{X: 0}, pt{X: 10}, true, 4, 6, 2},
		{"ends inside", square, pt{X: 0}, pt{X: 5}, true, 4, 5, 1},
		{"begins inside", square, pt{X: 5}, pt{X: 10}, true, 0, 1, 1},
		{"wholly inside", square, pt{X: 4.5}, pt{X: 5.5}, true, 0, 1, 1},
		{"stops short", square, pt{X: 0}, pt{X: 3.9}, false, 0, 0, 0},
		{"passes by", square, pt{Y: 1.01}, pt{X: 10, Y: 1.01}, false, 0, 0, 0},
		{"along the far edge", square, pt{Y: 1}, pt{X: 10, Y: 1}, true, 4, 6, 2},
		{"along the near edge", square, pt{Y: -1}, pt{X: 10, Y: -1}, true, 4, 6, 2},
		{"along the edge, backwards", square, pt{X: 10, Y: 1}, pt{Y: 1}, true, 4, 6, 2},
		{"a corner touched", square, pt{X: 3, Y: 0}, pt{X: 5, Y: 2}, true, math.Sqrt2, math.Sqrt2, 0},
		{"ends on the edge", square, pt{X: 0}, pt{X: 4}, true, 4, 4, 0},
		{"over both arms of a cup", cup, pt{X: -1, Y: 3}, pt{X: 7, Y: 3}, true, 1, 7, 4},
		{"along the floor of a cup", cup, pt{X: -1, Y: 2}, pt{X: 7, Y: 2}, true, 1, 7, 6},
		{"in the mouth of a cup", cup, pt{X: 3, Y: 5}, pt{X: 3, Y: 2.5}, false, 0, 0, 0},
		{"one place, inside", square, pt{X: 5}, pt{X: 5}, true, 0, 0, 0},
		{"one place, outside", square, pt{X: 9}, pt{X: 9}, false, 0, 0, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			for _, corners := range [][]plan.Point{tt.corners, reversed(tt.corners)} {
				s := terrain.Outline(corners)
				c := seen(&s, tt.a, tt.b)
				require.Equal(t, tt.touches, c.Touches)
				near(t, tt.from, float64(c.From), 1e-3) // the width at which it touches
				near(t, tt.to, float64(c.To), 1e-3)
				if tt.name != "along the floor of a cup" { // 4 or 6 m: the floor's edge is touched, not crossed
					near(t, tt.length, float64(c.Length), 1e-3)
				}
				assert.Equal(t, tt.touches, s.Distance(tt.a, tt.b, math.Inf(1)) == 0)
			}
		})
	}
}

func TestBearsByHeight(t *testing.T) {
	tests := []struct {
		name           string
		heightM        float64
		za, zb         float64
		touches, over  bool
		from, to       float64
		slopeDeg, fall float64
	}{
		// closed forms: the line runs from x = 0 to 10 over the square at x 4 to 6
		{"height not known: as high as the line", 0, 5, 5, true, false, 4, 6, 0, 0},
		{"lower than the obstacle", 1, 0.9, 0.9, true, false, 4, 6, 0, 0},
		{"5 cm over it still bears", 1, 1.05, 1.05, true, false, 4, 6, 0, 0},
		{"11 cm over it passes", 1, 1.11, 1.11, false, true, 4, 6, 0, 0},
		{"rises out of reach half way", 0.9, 0.5, 1.5, true, false, 4, 5, 0, 0}, // 0.5 + 0.1·x = 1.0 at x = 5
		{"comes down into reach half way", 0.9, 1.5, 0.5, true, false, 5, 6, 0, 0},
		{"low only beyond it", 0.9, 3.5, 0.5, false, true, 4, 6, 0, 0}, // 1.7 m at x = 6
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := terrain.NewShape(&plan.Obstacle{Outline: square})
			s.HeightM = tt.heightM
			c := s.Bears(&terrain.Flat, r3.Vector{Z: tt.za}, r3.Vector{X: 10, Z: tt.zb})
			require.Equal(t, tt.touches, c.Touches)
			require.Equal(t, tt.over, c.Over)
			scale := math.Hypot(10, tt.zb-tt.za) / 10 // along the line, not along the ground
			near(t, tt.from*scale, float64(c.From), 1e-9)
			near(t, tt.to*scale, float64(c.To), 1e-9)
		})
	}
	t.Run("on a slope heights are above the slope", func(t *testing.T) {
		g, err := terrain.NewGround(plan.Ground{Slope: deg(20), Downhill: deg(270)}) // rises to the east
		require.NoError(t, err)
		s := terrain.NewShape(&plan.Obstacle{Outline: square, Height: 1})
		a, b := g.Lift(plan.Point{X: 0}, 0.8), g.Lift(plan.Point{X: 10}, 0.8)
		require.True(t, s.Bears(&g, a, b).Touches)
		a, b = g.Lift(plan.Point{X: 0}, 1.2), g.Lift(plan.Point{X: 10}, 1.2)
		require.False(t, s.Bears(&g, a, b).Touches)
	})
}

func TestPointsAndDistances(t *testing.T) {
	s := terrain.Outline(cup)
	for _, tt := range []struct { // closed forms
		name   string
		p      plan.Point
		inside bool
		dist   float64
	}{
		{"in an arm", plan.Point{X: 1, Y: 3}, true, 0},
		{"in the mouth", plan.Point{X: 3, Y: 3}, false, 1},
		{"on an edge", plan.Point{X: 3, Y: 2}, true, 0},
		{"on a corner", plan.Point{X: 4, Y: 4}, true, 0},
		{"level with a corner, outside", plan.Point{X: -3, Y: 4}, false, 3},
		{"off a corner", plan.Point{X: 9, Y: 8}, false, 5},
	} {
		t.Run(tt.name, func(t *testing.T) {
			assert.Equal(t, tt.inside, s.Inside(tt.p))
			near(t, tt.dist, s.Distance(tt.p, tt.p, math.Inf(1)), 1e-12)
		})
	}
	near(t, 24-4, terrain.Area(cup), 1e-12)
	near(t, -20, terrain.Area(reversed(cup)), 1e-12)

	none := terrain.Outline(nil)
	assert.False(t, none.Inside(plan.Point{}))
	assert.False(t, seen(&none, fairlead, front).Touches)
	assert.True(t, math.IsInf(none.Distance(fairlead, front, math.Inf(1)), 1))
}

func TestTrunk(t *testing.T) {
	c := plan.Point{X: 5, Y: 0}
	// closed forms: chord of a circle of 0.5 m, 0.3 m off its middle is 0.8 m
	got := terrain.TrunkContact(plan.Point{Y: 0.3}, plan.Point{X: 10, Y: 0.3}, c, 0.5)
	require.True(t, got.Touches)
	near(t, 4.6, float64(got.From), 1e-12)
	near(t, 0.8, float64(got.Length), 1e-12)
	require.False(t, terrain.TrunkContact(plan.Point{Y: 0.51}, plan.Point{X: 10, Y: 0.51}, c, 0.5).Touches)
	require.False(t, terrain.TrunkContact(plan.Point{}, plan.Point{X: 4.4}, c, 0.5).Touches)
	near(t, 0.5, terrain.TrunkDistance(plan.Point{Y: 1}, plan.Point{X: 10, Y: 1}, c, 0.5), 1e-12)
	near(t, 0, terrain.TrunkDistance(plan.Point{}, plan.Point{X: 10}, c, 0.5), 0)
}

// star draws a simple polygon: corners round a middle at rising angles.
func star(t *rapid.T, offset float64) []plan.Point {
	n := rapid.IntRange(3, 12).Draw(t, "corners")
	var ps []plan.Point
	for i := range n {
		r := rapid.Float64Range(0.5, 6).Draw(t, "r")
		a := (float64(i) + rapid.Float64Range(0, 0.8).Draw(t, "a")) * 2 * math.Pi / float64(n)
		ps = append(ps, plan.Point{X: offset + r*math.Cos(a), Y: offset + r*math.Sin(a)})
	}
	if rapid.Bool().Draw(t, "clockwise") {
		return reversed(ps)
	}
	return ps
}

func polygonOf(ps []plan.Point) geom.Polygon {
	var xy []float64
	for i := range len(ps) + 1 {
		xy = append(xy, ps[i%len(ps)].X, ps[i%len(ps)].Y)
	}
	return geom.NewPolygon([]geom.LineString{geom.NewLineString(geom.NewSequence(xy, geom.DimXY))})
}

// The polygon library is the oracle for length inside and least distance.
func TestContactAgainstPolygonLibrary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		offset := rapid.SampledFrom([]float64{0, 5e5}).Draw(t, "offset") // near, and grid coordinates
		ps := star(t, offset)
		coord := rapid.Float64Range(-9, 9)
		a := plan.Point{X: offset + coord.Draw(t, "ax"), Y: offset + coord.Draw(t, "ay")}
		b := plan.Point{X: offset + coord.Draw(t, "bx"), Y: offset + coord.Draw(t, "by")}
		if math.Hypot(b.X-a.X, b.Y-a.Y) < 0.01 {
			t.Skip("no line")
		}
		poly := polygonOf(ps)
		if poly.Validate() != nil {
			t.Skip("crosses itself")
		}
		require.Nil(t, plan.OutlineFault(ps))
		line := geom.NewLineString(geom.NewSequence([]float64{a.X, a.Y, b.X, b.Y}, geom.DimXY))
		s := terrain.Outline(ps)
		c := seen(&s, a, b)
		dist, ok := geom.Distance(poly.AsGeometry(), line.AsGeometry())
		require.True(t, ok)
		cut, err := geom.Intersection(poly.AsGeometry(), line.AsGeometry())
		if err != nil {
			t.Skip("the library cannot cut it")
		}
		near(t, cut.Length(), float64(c.Length), 2.1e-3, "length inside") // touch at either end
		near(t, dist, s.Distance(a, b, math.Inf(1)), 1.1e-3, "distance")  // touch
		if dist > 0.002 {
			require.False(t, c.Touches)
		}
		if cut.Length() > 0.002 {
			require.True(t, c.Touches)
			require.LessOrEqual(t, float64(c.Length), float64(c.To-c.From)+1e-9)
		}
		back := seen(&s, b, a)
		near(t, float64(c.Length), float64(back.Length), 2.1e-3, "both ways")
		p := a
		near(t, map[bool]float64{true: 1}[geom.Intersects(poly.AsGeometry(), geom.NewPoint(geom.Coordinates{XY: geom.XY{X: p.X, Y: p.Y}}).AsGeometry())],
			map[bool]float64{true: 1}[s.Inside(p)], 0, "inside")
		most := rapid.Float64Range(0, 20).Draw(t, "atMost")
		if d := s.Distance(a, b, math.Inf(1)); d < most {
			near(t, d, s.Distance(a, b, most), 0, "atMost")
		} else {
			require.GreaterOrEqual(t, s.Distance(a, b, most), most)
		}
	})
}

// On a grid of half metres lines run through corners and along edges all the
// time: whether they touch must still be told.
func TestTouchOnGridAgainstPolygonLibrary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		half := rapid.Custom(func(t *rapid.T) float64 { return float64(rapid.IntRange(-8, 8).Draw(t, "halves")) / 2 })
		var ps []plan.Point
		for range rapid.IntRange(3, 7).Draw(t, "corners") {
			ps = append(ps, plan.Point{X: half.Draw(t, "x"), Y: half.Draw(t, "y")})
		}
		simple := polygonOf(ps).Validate() == nil
		if plan.OutlineFault(ps) != nil {
			t.Skip("no outline")
		}
		require.True(t, simple, "the library agrees on what an outline is")
		a, b := plan.Point{X: half.Draw(t, "ax"), Y: half.Draw(t, "ay")}, plan.Point{X: half.Draw(t, "bx"), Y: half.Draw(t, "by")}
		if a == b {
			t.Skip("no line")
		}
		line := geom.NewLineString(geom.NewSequence([]float64{a.X, a.Y, b.X, b.Y}, geom.DimXY)).AsGeometry()
		dist, ok := geom.Distance(polygonOf(ps).AsGeometry(), line)
		require.True(t, ok)
		s := terrain.Outline(ps)
		require.Equal(t, dist == 0, seen(&s, a, b).Touches)
		near(t, dist, s.Distance(a, b, math.Inf(1)), 1e-9)
		require.Equal(t, geom.Intersects(polygonOf(ps).AsGeometry(), geom.NewPoint(geom.Coordinates{XY: geom.XY{X: a.X, Y: a.Y}}).AsGeometry()), s.Inside(a))
	})
}

func BenchmarkContactFar(b *testing.B) {
	s := terrain.Outline(boulder)
	b.ReportAllocs()
	for b.Loop() {
		if seen(&s, plan.Point{X: 0, Y: 20}, plan.Point{X: 30, Y: 20}).Touches {
			b.Fatal("touches")
		}
	}
}

func BenchmarkContactCrossing(b *testing.B) {
	s := terrain.Outline(boulder)
	b.ReportAllocs()
	for b.Loop() {
		if !seen(&s, fairlead, front).Touches {
			b.Fatal("does not touch")
		}
	}
}

func BenchmarkDistanceNear(b *testing.B) {
	s := terrain.Outline(boulder)
	b.ReportAllocs()
	for b.Loop() {
		if s.Distance(fairlead, block, math.Inf(1)) == 0 {
			b.Fatal("touches")
		}
	}
}

func BenchmarkDistanceFarther(b *testing.B) {
	s := terrain.Outline(boulder)
	b.ReportAllocs()
	for b.Loop() {
		if s.Distance(plan.Point{X: 0, Y: 20}, plan.Point{X: 30, Y: 20}, 3) < 3 {
			b.Fatal("nearer")
		}
	}
}
