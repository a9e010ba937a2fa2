package store

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io/fs"
	"path/filepath"
	"sync"
	"time"

	"kedge/solver/refusal"
)

const (
	locksFolder = "locks"

	// lockGrace is how old a lock file must be that says nothing, before it
	// counts as cut off and not as being written.
	lockGrace = 10 * time.Second

	lockTries = 20 // rounds of making and breaking before somebody else is called busy
)

// Lock says that a window has a plan's file open. It keeps nobody from writing.
type Lock struct {
	store *Store
	path  string // of the lock file
	mine  owner
	once  sync.Once
}

// Busy is Lock's answer when another window has the file open.
type Busy struct {
	Path  string
	PID   int    // 0: not known
	Host  string // empty: this machine
	Since time.Time
}

// Error is the line for a developer.
func (b *Busy) Error() string { return b.Refusal().Error() }

// Refusal is what a person reads.
func (b *Busy) Refusal() *refusal.Error {
	if b.Host != "" {
		return busyOn.At(named(b.Path), b.Host)
	}
	return busy.At(named(b.Path))
}

// Unwrap is ErrBusy.
func (b *Busy) Unwrap() error { return ErrBusy }

// Lock marks the plan's file at path as open here. If a window that still runs
// has marked it, the error is a *Busy; the mark of one that is gone is taken
// over. The file itself need not exist, its folder must.
func (s *Store) Lock(path string) (*Lock, error) { return s.lock(path, false) }

// TakeLock marks the file whoever else has it open. The other window finds out
// by Held.
func (s *Store) TakeLock(path string) (*Lock, error) { return s.lock(path, true) }

func (s *Store) lock(path string, force bool) (*Lock, error) {
	target, err := s.Disk.Resolve(path)
	if err != nil {
		return nil, explain(reading, path, err)
	}
	folder := filepath.Join(s.State, locksFolder)
	if err := makeFolder(s.Disk, folder); err != nil {
		return nil, err
	}
	sum := sha256.Sum256([]byte(target))
	l := &Lock{store: s, mine: s.me(target), path: filepath.Join(folder, hex.EncodeToString(sum[:16])+".lock")}
	for range lockTries {
		err := writeOwner(s.Disk, l.path, l.mine)
		switch {
		case err == nil:
			return l, nil
		case !errors.Is(err, fs.ErrExist):
			return nil, explain(writing, l.path, err)
		}
		other, changed, ok, err := readOwner(s.Disk, l.path)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			continue
		case err != nil:
			return nil, explain(reading, l.path, err)
		case !ok && !force && s.fresh(changed):
			return nil, &Busy{Path: target, Since: changed}
		case ok && !force && other.runs():
			return nil, other.busy(target)
		}
		if err := l.breakOther(other); err != nil {
			return nil, explain(writing, l.path, err)
		}
	}
	return nil, &Busy{Path: target}
}

func (o owner) busy(path string) *Busy {
	b := &Busy{Path: path, PID: o.PID, Since: o.Since}
	if o.elsewhere() {
		b.Host = o.Host
	}
	return b
}

// breakOther removes the lock file if it is still that of other. Only one
// process at a time may do so, or the second would remove what the first has
// just made: it holds a guard file meanwhile.
func (l *Lock) breakOther(other owner) error {
	d, guard := l.store.Disk, l.path+".break"
	g, err := d.Create(guard, privateFileMode)
	if errors.Is(err, fs.ErrExist) {
		if info, e := d.Stat(guard); e == nil && !l.store.fresh(info.ModTime()) {
			_ = d.Remove(guard) // whoever held it was killed
		}
		return nil
	}
	if err != nil {
		return err
	}
	_ = g.Close()
	defer func() { _ = d.Remove(guard) }()
	now, _, _, err := readOwner(d, l.path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case !now.same(other):
		return nil
	}
	return d.Remove(l.path)
}

// fresh reports whether what was changed then may just be being made. A time that
// is to come is that of a clock that was set back since.
func (s *Store) fresh(changed time.Time) bool {
	age := s.Now().Sub(changed)
	return -lockGrace < age && age < lockGrace
}

// Held reports whether the mark is still this window's.
func (l *Lock) Held() bool {
	o, _, ok, err := readOwner(l.store.Disk, l.path)
	return err == nil && ok && o.same(l.mine)
}

// Release takes the mark off, unless it is another window's by now. A second
// call does nothing.
func (l *Lock) Release() (err error) {
	l.once.Do(func() {
		if l.Held() {
			if e := l.store.Disk.Remove(l.path); e != nil && !errors.Is(e, fs.ErrNotExist) {
				err = explain(writing, l.path, e)
			}
		}
	})
	return err
}
