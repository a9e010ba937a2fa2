package terrain_test

import (
	"math"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// carAt is a car of 4 m by 2 m, 1.5 m high, its nose to the east, with its middle
// there.
func carAt(x, y float64) plan.Vehicle {
	return plan.Vehicle{Head: plan.Head{ID: "V1"}, At: plan.Point{X: x, Y: y}, Bearing: 90, Length: 4, Width: 2, Height: 1.5}
}

// body is the one body of a site.
func body(t *testing.T, site plan.Site) *terrain.Body {
	t.Helper()
	list := terrain.Bodies(&site)
	require.Len(t, list, 1)
	return &list[0]
}

func level(ax, ay, bx, by, height float64) *terrain.Line {
	return &terrain.Line{A: r3.Vector{X: ax, Y: ay, Z: height}, B: r3.Vector{X: bx, Y: by, Z: height}}
}

// A line over a car 4 m by 2 m about (5, 0), from closed forms.
func TestVehiclesAreInTheWayOfLines(t *testing.T) {
	b := body(t, plan.Site{Vehicles: []plan.Vehicle{carAt(5, 0)}})
	c := b.Bears(&terrain.Flat, level(0, 0, 10, 0, 0.6))
	require.True(t, c.Touches)
	near(t, 3, float64(c.From), 1e-9)
	near(t, 7, float64(c.To), 1e-9)
	c = b.Bears(&terrain.Flat, level(0, 0, 10, 0, 1.61)) // 0.1 m over its roof it passes (ours)
	require.True(t, c.Over)
	near(t, 0.11, c.OverM, 1e-9)
	assert.False(t, b.Bears(&terrain.Flat, level(0, 1.01, 10, 1.01, 0.6)).Touches)
	near(t, 0.5, b.Clear(level(0, 1.5, 10, 1.5, 0.6), 10), 1e-9)

	high := carAt(5, 0)
	high.Height = 0
	b = body(t, plan.Site{Vehicles: []plan.Vehicle{high}})
	assert.True(t, b.Bears(&terrain.Flat, level(0, 0, 10, 0, 50)).Touches, "a height nobody knows is as high as the line")
	high.Height, high.Rise = 1.5, 1
	b = body(t, plan.Site{Vehicles: []plan.Vehicle{high}})
	assert.True(t, b.Bears(&terrain.Flat, level(0, 0, 10, 0, 2.5)).Touches, "it stands on a bank")
}

// From a point of its own a line leads over the edge that lies before it: 0.1 m
// of the edge do not count, and from 0.2 m behind that it may run 0.4 m, which is
// 60° off square (ours).
func TestALineRunsNotThroughItsOwnVehicle(t *testing.T) {
	b := body(t, plan.Site{Vehicles: []plan.Vehicle{carAt(0, 0)}})
	from := func(x, y, bearing float64) bool {
		s, c := math.Sincos(bearing * math.Pi / 180)
		l := level(x, y, x+20*s, y+20*c, 0.6)
		l.Ends[0] = "V1"
		back := terrain.Line{A: l.B, B: l.A, Ends: [2]plan.ID{"", "V1"}}
		touches := b.Bears(&terrain.Flat, l).Touches
		require.Equal(t, touches, b.Bears(&terrain.Flat, &back).Touches, "from either end")
		return touches
	}
	for _, tt := range []struct {
		name          string
		x, y, bearing float64
		bears         bool
	}{
		{"ahead from the nose", 2, 0, 90, false},
		{"along the bumper", 2, 0, 0, false},
		{"back over the bonnet", 2, 0, 190, true},
		{"from the rear through the cab", -2, 0, 90, true},
		{"from the nose through the cab", 2, 0, 270, true},
		{"from the rear, away", -2, 0, 270, false},
		{"set in by 0.3 m, 59° off square", 1.7, 0, 31, false},
		{"set in by 0.3 m, 61° off square", 1.7, 0, 29, true},
		{"a ball that stands out by 0.1 m, away", -2.1, 0, 270, false},
		{"a ball that stands out by 0.1 m, through the cab", -2.1, 0, 90, true},
		{"from beneath the middle, sideways", 0, 0, 0, false},
		{"from beneath the middle, lengthways", 0, 0, 90, true},
	} {
		t.Run(tt.name, func(t *testing.T) { assert.Equal(t, tt.bears, from(tt.x, tt.y, tt.bearing)) })
	}
	l := level(2, 0, 20, 0, 0.6)
	assert.True(t, b.Bears(&terrain.Flat, l).Touches, "of another's line it is in the way even at its edge")

	v := carAt(0, 0)
	v.Stuck = &plan.Stuck{Overturned: true}
	b = body(t, plan.Site{Vehicles: []plan.Vehicle{v}})
	l = level(-2, 0, 20, 0, 0.6)
	l.Ends[0] = "V1"
	assert.False(t, b.Bears(&terrain.Flat, l).Touches, "what rights it lies over it")
}

// A line that is fast to a boulder begins on it, up to half its round away; one
// that is fast to a tree begins at its bark.
func TestALineMayBeginAtWhatItIsFastTo(t *testing.T) {
	stone := body(t, plan.Site{Obstacles: []plan.Obstacle{{Head: plan.Head{ID: "O1"}, Outline: square}}}) // 2 m by 2 m about (5, 0)
	l := level(5.9, 0, 20, 0, 0.6)
	require.True(t, stone.Bears(&terrain.Flat, l).Touches)
	l.Ends[0] = "O1"
	assert.False(t, stone.Bears(&terrain.Flat, l).Touches)
	l = level(5.9, 0, -20, 0, 0.6) // 1.9 m over it: more than 2·0.1 m + 8 m / 2π
	l.Ends[0] = "O1"
	assert.True(t, stone.Bears(&terrain.Flat, l).Touches)

	tree := body(t, plan.Site{Anchors: []plan.Anchor{{Head: plan.Head{ID: "T1"}, Kind: plan.AnchorTree, At: plan.Point{X: 5}, Trunk: 0.4}}})
	for _, tt := range []struct {
		ax, bx float64
		bears  bool
	}{{5, 20, false}, {5.3, 20, false}, {5.3, -20, true}} {
		l := level(tt.ax, 0, tt.bx, 0, 0.6)
		l.Ends[1] = "T1"
		assert.Equal(t, tt.bears, tree.Bears(&terrain.Flat, l).Touches, "%v", tt)
	}
	c := tree.Bears(&terrain.Flat, &terrain.Line{A: r3.Vector{}, B: r3.Vector{X: 10, Z: 7.5}})
	near(t, 4.8*1.25, float64(c.From), 1e-9, "along the line, which rises 3 in 4")
}

// What nobody measured is not decided within the largest of its kind: trunks of
// 2 m, half diagonals of 6.14 m (ours). Away from it nothing is to decide.
func TestUnmeasured(t *testing.T) {
	tree := body(t, plan.Site{Anchors: []plan.Anchor{{Head: plan.Head{ID: "T1"}, Kind: plan.AnchorTree, At: plan.Point{X: 5}}}})
	assert.True(t, tree.Unmeasured(level(0, 0.99, 10, 0.99, 0.6)))
	assert.False(t, tree.Unmeasured(level(0, 1.01, 10, 1.01, 0.6)))
	assert.False(t, tree.Bears(&terrain.Flat, level(0, 0, 10, 0, 0.6)).Touches)
	l := level(5.5, 0, 20, 0, 0.6)
	l.Ends[1] = "T1"
	assert.False(t, tree.Unmeasured(l), "it leads away")
	l = level(5.5, 0, -20, 0, 0.6)
	l.Ends[1] = "T1"
	assert.True(t, tree.Unmeasured(l), "it leads back over the trunk")

	for _, lacks := range []func(*plan.Vehicle){func(v *plan.Vehicle) { v.Length = 0 }, func(v *plan.Vehicle) { v.Width = 0 }} {
		v := carAt(5, 0)
		lacks(&v)
		car := body(t, plan.Site{Vehicles: []plan.Vehicle{v}})
		assert.True(t, car.Unmeasured(level(0, 6.1, 10, 6.1, 0.6)))
		assert.False(t, car.Unmeasured(level(0, 6.2, 10, 6.2, 0.6)))
		least, most := car.Covers()
		assert.Equal(t, []plan.Point{{X: 5}}, least)
		near(t, 6.14, math.Abs(terrain.Area(most))/(math.Pi*6.14), 0.04, "a circle drawn round") // 24 corners: 0.6 % more
	}
}

// What a body 4 m by 2 m meets that is moved along its way: closed forms.
func TestDriven(t *testing.T) {
	v := carAt(0, 0)
	c := v.Corners()
	box := func(x, y, l, w float64) []plan.Point {
		b := carAt(x, y)
		b.Length, b.Width = quantity.Length(l), quantity.Length(w)
		k := b.Corners()
		return k[:]
	}
	east, north := r3.Vector{X: 1}, r3.Vector{Y: 1}
	for _, tt := range []struct {
		name          string
		other         []plan.Point
		way           r3.Vector
		travel        float64
		meets, within bool
	}{
		{"a wall ahead", box(8, 0, 2, 6), east, 5, true, false},
		{"a post ahead", []plan.Point{{X: 5, Y: 0.5}}, east, 3, true, false},
		{"a post beside", []plan.Point{{X: 5, Y: 1.01}}, east, 0, false, false},
		{"behind it", box(-8, 0, 2, 6), east, 0, false, false},
		{"narrower than it, ahead", box(8, 0, 2, 0.4), east, 5, true, false},
		{"ahead, its corner in the way", box(8, 3, 2, 4.2), east, 5, true, false},
		{"somebody half a metre round", terrain.Round(plan.Point{X: 6}, 0.5), east, 3.5, true, false},
		{"somebody beside", terrain.Round(plan.Point{X: 6, Y: 1.52}, 0.5), east, 0, false, false},
		{"sideways", box(0, 5, 2, 2), north, 3, true, false},
		{"up a slope of 3 in 4", box(8, 0, 2, 6), r3.Vector{X: 0.8, Z: 0.6}, 6.25, true, false},
		{"its nose already in it", box(3, 0, 2.2, 6), east, 0, true, true},
		{"its tail still in it", box(-3, 0, 2.2, 6), east, 0, false, true},
		{"a post under its nose", []plan.Point{{X: 1.5}}, east, 0, true, true},
		{"a post under its tail", []plan.Point{{X: -1.5}}, east, 0, false, true},
		{"a yard about it", []plan.Point{{X: -9, Y: -9}, {X: 9, Y: -9}, {X: 9, Y: 9}, {X: 8, Y: 9}, {X: 8, Y: -8}, {X: -8, Y: -8}, {X: -8, Y: 9}, {X: -9, Y: 9}}, east, 6, true, false},
		{"nothing", nil, east, 0, false, false},
	} {
		t.Run(tt.name, func(t *testing.T) {
			for _, other := range [][]plan.Point{tt.other, reversed(tt.other)} {
				travel, meets, within := terrain.Driven(c[:], other, tt.way)
				require.Equal(t, tt.meets, meets)
				require.Equal(t, tt.within, within)
				if meets {
					near(t, tt.travel, travel, 5e-3) // corners of a circle drawn round: 4 mm
				}
			}
		})
	}
}
