package quantity

import "kedge/solver/refusal"

// kind is a kind of this package. Its first value is where the trouble begins.
func kind(name string, values ...string) refusal.Kind {
	return refusal.Of(nil, "quantity-"+name, append([]string{spotName}, values...)...)
}

// spotName is the value of a kind that tells where in the text the trouble begins.
const spotName = "at"

// How a text is refused. {measure} is what is read, {known} are its units.
var (
	noText         = kind("no-text")
	tooLong        = kind("too-long")
	nothing        = kind("nothing")
	noNumber       = kind("no-number")
	otherDigits    = kind("other-digits")
	noDecimals     = kind("no-decimals")
	badFraction    = kind("fraction")
	longFraction   = kind("fraction-long")
	manyDigits     = kind("digits")
	notFinite      = kind("not-finite")
	vanishing      = kind("vanishing")
	badGrouping    = kind("grouping")
	twoReadings    = kind("two-readings")
	oneNumber      = kind("one-number")
	below          = kind("below-nought", "measure")
	metresNotMin   = kind("m-is-metres")
	unitUnknown    = kind("unit-unknown", "word", "measure", "known")
	unitMissing    = kind("unit-missing", "measure", "known")
	unitTooMissing = kind("unit-missing-too", "measure")
	oneUnit        = kind("one-unit", "measure")
	whichTon       = kind("which-ton")
	onlyLast       = kind("only-last", "measure")
	largeToSmall   = kind("large-to-small", "measure")
	carryOver      = kind("carry-over")
	outOfRange     = kind("out-of-range", "measure")
	oneValue       = kind("one-value", "measure")
	trailing       = kind("trailing", "measure")
	howFar         = kind("how-far")
	backwards      = kind("range-backwards")
	highMissing    = kind("high-missing")
	widthBelow     = kind("width-below-nought")
	endBelow       = kind("end-below-nought", "measure")
)

// Refusals are all kinds of refusal of this package. It is read-only.
var Refusals = []refusal.Kind{
	noText, tooLong, nothing, noNumber, otherDigits, noDecimals, badFraction, longFraction, manyDigits, notFinite,
	vanishing, badGrouping, twoReadings, oneNumber, below, metresNotMin, unitUnknown, unitMissing, unitTooMissing,
	oneUnit, whichTon, onlyLast, largeToSmall, carryOver, outOfRange, oneValue, trailing, howFar, backwards,
	highMissing, widthBelow, endBelow,
}
