package main

import (
	"math"
	"strconv"
)

// digits are the significant digits of a computed figure in an answer.
const digits = 6

// number is a figure of an answer: at most six significant digits, never a
// power of ten; null where it is not finite.
type number float64

// MarshalJSON writes the figure.
func (n number) MarshalJSON() ([]byte, error) {
	x := float64(n)
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return []byte("null"), nil
	}
	x, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', digits, 64), 64)
	if err != nil {
		return []byte("null"), nil
	}
	if x == 0 {
		x = 0 // no negative zero
	}
	return strconv.AppendFloat(nil, x, 'f', -1, 64), nil
}

// known is a figure, or null if it is not known.
func known[Q ~float64](x Q, ok bool) *number {
	if !ok || math.IsNaN(float64(x)) || math.IsInf(float64(x), 0) {
		return nil
	}
	n := number(x)
	return &n
}

// positive is a figure for which zero means that it is not known.
func positive[Q ~float64](x Q) *number { return known(x, x > 0) }

// wholeWraps are the full wraps that a drum still has.
func wholeWraps(wraps float64) float64 { return math.Floor(wraps) }
