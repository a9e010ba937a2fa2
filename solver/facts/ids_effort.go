package facts

// Rows of surfaces.toml.
const (
	RollHardRoad    ID = "roll.hard-road"    // rolling, hard road
	RollGravelFirm  ID = "roll.gravel-firm"  // rolling, firm gravel
	RollGravelLoose ID = "roll.gravel-loose" // rolling, loose gravel
	RollGrass       ID = "roll.grass"        // rolling, grass
	RollSandLoose   ID = "roll.sand-loose"   // rolling, loose dry sand
	RollSandFirm    ID = "roll.sand-firm"    // rolling, firm or wet sand
	RollMud         ID = "roll.mud"          // rolling, shallow mud on a firm bottom
	RollBog         ID = "roll.bog"          // rolling, bog or marsh surface
	RollThaw        ID = "roll.thaw"         // wet soil thawed on a frozen base: factor on motion resistance and on traction
	SinkageBase     ID = "sinkage.base"      // rolling fraction at no sinkage
	SinkagePerCm    ID = "sinkage.per-cm"    // rolling fraction per cm of tyre sinkage
	SinkageLimit    ID = "sinkage.limit"     // sinkage beyond which the rule ends
	GripGravel      ID = "grip.gravel"       // grip, gravel or dirt road
	GripSnow        ID = "grip.snow"         // grip, packed snow
)

// Rows of effort.toml.
const (
	MireHub              ID = "mire.hub"               // resistance, sunk to the hubs, of weight
	MireChassis          ID = "mire.chassis"           // resistance, sunk to the chassis, of weight
	MireBody             ID = "mire.body"              // resistance, sunk to the body, of weight
	GradeHandbook        ID = "grade.handbook"         // handbook grade resistance, nosed into a ditch or crater, of weight
	OverturnUpright      ID = "overturn.upright"       // resistance to uprighting an overturned vehicle, of weight
	WaterAsLand          ID = "water.as-land"          // resistance in water against the same on land
	ReduceWayIn          ID = "reduce.way-in"          // reduction when pulled back the way it came
	ArmyTacklePerSheave  ID = "army.tackle-per-sheave" // tackle resistance per sheave, of the load
	ArmySheaves          ID = "army.sheaves"           // sheaves counted for an advantage n: n minus
	FractionHardRoad     ID = "fraction.hard-road"     // surface fraction, hard road, about 1/25
	FractionSandWetHard  ID = "fraction.sand-wet-hard" // surface fraction, hard wet sand, 1/6
	FractionBog          ID = "fraction.bog"           // surface fraction, bog
	FractionGrass        ID = "fraction.grass"         // surface fraction, grass, 1/7
	FractionGravel       ID = "fraction.gravel"        // surface fraction, gravel, 1/5
	FractionSandDrySoft  ID = "fraction.sand-dry-soft" // surface fraction, soft dry sand, 1/4
	FractionMudShallow   ID = "fraction.mud-shallow"   // surface fraction, shallow mud, 1/3
	FractionGradeDegrees ID = "fraction.grade-degrees" // Commonwealth grade rule: weight times degrees over
	BreakawayFactor      ID = "breakaway.factor"       // breakaway over running resistance
	WayOutNotice         ID = "way-out.notice"         // line off the way out: notice over
	WayOutWarning        ID = "way-out.warning"        // line off the way out: warning over
	WayOutRefused        ID = "way-out.refused"        // line off the way out: refused over
	BrakeParking         ID = "brake.parking"          // parking brake without chocks, of weight
	BrakeParkingGrade    ID = "brake.parking-grade"    // grade a parking brake must hold
	TiebackFactor        ID = "tieback.factor"         // share of the whole line pull a tie-back is computed for
	TipWarning           ID = "tip.warning"            // tipping sideways: warning over, of the righting moment
	TipDanger            ID = "tip.danger"             // tipping sideways: danger over, of the righting moment
	TipSunkTrack         ID = "tip.sunk-track"         // half-track counted with a wheel sunk or against a step
	AxleCGBehindFront    ID = "axle.cg-behind-front"   // centre of gravity behind the front axle, of wheelbase
	AxleCGHeight         ID = "axle.cg-height"         // height of the centre of gravity, four-wheel-drive truck
	AxleCGHeightShare    ID = "axle.cg-height-share"   // height of the centre of gravity, of track width
	RollAwayHoldback     ID = "roll-away.holdback"     // hold-back line against what rolls
	WaterTrapped         ID = "water.trapped"          // trapped water in the casualty
	WaterCurrentC        ID = "water.current-c"        // drag factor of a vehicle in a current
	WaterDensity         ID = "water.density"          // density of fresh water
	GravityStandard      ID = "gravity.standard"       // standard gravity
)

// Rows of effort-more.toml.
const (
	GradeHandbookFrom ID = "grade.handbook-from" // upgrade from which the handbook's grade rule is asked
	MeasuredLowShare  ID = "measured.low-share"  // measured resistance doubted below, of the low end of the rules
	PullerGripLow     ID = "puller.grip-low"     // low end of a vehicle's grip, of a textbook's average
)
