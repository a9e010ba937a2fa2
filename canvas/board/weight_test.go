package board_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
)

// A force typed as a weight is kept to the last digit, shown with no more
// figures than elsewhere, and said to be a weight. 5 t × 9.80665 m/s² = 49.03325
// kN (standard gravity).
func TestForceTypedAsWeight(t *testing.T) {
	tests := []struct {
		typed string
		kept  float64 // newtons
		shown string
		said  string
	}{
		{"5 t", 49033.25, "49.03", "5 t is a weight: taken as 49.03 kN"},
		{"5 t working", 49033.25, "49.03", "5 t is a weight: taken as 49.03 kN"},
		{"10 000 lbf", 44482.216152605, "44.48", ""}, // 4.4482216152605 N by definition
		{"49.03 kN", 49030, "49.03", ""},
		{"4,75 t", 46581.5875, "46.58", "4,75 t is a weight: taken as 46.58 kN"},
		{"0.5 t", 4903.325, "4.9", "0.5 t is a weight: taken as 4.9 kN"},
		{"120 kN", 120000, "120", ""},
	}
	for _, tt := range tests {
		t.Run(tt.typed, func(t *testing.T) {
			h := redirect(t)
			require.NoError(t, h.b.Set("S1", "rating", tt.typed))
			if tt.said != "" {
				assert.Equal(t, tt.said, plain(h.b.Prompt()))
			} else {
				assert.NotContains(t, h.b.Prompt(), "weight")
			}
			near(t, tt.kept, float64(h.b.Plan().Rigs[0].Slings[0].Rating.Force), 1e-9*tt.kept, "kept as typed")
			f := fieldNamed(t, h.b.Fields("S1"), "rating")
			assert.Equal(t, tt.shown, f.Value)
			before := h.bytes()
			require.NoError(t, h.b.Set("S1", "rating", f.Value), "typed back as it is shown")
			assert.Equal(t, before, h.bytes(), "nothing is lost by it")
		})
	}
	h := redirect(t) // one digit more than is shown is another figure
	require.NoError(t, h.b.Set("S1", "rating", "5 t"))
	require.NoError(t, h.b.Set("S1", "rating", "49.0341"))
	near(t, 49034.1, float64(h.b.Plan().Rigs[0].Slings[0].Rating.Force), 1e-6, "typed over")
}

// The angle that a point's tag allows is an angle off its axis, in its field and
// at the point.
func TestAngleOffTheAxis(t *testing.T) {
	h := rigged1(t)
	require.NoError(t, h.b.Set("V1", "recovery_points/front/max_angle_deg", "30"))
	f := fieldNamed(t, h.b.Fields("V1"), "recovery_points/front/max_angle_deg")
	assert.Equal(t, "30", f.Value)
	assert.Equal(t, "°", f.Unit)
	assert.Equal(t, "Angle off its axis, as its tag allows", f.Label)
	require.NoError(t, h.b.Set("V1", "bearing_deg", "200"), "whichever way the vehicle looks")
	assert.Equal(t, "30", fieldNamed(t, h.b.Fields("V1"), f.Member).Value)
	assert.InDelta(t, 30, float64(h.b.Plan().Site.Vehicles[0].RecoveryPoint("front").MaxAngle), 0)
	h.keys("<Escape>", "l")
	v := h.b.Plan().Site.Vehicles[0]
	at, ok := v.PortPlace(plan.ID("front"))
	require.True(t, ok)
	h.move(at.At.X, at.At.Y)
	m := under(h.b.Overlay())
	require.NotNil(t, m)
	assert.Contains(t, plain(m.Label), "to 30")
	assert.NotContains(t, m.Label, "030")
}
