// Package walls holds what keeps the rooms of the house apart, and tests the
// whole tree against it: which package may import which, who may reach the
// window toolkit, what the solver may not know of, and how long a file may be.
//
// A rule is a function of a Graph, so the tests also feed it made-up graphs
// and see that it catches what it is there for. Load reads the real one:
//
//	g, err := walls.Load(root)
//	for _, sentence := range g.Violations() { ... }
//
// Limits: imports are read from every file whatever system it is built for,
// but what other modules reach is seen only for the system the tests run on.
// Test files are bound by the walls that name them, and not by the levels.
package walls
