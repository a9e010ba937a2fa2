package solver_test

import (
	"reflect"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/seeded"
)

// A word that nobody knows in place of another raises no limit of a piece of
// gear, wherever it stands, and gives none to what had none.
func TestUnknownWordsNeverRaiseALimit(t *testing.T) {
	for _, c := range slices.Concat(solverCases, lineCases, slingCases) {
		if c.raise == nil {
			continue
		}
		p := basePlan()
		c.raise(p)
		known := solver.Assess(p, "R1")
		for _, word := range seeded.Leaves(p) {
			if word.Kind() != reflect.String {
				continue
			}
			was := word.String()
			word.SetString(strange)
			a := &solver.Assessment{}
			if len(plan.UnknownWords(p)) > 0 && plan.Validate(p) == nil { // else a text of somebody's own, or refused
				a = solver.Assess(p, "R1")
			}
			word.SetString(was)
			for k := range a.Parts {
				q := &a.Parts[k]
				if q.Kind == part.KindSlide || q.Kind == part.KindTip || q.Kind == part.KindAnchor {
					continue // what holds is not gear
				}
				if had, ok := known.Part(q.ID); ok && q.Limit.Known {
					require.True(t, had.Limit.Known && q.Limit.Force <= had.Limit.Force*(1+1e-9), "%s with %q for %q: %s has %v, had %v", c.id, strange, was, q.ID, q.Limit.Force, had.Limit.Force)
				}
			}
		}
	}
}
