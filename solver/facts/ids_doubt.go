package facts

// Rows of doubt.toml.
const (
	DoubtMassPapers       ID = "doubt.mass-papers"       // spread of a mass whose load is known, one standard deviation over it
	DoubtMassKerb         ID = "doubt.mass-kerb"         // mass as it stands over the kerb mass of its papers, where the load is not known
	DoubtMassGuessed      ID = "doubt.mass-guessed"      // spread of a mass that was guessed, one standard deviation over it
	DoubtSlope            ID = "doubt.slope"             // spread of a slope that was measured by hand, one standard deviation
	DoubtBearing          ID = "doubt.bearing"           // spread of a bearing, one standard deviation
	DoubtPlace            ID = "doubt.place"             // spread of a place that was traced or paced, one standard deviation each way
	DoubtSheavePlain      ID = "doubt.sheave-plain"      // efficiency of a plain-bearing sheave at a half turn, with its spread
	DoubtSheaveRoller     ID = "doubt.sheave-roller"     // efficiency of a roller-bearing sheave at a half turn, with its spread
	DoubtStallElectric    ID = "doubt.stall-electric"    // stall pull over rated pull of an electric winch, by battery and heat
	DoubtStallOther       ID = "doubt.stall-other"       // stall pull over rated pull of a winch with a relief valve
	DoubtStallPulls       ID = "doubt.stall-pulls"       // spread of the stall pull from pull to pull, one standard deviation over it
	DoubtScatterUsed      ID = "doubt.scatter-used"      // scatter of the strength of used rope that was inspected, one standard deviation over it
	DoubtMeanTag          ID = "doubt.mean-tag"          // real mean strength of tagged gear over the tag times its standard's factor
	DoubtScatterUnmarked  ID = "doubt.scatter-unmarked"  // scatter of the strength of gear without a tag, one standard deviation over it
	DoubtScatterWood      ID = "doubt.scatter-wood"      // scatter of the bending strength of wood, one standard deviation over it
	DoubtScatterUprooting ID = "doubt.scatter-uprooting" // scatter of what uproots a tree, one standard deviation over it
	DoubtBelowWeb         ID = "doubt.below-web"         // strength left in webbing that is below strength, over sound
	DoubtBelowRope        ID = "doubt.below-rope"        // strength left in rope that is below strength, or at a knot, over sound
	DoubtBelowKnotHMPE    ID = "doubt.below-knot-hmpe"   // strength left at a knot in HMPE, over sound
	DoubtBelowMetal       ID = "doubt.below-metal"       // strength left in metal gear that is below strength, over sound
	DoubtOff              ID = "doubt.off"               // load at which a part that is not seated comes off unbroken, over its strength
	DoubtPriorInspected   ID = "doubt.prior-inspected"   // chance that gear inspected today is below strength
	DoubtPriorUnknown     ID = "doubt.prior-unknown"     // chance that gear of unknown state is below strength
	DoubtPriorWorn        ID = "doubt.prior-worn"        // chance that gear seen to be worn is below strength
	DoubtPriorCut         ID = "doubt.prior-cut"         // chance that gear seen to be cut some time ago is below strength
	DoubtPriorCutBefore   ID = "doubt.prior-cut-before"  // chance that gear seen to be cut before this pull was below strength
	DoubtPriorOff         ID = "doubt.prior-off"         // chance that a part was not seated and comes off unbroken
	DoubtPriorJerk        ID = "doubt.prior-jerk"        // chance that the line was jerked
	DoubtPriorNone        ID = "doubt.prior-none"        // chance that it was none of what is drawn
	DoubtJerk             ID = "doubt.jerk"              // line tension of a jerk over the steady one
	DoubtFlying           ID = "doubt.flying"            // share of the stored energy that a thrown part takes
	DoubtDamage           ID = "doubt.damage"            // strength left in textiles after an earlier heavy pull, over before
	DoubtDamageAnchor     ID = "doubt.damage-anchor"     // hold left in an anchor in the ground after an earlier heavy pull, over before
	DoubtStirs            ID = "doubt.stirs"             // load at which an anchor stirs, over what it holds
)

// Rows of lines.toml that say how real strength scatters.
const (
	StrengthScatterRope    ID = "strength.scatter-rope"    // scatter of rope strength, one standard deviation
	StrengthScatterWeb     ID = "strength.scatter-web"     // scatter of webbing strength, one standard deviation
	StrengthScatterShackle ID = "strength.scatter-shackle" // scatter of shackle strength, one standard deviation
)
