package facts

// Rows of slings.toml.
const (
	SlingStraight             ID = "sling.straight"               // sling straight
	SlingHalfOfBasket         ID = "sling.half-of-basket"         // straight as share of a parallel basket
	SlingBasketEN             ID = "sling.basket-en"              // EN basket, factor by leg angle from the bisector
	SlingAngleLimit           ID = "sling.angle-limit"            // greatest leg angle from the bisector
	SlingParallelUS           ID = "sling.parallel-us"            // leg angle that still counts as vertical, US
	SlingChokedWeb            ID = "sling.choked-web"             // choked, web sling or roundsling
	SlingChokedWebOlder       ID = "sling.choked-web-older"       // choked, web sling, older US tables
	SlingChokedWire           ID = "sling.choked-wire"            // choked, wire rope sling
	SlingChokedChainOlder     ID = "sling.choked-chain-older"     // choked, chain
	SlingChokedFibre          ID = "sling.choked-fibre"           // choked, laid fibre rope sling
	SlingBasketUSVertical     ID = "sling.basket-us-vertical"     // basket, legs vertical, US
	SlingBasketBendMechanical ID = "sling.basket-bend-mechanical" // D/d a wire basket needs, mechanical splice
	SlingBasketUS             ID = "sling.basket-us"              // US basket by leg angle from horizontal, printed angles only
	SlingChokeAngle           ID = "sling.choke-angle"            // share of the choked rating by choke angle
	SlingChokeFree            ID = "sling.choke-free"             // choke angle of a free-hanging choke
	SlingLegLoad              ID = "sling.leg-load"               // load factor of a sling leg, printed (truncated)
	SlingBendShareFixed       ID = "sling.bend-share-fixed"       // worse leg of a sling over a fixed shackle or hook
	SlingManila               ID = "sling.manila"                 // manila rope sling, safety factor 5, by diameter
)

// Rows of shackles.toml.
const (
	ShackleSidePull      ID = "shackle.side-pull"      // shackle: share of rating by pull off line
	ShackleIncludedAngle ID = "shackle.included-angle" // bow shackle: greatest angle between two legs
	ShackleRating        ID = "shackle.rating"         // shackle rating by body diameter
	ShackleRatingOSHA    ID = "shackle.rating-osha"    // shackle rating by body diameter, older and lower
	ShackleUnmarked      ID = "shackle.unmarked"       // unmarked shackle: tonnes = c D squared, D in cm
	ShackleUnmarkedUS    ID = "shackle.unmarked-us"    // unmarked shackle: short tons = c D squared, D in inches
	ShackleOneSizeUp     ID = "shackle.one-size-up"    // shackle that hangs a block: sizes larger than the line
	SoftShackleEdge      ID = "soft-shackle.edge"      // soft shackle: least diameter of the edge or pin it bears on, own diameters
	PointUnsaidFull      ID = "point.unsaid-full"      // recovery point, tag silent on angle: full to
	PointUnsaidWarning   ID = "point.unsaid-warning"   // recovery point, tag silent on angle: warning to, danger beyond
	PointScrewInEye      ID = "point.screw-in-eye"     // screw-in towing eye: greatest pull off its line
	ChainGrade70         ID = "chain.grade-70"         // chain, grade 70, working load by size
	WebbingDefault       ID = "webbing.default"        // webbing, default working load by width
	WireDefault          ID = "wire.default"           // wire rope 6x37 fibre core, default working load
	ChainFieldRule       ID = "chain.field-rule"       // chain: short tons = c D squared, D link diameter in inches
)

// Rows of connectors.toml.
const (
	ConnectorRating ID = "connector.rating" // connector at a line's end, working load assumed by the line's diameter
)
