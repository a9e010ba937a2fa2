package words

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// One line names every field that is missing, by the words of Details and by
// what each is of.
func TestWhatLacksIsNamedByItsFields(t *testing.T) {
	p := plan.New()
	p.Site.Vehicles = []plan.Vehicle{
		{Head: plan.Head{ID: "V1"}, Stuck: &plan.Stuck{}, Recovery: []plan.RecoveryPoint{{ID: "front.left", Name: "front recovery point"}}},
		{Head: plan.Head{ID: "V2"}, Winch: &plan.Winch{}},
	}
	f := part.Finding{ID: part.NotDecidedID, Lacks: []part.Lack{
		{Member: "slope_deg", Rule: "no-brake"}, {Thing: "V2", Member: "winch.flange_diameter_m"}, {Member: "slope_deg", Rule: "downhill-pull"},
		{Thing: "V2", Member: "winch.drum_width_m"}, {Thing: "V1", Member: "recovery_points.front.left.axis_deg"}, {Thing: "V1", Member: "casualty.way_length_m"},
		{Thing: "V1", Member: "recovery_points.front.left.rating.force_n"},
	}}
	w := english(t, quantity.Metric)
	what, do := w.Finding(f, w.Names(p, ""))
	assert.Equal(t, "Not entered, so not decided: Slope (the ground); Flange diameter, Drum width (Winch); "+
		"Direction, clockwise from straight ahead, Rating (Casualty, front recovery point); Length of the exit path (Casualty).", what)
	assert.Contains(t, do, "Details")
	de, err := New("de", quantity.Metric)
	assert.NoError(t, err)
	what, _ = de.Finding(f, de.Names(p, ""))
	assert.Contains(t, what, "Neigung (der Boden); ")
	assert.NotContains(t, what, "[")
}
