package seeded

import (
	"io/fs"
	"testing"

	"kedge/assets"
	"kedge/solver/plan"
)

// Read is the plan in a file of a folder.
func Read(t testing.TB, folder fs.FS, name string) *plan.Plan {
	t.Helper()
	data, err := fs.ReadFile(folder, name)
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.ParsePlan(data)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return p
}

// Example is one of the program's example plans, by its name without ending.
func Example(t testing.TB, name string) *plan.Plan {
	t.Helper()
	return Read(t, assets.Plans(), name+".kedge")
}
