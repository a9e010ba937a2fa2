package plan_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// doubted is a plan with a casualty of 2400 kg that nobody weighed, as a file.
func doubted(t *testing.T, doubts ...plan.Doubt) string {
	t.Helper()
	p := plan.New()
	v := plan.Vehicle{Head: plan.Head{ID: "V1", Doubts: doubts}, Mass: 2400, Stuck: &plan.Stuck{Breakaway: 1.5}}
	v.Recovery = []plan.RecoveryPoint{{ID: "front", Height: 0.6}}
	p.Site.Vehicles = []plan.Vehicle{v}
	p.Rigs = []plan.Rig{{Head: plan.Head{ID: "R1"}, Incident: &plan.Incident{Pins: []plan.Pin{{ID: "A", Kind: plan.PinRut, Length: plan.Known(quantity.Length(3)), Doubts: []plan.Doubt{{Member: "trace_m", Low: 2, High: 4, Likely: true}}}}}}}
	data, err := plan.FormatPlan(p)
	require.NoError(t, err)
	return string(data)
}

// A range of a member that is given twice is refused, wherever it stands: only one of them
// would count.
func TestARangeGivenTwiceIsRefused(t *testing.T) {
	file := doubted(t, plan.Doubt{Member: "mass_kg", Low: 2000, High: 3000})
	twice := strings.Replace(file, `"doubts": [`, `"doubts": [ {"member": "mass_kg", "low": 2300, "high": 2500},`, 1)
	_, err := plan.ParsePlan([]byte(twice))
	require.ErrorIs(t, err, plan.ErrValue)
	assert.Contains(t, err.Error(), "/site/vehicles/0/doubts/1: doubt-twice")
	twice = strings.Replace(file, `"member": "trace_m",`, `"member": "trace_m", "low": 1, "high": 5}, {"member": "trace_m",`, 1)
	_, err = plan.ParsePlan([]byte(twice))
	require.ErrorIs(t, err, plan.ErrValue)
	assert.Contains(t, err.Error(), "/rigs/0/incident/pins/0/doubts/1: doubt-twice")
}

// A likely value that is not between the ends of its range is refused in a file: of a
// thing, of a part of it, of evidence. One that was edited out of its range since is
// written with a range that holds it.
func TestALikelyValueLiesInItsRange(t *testing.T) {
	for member, x := range map[string]float64{"mass_kg": 2400, "casualty.breakaway_factor": 1.5, "recovery_points.front.height_m": 0.6} {
		file := doubted(t, plan.Doubt{Member: member, Low: x / 2, High: 3 * x, Likely: true})
		_, err := plan.ParsePlan([]byte(file))
		require.NoError(t, err, member)
		bad := strings.Replace(file, fmt.Sprintf(`"low": %v,`, x/2), fmt.Sprintf(`"low": %v,`, 2*x), 1)
		_, err = plan.ParsePlan([]byte(bad))
		require.ErrorIs(t, err, plan.ErrValue, member)
		assert.Contains(t, err.Error(), "/site/vehicles/0/doubts/0: likely-outside")
		again, err := plan.ParsePlan([]byte(doubted(t, plan.Doubt{Member: member, Low: 2 * x, High: 3 * x, Likely: true})))
		require.NoError(t, err)
		d := again.Site.Vehicles[0].Doubts[0]
		assert.Equal(t, []float64{x, 3 * x}, []float64{d.Low, d.High}, member)
	}
	bad := strings.Replace(doubted(t), `"low": 2,`, `"low": 3.5,`, 1)
	_, err := plan.ParsePlan([]byte(bad))
	require.ErrorIs(t, err, plan.ErrValue)
	assert.Contains(t, err.Error(), "/rigs/0/incident/pins/0/doubts/0: likely-outside")
}

// A prior that is given twice is refused: only one of them would count.
func TestAPriorGivenTwiceIsRefused(t *testing.T) {
	p := plan.New()
	worn := plan.Prior{Thing: "K1", Weak: plan.WeakWorn, Chance: 0.1}
	p.Rigs = []plan.Rig{{Head: plan.Head{ID: "R1"}, Incident: &plan.Incident{Priors: []plan.Prior{worn, {Thing: "K1", Weak: plan.WeakOff, Chance: 0.1}, {Thing: "K2", Weak: plan.WeakWorn, Chance: 0.1}}}}}
	require.NoError(t, plan.Validate(p))
	p.Rigs[0].Incident.Priors[2] = worn
	err := plan.Validate(p)
	require.ErrorIs(t, err, plan.ErrValue)
	assert.Contains(t, err.Error(), "/rigs/0/incident/priors/2: prior-twice")
}
