package draw_test

import (
	"math"
	"strings"
	"testing"

	"github.com/golang/geo/r2"
	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/draw"
	"kedge/canvas/pen"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// record draws on a recorder and fails if anything was not finite.
func record(t testing.TB, s *draw.Scene, f func(pen.Pen, *draw.Scene)) *pen.Recorder {
	t.Helper()
	r := &pen.Recorder{Lo: r2.Point{X: s.View.X0, Y: s.View.Y0}, Hi: r2.Point{X: s.View.X0 + s.View.W, Y: s.View.Y0 + s.View.H}}
	f(r, s)
	require.NoError(t, r.Err())
	return r
}

func view(perM float64) draw.View { return draw.View{PerM: perM, W: 800, H: 600, UnitsPerPx: 1} }

// widest is the size of the largest closed shape whose middle is at the
// picture's, and whose fill is the body colour.
func bodySize(t *testing.T, r *pen.Recorder, s *draw.Scene) (w, h float64) {
	t.Helper()
	c := draw.Palette(s.Look)
	for i := range r.Marks {
		m := &r.Marks[i]
		if m.Kind != pen.PathMark || m.Style.Fill != c.Body || m.Style.Stroke != c.Ink {
			continue
		}
		box := m.Path.Bounds()
		require.False(t, box.IsEmpty())
		w, h = math.Max(w, box.X.Length()), math.Max(h, box.Y.Length())
	}
	return w, h
}

func TestVehicleIsTrueToScale(t *testing.T) {
	vehicle := plan.Vehicle{Head: plan.Head{ID: "V1"}, Bearing: 90, Length: 5.2, Width: 1.9, Wheelbase: 2.85, FrontOverhang: 0.95, Track: 1.58}
	for _, c := range []struct {
		name              string
		perM, wantW, want float64 // pixels = metres × pixels a metre
		bearing           quantity.Degrees
	}{
		{"20 px a metre, nose east", 20, 104, 38, 90},
		{"20 px a metre, nose north", 20, 38, 104, 0},
		{"50 px a metre", 50, 260, 95, 90},
		{"far out: the least symbol, 18 px long", 1, 18, 18 * 1.9 / 5.2, 270},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := vehicle
			v.Bearing = c.bearing
			s := &draw.Scene{Plan: &plan.Plan{Site: plan.Site{Vehicles: []plan.Vehicle{v}}}, Words: english(t), View: view(c.perM)}
			w, h := bodySize(t, record(t, s, draw.DrawStatic), s)
			assert.InDelta(t, c.wantW, w, 0.01)
			assert.InDelta(t, c.want, h, 0.01)
		})
	}
}

func TestViewMapsBothWays(t *testing.T) {
	v := draw.View{Middle: plan.Point{X: 12, Y: -3}, PerM: 17, W: 640, H: 480, X0: 5, Y0: 9}
	x, y := v.ToPen(plan.Point{X: 13, Y: -2}) // one metre east and north of the middle
	assert.InDelta(t, 5+320+17, x, 1e-9)
	assert.InDelta(t, 9+240-17, y, 1e-9)
	p := v.ToPlan(x, y)
	assert.InDelta(t, 13, p.X, 1e-9)
	assert.InDelta(t, -2, p.Y, 1e-9)
}

// straightScene is one line from a winch to a casualty whose stretch has the
// given state.
func straightScene(t testing.TB, status part.Status) *draw.Scene {
	p := &plan.Plan{Site: plan.Site{Vehicles: []plan.Vehicle{
		{Head: plan.Head{ID: "V1"}, At: plan.Point{X: -12}, Bearing: 90, Length: 5, Width: 2, Recovery: []plan.RecoveryPoint{{ID: "front", Ahead: 2.5}}},
		{Head: plan.Head{ID: "V2"}, At: plan.Point{X: 12}, Bearing: 270, Length: 5, Width: 2, Winch: &plan.Winch{Ahead: 2.5}},
	}}, Rigs: []plan.Rig{{Head: plan.Head{ID: "R"}, Lines: []plan.Line{{Head: plan.Head{ID: "L"},
		Path: []plan.Port{{Thing: "V2", Point: plan.PortWinch}, {Thing: "V1", Point: "front"}}}}}}}
	st := part.Part{ID: "L/1", Kind: part.KindStretch, Thing: "L", Status: status, Move: part.Load{Known: true, Force: 20000}, Limit: part.Limit{Known: true, Force: 40000}, Used: 0.5}
	switch status {
	case part.NoLimit:
		st.Limit = part.Limit{}
	case part.NotComputed, part.Refused:
		st.Move = part.Load{}
	}
	a := &solver.Assessment{Rig: "R", Status: part.Within, Parts: []part.Part{st},
		Stretches: []part.Stretch{{Part: "L/1", Line: "L", A: r3.Vector{X: 9.5}, B: r3.Vector{X: -9.5}, Length: 19, Refused: status == part.Refused}}}
	return &draw.Scene{Plan: p, Rig: "R", Answer: a, Words: english(t), View: view(20)}
}

// grey is a scene's marks with every colour turned to its grey.
func grey(r *pen.Recorder) string {
	for i := range r.Marks {
		m := &r.Marks[i]
		m.Style.Fill.R, m.Style.Fill.G, m.Style.Fill.B = 0, 0, 0
		m.Style.Stroke.R, m.Style.Stroke.G, m.Style.Stroke.B = 0, 0, 0
	}
	return r.String()
}

func TestStatesDifferWithoutColour(t *testing.T) {
	seen := map[string]part.Status{}
	for _, st := range []part.Status{part.NotComputed, part.Refused, part.NoLimit, part.Slack, part.Over, part.Near, part.Within} {
		s := straightScene(t, st)
		s.Show.HideTags, s.Show.HideNames = true, true
		marks := grey(record(t, s, draw.DrawMoving))
		other, twice := seen[marks]
		assert.False(t, twice, "%v is drawn like %v", st, other)
		seen[marks] = st
	}
}

func TestTagsSayTheState(t *testing.T) {
	for _, c := range []struct {
		status part.Status
		want   []string // words of each state
	}{
		{part.Within, []string{"20.0 kN"}},
		{part.Near, []string{"20.0 kN · near"}},
		{part.Over, []string{"▲ 20.0 kN · OVER LIMIT"}},
		{part.NoLimit, []string{"?", "no rating"}},
		{part.Slack, []string{"slack"}},
		{part.NotComputed, []string{"not computed"}},
		{part.Refused, []string{"refused"}},
	} {
		t.Run(c.status.String(), func(t *testing.T) {
			texts := textsOf(record(t, straightScene(t, c.status), draw.DrawMoving))
			for _, w := range c.want {
				assert.Contains(t, texts, w)
			}
			if c.status == part.NotComputed || c.status == part.Refused {
				assert.NotContains(t, strings.Join(texts, "|"), "kN", "a load that was not computed has no figure")
			}
		})
	}
}

func TestRefusedLineEndsAtItsContact(t *testing.T) {
	s := straightScene(t, part.Refused)
	s.Answer.Stretches[0].Contacts = []part.Contact{{Obstacle: "O1", From: 8, To: 12, Length: 4}}
	s.Plan.Site.Obstacles = []plan.Obstacle{{Head: plan.Head{ID: "O1"}, Kind: "boulder", Outline: []plan.Point{{X: -2.5, Y: -2}, {X: 1.5, Y: -2}, {X: 1.5, Y: 2}, {X: -2.5, Y: 2}}}}
	r := record(t, s, draw.DrawMoving)
	assert.Contains(t, textsOf(r), "19.0 m · bears on Boulder 1 for 4.0 m", "from 9.5 m east to 9.5 m west, bearing from 8 to 12 m")
	// From the winch at x = 9.5 m to 8 m along: 1.5 m east of the middle.
	contactX, _ := s.View.ToPen(plan.Point{X: 1.5})
	found := false
	for i := range r.Marks {
		m := &r.Marks[i]
		if box := m.Path.Bounds(); !box.IsEmpty() && m.Kind == pen.PathMark && box.Y.Length() < 0.01 && box.X.Length() > 100 && m.Style.Fill.A == 0 && len(m.Style.Dash) == 0 {
			assert.GreaterOrEqual(t, box.X.Lo, contactX-0.01, "nothing is drawn beyond the contact")
			found = true
		}
	}
	assert.True(t, found, "the line is drawn up to its contact")
}

func TestHiddenThingsAreNotDrawn(t *testing.T) {
	hide := plan.Head{ID: "X", Hidden: true, Name: "Heron"}
	for name, site := range map[string]plan.Site{
		"vehicle":  {Vehicles: []plan.Vehicle{{Head: hide, Length: 5, Width: 2, Stuck: &plan.Stuck{WayLength: 5}}}},
		"anchor":   {Anchors: []plan.Anchor{{Head: hide, Kind: plan.AnchorTree, Trunk: 0.4, Crown: 3}}},
		"obstacle": {Obstacles: []plan.Obstacle{{Head: hide, Outline: []plan.Point{{X: 0}, {X: 3}, {Y: 3}}}}},
		"person":   {People: []plan.Person{{Head: hide, Role: plan.RoleSpotter}}},
		"note":     {Notes: []plan.Note{{Head: hide, Text: "Heron"}}},
		"measure":  {Measures: []plan.Measure{{Head: hide, Points: []plan.Point{{}, {X: 4}}}}},
	} {
		t.Run(name, func(t *testing.T) {
			empty := &draw.Scene{Plan: &plan.Plan{}, Words: english(t), View: view(20)}
			hidden := &draw.Scene{Plan: &plan.Plan{Site: site}, Words: english(t), View: view(20)}
			assert.Equal(t, record(t, empty, draw.Draw).String(), record(t, hidden, draw.Draw).String())
		})
	}
}

func TestZonesHaveTheirWordOnceAndAreSwitched(t *testing.T) {
	s := sceneOf(t, example(t, "redirect.kedge"), "R1", 1400, 900)
	s.View.PerM = 9 // far enough out that every zone's edge is in the picture
	kinds := map[part.ZoneKind]bool{}
	for _, z := range s.Answer.Zones {
		kinds[z.Kind] = true
	}
	require.NotEmpty(t, kinds)
	count := func(texts []string, word string) (n int) {
		for _, x := range texts {
			if x == word || strings.HasPrefix(x, word+" ") {
				n++
			}
		}
		return n
	}
	texts := textsOf(record(t, s, draw.Draw))
	for k := range kinds {
		assert.Equal(t, 1, count(texts, s.Words.Zone(k)), k)
	}
	s.Show.HideZones = map[string]bool{string(part.ZoneBight): true}
	texts = textsOf(record(t, s, draw.Draw))
	assert.Zero(t, count(texts, "bight"))
	assert.Equal(t, 1, count(texts, "recoil"))
}

func TestPersonInAZoneIsFilledAndSaysWhere(t *testing.T) {
	p := &plan.Plan{Site: plan.Site{People: []plan.Person{{Head: plan.Head{ID: "P1"}, Role: plan.RoleSpotter}}}}
	c := draw.Palette(draw.Look{})
	filled := func(r *pen.Recorder) (n int) {
		for i := range r.Marks {
			if m := &r.Marks[i]; m.Kind == pen.PathMark && m.Style.Fill == c.Ink && m.Style.Stroke == c.Ink {
				n++
			}
		}
		return n
	}
	zone := []part.Zone{{Kind: part.ZoneBight, Outline: []plan.Point{{X: -3, Y: -3}, {X: 3, Y: -3}, {X: 3, Y: 3}, {X: -3, Y: 3}}}}
	in := &draw.Scene{Plan: p, Words: english(t), View: view(20), Answer: &solver.Assessment{Zones: zone, People: []solver.PersonAt{{Person: "P1", Inside: []part.ZoneKind{part.ZoneBight}}}}}
	out := &draw.Scene{Plan: p, Words: english(t), View: view(20), Answer: &solver.Assessment{Zones: zone, People: []solver.PersonAt{{Person: "P1", Zoned: true}}}}
	none := &draw.Scene{Plan: p, Words: english(t), View: view(20), Answer: &solver.Assessment{}}
	rIn, rOut, rNone := record(t, in, draw.DrawMoving), record(t, out, draw.DrawMoving), record(t, none, draw.DrawMoving)
	assert.Equal(t, 2, filled(rIn), "head and shoulders")
	assert.Zero(t, filled(rOut))
	assert.Contains(t, textsOf(rIn), "inside bight")
	assert.Contains(t, textsOf(rIn), "!", "a triangle stands by it even without a finding")
	assert.Contains(t, textsOf(rOut), "outside the zones")
	assert.NotContains(t, textsOf(rNone), "outside the zones", "nothing is said of zones that were not drawn")
}

func TestFlagsShareTheNumbersOfTheFindings(t *testing.T) {
	s := sceneOf(t, example(t, "redirect.kedge"), "R1", 1400, 900)
	s.Labels = &draw.Labels{}
	record(t, s, draw.Draw)
	type flag struct {
		card int
		at   plan.ID
	}
	got, cards := map[flag]int{}, words.Cards(s.Answer.Findings)
	for _, b := range s.Labels.Boxes {
		if b.Finding > 0 {
			require.LessOrEqual(t, b.Finding, len(s.Answer.Findings))
			assert.Equal(t, s.Answer.Findings[b.Finding-1].Things[0], b.Thing)
			got[flag{words.CardNumber(cards, b.Finding-1), b.Thing}]++
		}
	}
	want := map[flag]int{} // one flag of a card stands at a thing, however many of its findings do
	for i, f := range s.Answer.Findings {
		if f.Level >= part.Warning {
			want[flag{words.CardNumber(cards, i), f.Things[0]}] = 1
		}
	}
	assert.Equal(t, want, got)
}

func TestBlanksHideTheFigure(t *testing.T) {
	s := straightScene(t, part.Near)
	s.Show.Blank = map[string]bool{"L/1": true}
	all := strings.Join(textsOf(record(t, s, draw.Draw)), "|")
	assert.Contains(t, all, "________ kN")
	for _, gives := range []string{"20.0", "near", "50"} {
		assert.NotContains(t, all, gives)
	}
}

func TestPreviewAndTravelAreSaid(t *testing.T) {
	s := straightScene(t, part.Within)
	s.Overlay = &draw.Overlay{Preview: true}
	s.Answer.Parts[0].AtM = 4.1
	texts := textsOf(record(t, s, draw.Draw))
	assert.Contains(t, texts, "50 % of line limit · preview")
	assert.Contains(t, texts, "20.0 kN at 4.1 m")
}

func TestNothingAtAllIsDrawable(t *testing.T) {
	for name, s := range map[string]*draw.Scene{
		"no plan":      {View: view(20)},
		"no view":      {Plan: &plan.Plan{}},
		"not a number": {Plan: &plan.Plan{}, View: draw.View{PerM: math.NaN(), W: 100, H: 100}},
		"no words":     {Plan: example(t, "redirect.kedge"), Rig: "R1", View: view(20)},
		"no answer":    {Plan: example(t, "redirect.kedge"), Rig: "R1", View: view(20), Words: english(t)},
		"another rig":  {Plan: example(t, "redirect.kedge"), Rig: "R9", View: view(20), Words: english(t)},
	} {
		t.Run(name, func(t *testing.T) {
			r := &pen.Recorder{}
			assert.NotPanics(t, func() { draw.Draw(r, s) })
			assert.NoError(t, r.Err())
		})
	}
	assert.NotPanics(t, func() { draw.Draw(&pen.Recorder{}, nil) })
}

func TestDraggedThingsAreOnTheMovingLayer(t *testing.T) {
	p := &plan.Plan{Site: plan.Site{Vehicles: []plan.Vehicle{{Head: plan.Head{ID: "V1"}, Length: 5, Width: 2}}}}
	s := &draw.Scene{Plan: p, Words: english(t), View: view(20), Overlay: &draw.Overlay{}}
	w, _ := bodySize(t, record(t, s, draw.DrawStatic), s)
	assert.InDelta(t, 40, w, 0.01, "standing: on the static layer")
	s.Overlay.Dragged = []plan.ID{"V1"}
	w, _ = bodySize(t, record(t, s, draw.DrawStatic), s)
	assert.Zero(t, w)
	w, _ = bodySize(t, record(t, s, draw.DrawMoving), s)
	assert.InDelta(t, 40, w, 0.01)
}

func TestStepFramesShowOnlyWhatHasCome(t *testing.T) {
	p := &plan.Plan{Site: plan.Site{Notes: []plan.Note{{Head: plan.Head{ID: "N1"}, Text: "always"}, {Head: plan.Head{ID: "N2", Step: 2}, Text: "second"}}}}
	s := &draw.Scene{Plan: p, Words: english(t), View: view(20)}
	s.Show.UpToStep = 1
	assert.NotContains(t, textsOf(record(t, s, draw.Draw)), "second")
	s.Show.UpToStep = 2
	assert.Contains(t, textsOf(record(t, s, draw.Draw)), "second")
}
