package facts

// Rows of anchors.toml.
const (
	PicketLayout1        ID = "picket.layout-1"        // picket holdfast single (front to rear)
	PicketLayout11       ID = "picket.layout-1-1"      // picket holdfast 1-1 (front to rear)
	PicketLayout111      ID = "picket.layout-1-1-1"    // picket holdfast 1-1-1 (front to rear)
	PicketLayout21       ID = "picket.layout-2-1"      // picket holdfast 2-1 (front to rear)
	PicketLayout321      ID = "picket.layout-3-2-1"    // picket holdfast 3-2-1 (front to rear)
	PicketSoilWetClay    ID = "picket.soil-wet-clay"   // pickets in wet clay and gravel mixtures
	PicketSoilWetSand    ID = "picket.soil-wet-sand"   // pickets in wet river clay and sand
	PicketSoilSaturated  ID = "picket.soil-saturated"  // stakes in saturated soil, of dry
	PicketSoilUnknown    ID = "picket.soil-unknown"    // pickets in soil that is not known
	PicketTentStake      ID = "picket.tent-stake"      // 1 in x 36 in stake in average lawn, pull-out
	PicketLean           ID = "picket.lean"            // picket lean back, US
	PicketSteel          ID = "picket.steel"           // steel picket 25 mm x 1.5 m in good ground, working load each
	PicketSteelCeiling   ID = "picket.steel-ceiling"   // steel pickets in ordinary soil, most a group is counted for
	DeadmanLoam          ID = "deadman.loam"           // deadman holding power by mean depth and slope of the line
	DeadmanLoamVertical  ID = "deadman.loam-vertical"  // deadman holding power by mean depth, vertical pull
	DeadmanSlope         ID = "deadman.slope"          // deadman: angle of the line above ground that each slope column reaches to
	DeadmanSoilHardpan   ID = "deadman.soil-hardpan"   // deadman in hardpan or rock
	DeadmanSoilWetFine   ID = "deadman.soil-wet-fine"  // deadman in fine-grained or sandy soil with high moisture
	DeadmanSoilUnknown   ID = "deadman.soil-unknown"   // deadman in soil that is not known
	DeadmanSlopeUnknown  ID = "deadman.slope-unknown"  // deadman: slope counted when it is not known, run per rise
	DeadmanSlenderTimber ID = "deadman.slender-timber" // deadman: greatest length over thickness, timber
	DeadmanSlenderLog    ID = "deadman.slender-log"    // deadman: greatest length over diameter, log
	DeadmanTrenchTM      ID = "deadman.trench-tm"      // deadman: length taken off for the line's trench
	DeadmanTrenchFM      ID = "deadman.trench-fm"      // deadman: width of the sloping trench taken off
	DeadmanUndercut      ID = "deadman.undercut"       // deadman: trench face undercut towards the pull
	DeadmanSetBack       ID = "deadman.set-back"       // deadman: horizontal distance to where the line leaves the ground, of bottom depth over slope
	BoulderFriction      ID = "boulder.friction"       // loose boulder on the ground, friction
	BoulderDensity       ID = "boulder.density"        // density of rock
	ScrewOffAxis         ID = "screw.off-axis"         // screw anchor: greatest pull off its axis
	ScrewDepth           ID = "screw.depth"            // screw anchor: least depth of its plate, of the plate's diameter
	HoldBeyond           ID = "hold.beyond"            // typed hold that contradicts what it is computed to, over this times the high end
)

// Rows of trees.toml.
const (
	TreeUnknownConiferMoment ID = "tree.unknown-conifer.moment" // conifer, species not known: turning moment per stem mass
	TreeSoilUnknown          ID = "tree.soil-unknown"           // soil counted when it is not known (2, gleyed mineral, shallow roots)
	StemSpruceC              ID = "stem.spruce.c"               // spruce stems, volume: c
	StemSpruceP              ID = "stem.spruce.p"               // spruce stems: power of D
	StemSpruceQ              ID = "stem.spruce.q"               // spruce stems: power of H
	StemConiferC             ID = "stem.conifer.c"              // other conifer stems, volume: c
	StemConiferP             ID = "stem.conifer.p"              // other conifer stems: power of D
	StemConiferQ             ID = "stem.conifer.q"              // other conifer stems: power of H
	StemFormFactor           ID = "stem.form-factor"            // stem volume = form × π/4 D² H: form factor
	TreeBreastHeight         ID = "tree.breast-height"          // height above the ground at which a stem's girth is taken
	TreeTaper                ID = "tree.taper"                  // diameter at breast height, of that at a strap below it
	TreeTaperLeast           ID = "tree.taper-least"            // diameter at breast height, of that at a strap below it: under this one of the two is wrong
	TreeLowShare             ID = "tree.low-share"              // low end of a tree's hold, of the mean
	TreeThin                 ID = "tree.thin"                   // stem that is not believed to hold what nobody vouches for, under
	TreeD2Rule               ID = "tree.d2-rule"                // tree: working load kN = c D squared, D in cm: c
	TreeStrapHeightFloor     ID = "tree.strap-height-floor"     // height of the strap counted at least
	TreeMovedShare           ID = "tree.moved-share"            // share of the hold left after it moved 0.25 deg or was pulled before today
	TreeStopTilt             ID = "tree.stop-tilt"              // base moved: stop
	TreeDead                 ID = "tree.dead"                   // dead, rotten or health not known
	TreeDeepRoots            ID = "tree.deep-roots"             // deep roots against shallow
	TreeRootRot              ID = "tree.root-rot"               // trees found with root rot: firs, spruces
	TreeDoubleDiameter       ID = "tree.double-diameter"        // strength of twice the diameter
)
