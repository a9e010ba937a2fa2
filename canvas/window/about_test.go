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
