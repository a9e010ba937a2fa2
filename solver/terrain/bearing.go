package terrain

import (
	"math"

	"kedge/solver/part"
	"kedge/solver/quantity"
)

// VecBearing is the bearing of the horizontal part of v, in [0, 360); 0 if it
// has none.
func VecBearing(v part.Vec) quantity.Degrees {
	if v[0] == 0 && v[1] == 0 {
		return 0
	}
	return quantity.FromRadians(math.Atan2(v[0], v[1])).Normal()
}
