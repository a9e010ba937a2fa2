package plan

import (
	"errors"
	"strconv"
	"strings"
)

// What is wrong with a plan, for callers that branch on it with errors.Is.
var (
	ErrEmpty   = errors.New("plan: empty file")
	ErrFormat  = errors.New("plan: not a plan")
	ErrNewer   = errors.New("plan: made for a newer version")
	ErrSyntax  = errors.New("plan: not well-formed")
	ErrLimit   = errors.New("plan: too large")
	ErrMember  = errors.New("plan: member missing or misplaced")
	ErrValue   = errors.New("plan: value out of bounds")
	ErrID      = errors.New("plan: id missing, doubled or misspelt")
	ErrRef     = errors.New("plan: reference to nothing")
	ErrOutline = errors.New("plan: outline crosses itself")
)

// Error is why a plan is refused: where, what, what to do. Every error of this
// package is one; it wraps one of the sentinels.
type Error struct {
	Path   string // where, as a JSON pointer (RFC 6901); empty: the file as a whole
	Reason string // what is wrong, without a full stop
	Do     string // what to do about it, without a full stop; may be empty
	Err    error  // the sentinel
}

// Error is the whole sentence, with the package in front.
func (e *Error) Error() string { return "plan: " + e.Sentence() }

// Sentence is what a person reads.
func (e *Error) Sentence() string {
	var b strings.Builder
	if e.Path != "" {
		b.WriteString(e.Path)
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

// Unwrap is the sentinel.
func (e *Error) Unwrap() error { return e.Err }

func refuse(sentinel error, path, reason, do string) error {
	return &Error{Path: path, Reason: reason, Do: do, Err: sentinel}
}

// number is x as a sentence shows it: the shortest text that reads back as x.
func number(x float64) string {
	s := strconv.FormatFloat(x, 'g', -1, 64)
	s = strings.Replace(s, "e+0", "e", 1)
	s = strings.Replace(s, "e-0", "e-", 1)
	return strings.Replace(s, "e+", "e", 1)
}

// quote is s in quotes, cut to what fits a sentence.
func quote(s string) string {
	const most = 40 // characters: longer than any id or word of a plan
	n := 0
	for i := range s {
		if n == most {
			return strconv.Quote(s[:i] + "…")
		}
		n++
	}
	return strconv.Quote(s)
}

func at(path string, i int) string { return path + "/" + strconv.Itoa(i) }

// escape is a member's name as a token of a JSON pointer.
func escape(name string) string {
	return strings.ReplaceAll(strings.ReplaceAll(name, "~", "~0"), "/", "~1")
}
