package part

// Text is a named word or name, printed as it is.
func Text(name, s string) Value { return Value{Name: name, Text: s} }

// Word is a named word id, printed in the language of whoever reads.
func Word(name, id string) Value { return Value{Name: name, Unit: UnitText, Text: id} }

// Number is a named number in the SI unit that u says.
func Number[T ~int | ~float64](name string, u Unit, x T) Value {
	return Value{Name: name, Unit: u, X: float64(x)}
}

// Count is a named whole number.
func Count[T ~int | ~float64](name string, n T) Value { return Number(name, UnitCount, n) }

// Length is a named length in metres.
func Length[T ~int | ~float64](name string, m T) Value { return Number(name, UnitLength, m) }

// Force is a named load in newtons.
func Force[T ~int | ~float64](name string, n T) Value { return Number(name, UnitForce, n) }
