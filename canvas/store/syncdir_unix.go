//go:build unix

package store

import (
	"errors"
	"os"
	"syscall"
)

func syncDir(path string) error { return synced(os.Open(path)) }

// synced syncs a folder that was opened, and closes it.
func synced(d interface {
	Sync() error
	Close() error
}, err error) error {
	if err != nil {
		return err
	}
	err = d.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, syscall.ENOTSUP) {
		err = nil // a file system that has no such call keeps its folders by itself
	}
	return errors.Join(err, d.Close())
}
