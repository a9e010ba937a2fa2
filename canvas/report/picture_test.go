package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/form"
	"kedge/canvas/words"
	"kedge/solver/doubt"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// With the facts stands which picture shows a piece of evidence, by its file and hash.
func TestFactsNameThePictureOfEvidence(t *testing.T) {
	w, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	p := plan.New()
	p.Photos = []plan.Photo{{Bytes: []byte("abc"), File: "tag.png", Original: "h1"}}
	pin := plan.Pin{ID: "A", Kind: plan.PinTag, Shows: "h1"}
	a := &Report{Plan: p, Found: &doubt.Reconstruction{Pins: []doubt.PinUse{{Pin: &pin}, {Pin: &plan.Pin{ID: "B", Kind: plan.PinTag}}}}, w: w, Names: func(plan.ID) string { return "" }}
	all := strings.Join(a.Evidence().Lines, "\n")
	assert.Contains(t, all, "Picture: tag.png, SHA-256 h1")
	assert.Equal(t, 1, strings.Count(all, "Picture:"))
}

// A report says with its assumptions how the picture lies that was traced, in every language,
// and says nothing where there is none.
func TestAssumptionsSayHowThePictureLies(t *testing.T) {
	for _, language := range words.Languages() {
		w, err := words.New(language, quantity.Metric)
		require.NoError(t, err)
		p := plan.New()
		a := &Report{Plan: p, Found: &doubt.Reconstruction{}, w: w}
		none := a.Assumptions().Lines
		p.Site.Underlay = &plan.Underlay{Type: "image/png", Metres: 0.01, Scaled: &plan.ScaleBy{B: plan.Point{X: 1}, Length: 1, Down: true}}
		lines := a.Assumptions().Lines
		assert.Equal(t, none, lines[:len(lines)-2])
		assert.Equal(t, form.PictureLies(w, p.Site.Underlay), lines[len(lines)-2:])
	}
}

// A picture that misses a measured point by far is a caution of both answers, and stands in
// them as figures with each of its points.
func TestAPictureThatIsFarOffIsACaution(t *testing.T) {
	w, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	p := plan.New()
	u := &plan.Underlay{Type: "image/png", Bytes: []byte("abc"), File: "moss.jpg", Original: "00"}
	for i, at := range []plan.Point{{}, {X: 10}, {X: 10, Y: 10}, {Y: 10}, {X: 5, Y: 5}, {X: 3, Y: 6}} {
		u.Points = append(u.Points, plan.PicturePoint{Right: 100 + 50*at.X, Down: 900 - 50*at.Y, At: at.Plus(1e6, 0)})
		if u.Points[i].Name = "post"; i == 0 {
			u.Points[i].Doubt = 0.1
		}
	}
	p.Site.Underlay = u
	a := &Report{Plan: p, Found: &doubt.Reconstruction{Pins: []doubt.PinUse{{Pin: &plan.Pin{}, Trust: 1}}}, w: w}
	c := &Chances{Plan: p, Found: &doubt.Chances{}, w: w}
	assert.Empty(t, a.Cautions())
	assert.Empty(t, c.Cautions())
	lies := PictureOf(p)
	assert.Equal(t, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", lies.Own) // of "abc": FIPS 180-4
	require.Len(t, lies.Points, 6)
	assert.Equal(t, 1000010.0, lies.Points[1].X, "to the last digit")
	assert.True(t, *lies.Points[0].PlusMinus == 0.1 && lies.Points[1].PlusMinus == nil)
	assert.InDelta(t, 0, float64(*lies.RMS), 1e-6)
	u.Points[4].At.X += 5
	off := form.PictureOff(w, u)
	require.NotEmpty(t, off)
	assert.Equal(t, []string{off}, a.Cautions())
	assert.Equal(t, []string{off}, c.Cautions())
	assert.True(t, PictureOf(p).Points[4].Off)
	u.Points = u.Points[:4]
	lies = PictureOf(p)
	assert.Nil(t, lies.RMS)
	assert.True(t, lies.Points[0].Miss == nil && lies.Points[0].Hides, "nothing checks four")
	u.Points, u.Scaled = nil, &plan.ScaleBy{B: plan.Point{X: 1}, Length: 12, Down: true}
	lies = PictureOf(p)
	assert.Equal(t, "two points", lies.LaidBy)
	assert.True(t, lies.Down && *lies.Length == 12 && lies.PlusMinus == nil)
}
