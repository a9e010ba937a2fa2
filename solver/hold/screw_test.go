package hold_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/hold"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// screw is a ground screw turned in toward the east, its axis 30° up, tested to 20 kN.
func screw() *plan.Anchor {
	return &plan.Anchor{Head: plan.Head{ID: "G1"}, Kind: plan.AnchorScrew, Helix: 0.2, Depth: 1, SetKnown: true, SetBearing: 90, AxisRise: 30, HoldLow: plan.Known(20 * kN)}
}

// A screw may be loaded up to 5° off its axis, whatever of bearing and rise is in
// doubt added (the design's rule, ours): a rise by all of it, a bearing by its share
// across, the cosine of the rise. Worked out by hand.
func TestAScrewIsLoadedAlongItsAxis(t *testing.T) {
	doubt := func(member string, low, high float64) plan.Doubt {
		return plan.Doubt{Member: member, Low: low, High: high}
	}
	for _, c := range []struct {
		name   string
		rise   float64 // of the load
		doubts []plan.Doubt
		off    float64
	}{
		{"along it", 30, nil, 0},
		{"4.9° off", 34.9, nil, 4.9},
		{"5.1° off", 35.1, nil, 5.1},
		{"3° off, and the rise 3° lower", 33, []plan.Doubt{doubt("axis_rise_deg", 27, 31)}, 6},
		{"3° off, and the rise 1.9° steeper", 33, []plan.Doubt{doubt("axis_rise_deg", 29, 31.9)}, 4.9},
		{"and the bearing 6° to the left", 30, []plan.Doubt{doubt("set_bearing_deg", 84, 91)}, 6 * math.Cos(math.Pi/6)},
		{"and the bearing 5.5° to the right", 30, []plan.Doubt{doubt("set_bearing_deg", 89, 95.5)}, 5.5 * math.Cos(math.Pi/6)},
		{"both", 30, []plan.Doubt{doubt("axis_rise_deg", 27, 33), doubt("set_bearing_deg", 87, 93)}, 3 + 3*math.Cos(math.Pi/6)},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := screw()
			a.Doubts = c.doubts
			var found []part.Finding
			hold.Anchor(hold.In{Anchor: a, Load: rising(c.rise)}, nil, &found)
			var off float64
			for _, f := range found {
				if f.ID == "screw-off-axis" {
					require.Equal(t, "off", f.Values[0].Name)
					off = f.Values[0].X
				}
			}
			if c.off <= 5 {
				assert.Zero(t, off)
			} else {
				assert.InDelta(t, c.off, off, 1e-6)
			}
		})
	}
}

// A plate lies five of its diameters deep (the handbook's rule for screws); a depth
// typed as exactly that is deep enough, whatever its last digit.
func TestAScrewIsDeepEnough(t *testing.T) {
	for depth, shallow := range map[quantity.Length]bool{1: false, 1 - 1e-9: false, 0.999: true} {
		a := screw()
		a.Depth = depth
		var found []part.Finding
		hold.Anchor(hold.In{Anchor: a, Load: rising(30)}, nil, &found)
		assert.Equal(t, shallow, slices.ContainsFunc(found, func(f part.Finding) bool { return f.ID == "screw-shallow" }), "%v m", float64(depth))
	}
}
