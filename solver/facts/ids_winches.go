package facts

// Rows of winches.toml.
const (
	WinchArmyLayers      ID = "winch.army-layers"      // line pull of an 8x8 truck's self-recovery winch by layer
	WinchArmyDrumRatio   ID = "winch.army-drum-ratio"  // drum over rope diameter that fits that winch
	WinchHandDrum        ID = "winch.hand-drum"        // share of first-layer pull by layer, small drum 64 mm with 10 mm rope
	WinchFullDrumFloor   ID = "winch.full-drum-floor"  // share of plate pull left on the last layer when the drum is unknown
	WinchStall           ID = "winch.stall"            // stall pull over first-layer plate pull
	WinchStallCaution    ID = "winch.stall-caution"    // at stall: caution from this share to failure
	WinchStallWarning    ID = "winch.stall-warning"    // at stall: warning from this share to failure
	WinchStallDanger     ID = "winch.stall-danger"     // at stall: danger from this share to failure
	WinchWrapsSteel      ID = "winch.wraps-steel"      // least wraps left on the drum, steel
	WinchWrapsPlatform   ID = "winch.wraps-platform"   // least wraps left on the drum, suspended platforms
	WinchWrapsSynthetic  ID = "winch.wraps-synthetic"  // least wraps left on the drum, synthetic
	WinchFairleadCaution ID = "winch.fairlead-caution" // line off the winch's axis: caution over
	WinchFairleadWarning ID = "winch.fairlead-warning" // line off the winch's axis: warning over
	WinchFairleadDanger  ID = "winch.fairlead-danger"  // line off the winch's axis: danger over
	WinchPileUp          ID = "winch.pile-up"          // line off the winch's axis: piles on one side over
	WinchPileUpWidth     ID = "winch.pile-up-width"    // share of the drum's width used when it piles up
	FleetPlain           ID = "fleet.plain"            // fleet angle, plain drum
	FleetPlainNSW        ID = "fleet.plain-nsw"        // fleet angle, plain drum, government guide
	FleetLeadGrooved     ID = "fleet.lead-grooved"     // lead distance over half the drum's width, grooved
	DrumFreeboard        ID = "drum.freeboard"         // flange left above the last layer, rope diameters
	WinchCurrentIdle     ID = "winch.current-idle"     // current with no load
	WinchCurrentRated    ID = "winch.current-rated"    // current at the rated first-layer pull
	WinchVoltage         ID = "winch.voltage"          // battery voltage at rated pull
	WinchSpeedTypical    ID = "winch.speed-typical"    // line speed over no-load speed by share of rated pull, typical
	WinchSpeedNoload     ID = "winch.speed-noload"     // line speed with no load, typical
	WinchDuty            ID = "winch.duty"             // time at rated pull before a pause
	DrumDiameter         ID = "drum.diameter"          // drum diameter of a vehicle winch
	DrumWidth            ID = "drum.width"             // drum width between flanges of a vehicle winch
	DrumLineDiameter     ID = "drum.line-diameter"     // line diameter of a vehicle winch
	DrumRatio            ID = "drum.ratio"             // barrel of a vehicle winch over its line's diameter
	DrumWrapsALayer      ID = "drum.wraps-a-layer"     // width of a vehicle winch's drum over its line's diameter
	WinchStallFactor     ID = "winch.stall-factor"     // stall pull over first-layer plate pull that a maker may state
)

// Rows of gear-more.toml.
const (
	WinchSmallDrumFloor ID = "winch.small-drum-floor" // share of plate pull left on the fifth layer of a small hand-drum winch
)
