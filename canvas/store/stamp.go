package store

import (
	"crypto/sha256"
	"time"

	"kedge/solver/refusal"
)

// Stamp tells one state of a file from another: size, time of the last change,
// and SHA-256 of the bytes. The zero value stands for "there is no file yet".
type Stamp struct {
	Size  int64 // bytes
	Time  time.Time
	Hash  [sha256.Size]byte
	there bool
}

// IsZero reports whether the stamp is of no file.
func (s Stamp) IsZero() bool { return !s.there }

// Same reports whether both stamps are of the same bytes. The time alone may
// differ: a copy or a sync service touches a file without changing it.
func (s Stamp) Same(o Stamp) bool {
	return s.there == o.there && s.Size == o.Size && s.Hash == o.Hash
}

func stampOf(data []byte, changed time.Time) Stamp {
	return Stamp{Size: int64(len(data)), Time: changed, Hash: sha256.Sum256(data), there: true}
}

// Changed is Save's refusal to replace a file that is not the one it was told
// of. Saving again with Found as the stamp overwrites it.
type Changed struct {
	Path  string
	Found Stamp // what is there now
	New   bool  // the caller knew of no file there
}

// Error is the line for a developer.
func (e *Changed) Error() string { return e.Refusal().Error() }

// Refusal is what a person reads.
func (e *Changed) Refusal() *refusal.Error {
	if e.New {
		return nameTaken.At(named(e.Path))
	}
	return changedSince.At(named(e.Path))
}

// Unwrap is ErrChanged.
func (e *Changed) Unwrap() error { return ErrChanged }
