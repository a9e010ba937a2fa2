package window

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
)

// sought opens Find and types into it.
func (s *seat) sought(typed string) []string {
	s.t.Helper()
	s.ctrl(fyne.KeyF)
	require.NotNil(s.t, s.finding)
	require.True(s.t, s.focused() == fyne.Focusable(s.finding.Typed), "what is typed goes there")
	s.keys(typed)
	return s.finding.List.Record.Texts()
}

func (s *seat) findKey(k fyne.KeyName) { s.finding.Typed.TypedKey(&fyne.KeyEvent{Name: k}) }

// Find goes to an item by any name of its kind, with the keys alone.
func TestFindGoesToAnItem(t *testing.T) {
	for _, typed := range []string{"snatch block", "pulley", "Umlenkrolle", "block 1"} {
		s := sitAt(t, 1440, 900, example(t, "redirect"))
		shown := s.sought(typed)
		assert.Contains(t, shown, "Block 1", typed)
		for i := 0; s.board.Selection() == nil && i < 20; i++ {
			if s.finding.Chosen().ID == "item B1" {
				s.findKey(fyne.KeyReturn)
				break
			}
			s.findKey(fyne.KeyDown)
		}
		assert.Equal(t, []plan.ID{"B1"}, s.board.Selection(), typed)
		assert.Nil(t, s.finding)
	}
}

// Find runs commands; one that cannot run stays, and says why in its row and when it
// is taken.
func TestFindRunsCommands(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.sought("line")
	assert.Equal(t, "command tool.line", s.finding.Chosen().ID)
	s.findKey(fyne.KeyReturn)
	assert.Equal(t, "line", toolName(s.board.Tool()))
	assert.True(t, s.focused() == fyne.Focusable(s.view), "the board has the keys")

	shown := s.sought("undo")
	c, _ := s.commands.find("undo")
	require.NotEmpty(t, c.why, "nothing has been done")
	assert.Contains(t, strings.Join(shown, "\n"), c.why)
	s.findKey(fyne.KeyReturn)
	assert.NotNil(t, s.finding, "it stays")
	assert.Equal(t, c.why, s.said)
	s.findKey(fyne.KeyEscape)
	assert.Nil(t, s.finding)
	assert.True(t, s.focused() == fyne.Focusable(s.view), "the board has the keys")
}

// Findings and words of the trade are found as well; nothing found says so.
func TestFindFindingsAndWords(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	f := s.answer().Findings[0]
	what, _ := s.words().Finding(f, s.words().Naming(s.answer(), s.names()))
	s.sought(what)
	require.Equal(t, "finding "+f.Key(), s.finding.Chosen().ID)
	s.findKey(fyne.KeyReturn)
	assert.Equal(t, f.Things, s.board.Selection())

	s.sought("snap back")
	assert.Equal(t, "word recoil", s.finding.Chosen().ID)
	s.findKey(fyne.KeyReturn)
	assert.NotNil(t, s.asking, "what it is can be read")
	s.keys("<Escape>")
	require.Nil(t, s.asking)

	assert.Contains(t, strings.Join(s.sought("xyzzy"), "\n"), s.label("find-none"))
	s.findKey(fyne.KeyReturn)
	assert.NotNil(t, s.finding)
}

// All commands are offered before anything is typed, each once; the list is as long as
// it is said to be at most.
func TestFindOffersEverything(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	seen := map[string]bool{}
	for _, o := range s.findable() {
		assert.False(t, seen[o.ID], "%s twice", o.ID)
		seen[o.ID] = true
		assert.NotEmpty(t, o.Name, o.ID)
		assert.NotRegexp(t, `^\[|\[[a-z-]+\]$`, o.Name+o.Sort, "a text is missing")
	}
	for _, e := range s.board.Commands() {
		assert.True(t, seen["command "+e.ID] || e.Label == "", e.ID)
	}
	for _, id := range []string{"item V1", "item T1", "item L1", "word bight", "example doubled", "command print"} {
		assert.True(t, seen[id], id)
	}
}
