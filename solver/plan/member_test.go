package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver/plan"
)

func TestMemberPath(t *testing.T) {
	p := plan.New()
	p.Site.Vehicles = []plan.Vehicle{{Head: plan.Head{ID: "V1"}}, {Head: plan.Head{ID: "V2"}, Recovery: []plan.RecoveryPoint{{ID: "rear"}, {ID: "front.left"}}}}
	p.Rigs = []plan.Rig{{Head: plan.Head{ID: "R1"}}, {Head: plan.Head{ID: "R2"}, Blocks: []plan.Block{{Head: plan.Head{ID: "B1"}}}}}
	for _, c := range []struct {
		thing        plan.ID
		member, want string
	}{
		{"", "slope_deg", "site/ground/slope_deg"},
		{"V1", "mass_kg", "site/vehicles/0/mass_kg"},
		{"V2", "winch.flange_diameter_m", "site/vehicles/1/winch/flange_diameter_m"},
		{"V2", "recovery_points.front.left.rating.force_n", "site/vehicles/1/recovery_points/1/rating/force_n"},
		{"B1", "line_max_m", "rigs/1/blocks/0/line_max_m"},
		{"R2", "stand_off_factor", "rigs/1/stand_off_factor"},
		{"X9", "mass_kg", ""},
	} {
		assert.Equal(t, c.want, plan.MemberPath(p, "R2", c.thing, c.member))
	}
	assert.Empty(t, plan.MemberPath(p, "R1", "B1", "line_max_m"), "a thing of another rig")
}
