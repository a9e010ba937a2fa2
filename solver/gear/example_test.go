package gear_test

import (
	"fmt"

	"kedge/solver/gear"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

func ExampleSlingRound() {
	r := gear.SlingRound(0.24, 3, plan.HitchBasket)
	fmt.Printf("apex %.3f m from the middle, legs open %.1f°\n", r.Reach, r.Opens)
	// Output: apex 1.097 m from the middle, legs open 25.3°
}

func ExampleSling() {
	s := &plan.Sling{Material: plan.MaterialWeb, Standard: "EN", Length: 3, Condition: plan.ConditionNew,
		Rating: plan.Rating{Force: 40 * quantity.Kilonewton, Basis: plan.BasisWorking}}
	st := gear.Sling(gear.SlingIn{
		Sling: s, Hitch: plan.HitchBasket, OnTrunk: true, Radius: 0.24,
		Round: gear.SlingRound(0.24, s.Length, plan.HitchBasket), Load: 36.9 * quantity.Kilonewton,
	}, nil, nil)
	fmt.Printf("limit %.0f kN (%s), worse leg %.1f kN\n", st.Limit.Force/quantity.Kilonewton, st.Limit.Basis, st.Leg/quantity.Kilonewton)
	// Output: limit 56 kN (sling basket, standard), worse leg 20.8 kN
}
