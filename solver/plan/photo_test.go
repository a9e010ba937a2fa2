package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
	"kedge/solver/seeded"
)

// shown is a plan with evidence that a picture shows.
func shown(t *testing.T, hash string, photos ...plan.Photo) *plan.Plan {
	p := *seeded.Example(t, "redirect")
	p.Photos = photos
	return plan.WithPin(&p, 0, plan.Pin{ID: "A", Kind: plan.PinTag, Shows: hash})
}

func tag(hash string) plan.Photo {
	return plan.Photo{Type: "image/png", Bytes: []byte("picture " + hash), File: hash + ".png", Original: hash}
}

// What a pin shows is written and read again, and has to be in the plan, whether it is a
// picture of evidence or the one to trace; the file of one is there once.
func TestPhotosOfEvidence(t *testing.T) {
	p := shown(t, "h1", tag("h1"), tag("h2"))
	data, err := plan.FormatPlan(p)
	require.NoError(t, err)
	back, err := plan.ParsePlan(data)
	require.NoError(t, err)
	require.NotNil(t, back.Photo("h1"))
	assert.Equal(t, tag("h1").Bytes, back.Photo("h1").Bytes)
	again, err := plan.FormatPlan(back)
	require.NoError(t, err)
	assert.Equal(t, string(data), string(again))

	traced := *shown(t, "h3")
	traced.Site.Underlay = &plan.Underlay{Type: "image/png", Bytes: []byte("x"), Original: "h3", Metres: 0.01}
	require.NoError(t, plan.Validate(&traced))
	assert.Equal(t, []byte("x"), traced.Photo("h3").Bytes)

	none := *seeded.Example(t, "redirect")
	data, err = plan.FormatPlan(&none)
	require.NoError(t, err)
	assert.NotContains(t, string(data), "photos", "a plan without them is written as ever")
	assert.Nil(t, none.Photo(""))

	for name, c := range map[string]struct {
		p  *plan.Plan
		in error
		at string
	}{
		"names none": {shown(t, "h9", tag("h1")), plan.ErrRef, "/rigs/0/incident/pins/0/picture"},
		"twice":      {shown(t, "h1", tag("h1"), tag("h1")), plan.ErrPicture, "/photos/1"},
		"of no file": {shown(t, "", tag("")), plan.ErrPicture, "/photos/0"},
		"too much":   {shown(t, "h1", plan.Photo{Original: "h1", Bytes: make([]byte, plan.MaxPhotosBytes+1)}), plan.ErrLimit, "/photos/0/bytes"},
	} {
		err := plan.Validate(c.p)
		require.ErrorIs(t, err, c.in, name)
		assert.True(t, strings.Contains(err.Error(), c.at), "%s: %v", name, err)
	}
}

// A picture that a pin names is not lost with what it came from, and one that no pin names is
// not kept.
func TestPhotosAreKeptAsLongAsTheyAreNamed(t *testing.T) {
	p := shown(t, "h3", tag("h1"))
	q := *p
	q.Site.Underlay = &plan.Underlay{Type: "image/png", Bytes: []byte("x"), File: "moss.png", Original: "h3", Metres: 0.01}
	without := q
	without.Site.Underlay = nil
	kept := plan.KeepPhotos(&q, &without)
	require.NoError(t, plan.Validate(kept))
	assert.Equal(t, []plan.Photo{{Type: "image/png", Bytes: []byte("x"), File: "moss.png", Original: "h3"}}, kept.Photos, "h1 is named by none")
	assert.Len(t, without.Photos, 1, "the edit itself stays")
	bare := plan.KeepPhotos(kept, plan.WithoutPin(kept, 0, "A"))
	assert.Empty(t, bare.Photos)
	assert.Same(t, kept, plan.KeepPhotos(&q, kept))
}
