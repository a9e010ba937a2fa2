// Package refusal holds why something is refused: an id and values. The
// sentence a person reads is made of them by canvas/words, in every language;
// nothing here or in the packages that refuse makes one.
//
// A package keeps its kinds of refusal in one table, each made by [Of], and
// refuses with [Kind.At]:
//
//	var idTaken = refusal.Of(ErrID, "plan-id-taken", "id")
//
//	return idTaken.At("/site/anchors/0/id", id)
//
// Callers branch on a refusal with errors.Is and the error its kind was made
// with.
package refusal

import (
	"fmt"
	"strconv"
	"strings"
)

// Kind is one way of refusing. It is read-only.
type Kind struct {
	ID     string   // of its sentence: the package, a dash, a name; "plan-id-taken"
	Err    error    // for errors.Is; may be nil
	Values []string // the names of the values of its sentence; "cause", the last, is [Error.Cause]
}

// Of makes a kind.
func Of(err error, id string, values ...string) Kind { return Kind{id, err, values} }

// Values of a refusal are texts (string), counts (int), nested errors, and:
type (
	// Word is the id of a word or label in the catalogues.
	Word string
	// Either are texts of which one is to be chosen.
	Either []string
	// Spot is where in a typed text the trouble begins; it may be empty.
	Spot string
)

// Error is something refused. Every refusal of the project is one, or tells it
// as a [Refuser].
type Error struct {
	Kind
	Where  string   // the file or member it is about, as it is shown; may be empty
	Said   []any    // the values, in the order of the kind's names
	Offers []string // what to enter instead, one of them; may be empty
	Cause  error    // what the system or another package said; may be nil
}

// Refuser is an error that can be said as a refusal.
type Refuser interface {
	error
	Refusal() *Error
}

// At refuses what is there; where may be empty.
func (k Kind) At(where string, values ...any) *Error {
	return &Error{Kind: k, Where: where, Said: values}
}

// Because is the refusal with what caused it.
func (e *Error) Because(cause error) *Error {
	with := *e
	with.Cause = cause
	return &with
}

// Refusal is the error itself.
func (e *Error) Refusal() *Error { return e }

// Error is the line for a developer: package, thing, name of the refusal, its
// values.
func (e *Error) Error() string {
	pkg, name, _ := strings.Cut(e.ID, "-")
	var b strings.Builder
	b.WriteString(pkg + ": ")
	if e.Where != "" {
		b.WriteString(e.Where + ": ")
	}
	b.WriteString(name)
	for i, v := range e.Said {
		if spot, ok := v.(Spot); i < len(e.Values) && (!ok || spot != "") {
			b.WriteString(" " + e.Values[i] + "=" + shown(v))
		}
	}
	if len(e.Offers) > 0 {
		b.WriteString(" offers=" + strings.Join(e.Offers, "|"))
	}
	if e.Cause != nil {
		b.WriteString(": " + e.Cause.Error())
	}
	return b.String()
}

func shown(v any) string {
	switch v := v.(type) {
	case string:
		return strconv.Quote(v)
	case Spot:
		return strconv.Quote(string(v))
	case error:
		return "(" + v.Error() + ")"
	}
	return fmt.Sprint(v)
}

// Unwrap is what the kind was made with, and the cause.
func (e *Error) Unwrap() []error {
	all := make([]error, 0, 2)
	if e.Err != nil {
		all = append(all, e.Err)
	}
	if e.Cause != nil {
		all = append(all, e.Cause)
	}
	return all
}

// Clip is a text from outside as a sentence may show it between quotes: cut to
// so many characters, and what does not show escaped.
func Clip(s string, most int) string {
	n := 0
	for i := range s {
		if n == most {
			s = s[:i] + "…"
			break
		}
		n++
	}
	q := strconv.Quote(s)
	return q[1 : len(q)-1]
}
