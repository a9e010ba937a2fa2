package store

import (
	"errors"
	"io/fs"
	"path/filepath"

	"kedge/solver/refusal"
)

// What goes wrong with a file, for callers that branch on it with errors.Is.
var (
	ErrNotFound   = errors.New("store: no such file")
	ErrNoFolder   = errors.New("store: folder is gone")
	ErrFolder     = errors.New("store: is a folder")
	ErrNotAFile   = errors.New("store: not an ordinary file")
	ErrPermission = errors.New("store: not allowed")
	ErrReadOnly   = errors.New("store: read-only")
	ErrFull       = errors.New("store: disk full")
	ErrTooLarge   = errors.New("store: too large")
	ErrName       = errors.New("store: name not possible")
	ErrContent    = errors.New("store: content not understood")
	ErrChanged    = errors.New("store: changed on disk")
	ErrBusy       = errors.New("store: open in another window")
	ErrDisk       = errors.New("store: disk failed")
	ErrNotLasting = errors.New("store: written, not confirmed to stay")
)

// named is the file at path as a sentence calls it.
func named(path string) string {
	if path == "" {
		return ""
	}
	return filepath.Base(path)
}

// act is what was being done when the disk failed.
type act int

const (
	reading act = iota
	writing
)

// explain turns what the system said of path into a refusal.
func explain(do act, path string, err error) error {
	if known := refusal.Refuser(nil); errors.As(err, &known) {
		return err
	}
	file, folder := named(path), filepath.Dir(path)
	why := func(r *refusal.Error) error { return r.Because(err) }
	switch {
	case isFull(err):
		return why(noRoom.At(file))
	case isReadOnly(err):
		return why(diskReadOnly.At(file))
	case isFolder(err):
		return why(isAFolder.At(file))
	case isLinks(err):
		return why(endlessLinks.At(file))
	case isBadName(err):
		return why(oddName.At(file))
	case isNotThere(err) && do == writing:
		return why(noFolder.At(file, folder))
	case isNotThere(err):
		return why(notFound.At(file, folder))
	case errors.Is(err, fs.ErrPermission) && do == writing:
		return why(notWritable.At(file, folder))
	case errors.Is(err, fs.ErrPermission):
		return why(notReadable.At(file))
	case do == writing:
		return why(diskWrite.At(file))
	}
	return why(diskRead.At(file))
}

// notAPlan is plan's refusal of the file at path.
func notAPlan(path string, err error) error { return badPlan.At(named(path)).Because(err) }
