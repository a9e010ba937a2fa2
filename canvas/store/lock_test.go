package store_test

import (
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/store"
)

func lockFile(t *testing.T, s *store.Store) string {
	t.Helper()
	all, err := filepath.Glob(filepath.Join(s.State, "locks", "*"))
	require.NoError(t, err)
	require.Len(t, all, 1)
	return all[0]
}

func TestLock(t *testing.T) {
	s := own(t)
	folder := t.TempDir()
	file := filepath.Join(folder, "moss.kedge")
	l, err := s.Lock(file)
	require.NoError(t, err)
	assert.True(t, l.Held())

	// Another way to the same file.
	require.NoError(t, os.Symlink(folder, filepath.Join(folder, "way")))
	_, err = s.Lock(filepath.Join(folder, "way", "moss.kedge"))
	var busy *store.Busy
	require.ErrorAs(t, err, &busy)
	assert.ErrorIs(t, err, store.ErrBusy)
	assert.Equal(t, os.Getpid(), busy.PID)
	assert.Empty(t, busy.Host)
	assert.Equal(t, "moss.kedge: it is open in another window. Go on there, or work on a copy here.", said(t, err))
	other, err := s.Lock(filepath.Join(folder, "fen.kedge"))
	require.NoError(t, err, "another file is another lock")
	require.NoError(t, other.Release())

	require.NoError(t, l.Release())
	assert.NoError(t, l.Release(), "twice")
	assert.False(t, l.Held())
	l, err = s.Lock(file)
	require.NoError(t, err)
	require.NoError(t, l.Release())
	assert.Empty(t, names(t, filepath.Join(s.State, "locks")))
}

func TestLockOfTheGone(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(o map[string]any)
		busy   bool
		text   string
	}{
		{"process has ended", func(o map[string]any) { o["pid"] = deadPID(); delete(o, "process") }, false, ""},
		{"number given to a later process", func(o map[string]any) { o["process"] = "another boot/1" }, false, ""},
		{"number that is none", func(o map[string]any) { o["pid"] = 0 }, true, "moss.kedge: it is open in another window. Go on there, or work on a copy here."},
		{"still runs", func(map[string]any) {}, true, "moss.kedge: it is open in another window. Go on there, or work on a copy here."},
		{"other machine", func(o map[string]any) { o["host"] = "hut"; o["pid"] = deadPID() }, true, "moss.kedge: it is open in another window on hut. Go on there, or work on a copy here."},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := own(t)
			file := filepath.Join(t.TempDir(), "moss.kedge")
			old, err := s.Lock(file)
			require.NoError(t, err)
			data, err := os.ReadFile(lockFile(t, s))
			require.NoError(t, err)
			require.NoError(t, os.WriteFile(lockFile(t, s), changedOwner(t, data, c.change), 0o600))

			l, err := s.Lock(file)
			if c.busy {
				require.ErrorIs(t, err, store.ErrBusy)
				assert.Equal(t, c.text, said(t, err))
				l, err = s.TakeLock(file)
			}
			require.NoError(t, err)
			assert.True(t, l.Held())
			assert.Len(t, names(t, filepath.Join(s.State, "locks")), 1, "no guard is left")
			require.NoError(t, old.Release())
			assert.True(t, l.Held(), "who lost it does not take it off")
		})
	}
}

func TestLockCutOff(t *testing.T) {
	s := own(t)
	file := filepath.Join(t.TempDir(), "moss.kedge")
	_, err := s.Lock(file)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(lockFile(t, s), nil, 0o600))
	_, err = s.Lock(file)
	assert.ErrorIs(t, err, store.ErrBusy, "somebody may be writing it")
	s.Now = func() time.Time { return time.Now().Add(time.Minute) }
	l, err := s.Lock(file)
	require.NoError(t, err, "nobody writes that long")
	assert.True(t, l.Held())
}

// Of many windows that find the mark of a dead one, one takes it over.
func TestLockIsTakenOverOnce(t *testing.T) {
	for range 20 {
		s := own(t)
		file := filepath.Join(t.TempDir(), "moss.kedge")
		_, err := s.Lock(file)
		require.NoError(t, err)
		data, err := os.ReadFile(lockFile(t, s))
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(lockFile(t, s), deadOwner(t, data), 0o600))

		var wg sync.WaitGroup
		locks := make([]*store.Lock, 16)
		for i := range locks {
			wg.Go(func() {
				if l, err := s.Lock(file); err == nil {
					locks[i] = l
				} else {
					assert.ErrorIs(t, err, store.ErrBusy)
				}
			})
		}
		wg.Wait()
		held := 0
		for _, l := range locks {
			if l != nil {
				held++
				assert.True(t, l.Held())
			}
		}
		assert.LessOrEqual(t, held, 1)
	}
}
