package statics_test

import (
	"fmt"
	"math"

	"github.com/golang/geo/r3"

	"kedge/solver/statics"
)

// A winch at the origin, a block on a 1.5 m sling from a pine, a casualty to be
// pulled towards the pine.
func ExampleSolver_Solve() {
	rig := statics.Rig{
		Points: []statics.Point{
			{Pos: r3.Vector{}}, // 0 winch
			{Kind: statics.Free, Pos: r3.Vector{X: 18.5, Y: 4.5}}, // 1 block, as drawn
			{Kind: statics.OnBody, Pos: r3.Vector{X: 2, Y: 15}},   // 2 casualty
			{Pos: r3.Vector{X: 20, Y: 4}},                         // 3 pine
		},
		Bodies: []statics.Body{{RefM: r3.Vector{X: 1, Y: 17}, Motion: r3.Vector{X: 0.866, Y: -0.5}}},
		Lines: []statics.Line{{Path: []int{0, 1, 2}, Drum: true, TensionN: 40e3,
			Sheaves: []statics.Sheave{{Model: statics.Constant, Eta: 0.92}}}},
		Slings: []statics.Sling{{A: 3, B: 1, LengthM: 1.5}},
	}
	var s statics.Solver
	var out statics.Result
	fmt.Println(s.Solve(&rig, &out))
	fmt.Printf("pull %.2f kN, sling %.2f kN, block at (%.3f, %.3f)\n",
		out.Bodies[0].PullN/1e3, out.Slings[0].TensionN/1e3, out.Points[1].Pos.X, out.Points[1].Pos.Y)
	fmt.Printf("advantage %.3f, line to haul %.3f m a metre, sheave %v\n",
		out.Advantage.ByForce, out.Lines[0].HaulPerMetre, out.Lines[0].Visits[0].Motion)
	// Output:
	// converged
	// pull 36.75 kN, sling 70.71 kN, block at (18.519, 4.237)
	// advantage 0.919, line to haul 0.999 m a metre, sheave haul
}

// Dragging the winch: each answer starts from the one before.
func ExampleSolver_Warm() {
	rig := benchRig("redirect")
	var s statics.Solver
	var out statics.Result
	s.Solve(&rig, &out)
	for i := 0; i < 3; i++ {
		rig.Points[0].Pos.Y += 0.5
		st := s.Warm(&rig, &out)
		v := out.Lines[0].Visits[0]
		// the block's load by the closed form T sqrt(1 + rho^2 + 2 rho cos theta)
		want := 40e3 * math.Sqrt(1+v.Ratio*v.Ratio+2*v.Ratio*math.Cos(v.IncludedDeg*math.Pi/180))
		fmt.Println(st, math.Abs(out.Slings[0].TensionN-want) < 0.01)
	}
	// Output:
	// converged true
	// converged true
	// converged true
}

// The tension a doubled line needs for a resistance of 30 kN.
func ExampleSolver_RequiredPull() {
	rig := statics.Rig{
		Points: []statics.Point{
			{Kind: statics.OnBody, Pos: r3.Vector{}}, // winch on the casualty
			{Pos: r3.Vector{X: 25}},                  // block at the anchor
			{Kind: statics.OnBody, Pos: r3.Vector{}}, // line made fast
		},
		Bodies: []statics.Body{{Motion: r3.Vector{X: 1}}},
		Lines:  []statics.Line{{Path: []int{0, 1, 2}, Drum: true, TensionN: 1, Sheaves: []statics.Sheave{{Eta: 0.93}}}},
	}
	var s statics.Solver
	var out statics.Result
	st := s.RequiredPull(&rig, 0, 30e3, &out)
	fmt.Printf("%v: %.0f N in the line, %.0f N on the anchor\n", st, out.Lines[0].TensionN, -out.Points[1].ForceN.X)
	// Output:
	// converged: 15544 N in the line, 30000 N on the anchor
}

// A rig that cannot be: the flags say what is short and by how much.
func ExampleResult() {
	rig := statics.Rig{
		Points: []statics.Point{{Pos: r3.Vector{Y: -0.7}}, {Pos: r3.Vector{Y: 0.7}},
			{Kind: statics.Free, Pos: r3.Vector{X: 0.3}}, {Pos: r3.Vector{X: 20}}},
		Lines:  []statics.Line{{Path: []int{3, 2}, Drum: true, TensionN: 40e3}},
		Slings: []statics.Sling{{A: 0, B: 2, LengthM: 0.5}, {A: 1, B: 2, LengthM: 0.6}},
	}
	var s statics.Solver
	var out statics.Result
	fmt.Println(s.Solve(&rig, &out), out.Slings[0].TensionN)
	for _, f := range out.Flags {
		fmt.Printf("sling %d short by %.2f m\n", f.A, f.Value)
	}
	// Output:
	// infeasible NaN
	// sling 0 short by 0.15 m
	// sling 1 short by 0.15 m
}

func ExampleRig_Validate() {
	rig := statics.Rig{Points: make([]statics.Point, 2), Lines: []statics.Line{{Path: []int{0, 5}}}}
	fmt.Println(rig.Validate())
	// Output:
	// statics: not a rig: line 0: path entry 1 is no point
}

// Four tyres in soft ground, pulled at an angle from ahead of the centre.
func ExampleLimitSurface() {
	var tyres []statics.Tyre
	for _, x := range []float64{1.4, -1.4} {
		for _, y := range []float64{0.8, -0.8} {
			tyres = append(tyres, statics.Tyre{XM: x, YM: y, LoadN: 6131.25, Along: 0.25, Across: 0.6})
		}
	}
	d := statics.LimitSurface(tyres, [3]float64{math.Sqrt(3) / 2, 0.5})
	fmt.Printf("%v %.0f N\n", d.Status, d.TensionN)
	// Reference case ls_centre_30: 6883.39 N.
	//
	// Output:
	// converged 6883 N
}
