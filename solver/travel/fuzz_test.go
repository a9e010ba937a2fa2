package travel_test

import (
	"testing"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/seeded"
	"kedge/solver/travel"
)

// FuzzWhole follows the pull of every rig of whatever plan: every
// figure is a number, and the whole is no milder than any of its moments, or than what
// is drawn, assessed alone.
func FuzzWhole(f *testing.F) {
	seeded.Fuzz(f, func(t *testing.T, p *plan.Plan) {
		for i := range p.Rigs {
			rig := p.Rigs[i].ID
			a := followed(t, p, rig)
			if bad := seeded.NotANumber(*a.Assessment); bad != "" {
				t.Fatal(bad, " is no number")
			}
			if bad := seeded.NotANumber(*a); bad != "" {
				t.Fatal(bad, " is no number")
			}
			drawn := solver.Moment{Assessment: solver.Assess(travel.Drawn(p, rig), rig)}
			for _, m := range append(a.Moments, drawn) {
				if fault := milder(a.Assessment, m.Assessment); fault != "" {
					t.Fatalf("%s than at %g m", fault, m.AtM)
				}
			}
		}
	})
}

// milder says what the answer for a whole pull tells more mildly than the one for a
// moment of it, by more than rounding; empty: nothing.
func milder(whole, m *solver.Assessment) string {
	for i := range m.Parts {
		q := &m.Parts[i]
		w, ok := whole.Part(q.ID)
		switch {
		case !ok:
			return q.ID + " is missing, which is milder"
		case part.WorstFirst(w, q) > 0 && (w.Status != q.Status || w.Most() < q.Most()*(1-1e-9)):
			return q.ID + " is milder"
		}
	}
	for i := range m.People {
		if len(whole.People) <= i || len(whole.People[i].Inside) < len(m.People[i].Inside) {
			return string(m.People[i].Person) + " stands in fewer zones"
		}
	}
	if whole.Verdict() < m.Verdict() || whole.Complete && !m.Complete {
		return "the verdict is milder"
	}
	return ""
}
