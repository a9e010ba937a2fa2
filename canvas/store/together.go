package store

import (
	"errors"
	"io/fs"
	"path/filepath"
)

// Output is a file to be written and what is to be in it.
type Output struct {
	Path string
	Data []byte
}

// WriteAll writes files that belong together to the machine's disk, see
// Store.WriteAll.
func WriteAll(all []Output) error { return New(Program).WriteAll(all) }

// WriteAll writes files that belong together, such as an exercise and its key:
// all are written and synced under other names before the first takes its own.
// An error before that leaves the disk as it was; one between two renames, which
// only a failing disk or folder gives, leaves every file whole, old or new.
// Files that are there are replaced, links followed; no generation before is
// kept. Errors are refusals.
func (s *Store) WriteAll(all []Output) error {
	d := s.Disk
	type pair struct{ temp, path string }
	var done []pair
	defer func() {
		for _, p := range done {
			_ = d.Remove(p.temp) // gone already if it took its name
		}
	}()
	for _, o := range all {
		path, err := d.Resolve(o.Path)
		if err != nil {
			return explain(writing, o.Path, err)
		}
		mode, keep := fs.FileMode(newFileMode), false
		switch info, err := d.Stat(path); {
		case err == nil:
			if err := mayReplace(d, path, info); err != nil {
				return err
			}
			mode, keep = info.Mode().Perm(), true
		case !errors.Is(err, fs.ErrNotExist):
			return explain(writing, path, err)
		}
		temp, _, err := writeTemp(d, path, o.Data, mode, keep)
		if err != nil {
			return explain(writing, path, err)
		}
		done = append(done, pair{temp, path})
	}
	folders := map[string]bool{}
	for _, p := range done {
		if err := d.Rename(p.temp, p.path); err != nil {
			return explain(writing, p.path, err)
		}
		folders[filepath.Dir(p.path)] = true
	}
	for _, p := range done {
		if folder := filepath.Dir(p.path); folders[folder] {
			delete(folders, folder)
			if err := d.SyncDir(folder); err != nil {
				return notLastingYet.At(named(p.path)).Because(err)
			}
		}
	}
	return nil
}
