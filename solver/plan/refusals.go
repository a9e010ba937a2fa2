package plan

import "kedge/solver/refusal"

// How a plan is refused.
var (
	noPlan         = refusal.Of(ErrEmpty, "plan-no-plan")
	notFinite      = refusal.Of(ErrValue, "plan-not-finite", "x")
	moreThan       = refusal.Of(ErrValue, "plan-more-than", "x", "most")
	lessThan       = refusal.Of(ErrValue, "plan-less-than", "x", "least")
	holdOrder      = refusal.Of(ErrValue, "plan-hold-order")
	measurePoints  = refusal.Of(ErrValue, "plan-measure-points", "n")
	rangeBackwards = refusal.Of(ErrValue, "plan-range-backwards", "low", "high")
	doubtTwice     = refusal.Of(ErrValue, "plan-doubt-twice", "member")
	likelyOutside  = refusal.Of(ErrValue, "plan-likely-outside", "likely", "low", "high")
	numberLarge    = refusal.Of(ErrValue, "plan-number-large", "found")
	valueMissing   = refusal.Of(ErrValue, "plan-value-missing", "want")
	valueOther     = refusal.Of(ErrValue, "plan-value-other", "found", "want")
	shackleJoins   = refusal.Of(ErrRef, "plan-shackle-joins", "n")
	noLine         = refusal.Of(ErrRef, "plan-no-line", "id")
	noVehicle      = refusal.Of(ErrRef, "plan-no-vehicle", "id")
	hookedToItself = refusal.Of(ErrRef, "plan-hooked-to-itself", "id")
	noSuchThing    = refusal.Of(ErrRef, "plan-no-such-thing", "id")
	noWinch        = refusal.Of(ErrRef, "plan-no-winch", "id")
	noVehiclePoint = refusal.Of(ErrRef, "plan-no-vehicle-point", "id", "point")
	noHooking      = refusal.Of(ErrRef, "plan-no-hooking", "kind", "id")
	noPoint        = refusal.Of(ErrRef, "plan-no-point", "kind", "id", "point")
	otherFormat    = refusal.Of(ErrFormat, "plan-other-format", "format", "own")
	noFormat       = refusal.Of(ErrFormat, "plan-no-format", "own")
	noBrace        = refusal.Of(ErrFormat, "plan-no-brace")
	noVersion      = refusal.Of(ErrFormat, "plan-no-version", "version")
	readerOdd      = refusal.Of(ErrFormat, "plan-reader-odd", "version", "needs")
	stepFailed     = refusal.Of(ErrFormat, "plan-step-failed", "from", "to", "cause")
	newer          = refusal.Of(ErrNewer, "plan-newer", "needs", "reads")
	emptyFile      = refusal.Of(ErrEmpty, "plan-empty")
	manyThings     = refusal.Of(ErrLimit, "plan-many-things")
	manyPeople     = refusal.Of(ErrLimit, "plan-many-people", "most")
	manyRigs       = refusal.Of(ErrLimit, "plan-many-rigs")
	manyPins       = refusal.Of(ErrLimit, "plan-many-pins")
	trustLow       = refusal.Of(ErrValue, "plan-trust-low", "trust")
	priorsWhole    = refusal.Of(ErrValue, "plan-priors-whole", "id")
	priorSure      = refusal.Of(ErrValue, "plan-prior-sure")
	manyPoints     = refusal.Of(ErrLimit, "plan-many-points")
	manyObjects    = refusal.Of(ErrLimit, "plan-many-objects")
	largePicture   = refusal.Of(ErrLimit, "plan-picture-large")
	largeFile      = refusal.Of(ErrLimit, "plan-file-large")
	wouldBeLarge   = refusal.Of(ErrLimit, "plan-would-be-large")
	deep           = refusal.Of(ErrLimit, "plan-deep", "most")
	idEmpty        = refusal.Of(ErrID, "plan-id-empty")
	idLong         = refusal.Of(ErrID, "plan-id-long", "id")
	idLetter       = refusal.Of(ErrID, "plan-id-letter", "id", "letter")
	idTaken        = refusal.Of(ErrID, "plan-id-taken", "id")
	idWinch        = refusal.Of(ErrID, "plan-id-winch", "id")
	pointTaken     = refusal.Of(ErrID, "plan-point-taken", "id")
	nullValue      = refusal.Of(ErrMember, "plan-null")
	memberUnknown  = refusal.Of(ErrMember, "plan-member-unknown", "name")
	memberMissing  = refusal.Of(ErrMember, "plan-member-missing", "name")
	memberHidden   = refusal.Of(ErrMember, "plan-member-hidden")
	notRead        = refusal.Of(ErrSyntax, "plan-not-read", "cause")
	notWritten     = refusal.Of(ErrSyntax, "plan-not-written", "cause")
	trailing       = refusal.Of(ErrSyntax, "plan-trailing", "byte")
	cutShort       = refusal.Of(ErrSyntax, "plan-cut-short")
	cutShortAt     = refusal.Of(ErrSyntax, "plan-cut-short-at", "byte")
	memberTwice    = refusal.Of(ErrSyntax, "plan-member-twice")
	badJSON        = refusal.Of(ErrSyntax, "plan-bad-json", "byte", "cause")
	pictureFew     = refusal.Of(ErrPicture, "plan-picture-few", "n", "more")
	pictureMany    = refusal.Of(ErrPicture, "plan-picture-many", "most", "n")
	sameInPicture  = refusal.Of(ErrPicture, "plan-picture-one-spot", "a", "b")
	sameOnGround   = refusal.Of(ErrPicture, "plan-picture-one-place", "a", "b")
	pictureOnLine  = refusal.Of(ErrPicture, "plan-picture-on-line", "a", "b", "c")
	pictureNoFit   = refusal.Of(ErrPicture, "plan-picture-no-fit")
	pictureHorizon = refusal.Of(ErrPicture, "plan-picture-horizon", "a", "b")
	pictureOver    = refusal.Of(ErrPicture, "plan-picture-turns-over")
	badOutline     = refusal.Of(ErrOutline, "plan-outline", "why")
	fewCorners     = refusal.Of(ErrOutline, "plan-outline-few", "n")
	manyCorners    = refusal.Of(ErrOutline, "plan-outline-many", "most", "n")
	onePlace       = refusal.Of(ErrOutline, "plan-outline-one-place", "a", "b")
	runsBack       = refusal.Of(ErrOutline, "plan-outline-back", "corner")
	edgesCross     = refusal.Of(ErrOutline, "plan-outline-cross", "a", "b")
)

// Refusals are all kinds of refusal of this package. It is read-only.
var Refusals = []refusal.Kind{
	doubtTwice, likelyOutside, noPlan, notFinite, moreThan, lessThan, holdOrder, measurePoints, rangeBackwards, numberLarge, valueMissing,
	valueOther, shackleJoins, noLine, noVehicle, hookedToItself, noSuchThing, noWinch, noVehiclePoint, noHooking,
	noPoint, otherFormat, noFormat, noBrace, noVersion, readerOdd, stepFailed, newer, emptyFile, manyThings, manyPeople, manyRigs,
	manyPoints, manyObjects, largePicture, largeFile, wouldBeLarge, deep, idEmpty, idLong, idLetter, idTaken,
	idWinch, pointTaken, nullValue, memberUnknown, memberMissing, memberHidden, notRead, notWritten, trailing,
	cutShort, cutShortAt, memberTwice, badJSON, badOutline, fewCorners, manyCorners, onePlace, runsBack,
	edgesCross, manyPins, trustLow, priorsWhole, priorSure, pictureFew, pictureMany, sameInPicture, sameOnGround, pictureOnLine,
	pictureNoFit, pictureHorizon, pictureOver,
}
