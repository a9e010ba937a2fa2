package main

import (
	"io"
	"runtime/debug"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Every verb has a manual page that says what it is for and names each of its flags;
// what is hidden has none.
func TestEachVerbHasAManualPage(t *testing.T) {
	status := 0
	root := newRoot(io.Discard, strings.NewReader(""), &status, language)
	m, err := newManual(language)
	require.NoError(t, err)
	files, err := extras(root, m)
	require.NoError(t, err)
	verbs := 0
	for _, c := range root.Commands() {
		page, have := files["man/man1/kedge-"+c.Name()+".1"]
		if c.Hidden || !c.IsAvailableCommand() {
			require.False(t, have, c.Name())
			continue
		}
		verbs++
		require.True(t, have, c.Name())
		require.Contains(t, plain(page), m.say(m.of(c.Name()).short), c.Name())
		for flag := range m.of(c.Name()).flags {
			require.Contains(t, plain(page), "--"+flag, c.Name())
		}
	}
	require.Greater(t, verbs, 6)
	require.Contains(t, string(files["doc/kedge/licences.txt"]), "SIL OPEN FONT LICENSE")
	require.Regexp(t, `(?m)^\.EX\n0  every part`, plain(files["man/man1/kedge-check.1"]), "the list of statuses keeps its lines")
	again, err := extras(newRoot(io.Discard, strings.NewReader(""), &status, language), m)
	require.NoError(t, err)
	require.Equal(t, again, files, "the same pages each time")
}

// plain is a manual page without the marks of its typesetter.
func plain(page []byte) string {
	return strings.NewReplacer(`\-`, "-", `\fB`, "", `\fP`, "", `\fI`, "", `\&`, "").Replace(string(page))
}

func TestTheBuildIsSaid(t *testing.T) {
	commit, date := buildOf([]debug.BuildSetting{{Key: "vcs.revision", Value: "0123456789abcdef0123"}, {Key: "vcs.time", Value: "2026-03-01T23:30:00-01:00"}, {Key: "vcs.modified", Value: "true"}})
	require.Equal(t, "0123456789ab+", commit)
	require.Equal(t, "2026-03-02T00:30:00", date)
	commit, date = buildOf(nil)
	require.Empty(t, commit+date)
}
