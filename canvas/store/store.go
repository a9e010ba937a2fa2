package store

import (
	"errors"
	"io/fs"
	"path/filepath"
	"time"

	"github.com/adrg/xdg"

	"kedge/solver/plan"
)

// Program is the name Kedge stamps into a file, and that of its folders.
const Program = "kedge"

// Store is a disk and Kedge's folders on it. It holds nothing that changes and
// may be used by several goroutines.
type Store struct {
	Disk   Disk
	App    string           // stamped into saved plans, "kedge 0.1.0"
	Config string           // folder of preferences and the gear list
	State  string           // folder of snapshots, locks and the recent plans
	Now    func() time.Time // for the age of locks
}

// New is the store of this machine and user.
func New(app string) *Store {
	return &Store{
		Disk:   OS{},
		App:    app,
		Config: filepath.Join(xdg.ConfigHome, Program),
		State:  filepath.Join(xdg.StateHome, Program),
		Now:    time.Now,
	}
}

// Load reads the plan at path and the stamp of what was read. It changes
// nothing. What package plan refuses is refused with ErrContent and
// wraps that refusal.
func (s *Store) Load(path string) (*plan.Plan, Stamp, error) {
	data, changed, err := readWhole(s.Disk, path, plan.MaxBytes)
	if err != nil {
		return nil, Stamp{}, explain(reading, path, err)
	}
	p, err := plan.ParsePlan(data)
	if err != nil {
		return nil, Stamp{}, notAPlan(path, err)
	}
	return p, stampOf(data, changed), nil
}

// Read is the file at path, which may have no more than so many bytes.
func (s *Store) Read(path string, mostBytes int64) ([]byte, error) {
	data, _, err := readWhole(s.Disk, path, mostBytes)
	if err != nil {
		return nil, explain(reading, path, err)
	}
	return data, nil
}

// Save replaces the file at path by p, stamped with App, and keeps the one that
// was there as path~. prev is the stamp of the file as the caller last read or
// wrote it, the zero Stamp if it knows of none; if what is there is not that,
// the error is a *Changed and nothing is written. A file that has vanished
// since is made again. p itself is not changed.
//
// ErrNotLasting is the one error that comes with a stamp: the file is written,
// but a power cut may still bring the old one back.
func (s *Store) Save(path string, p *plan.Plan, prev Stamp) (Stamp, error) {
	if p == nil {
		return Stamp{}, noPlan.At(named(path))
	}
	stamped := *p
	stamped.App = s.App
	data, err := plan.FormatPlan(&stamped)
	if err != nil {
		return Stamp{}, notAPlan(path, err)
	}
	if len(data) > plan.MaxBytes {
		return Stamp{}, tooLarge(path, plan.MaxBytes)
	}
	target, err := s.Disk.Resolve(path)
	if err != nil {
		return Stamp{}, explain(writing, path, err)
	}
	if err := s.unchanged(target, prev); err != nil {
		return Stamp{}, err
	}
	if end, err := s.Disk.Alone(filepath.Join(s.State, savingName)); err == nil { // else it may still be looked at and renamed
		defer end()
	}
	changed, err := replace(s.Disk, target, data, replacing{
		mode:     newFileMode,
		previous: true,
		check:    func() error { return s.unchanged(target, prev) },
	})
	if err != nil && !errors.Is(err, ErrNotLasting) {
		return Stamp{}, err
	}
	return stampOf(data, changed), err
}

// savingName is the file in Kedge's own folder that is locked from the last look
// at a plan's file until it is replaced: of two that save at once the second
// finds what the first wrote.
const savingName = "saving"

// unchanged refuses if the file at path is another one than prev says.
func (s *Store) unchanged(path string, prev Stamp) error {
	info, err := s.Disk.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return explain(writing, path, err)
	case !info.Mode().IsRegular():
		return mayReplace(s.Disk, path, info)
	}
	data, changed, err := readWhole(s.Disk, path, foreignMaxBytes)
	if err != nil {
		return explain(writing, path, err)
	}
	if found := stampOf(data, changed); !found.Same(prev) {
		return &Changed{Path: path, Found: found, New: !prev.there}
	}
	return nil
}

// foreignMaxBytes bounds what is read of a file that may be no plan at all,
// before it is overwritten.
const foreignMaxBytes = 128 << 20

// Current is the stamp of the file at path as it is now; the zero Stamp if
// there is none. A window asks it to notice changes by others.
func (s *Store) Current(path string) (Stamp, error) {
	data, changed, err := readWhole(s.Disk, path, foreignMaxBytes)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return Stamp{}, nil
	case err != nil:
		return Stamp{}, explain(reading, path, err)
	}
	return stampOf(data, changed), nil
}
