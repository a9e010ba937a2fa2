package plan_test

import (
	"bytes"
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
	"kedge/solver/refusal"
)

// Each file in testdata/refused is refused; the sentences, which lie beside them,
// are tested where they are made, in canvas/words.
func TestRefusedFiles(t *testing.T) {
	files, err := filepath.Glob("../../testdata/refused/*.kedge")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".kedge"), func(t *testing.T) {
			data, err := os.ReadFile(file)
			require.NoError(t, err)
			p, err := plan.ParsePlan(data)
			require.Nil(t, p)
			var e *refusal.Error
			require.True(t, errors.As(err, &e))
			require.Error(t, e.Err, "there is a sentinel")
			assert.Len(t, e.Said, len(e.Values), "%s says what its sentence needs", e.ID)
		})
	}
}

func TestRefusedBySize(t *testing.T) {
	const head = `{"format":"kedge-plan","version":1,"min_reader":1,"site":{`
	for _, tt := range []struct {
		name, data, want string
	}{
		{"64 MiB", head + strings.Repeat(" ", plan.MaxBytes) + "}}", "plan: file-large"},
		{"500 things", head + `"anchors":[` + strings.Repeat(`{"id":"T1","kind":"tree","at":{"x_m":1,"y_m":2}},`, 501) + `]}}`,
			"plan: /site/anchors/500: many-things"},
		{"100 000 points", head + `"survey":{"points":[` + strings.Repeat(`{"x_m":1,"y_m":2},`, 100001) + `]}}}`,
			"plan: /site/survey/points: many-points"},
		{"200 000 objects", head + `"later":[` + strings.Repeat(`{},`, 500001) + `]}}`,
			"plan: /site/later/199998: many-objects"},
		{"12 MiB of underlay", head + `"underlay":{"type":"image/png","at":{"x_m":0,"y_m":0},"metres_per_pixel":0.1,"bytes":"` + strings.Repeat("AAAA", 4<<20+1) + `"}}}`,
			"plan: /site/underlay/bytes: picture-large"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := plan.ParsePlan([]byte(tt.data))
			require.EqualError(t, err, tt.want)
			assert.ErrorIs(t, err, plan.ErrLimit)
		})
	}
}

func TestSentinels(t *testing.T) {
	for name, sentinel := range map[string]error{
		"empty": plan.ErrEmpty, "binary": plan.ErrFormat, "newer": plan.ErrNewer, "trailing": plan.ErrSyntax, "deep": plan.ErrLimit,
		"no-bearing": plan.ErrMember, "heavy": plan.ErrValue, "doubled-id": plan.ErrID, "line-to-nothing": plan.ErrRef, "bow-tie": plan.ErrOutline,
	} {
		data, err := os.ReadFile("../../testdata/refused/" + name + ".kedge")
		require.NoError(t, err)
		_, err = plan.ParsePlan(data)
		assert.ErrorIs(t, err, sentinel, name)
	}
}

func TestFormatRefusesWhatParseWould(t *testing.T) {
	nan := plan.New()
	nan.Site.Notes = []plan.Note{{Head: plan.Head{ID: "N1"}, At: plan.Point{X: math.NaN()}}}
	_, err := plan.FormatPlan(nan)
	require.EqualError(t, err, `plan: /site/notes/0/at/x_m: not-finite x="NaN"`)

	bad := plan.New()
	bad.Title = "\xff"
	_, err = plan.FormatPlan(bad)
	require.ErrorIs(t, err, plan.ErrSyntax)

	for _, title := range []string{"once", ""} { // an empty title is left out: the member would be read as the title
		hidden := plan.New()
		hidden.Title, hidden.Extra = title, []byte(`{"title":"smuggled"}`)
		_, err = plan.FormatPlan(hidden)
		require.EqualError(t, err, "plan: /title: member-hidden")
	}

	for _, raw := range []string{`[1]`, `{"a":`, `{"a":1,"a":2}`, `7`} {
		damaged := plan.New()
		damaged.Extra = []byte(raw)
		_, err = plan.FormatPlan(damaged)
		require.ErrorIs(t, err, plan.ErrSyntax, raw)
	}

	_, err = plan.FormatPlan(nil)
	require.ErrorIs(t, err, plan.ErrEmpty)
}

func TestByteOrderMarkIsPassedOver(t *testing.T) {
	data, err := plan.FormatPlan(plan.New())
	require.NoError(t, err)
	p, err := plan.ParsePlan(append([]byte("\xEF\xBB\xBF"), data...))
	require.NoError(t, err)
	again, err := plan.FormatPlan(p)
	require.NoError(t, err)
	assert.True(t, bytes.Equal(data, again))
}
