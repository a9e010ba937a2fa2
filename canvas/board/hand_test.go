package board_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// hand is somebody at the board.
type hand struct {
	t testing.TB
	b *board.Board

	lastX, lastY float64 // where the pointer was last
}

func sit(t testing.TB, p *plan.Plan) *hand {
	t.Helper()
	b, err := board.New(p, board.Options{})
	require.NoError(t, err)
	b.Handle(board.Resize{W: 1000, H: 760})
	return &hand{t: t, b: b}
}

func (h *hand) px(x, y float64) (float64, float64) { return h.b.View().ToPen(plan.Point{X: x, Y: y}) }

func (h *hand) move(x, y float64, m ...board.Mods) {
	h.lastX, h.lastY = x, y
	px, py := h.px(x, y)
	h.b.Handle(board.PointerMove{X: px, Y: py, Mods: mods(m)})
}

func (h *hand) down(x, y float64, m ...board.Mods) {
	px, py := h.px(x, y)
	h.b.Handle(board.PointerDown{X: px, Y: py, Mods: mods(m)})
}

func (h *hand) up(x, y float64, m ...board.Mods) {
	px, py := h.px(x, y)
	h.b.Handle(board.PointerUp{X: px, Y: py, Mods: mods(m)})
}

func (h *hand) click(x, y float64, m ...board.Mods) {
	h.move(x, y, m...)
	h.down(x, y, m...)
	h.up(x, y, m...)
}

func (h *hand) doubleClick(x, y float64) {
	h.click(x, y)
	px, py := h.px(x, y)
	h.b.Handle(board.PointerDown{X: px, Y: py, Clicks: 2})
	h.up(x, y)
}

// drag presses at the first place, passes the others and lets go at the last.
func (h *hand) drag(places ...[2]float64) {
	h.move(places[0][0], places[0][1])
	h.down(places[0][0], places[0][1])
	for _, p := range places[1:] {
		h.move(p[0], p[1])
	}
	last := places[len(places)-1]
	h.up(last[0], last[1])
}

// keys types: names of keys in angle brackets are keys, the rest characters.
func (h *hand) keys(keys ...string) {
	for _, k := range keys {
		if n := len(k); n > 2 && k[0] == '<' && k[n-1] == '>' {
			h.b.Handle(board.Key{Name: k[1 : n-1]})
			continue
		}
		for _, r := range k {
			h.b.Handle(board.Rune{R: r})
		}
	}
}

func (h *hand) ctrl(name string) {
	h.b.Handle(board.Key{Name: name, Mods: board.Mods{Ctrl: true}})
}

func (h *hand) bytes() string { return bytesOf(h.t, h.b.Plan()) }

func bytesOf(t require.TestingT, p *plan.Plan) string {
	data, err := plan.FormatPlan(p)
	require.NoError(t, err)
	return string(data)
}

func mods(m []board.Mods) board.Mods {
	if len(m) == 0 {
		return board.Mods{}
	}
	return m[0]
}

// drawn is the answer for the plan as it is drawn.
func (h *hand) drawn() *solver.Assessment { return solver.Assess(h.b.Shown(), h.b.Rig()) }

// near fails unless got is a finite number within tol of want.
func near(t testing.TB, want, got, tol float64, what string) {
	t.Helper()
	require.Falsef(t, math.IsNaN(got) || math.IsInf(got, 0), "%s is not finite", what)
	require.InDeltaf(t, want, got, tol, "%s", what)
}

// percent fails unless got is a finite number within one part in a hundred: the
// tolerance the storyboard's reference figures state.
func percent(t testing.TB, want, got float64, what string) {
	t.Helper()
	near(t, want, got, math.Abs(want)/100, what)
}

// finding is the finding of an id in the answer shown.
func (h *hand) finding(id string) (part.Finding, bool) {
	for _, f := range h.b.Answer().Findings {
		if f.ID == id {
			return f, true
		}
	}
	return part.Finding{}, false
}
