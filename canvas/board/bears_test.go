package board_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// open is the ground of the redirect example with its two vehicles, a tree and
// nothing between them: the fairlead faces the casualty's front point 15 m off,
// both 0.6 m up.
func open(t *testing.T, change func(p *plan.Plan)) *plan.Plan {
	t.Helper()
	p := fieldPlan(t)
	s := &p.Site
	s.Vehicles[0].At, s.Vehicles[0].Bearing = plan.Point{}, 90
	s.Vehicles[1].At, s.Vehicles[1].Bearing = plan.Point{X: 2.6 + 15 + 2.55}, 270
	s.Anchors, s.Obstacles, s.People = s.Anchors[:1], nil, nil
	s.Anchors[0].At = plan.Point{X: 10, Y: 12}
	p.Rigs = p.Rigs[:1]
	p.Rigs[0] = plan.Rig{Head: plan.Head{ID: "R1"}}
	if change != nil {
		change(p)
	}
	require.NoError(t, plan.Validate(p))
	return p
}

// between is what stands between the two: 8 to 9 m east, 2 m wide.
func between(height quantity.Length) func(p *plan.Plan) {
	return func(p *plan.Plan) {
		p.Site.Obstacles = []plan.Obstacle{{Head: plan.Head{ID: "O1"}, Kind: "boulder", Height: height,
			Outline: []plan.Point{{X: 8, Y: -1}, {X: 9, Y: -1}, {X: 9, Y: 1}, {X: 8, Y: 1}}}}
	}
}

// dragged leads a line over hook-on points, one press and one letting go, and
// tells whether it was refused at the last and what the rig is then refused for.
func dragged(t *testing.T, p *plan.Plan, ports ...plan.Port) (refused bool, kept []plan.ID) {
	t.Helper()
	h := sit(t, p)
	h.keys("<Home>", "l")
	x := plan.NewIndex(h.b.Plan(), nil)
	at := func(port plan.Port) plan.Point {
		s, ok := x.PortPlace(port)
		require.True(t, ok, "%v", port)
		return s.At
	}
	last := at(ports[len(ports)-1])
	if len(ports) > 2 { // all but the last stretch by clicks
		for _, port := range ports[:len(ports)-1] {
			h.click(at(port).X, at(port).Y)
		}
	}
	from := at(ports[len(ports)-2])
	if len(ports) == 2 { // pointing says the same as dragging
		defer func(h *hand) {
			h.keys("<Home>", "l")
			h.click(from.X, from.Y)
			h.move(last.X, last.Y)
			require.Equal(t, refused, h.b.Overlay().RubberRefused != "", "pointed at")
		}(sit(t, p))
	}
	h.move(from.X, from.Y)
	h.down(from.X, from.Y)
	h.move((from.X+last.X)/2, (from.Y+last.Y)/2)
	h.move(last.X, last.Y)
	refused = h.b.Overlay().RubberRefused != ""
	if refused {
		require.Contains(t, h.b.Overlay().RubberRefused, "bears on ")
	}
	preview := bytesOf(t, h.b.Shown())
	h.up(last.X, last.Y)
	require.Equal(t, preview, h.bytes(), "what was previewed is what is kept")
	require.Len(t, h.b.Answer().Stretches, len(ports)-1)
	for _, s := range h.b.Answer().Stretches {
		for _, c := range s.Contacts {
			kept = append(kept, c.Obstacle)
		}
	}
	_, bears := h.finding("line-bears")
	_, rubs := h.finding("line-on-trunk")
	require.Equal(t, len(kept) > 0, bears || rubs)
	return refused, kept
}

var (
	winchPort = plan.Port{Thing: "V2", Point: plan.PortWinch}
	frontPort = plan.Port{Thing: "V1", Point: "front"}
	treePort  = plan.Port{Thing: "T1"}
)

// What is refused while a line is dragged is refused when it is let go, and
// nothing else, however high what it meets is. The line is 0.6 m up and passes
// over what is 0.1 m lower (ours); a height nobody knows (0) is as high as it.
func TestALineIsRefusedAsItWillBe(t *testing.T) {
	for _, height := range []quantity.Length{0, 0.03, 0.2, 0.49, 0.51, 0.59, 0.61, 1, 2} {
		t.Run(fmt.Sprint(height), func(t *testing.T) {
			bears := height == 0 || height > 0.5
			for _, ports := range [][]plan.Port{{winchPort, frontPort}, {frontPort, winchPort}} {
				refused, kept := dragged(t, open(t, between(height)), ports...)
				assert.Equal(t, bears, refused, "%v", ports)
				assert.Equal(t, bears, slices.Equal(kept, []plan.ID{"O1"}), "%v: %v", ports, kept)
			}
			refused, kept := dragged(t, open(t, func(p *plan.Plan) { // up a slope
				between(height)(p)
				p.Site.Ground.Slope, p.Site.Ground.Downhill = plan.Known(quantity.Degrees(20)), plan.Known(quantity.Degrees(270))
			}), winchPort, frontPort)
			assert.Equal(t, bears, refused, "up a slope")
			assert.Equal(t, bears, len(kept) == 1, "up a slope: %v", kept)
		})
	}
}

// The same of vehicles, trunks and what a line ends at.
func TestALineIsRefusedAsItWillBeByWhateverStandsThere(t *testing.T) {
	parked := func(height quantity.Length) func(p *plan.Plan) {
		return func(p *plan.Plan) {
			v := p.Site.Vehicles[1]
			v.ID, v.Name, v.Winch, v.At, v.Bearing, v.Height = "V3", "", nil, plan.Point{X: 9}, 0, height
			p.Site.Vehicles = append(p.Site.Vehicles, v)
		}
	}
	tree := func(p *plan.Plan) { p.Site.Anchors[0].At = plan.Point{X: 9, Y: 0.2} }
	for _, tt := range []struct {
		name   string
		change func(p *plan.Plan)
		ports  []plan.Port
		on     plan.ID // empty: nothing
	}{
		{"nothing there", nil, []plan.Port{winchPort, frontPort}, ""},
		{"a parked vehicle", parked(1.9), []plan.Port{winchPort, frontPort}, "V3"},
		{"a flat trailer", parked(0.4), []plan.Port{winchPort, frontPort}, ""},
		{"a trunk", tree, []plan.Port{winchPort, frontPort}, "T1"},
		{"to a trunk", nil, []plan.Port{winchPort, treePort}, ""},
		{"to a trunk over a boulder", func(p *plan.Plan) { between(2)(p); p.Site.Anchors[0].At = plan.Point{X: 5, Y: 0} }, []plan.Port{winchPort, treePort}, "O1"},
		{"to the casualty's far point, through its cab", nil, []plan.Port{winchPort, {Thing: "V1", Point: "rear"}}, "V1"},
		{"over a trunk", nil, []plan.Port{winchPort, treePort, frontPort}, ""},
		{"over a trunk, past a boulder", between(2), []plan.Port{winchPort, treePort, frontPort}, ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			refused, kept := dragged(t, open(t, tt.change), tt.ports...)
			assert.Equal(t, tt.on != "", refused)
			if tt.on == "" {
				assert.Empty(t, kept)
			} else {
				assert.Equal(t, []plan.ID{tt.on}, kept)
			}
		})
	}
}

// The same by chance: any height, any slope, the obstacle anywhere along the line
// and near it; by hand and by keys what is refused is what the answer then says.
func TestALineIsRefusedAsItWillBeByAnyObstacle(t *testing.T) {
	seen := map[bool]int{}
	rapid.Check(t, func(rt *rapid.T) {
		height := quantity.Length(rapid.IntRange(0, 150).Draw(rt, "height, cm")) / 100
		x, y := rapid.Float64Range(3, 17).Draw(rt, "x"), rapid.Float64Range(-2, 2).Draw(rt, "y")
		slope, downhill := rapid.IntRange(0, 30).Draw(rt, "slope"), rapid.IntRange(0, 359).Draw(rt, "downhill")
		refused, kept := dragged(t, open(t, func(p *plan.Plan) {
			p.Site.Obstacles = []plan.Obstacle{{Head: plan.Head{ID: "O1"}, Kind: "boulder", Height: height,
				Outline: []plan.Point{{X: x - 0.5, Y: y - 1}, {X: x + 0.5, Y: y - 1}, {X: x + 0.5, Y: y + 1}, {X: x - 0.5, Y: y + 1}}}}
			p.Site.Ground.Slope, p.Site.Ground.Downhill = plan.Known(quantity.Degrees(slope)), plan.Known(quantity.Degrees(downhill))
		}), winchPort, frontPort)
		require.Equal(rt, slices.Contains(kept, "O1"), refused)
		seen[refused]++
	})
	require.NotContains(t, []int{seen[false], seen[true]}, 0, "some bear and some do not")
}
