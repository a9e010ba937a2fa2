//go:build unix

package store

import (
	"errors"
	"os"
	"syscall"
)

func syncDir(path string) error {
	d, err := os.Open(path)
	if err != nil {
		return err
	}
	return synced(d)
}

// synced syncs an open folder and closes it.
func synced(d interface {
	Sync() error
	Close() error
}) error {
	err := d.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, syscall.ENOTSUP) {
		err = nil // a file system that has no such call keeps its folders by itself
	}
	return errors.Join(err, d.Close())
}
