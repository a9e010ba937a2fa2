package effort_test

import (
	"fmt"

	"github.com/golang/geo/r3"

	"kedge/solver/effort"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// A pickup sunk to its hubs in grass: a seventh of its weight by the fraction
// of its surface, the weight itself by the handbook.
func ExampleResistance() {
	ground := plan.Ground{Surface: "roll.grass", Grip: "grip.grass-dry"}
	pickup := plan.Vehicle{Head: plan.Head{ID: "pickup"}, Mass: 2450, Stuck: &plan.Stuck{Depth: plan.DepthHub}}
	res := effort.Resistance(effort.ResistanceIn{Vehicle: &pickup, Ground: &ground}, nil, nil)
	fmt.Printf("%.1f to %.1f to %.1f kN, high by %s\n", res.Low/1000, res.Likely/1000, res.High/1000, res.HighRule)
	fmt.Println("physics:", res.Physics.Why)
	// Output:
	// 3.4 to 12.0 to 24.0 kN, high by handbook
	// physics: sunk past the sinkage rule
}

// A rear parking brake under a front winch holds little: the pull unloads the
// axle that brakes.
func ExamplePullerHold() {
	truck := plan.Vehicle{Head: plan.Head{ID: "warden"}, Mass: 2600, Wheelbase: 2.8, CGBehindFront: 1.3, CGHeight: 0.75, Brake: plan.BrakeRear, Grip: "grip.gravel"}
	line := []effort.LineEnd{{PerTension: r3.Vector{X: 1}, AheadM: 2.5, HeightM: 0.85}}
	var found []part.Finding
	res := effort.PullerHold(effort.HoldIn{Vehicle: &truck, Ends: line, TensionN: 29_300, TensionKnown: true}, nil, &found)
	fmt.Printf("slides at %.1f kN\n", res.Hold.Low/1000)
	for _, f := range found {
		fmt.Println(f.Level, f.ID)
	}
	// Output:
	// slides at 3.1 kN
	// DANGER vehicle-slides
}
