package form

import (
	"kedge/solver/quantity"
	"kedge/solver/refusal"
)

// How what was typed is refused.
var (
	noText        = refusal.Of(nil, "form-no-text")
	notZero       = refusal.Of(nil, "form-not-nought")
	whichMass     = refusal.Of(nil, "form-which-mass")
	noFigure      = refusal.Of(nil, "form-no-figure")
	noRating      = refusal.Of(nil, "form-no-rating")
	yesNo         = refusal.Of(nil, "form-yes-or-no")
	belowZero     = refusal.Of(nil, "form-below-nought")
	oneFigure     = refusal.Of(nil, "form-one-figure")
	wholeNumber   = refusal.Of(nil, "form-whole-number")
	plainNumber   = refusal.Of(nil, "form-plain-number")
	noPoint       = refusal.Of(nil, "form-point")
	noPair        = refusal.Of(nil, "form-pair")
	noPlace       = refusal.Of(nil, "form-place")
	noJoin        = refusal.Of(nil, "form-join")
	noStage       = refusal.Of(nil, "form-stage")
	noChoice      = refusal.Of(nil, "form-no-choice")
	choiceMissing = refusal.Of(nil, "form-choice-missing")
	choicesBegin  = refusal.Of(nil, "form-choices-begin")
	noChoices     = refusal.Of(nil, "form-nothing-to-choose")
)

// Refusals are all kinds of refusal of this package. It is read-only.
var Refusals = []refusal.Kind{
	noText, notZero, whichMass, noFigure, noRating, yesNo, belowZero, oneFigure, wholeNumber, plainNumber, noPoint, noPair, noPlace, noJoin, noStage,
	noChoice, choiceMissing, choicesBegin, noChoices,
}

// refusedText is why a text was not taken.
func refusedText(given string, f quantity.Fault, kind refusal.Kind, offers ...string) *quantity.ParseError {
	return &quantity.ParseError{Input: given, Fault: f, Kind: kind, Offers: offers}
}
