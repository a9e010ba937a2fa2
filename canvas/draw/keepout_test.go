package draw_test

import (
	"image/color"
	"slices"
	"testing"

	"github.com/golang/geo/r2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/draw"
	"kedge/canvas/pen"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/seeded"
	"kedge/solver/terrain"
	"kedge/solver/travel"
)

// Where the ring lies outside the picture the frame says that all is inside it;
// where some of it is seen its own word does.
func TestTheFrameSaysThatAllIsInsideTheStandOff(t *testing.T) {
	ring := func(half float64) *draw.Scene {
		return &draw.Scene{Plan: plan.New(), Words: english(t), View: view(20), Answer: &solver.Assessment{Zones: []part.Zone{
			{Kind: part.ZoneStandOff, Radius: 34, Outline: []plan.Point{{X: -half, Y: -half}, {X: half, Y: -half}, {X: half, Y: half}, {X: -half, Y: half}}}}}}
	}
	assert.Contains(t, textsOf(record(t, ring(80), draw.Draw)), "all inside stand-off 34.0 m", "the picture is 40 m wide")
	texts := textsOf(record(t, ring(10), draw.Draw))
	assert.Contains(t, texts, "stand-off 34.0 m")
	assert.NotContains(t, texts, "all inside stand-off 34.0 m")
	beside := ring(80)
	beside.View.Middle.X = 200
	for _, x := range textsOf(record(t, beside, draw.Draw)) {
		assert.NotContains(t, x, "stand-off", "the picture lies outside the ring")
	}
}

// A picture by itself says so where a zone reaches out of it on any side, and where all
// lie within or are not drawn does not.
func TestThePrintedFrameSaysThatZonesGoOn(t *testing.T) {
	const says, short = "zones go on beyond this picture", "zones go on"
	square := func(x, half float64) []plan.Point {
		return []plan.Point{{X: x - half, Y: -half}, {X: x + half, Y: -half}, {X: x + half, Y: half}, {X: x - half, Y: half}}
	}
	scene := func(kind part.ZoneKind, outline []plan.Point) *draw.Scene {
		return &draw.Scene{Plan: plan.New(), Words: english(t), View: view(20), Look: draw.Look{Print: true}, Answer: &solver.Assessment{Zones: []part.Zone{
			{Kind: part.ZoneBight, Outline: square(0, 1)}, {Kind: kind, Radius: 34, Outline: outline}}}}
	}
	out := view(20).W / 2 / 20 // from the middle to the frame's side, m
	for _, kind := range []part.ZoneKind{part.ZoneStandOff, part.ZoneRecoil} {
		assert.Contains(t, textsOf(record(t, scene(kind, square(out-2, 2.1)), draw.Draw)), says, "%s reaches 0.1 m out", kind)
		assert.NotContains(t, textsOf(record(t, scene(kind, square(out-2, 1.9)), draw.Draw)), says, "%s ends 0.1 m within", kind)
		assert.Contains(t, textsOf(record(t, scene(kind, square(0, 80)), draw.Draw)), says, "no edge of %s is seen", kind)
		hidden := scene(kind, square(0, 80))
		hidden.Show.HideZones = map[string]bool{string(kind): true}
		assert.NotContains(t, textsOf(record(t, hidden, draw.Draw)), says, "%s is not drawn", kind)
	}
	narrow := scene(part.ZoneRecoil, square(0, 80))
	narrow.View.W = 130
	assert.Contains(t, textsOf(record(t, narrow, draw.Draw)), short)
	screen := scene(part.ZoneRecoil, square(0, 80))
	screen.Look = draw.Look{}
	assert.NotContains(t, textsOf(record(t, screen, draw.Draw)), says, "a board is moved to look there")
	screen.Look.Alone = true
	assert.Contains(t, textsOf(record(t, screen, draw.Draw)), says, "what is cut out of a board stays as it is")
}

// A kind has its hatch while a person in it or a finding about it is pointed at,
// and else only where that is asked for.
func TestKindsAreHatchedWhilePointedAt(t *testing.T) {
	square := []plan.Point{{X: -8, Y: -8}, {X: 8, Y: -8}, {X: 8, Y: 8}, {X: -8, Y: 8}}
	find := part.Finding{ID: "tree-may-fall", Level: part.Warning, Things: []plan.ID{"T1"}}
	a := &solver.Assessment{
		Zones:    []part.Zone{{Kind: part.ZoneBight, Thing: "L1", Outline: square}, {Kind: part.ZoneTree, Thing: "T1", Outline: square}, {Kind: part.ZoneRecoil, Thing: "L1", Outline: square}},
		People:   []solver.PersonAt{{Person: "P1", Zoned: true, Inside: []part.ZoneKind{part.ZoneRecoil}}},
		Findings: []part.Finding{find},
	}
	hatches := func(o *draw.Overlay, show draw.Show) int {
		var r pen.Recorder
		draw.Draw(&r, &draw.Scene{Plan: plan.New(), Words: english(t), View: view(20), Answer: a, Overlay: o, Show: show})
		require.NoError(t, r.Err())
		return len(hatchMarks(&r))
	}
	assert.Zero(t, hatches(nil, draw.Show{}))
	assert.Equal(t, 1, hatches(&draw.Overlay{Hover: "P1"}, draw.Show{}), "recoil")
	assert.Equal(t, 1, hatches(&draw.Overlay{Flagged: find.Key()}, draw.Show{}), "tree fall")
	assert.Equal(t, 3, hatches(nil, draw.Show{ZonesApart: true}))
	assert.Equal(t, 2, hatches(nil, draw.Show{ZonesApart: true, HideZones: map[string]bool{string(part.ZoneBight): true}}), "what is switched off stays off")
}

// A place that nobody leaves but through a zone is drawn as the keep-out is: its edge, its
// ticks and its tint, and a word of its own; with a side open it is not.
func TestAPocketIsDrawnAsKeepOut(t *testing.T) {
	wall := func(id plan.ID, x0, y0, x1, y1 float64) plan.Obstacle {
		return plan.Obstacle{Head: plan.Head{ID: id}, Kind: "wall", SeeOver: true, Height: 1, Outline: []plan.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}}
	}
	seen := func(walls int) (texts []string, bare int) {
		p := *seeded.Example(t, "doubled")
		box := r2.EmptyRect() // of what nobody may stand in, which the pocket is made beside
		for _, z := range travel.Whole(&p, "R1").Zones {
			if z.Kind != part.ZoneStandOff {
				box = box.Union(terrain.Bounds(z.Outline))
			}
		}
		mid, low, high := box.Center().X, box.Y.Lo, box.Center().Y
		p.Site.Obstacles = slices.Concat(p.Site.Obstacles, []plan.Obstacle{wall("O7", mid-6, low-4, mid+6, low-3.8), wall("O8", mid-6, low-4, mid-5.8, high), wall("O9", mid+5.8, low-4, mid+6, high)}[:walls])
		sc := &draw.Scene{Plan: &p, Rig: "R1", Words: english(t), View: view(20), Answer: travel.Whole(&p, "R1"), Show: draw.Show{HideGrid: true}}
		sc.View.Middle = plan.Point{X: mid, Y: low - 2}
		img := picture(t, sc)
		x, y := sc.View.ToPen(sc.View.Middle)
		for i := range 400 {
			if c := color.NRGBA(img.RGBAAt(int(x)-10+i%20, int(y)-10+i/20)); c == draw.Palette(sc.Look).Paper {
				bare++
			}
		}
		return textsOf(record(t, sc, draw.Draw)), bare
	}
	texts, bare := seen(3)
	assert.Contains(t, texts, "no way out")
	assert.Zero(t, bare, "it is tinted")
	texts, bare = seen(2)
	assert.NotContains(t, texts, "no way out")
	assert.Greater(t, bare, 200, "white paper")
}
