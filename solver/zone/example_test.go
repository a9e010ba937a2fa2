package zone_test

import (
	"fmt"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/zone"
)

// A straight pull of 20 m on a wire: nobody on foot within 40 m of its ends.
func ExampleZones() {
	line := zone.Line{ID: "line", Material: plan.MaterialWire, Stretches: []zone.Stretch{{Part: "line/0", A: plan.Point{X: 0, Y: 0}, B: plan.Point{X: 20, Y: 0}}}}
	zs := zone.Zones(zone.Input{Lines: []zone.Line{line}}, nil)
	for _, z := range zs {
		fmt.Println(z.Kind, z.Radius, z.Fact)
	}
	at := zone.People(zone.PeopleIn{Zones: zs, People: []plan.Person{{At: plan.Point{X: 35, Y: 1}}, {At: plan.Point{X: 10, Y: 60}}}}, nil)
	fmt.Println(at[0].Inside, at[1].Inside)
	// Output:
	// recoil 0 recoil.half-angle
	// recoil 0 recoil.half-angle
	// stand-off 40 standoff.wire
	// stand-off 40 standoff.wire
	// [recoil stand-off] []
}

// A spotter by the line is told to leave, and which way.
func ExamplePeople() {
	line := zone.Line{ID: "line", Material: plan.MaterialHMPE, Stretches: []zone.Stretch{{Part: "line/0", A: plan.Point{X: 0, Y: 0}, B: plan.Point{X: 20, Y: 0}}}}
	in := zone.PeopleIn{
		People:    []plan.Person{{Head: plan.Head{ID: "spotter"}, Role: plan.RoleSpotter, At: plan.Point{X: 10, Y: 1}}},
		Zones:     zone.Zones(zone.Input{Lines: []zone.Line{line}}, nil),
		Stretches: line.Stretches,
	}
	var found []part.Finding
	at := zone.People(in, &found)[0]
	fmt.Println(found[0].Level, found[0].ID, at.Inside)
	fmt.Printf("%.1f m\n", at.OutM)
	// Output:
	// DANGER person-in-zone [recoil stand-off]
	// 1.4 m
}
