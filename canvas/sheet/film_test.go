package sheet_test

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/gif"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/sheet"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/quantity"
	"kedge/solver/travel"
)

// The redirect's 6 m of way at two frames a metre are 13 frames, first and last
// included. Each frame after the first lies within the first, and the whole is small
// enough to be sent: a picture of 960 pixels has half a million, a byte each. (ours)
func TestFilmIsAnAnimatedPicture(t *testing.T) {
	x := sheet.Film{Plan: example(t, "redirect"), Rig: "R1", Words: english(t, quantity.Metric)}
	files, err := x.Files(context.Background(), "pull.gif")
	require.NoError(t, err)
	require.Len(t, files, 1)
	assert.Equal(t, "pull.gif", files[0].Path)
	film, err := gif.DecodeAll(bytes.NewReader(files[0].Data))
	require.NoError(t, err)
	require.Len(t, film.Image, 13)
	assert.Equal(t, image.Rect(0, 0, film.Config.Width, film.Config.Height), film.Image[0].Rect)
	assert.InDelta(t, 960, film.Config.Width, 1)
	for i, f := range film.Image {
		assert.True(t, f.Rect.In(film.Image[0].Rect), "frame %d", i)
		assert.LessOrEqual(t, len(f.Palette), 64)
	}
	assert.Less(t, len(files[0].Data), 1<<20)
	again, err := x.Files(context.Background(), "pull.gif")
	require.NoError(t, err)
	assert.True(t, bytes.Equal(files[0].Data, again[0].Data), "the same plan gives the same bytes")
}

// Every frame says, in every language, where it is and what the line pulls there: what
// the rig has drawn there.
func TestFramesSayTheirMoment(t *testing.T) {
	p := example(t, "redirect")
	for _, lang := range words.Languages() {
		w, err := words.New(lang, quantity.Metric)
		require.NoError(t, err)
		files, err := sheet.Film{Plan: p, Rig: "R1", Words: w, PerM: 0.5}.Files(context.Background(), "pull.svg")
		require.NoError(t, err)
		require.Len(t, files, 4, "6 m at a frame every 2 m")
		for i, f := range files {
			assert.Equal(t, fmt.Sprintf("pull-%03d.svg", i+1), f.Path)
			atM := 2 * float64(i)
			a := solver.Assess(travel.At(p, "R1", atM), "R1")
			at := quantity.PlainSpaces(w.Value(part.Value{Unit: part.UnitLength, X: atM}, nil))
			said := quantity.PlainSpaces(string(f.Data))
			assert.Contains(t, said, ">"+at+": ", lang)
			assert.Contains(t, said, quantity.PlainSpaces(w.Load(a.Move.Tension)), lang)
			level, _, _, _ := w.Verdict(travel.Whole(p, "R1"), nil)
			assert.Contains(t, said, w.Level(level), "the verdict on the whole pull")
		}
	}
}

func TestFilmIsGivenUp(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	told := 0
	x := sheet.Film{Plan: example(t, "redirect"), Rig: "R1", Words: english(t, quantity.Metric), Progress: func(done, total int) {
		told++
		assert.Equal(t, 13, total)
		if done == 2 {
			cancel()
		}
	}}
	for _, name := range []string{"pull.gif", "pull.png"} {
		_, err := x.Files(ctx, name)
		assert.ErrorIs(t, err, context.Canceled, name)
	}
	assert.Equal(t, 3, told, "frames 0, 1 and 2 of the first, none of the second")
}

func TestFilmsAreRefused(t *testing.T) {
	w := english(t, quantity.Metric)
	p := example(t, "redirect")
	for _, c := range []struct {
		film sheet.Film
		name string
		want error
	}{
		{sheet.Film{Plan: example(t, "straight"), Rig: "R1", Words: w}, "x.gif", sheet.ErrEmpty}, // it bears on the boulder as drawn
		{sheet.Film{Rig: "R1", Words: w}, "x.gif", sheet.ErrEmpty},
		{sheet.Film{Plan: p, Rig: "R1", Words: w}, "x.pdf", sheet.ErrEnding},
		{sheet.Film{Plan: p, Rig: "R1", Words: w, PerM: -1}, "x.gif", sheet.ErrOption},
		{sheet.Film{Plan: p, Rig: "R1", Words: w, WidthPx: 10}, "x.gif", sheet.ErrOption},
		{sheet.Film{Plan: p, Rig: "R1", Words: w, WidthPx: 1921}, "x.gif", sheet.ErrOption},
	} {
		files, err := c.film.Files(context.Background(), c.name)
		assert.ErrorIs(t, err, c.want)
		assert.Empty(t, files)
	}
}
