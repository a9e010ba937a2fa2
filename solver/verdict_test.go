package solver_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver"
	"kedge/solver/part"
)

func whole() *solver.Assessment {
	p := part.Part{Move: part.Load{Known: true, Force: 10}, Limit: part.Limit{Known: true, Force: 40}}
	p.Judge()
	return &solver.Assessment{Status: part.Within, Complete: true, Move: solver.Pull{Known: true, Tension: 10}, Parts: []part.Part{p}}
}

// The verdicts as `kedge help status` gives them.
func TestVerdict(t *testing.T) {
	finding := func(l part.Level) func(*solver.Assessment) {
		return func(a *solver.Assessment) { a.Findings = append(a.Findings, part.Finding{ID: "x", Level: l}) }
	}
	state := func(s part.Status) func(*solver.Assessment) {
		return func(a *solver.Assessment) { a.Parts[0].Status = s }
	}
	for _, c := range []struct {
		name string
		want solver.Verdict
		do   func(*solver.Assessment)
	}{
		{"all computed, nothing found", solver.Settled, func(*solver.Assessment) {}},
		{"notice", solver.Settled, finding(part.Notice)},
		{"near its limit", solver.Settled, state(part.Near)},
		{"slack", solver.Settled, state(part.Slack)},
		{"caution", solver.Unsettled, finding(part.Caution)},
		{"warning", solver.Unsettled, finding(part.Warning)},
		{"danger", solver.Dangerous, finding(part.Danger)},
		{"a level nobody knows", solver.Dangerous, finding(part.Danger + 1)},
		{"a level below all", solver.Dangerous, finding(part.Notice - 1)},
		{"not computed", solver.Unsettled, state(part.NotComputed)},
		{"refused", solver.Unsettled, state(part.Refused)},
		{"not understood", solver.Unsettled, state(part.NotUnderstood)},
		{"no limit", solver.Unsettled, state(part.NoLimit)},
		{"over its limit without a finding", solver.Unsettled, state(part.Over)},
		{"within, but with no limit", solver.Unsettled, func(a *solver.Assessment) { a.Parts[0].Limit = part.Limit{} }},
		{"within, but with no load", solver.Unsettled, func(a *solver.Assessment) { a.Parts[0].Move = part.Load{} }},
		{"load that is no number", solver.Unsettled, func(a *solver.Assessment) {
			a.Parts[0].Move.Force = 0
			a.Parts[0].Limit.Force = 0
			a.Parts[0].Judge()
		}},
		{"not complete", solver.Unsettled, func(a *solver.Assessment) { a.Complete = false }},
		{"equilibrium not computed", solver.Unsettled, func(a *solver.Assessment) { a.Status = part.NotComputed }},
		{"pull not known", solver.Unsettled, func(a *solver.Assessment) { a.Move.Known = false }},
		{"no part", solver.Unsettled, func(a *solver.Assessment) { a.Parts = nil }},
		{"danger wins over not computed", solver.Dangerous, func(a *solver.Assessment) { a.Complete = false; finding(part.Danger)(a) }},
		{"danger behind a caution wins", solver.Dangerous, func(a *solver.Assessment) { finding(part.Caution)(a); finding(part.Danger)(a) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := whole()
			c.do(a)
			assert.Equal(t, c.want, a.Verdict())
		})
	}
	assert.Equal(t, solver.Unsettled, (&solver.Assessment{}).Verdict(), "nothing was checked")
}
