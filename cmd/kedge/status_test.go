package main

import (
	"math"
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

// Exit statuses as `kedge help status` gives them.
func TestExitStatus(t *testing.T) {
	finding := func(l part.Level) func(*solver.Assessment) {
		return func(a *solver.Assessment) { a.Findings = append(a.Findings, part.Finding{ID: "x", Level: l}) }
	}
	state := func(s part.Status) func(*solver.Assessment) {
		return func(a *solver.Assessment) { a.Parts[0].Status = s }
	}
	for _, c := range []struct {
		name string
		want int
		do   func(*solver.Assessment)
	}{
		{"all computed, nothing found", 0, func(*solver.Assessment) {}},
		{"notice", 0, finding(part.Notice)},
		{"near its limit", 0, state(part.Near)},
		{"slack", 0, state(part.Slack)},
		{"caution", 4, finding(part.Caution)},
		{"warning", 4, finding(part.Warning)},
		{"danger", 1, finding(part.Danger)},
		{"a level nobody knows", 1, finding(part.Danger + 1)},
		{"a level below all", 1, finding(part.Notice - 1)},
		{"not computed", 4, state(part.NotComputed)},
		{"refused", 4, state(part.Refused)},
		{"not understood", 4, state(part.NotUnderstood)},
		{"no limit", 4, state(part.NoLimit)},
		{"over its limit without a finding", 4, state(part.Over)},
		{"within, but with no limit", 4, func(a *solver.Assessment) { a.Parts[0].Limit = part.Limit{} }},
		{"within, but with no load", 4, func(a *solver.Assessment) { a.Parts[0].Move = part.Load{} }},
		{"load that is no number", 4, func(a *solver.Assessment) {
			a.Parts[0].Move.Force = 0
			a.Parts[0].Limit.Force = 0
			a.Parts[0].Judge()
		}},
		{"not complete", 4, func(a *solver.Assessment) { a.Complete = false }},
		{"equilibrium not computed", 4, func(a *solver.Assessment) { a.Status = part.NotComputed }},
		{"pull not known", 4, func(a *solver.Assessment) { a.Move.Known = false }},
		{"no part", 4, func(a *solver.Assessment) { a.Parts = nil }},
		{"danger wins over not computed", 1, func(a *solver.Assessment) { a.Complete = false; finding(part.Danger)(a) }},
		{"danger behind a caution wins", 1, func(a *solver.Assessment) { finding(part.Caution)(a); finding(part.Danger)(a) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := whole()
			c.do(a)
			assert.Equal(t, c.want, exitStatus(a))
		})
	}
	assert.Equal(t, statusUnsettled, exitStatus(&solver.Assessment{}), "nothing was checked")
}

func TestTheWorseOfTwoRigsCounts(t *testing.T) {
	for _, c := range [][3]int{{0, 0, 0}, {0, 4, 4}, {4, 0, 4}, {4, 1, 1}, {1, 0, 1}, {0, 1, 1}} {
		assert.Equal(t, c[2], worse(c[0], c[1]), "%v", c)
	}
}

func TestNumbersHaveSixDigitsAndNoPowers(t *testing.T) {
	for _, c := range []struct {
		x    float64
		want string
	}{
		{0, "0"}, {math.Copysign(0, -1), "0"}, {29307.712345, "29307.7"}, {0.8528734, "0.852873"}, {-6.1234567, "-6.12346"},
		{123456789, "123457000"}, {1.5e-9, "0.0000000015"}, {math.NaN(), "null"}, {math.Inf(1), "null"}, {math.Inf(-1), "null"},
	} {
		got, err := number(c.x).MarshalJSON()
		assert.NoError(t, err)
		assert.Equal(t, c.want, string(got))
	}
	assert.Nil(t, known(12.0, false), "what is not known is null, never 0")
	assert.Nil(t, known(math.NaN(), true))
	assert.Nil(t, positive(0.0))
}
