package facts

// Rows of lines.toml.
const (
	WireBreakIWRC             ID = "wire.break-iwrc"              // wire rope 6x19 or 6x36 steel core: breaking force by diameter and grade
	WireBreakInchFC           ID = "wire.break-inch-fc"           // wire rope 6x19 IPS fibre core: breaking strength by diameter
	WireFieldRule             ID = "wire.field-rule"              // wire rope working load: kg = c d squared, d in mm
	WireFieldRuleUS           ID = "wire.field-rule-us"           // wire rope working load: tons = c D squared, D in inches
	NylonBreak                ID = "nylon.break"                  // nylon 3-strand: breaking strength and printed working load by diameter
	ManilaRule                ID = "manila.rule"                  // manila: breaking lb = c C squared, C circumference in inches
	NylonRule                 ID = "nylon.rule"                   // nylon: breaking lb = c C squared, C circumference in inches
	HMPEBreak                 ID = "hmpe.break"                   // HMPE 12-strand coated: breaking N = c d squared, d in mm
	StrengthWire              ID = "strength.wire"                // wire rope: breaking N = c d squared, d in mm
	StrengthNylon             ID = "strength.nylon"               // nylon rope: breaking N = c d squared, d in mm
	StrengthKinetic           ID = "strength.kinetic"             // kinetic rope: breaking N = c d squared, d in mm
	StrengthPolyester         ID = "strength.polyester"           // polyester rope: breaking N = c d squared, d in mm
	StrengthChain             ID = "strength.chain"               // chain: breaking N = c d squared, link diameter d in mm
	StrengthWeb               ID = "strength.web"                 // web sling: breaking N = c width, width in mm
	StrengthShackle           ID = "strength.shackle"             // shackle: breaking N = c d squared, body d in mm
	StrengthRatingBeyond      ID = "strength.rating-beyond"       // a rating is doubted over this share of what material and size carry
	WireStiffness             ID = "wire.stiffness"               // wire rope AE = c d squared
	WireBreakStrain           ID = "wire.break-strain"            // wire rope: strain at break, plastic included
	HMPEStiffness             ID = "hmpe.stiffness"               // HMPE: AE over breaking strength
	HMPEBreakStrain           ID = "hmpe.break-strain"            // HMPE: strain at break
	NylonStiffness            ID = "nylon.stiffness"              // nylon double braid: AE over breaking strength
	NylonStiffnessLaid        ID = "nylon.stiffness-laid"         // nylon laid: AE over breaking strength
	NylonDoubleBraid          ID = "nylon.double-braid"           // nylon double braid: average breaking strength and AE by diameter
	NylonBreakStrainLaid      ID = "nylon.break-strain-laid"      // laid nylon: stretch before break
	NylonWebStrain            ID = "nylon.web-strain"             // nylon web sling: stretch at its rating
	KineticBreakStrainRope    ID = "kinetic.break-strain-rope"    // kinetic recovery rope: stretch at break
	PolyesterBreakStrain      ID = "polyester.break-strain"       // polyester rope: strain at break
	PolyesterFibreBreakStrain ID = "polyester.fibre-break-strain" // polyester fibre: strain at break
	PolyesterWebStrain        ID = "polyester.web-strain"         // polyester web sling: stretch at its rating
	StiffeningLinear          ID = "stiffening.linear"            // stiffening exponent of wire and HMPE
	StiffeningNylon           ID = "stiffening.nylon"             // stiffening exponent of nylon
	StiffeningPolyester       ID = "stiffening.polyester"         // stiffening exponent of polyester
	WireMassIWRC              ID = "wire.mass-iwrc"               // wire rope 6x19 steel core, mass
	HMPEMass                  ID = "hmpe.mass"                    // HMPE 12-strand, mass
	PolyesterMass             ID = "polyester.mass"               // polyester rope, mass
	NylonMass                 ID = "nylon.mass"                   // nylon rope or kinetic strap, mass
	ConditionNew              ID = "condition.new"                // line condition: new
	ConditionUsed             ID = "condition.used"               // line condition: used and inspected
	ConditionDoubtful         ID = "condition.doubtful"           // line condition: doubtful (glazed, stiff, fuzzy, cut, unknown age)
	ConditionWetNylon         ID = "condition.wet-nylon"          // wet nylon keeps
	ConditionWireKinked       ID = "condition.wire-kinked"        // kinked or bird-caged wire rope
	StrengthMeanNewRope       ID = "strength.mean-new-rope"       // real mean strength of new rope over its minimum
)

// Rows of factors.toml.
const (
	FactorPullingWinchLine       ID = "factor.pulling.winch-line"       // pulling: winch line, breaking over working
	FactorPullingBlock           ID = "factor.pulling.block"            // pulling: block, breaking over working
	FactorPullingAnchorGear      ID = "factor.pulling.anchor-gear"      // pulling: anchor gear, breaking over working
	FactorPullingHold            ID = "factor.pulling.hold"             // pulling: hold of tree, picket, deadman, boulder, braked vehicle over working
	FactorPullingSlingBreaking   ID = "factor.pulling.sling-breaking"   // pulling: sling known by its breaking strength
	FactorPullingShackleBreaking ID = "factor.pulling.shackle-breaking" // pulling: shackle known by its breaking strength
	FactorForestryLine           ID = "factor.forestry-line"            // forestry winch line and every part, strength over winch pull
	FactorTwoWinches             ID = "factor.two-winches"              // two winches: share of the whole load each chain is checked for
	FactorFixedBridleLeg         ID = "factor.fixed-bridle-leg"         // fixed bridle: share of the load one leg is assumed to take unless shown equal
	FactorLiftingLine            ID = "factor.lifting.line"             // lifting: hoist line, breaking over working
	FactorLiftingBlock           ID = "factor.lifting.block"            // lifting: block, breaking over working
	FactorLiftingRigging         ID = "factor.lifting.rigging"          // lifting: other rigging, breaking over working
	FactorLiftingHold            ID = "factor.lifting.hold"             // lifting: hold of an anchor over working
	FactorUltimateWebEN          ID = "factor.ultimate.web-en"          // tag to ultimate: web sling or roundsling, EN
	FactorUltimateWebUS          ID = "factor.ultimate.web-us"          // tag to ultimate: web sling or roundsling, US
	FactorUltimateShackle        ID = "factor.ultimate.shackle"         // tag to ultimate: shackle
	FactorUltimateBlock          ID = "factor.ultimate.block"           // tag to ultimate: rigging block
	FactorUltimateChain          ID = "factor.ultimate.chain"           // tag to ultimate: alloy chain sling
	FactorUltimateWireSling      ID = "factor.ultimate.wire-sling"      // tag to ultimate: wire rope sling
	FactorUltimateFibreSling     ID = "factor.ultimate.fibre-sling"     // tag to ultimate: natural-fibre rope sling
	FactorUltimateSling          ID = "factor.ultimate.sling"           // tag to ultimate: slings generally
	StrapBreakingLow             ID = "strap.breaking-low"              // recovery strap: least breaking strength over gross mass of the lighter vehicle
	StrapBreakingHigh            ID = "strap.breaking-high"             // recovery strap: greatest breaking strength over gross mass of the lighter vehicle
)
