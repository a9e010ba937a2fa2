package window

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// About names every module in the program with its licence.
func TestAboutNamesTheModules(t *testing.T) {
	s := sitAt(t, 1440, 900, "")
	s.commands.run("about")
	require.NotNil(t, s.asking)
	assert.Contains(t, texts(s.asking.Pane), "fyne.io/fyne/v2 (BSD-3-Clause")
}

// The cautions say how far what flies may go, which no drawn zone shows.
func TestCautionsSayHowTheZonesAreDrawn(t *testing.T) {
	s := sitAt(t, 1440, 900, "")
	s.commands.run("cautions")
	require.NotNil(t, s.asking)
	shown := strings.ReplaceAll(texts(s.asking.Pane), "\n", " ")
	for _, want := range []string{"10° each side", "270 m for a 91 kg block", "No damper and no low-stretch line makes a zone smaller"} {
		assert.Contains(t, strings.NewReplacer("\u00a0", " ", "\u202f", " ").Replace(shown), want)
	}
}

// The keys are a table: each tool's letter and each shortcut once, in a row of its own,
// and every row says what its key does.
func TestTheKeysAreATable(t *testing.T) {
	for _, lang := range []string{"en", "de"} {
		s := sitAt(t, 1440, 900, "")
		s.setLanguage(lang)
		s.commands.run("keys")
		require.NotNil(t, s.asking)
		shown := s.asking.Pane.Record.Texts()
		for _, want := range []string{"F6", "E", "V", "[ ]", s.menus.keyNames("Ctrl+F"), s.label("tool-vehicle"), s.label("keys-line")} {
			assert.Contains(t, shown, want, lang)
		}
		for _, group := range keyGroups {
			n := 0
			for ; s.words().HasLabel(group + "-" + itoa(n+1)); n++ {
				_, does, ok := strings.Cut(s.label(group+"-"+itoa(n+1)), ": ")
				assert.True(t, ok && does != "", "%s-%d: a key, a colon and what it does", group, n+1)
			}
			assert.Positive(t, n, group)
		}
	}
}
