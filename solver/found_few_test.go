//go:build race

package solver_test

// foundPlans is how many plans are tried each time: few where each takes ten
// times as long.
const foundPlans = 200
