package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
)

// The list has each rule of each package once, with all its texts.
func TestHelpListsEveryFinding(t *testing.T) {
	text, errs, status := call(t, "", "help", "findings")
	require.Empty(t, errs)
	require.Equal(t, statusDone, status)
	entries := strings.Split(strings.TrimSpace(text), "\n\n")[1:] // after the head
	m, err := newManual(language)
	require.NoError(t, err)
	for _, pkg := range solver.Rulebook() {
		title := m.of("findings").flags[pkg.Package]
		require.NotEmpty(t, title, pkg.Package)
		require.Equal(t, title, entries[0])
		require.NotEmpty(t, pkg.Rules, title)
		for i, r := range pkg.Rules {
			assert.Regexp(t, `^`+r.ID+`  [A-Z, ]+\n  says: \S.*\n  do: \S.*\n  rests on: \S.*$`, entries[i+1])
			for _, l := range r.Levels {
				assert.Contains(t, entries[i+1], l.String(), r.ID)
			}
		}
		entries = entries[1+len(pkg.Rules):]
	}
	assert.Empty(t, entries, "more than there are rules")
	assert.NotRegexp(t, bracketed, text, "a text is missing")
	assert.NotRegexp(t, `[{}]`, text, "a placeholder is shown as it is stored")
	again, _, _ := call(t, "", "findings")
	assert.Equal(t, text, again)
}

// What stands for a value is shown by its name, and of a word for one and for
// several the one for several.
func TestFindingsShowPatterns(t *testing.T) {
	text, _, _ := call(t, "", "help", "findings")
	assert.Contains(t, text, "  says: <part> carries <load> of <limit> allowed: <used>.\n")
	assert.Contains(t, text, "says: The plan holds <count> entries this version does not know, the first at <path>.\n")
}
