package solver_test

import (
	"reflect"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// A word that nobody knows in place of another raises no limit of a piece of
// gear, wherever it stands, and gives none to what had none.
func TestUnknownWordsNeverRaiseALimit(t *testing.T) {
	for _, c := range slices.Concat(solverCases, lineCases, slingCases) {
		if c.raise == nil {
			continue
		}
		made := func() *plan.Plan {
			p := basePlan()
			c.raise(p)
			return p
		}
		known := solver.Assess(made(), "R1")
		words := leaves(reflect.ValueOf(made()).Elem())
		for i := range words {
			p := made()
			word := leaves(reflect.ValueOf(p).Elem())[i]
			if word.Kind() != reflect.String {
				continue
			}
			was := word.String()
			word.SetString(strange)
			if len(plan.UnknownWords(p)) == 0 || plan.Validate(p) != nil {
				continue // a text of somebody's own, or refused
			}
			a := solver.Assess(p, "R1")
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
