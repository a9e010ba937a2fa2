package doubt_test

import (
	"testing"

	"kedge/solver/doubt"
	"kedge/solver/plan"
	"kedge/solver/seeded"
)

// FuzzSamplePlan draws every rig of whatever plan, two points of
// each set: every trial is counted once, and a count is out of no more than all.
func FuzzSamplePlan(f *testing.F) {
	data, err := plan.FormatPlan(redirect(f, func(p *plan.Plan) { doubtMass(p, 1800, 3000, false) }))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(data)
	const per = 2
	seeded.Fuzz(f, func(t *testing.T, p *plan.Plan) {
		for i := range p.Rigs {
			c, err := doubt.SamplePlan(p, p.Rigs[i].ID, doubt.Request{Per: per, Seed: 1, Workers: 1})
			if err != nil {
				continue
			}
			if c.Trials != per*doubt.Sets || c.Refused < 0 || c.Refused > c.Trials {
				t.Fatalf("%d of %d trials refused", c.Refused, c.Trials)
			}
			for k := range c.Parts {
				x := &c.Parts[k]
				for _, n := range []doubt.Count{x.OverLimit, x.OverAtStall, x.Gives, x.GivesStall} {
					if n.Hits < 0 || n.Hits > n.Of || n.Of > c.Trials-c.Refused {
						t.Fatalf("%s: %+v of %d trials, %d refused", x.Part.ID, n, c.Trials, c.Refused)
					}
				}
				if bad := seeded.NotANumber(x.Part); bad != "" {
					t.Fatal(x.Part.ID, bad, " is no number")
				}
				if q := x.PlannedN; q[0] > q[1] || q[1] > q[2] {
					t.Fatalf("%s: points %v", x.Part.ID, q)
				}
			}
		}
	})
}
