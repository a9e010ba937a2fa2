package store

import "kedge/solver/refusal"

// How a file is refused.
var (
	noRoom                = refusal.Of(ErrFull, "store-full")
	diskReadOnly          = refusal.Of(ErrReadOnly, "store-read-only")
	isAFolder             = refusal.Of(ErrFolder, "store-folder")
	endlessLinks          = refusal.Of(ErrName, "store-links")
	oddName               = refusal.Of(ErrName, "store-name")
	noFolder              = refusal.Of(ErrNoFolder, "store-no-folder", "folder")
	notFound              = refusal.Of(ErrNotFound, "store-not-found", "folder")
	notWritable           = refusal.Of(ErrPermission, "store-not-writable", "folder")
	notReadable           = refusal.Of(ErrPermission, "store-not-readable")
	diskWrite             = refusal.Of(ErrDisk, "store-not-written", "cause")
	diskRead              = refusal.Of(ErrDisk, "store-not-read", "cause")
	crowded               = refusal.Of(ErrDisk, "store-crowded")
	notAFile              = refusal.Of(ErrNotAFile, "store-device")
	fileForFolder         = refusal.Of(ErrNotAFile, "store-file-for-folder")
	marked                = refusal.Of(ErrReadOnly, "store-marked")
	notLasting            = refusal.Of(ErrNotLasting, "store-not-lasting", "cause")
	notLastingYet         = refusal.Of(ErrNotLasting, "store-not-lasting-yet", "cause")
	tooLargeFile          = refusal.Of(ErrTooLarge, "store-large", "most")
	badPlan               = refusal.Of(ErrContent, "store-bad-plan", "cause")
	noPlan                = refusal.Of(ErrContent, "store-no-plan")
	noOpenPlan            = refusal.Of(ErrContent, "store-no-open-plan")
	noSnapshot            = refusal.Of(ErrDisk, "store-no-snapshot", "why")
	manySnapshots         = refusal.Of(ErrDisk, "store-many-snapshots", "folder")
	snapshotDamaged       = refusal.Of(ErrContent, "store-snapshot-damaged")
	snapshotOther         = refusal.Of(ErrContent, "store-snapshot-version")
	busy                  = refusal.Of(ErrBusy, "store-busy")
	busyOn                = refusal.Of(ErrBusy, "store-busy-on", "host")
	nameTaken             = refusal.Of(ErrChanged, "store-name-taken")
	changedSince          = refusal.Of(ErrChanged, "store-changed")
	notAPicture           = refusal.Of(ErrContent, "store-not-a-picture")
	longPicture           = refusal.Of(ErrTooLarge, "store-picture-long", "width", "height", "most")
	manyPixels            = refusal.Of(ErrTooLarge, "store-many-pixels", "width", "height")
	pictureDamaged        = refusal.Of(ErrContent, "store-picture-damaged")
	notSealed             = refusal.Of(ErrContent, "store-not-sealed", "cause")
	sealAltered           = refusal.Of(ErrContent, "store-seal-altered", "list")
	sealNoText            = refusal.Of(ErrContent, "store-seal-no-text", "text")
	sealNoWhy             = refusal.Of(ErrContent, "store-seal-no-why")
	notSmaller            = refusal.Of(ErrContent, "store-not-smaller")
	notSmallEnough        = refusal.Of(ErrTooLarge, "store-not-small-enough")
	preferencesOdd        = refusal.Of(ErrContent, "store-preferences", "previous")
	preferenceOdd         = refusal.Of(ErrContent, "store-preference", "name")
	preferenceNotKept     = refusal.Of(ErrContent, "store-preference-not-kept", "name")
	preferencesNotWritten = refusal.Of(ErrContent, "store-preferences-not-written")
	starterGear           = refusal.Of(ErrContent, "store-starter-gear", "cause")
	ownGear               = refusal.Of(ErrContent, "store-own-gear", "why", "path")
	recentDamaged         = refusal.Of(ErrContent, "store-recent-damaged")
	recentNotWritten      = refusal.Of(ErrContent, "store-recent-not-written")

	// what is said of a picture that was taken all the same
	photoLost            = refusal.Of(nil, "store-photo-lost")
	pictureLost          = refusal.Of(nil, "store-picture-lost")
	pictureTurned        = refusal.Of(nil, "store-picture-turned")
	picturePacked        = refusal.Of(nil, "store-picture-packed", "width", "height")
	pictureSmaller       = refusal.Of(nil, "store-picture-smaller", "width", "height", "to-width", "to-height")
	pictureTurnedSmaller = refusal.Of(nil, "store-picture-turned-smaller", "width", "height", "to-width", "to-height")
)

// Refusals are all kinds of refusal of this package. It is read-only.
var Refusals = []refusal.Kind{
	noRoom, diskReadOnly, isAFolder, endlessLinks, oddName, noFolder, notFound, notWritable, notReadable, diskWrite,
	diskRead, crowded, notAFile, fileForFolder, marked, notLasting, notLastingYet, tooLargeFile, badPlan,
	noPlan, noOpenPlan, noSnapshot, manySnapshots, snapshotDamaged, snapshotOther, busy, busyOn, nameTaken,
	changedSince, notAPicture, longPicture, manyPixels, pictureDamaged, notSealed, sealAltered, sealNoText, sealNoWhy, notSmaller, notSmallEnough, preferencesOdd, preferenceOdd,
	preferenceNotKept, preferencesNotWritten, starterGear, ownGear, recentDamaged, recentNotWritten,
	photoLost, pictureLost, pictureTurned, picturePacked, pictureSmaller, pictureTurnedSmaller,
}
