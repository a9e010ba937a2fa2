package board_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/canvas/draw"
	"kedge/solver/plan"
)

// squared is a board with a square obstacle from 20 ; 10 to 22 ; 12.
func squared(t *testing.T) *hand {
	h := sit(t, nil)
	h.keys("o")
	for _, c := range [][2]float64{{20, 10}, {22, 10}, {22, 12}, {20, 12}} {
		h.click(c[0], c[1])
	}
	h.keys("<Enter>", "<Enter>")
	require.Len(t, h.b.Plan().Site.Obstacles, 1)
	return h
}

func rubberEnd(h *hand) plan.Point {
	r := h.b.Overlay().Rubber
	require.NotEmpty(h.t, r)
	return r[len(r)-1]
}

// off is how far the straight line through a and c passes a place (closed form).
func off(a, c, p plan.Point) float64 {
	return math.Abs((c.X-a.X)*(p.Y-a.Y)-(c.Y-a.Y)*(p.X-a.X)) / hyp(c.X-a.X, c.Y-a.Y)
}

// A measure from 10 ; 7 that passes south of the square comes nearest to its
// corner at 22 ; 10: θ − asin(1/d) with θ = atan(3/12) and d = √153.
func TestMeasurePassesAnObstacleAtClearance(t *testing.T) {
	from, corner := plan.Point{X: 10, Y: 7}, plan.Point{X: 22, Y: 10}
	cases := []struct {
		name  string
		angle float64
		why   string
		offM  float64
	}{
		{"at a metre", math.Atan2(3, 12) - math.Asin(1/math.Sqrt(153)), "passes Boulder 1 at 1 m", 1},
		{"grazing", math.Atan2(3, 12), "grazes Boulder 1", 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			h := squared(t)
			h.keys("m")
			h.click(from.X, from.Y)
			x, y := from.X+15.3*math.Cos(c.angle), from.Y+15.3*math.Sin(c.angle)
			h.move(x+0.02, y-0.03)
			require.Contains(t, plainWhys(h.b.Overlay()), c.why)
			near(t, c.offM, off(from, rubberEnd(h), corner), 0.002, "clearance") // places are kept to a millimetre
			h.move(x+0.02, y-0.03, board.Mods{Alt: true})
			assert.Empty(t, h.b.Overlay().Guides, "Alt holds it off")
			h.move(from.X+5*math.Cos(c.angle), from.Y+5*math.Sin(c.angle))
			assert.NotContains(t, plainWhys(h.b.Overlay()), c.why, "it has not passed it yet")
		})
	}
}

func plainWhys(o *draw.Overlay) []string {
	var list []string
	for _, w := range whys(o) {
		list = append(list, plain(w))
	}
	return list
}

// The end of a line that is led over open ground snaps as well, hook-on points
// come first.
func TestLineEndSnaps(t *testing.T) {
	h := rigged(t)
	from := plan.Point{X: fairlead[0], Y: fairlead[1]}
	h.keys("l")
	h.click(from.X, from.Y)
	lead, ok := h.b.Plan().Site.Vehicles[1].PortPlace(plan.PortWinch)
	require.True(t, ok)
	// 15° west of north from the fairlead, 10 m off
	sin, cos := math.Sincos(-15 * math.Pi / 180)
	h.move(lead.At.X+10*sin+0.05, lead.At.Y+10*cos)
	assert.Contains(t, whys(h.b.Overlay()), "to 345°")
	near(t, 345, math.Mod(360+math.Atan2(rubberEnd(h).X-lead.At.X, rubberEnd(h).Y-lead.At.Y)*180/math.Pi, 360), 0.02, "bearing")
	// past the boulder's corner at 19 ; 6 on its south
	corner := plan.Point{X: 19, Y: 6}
	d := hyp(corner.X-lead.At.X, corner.Y-lead.At.Y)
	theta := math.Atan2(corner.Y-lead.At.Y, corner.X-lead.At.X) + math.Asin(1/d)
	h.move(lead.At.X+14*math.Cos(theta), lead.At.Y+14*math.Sin(theta)+0.04)
	assert.Contains(t, plainWhys(h.b.Overlay()), "passes Boulder 1 at 1 m")
	near(t, 1, off(lead.At, rubberEnd(h), corner), 0.002, "clearance")
	assert.Empty(t, h.b.Overlay().RubberRefused, "it does not bear on it")
	h.move(lead.At.X+10*sin+0.05, lead.At.Y+10*cos, board.Mods{Alt: true})
	assert.Empty(t, h.b.Overlay().Guides)
	h.move(front[0]+0.2, front[1])
	assert.Empty(t, h.b.Overlay().Guides)
	assert.Contains(t, plain(under(h.b.Overlay()).Label), "front recovery point")
}

func TestBearingsAndFirstPointOfAnOutline(t *testing.T) {
	h := sit(t, nil)
	h.b.Handle(board.Wheel{X: 500, Y: 380, DY: 6}) // closer, so that the grid is coarse
	require.Greater(t, h.b.View().PerM, 40.0)
	h.keys("o")
	h.click(20, 10)
	x, y := 20+4*math.Sin(math.Pi/6), 10+4*math.Cos(math.Pi/6) // 4 m on 030°
	h.move(x+0.03, y)
	assert.Contains(t, whys(h.b.Overlay()), "to 030°")
	near(t, 4, hyp(rubberEnd(h).X-20, rubberEnd(h).Y-10), 0.0015, "at a step of the grid")
	h.click(x+0.03, y)
	h.move(24.3, 10.03)
	assert.Contains(t, whys(h.b.Overlay()), "in line with the first point")
	near(t, 10, rubberEnd(h).Y, 0, "y")
}

// Hook-on points take what is drawn, each with its name.
func TestHookOnPointsTakeWhatIsDrawn(t *testing.T) {
	for _, c := range []struct {
		key  string
		at   [2]float64
		name string
	}{
		{"m", front, "front recovery point"}, {"l", front, "front recovery point"}, {"b", front, "front recovery point"}, {"s", front, "front recovery point"}, {"b", [2]float64{24, 19.5}, "Tree 1"},
	} {
		t.Run(c.key+" "+c.name, func(t *testing.T) {
			h := rigged(t)
			h.keys(c.key)
			h.move(c.at[0]+0.2, c.at[1]+0.1)
			assert.Contains(t, plain(under(h.b.Overlay()).Label), c.name)
		})
	}
	h := rigged(t)
	h.keys("m")
	h.drag(fairlead, [2]float64{20, 8}, [2]float64{front[0] + 0.2, front[1] + 0.1})
	lead, _ := h.b.Plan().Site.Vehicles[1].PortPlace(plan.PortWinch)
	pts := h.b.Plan().Site.Measures[0].Points
	near(t, lead.At.X, pts[0].X, 0.0006, "from the fairlead")
	near(t, front[0], pts[1].X, 0.0006, "to the point")
	near(t, front[1], pts[1].Y, 0.0006, "to the point")
	h.move(front[0]+0.2, front[1]+0.1, board.Mods{Alt: true})
	for _, m := range h.b.Overlay().Ports {
		assert.NotEqual(t, draw.PortUnder, m.State, "Alt holds it off")
	}
}

// A pointer stands on whole pixels. The storyboard's corners, pressed there,
// lie on the grid: an edge of the same length, which passes a hair nearer, does
// not draw them away, and the file is that of the keyboard.
func TestCornersAtWholePixelsStayOnTheGrid(t *testing.T) {
	corners := []plan.Point{{X: 16.5, Y: 6.5}, {X: 19, Y: 6}, {X: 21, Y: 7.5}, {X: 20.5, Y: 10}, {X: 18, Y: 11}, {X: 16, Y: 9}}
	for perM := 16.3; perM < 40; perM += 1.7 {
		h := sit(t, nil)
		v := h.b.View()
		v.PerM = perM
		h.b.SetView(v)
		h.keys("o")
		for _, c := range corners {
			x, y := h.px(c.X, c.Y)
			x, y = math.Round(x), math.Round(y)
			h.b.Handle(board.PointerMove{X: x, Y: y})
			h.b.Handle(board.PointerDown{X: x, Y: y, Clicks: 1})
			h.b.Handle(board.PointerUp{X: x, Y: y})
		}
		h.keys("<Enter>")
		require.Len(t, h.b.Plan().Site.Obstacles, 1)
		assert.Equal(t, corners, h.b.Plan().Site.Obstacles[0].Outline, "at %v pixels a metre", perM)
	}
}
