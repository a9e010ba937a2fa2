package facts

// Rows of slings.toml.
const (
	SlingStraight             ID = "sling.straight"                 // sling straight
	SlingHalfOfBasket         ID = "sling.half-of-basket"           // straight as share of a parallel basket
	SlingChokedOfStraight     ID = "sling.choked-of-straight"       // choked as share of straight, to check against
	SlingBasketEN             ID = "sling.basket-en"                // EN basket, factor by leg angle from the bisector
	SlingTwoStraightEN        ID = "sling.two-straight-en"          // EN two slings straight, factor by leg angle
	SlingTwoChokedEN          ID = "sling.two-choked-en"            // EN two slings choked, factor by leg angle
	SlingFourStraightEN       ID = "sling.four-straight-en"         // EN three or four legs straight, factor by leg angle
	SlingFourChokedEN         ID = "sling.four-choked-en"           // EN three or four legs choked, factor by leg angle
	SlingAngleLimit           ID = "sling.angle-limit"              // greatest leg angle from the bisector
	SlingParallelEN           ID = "sling.parallel-en"              // leg angle that still counts as parallel, EN
	SlingParallelUS           ID = "sling.parallel-us"              // leg angle that still counts as vertical, US
	SlingChokedWeb            ID = "sling.choked-web"               // choked, web sling or roundsling
	SlingChokedWebOlder       ID = "sling.choked-web-older"         // choked, web sling, older US tables
	SlingChokedWire           ID = "sling.choked-wire"              // choked, wire rope sling
	SlingChokedChain          ID = "sling.choked-chain"             // choked, chain, newer tables
	SlingChokedChainOlder     ID = "sling.choked-chain-older"       // choked, chain
	SlingChokedFibre          ID = "sling.choked-fibre"             // choked, laid fibre rope sling
	SlingBasketUSVertical     ID = "sling.basket-us-vertical"       // basket, legs vertical, US
	SlingBasketBendMechanical ID = "sling.basket-bend-mechanical"   // D/d a wire basket needs, mechanical splice
	SlingBasketBendTucked     ID = "sling.basket-bend-tucked"       // D/d a wire basket needs, hand tucked
	SlingBasketUS             ID = "sling.basket-us"                // US basket by leg angle from horizontal, printed angles only
	SlingChokeAngle           ID = "sling.choke-angle"              // share of the choked rating by choke angle
	SlingChokeFree            ID = "sling.choke-free"               // choke angle of a free-hanging choke
	SlingLegLoad              ID = "sling.leg-load"                 // load factor of a sling leg, printed (truncated)
	SlingBendShareFixed       ID = "sling.bend-share-fixed"         // worse leg of a sling over a fixed shackle or hook
	SlingBendShareSliding     ID = "sling.bend-share-sliding"       // worse leg of a sling that slides over the bend
	SlingBendShareTurning     ID = "sling.bend-share-turning"       // worse leg of a sling over a greased turning sheave
	SlingLegsCountedOf4       ID = "sling.legs-counted-of-4"        // legs counted of four
	SlingLegsCountedOf2Uneven ID = "sling.legs-counted-of-2-uneven" // legs counted of two, unequal
	SlingManila               ID = "sling.manila"                   // manila rope sling, safety factor 5, by diameter
	SlingWearUninspected      ID = "sling.wear-uninspected"         // wear factor, uninspected sling
	SlingWearYard             ID = "sling.wear-yard"                // wear factor, yard sling
)

// Rows of shackles.toml.
const (
	ShackleSidePull          ID = "shackle.side-pull"           // shackle: share of rating by pull off line
	ShackleIncludedAngle     ID = "shackle.included-angle"      // bow shackle: greatest angle between two legs
	ShackleRating            ID = "shackle.rating"              // shackle rating by body diameter
	ShackleRatingOSHA        ID = "shackle.rating-osha"         // shackle rating by body diameter, older and lower
	ShackleUnmarked          ID = "shackle.unmarked"            // unmarked shackle: tonnes = c D squared, D in cm
	ShackleUnmarkedUS        ID = "shackle.unmarked-us"         // unmarked shackle: short tons = c D squared, D in inches
	ShackleTemperature       ID = "shackle.temperature"         // shackle: share of rating by temperature
	ShackleOneSizeUp         ID = "shackle.one-size-up"         // shackle that hangs a block: sizes larger than the line
	ShackleProofGradeA       ID = "shackle.proof-grade-a"       // rating of a towing shackle, Grade A, of proof load
	ShackleProofGradeB       ID = "shackle.proof-grade-b"       // rating of a towing shackle, Grade B, of proof load
	SoftShackleEdge          ID = "soft-shackle.edge"           // soft shackle: least diameter of the edge or pin it bears on, own diameters
	SoftShackleEdgePreferred ID = "soft-shackle.edge-preferred" // soft shackle: preferred diameter of the edge or pin, own diameters
	SlingEyeLength           ID = "sling.eye-length"            // sling eye on a pin: least eye length, pin diameters
	EyeboltShouldered        ID = "eyebolt.shouldered"          // shouldered eyebolt: share by pull off the bolt axis
	EyeboltShoulderedHigher  ID = "eyebolt.shouldered-higher"   // shouldered eyebolt: share by pull off the bolt axis, higher set
	EyeboltPlain             ID = "eyebolt.plain"               // plain eyebolt: greatest pull off the bolt axis
	EyeboltFactor            ID = "eyebolt.factor"              // eyebolt: breaking over working
	EyeboltThread            ID = "eyebolt.thread"              // eyebolt: least thread engagement, diameters
	HookOffCentre            ID = "hook.off-centre"             // hook: share by place of the load, quarters off centre to the tip
	HookThroatOpened         ID = "hook.throat-opened"          // hook: remove when the throat has opened over
	HookTwist                ID = "hook.twist"                  // hook: remove when twisted over
	HookUnknownTest          ID = "hook.unknown-test"           // hook of unknown rating: test load over intended working load
	HookIncludedAngle        ID = "hook.included-angle"         // hook: greatest angle between two legs
	PointUnsaidAngle         ID = "point.unsaid-angle"          // recovery point whose tag is silent on angle: 0 full, 1 warning, 2 danger
	PointUnsaidFull          ID = "point.unsaid-full"           // recovery point, tag silent on angle: full to
	PointUnsaidWarning       ID = "point.unsaid-warning"        // recovery point, tag silent on angle: warning to, danger beyond
	PointScrewInEye          ID = "point.screw-in-eye"          // screw-in towing eye: greatest pull off its line
	ChainGrade30             ID = "chain.grade-30"              // chain, grade 30, working load by size
	ChainGrade43             ID = "chain.grade-43"              // chain, grade 43, working load by size
	ChainGrade70             ID = "chain.grade-70"              // chain, grade 70, working load by size
	ChainGrade80             ID = "chain.grade-80"              // chain, grade 80, working load by size
	ChainGrade100            ID = "chain.grade-100"             // chain, grade 100, working load by size
	WebbingDefault           ID = "webbing.default"             // webbing, default working load by width
	WireDefault              ID = "wire.default"                // wire rope 6x37 fibre core, default working load
	UnmarkedWireFactor       ID = "unmarked.wire-factor"        // unmarked wire rope: nominal strength over working load
	ChainFieldRule           ID = "chain.field-rule"            // chain: short tons = c D squared, D link diameter in inches
	ChainGrade80FieldRule    ID = "chain.grade80-field-rule"    // grade 80 chain: kg = 0.4 x 80 x d squared, d in mm
	TurnbuckleRating         ID = "turnbuckle.rating"           // turnbuckle: breaking and working load by end diameter
)

// Rows of connectors.toml.
const (
	ConnectorRating ID = "connector.rating" // connector at a line's end, working load assumed by the line's diameter
)
