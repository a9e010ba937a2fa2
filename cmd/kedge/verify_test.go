package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/report"
	"kedge/canvas/store"
	"kedge/solver/facts"
	"kedge/solver/plan"
)

// attached attaches a picture to the first piece of evidence of a plan's file.
func attached(t *testing.T, file, name string) {
	t.Helper()
	raw, err := os.ReadFile(file)
	require.NoError(t, err)
	p, err := plan.ParsePlan(raw)
	require.NoError(t, err)
	sum := sha256.Sum256([]byte(name))
	p.Photos = []plan.Photo{{Type: "image/png", Bytes: []byte("not looked at here"), File: name, Original: hex.EncodeToString(sum[:])}}
	p.Rigs[0].Incident.Pins[0].Shows = p.Photos[0].Original
	raw, err = plan.FormatPlan(p)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(file, raw, 0o600))
}

// A sealed copy says plan, seed, version and handbook; it is unaltered (0) until a byte
// is changed (1), and what is none is unreadable (3). A later copy follows one that is
// unaltered, and no other.
func TestSealAndVerify(t *testing.T) {
	dir := t.TempDir()
	file, sealed, later := failed(t, strapBroken, groaned), filepath.Join(dir, "a.sealed"), filepath.Join(dir, "b.sealed")
	attached(t, file, "tag.png")
	photo := filepath.Join(dir, "strap.jpg")
	require.NoError(t, os.WriteFile(photo, []byte("not really a picture"), 0o600))
	_, errs, _ := call(t, "", "reconstruct", "--seed", "5", "--seal", sealed, "--picture", photo, file)
	require.Empty(t, errs)
	data, err := os.ReadFile(sealed)
	require.NoError(t, err)
	var s store.Sealed
	require.NoError(t, json.Unmarshal(data, &s))
	raw, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(raw), string(s.Plan.Data))
	assert.Equal(t, []any{uint64(5), "kedge " + report.Version, facts.Revision(), "A tag.png", "strap.jpg"}, []any{s.Seed, s.App, s.Handbook, s.Pictures[0].Name, s.Pictures[1].Name})

	out, errs, status := call(t, "", "verify", "--expect", s.Hash, sealed)
	require.Empty(t, errs)
	assert.Equal(t, statusDone, status)
	for _, want := range []string{s.Hash, s.Plan.Hash, "seed 5", "kedge " + report.Version, facts.Revision(), s.Figures.Hash, "picture A tag.png: sha256 " + s.Pictures[0].Hash, "picture strap.jpg: sha256 " + s.Pictures[1].Hash} {
		assert.Contains(t, out, want)
	}
	_, _, status = call(t, "", "verify", "--expect", strings.Repeat("0", 64), sealed)
	assert.Equal(t, statusDanger, status, "sealed anew")
	for _, none := range []string{"", "00", s.Hash + " ", s.Hash[1:] + "g"} {
		_, errs, status = call(t, "", "verify", "--expect", none, sealed)
		assert.Equal(t, statusUse, status)
		assert.Contains(t, errs, "it is no hash of a sealed copy")
	}

	_, errs, _ = call(t, "", "reconstruct", "--seal", later, "--after", sealed, "--why", "the mass was weighed", file)
	require.Empty(t, errs)
	out, _, status = call(t, "", "verify", later)
	assert.Equal(t, statusDone, status)
	assert.Contains(t, out, "follows "+s.Hash+": the mass was weighed")

	require.NoError(t, os.WriteFile(sealed, bytes.Replace(data, []byte(`"seed": 5`), []byte(`"seed": 6`), 1), 0o600))
	out, _, status = call(t, "", "verify", sealed)
	assert.Equal(t, statusDanger, status)
	assert.Contains(t, out, "Altered")
	_, _, status = call(t, "", "reconstruct", "--seal", later, "--after", sealed, "--why", "again", file)
	assert.Equal(t, statusRefused, status)
	for _, name := range []string{file, filepath.Join(dir, "nothing.sealed")} {
		_, errs, status = call(t, "", "verify", name)
		assert.Equal(t, statusRefused, status)
		assert.NotEmpty(t, errs)
	}
}

// What belongs to a sealed copy is of no use without one, and a later copy says why: both
// are told before anything is drawn.
func TestASealIsAskedForWhole(t *testing.T) {
	file := failed(t, strapBroken, groaned)
	for want, flags := range map[string][]string{
		"say with --why": {"--seal", "new.sealed", "--after", "old.sealed"},
		"give --after":   {"--seal", "new.sealed", "--why", "it was weighed"},
		"give --seal":    {"--after", "old.sealed", "--why", "it was weighed"},
		"give --seal ":   {"--picture", "moss.jpg"},
	} {
		_, errs, status := call(t, "", append(append([]string{"reconstruct"}, flags...), file)...)
		assert.Equal(t, statusUse, status, flags)
		assert.Contains(t, errs, strings.TrimSpace(want))
	}
}

// How the picture lies that a sealed plan was traced over is sealed with it and told: its
// points are in what was found, and a copy is said to differ from its file, no more.
func TestASealSaysHowThePictureLies(t *testing.T) {
	file, sealed := failed(t, strapBroken, groaned), filepath.Join(t.TempDir(), "a.sealed")
	raw, err := os.ReadFile(file)
	require.NoError(t, err)
	p, err := plan.ParsePlan(raw)
	require.NoError(t, err)
	p.Site.Underlay = &plan.Underlay{Type: "image/png", Bytes: []byte("another"), File: "moss.jpg", Original: "00ff", Metres: 0.01}
	for _, at := range []plan.Point{{}, {X: 10}, {X: 10, Y: 10}, {Y: 10}, {X: 5, Y: 5}} {
		p.Site.Underlay.Points = append(p.Site.Underlay.Points, plan.PicturePoint{Right: 100 + 50*at.X, Down: 900 - 50*at.Y, At: at})
	}
	p.Site.Underlay.Points[4].At.X += 5
	raw, err = plan.FormatPlan(p)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(file, raw, 0o600))
	_, errs, status := call(t, "", "reconstruct", "--seal", sealed, file)
	require.Empty(t, errs)
	assert.Equal(t, statusUnsettled, status)
	data, err := os.ReadFile(sealed)
	require.NoError(t, err)
	s, _, err := store.Unseal(data)
	require.NoError(t, err)
	var figures report.Answer
	require.NoError(t, json.Unmarshal(s.Figures.Data, &figures))
	require.Len(t, figures.Picture.Points, 5)
	assert.Equal(t, "00ff", figures.Picture.Original)
	out, _, _ := call(t, "", "verify", sealed)
	for _, want := range []string{"CAUTION: The picture to trace misses", "laid by 5 measured points", "moss.jpg, SHA-256 00ff", "not that file"} {
		assert.Contains(t, out, want)
	}
	assert.NotContains(t, out, "turned")
}

// What is there already is never written over by a sealed copy: neither another copy, whose
// pictures may be in no other place, nor the plan itself.
func TestASealOverwritesNothing(t *testing.T) {
	file := failed(t, strapBroken, groaned)
	sealed := filepath.Join(t.TempDir(), "a.sealed")
	require.NoError(t, os.WriteFile(sealed, []byte("kept"), 0o600))
	for _, there := range []string{sealed, file} {
		was, err := os.ReadFile(there)
		require.NoError(t, err)
		_, errs, status := call(t, "", "reconstruct", "--seal", there, file)
		assert.Equal(t, statusRefused, status)
		assert.Contains(t, errs, "there already")
		given, stop := context.WithCancel(t.Context())
		stop()
		_, _, err = reconstruct(given, file, nil, reconstructOptions{units: "kN", lang: "en", seal: sealOptions{file: there}})
		status, _ = explain(err)
		assert.Equal(t, statusRefused, status, "before anything is reckoned")
		is, err := os.ReadFile(there)
		require.NoError(t, err)
		assert.Equal(t, was, is)
	}
}
