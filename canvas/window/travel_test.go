package window

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/draw"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/seeded"
	"kedge/solver/travel"
)

// pictured is the scene that the board's picture is drawn from.
func (s *seat) pictured() draw.Scene {
	b := s.board
	sc := draw.Scene{Plan: b.Shown(), Rig: b.Rig(), Answer: b.Answer(), Words: b.Words(), Overlay: s.overlay()}
	s.travel.picture(&sc)
	return sc
}

// The strip shows a moment where it is pressed: the casualty and the lines as they
// are there by the solver, the loads of the whole pull, the start beside it.
func TestTheStripShowsAMoment(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	require.True(t, s.travel.pane.Visible())
	pull := travel.Of(s.board.Plan(), "R1")
	require.InDelta(t, 6, pull.LongM, 1e-9)
	assert.Same(t, s.board.Plan(), s.pictured().Plan, "as drawn at first")
	s.travel.hand.Tapped(&fyne.PointEvent{Position: fyne.NewPos(s.travel.hand.Size().Width/2, 5)})
	assert.InDelta(t, 3, s.travel.shown(), 0.02)
	m := s.travel.shown()
	want := solver.Assess(travel.At(s.board.Plan(), "R1", m), "R1")
	got := s.pictured()
	assert.Equal(t, want.Stretches, got.Answer.Stretches)
	assert.Equal(t, want.Nodes, got.Answer.Nodes)
	assert.Equal(t, pull.Parts, got.Answer.Parts, "the loads stay those of the whole")
	require.NotNil(t, got.Overlay.Ghost)
	assert.Equal(t, s.board.Plan().Casualty().At, got.Overlay.Ghost.Vehicle.At)
	assert.InDelta(t, s.board.Plan().Casualty().At.X+m, got.Plan.Casualty().At.X, 1e-9, "its way leads east")
	assert.Same(t, got.Plan, s.pictured().Plan, "found once, so that the ground is drawn once")
	assert.False(t, s.board.Dirty(), "looking changes nothing")
}

// By keys: a step, to the end, back to the start.
func TestTheStripByKeys(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	key := func(k fyne.KeyName) { s.travel.pane.TypedKey(&fyne.KeyEvent{Name: k}) }
	key(fyne.KeyRight)
	assert.InDelta(t, keyStepM, s.travel.shown(), 1e-12)
	key(fyne.KeyLeft)
	key(fyne.KeyLeft)
	assert.Zero(t, s.travel.shown())
	key(fyne.KeyEnd)
	assert.InDelta(t, s.board.Pull().EndM, s.travel.shown(), 1e-12)
	key(fyne.KeyHome)
	assert.Zero(t, s.travel.shown())
}

// A press on the strip gives it the keys: arrows go on from there, Escape gives them
// back to the board, F6 walks on from the strip as it did.
func TestAPressGivesTheStripItsKeys(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.focusBoard()
	s.commands.run("loads")
	s.focusBoard()
	s.travel.hand.Tapped(&fyne.PointEvent{Position: fyne.NewPos(s.travel.hand.Size().Width/2, 5)})
	require.Same(t, s.travel.pane, s.focused())
	at := s.travel.shown()
	s.focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	assert.InDelta(t, at+keyStepM, s.travel.shown(), 1e-9)
	s.focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	assert.Same(t, s.view, s.focused())

	s.focusBoard()
	s.travel.hand.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(20, 5)}})
	require.Same(t, s.travel.pane, s.focused())
	s.nextRegion(-1)
	s.nextRegion(1)
	assert.Same(t, s.travel.pane, s.focused(), "F6 there and back")
}

// The flag of the worst moment takes the picture there.
func TestTheWorstFlagIsPressed(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	pull := s.board.Pull()
	worst, most := -1.0, 0.0
	for _, m := range pull.Moments {
		for i := range m.Parts {
			if p := &m.Parts[i]; p.Known() && p.Kind != part.KindFairlead && p.Most() > most {
				worst, most = m.AtM, p.Most()
			}
		}
	}
	s.click(s.travel.pane, "worst")
	assert.InDelta(t, worst, s.travel.shown(), 1e-12)
	s.travel.show(0)
	s.refresh()
	flag := s.travel.pane.Hits[s.travel.pane.Find("worst")]
	track := s.travel.pane.Hits[s.travel.pane.Find("track")]
	assert.LessOrEqual(t, flag.Y1, track.Y0, "what moves the handle does not lie over it")
}

// Playing moves the casualty at the winch's own speed over the motion ratio, and
// stops at the end.
func TestTheStripPlays(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.click(s.travel.pane, "play-4")
	require.NotNil(t, s.travel.halt)
	s.travel.step()
	w := winchOf(s.board.Plan(), "R1")
	require.NotNil(t, w)
	require.Positive(t, float64(w.LoadSpeed))
	assert.InDelta(t, 4*float64(w.LoadSpeed)/s.answer().MotionRatio*playTick.Seconds(), s.travel.shown(), 1e-9)
	s.travel.show(5.9999)
	s.travel.step()
	assert.Nil(t, s.travel.halt, "at its end it stops")
	s.click(s.travel.pane, "play")
	assert.Zero(t, s.travel.shown(), "and begins anew")
	s.click(s.travel.pane, "play")
	assert.Nil(t, s.travel.halt)
}

// A finding of a later moment takes the picture there.
func TestGoThereFromAFinding(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	for _, f := range s.answer().Findings {
		if f.Travel > 0 {
			s.click(s.findings.pane, "finding "+f.Key()+"/there")
			assert.InDelta(t, f.Travel, s.travel.shown(), 1e-12)
			return
		}
	}
	require.Fail(t, "no finding of a later moment")
}

// Where nothing can be followed the strip says so, and offers nothing to play; in a
// low window the board has its room.
func TestNoPullIsSaid(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "straight"))
	assert.Contains(t, texts(s.travel.pane), "No pull to follow")
	assert.Negative(t, s.travel.pane.Find("play"))
	low := sitAt(t, 1024, 500, example(t, "redirect"))
	assert.False(t, low.travel.pane.Visible())
}

// The body shown on its way is dragged along it, by hand; the plan is not changed.
func TestTheBodyIsDraggedAlongItsWay(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	before := s.board.Plan()
	s.travel.show(2)
	v := travel.At(before, "R1", 2).Casualty()
	view := s.board.View()
	at := func(x, y float64) fyne.Position {
		px, py := view.ToPen(plan.Point{X: x, Y: y})
		return fyne.NewPos(float32(px), float32(py))
	}
	s.view.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at(v.At.X+0.3, v.At.Y-0.2)}, Button: desktop.MouseButtonPrimary})
	s.view.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at(v.At.X+0.3+1.5, v.At.Y+0.6)}})
	assert.InDelta(t, 3.5, s.travel.shown(), 0.05, "along the way alone")
	s.view.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at(v.At.X-40, v.At.Y)}})
	assert.Zero(t, s.travel.shown(), "no further back than the start")
	s.view.MouseUp(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at(v.At.X-40, v.At.Y)}, Button: desktop.MouseButtonPrimary})
	assert.Nil(t, s.travel.held)
	assert.Same(t, before, s.board.Plan())
}

// A body that its lines drag elsewhere than its way is drawn is held where it is dragged:
// the hand that stays on it shows the moment that it is at.
func TestADraggedBodyIsHeldWhereItIs(t *testing.T) {
	p := *seeded.Example(t, "redirect")
	p.Site.Vehicles = slices.Clone(p.Site.Vehicles)
	i := slices.IndexFunc(p.Site.Vehicles, func(v plan.Vehicle) bool { return v.Stuck != nil })
	v := &p.Site.Vehicles[i]
	v.Unshare()
	v.Stuck.Depth = plan.DepthChassis
	v.Stuck.Way, v.Stuck.WayBearing = plan.WayFree, plan.Known(v.Bearing-50)
	s := sitAt(t, 1440, 900, planFile(t, &p))
	const from, to = 1, 4
	is := func(m float64) plan.Point { return travel.At(&p, "R1", m).Casualty().At }
	require.Greater(t, s.board.Pull().EndM, 4.5)
	way, known := v.WayLine()
	require.True(t, known)
	require.Greater(t, is(to).Dist(way.At(to).At), 1.0, "it is dragged elsewhere")
	s.travel.show(from)
	require.True(t, s.travel.take(is(from)))
	s.travel.follow(is(to))
	assert.InDelta(t, to, s.travel.shown(), s.board.Pull().EndM/wayParts)
	got := s.pictured().Plan.Casualty().At
	assert.InDelta(t, 0, got.Dist(is(to)), 0.05, "it lies under the hand")
}

// The exit path is bent through the window: its casualty is selected, the ring on its
// leg dragged; while a later moment is shown the handles go before the body there.
func TestTheExitPathIsBentInTheWindow(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	c := s.board.Plan().Casualty()
	s.board.Select(c.ID)
	_, rear, known := c.Axles()
	require.True(t, known)
	end := c.At.X + float64(rear) + float64(c.Stuck.WayLength)
	front := end - float64(rear) + float64(c.Length)/2
	s.drag(front, c.At.Y, front+2, c.At.Y)
	require.Equal(t, c.Stuck.WayLength+2, s.board.Plan().Casualty().Stuck.WayLength)
	before := s.board.Plan()
	s.travel.show(1.5) // the body shown lies over the ring
	ring := c.At.X + float64(rear) + 4
	require.True(t, s.board.OnHandle(plan.Point{X: ring, Y: c.At.Y}))
	s.drag(ring, c.At.Y, ring, c.At.Y+1)
	require.NotSame(t, before, s.board.Plan())
	assert.Len(t, s.board.Plan().Casualty().Stuck.Bends, 2)
	assert.InDelta(t, 1.5, s.travel.shown(), 1e-9, "the moment shown stays")
}
