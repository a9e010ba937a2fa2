package facts_test

import (
	"fmt"

	"kedge/solver/facts"
)

func ExampleGet() {
	row, ok := facts.Get(facts.ShackleSidePull)
	fmt.Println(ok, row.Title)
	fmt.Println(row.Source)
	fmt.Println(row.Confidence)
	for _, offDeg := range []float64{3, 30, 60, 100} {
		share, ok := row.Step(offDeg)
		fmt.Println(offDeg, share, ok)
	}
	// Output:
	// true shackle: share of rating by pull off line
	// ASME B30.26 side-load bands (bands also in WAC 296-155-33905, Figure 17); shares in four trade copies
	// from memory
	// 3 1 true
	// 30 0.7 true
	// 60 0.5 true
	// 100 0 false
}

func ExampleAlternatives() {
	for _, row := range facts.Alternatives("fleet.plain") {
		fmt.Println(row.ID, row.Likely, row.Unit, row.Default)
	}
	// Output:
	// fleet.plain 1.5 deg true
	// fleet.plain-nsw 3 deg false
}
