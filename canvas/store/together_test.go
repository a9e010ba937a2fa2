package store_test

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/store"
)

func TestWriteAll(t *testing.T) {
	folder := t.TempDir()
	a, b := filepath.Join(folder, "course.pdf"), filepath.Join(folder, "course-KEY.pdf")
	require.NoError(t, os.WriteFile(a, []byte("before"), 0o640))
	require.NoError(t, store.WriteAll([]store.Output{{Path: a, Data: []byte("exercise")}, {Path: b, Data: []byte("key")}}))
	for path, want := range map[string]string{a: "exercise", b: "key"} {
		got, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, want, string(got))
	}
	info, err := os.Stat(a)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o640), info.Mode().Perm(), "the mode of a file that was there is kept")
	left, err := os.ReadDir(folder)
	require.NoError(t, err)
	assert.Len(t, left, 2, "no leftovers")
	assert.NoError(t, store.WriteAll(nil))
}

// If the second of two files cannot be written, the first is as it was.
func TestWriteAllOrNone(t *testing.T) {
	folder := t.TempDir()
	a := filepath.Join(folder, "course.pdf")
	require.NoError(t, os.WriteFile(a, []byte("before"), 0o644))
	require.NoError(t, os.Mkdir(filepath.Join(folder, "course-KEY.pdf"), 0o755))
	for path, want := range map[string]error{
		filepath.Join(folder, "course-KEY.pdf"):       store.ErrFolder,
		filepath.Join(folder, "nowhere", "KEY.pdf"):   store.ErrNoFolder,
		filepath.Join(folder, string([]byte{0}), "x"): nil,
	} {
		err := store.WriteAll([]store.Output{{Path: a, Data: []byte("exercise")}, {Path: path, Data: []byte("key")}})
		require.Error(t, err)
		if want != nil {
			assert.ErrorIs(t, err, want)
		}
		assert.NotEmpty(t, said(t, err))
		got, err := os.ReadFile(a)
		require.NoError(t, err)
		assert.Equal(t, "before", string(got))
	}
	left, err := os.ReadDir(folder)
	require.NoError(t, err)
	assert.Len(t, left, 2, "no half-written file")
}

// Whichever step the disk fails at, each file is whole, and no other is there;
// until the first has its name all are as they were.
func TestWriteAllFailsWhole(t *testing.T) {
	for at := 1; ; at++ {
		folder := t.TempDir()
		paths := []string{filepath.Join(folder, "a.pdf"), filepath.Join(folder, "b.pdf")}
		require.NoError(t, os.WriteFile(paths[0], []byte("before"), 0o644))
		require.NoError(t, os.WriteFile(paths[1], []byte("before"), 0o644))
		disk := newFaulty(at, false, syscall.EIO)
		s := store.New(store.Program)
		s.Disk = disk
		err := s.WriteAll([]store.Output{{Path: paths[0], Data: []byte("after")}, {Path: paths[1], Data: []byte("after")}})
		if len(*disk.failed) == 0 {
			require.NoError(t, err)
			require.Greater(t, at, 8, "create, write, sync and rename of two files can each fail")
			return
		}
		var got []string
		for _, p := range paths {
			data, err := os.ReadFile(p)
			require.NoError(t, err)
			got = append(got, string(data))
			assert.Contains(t, []string{"before", "after"}, string(data), "step %d %v", at, *disk.failed)
		}
		if err == nil { // it only failed to tidy up
			assert.Equal(t, []string{"after", "after"}, got)
			continue
		}
		assert.False(t, got[0] == "before" && got[1] == "after", "they take their names in order")
	}
}
