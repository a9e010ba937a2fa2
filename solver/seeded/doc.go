// Package seeded draws plans as people rig them, for tests: one seed is one plan,
// the same each time; and it reads those that lie in files. Nothing but tests
// imports it.
//
// The smallest use:
//
//	p, _ := seeded.Plan(7, nil)
//	a := solver.Assess(p, "R1")
package seeded
