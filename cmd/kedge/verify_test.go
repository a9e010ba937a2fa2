package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/report"
	"kedge/canvas/store"
	"kedge/solver/facts"
)

// A sealed copy says plan, seed, version and handbook; it is unaltered (0) until a byte
// is changed (1), and what is none is unreadable (3). A later copy follows one that is
// unaltered, and no other.
func TestSealAndVerify(t *testing.T) {
	dir := t.TempDir()
	file, sealed, later := failed(t, strapBroken, groaned), filepath.Join(dir, "a.sealed"), filepath.Join(dir, "b.sealed")
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
	assert.Equal(t, []any{uint64(5), "kedge " + report.Version, facts.Revision(), "strap.jpg"}, []any{s.Seed, s.App, s.Handbook, s.Pictures[0].Name})

	out, errs, status := call(t, "", "verify", "--expect", s.Hash, sealed)
	require.Empty(t, errs)
	assert.Equal(t, statusDone, status)
	for _, want := range []string{s.Hash, s.Plan.Hash, "seed 5", "kedge " + report.Version, facts.Revision(), s.Figures.Hash, "picture strap.jpg: sha256 " + s.Pictures[0].Hash} {
		assert.Contains(t, out, want)
	}
	_, _, status = call(t, "", "verify", "--expect", "00", sealed)
	assert.Equal(t, statusDanger, status, "sealed anew")

	_, errs, _ = call(t, "", "reconstruct", "--seal", later, "--after", sealed, "--why", "the mass was weighed", file)
	require.Empty(t, errs)
	out, _, status = call(t, "", "verify", later)
	assert.Equal(t, statusDone, status)
	assert.Contains(t, out, "follows "+s.Hash+": the mass was weighed")

	require.NoError(t, os.WriteFile(sealed, bytes.Replace(data, []byte(`"seed": 5`), []byte(`"seed": 6`), 1), 0o600))
	out, _, status = call(t, "", "verify", sealed)
	assert.Equal(t, statusDanger, status)
	assert.Contains(t, out, "Altered")
	_, _, status = call(t, "", "reconstruct", "--seal", later, "--after", sealed, file)
	assert.Equal(t, statusRefused, status)
	for _, name := range []string{file, filepath.Join(dir, "nothing.sealed")} {
		_, errs, status = call(t, "", "verify", name)
		assert.Equal(t, statusRefused, status)
		assert.NotEmpty(t, errs)
	}
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
		is, err := os.ReadFile(there)
		require.NoError(t, err)
		assert.Equal(t, was, is)
	}
}
