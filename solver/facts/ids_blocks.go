package facts

// Rows of blocks.toml.
const (
	SheavePlain            ID = "sheave.plain"              // efficiency of a plain-bearing sheave at a half turn
	SheaveRoller           ID = "sheave.roller"             // efficiency of a roller-bearing sheave at a half turn
	SheavePlainK           ID = "sheave.plain-k"            // tension ratio over a plain-bearing sheave at a half turn
	SheaveRollerK          ID = "sheave.roller-k"           // tension ratio over a roller-bearing sheave at a half turn
	SheaveCraneBronze      ID = "sheave.crane-bronze"       // efficiency of a crane-class bronze-bushed sheave, fitted
	SheaveCraneRoller      ID = "sheave.crane-roller"       // efficiency of a crane-class roller sheave, fitted
	SheaveLossTextbook     ID = "sheave.loss-textbook"      // loss per sheave at working load
	SheavePartsBronze      ID = "sheave.parts-bronze"       // load over line pull by parts of line, bronze-bushed crane sheaves
	SheavePartsRoller      ID = "sheave.parts-roller"       // load over line pull by parts of line, roller crane sheaves
	RedirectFactor         ID = "redirect.factor"           // load on a redirect block by angle between the lines, printed
	BlockHangerOfLine      ID = "block.hanger-of-line"      // block rated on each line: rating on its hanger over that
	RingFrictionHMPE       ID = "ring.friction-hmpe"        // friction of HMPE line in a smooth metal ring
	RingFrictionFibre      ID = "ring.friction-fibre"       // friction of polyester or nylon line in a smooth metal ring
	RingFrictionStrapFixed ID = "ring.friction-strap-fixed" // friction implied by a strap over a fixed bend, 45 : 55
	StumpFriction          ID = "stump.friction"            // wire rope in a stump notch, mean friction
	StumpNotchRatio        ID = "stump.notch-ratio"         // tension ratio of one wrap in a stump notch
	ContactTrunkRock       ID = "contact.trunk-rock"        // friction of line over trunk or rock
	BendWireC              ID = "bend.wire-c"               // wire rope at a bend keeps 1 - c/sqrt(D/d): c
	BendWireLeastBody      ID = "bend.wire-least-body"      // least D/d of a wire rope body
	BendWirePrinted        ID = "bend.wire-printed"         // wire rope bend, printed factor on load
	BendWireCurve          ID = "bend.wire-curve"           // wire rope at a bend: share of strength kept, curve
	BendHMPE               ID = "bend.hmpe"                 // HMPE at a bend: share of strength kept
	BendFibre              ID = "bend.fibre"                // laid or braided fibre rope at a bend: share of strength kept
	SheaveFibreD           ID = "sheave.fibre-d"            // sheave for laid or braided fibre rope, D/d
	SheaveHMPE8d           ID = "sheave.hmpe-8d"            // least sheave for running HMPE, D/d
	SheaveGroove           ID = "sheave.groove"             // line diameter the sheave's groove takes, of its nominal size
	EndSleeveIWRC          ID = "end.sleeve-iwrc"           // end fitting keeps: mechanical spliced sleeve, steel core, to 1 in
	EndSplicedThimble      ID = "end.spliced-thimble"       // end fitting keeps: spliced eye with thimble
	ClipsOSHA              ID = "clips.osha"                // wire rope clips, drop-forged: least number by diameter
	ClipsNavy              ID = "clips.navy"                // wire rope clips: 3 D + c, rounded up, D in inches: c
	KnotBowline            ID = "knot.bowline"              // knot keeps: bowline
	KnotHMPE               ID = "knot.hmpe"                 // knot in HMPE keeps
	KnotUnknown            ID = "knot.unknown"              // knot of unknown kind keeps
)
