package board_test

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/canvas/board"
	"kedge/canvas/form"
	"kedge/solver/plan"
)

// picture is a small PNG picture.
func picture(t testing.TB, w, h int) []byte {
	t.Helper()
	img := image.NewNRGBA(image.Rect(0, 0, w, h))
	for x := range w {
		img.SetNRGBA(x, h/2, color.NRGBA{R: uint8(x), A: 255})
	}
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, img))
	return b.Bytes()
}

func withPictureOnBoard(t testing.TB) *hand {
	h := sit(t, nil)
	require.NoError(t, h.b.PlacePicture(plan.Underlay{Type: "image/png", Bytes: picture(t, 200, 100)}, ""))
	return h
}

func command(h *hand, id string) { h.b.Handle(board.Command{ID: id}) }

func TestPlacePicture(t *testing.T) {
	h := sit(t, nil)
	empty := h.bytes()
	v := h.b.View()
	require.NoError(t, h.b.PlacePicture(plan.Underlay{Type: "image/png", Bytes: picture(t, 200, 100)}, "The picture was made smaller."))
	u := h.b.Plan().Site.Underlay
	require.NotNil(t, u)
	near(t, v.Middle.X, u.At.X, 0.01, "middle")
	near(t, v.Middle.Y, u.At.Y, 0.01, "middle")
	// 1000 by 760 px of sheet: the width bounds a picture of 2 to 1, four fifths of it.
	near(t, 0.8*1000/v.PerM, u.Metres*200, 1e-9, "width")
	assert.Nil(t, u.Scaled)
	assert.Equal(t, board.ToolPictureScale, h.b.Tool())
	assert.Equal(t, []plan.ID{form.ThingUnderlay}, h.b.Selection())
	assert.Contains(t, h.b.Prompt(), "made smaller")
	assert.Contains(t, h.b.Prompt(), "not to scale yet")
	assert.Equal(t, "Place picture", h.b.UndoName())
	h.b.Undo()
	assert.Equal(t, empty, h.bytes())
	h.b.Redo()
	assert.Same(t, u, h.b.Plan().Site.Underlay)
}

func TestPlacePictureRefused(t *testing.T) {
	h := sit(t, nil)
	require.Error(t, h.b.PlacePicture(plan.Underlay{Type: "image/png", Bytes: []byte("no picture")}, ""))
	assert.Equal(t, "It is not a PNG or JPEG picture.", h.b.Prompt())
	assert.Nil(t, h.b.Plan().Site.Underlay)
	assert.Empty(t, h.b.UndoName())
}

// Two points 8 m apart as drawn that are 12 m apart make all half as large
// again; the first stays.
func TestScalePicture(t *testing.T) {
	for _, c := range []struct {
		name, typed           string
		length, doubt, factor float64
	}{
		{"a length", "12", 12, 0, 1.5},
		{"with ±", "12 ± 0.3 m", 12, 0.3, 1.5},
		{"with a share", "12 m ± 5 %", 12, 0.6, 1.5},
		{"a range", "10 to 14 m", 12, 2, 1.5},
		{"feet", "40 ft", 12.192, 0, 1.524}, // 0.3048 m a foot: NIST SP 811, B.8
	} {
		t.Run(c.name, func(t *testing.T) {
			h := withPictureOnBoard(t)
			was := *h.b.Plan().Site.Underlay
			from := plan.Point{X: was.At.X - 3, Y: was.At.Y}
			h.click(from.X, from.Y)
			assert.Equal(t, "Click the other end.", h.b.Prompt())
			h.move(from.X+8, from.Y)
			require.Len(t, h.b.Overlay().Texts, 2) // and that it is not to scale
			assert.Equal(t, "8.0 m as drawn", plain(h.b.Overlay().Texts[0].Text))
			h.click(from.X+8, from.Y)
			require.NotNil(t, h.b.Question())
			h.move(from.X+20, from.Y+5)
			require.Len(t, h.b.Overlay().Rubber, 2, "the two points stay in sight while the length is typed")
			near(t, from.X+8, h.b.Overlay().Rubber[1].X, 1e-3, "they")
			h.b.Handle(board.PointerLeave{})
			h.keys(c.typed)
			require.Len(t, h.b.Overlay().Rubber, 2)
			h.keys("<Enter>")
			assert.Nil(t, h.b.Plan().Site.Underlay.Scaled, "only of a picture that looks straight down")
			require.Len(t, h.b.Question().Numbered(), 2)
			h.keys("1")
			u := h.b.Plan().Site.Underlay
			require.NotNil(t, u.Scaled)
			near(t, was.Metres*c.factor, u.Metres, 1e-6, "scale")
			near(t, c.length, float64(u.Scaled.Length), 1e-9, "length")
			assert.True(t, u.Scaled.Down)
			near(t, c.doubt, float64(u.Scaled.Doubt), 1e-9, "±")
			near(t, from.X, u.Scaled.A.X, 1e-3, "the first point stays")
			near(t, from.X+c.length, u.Scaled.B.X, 1e-3, "the second")
			near(t, from.X+3*c.factor, u.At.X, 1e-3, "the middle")
			assert.Equal(t, board.ToolSelect, h.b.Tool())
			assert.Nil(t, h.b.Question())
			assert.Contains(t, h.b.Prompt(), "Scaled: ")
			assert.Equal(t, "Scale picture", h.b.UndoName())
			assert.Empty(t, h.b.Overlay().Texts[1:], "it is to scale: only the empty sheet's prompt is left")
			h.b.Undo()
			assert.Equal(t, was, *h.b.Plan().Site.Underlay)
		})
	}
}

func TestScalePictureRefused(t *testing.T) {
	for _, c := range []struct{ typed, why string }{
		{"0", "A length above 0 is needed to scale by."},
		{"1 ± 2 m", "A length above 0 is needed to scale by."},
		{"12 kg", "kg"},
	} {
		t.Run(c.typed, func(t *testing.T) {
			h := withPictureOnBoard(t)
			was := h.b.Plan()
			h.click(10, 10)
			h.click(18, 10)
			h.keys(c.typed, "<Enter>")
			q := h.b.Question()
			require.NotNil(t, q, "what was typed stays to be mended")
			assert.Equal(t, c.typed, q.Text)
			assert.Contains(t, q.Error, c.why)
			assert.Same(t, was, h.b.Plan())
			h.keys("<Escape>", "<Escape>", "<Escape>")
			assert.Equal(t, board.ToolSelect, h.b.Tool())
			assert.Same(t, was, h.b.Plan())
		})
	}
	t.Run("one place", func(t *testing.T) {
		h := withPictureOnBoard(t)
		h.click(10, 10)
		h.click(10.01, 10)
		assert.Nil(t, h.b.Question())
		assert.Equal(t, "The two points are one place. Click the other end.", h.b.Prompt())
	})
}

// Points are given by the keyboard as by the pointer.
func TestScalePictureByKeys(t *testing.T) {
	h := withPictureOnBoard(t)
	h.click(10, 10)
	h.click(18, 10)
	h.keys("12", "<Enter>", "1")
	k := withPictureOnBoard(t)
	k.keys("10;10", "<Enter>", "<Enter>", "18;10", "<Enter>", "<Enter>", "12", "<Enter>", "yes", "<Enter>")
	assert.Equal(t, h.bytes(), k.bytes())
}

func TestScalePictureByDrag(t *testing.T) {
	h := withPictureOnBoard(t)
	was := h.b.Plan().Site.Underlay.Metres
	h.drag([2]float64{10, 10}, [2]float64{14, 10}, [2]float64{18, 10})
	require.NotNil(t, h.b.Question())
	h.keys("4", "<Enter>", "1")
	near(t, was/2, h.b.Plan().Site.Underlay.Metres, 1e-6, "half")
}

// A line on the picture that points east is turned a quarter to the left to
// point north, about its first point.
func TestTurnPicture(t *testing.T) {
	h := withPictureOnBoard(t)
	h.click(10, 10)
	h.click(18, 10)
	h.keys("8", "<Enter>", "1")
	at := h.b.Plan().Site.Underlay.At
	command(h, "picture.turn")
	h.click(10, 10)
	h.click(18, 10)
	u := h.b.Plan().Site.Underlay
	near(t, 270, float64(u.Turn), 1e-9, "turn, clockwise")
	near(t, 10-(at.Y-10), u.At.X, 1e-3, "middle")
	near(t, 10+(at.X-10), u.At.Y, 1e-3, "middle")
	near(t, 10, u.Scaled.A.X, 1e-3, "the known length turns with it")
	near(t, 10, u.Scaled.B.X, 1e-3, "the known length turns with it")
	near(t, 18, u.Scaled.B.Y, 1e-3, "the known length turns with it")
	assert.Equal(t, "Turn picture", h.b.UndoName())
	assert.Equal(t, board.ToolSelect, h.b.Tool())
}

// Where the sheet's up is not north, north is where the north arrow points.
func TestTurnPictureToTheArrow(t *testing.T) {
	p := board.Empty()
	p.Site.Ground.NorthTurn = 30
	h := sit(t, p)
	require.NoError(t, h.b.PlacePicture(plan.Underlay{Type: "image/png", Bytes: picture(t, 200, 100)}, ""))
	command(h, "picture.turn")
	h.click(10, 10)
	h.click(10, 14)
	near(t, 330, float64(h.b.Plan().Site.Underlay.Turn), 1e-9, "up is 30° east of north: north is 30° left of up")
}

func TestMoveFadeRemovePicture(t *testing.T) {
	h := withPictureOnBoard(t)
	h.click(10, 10)
	h.click(18, 10)
	h.keys("8", "<Enter>", "1")
	was := *h.b.Plan().Site.Underlay
	command(h, "picture.move")
	h.move(12, 12)
	h.down(12, 12)
	h.move(15, 11)
	near(t, was.At.X+3, h.b.Shown().Site.Underlay.At.X, 1e-6, "preview")
	preview := bytesOf(t, h.b.Shown())
	h.up(15, 11)
	assert.Equal(t, preview, h.bytes(), "release gives what was shown")
	u := h.b.Plan().Site.Underlay
	near(t, was.At.X+3, u.At.X, 1e-6, "moved")
	near(t, was.At.Y-1, u.At.Y, 1e-6, "moved")
	near(t, 13, u.Scaled.A.X, 1e-3, "the known length moves with it")
	assert.Equal(t, "Move picture", h.b.UndoName())
	h.keys("<Escape>")
	h.b.FadePicture(0.75)
	near(t, 0.75, h.b.Plan().Site.Underlay.Fade, 0, "fade")
	h.b.FadePicture(math.NaN())
	h.b.FadePicture(2)
	near(t, 0.75, h.b.Plan().Site.Underlay.Fade, 0, "what is no share is left")
	h.b.Select(form.ThingUnderlay)
	h.keys("<Delete>")
	assert.Nil(t, h.b.Plan().Site.Underlay)
	assert.Empty(t, h.b.Selection())
	assert.Equal(t, "Remove picture", h.b.UndoName())
	for range 3 {
		h.b.Undo()
	}
	assert.Equal(t, was, *h.b.Plan().Site.Underlay)
}

// Metres per pixel typed in Details are the length they give the lower edge.
func TestScalePictureByField(t *testing.T) {
	h := withPictureOnBoard(t)
	require.NoError(t, h.b.Set(form.ThingUnderlay, "metres_per_pixel", "0.05"))
	u := h.b.Plan().Site.Underlay
	require.NotNil(t, u.Scaled)
	near(t, 10, float64(u.Scaled.Length), 1e-9, "200 pixels of 0.05 m")
	near(t, 10, math.Hypot(u.Scaled.B.X-u.Scaled.A.X, u.Scaled.B.Y-u.Scaled.A.Y), 1e-9, "between the points")
	require.NoError(t, h.b.Set(form.ThingUnderlay, "turn_deg", "90"))
	s := h.b.Plan().Site.Underlay.Scaled
	near(t, 10, s.A.Y-s.B.Y, 1e-9, "turned clockwise, east is south")
}

func TestPictureWithoutOne(t *testing.T) {
	h := sit(t, nil)
	was := h.bytes()
	for _, e := range h.b.Commands() {
		if len(e.ID) > 8 && e.ID[:8] == "picture." {
			assert.False(t, e.Enabled, e.ID)
			assert.NotEmpty(t, e.Why, e.ID)
		}
	}
	h.b.Arm(board.ToolPictureScale)
	h.click(10, 10)
	h.drag([2]float64{10, 10}, [2]float64{14, 10})
	h.b.Arm(board.ToolPictureMove)
	h.drag([2]float64{10, 10}, [2]float64{14, 10})
	h.b.FadePicture(0.5)
	assert.Equal(t, was, h.bytes())
	assert.Contains(t, h.b.Prompt(), "no picture")
}

// The undo list holds one copy of the picture, however long it is.
func TestPictureBytesAreShared(t *testing.T) {
	h := withPictureOnBoard(t)
	first := &h.b.Plan().Site.Underlay.Bytes[0]
	h.click(10, 10)
	h.click(18, 10)
	h.keys("12", "<Enter>", "1")
	h.b.FadePicture(0.5)
	require.NoError(t, h.b.Set(form.ThingUnderlay, "turn_deg", "12"))
	h.keys("v")
	h.click(10, 10)
	h.keys("2450", "<Enter>")
	for h.b.UndoName() != "" {
		if u := h.b.Plan().Site.Underlay; u != nil {
			assert.Same(t, first, &u.Bytes[0], h.b.UndoName())
		}
		h.b.Undo()
	}
}

// Whatever is done to a picture, its known length lies as far apart in the plan
// as it is long, and undoing gives back the bytes.
func TestPictureKeepsItsScale(t *testing.T) {
	data := picture(t, 120, 90)
	rapid.Check(t, func(rt *rapid.T) {
		h := sit(t, nil)
		empty := h.bytes()
		require.NoError(rt, h.b.PlacePicture(plan.Underlay{Type: "image/png", Bytes: data}, ""))
		num := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(rt, name) }
		for range rapid.IntRange(1, 6).Draw(rt, "edits") {
			switch rapid.IntRange(0, 3).Draw(rt, "edit") {
			case 0:
				command(h, "picture.scale")
				h.click(num("x", 5, 15), num("y", 5, 15))
				h.click(num("x", 20, 30), num("y", 5, 15))
				h.keys("7.5 ± 0.1", "<Enter>", "1")
			case 1:
				command(h, "picture.turn")
				h.click(num("x", 5, 15), num("y", 5, 15))
				h.click(num("x", 20, 30), num("y", 5, 15))
			case 2:
				command(h, "picture.move")
				h.drag([2]float64{10, 10}, [2]float64{num("x", 11, 30), num("y", 2, 15)})
				h.keys("<Escape>")
			case 3:
				h.b.FadePicture(num("fade", 0, 1))
			}
			u := h.b.Plan().Site.Underlay
			if !(u.Metres > 0) || math.IsInf(u.Metres, 0) {
				rt.Fatalf("metres per pixel %v", u.Metres)
			}
			if s := u.Scaled; s != nil {
				if d := math.Hypot(s.B.X-s.A.X, s.B.Y-s.A.Y); !(math.Abs(d-float64(s.Length)) <= 1e-6) {
					rt.Fatalf("%v m apart, known as %v", d, s.Length)
				}
			}
		}
		for h.b.UndoName() != "" {
			h.b.Undo()
		}
		if h.bytes() != empty {
			rt.Fatal("undo does not give the empty plan back")
		}
	})
}
