package part_test

import (
	"math"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"

	"kedge/solver/part"
	"kedge/solver/quantity"
)

// A force that is none has no direction, whatever the signs of its zeros.
func TestNoForceIsOffNothing(t *testing.T) {
	x, none := r3.Vector{X: 1}, math.Copysign(0, -1)
	for _, v := range []r3.Vector{{}, {X: none}, {X: none, Y: none, Z: none}} {
		assert.Zero(t, part.Angle(v, x), "%v", v)
		assert.Zero(t, part.Angle(x, v), "%v", v)
	}
	assert.Equal(t, quantity.Degrees(180), part.Angle(r3.Vector{X: -1}, x), "against it, by definition")
}
