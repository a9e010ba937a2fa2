package terrain

import (
	"math"

	"github.com/golang/geo/r3"

	"kedge/solver/quantity"
)

// VecBearing is the bearing of the horizontal part of v, in [0, 360); 0 if it
// has none.
func VecBearing(v r3.Vector) quantity.Degrees {
	if v.X == 0 && v.Y == 0 {
		return 0
	}
	return quantity.FromRadians(math.Atan2(v.X, v.Y)).Normal()
}
