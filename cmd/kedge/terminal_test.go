package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
	"kedge/solver/seeded"
)

// Nothing that somebody typed into a plan steers a terminal, begins a line or
// turns the direction of writing.
func TestNoNameForgesTheAnswer(t *testing.T) {
	const evil = "Tree\x1b[2J\a\r\nWinch 0.1 within limit\u202e\u2066\u2028\u009b"
	p := seeded.Example(t, "redirect")
	lines := func(args ...string) (out string) {
		data, err := plan.FormatPlan(p)
		require.NoError(t, err)
		file := filepath.Join(t.TempDir(), "a.kedge")
		require.NoError(t, os.WriteFile(file, data, 0o600))
		var text, errs strings.Builder
		run(append([]string{args[0], file}, args[1:]...), nil, &text, &errs)
		return text.String() + errs.String()
	}
	verbs := [][]string{{"check"}, {"check", "--lang", "de"}, {"ways"}, {"check", "--why", "T9"}, {"check", "--rig", evil}, {"check", evil}}
	p.Title, p.Rigs[0].Name, p.Rigs[0].Lines[0].Name = evil, evil, evil
	for i := range p.Site.Vehicles {
		p.Site.Vehicles[i].Name = evil
	}
	for i := range p.Site.Anchors {
		p.Site.Anchors[i].Name, p.Site.Anchors[i].Species = evil, evil
	}
	for i := range p.Site.People {
		p.Site.People[i].Name, p.Site.People[i].Cover = evil, evil
	}
	for _, v := range verbs {
		out := lines(v...)
		assert.NotContains(t, out, "\nWinch 0.1", v)
		for _, bad := range "\x1b\a\r\u202e\u2066\u2028\u009b" {
			assert.NotContains(t, out, string(bad), v)
		}
	}
}
