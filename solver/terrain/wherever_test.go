package terrain_test

import (
	"math"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/facts"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// motion turns a site by an angle, against the clock, and then shifts it.
type motion struct{ deg, x, y float64 }

func (m motion) point(p plan.Point) plan.Point {
	s, c := math.Sincos(m.deg * math.Pi / 180)
	return plan.Point{X: m.x + c*p.X - s*p.Y, Y: m.y + s*p.X + c*p.Y}
}

func (m motion) line(l terrain.Line) terrain.Line {
	a, b := m.point(plan.Point{X: l.A.X, Y: l.A.Y}), m.point(plan.Point{X: l.B.X, Y: l.B.Y})
	l.A, l.B = r3.Vector{X: a.X, Y: a.Y, Z: l.A.Z}, r3.Vector{X: b.X, Y: b.Y, Z: l.B.Z}
	return l
}

func (m motion) site(s plan.Site) (out plan.Site) {
	for _, o := range s.Obstacles {
		var outline []plan.Point
		for _, p := range o.Outline {
			outline = append(outline, m.point(p))
		}
		o.Outline = outline
		out.Obstacles = append(out.Obstacles, o)
	}
	for _, v := range s.Vehicles {
		v.At, v.Bearing = m.point(v.At), (v.Bearing - quantity.Degrees(m.deg)).Normal()
		out.Vehicles = append(out.Vehicles, v)
	}
	for _, a := range s.Anchors {
		a.At = m.point(a.At)
		out.Anchors = append(out.Anchors, a)
	}
	return out
}

// wherever is what a line does at a body: a line and what it is fast to.
var wherever = func() (all []struct {
	site plan.Site
	line terrain.Line
}) {
	unmeasured, lying := carAt(5, 0), carAt(5, 0)
	unmeasured.Length = 0
	lying.Stuck = &plan.Stuck{Overturned: true}
	tree := func(trunk quantity.Length) plan.Site {
		return plan.Site{Anchors: []plan.Anchor{{Head: plan.Head{ID: "T1"}, Kind: plan.AnchorTree, At: plan.Point{X: 5}, Trunk: trunk}}}
	}
	sites := []plan.Site{
		{Vehicles: []plan.Vehicle{carAt(5, 0)}}, {Vehicles: []plan.Vehicle{unmeasured}}, {Vehicles: []plan.Vehicle{lying}},
		{Obstacles: []plan.Obstacle{{Head: plan.Head{ID: "O1"}, Outline: square, Height: 1}}}, tree(0.4), tree(0),
	}
	lines := [][4]float64{ // from x; y to x; y
		{0, 0, 10, 0}, {5.1, -9, 5.1, 9}, {4.9, -9, 4.9, 9}, {-3, 0.15, 20, 0.15}, {-3, -0.15, 20, -0.15}, {5.05, 0.1, 5.15, 0.02}, {5.1995, -9, 5.1995, 9},
		{0, 3, 10, 3}, {8, -5, 8, 5}, {1, 1, 9, -1}, {0, -6, 2.5, 6}, {6.7, 0, 17, 17}, {6.7, 0, 9, 20}, {5.3, 0.1, -20, 3}, {5.3, 0.1, 20, -3}, {4.6, -0.3, 20, 5}, {4.6, -0.3, -20, 5},
		{5.97, 0.8, 5.97, 20}, {5.97, 0.8, 5.97, -20}, {5.5, 5, 5.5, 20}, {5.5, 0.9, -20, 7},
		// half a millimetre short of an edge, past a corner, along an edge: touching
		{0, 0.3, 3.9995, 0.3}, {0, 0.3, 2.9995, 0.3}, {4, 3.0007, 8, -0.9993}, {5, 3.0007, 9, -0.9993}, {0, 1.0005, 10, 1.0005}, {5, 1.0005, 10, 1.0005},
		// and a millimetre and a half: not
		{0, 0.3, 3.9985, 0.3}, {4, 3.0021, 8, -0.9979}, {0, 1.0015, 10, 1.0015},
	}
	for _, s := range sites {
		for _, l := range lines {
			for _, id := range []plan.ID{"", "V1", "O1", "T1"} {
				for _, z := range [][2]float64{{0.6, 0.6}, {0.2, 2.4}, {1.8, 3}} {
					all = append(all, struct {
						site plan.Site
						line terrain.Line
					}{s, terrain.Line{A: r3.Vector{X: l[0], Y: l[1], Z: z[0]}, B: r3.Vector{X: l[2], Y: l[3], Z: z[1]}, Ends: [2]plan.ID{id}}})
				}
			}
		}
	}
	return all
}()

// Where a line bears, how far beside it passes and whether that can be told hang on
// how line and body lie to each other, not on where or which way round they lie; from
// its other end a line bears as far from that.
func TestWhereverItStands(t *testing.T) {
	touched, over, open := 0, 0, 0
	for i, c := range wherever {
		b := body(t, c.site)
		want := b.Bears(&terrain.Flat, &c.line)
		clear, unmeasured := b.Clear(&c.line, math.Inf(1)), b.Unmeasured(&c.line)
		if want.Touches {
			touched++
		}
		if want.Over {
			over++
		}
		if unmeasured {
			open++
		}
		for _, m := range []motion{{0, 300, -200}, {90, 0, 0}, {180, -50, 20}, {270, 7, 7}, {37, 0, 0}, {-128, 40, -90}} {
			site, line := m.site(c.site), m.line(c.line)
			b := body(t, site)
			same := func(got terrain.Contact, from, to quantity.Length) {
				require.Equal(t, [2]bool{want.Touches, want.Over}, [2]bool{got.Touches, got.Over}, "%d, %v", i, m)
				require.InDelta(t, float64(from), float64(got.From), 1e-7, "%d, %v", i, m)
				require.InDelta(t, float64(to), float64(got.To), 1e-7, "%d, %v", i, m)
				require.InDelta(t, float64(want.Length), float64(got.Length), 1e-7, "%d, %v", i, m)
				require.InDelta(t, want.OverM, got.OverM, 1e-7, "%d, %v", i, m)
			}
			same(b.Bears(&terrain.Flat, &line), want.From, want.To)
			back := terrain.Line{A: line.B, B: line.A, Ends: line.Ends}
			if long := quantity.Length(line.B.Sub(line.A).Norm()); want.Touches || want.Over {
				same(b.Bears(&terrain.Flat, &back), long-want.To, long-want.From)
			}
			require.InDelta(t, clear, b.Clear(&line, math.Inf(1)), 1e-9, "%d, %v", i, m)
			require.Equal(t, unmeasured, b.Unmeasured(&line), "%d, %v", i, m)
		}
	}
	assert.Greater(t, touched, 100)
	assert.Greater(t, over, 50)
	assert.Greater(t, open, 20)
}

// Closed forms where a line rises: over a car of 1.5 m from 3 to 7 m it passes at the
// lower end by the least, and one that stands upright meets it up to 0.1 m over its
// roof (ours).
func TestRisingAndUprightLines(t *testing.T) {
	b := body(t, plan.Site{Vehicles: []plan.Vehicle{carAt(5, 0)}})
	for _, l := range []terrain.Line{{A: r3.Vector{Z: 2}, B: r3.Vector{X: 10, Z: 3}}, {A: r3.Vector{X: 10, Z: 3}, B: r3.Vector{Z: 2}}} {
		c := b.Bears(&terrain.Flat, &l)
		require.True(t, c.Over)
		near(t, 2.3-1.5, c.OverM, 1e-9)
	}
	up := terrain.Line{A: r3.Vector{X: 5}, B: r3.Vector{X: 5, Z: 10}}
	for _, x := range []float64{5, 7.0005} { // within, and a hair beside
		up.A.X, up.B.X = x, x
		c := b.Bears(&terrain.Flat, &up)
		require.True(t, c.Touches, "%v", x)
		near(t, 0, float64(c.From), 1e-9)
		near(t, 1.6, float64(c.To), 1e-9)
		near(t, 1.6, float64(c.Length), 1e-9)
		c = b.Bears(&terrain.Flat, &terrain.Line{A: up.B, B: up.A})
		near(t, 8.4, float64(c.From), 1e-9)
		near(t, 10, float64(c.To), 1e-9)
		near(t, 1.6, float64(c.Length), 1e-9)
		c = b.Bears(&terrain.Flat, &terrain.Line{A: up.B, B: r3.Vector{X: x, Z: 2}})
		require.True(t, c.Over)
		near(t, 0.5, c.OverM, 1e-9)
	}
	up.A.X, up.B.X = 7.0015, 7.0015
	assert.False(t, b.Bears(&terrain.Flat, &up).Touches)
	high := carAt(5, 0)
	high.Height, high.Rise = 0, 1
	assert.True(t, body(t, plan.Site{Vehicles: []plan.Vehicle{high}}).Bears(&terrain.Flat, level(0, 0, 10, 0, 50)).Touches, "on a bank, of unknown height")
	assert.False(t, body(t, plan.Site{Vehicles: []plan.Vehicle{carAt(5, 0)}}).Bears(&terrain.Flat, level(0, 0, 10, 0, 50)).Touches)
}

// A millimetre more than a line may run over what it is fast to is none: set in by 0.3
// m, of which 0.1 m do not count, 0.4 m, led by acos(0.2/0.4005) off square.
func TestAHairOverItsOwnVehicle(t *testing.T) {
	b := body(t, plan.Site{Vehicles: []plan.Vehicle{carAt(0, 0)}})
	for overM, bears := range map[float64]bool{0.4005: false, 0.402: true} {
		off := math.Acos(0.2 / overM)
		l := level(1.7, 0, 1.7+20*math.Cos(off), 20*math.Sin(off), 0.6)
		l.Ends[0] = "V1"
		assert.Equal(t, bears, b.Bears(&terrain.Flat, l).Touches, "%v m", overM)
		assert.Equal(t, bears, b.Bears(&terrain.Flat, &terrain.Line{A: l.B, B: l.A, Ends: l.Ends}).Touches, "%v m, from its other end", overM)
	}
}

// Of several bodies that is told which a line meets first, from its own end A.
func TestTheFirstOfSeveral(t *testing.T) {
	site := plan.Site{Vehicles: []plan.Vehicle{carAt(20, 0), carAt(5, 0), carAt(40, 0), carAt(5, 90)}}
	list := terrain.Bodies(&site)
	at, c := terrain.First(list, &terrain.Flat, level(0, 0, 60, 0, 0.6))
	assert.Equal(t, 1, at)
	near(t, 3, float64(c.From), 1e-9)
	at, c = terrain.First(list, &terrain.Flat, level(60, 0, 0, 0, 0.6))
	assert.Equal(t, 2, at)
	near(t, 18, float64(c.From), 1e-9)
	at, _ = terrain.First(list, &terrain.Flat, level(12, 0, 60, 0, 0.6))
	assert.Equal(t, 0, at)
	at, _ = terrain.First(list, &terrain.Flat, level(0, 30, 60, 30, 0.6))
	assert.Equal(t, -1, at)
}

// How far something moves until it meets another is the same wherever the two lie and
// which way they lie; what lies beside the swath of a travel is not met on it.
func TestDrivenWherever(t *testing.T) {
	met := 0
	others := [][]plan.Point{
		{{X: 7, Y: -3}, {X: 9, Y: -3}, {X: 9, Y: 3}, {X: 7, Y: 3}}, {{X: 5, Y: 0.5}}, {{X: 5, Y: -0.9995}}, {{X: 5, Y: -1.0005}}, {{X: 5, Y: 1.0005}}, {{X: 5, Y: 1.0015}}, {{X: -8, Y: 0}}, {{X: 1.5}}, {{X: -1.5}},
		{{X: 6, Y: 0.9}, {X: 9, Y: 3}, {X: 6.5, Y: 5}}, terrain.Round(plan.Point{X: 6, Y: 1.2}, 0.5), terrain.Round(plan.Point{X: 6, Y: 1.6}, 0.5), {{X: 3, Y: 1.0005}, {X: 4, Y: 2}, {X: 3, Y: 2}}, {{X: 3, Y: -1.0005}, {X: 4, Y: -2}, {X: 3, Y: -2}},
		{{X: -2.0005, Y: 0}, {X: -3, Y: 1}, {X: -3, Y: -1}}, {{X: 1, Y: -3}, {X: 3, Y: -3}, {X: 3, Y: 3}, {X: 1, Y: 3}},
	}
	v := carAt(0, 0)
	corners := v.Corners()
	for i, other := range others {
		want, meets, within := terrain.Driven(corners[:], other, r3.Vector{X: 1})
		if meets {
			met++
		}
		for _, m := range []motion{{0, 80, -30}, {90, 0, 0}, {180, 5, 5}, {270, -9, 0}, {37, 0, 0}, {-128, 40, -90}} {
			var a, b []plan.Point
			for _, p := range corners {
				a = append(a, m.point(p))
			}
			for _, p := range other {
				b = append(b, m.point(p))
			}
			s, c := math.Sincos(m.deg * math.Pi / 180)
			travel, isMet, isWithin := terrain.Driven(a, b, r3.Vector{X: c, Y: s})
			require.Equal(t, [2]bool{meets, within}, [2]bool{isMet, isWithin}, "%d, %v", i, m)
			require.InDelta(t, want, travel, 1e-9, "%d, %v", i, m)
		}
	}
	assert.Greater(t, met, 6)
	for y, meets := range map[float64]bool{1.0005: true, -1.0005: true, 1.0015: false} { // a millimetre beside it is met
		travel, isMet, _ := terrain.Driven(corners[:], []plan.Point{{X: 5, Y: y}}, r3.Vector{X: 1})
		require.Equal(t, meets, isMet, "%v", y)
		near(t, map[bool]float64{true: 3}[meets], travel, 1e-9)
	}
}

// The swath of a car of 4 m by 2 m, and of a box 3 m before it and 1 m wider, that go 10
// m: what a circle of half a metre, drawn round by 24 corners, reaches and 2 mm more. Up
// a slope of 3 in 4 the travel is 8 m on the map. (closed form)
func TestASwath(t *testing.T) {
	v := carAt(0, 0)
	car, box := v.Corners(), []plan.Point{{X: 4, Y: -1.5}, {X: 5, Y: -1.5}, {X: 5, Y: 1.5}, {X: 4, Y: 1.5}}
	r := 0.5/math.Cos(math.Pi/24) + 0.002
	for _, m := range []motion{{}, {0, 30, -40}, {90, 3, 4}, {217, -5, 60}} {
		sin, cos := math.Sincos(m.deg * math.Pi / 180)
		turned := func(ps []plan.Point) (all []plan.Point) {
			for _, p := range ps {
				all = append(all, m.point(p))
			}
			return all
		}
		s := terrain.NewSwath(r3.Vector{X: cos, Y: sin}, 10, turned(car[:]), turned(box))
		for _, off := range []float64{1e-6, -1e-6} {
			for _, p := range []plan.Point{{X: 3, Y: 1.5 + r + off}, {X: 3, Y: -1.5 - r - off}, {X: 15 + r + off}, {X: -2 - r - off}} {
				assert.Equal(t, off > 0, s.Misses(m.point(p), 0.5), "%v %v", p, m)
			}
		}
		assert.True(t, s.Misses(m.point(plan.Point{Y: 1.5021}), -1), "no radius is a point")
		assert.False(t, s.Misses(m.point(plan.Point{Y: 1.5019}), -1))
		up := terrain.NewSwath(r3.Vector{X: 0.8 * cos, Y: 0.8 * sin, Z: 0.6}, 10, turned(car[:]))
		assert.False(t, up.Misses(m.point(plan.Point{X: 2 + 8 + r}), 0.5))
		assert.True(t, up.Misses(m.point(plan.Point{X: 2 + 8 + r/0.8 + 1e-6}), 0.5), "no farther than that")
	}
}

// A stem known at the strap alone has at breast height the low end of the taper of it;
// a line that stands upright meets a trunk that it stands in.
func TestTrunksByOneFigure(t *testing.T) {
	taper := facts.TreeTaper.Low().X
	near(t, 0.5*taper, float64(terrain.AtBreast(&plan.Anchor{Trunk: 0.5})), 1e-12)
	near(t, 0.5/taper, float64(terrain.AtStrap(&plan.Anchor{Girth: 0.5 * math.Pi})), 1e-12)
	near(t, 0.5, float64(terrain.AtStrapThin(&plan.Anchor{Girth: 0.5 * math.Pi})), 1e-12)
	tree := body(t, plan.Site{Anchors: []plan.Anchor{{Head: plan.Head{ID: "T1"}, Kind: plan.AnchorTree, At: plan.Point{X: 5}, Trunk: 0.4}}})
	c := tree.Bears(&terrain.Flat, &terrain.Line{B: r3.Vector{X: 10, Z: 7.5}})
	near(t, 4.8*1.25, float64(c.From), 1e-9) // along the line, which rises 3 in 4
	near(t, 5.2*1.25, float64(c.To), 1e-9)
	near(t, 0.4*1.25, float64(c.Length), 1e-9)
	for x, in := range map[float64]bool{7.3: true, 6.8: true, 7.5: true, 7.51: false} {
		p := plan.Point{X: x, Y: 4}
		assert.Equal(t, in, terrain.TrunkContact(p, p, plan.Point{X: 7, Y: 4}, 0.5).Touches, "%v", x)
	}
}

// A line across a needle, 10 m long and 10 mm wide at its foot, half a metre from its
// point meets it over half a millimetre there, though no corner is near. (closed form)
func TestALineAcrossANeedle(t *testing.T) {
	needle := []plan.Point{{}, {X: 10, Y: -0.005}, {X: 10, Y: 0.005}}
	for _, m := range []motion{{}, {0, 7, -3}, {90, 1, 2}, {37, -4, 9}, {217, 3, 3}} {
		var ps []plan.Point
		for _, p := range needle {
			ps = append(ps, m.point(p))
		}
		l := m.line(*level(0.5, -3, 0.5, 5, 0))
		s := terrain.Outline(ps)
		c := s.Bears(&terrain.Flat, l.A, l.B)
		require.True(t, c.Touches, "%v", m)
		near(t, 3-0.00025, float64(c.From), 1e-9)
		near(t, 3+0.00025, float64(c.To), 1e-9)
		near(t, 0.0005, float64(c.Length), 1e-9)
	}
}

// Three corners are an outline, a hull, a union and a hole as more are. A circle drawn
// round runs counter-clockwise and covers n·r²·tan(π/n). (closed forms)
func TestThreeCornersAreEnough(t *testing.T) {
	of := func(k float64) []plan.Point { return []plan.Point{{X: 0, Y: 0}, {X: 6 * k, Y: 0}, {X: 0, Y: 6 * k}} }
	assert.True(t, terrain.Convex(of(1)))
	near(t, 18, terrain.Area(terrain.Hull(of(1))), 1e-12)
	rings, err := terrain.Union([][]plan.Point{of(1), of(0.5)})
	require.NoError(t, err)
	require.Len(t, rings, 1)
	near(t, 18, terrain.Area(rings[0]), 1e-9)
	// A frame about the triangle of half the size that lies 1 m in from both axes.
	in := []plan.Point{{X: 1, Y: 1}, {X: 4, Y: 1}, {X: 1, Y: 4}}
	frame := [][]plan.Point{{{X: -1, Y: -1}, {X: 9, Y: -1}, in[1], in[0]}, {{X: 9, Y: -1}, {X: -1, Y: 9}, in[2], in[1]}, {{X: -1, Y: 9}, {X: -1, Y: -1}, in[0], in[2]}}
	holes, err := terrain.Holes(frame)
	require.NoError(t, err)
	require.Len(t, holes, 1)
	near(t, 4.5, terrain.Area(holes[0].Outline), 1e-9)
	assert.True(t, terrain.Inside(in, holes[0].At))
	for _, n := range []int{3, 5, 24} {
		c := terrain.Circle(plan.Point{X: -7, Y: 4}, 2, n)
		near(t, float64(n)*4*math.Tan(math.Pi/float64(n)), terrain.Area(c), 1e-9)
		assert.True(t, terrain.Inside(c, plan.Point{X: -7, Y: 4}))
	}
}
