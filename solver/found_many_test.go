//go:build !race

package solver_test

// foundPlans is how many plans are tried each time.
const foundPlans = 2000
