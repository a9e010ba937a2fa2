package quantity

import (
	"strconv"

	"kedge/solver/refusal"
)

// Fault says what kind of thing is wrong with a text, for callers that branch
// on it or word it in another language.
type Fault uint8

// The faults a text may have. The zero value is no fault.
const (
	NoFault       Fault = iota
	Empty               // nothing typed
	NotNumber           // no number where one belongs
	TwoReadings         // the separator may be a decimal or a thousands sign
	BadGrouping         // separators that fit no way of writing a number
	TooManyDigits       // more digits than a float64 keeps
	OutOfRange          // infinite, overflowing, or not zero but vanishing
	UnitUnknown         // a unit this field does not know
	UnitMissing         // a bare number where the unit must be said
	UnitTwice           // the unit has several readings (ton)
	NegativeValue       // below zero where that has no meaning
	BadCompound         // feet and inches, hours and minutes that do not fit
	NotOneValue         // a range or ± where one value belongs
	BadRange            // a range that runs backwards, a ± that is negative
	WidthMissing        // "about" without saying how far either way
	Trailing            // text after the value
)

// ParseError is a text that could not be read. Every error of this package's
// Parse functions is one.
type ParseError struct {
	Input  string       // the text as given
	Offset int          // where the trouble begins, in bytes of Input
	Fault  Fault        // what kind of trouble
	Kind   refusal.Kind // what its sentence is
	Said   []any        // the values of that sentence, but for where it begins
	Offers []string     // texts to enter instead, one for each reading; may be empty
}

// Error is the package, the text and what is wrong with it.
func (e *ParseError) Error() string {
	r := e.Refusal()
	r.Where = strconv.Quote(e.Input)
	return r.Error()
}

// Refusal is what the person at the field reads: the cause, where it sits, what
// to type.
func (e *ParseError) Refusal() *refusal.Error {
	said := e.Said
	if len(e.Kind.Values) > 0 && e.Kind.Values[0] == spotName {
		spot := refusal.Spot("")
		if e.Offset > 0 && e.Offset < len(e.Input) {
			spot = refusal.Spot(clip(e.Input[e.Offset:]))
		}
		said = append([]any{spot}, said...)
	}
	r := e.Kind.At("", said...)
	r.Offers = e.Offers
	return r
}

// offer is the error with texts to enter instead.
func (e *ParseError) offer(texts ...string) *ParseError {
	e.Offers = texts
	return e
}

// clip is the first few characters of s, for a sentence.
func clip(s string) string {
	const most = 12 // characters: enough to find the place in a field
	n := 0
	for i := range s {
		if n == most {
			return s[:i] + "…"
		}
		n++
	}
	return s
}
