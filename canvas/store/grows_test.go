package store_test

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/store"
)

// growing is a disk on which a file is longer than it was when it was looked at.
type growing struct{ store.OS }

type grown struct {
	store.File
	more io.Reader
}

func (f grown) Read(p []byte) (int, error) { return f.more.Read(p) }

func (d growing) Open(path string) (store.File, error) {
	f, err := d.OS.Open(path)
	return grown{f, bytes.NewReader(make([]byte, 101))}, err
}

// A file that grows while it is read is refused as one that is too large, not cut.
func TestFileThatGrowsWhileItIsRead(t *testing.T) {
	s := own(t)
	s.Disk = growing{}
	file := filepath.Join(t.TempDir(), "names")
	require.NoError(t, os.WriteFile(file, make([]byte, 50), 0o600))
	data, err := s.Read(file, 101)
	require.NoError(t, err)
	assert.Len(t, data, 101)
	_, err = s.Read(file, 100)
	assert.ErrorIs(t, err, store.ErrTooLarge)
}

// The first snapshot after a save is of the file as it was saved.
func TestSnapshotAfterASaveHasItsStamp(t *testing.T) {
	s := own(t)
	file := filepath.Join(t.TempDir(), "moss.kedge")
	x := s.NewSession("", store.Stamp{})
	stamp, err := s.Save(file, example(t), store.Stamp{})
	require.NoError(t, err)
	require.NoError(t, x.Saved(file, stamp))
	require.NoError(t, x.Write(titled(example(t), "edited since")))
	die(t, s)
	list, err := s.Recoverable()
	require.NoError(t, err)
	require.Len(t, list, 1)
	r, err := s.Recover(list[0])
	require.NoError(t, err)
	assert.Equal(t, file, r.Path)
	assert.True(t, r.Stamp.Same(stamp), "it can be saved over that file without a question")
}
