package solver_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"kedge/solver"
	"kedge/solver/plan"
	"kedge/solver/seeded"
)

// strange is a word that no version knows.
const strange = seeded.Strange

// Whatever figures, words and hook-on points a plan that can be read holds, its
// answer is sound and nothing without a rating is within one.
func TestAnyTwistIsSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyMixture(t)
		all := seeded.Leaves(p)
		for range rapid.IntRange(1, 5).Draw(t, "twists") {
			seeded.Twist(p, all, func(n int) int { return rapid.IntRange(0, n-1).Draw(t, fmt.Sprint("of ", n)) })
		}
		data, err := plan.FormatPlan(p)
		if err != nil {
			t.Skip("refused")
		}
		if p, err = plan.ParsePlan(data); err != nil {
			t.Skip("refused")
		}
		a := solver.Assess(p, "R1")
		if fault := unsound(a); fault != "" {
			t.Fatal(fault)
		}
		checkFindings(t, p, a)
		for id, none := range withoutRating(p) {
			if q, ok := a.Part(id); ok && none && q.Limit.Known {
				t.Fatalf("%s has a limit of %v and no rating", id, q.Limit.Force)
			}
		}
	})
}
