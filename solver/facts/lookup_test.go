package facts_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/solver/facts"
)

func TestStep(t *testing.T) {
	tests := []struct {
		name string
		id   facts.ID
		x    float64
		want float64 // NaN: refused
	}{
		// ASME B30.26: to 5 deg full, to 45 deg 70 %, to 90 deg 50 %, beyond refused.
		{"shackle in line", facts.ShackleSidePull, 0, 1},
		{"shackle 5", facts.ShackleSidePull, 5, 1},
		{"shackle just over 5", facts.ShackleSidePull, 5.000001, 0.7},
		{"shackle 45", facts.ShackleSidePull, 45, 0.7},
		{"shackle just over 45", facts.ShackleSidePull, 45.000001, 0.5},
		{"shackle 90", facts.ShackleSidePull, 90, 0.5},
		{"shackle over 90", facts.ShackleSidePull, 90.000001, math.NaN()},
		{"shackle below 0", facts.ShackleSidePull, -1, math.NaN()},
		{"shackle not a number", facts.ShackleSidePull, math.NaN(), math.NaN()},
		{"shackle infinite", facts.ShackleSidePull, math.Inf(1), math.NaN()},
		// EN 1492-1: 2.0 parallel (6 deg), 1.4 to 45, 1.0 to 60, beyond refused.
		{"basket 6", facts.SlingBasketEN, 6, 2},
		{"basket 6.1", facts.SlingBasketEN, 6.1, 1.4},
		{"basket 45", facts.SlingBasketEN, 45, 1.4},
		{"basket 45.1", facts.SlingBasketEN, 45.1, 1},
		{"basket 60", facts.SlingBasketEN, 60, 1},
		{"basket 60.1", facts.SlingBasketEN, 60.1, math.NaN()},
		// ASME B30.9 prints whole degrees: 0-29, 30-59, 60-89, 90-120, over 120.
		// Between 29 and 30 the lower share counts.
		{"choke 0", facts.SlingChokeAngle, 0, 0.49},
		{"choke 29.5", facts.SlingChokeAngle, 29.5, 0.49},
		{"choke 30", facts.SlingChokeAngle, 30, 0.62},
		{"choke 59.5", facts.SlingChokeAngle, 59.5, 0.62},
		{"choke 60", facts.SlingChokeAngle, 60, 0.74},
		{"choke 89.9", facts.SlingChokeAngle, 89.9, 0.74},
		{"choke 90", facts.SlingChokeAngle, 90, 0.87},
		{"choke 120", facts.SlingChokeAngle, 120, 0.87},
		{"choke 120.1", facts.SlingChokeAngle, 120.1, 1},
		{"choke 180", facts.SlingChokeAngle, 180, 1},
		// Sizes between two printed ones take the smaller (29 CFR 1926.251).
		{"shackle 1/2 in", facts.ShackleRatingOSHA, 0.5, 1.4},
		{"shackle 0.6 in", facts.ShackleRatingOSHA, 0.6, 1.4},
		{"shackle too small", facts.ShackleRatingOSHA, 0.49, math.NaN()},
		{"shackle too large", facts.ShackleRatingOSHA, 2.01, math.NaN()},
		// 29 CFR 1918 App. II: between two diameters the larger number of clips.
		{"clips 1 in", facts.ClipsOSHA, 1, 5},
		{"clips 1.05 in", facts.ClipsOSHA, 1.05, 6},
		// Printed keys only.
		{"redirect 90", facts.RedirectFactor, 90, 1.41},
		{"redirect 91", facts.RedirectFactor, 91, math.NaN()},
		// A curve has no steps.
		{"curve", facts.BendWireCurve, 10, math.NaN()},
		// A figure is no table.
		{"figure", facts.GripGravel, 1, math.NaN()},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, ok := facts.Must(tt.id).Step(tt.x)
			if math.IsNaN(tt.want) {
				assert.False(t, ok)
				assert.Zero(t, got)
				return
			}
			require.True(t, ok)
			assert.Equal(t, tt.want, got)
		})
	}
}

func TestStepOf(t *testing.T) {
	deadman := facts.Must(facts.DeadmanLoam)
	v, ok := deadman.StepOf("slope_1_2", 5*0.3048)
	assert.True(t, ok)
	assert.Equal(t, 3600.0, v) // TM 5-5420-278-10 Table 9: 5 ft, 1:2
	v, ok = deadman.StepOf("slope_1_2", 1.6)
	assert.True(t, ok)
	assert.Equal(t, 3600.0, v) // between 5 and 6 ft the shallower
	for _, depthM := range []float64{2.5 * 0.3048, 0.9143, 2.1337, math.NaN()} {
		_, ok = deadman.StepOf("slope_1_2", depthM)
		assert.False(t, ok, "outside 3 to 7 ft: %g m", depthM)
	}
	v, ok = deadman.StepOf("slope_1_3", math.Nextafter(7*0.3048, 3))
	assert.True(t, ok, "7 ft, one bit over")
	assert.Equal(t, 8000.0, v) // TM 5-5420-278-10 Table 9
	_, ok = deadman.StepOf("slope_1_6", 1.6)
	assert.False(t, ok, "no such column")
	_, ok = deadman.StepOf("mean_depth_m", 1.6)
	assert.False(t, ok, "the key is no value")
	_, ok = facts.Must(facts.ShackleSidePull).StepOf("to_deg", 3)
	assert.False(t, ok, "a band's edge is no value")
}

func TestInterp(t *testing.T) {
	curve := facts.Must(facts.BendWireCurve)
	tests := []struct {
		x, want float64
		ok      bool
	}{
		{1, 0.50, true}, {10, 0.86, true}, {40, 0.95, true}, // printed points of the curve
		{3, 0.70, true}, {25, 0.92, true}, // half way between 2 and 4, 20 and 30
		{0.99, 0, false}, {40.01, 0, false}, {math.NaN(), 0, false}, {math.Inf(1), 0, false},
	}
	for _, tt := range tests {
		got, ok := curve.Interp(tt.x)
		require.Equal(t, tt.ok, ok, "%g", tt.x)
		if ok {
			assert.InDelta(t, tt.want, got, 1e-12)
		}
	}
	traction, ok := facts.Must(facts.RollThaw).InterpOf("traction", 3)
	assert.True(t, ok)
	assert.Equal(t, 0.88, traction) // CRREL 95-1 Table A3
	_, ok = facts.Must(facts.RollThaw).InterpOf("thaw_depth_cm", 3)
	assert.False(t, ok)
	_, ok = facts.Must(facts.ShackleSidePull).Interp(30)
	assert.False(t, ok, "bands are never read between")
}

// In every table of the handbook: an answer is one of the printed values (a
// step) or between its neighbours (a curve), and outside the table there is
// none.
func TestTablesNeverExtrapolate(t *testing.T) {
	var tables []facts.Row
	for r := range facts.All() {
		if r.IsTable() {
			tables = append(tables, r)
		}
	}
	require.NotEmpty(t, tables)
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.SampledFrom(tables).Draw(t, "table")
		cells, columns := r.Cells(), r.Columns()
		c := rapid.IntRange(1, len(columns)-1).Draw(t, "column")
		x := rapid.Float64Range(-10, 2000).Draw(t, "x")
		first, last := cells[0][0], cells[len(cells)-1][0]
		if strings.HasPrefix(columns[0], "from_") { // bands: the last one's upper edge
			last = cells[len(cells)-1][1]
		}
		low, high := math.Inf(1), math.Inf(-1)
		for _, line := range cells {
			low, high = math.Min(low, line[c]), math.Max(high, line[c])
		}
		for _, read := range []func(string, float64) (float64, bool){r.StepOf, r.InterpOf} {
			v, ok := read(columns[c], x)
			if !ok {
				continue
			}
			const slack = 1e-5 // above the tolerance of a key, 1e-9 of 2000
			if x < first-slack || x > last+slack {
				t.Fatalf("%s answers at %g, outside %g to %g", r.ID, x, first, last)
			}
			if !(v >= low && v <= high) {
				t.Fatalf("%s[%s](%g) = %g, printed %g to %g", r.ID, columns[c], x, v, low, high)
			}
		}
	})
}
