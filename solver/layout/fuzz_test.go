package layout_test

import (
	"testing"

	"kedge/solver"
	"kedge/solver/layout"
	"kedge/solver/plan"
	"kedge/solver/seeded"
)

// FuzzPropose asks for other ways of the first rig of whatever plan:
// each way is a plan that can be kept, and says what its rig alone says.
func FuzzPropose(f *testing.F) {
	kit := starter(f)
	seeded.Fuzz(f, func(t *testing.T, p *plan.Plan) {
		if len(p.Rigs) == 0 || len(p.Site.Anchors)+len(p.Site.Obstacles) > 12 {
			return
		}
		found := layout.Propose(p, p.Rigs[0].ID, kit)
		for i := range found.Ways {
			w := &found.Ways[i]
			if bad := seeded.NotANumber(*w.Answer); bad != "" {
				t.Fatal(bad, " is no number")
			}
			if bad := seeded.NotANumber(*w); bad != "" {
				t.Fatal(bad, " is no number")
			}
			data, err := plan.FormatPlan(w.Plan)
			if err != nil {
				t.Fatal(err)
			}
			q, err := plan.ParsePlan(data)
			if err != nil {
				t.Fatal(err)
			}
			if again := solver.Assess(q, w.Rig); again.Status != w.Answer.Status || again.Verdict() != w.Answer.Verdict() {
				t.Fatalf("%s, and kept %s", w.Answer.Status, again.Status)
			}
		}
	})
}
