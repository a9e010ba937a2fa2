package plan

import (
	"reflect"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
)

// Maybe is a figure of which zero is a value like any other: it is known or
// not, whatever it is. In a file one that is not known is left out, and zero
// is written. The zero value is not known. Two of one figure are equal.
type Maybe[T ~float64] struct {
	x     T
	known bool
}

// Known is a figure that is known.
func Known[T ~float64](x T) Maybe[T] { return Maybe[T]{x, true} }

// Get is the figure, 0 and false if it is not known.
func (m Maybe[T]) Get() (x T, known bool) { return m.x, m.known }

// Or is the figure, or x if it is not known.
func (m Maybe[T]) Or(x T) T {
	if m.known {
		return m.x
	}
	return x
}

// Known reports whether it is known.
func (m Maybe[T]) Known() bool { return m.known }

// IsZero reports whether it is not known: a member of a file to be left out.
func (m Maybe[T]) IsZero() bool { return !m.known }

// Figure is the figure as a bare number in the unit of T.
func (m Maybe[T]) Figure() (x float64, known bool) { return float64(m.x), m.known }

// SetFigure makes it known.
func (m *Maybe[T]) SetFigure(x float64) { m.x, m.known = T(x), true }

// MarshalJSONTo writes the figure.
func (m *Maybe[T]) MarshalJSONTo(enc *jsontext.Encoder) error { return json.MarshalEncode(enc, m.x) }

// UnmarshalJSONFrom reads the figure.
func (m *Maybe[T]) UnmarshalJSONFrom(dec *jsontext.Decoder) error {
	err := json.UnmarshalDecode(dec, &m.x)
	m.known = err == nil
	return err
}

func (m Maybe[T]) kind() reflect.Type { return reflect.TypeFor[T]() }

// maybe is any [Maybe], as the walk over the types meets it.
type maybe interface {
	Figure() (x float64, known bool)
	kind() reflect.Type
}

// maybeOf is what T a Maybe of type t has; false if it is none.
func maybeOf(t reflect.Type) (reflect.Type, bool) {
	if m, ok := reflect.Zero(t).Interface().(maybe); ok {
		return m.kind(), true
	}
	return nil, false
}
