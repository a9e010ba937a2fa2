//go:build unix

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

// A file keeps its mode when it is saved, whatever the umask takes from new ones.
func TestSavingKeepsTheModeWhateverTheUmask(t *testing.T) {
	s := own(t)
	file := filepath.Join(t.TempDir(), "moss.kedge")
	stamp, err := s.Save(file, example(t), store.Stamp{})
	require.NoError(t, err)
	require.NoError(t, os.Chmod(file, 0o664))
	defer syscall.Umask(syscall.Umask(0o077))
	_, err = s.Save(file, titled(example(t), "again"), stamp)
	require.NoError(t, err)
	info, err := os.Stat(file)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o664), info.Mode().Perm())
}
