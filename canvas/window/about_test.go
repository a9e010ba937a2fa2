package window

import (
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
