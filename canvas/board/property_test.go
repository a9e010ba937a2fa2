package board_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/canvas/board"
	"kedge/canvas/draw"
	"kedge/canvas/form"
	"kedge/canvas/pen"
	"kedge/solver/plan"
)

// any is somebody who does anything at all.
type anyhand struct {
	*hand
	rt *rapid.T
}

// The events of one random gesture. Places are drawn from the neighbourhood of
// the storyboard's things, so that gestures meet them.
func (h anyhand) gesture() string {
	place := func(label string) (float64, float64) {
		if rapid.IntRange(0, 2).Draw(h.rt, label+" at a thing") > 0 {
			spots := [][2]float64{{5.5, 8.5}, {32.5, 7.5}, fairlead, front, {2.9, 8.5}, {24, 19.5}, {12, 21.5}, {27, 2}, {18, 8}, {23.75, 18.43}, {19, 8}, {22, 13}, {27, 13}, {16, 14}}
			s := rapid.SampledFrom(spots).Draw(h.rt, label)
			return s[0], s[1]
		}
		return rapid.Float64Range(-5, 45).Draw(h.rt, label+" x"), rapid.Float64Range(-5, 30).Draw(h.rt, label+" y")
	}
	m := board.Mods{
		Shift: rapid.IntRange(0, 9).Draw(h.rt, "shift") == 0,
		Ctrl:  rapid.IntRange(0, 9).Draw(h.rt, "ctrl") == 0,
		Alt:   rapid.IntRange(0, 9).Draw(h.rt, "alt") == 0,
	}
	x, y := place("from")
	if hs := h.b.Overlay().Handles; len(hs) > 0 && rapid.Bool().Draw(h.rt, "at a handle") {
		at := rapid.SampledFrom(hs).Draw(h.rt, "handle").At
		x, y = at.X, at.Y
	}
	switch rapid.IntRange(0, 9).Draw(h.rt, "gesture") {
	case 0, 1, 2: // drag
		h.move(x, y, m)
		h.down(x, y, m)
		x0, y0, far := x, y, false
		for range rapid.IntRange(1, 3).Draw(h.rt, "moves") {
			x, y = place("to")
			h.move(x, y, m)
			far = far || hyp(x-x0, y-y0)*h.b.View().PerM > 5
		}
		for range rapid.IntRange(0, 2).Draw(h.rt, "numbers typed meanwhile") {
			h.keys(rapid.SampledFrom([]string{"8", "2.5", "0.9", "3<45", "<120", "8 m", "<Backspace>", "8 x", "45", "1e9", "400"}).Draw(h.rt, "number"))
			if rapid.Bool().Draw(h.rt, "moved on") {
				x, y = place("on to")
				h.move(x, y, m)
				far = far || hyp(x-x0, y-y0)*h.b.View().PerM > 5
			}
		}
		shown := bytesOf(h.t, h.b.Shown())
		if rapid.IntRange(0, 7).Draw(h.rt, "cancel") == 0 {
			h.keys("<Escape>")
			h.up(x, y, m)
			return "cancelled drag"
		}
		before := h.b.Plan()
		h.up(x, y, m)
		if far && h.b.Plan() != before { // what was previewed is what is kept
			require.Equal(h.rt, shown, bytesOf(h.rt, h.b.Plan()))
		}
		return "drag"
	case 3, 4:
		h.click(x, y, m)
		return "click"
	case 5:
		h.doubleClick(x, y)
		return "double click"
	case 6, 7:
		keys := []string{"v", "a", "b", "s", "l", "d", "o", "p", "g", "m", "n", "r", "h", "e", "w", " ", "[", "]", "{", "}", "<Enter>", "<Tab>", "<Escape>", "<Delete>", "<Backspace>",
			"<ArrowLeft>", "<ArrowUp>", "12;4.5", "8 m 30°", "2450", "48", "x", "-"}
		k := rapid.SampledFrom(keys).Draw(h.rt, "key")
		if rapid.IntRange(0, 3).Draw(h.rt, "grabbed first") == 0 { // by keyboard: what is shown is what is kept
			h.keys(fmt.Sprintf("%.4f;%.4f", x, y), "<Enter>", " ", k)
			shown, before := bytesOf(h.t, h.b.Shown()), h.b.Plan()
			if found, _ := h.b.Ways(); found == nil && h.b.Overlay().Preview {
				h.keys("<Enter>")
				if h.b.Plan() != before {
					require.Equal(h.rt, shown, bytesOf(h.rt, h.b.Plan()))
				}
			}
			return "grab, " + k
		}
		h.keys(k)
		return k
	case 8:
		var cmds []string
		for _, c := range h.b.Commands() {
			if c.ID != "undo" && c.ID != "redo" {
				cmds = append(cmds, c.ID)
			}
		}
		c := rapid.SampledFrom(cmds).Draw(h.rt, "command")
		h.b.Handle(board.Command{ID: c})
		return c
	}
	h.b.Handle(board.Wheel{X: 300, Y: 200, DX: rapid.Float64Range(-30, 30).Draw(h.rt, "dx"), DY: rapid.Float64Range(-2, 2).Draw(h.rt, "dy"), Mods: m})
	return "wheel"
}

// sound checks what must hold after every event.
func (h anyhand) sound() {
	require.NoError(h.rt, plan.Validate(h.b.Plan()))
	require.NoError(h.rt, plan.Validate(h.b.Shown()))
	v := h.b.View()
	require.False(h.rt, math.IsNaN(v.PerM+v.Middle.X+v.Middle.Y) || v.PerM <= 0)
	require.NotEmpty(h.rt, h.b.Prompt())
	require.NotNil(h.rt, h.b.Overlay())
	require.NotNil(h.rt, h.b.Answer())
	x := plan.NewIndex(h.b.Plan(), rigOf(h.b))
	for _, id := range h.b.Selection() {
		_, rig := h.b.Plan().Rig(id) // a flag may be about the rig itself
		there := rig || id == form.ThingGround || x.Kind(id) != plan.NoThing
		if found, _ := h.b.Ways(); found != nil { // the rig of a way looked at is not in the plan yet
			for i := range h.b.Plan().Rigs {
				there = there || plan.NewIndex(h.b.Plan(), &h.b.Plan().Rigs[i]).Kind(id) != plan.NoThing
			}
		}
		require.True(h.rt, there, "%s is selected and not there", id)
	}
	for _, t := range h.b.Tabs() {
		require.NotEmpty(h.rt, t.Text)
	}
}

func rigOf(b *board.Board) *plan.Rig {
	r, _ := b.Plan().Rig(b.Rig())
	return r
}

// Whatever is done, as many undos bring back the same bytes, as many redos the
// plan that was reached, and every preview equals what letting go gives.
func TestAnyGesturesAreTakenBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) { anyGestures(t, rt) })
}

// FuzzGestures does so by what a fuzzed input draws.
func FuzzGestures(f *testing.F) {
	r := rand.NewChaCha8([32]byte{1})
	for i := range 4 { // a gesture draws some two hundred bytes
		data := make([]byte, 4096<<i)
		_, _ = r.Read(data) // of a ChaCha8 it never fails
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) { rapid.MakeFuzz(func(rt *rapid.T) { anyGestures(t, rt) })(t, data) })
}

func anyGestures(t *testing.T, rt *rapid.T) {
	b, err := board.New(nil, board.Options{})
	require.NoError(rt, err)
	b.Handle(board.Resize{W: 1000, H: 760})
	h := anyhand{&hand{t: t, b: b}, rt}
	if rapid.Bool().Draw(rt, "begin with the site") {
		site(h.hand)
		if rapid.Bool().Draw(rt, "and the redirect") {
			h.keys("<Escape>")
			straight(h.hand)
			bendOnTree(h.hand)
		}
	}
	h.keys("<Escape>", "<Escape>")
	if c := b.Plan().Casualty(); c != nil && rapid.Bool().Draw(rt, "and take its exit path") {
		b.Select(c.ID)
	}
	b.SetLabelBoxes([]draw.LabelBox{ // a tag, a flag, and a tag of nothing any more
		{Key: "tag B1", Part: "B1", Thing: "B1", Box: pen.Box(400, 100, 560, 260)},
		{Key: "flag 1", Finding: 1, Box: pen.Box(200, 400, 330, 520)}, {Key: "tag gone", Part: "gone", Box: pen.Box(600, 420, 720, 500)}})
	b.MarkSaved()
	start := bytesOf(rt, b.Plan())
	had := undoSteps(b)
	rt.Log("start", had)
	for range rapid.IntRange(1, 25).Draw(rt, "gestures") {
		rt.Log(h.gesture(), "→", b.UndoName())
		h.sound()
	}
	h.keys("<Escape>", "<Escape>", "<Escape>")
	end := bytesOf(rt, b.Plan())
	n := undoSteps(b)
	require.Equal(rt, end, bytesOf(rt, b.Plan()), "all undone and done again")
	for range n - had {
		require.NotEmpty(rt, b.UndoName())
		b.Undo()
		h.sound()
	}
	require.Equal(rt, start, bytesOf(rt, b.Plan()), "all undone")
	require.False(rt, b.Dirty())
	for range n - had {
		b.Redo()
	}
	require.Equal(rt, end, bytesOf(rt, b.Plan()), "done again")
}

// What is said of a person before it is placed is what the answer says once it
// is.
func TestPersonSaidBeforeIsTheAnswers(t *testing.T) {
	h := redirect(t)
	h.keys("p")
	rapid.Check(t, func(rt *rapid.T) {
		x, y := rapid.Float64Range(0, 40).Draw(rt, "x"), rapid.Float64Range(0, 26).Draw(rt, "y")
		h.move(x, y)
		said, filled := texts(h.b.Overlay()), h.b.Overlay().Ghost.Inside
		n := len(h.b.Plan().Site.People)
		h.click(x, y)
		require.Len(rt, h.b.Plan().Site.People, n+1)
		at := h.b.Answer().People[n]
		want := "outside the zones"
		if len(at.Inside) > 0 {
			want = "inside " + strings.NewReplacer("casualty", "casualty's way", "release", "flying-parts zone").Replace(string(at.Inside[0]))
		}
		require.Contains(rt, strings.Join(said, "|"), want)
		require.Equal(rt, len(at.Inside) > 0, filled, "the sign is filled as it will be")
		h.b.Undo()
	})
}

// Places that are no numbers do nothing.
func TestEventsWithoutPlaces(t *testing.T) {
	h := rigged(t)
	before := h.b.Plan()
	nan := math.NaN()
	for _, ev := range []board.Event{
		board.PointerMove{X: nan, Y: 3}, board.PointerDown{X: 3, Y: nan}, board.PointerUp{X: nan}, board.PointerMove{X: math.Inf(1)},
		board.Wheel{DX: nan}, board.Wheel{DY: math.Inf(-1)}, board.Resize{W: nan, H: 3}, board.Resize{}, board.Resize{W: -3, H: 4},
		board.Key{}, board.Rune{}, board.Rune{R: '\n'}, board.Command{ID: "nothing of the kind"}, board.PointerLeave{}, nil,
	} {
		h.b.Handle(ev)
		require.True(t, before == h.b.Plan(), fmt.Sprintf("%#v", ev))
		v := h.b.View()
		require.Falsef(t, math.IsNaN(v.PerM+v.Middle.X+v.Middle.Y+v.W+v.H) || v.PerM <= 0, "%#v", ev)
	}
}
