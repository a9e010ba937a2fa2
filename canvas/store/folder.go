package store

import (
	"errors"
	"io/fs"
	"path/filepath"
	"time"
)

// Limits of the small files of Kedge's own folders.
const (
	maxStateBytes = 1 << 20 // recent plans, locks, preferences: each holds a few lines
	maxGearBytes  = 4 << 20 // a gear list of the most items facts takes is half of that
)

// makeFolder makes the folder at path with all above it that are missing, and
// makes them last.
func makeFolder(d Disk, path string) error {
	info, err := d.Stat(path)
	switch {
	case err == nil && info.IsDir():
		return nil
	case err == nil:
		return fileForFolder.At(named(path))
	case !errors.Is(err, fs.ErrNotExist):
		return explain(writing, path, err)
	}
	parent := filepath.Dir(path)
	if parent == path {
		return explain(writing, path, err)
	}
	if err := makeFolder(d, parent); err != nil {
		return err
	}
	if err := d.Mkdir(path); err != nil && !errors.Is(err, fs.ErrExist) {
		return explain(writing, path, err)
	}
	if err := d.SyncDir(parent); err != nil {
		return explain(writing, path, err)
	}
	return nil
}

// keep writes a file of Kedge's own folders, readable by its owner alone.
func (s *Store) keep(path string, data []byte, previous bool) (time.Time, error) {
	if err := makeFolder(s.Disk, filepath.Dir(path)); err != nil {
		return time.Time{}, err
	}
	target, err := s.Disk.Resolve(path) // a user may keep preferences elsewhere, linked
	if err != nil {
		return time.Time{}, explain(writing, path, err)
	}
	return replace(s.Disk, target, data, replacing{mode: privateFileMode, previous: previous})
}
