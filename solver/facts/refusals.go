package facts

import (
	"strconv"

	"kedge/solver/refusal"
)

// shown is a text of a list as a refusal shows it.
func shown(s string) string {
	const most = 60 // characters: a tag's text
	return refusal.Clip(s, most)
}

// figure is a number of a list as a refusal shows it.
func figure(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// How a gear list is refused. Rows of the handbook are built in and tested: what is
// wrong with them is for developers.
var (
	largeFile         = refusal.Of(nil, "facts-large", "bytes", "most")
	oddShape          = refusal.Of(nil, "facts-shape")
	badLine           = refusal.Of(nil, "facts-line", "line", "message")
	notTOML           = refusal.Of(nil, "facts-not-toml", "cause")
	unknownKey        = refusal.Of(nil, "facts-unknown-key", "key")
	manyItems         = refusal.Of(nil, "facts-many-items", "n", "most")
	badItem           = refusal.Of(nil, "facts-item", "item", "cause")
	idTwice           = refusal.Of(nil, "facts-id-twice", "item")
	idTaken           = refusal.Of(nil, "facts-id-taken", "item", "list")
	badID             = refusal.Of(nil, "facts-id", "key")
	unknownKind       = refusal.Of(nil, "facts-kind", "key", "text")
	noKey             = refusal.Of(nil, "facts-no-key", "kind", "key")
	notText           = refusal.Of(nil, "facts-not-text", "key")
	noneOf            = refusal.Of(nil, "facts-none-of", "key", "text", "all")
	noRow             = refusal.Of(nil, "facts-no-row", "key", "text", "prefix")
	notBool           = refusal.Of(nil, "facts-not-bool", "key")
	noNumber          = refusal.Of(nil, "facts-no-number", "key")
	notPositiveNumber = refusal.Of(nil, "facts-not-positive-number", "key")
	notWhole          = refusal.Of(nil, "facts-not-whole", "key")
	keyEmpty          = refusal.Of(nil, "facts-empty", "key")
	noUnit            = refusal.Of(nil, "facts-no-unit", "key", "text")
	unreadable        = refusal.Of(nil, "facts-unreadable", "key", "text", "cause")
	notPositive       = refusal.Of(nil, "facts-not-positive", "key", "text")
	basisAlone        = refusal.Of(nil, "facts-basis-alone")
	aboveOne          = refusal.Of(nil, "facts-above-one", "key", "x")
	belowOne          = refusal.Of(nil, "facts-below-one", "key", "x")
	above             = refusal.Of(nil, "facts-above", "key", "other")
	notAbove          = refusal.Of(nil, "facts-not-above", "key", "other")
	ringFriction      = refusal.Of(nil, "facts-ring-friction", "key")
	sheaveEfficiency  = refusal.Of(nil, "facts-sheave-efficiency", "key")
)

// Refusals are all kinds of refusal of this package. It is read-only.
var Refusals = []refusal.Kind{
	largeFile, oddShape, badLine, notTOML, unknownKey, manyItems, badItem, idTwice, idTaken, badID, unknownKind, noKey,
	notText, noneOf, noRow, notBool, noNumber, notPositiveNumber, notWhole, keyEmpty, noUnit, unreadable,
	notPositive, basisAlone, aboveOne, belowOne, above, notAbove, ringFriction, sheaveEfficiency,
}
