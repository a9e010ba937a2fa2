package terrain

import (
	"math"
	"sync"

	"kedge/solver/facts"
)

// steepestLead is 1 / cos of the steepest lead off square.
func steepestLead() float64 { return 1 / math.Cos(facts.InWayOwnLead.Value()*math.Pi/180) }

// largestTrunk is the largest plausible radius, metres, of a trunk nobody measured.
func largestTrunk() float64 { return facts.InWayLargestTrunk.Value() / 2 }

// KeepOff is the clearance, metres, under which a line beside or over something
// is near it: lines move as the casualty does, and sag when they slacken. (ours)
func KeepOff() float64 { return keepOff() }

var keepOff = sync.OnceValue(facts.InWayKeepOff.Value)

// LowObstacle is the height, metres, under which what is drawn as an obstacle is
// doubted. (ours)
func LowObstacle() float64 { return facts.InWayLowObstacle.Value() }

// LargestVehicle is the distance, metres, from the middle of a vehicle nobody
// measured to its farthest corner, at most.
func LargestVehicle() float64 { return facts.InWayLargestVehicle.Value() }
