package solver_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// What makes water, a ditch or an edge a danger is not its height: a casualty
// drawn into it meets it, however little it stands out. A stone of 2 cm is driven
// over. (ours)
func TestCasualtyIsDrawnIntoWhatIsLow(t *testing.T) {
	for kind, meets := range map[string]bool{"water": true, "ditch": true, "edge": true, "": true, "boulder": false, "bank": false, "wall": false} {
		_, a := readPlan(t, stored(t, lowAt(kind, 4.5, -3, 6, -0.7), "low "+kind)) // the nose at 2.6 m goes on 2 m, the body is 0.95 m to each side
		_, has := levels(a)["casualty-meets"]
		assert.Equal(t, meets, has, "%q", kind)
	}
}

// What stands in water is said whatever holds it: a vehicle that is an anchor, an
// anchor in the ground, a tie-back's too; a measured hold and one's own word for
// the casualty were given for it.
func TestWhatStandsInWaterIsSaid(t *testing.T) {
	at := lowAt(plan.ObstacleWater, 21, -4, 26, -1)
	for _, tt := range []struct {
		what string
		c    change
		id   string
		has  bool
	}{
		{"an anchor vehicle", do(onVehicle, at), "stands-in-water", true},
		{"a deadman", do(inGround, at), "stands-in-water", true},
		{"pickets", do(onPickets, at), "stands-in-water", true},
		{"a tree", do(onTree, at), "stands-in-water", true},
		{"a tree somebody measured", do(onTree, theAnchor(func(a *plan.Anchor) { a.HoldLow, a.HoldSource = plan.Known(quantity.Force(60000)), "load cell" }), at), "stands-in-water", false},
		{"a rated point, which has its tag", at, "stands-in-water", false},
		{"what the puller is tied back to", do(tiedBack(40000, 0), func(p *plan.Plan) {
			p.Site.Anchors[1] = plan.Anchor{Head: plan.Head{ID: "A2"}, Kind: plan.AnchorBoulder, At: plan.Point{X: 20, Y: 25}, Mass: 20000}
		}, lowAt(plan.ObstacleWater, 19, 24, 21, 26)), "stands-in-water", true},
		{"a casualty said to be in it", do(byRules, stuck(func(s *plan.Stuck) { s.InWater = true }), pond(0)), "casualty-in-water", false},
		{"a casualty measured in it", pond(0), "casualty-in-water", false},
		{"a car that is no part of the rig", do(alsoStuck(nil), lowAt(plan.ObstacleWater, -32, -32, -28, -28)), "stands-in-water", false},
	} {
		_, a := readPlan(t, stored(t, tt.c, tt.what))
		level, has := levels(a)[tt.id]
		assert.Equal(t, tt.has, has, tt.what)
		if has {
			assert.Equal(t, part.Warning, level, tt.what)
		}
	}
}
