package main

import "kedge/solver/refusal"

// How the command line refuses.
var (
	notPrinted        = refusal.Of(nil, "kedge-not-printed", "cause")
	broken            = refusal.Of(nil, "kedge-broken", "why")
	otherwise         = refusal.Of(nil, "kedge-otherwise", "cause")
	badFlags          = refusal.Of(nil, "kedge-flags", "cause", "command")
	noFlag            = refusal.Of(nil, "kedge-no-flag", "flag", "command")
	flagBare          = refusal.Of(nil, "kedge-flag-bare", "flag", "command")
	flagOdd           = refusal.Of(nil, "kedge-flag-odd", "value", "flag", "command")
	noVerb            = refusal.Of(nil, "kedge-no-verb", "verb")
	noHelp            = refusal.Of(nil, "kedge-no-help", "topic")
	planMissing       = refusal.Of(nil, "kedge-plan-missing", "command")
	planTwice         = refusal.Of(nil, "kedge-plan-twice", "command", "extra")
	noArgument        = refusal.Of(nil, "kedge-no-argument", "command", "extra")
	noLanguage        = refusal.Of(nil, "kedge-no-language", "name", "have")
	noUnits           = refusal.Of(nil, "kedge-no-units", "name")
	badPlan           = refusal.Of(nil, "kedge-bad-plan", "cause")
	stdinNotRead      = refusal.Of(nil, "kedge-stdin-not-read", "cause")
	aFolder           = refusal.Of(nil, "kedge-folder")
	noFile            = refusal.Of(nil, "kedge-no-file")
	notThere          = refusal.Of(nil, "kedge-not-there")
	notReadable       = refusal.Of(nil, "kedge-not-readable")
	notRead           = refusal.Of(nil, "kedge-not-read", "cause")
	noRig             = refusal.Of(nil, "kedge-no-rig", "name", "all")
	noRigs            = refusal.Of(nil, "kedge-no-rigs", "name")
	noPart            = refusal.Of(nil, "kedge-no-part", "name", "all")
	nothingRigged     = refusal.Of(nil, "kedge-nothing-rigged", "name")
	noTravel          = refusal.Of(nil, "kedge-no-travel", "at")
	noOutput          = refusal.Of(nil, "kedge-no-output")
	noFilm            = refusal.Of(nil, "kedge-no-film")
	badEnding         = refusal.Of(nil, "kedge-ending")
	bothWays          = refusal.Of(nil, "kedge-both-ways")
	noScale           = refusal.Of(nil, "kedge-no-scale", "scale")
	notSheet          = refusal.Of(nil, "kedge-not-sheet", "cause")
	noList            = refusal.Of(nil, "kedge-no-list")
	noNames           = refusal.Of(nil, "kedge-no-names")
	noDoubt           = refusal.Of(nil, "kedge-no-doubt")
	noneDrawn         = refusal.Of(nil, "kedge-none-drawn")
	interrupted       = refusal.Of(nil, "kedge-interrupted")
	noEvidence        = refusal.Of(nil, "kedge-no-evidence")
	badChange         = refusal.Of(nil, "kedge-bad-change", "text")
	notASeal          = refusal.Of(nil, "kedge-not-a-seal", "cause")
	notSealed         = refusal.Of(nil, "kedge-not-sealed", "cause")
	sealThere         = refusal.Of(nil, "kedge-seal-there")
	sealAlone         = refusal.Of(nil, "kedge-seal-alone")
	sealWhy           = refusal.Of(nil, "kedge-seal-why")
	sealAfter         = refusal.Of(nil, "kedge-seal-after")
	noWay             = refusal.Of(nil, "kedge-no-way", "n", "all")
	notFormatted      = refusal.Of(nil, "kedge-not-formatted", "cause")
	notJSON           = refusal.Of(nil, "kedge-not-json", "cause")
	gearDamaged       = refusal.Of(nil, "kedge-gear-damaged", "cause")
	handbookDamaged   = refusal.Of(nil, "kedge-handbook-damaged", "cause")
	textsDamaged      = refusal.Of(nil, "kedge-texts-damaged", "cause")
	noRow             = refusal.Of(nil, "kedge-no-row", "wanted")
	boardStdin        = refusal.Of(nil, "kedge-board-stdin")
	noDisplay         = refusal.Of(nil, "kedge-no-display")
	registerAlone     = refusal.Of(nil, "kedge-register-alone")
	registerElsewhere = refusal.Of(nil, "kedge-register-elsewhere")
	notRegistered     = refusal.Of(nil, "kedge-not-registered", "cause")
	notStarted        = refusal.Of(nil, "kedge-not-started", "board", "cause")
	noBoard           = refusal.Of(nil, "kedge-no-board", "board")
)

// refusals are all kinds of refusal of this package. It is read-only.
var refusals = []refusal.Kind{
	notPrinted, broken, noFile, otherwise, badFlags, noFlag, flagBare, flagOdd, noVerb, noHelp, planMissing, planTwice, noArgument, noLanguage, noUnits,
	badPlan, stdinNotRead, aFolder, notThere, notReadable, notRead, noRig, noRigs, noPart, nothingRigged,
	noTravel, noOutput, noFilm, badEnding, bothWays, noScale, notSheet, noList, noNames, noDoubt, noneDrawn, interrupted, noEvidence, badChange, notASeal, notSealed, sealThere, sealAlone, sealWhy, sealAfter, noWay, notFormatted, notJSON, gearDamaged,
	handbookDamaged, textsDamaged, noRow, boardStdin, noDisplay, registerAlone, registerElsewhere, notRegistered, notStarted, noBoard,
}
