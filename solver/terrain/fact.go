package terrain

import (
	"math"
	"sync"

	"kedge/solver/facts"
)

// numbers are the handbook's figures in metres, resolved once.
type numbers struct {
	passOver, keepOff, lowObstacle float64
	bodyInset, lead                float64 // lead: 1 / cos of the steepest lead off square
	trunk, vehicle                 float64 // largest plausible radius of what nobody measured
	taper                          float64 // least diameter at breast height, of that at a strap below
}

// book reads the handbook; a test of this package asks for it.
var book = sync.OnceValue(func() *numbers {
	return &numbers{
		passOver: facts.InWayPassOver.Value(), keepOff: facts.InWayKeepOff.Value(), lowObstacle: facts.InWayLowObstacle.Value(),
		bodyInset: facts.InWayBodyInset.Value(), lead: 1 / math.Cos(facts.InWayOwnLead.Value()*math.Pi/180),
		trunk: facts.InWayLargestTrunk.Value() / 2, vehicle: facts.InWayLargestVehicle.Value(),
		taper: facts.Must(facts.TreeTaper).Low,
	}
})

// KeepOff is the clearance, metres, under which a line beside or over something
// is near it: lines move as the casualty does, and sag when they slacken. (ours)
func KeepOff() float64 { return book().keepOff }

// LowObstacle is the height, metres, under which what is drawn as an obstacle is
// doubted. (ours)
func LowObstacle() float64 { return book().lowObstacle }

// LargestVehicle is the distance, metres, from the middle of a vehicle nobody
// measured to its farthest corner, at most.
func LargestVehicle() float64 { return book().vehicle }
