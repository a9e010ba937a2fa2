package main

import (
	"math"

	"kedge/canvas/report"
)

// number is a figure of an answer.
type number = report.Number

// known is a figure, or null if it is not known.
func known[Q ~float64](x Q, ok bool) *number { return report.Known(x, ok) }

// positive is a figure for which zero means that it is not known.
func positive[Q ~float64](x Q) *number { return known(x, x > 0) }

// wholeWraps are the full wraps that a drum still has.
func wholeWraps(wraps float64) float64 { return math.Floor(wraps) }
