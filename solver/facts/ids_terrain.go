package facts

// Rows of in-way.toml.
const (
	InWayPassOver       ID = "in-way.pass-over"       // line over an obstacle: height over its top under which it bears on it
	InWayKeepOff        ID = "in-way.keep-off"        // line beside or over an obstacle: clearance under which it is near
	InWayLowObstacle    ID = "in-way.low-obstacle"    // obstacle: height under which a line over it is told of whatever its clearance
	InWayBodyInset      ID = "in-way.body-inset"      // vehicle: how far within its drawn edge its own lines bear on its body
	InWayOwnLead        ID = "in-way.own-lead"        // what a line's end is fast to: lead off square, up to which the line may lie over its edge
	InWayLargestTrunk   ID = "in-way.largest-trunk"   // trunk nobody measured: largest plausible diameter
	InWayLargestVehicle ID = "in-way.largest-vehicle" // vehicle nobody measured: distance from its middle to its farthest corner, at most
)
