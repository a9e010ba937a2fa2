package store

import (
	"errors"
	"io/fs"
	"path/filepath"
	"strings"

	"kedge/solver/plan"
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

// Error is why a file could not be read or written: what, where, what to do.
type Error struct {
	Path   string // the file or folder
	Reason string // what happened, without a full stop
	Do     string // what to do about it, without a full stop; may be empty
	Err    error  // the sentinel
	Cause  error  // what the system said; may be nil
}

// Error is the whole sentence, with the package in front.
func (e *Error) Error() string { return "store: " + e.Sentence() }

// Sentence is what a person reads: the file's name, what happened, what to do.
func (e *Error) Sentence() string {
	var b strings.Builder
	if e.Path != "" {
		b.WriteString(filepath.Base(e.Path))
		b.WriteString(": ")
	}
	b.WriteString(e.Reason)
	b.WriteByte('.')
	if e.Do != "" {
		b.WriteByte(' ')
		b.WriteString(e.Do)
		b.WriteByte('.')
	}
	return b.String()
}

// Unwrap is the sentinel and the cause.
func (e *Error) Unwrap() []error {
	if e.Cause == nil {
		return []error{e.Err}
	}
	return []error{e.Err, e.Cause}
}

// Sentence is what a person reads of any error that comes out of this package;
// of another error, its text. Empty for nil.
func Sentence(err error) string {
	if err == nil {
		return ""
	}
	if s := (interface{ Sentence() string })(nil); errors.As(err, &s) {
		return s.Sentence()
	}
	return err.Error()
}

// act is what was being done when the disk failed.
type act int

const (
	reading act = iota
	writing
)

// explain turns what the system said of path into an Error.
func explain(do act, path string, err error) error {
	if known := (interface{ Sentence() string })(nil); errors.As(err, &known) {
		return err
	}
	e := &Error{Path: path, Cause: err}
	folder := filepath.Dir(path)
	switch {
	case isFull(err):
		e.Err, e.Reason, e.Do = ErrFull, "there is no room left on the disk to write it", "Make room, or save it on another disk"
	case isReadOnly(err):
		e.Err, e.Reason, e.Do = ErrReadOnly, "the disk is read-only", "Save it on another disk"
	case isFolder(err):
		e.Err, e.Reason, e.Do = ErrFolder, "it is a folder, not a file", "Name a file in it"
	case isBadName(err):
		e.Err, e.Reason, e.Do = ErrName, "the system takes no such name", "Give it a shorter name of letters and digits"
	case isNotThere(err) && do == writing:
		e.Err, e.Reason, e.Do = ErrNoFolder, "its folder "+folder+" is not there", "Make the folder again, or save it in another one"
	case isNotThere(err):
		e.Err, e.Reason, e.Do = ErrNotFound, "there is no such file in "+folder, "Check the name and the folder"
	case errors.Is(err, fs.ErrPermission) && do == writing:
		e.Err, e.Reason, e.Do = ErrPermission, "you may not write it or its folder "+folder, "Save it in a folder of your own"
	case errors.Is(err, fs.ErrPermission):
		e.Err, e.Reason, e.Do = ErrPermission, "you may not read it", "Ask its owner, or take a copy"
	case do == writing:
		e.Err, e.Reason, e.Do = ErrDisk, "it could not be written ("+bare(err)+"); what was there before is unchanged", "Save it on another disk"
	default:
		e.Err, e.Reason, e.Do = ErrDisk, "it could not be read ("+bare(err)+")", "Take a copy that can"
	}
	return e
}

// bare is what the system said, without the names the sentence has already.
func bare(err error) string {
	if pe := (*fs.PathError)(nil); errors.As(err, &pe) {
		return pe.Err.Error()
	}
	if le := errors.Unwrap(err); le != nil {
		return le.Error()
	}
	return err.Error()
}

// notAPlan is plan's refusal of the file at path.
func notAPlan(path string, err error) error {
	e := &Error{Path: path, Err: ErrContent, Cause: err, Reason: strings.TrimSuffix(err.Error(), ".")}
	if pe := (*plan.Error)(nil); errors.As(err, &pe) {
		e.Reason, e.Do = pe.Reason, pe.Do
		if pe.Path != "" {
			e.Reason = pe.Path + ": " + pe.Reason
		}
	}
	return e
}
