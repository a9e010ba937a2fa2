package survey

import "kedge/solver/refusal"

// How a file is refused, and what is said of one that was read.
var (
	empty           = refusal.Of(ErrEmpty, "survey-empty")
	noPoint         = refusal.Of(ErrEmpty, "survey-no-point")
	noText          = refusal.Of(ErrFormat, "survey-no-text")
	badForm         = refusal.Of(ErrFormat, "survey-bad-form", "cause")
	endsNothing     = refusal.Of(ErrFormat, "survey-ends-nothing", "name")
	cutOff          = refusal.Of(ErrFormat, "survey-cut-off", "name")
	notGPX          = refusal.Of(ErrFormat, "survey-not-gpx")
	otherXML        = refusal.Of(ErrFormat, "survey-other-xml", "name")
	otherGeoJSON    = refusal.Of(ErrFormat, "survey-other-geojson", "type")
	badCoordinates  = refusal.Of(ErrFormat, "survey-coordinates", "type")
	badPosition     = refusal.Of(ErrFormat, "survey-position", "n")
	pointInPoint    = refusal.Of(ErrFormat, "survey-point-in-point")
	noDegrees       = refusal.Of(ErrFormat, "survey-no-degrees", "number")
	badLine         = refusal.Of(ErrFormat, "survey-line", "n")
	large           = refusal.Of(ErrLimit, "survey-large")
	manyPoints      = refusal.Of(ErrLimit, "survey-many-points")
	manyColumns     = refusal.Of(ErrLimit, "survey-many-columns", "most")
	deep            = refusal.Of(ErrLimit, "survey-deep")
	longPiece       = refusal.Of(ErrLimit, "survey-long-piece")
	otherSystem     = refusal.Of(ErrSystem, "survey-other-system", "system")
	noColumns       = refusal.Of(ErrColumns, "survey-no-columns")
	columnsOdd      = refusal.Of(ErrColumns, "survey-columns")
	headsOdd        = refusal.Of(ErrColumns, "survey-heads", "heads")
	badSigns        = refusal.Of(ErrColumns, "survey-signs")
	bothSigns       = refusal.Of(ErrColumns, "survey-both-signs")
	commaForBoth    = refusal.Of(ErrColumns, "survey-comma-for-both", "columns", "heads")
	commaMayBoth    = refusal.Of(ErrColumns, "survey-comma-may-both", "columns")
	badRows         = refusal.Of(ErrColumns, "survey-rows", "left", "total", "line")
	offGrid         = refusal.Of(ErrPlace, "survey-off-grid")
	badOrigin       = refusal.Of(ErrPlace, "survey-origin")
	noPlace         = refusal.Of(ErrPlace, "survey-no-place", "lat", "lon")
	farPoint        = refusal.Of(ErrPlace, "survey-far-point", "most")
	farMark         = refusal.Of(ErrPlace, "survey-far-mark", "name", "most")
	badHeight       = refusal.Of(ErrPlace, "survey-height", "height")
	noGeometry      = refusal.Of(nil, "survey-no-geometry")
	holes           = refusal.Of(nil, "survey-holes")
	nowhereLeft     = refusal.Of(nil, "survey-nowhere", "n")
	badDoubt        = refusal.Of(ErrPlace, "survey-doubt", "doubt")
	doubtTaken      = refusal.Of(nil, "survey-doubt-taken", "n")
	noHeightCounted = refusal.Of(nil, "survey-no-height", "n")
	unitOdd         = refusal.Of(nil, "survey-unit", "unit")
	rowsLeft        = refusal.Of(nil, "survey-rows-left", "left", "total", "lines")
	manyRowsLeft    = refusal.Of(nil, "survey-rows-left-more", "left", "total", "lines")
	takenOff        = refusal.Of(nil, "survey-taken-off", "east", "north")
	axes            = refusal.Of(nil, "survey-axes", "x", "y")
	takenFlat       = refusal.Of(nil, "survey-taken-flat")
	takenWithHeight = refusal.Of(nil, "survey-taken-with-height")
	likeDegrees     = refusal.Of(nil, "survey-like-degrees")
	readAs          = refusal.Of(nil, "survey-read-as", "figure", "decimal", "whole")
	oldLetters      = refusal.Of(nil, "survey-letters")
)

// Refusals are all kinds of refusal of this package. It is read-only.
var Refusals = []refusal.Kind{
	empty, noPoint, noText, badForm, endsNothing, cutOff, notGPX, otherXML, otherGeoJSON, badCoordinates,
	badPosition, pointInPoint, noDegrees, badLine, large, manyPoints, manyColumns, deep, longPiece, otherSystem, noColumns, columnsOdd,
	headsOdd, badSigns, bothSigns, commaForBoth, commaMayBoth, badRows, offGrid, badOrigin, noPlace, farPoint,
	farMark, badDoubt, doubtTaken, badHeight, noGeometry, holes, nowhereLeft, noHeightCounted, unitOdd, rowsLeft, manyRowsLeft,
	takenOff, axes, takenFlat, takenWithHeight, likeDegrees, readAs, oldLetters,
}
