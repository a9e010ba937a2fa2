package form

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/words"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

const fourPairs = "100 ; 800 ; 0 ; 0\n900 ; 800 ; 10 ; 0 ; 0.1\n700 ; 400 ; 10 ; 10 ;  ; post\n300 ; 400 ; 0 ; 10 ; 0.2 ; gate ; left"

func TestMeasuredPointsAsLines(t *testing.T) {
	w, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	p := plan.New()
	p.Site.Underlay = &plan.Underlay{Type: "image/png", Bytes: []byte{1}, Metres: 0.01, Scaled: &plan.ScaleBy{B: plan.Point{X: 1}, Length: 1}}
	q, _, err := Set(p, "", ThingUnderlay, "measured_points", fourPairs, w)
	require.NoError(t, err)
	u := q.Site.Underlay
	require.Len(t, u.Points, 4)
	assert.Equal(t, plan.PicturePoint{Right: 300, Down: 400, At: plan.Point{Y: 10}, Doubt: 0.2, Name: "gate ; left"}, u.Points[3])
	assert.Equal(t, "post", u.Points[2].Name)
	assert.Zero(t, u.Points[2].Doubt)
	f, ok := FieldOf(q, "", ThingUnderlay, "measured_points", nil, w)
	require.True(t, ok)
	assert.Equal(t, fourPairs, f.Value)
	_, ok = FieldOf(q, "", ThingUnderlay, "metres_per_pixel", nil, w)
	assert.False(t, ok, "it lies by its points alone")
	again, _, err := Set(q, "", ThingUnderlay, "measured_points", f.Value, w)
	require.NoError(t, err)
	assert.Same(t, q, again)
	none, _, err := Set(q, "", ThingUnderlay, "measured_points", "", w)
	require.NoError(t, err)
	assert.Empty(t, none.Site.Underlay.Points)
	for given, want := range map[string]string{
		strings.Join(strings.Split(fourPairs, "\n")[:3], "\n"): "at least four measured points; there are 3. Measure 1 more.",
		"100 ; 800 ; 0":          "a measured point is right and down in the picture",
		"100 ; 800 ; 0 ; x":      "a number is missing",
		"100 ; 800 ; 0 ; 0 ; -1": "below",
		"-1 ; 800 ; 0 ; 0":       "below",
	} {
		_, _, err := Set(p, "", ThingUnderlay, "measured_points", given, w)
		require.Error(t, err, given)
		assert.Contains(t, w.Refusal(err), want, given)
	}
}

func TestReadPlace(t *testing.T) {
	for given, want := range map[string]struct {
		at    plan.Point
		doubt quantity.Length
	}{
		"12.5 3.2":            {plan.Point{X: 12.5, Y: 3.2}, 0},
		"12,5 ; -3,2":         {plan.Point{X: 12.5, Y: -3.2}, 0},
		"12.5 m ; 3.2 m ±0.1": {plan.Point{X: 12.5, Y: 3.2}, 0.1},
		"-4 7 ± 10 cm":        {plan.Point{X: -4, Y: 7}, 0.1},
		"10' 20' +/- 1'":      {plan.Point{X: 3.048, Y: 6.096}, 0.3048}, // 0.3048 m a foot: NIST SP 811, B.8
	} {
		at, doubt, err := ReadPlace(given, quantity.Metric)
		require.NoError(t, err, given)
		assert.InDelta(t, 0, at.Dist(want.at), 1e-12, given)
		assert.InDelta(t, float64(want.doubt), float64(doubt), 1e-12, given)
	}
	for _, given := range []string{"12.5", "1 2 3", "a b", "1 2 ± x", "1 2 ± -1", "1 ± 2 ; 3", "1 kg ; 2", ""} {
		_, _, err := ReadPlace(given, quantity.Metric)
		assert.Error(t, err, given)
	}
}

// A picture is hashed once, not at each drawing; another one is.
func TestPictureIsHashedOnce(t *testing.T) {
	first, other := []byte("abc"), []byte("abc")
	want := HashOf(first)
	first[0], other[0] = 'x', 'x' // no picture does that
	assert.Equal(t, want, HashOf(first), "it is not looked at again")
	assert.NotEqual(t, want, HashOf(other))
	assert.NotEqual(t, want, HashOf(first[:2]))
	assert.NotPanics(t, func() { HashOf(nil) })
}

// BenchmarkPictureDetails is what Details asks of a large picture at each drawing.
func BenchmarkPictureDetails(b *testing.B) {
	w, err := words.New("en", quantity.Metric)
	require.NoError(b, err)
	p := plan.New()
	p.Site.Underlay = &plan.Underlay{Type: "image/png", Bytes: make([]byte, plan.MaxUnderlayBytes), Metres: 0.01}
	for b.Loop() {
		Fields(p, "", ThingUnderlay, nil, w)
	}
}

// What is said of how a picture lies says what it rests on, and never that it fits where
// that was not checked.
func TestPictureLies(t *testing.T) {
	w, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	p := plan.New()
	assert.Nil(t, PictureLies(w, nil))
	u := &plan.Underlay{Type: "image/png", Bytes: []byte("abc"), Metres: 0.01}
	p.Site.Underlay = u
	says := func(want ...string) {
		t.Helper()
		all := strings.ReplaceAll(strings.Join(PictureLies(w, p.Site.Underlay), "\n"), "\u00a0", " ")
		for _, s := range want {
			assert.Contains(t, all, s)
		}
	}
	// SHA-256 of "abc": FIPS 180-4, as in its examples.
	const abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
	says("not to scale", abc, "not kept")
	u.Scaled = &plan.ScaleBy{B: plan.Point{X: 12}, Length: 12, Doubt: 0.101}
	says("12.00 m ± 0.11 m between two points. Whether it looks straight down was not said")
	u.Scaled.Down = true
	says("12.00 m ± 0.11 m between two points, on the assumption that it looks straight down")
	u.File, u.Original = "moss.jpg", abc
	says("moss.jpg, SHA-256 " + abc + "; the plan holds the file itself.")
	u.Original = strings.Repeat("0", 64)
	says("moss.jpg, SHA-256 "+u.Original, abc, "not that file")
	assert.NotRegexp(t, "turned|packed|smaller", strings.Join(PictureLies(w, u), " "), "what became of it is not known")
	p, _, err = Set(p, "", ThingUnderlay, "measured_points", fourPairs, w)
	require.NoError(t, err)
	says("four measured points: the fit can't be checked. Measure a fifth.")
	shown := func(member string) string {
		for _, f := range Fields(p, "", ThingUnderlay, nil, w) {
			if f.Member == "="+member {
				return f.Computed
			}
		}
		return ""
	}
	assert.Empty(t, shown("miss-0"), "four are met whatever they are")
	p, _, err = Set(p, "", ThingUnderlay, "measured_points", fourPairs+"\n500 ; 600 ; 5 ; 4 ; 0.05 ; stone", w)
	require.NoError(t, err)
	f := p.Site.Underlay.Fit()
	says("5 measured points", "root mean square", "point "+[]string{"1", "2", "3 (post)", "4 (gate ; left)", "5 (stone)"}[f.Worst()]+" the most")
	assert.Equal(t, missText(w, f.Miss[4])+", more than its ± of 0.05\u00a0m", shown("miss-4"))
	assert.Equal(t, missText(w, f.Miss[0]), shown("miss-0"), "no ± was said of it")
	assert.Equal(t, "0.03\u00a0m", missText(w, 0.0201), "rounded up")
	assert.Empty(t, PictureOff(w, &plan.Underlay{Points: p.Site.Underlay.Points[:4]}), "four are met whatever they are")
	off := PictureOff(w, p.Site.Underlay)
	assert.Contains(t, off, "point 5 (stone) by "+missText(w, f.Miss[4]), "many times its ±")
	assert.Equal(t, off, shown("off"))
	_, first := Mattering(p, "", ThingUnderlay)
	assert.Equal(t, shownOff, first[0], "above all else")
	assert.Empty(t, PictureOff(w, nil))
}
