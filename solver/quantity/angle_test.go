package quantity_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"kedge/solver/quantity"
)

// Expected by counting round the circle.
func TestTurn(t *testing.T) {
	tests := []struct{ from, to, want quantity.Degrees }{
		{0, 90, 90},
		{350, 10, 20},
		{10, 350, -20},
		{0, 180, 180},
		{180, 0, 180},
		{-90, 450, 180},
		{720, 1, 1},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.want, tt.from.Turn(tt.to), "from %v to %v", tt.from, tt.to)
	}
	assert.Equal(t, quantity.Degrees(0), quantity.Degrees(-1e-300).Normal(), "a tiny negative is no full turn")
	assert.InDelta(t, math.Pi, quantity.Degrees(180).Radians(), 0)
	near(t, 180, quantity.FromRadians(math.Pi))
}

func TestNormal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := quantity.Degrees(rapid.Float64Range(-1e6, 1e6).Draw(t, "degrees"))
		e := quantity.Degrees(rapid.Float64Range(-1e6, 1e6).Draw(t, "other"))
		if n := d.Normal(); !(n >= 0 && n < 360) {
			t.Fatalf("%v turns into %v", d, n)
		}
		turn := d.Turn(e)
		if !(turn > -180 && turn <= 180) {
			t.Fatalf("turn of %v", turn)
		}
		// 1e-9°: what 1e6° in float64 (1.2e-10° a step) leaves of two sums
		if left := (d + turn).Turn(e); !(math.Abs(float64(left)) <= 1e-9) {
			t.Fatalf("turning %v by %v misses %v by %v", d, turn, e, left)
		}
	})
}

// 2450 kg × 9.80665 m/s² by hand.
func TestWeight(t *testing.T) { near(t, 24026.2925, quantity.Mass(2450).Weight()) }
