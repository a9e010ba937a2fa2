package draw_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/golang/geo/r2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/draw"
	"kedge/canvas/pen"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

func emptyScene(t testing.TB, o *draw.Overlay) *draw.Scene {
	return &draw.Scene{Plan: &plan.Plan{}, Words: english(t), View: view(20), Overlay: o}
}

// added are the marks an overlay adds to an empty board.
func added(t testing.TB, o *draw.Overlay) []pen.Mark {
	n := len(record(t, emptyScene(t, nil), draw.DrawMoving).Marks)
	all := record(t, emptyScene(t, o), draw.DrawMoving).Marks
	return all[1 : len(all)-(n-1)] // the clip and its end stay where they are
}

func TestHookOnPointsDifferByKindAndState(t *testing.T) {
	seen := map[string]string{}
	for k := draw.PortRecovery; k <= draw.PortRated; k++ {
		for st := draw.PortHidden; st <= draw.PortRefused; st++ {
			name := fmt.Sprint(k, " ", st)
			marks := added(t, &draw.Overlay{Ports: []draw.PortMark{{Kind: k, State: st}}})
			if st == draw.PortHidden {
				assert.Empty(t, marks, name)
				continue
			}
			shape := (&pen.Recorder{Marks: marks}).String()
			assert.Empty(t, seen[shape], name)
			seen[shape] = name
		}
	}
}

func TestHookOnPointsHaveTheirSizes(t *testing.T) {
	for st, want := range map[draw.PortState]float64{draw.PortOffered: 10, draw.PortUnder: 14} { // ours
		box := added(t, &draw.Overlay{Ports: []draw.PortMark{{Kind: draw.PortSheave, State: st}}})[0].Path.Bounds()
		assert.False(t, box.IsEmpty())
		assert.InDelta(t, want, box.X.Length(), 0.01)
		assert.InDelta(t, want, box.Y.Length(), 0.01)
	}
}

func TestPointUnderThePointerSaysItsName(t *testing.T) {
	m := draw.PortMark{Kind: draw.PortRecovery, State: draw.PortUnder, Label: "front right recovery point · 40 kN · to 30°"}
	texts := textsOf(record(t, emptyScene(t, &draw.Overlay{Ports: []draw.PortMark{m}}), draw.Draw))
	assert.Contains(t, texts, m.Label)
	m.State = draw.PortOffered
	texts = textsOf(record(t, emptyScene(t, &draw.Overlay{Ports: []draw.PortMark{m}}), draw.Draw))
	assert.NotContains(t, texts, m.Label)
}

func TestRefusedPartOfALineUnderConstructionSaysWhy(t *testing.T) {
	o := &draw.Overlay{Rubber: []plan.Point{{X: -8}, {X: 0}, {X: 8}}, RubberRefused: "bears on Boulder 1", RubberFrom: 1}
	assert.Contains(t, strings.Join(textsOf(record(t, emptyScene(t, o), draw.Draw)), "|"), "bears on Boulder 1")
	for name, broken := range map[string]*draw.Overlay{
		"index beyond the end": {Rubber: o.Rubber, RubberRefused: "x", RubberFrom: 9},
		"index below zero":     {Rubber: o.Rubber, RubberRefused: "x", RubberFrom: -9},
		"one point":            {Rubber: o.Rubber[:1], RubberRefused: "x"},
	} {
		t.Run(name, func(t *testing.T) {
			assert.NotPanics(t, func() { record(t, emptyScene(t, broken), draw.Draw) })
		})
	}
}

func TestGhostIsTrueSizeAndTranslucent(t *testing.T) {
	v := &plan.Vehicle{Head: plan.Head{ID: "V9"}, Bearing: 90, Length: 5.2, Width: 1.9}
	marks := added(t, &draw.Overlay{Ghost: &draw.Ghost{Vehicle: v, Label: "casualty"}})
	box := marks[0].Path.Bounds()
	assert.False(t, box.IsEmpty())
	assert.InDelta(t, 104, box.X.Length(), 0.01) // 5.2 m at 20 px a metre
	assert.Less(t, marks[0].Style.Stroke.A, uint8(255))
}

func TestGhostOfAPersonIsFilledInsideAZone(t *testing.T) {
	g := &draw.Ghost{Person: &plan.Person{Role: plan.RoleSpotter}, Label: "spotter"}
	s := emptyScene(t, &draw.Overlay{Ghost: g})
	outside := record(t, s, draw.DrawMoving).String()
	g.Inside = true
	assert.NotEqual(t, outside, record(t, s, draw.DrawMoving).String())
}

func TestFitShowsEverything(t *testing.T) {
	for _, file := range []string{"redirect.kedge", "straight.kedge", "doubled.kedge"} {
		p := example(t, file)
		box := draw.Bounds(p, nil)
		assert.False(t, box.IsEmpty())
		v := draw.Fit(box, 1000, 700, 40)
		for _, q := range []plan.Point{plan.Point(box.Lo()), plan.Point(box.Hi())} {
			x, y := v.ToPen(q)
			assert.True(t, x >= 40-1e-6 && x <= 960+1e-6 && y >= 40-1e-6 && y <= 660+1e-6, "%v is at %v, %v", q, x, y)
		}
	}
	assert.True(t, draw.Bounds(&plan.Plan{}, nil).IsEmpty())
	assert.True(t, draw.Bounds(nil, nil).IsEmpty())
	hidden := &plan.Plan{Site: plan.Site{People: []plan.Person{{Head: plan.Head{ID: "P", Hidden: true}}}}}
	assert.True(t, draw.Bounds(hidden, nil).IsEmpty(), "hidden things do not count")
	v := draw.Fit(r2.RectFromPoints(r2.Point{X: 3, Y: 4}), 800, 600, 40) // one point
	assert.Positive(t, v.PerM)
	assert.LessOrEqual(t, v.PerM, 120.0)
}

func TestScaleBarIsTrue(t *testing.T) {
	s := emptyScene(t, nil)
	for _, perM := range []float64{2, 7, 20, 33, 80, 400} {
		s.View.PerM = perM
		r := record(t, s, draw.DrawStatic)
		c := draw.Palette(s.Look)
		length := 0.0 // the bar is the four quarters with an ink edge, height 6
		for i := range r.Marks {
			if box := r.Marks[i].Path.Bounds(); !box.IsEmpty() && r.Marks[i].Style.Stroke == c.Ink && box.Y.Length() == 6 {
				length += box.X.Length()
			}
		}
		want := ""
		for _, x := range textsOf(r) {
			if strings.HasSuffix(x, " m") {
				want = strings.TrimSuffix(x, " m")
			}
		}
		l, err := quantity.ParseLength(want+" m", quantity.Metric)
		assert.NoError(t, err)
		assert.InDelta(t, float64(l)*perM, length, 0.01)
		assert.Contains(t, "125", strings.TrimLeft(want, "0.")[:1], "a bar is 1, 2 or 5 times a power of ten")
	}
}

// The handle of a strap says up and down: its marks reach further up and down
// than to the sides, and no other handle looks like it.
func TestTheHandleOfAStrapPointsUpAndDown(t *testing.T) {
	marks := func(kind string, hot bool) (tall, wide float64, all string) {
		s := &draw.Scene{Plan: &plan.Plan{}, Words: english(t), View: draw.View{PerM: 20, W: 100, H: 100, UnitsPerPx: 1}}
		bare := record(t, s, draw.DrawMoving)
		s.Overlay = &draw.Overlay{Handles: []draw.Handle{{Kind: kind, Hot: hot}}}
		r := record(t, s, draw.DrawMoving)
		for i := range r.Marks {
			if m := &r.Marks[i]; m.Kind == pen.PathMark && m.Style.Stroke.A > 0 {
				box := m.Path.Bounds()
				require.False(t, box.IsEmpty())
				tall, wide = math.Max(tall, math.Max(box.Y.Hi-50, 50-box.Y.Lo)), math.Max(wide, math.Max(box.X.Hi-50, 50-box.X.Lo))
			}
		}
		require.Greater(t, len(r.Marks), len(bare.Marks))
		return tall, wide, r.String()
	}
	seen := map[string]string{}
	for _, kind := range []string{"strap", "turn", "end", "corner", "add"} {
		for _, hot := range []bool{false, true} {
			tall, wide, all := marks(kind, hot)
			other, taken := seen[all]
			assert.False(t, taken, "%s looks like %s", kind, other)
			seen[all] = kind
			if kind == "strap" {
				assert.Greater(t, tall, 1.5*wide)
				assert.LessOrEqual(t, tall, 22.0, "within the reach of the pointer")
			}
		}
	}
}
