package facts

// Rows of zones.toml.
const (
	StandoffWire             ID = "standoff.wire"               // stand-off from a wire line, of the line paid out
	StandoffStretch          ID = "standoff.stretch"            // stand-off from a stretch strap, of its unstretched length
	StandoffOther            ID = "standoff.other"              // stand-off from any other line, of the line out
	StandoffRuleC            ID = "standoff.rule-c"             // rule C: outside the angle of the cable, of the two farthest points of the rigging
	RecoilHalfAngle          ID = "recoil.half-angle"           // recoil: half-angle of the cone along a loaded line
	RecoilPastEnd            ID = "recoil.past-end"             // recoil: past the far end, of the whole running line loaded at that end
	ReleaseHalfAngle         ID = "release.half-angle"          // release: half-angle about the resultant of a block or shackle
	ReleaseThrownDistance    ID = "release.thrown-distance"     // a 91 kg block may fly
	ReleaseThrownMass        ID = "release.thrown-mass"         // mass of that block
	TreeFallReach            ID = "tree-fall.reach"             // tree fall: reach, of its height
	TreeFallHalfAngle        ID = "tree-fall.half-angle"        // tree fall: half-angle towards the pull
	TreeFallFromShare        ID = "tree-fall.from-share"        // tree fall is drawn from this share to failure, or where the hold is not known
	RollAwayMargin           ID = "roll-away.margin"            // roll-away: margin beside the casualty's width
	UprightMargin            ID = "upright.margin"              // uprighting: zone beyond the vehicle's height, both sides
	RecoilSpeedSynthetic     ID = "recoil.speed-synthetic"      // recoil speed of a parted synthetic line, up to
	RecoilSpeedWire          ID = "recoil.speed-wire"           // recoil speed of a parted wire, up to
	RecoilSpeedSyntheticArmy ID = "recoil.speed-synthetic-army" // recoil speed of a parted synthetic line, up to, army
	RecoilSpeedNylonTest     ID = "recoil.speed-nylon-test"     // recoil speed of nylon at impact, test
	RecoilLineShareHardware  ID = "recoil.line-share-hardware"  // line mass that moves with a heavy end, share
	EnergyHazardous          ID = "energy.hazardous"            // hazardous fragment
	EnergyInjury             ID = "energy.injury"               // injury limit of blunt debris
	DamperPlace              ID = "damper.place"                // damper: distance from the end likelier to fly, of the stretch
)

// Rows of zone-more.toml.
const (
	TreeFallHeightUnknown ID = "tree-fall.height-unknown" // tree fall: height assumed for a tree nobody measured
	UprightHeightUnknown  ID = "upright.height-unknown"   // uprighting: height assumed for a vehicle nobody measured
	RollAwayRunUnknown    ID = "roll-away.run-unknown"    // roll-away and slide path: length where nothing is known to stop the vehicle
	BehindHalfAngle       ID = "behind.half-angle"        // behind an anchor or line end: half-angle in which no way out is proposed
	DamperJoinNear        ID = "damper.join-near"         // damper beside a join: within this length of line
	PersonRadius          ID = "person.radius"            // a person seen from above: radius of the disc that must stay outside
	PersonHalfWidth       ID = "person.half-width"        // a person behind cover: half of what must be hidden
	CoverTrunk            ID = "cover.trunk"              // cover behind a living tree: least diameter of its trunk
	CoverHead             ID = "cover.head"               // cover behind ground: least height, above the head
	CasualtyMargin        ID = "casualty.margin"          // casualty: margin round the ground its body covers on its way
	CasualtyTravelUnknown ID = "casualty.travel-unknown"  // casualty: travel its zone is drawn for where nobody says how far it has to go
	CasualtyLurchUnknown  ID = "casualty.lurch-unknown"   // casualty: lurch assumed as it breaks loose, where the stretch of its line is not known
)
