package store_test

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/store"
)

// Snapshots are in the order in which they were written, whatever the clock said.
func TestSnapshotsAreInOrderAfterTheClockIsSetBack(t *testing.T) {
	s := own(t)
	first, second := s.NewSession("", store.Stamp{}), s.NewSession("", store.Stamp{})
	require.NoError(t, first.Write(titled(example(t), "1")))
	require.NoError(t, second.Write(titled(example(t), "2")))
	require.NoError(t, first.Write(titled(example(t), "3")))
	die(t, s)
	list, err := s.Recoverable()
	require.NoError(t, err)
	require.Len(t, list, 2)
	assert.Equal(t, []string{"3", "2"}, []string{list[0].Title, list[1].Title})

	all, err := filepath.Glob(filepath.Join(s.State, "recovery", "*", "plan.snapshot"))
	require.NoError(t, err)
	for i, f := range all { // as if the first session had been written to before the clock was set back
		at := time.Date(2026, 5, 1, 9, 0, i, 0, time.UTC)
		require.NoError(t, os.Chtimes(f, at, at))
	}
	list, err = s.Recoverable()
	require.NoError(t, err)
	assert.Equal(t, []string{"3", "2"}, []string{list[0].Title, list[1].Title})
}

// A lock file that was cut off, of a clock an hour ahead that was set back since,
// is taken over.
func TestLockAfterTheClockIsSetBack(t *testing.T) {
	s := own(t)
	file := filepath.Join(t.TempDir(), "moss.kedge")
	_, err := s.Lock(file)
	require.NoError(t, err)
	path := lockFile(t, s)
	require.NoError(t, os.WriteFile(path, nil, 0o600))
	_, err = s.Lock(file)
	assert.ErrorIs(t, err, store.ErrBusy, "it is just being written")
	ahead := time.Now().Add(time.Hour)
	require.NoError(t, os.Chtimes(path, ahead, ahead))
	l, err := s.Lock(file)
	require.NoError(t, err)
	assert.True(t, l.Held())
}
