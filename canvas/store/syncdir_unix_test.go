//go:build unix

package store

import (
	"errors"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
)

// told is a folder that tells what is done with it.
type told struct {
	done  []string
	fault error
}

func (d *told) Sync() error  { d.done = append(d.done, "sync"); return d.fault }
func (d *told) Close() error { d.done = append(d.done, "close"); return nil }

// A folder of the real disk is synced, and what its disk says is passed on, but
// that it has no such call.
func TestFolderIsSynced(t *testing.T) {
	broken := errors.New("the disk is broken")
	for fault, want := range map[error]error{nil: nil, broken: broken, syscall.EIO: syscall.EIO, syscall.EINVAL: nil, syscall.ENOTSUP: nil} {
		d := told{fault: fault}
		err := synced(&d, nil)
		if want == nil {
			assert.NoError(t, err)
		} else {
			assert.ErrorIs(t, err, want)
		}
		assert.Equal(t, []string{"sync", "close"}, d.done)
	}
	assert.NoError(t, OS{}.SyncDir(t.TempDir()))
	assert.Error(t, OS{}.SyncDir(filepath.Join(t.TempDir(), "gone")))
}
