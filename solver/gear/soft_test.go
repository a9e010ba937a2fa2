package gear_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver/gear"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// The soft ends are the greatest strains of the handbook's rows: polyester web
// 7 % and nylon web 10 % at the tag (trade reproductions), laid nylon 50 %
// before it breaks (NAVEDTRA 12018), wire 4 % at break (common practice),
// polyester rope 30 % at break; a tag is a seventh of breaking (EN 1492).
func TestSoftEnds(t *testing.T) {
	sling := func(material string, r plan.Rating) *plan.Sling {
		return &plan.Sling{Material: material, Standard: "EN", Rating: r, Length: 3}
	}
	inDelta(t, 70e3/0.07, float64(gear.SoftSling(sling(plan.MaterialWeb, working(70)))), 1e-6)
	inDelta(t, 10e3/0.07, float64(gear.SoftSling(sling(plan.MaterialRound, breaking(70)))), 1e-6, "its tag is a seventh")
	inDelta(t, 50e3*2, float64(gear.SoftSling(sling(plan.MaterialNylon, breaking(50)))), 1e-6, "softer as a rope than as a web")
	inDelta(t, 50e3/0.3, float64(gear.SoftSling(sling(plan.MaterialKinetic, breaking(50)))), 1e-6)
	inDelta(t, 50e3/0.04, float64(gear.SoftSling(sling(plan.MaterialWire, breaking(50)))), 1e-6)
	inDelta(t, 50e3*37.5, float64(gear.SoftSling(sling(plan.MaterialHMPE, breaking(50)))), 1e-6)
	s := sling(plan.MaterialWeb, working(70))
	s.Stiffness = 20 * quantity.Kilonewton
	inDelta(t, 60e3, float64(gear.SoftSling(s)), 1e-6, "20 kN/m over 3 m")
	assert.Zero(t, gear.SoftSling(sling("", working(70))))
	assert.Zero(t, gear.SoftSling(sling(plan.MaterialWeb, plan.Rating{})))

	inDelta(t, 3.83e6, float64(gear.SoftLine(wire())), 1, "38 300 d², the low end")
	l := hmpe()
	inDelta(t, 3.375e6, float64(gear.SoftLine(l)), 1)
	l.Material, l.Rating = plan.MaterialPolyester, breaking(100)
	inDelta(t, 100e3/0.3, float64(gear.SoftLine(l)), 1e-6)
	l.Stiffness = 5 * quantity.Meganewton
	assert.Equal(t, 5*quantity.Meganewton, gear.SoftLine(l))
}
