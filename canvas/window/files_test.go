package window

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/report"
	"kedge/canvas/store"
)

func TestSaveAsksForAName(t *testing.T) {
	s := sitAt(t, 1440, 900, "")
	assert.Contains(t, texts(s.frame.verdict), "Nothing to check yet.")
	s.focusBoard()
	s.keys("v")
	s.press(5.5, 8.5)
	s.keys("2450", "<Tab>", "h", "<Return>")
	assert.Contains(t, texts(s.frame.menu), "changed")
	s.ctrl(fyne.KeyS)
	require.NotNil(t, s.choosing)
	s.choosing.Name.SetText("moss")
	s.keys("<Return>")
	require.Nil(t, s.choosing)
	path := filepath.Join(s.home, "moss.kedge")
	require.FileExists(t, path)
	p, _, err := store.New(store.Program).Load(path)
	require.NoError(t, err)
	assert.InDelta(t, 2450, float64(p.Casualty().Mass), 0)
	assert.Equal(t, report.Program(), p.App, "which version saved it")
	assert.Equal(t, "moss · saved", s.file.state())
	assert.Contains(t, texts(s.frame.menu), "moss · saved")
	assert.Equal(t, "moss · saved · Kedge", s.win.Title())
	assert.NotEmpty(t, s.board.UndoName(), "the undo list survives")
	s.ctrl(fyne.KeyZ)
	assert.Equal(t, "moss · changed", s.file.state())
}

func TestUnsavedWorkIsAskedAbout(t *testing.T) {
	path := example(t, "redirect")
	s := sitAt(t, 1440, 900, path)
	was := s.board.Plan()
	s.commands.run("new")
	assert.Nil(t, s.asking, "nothing to lose, nothing asked")
	s.file.open(path)
	s.focusBoard()
	s.ctrl(fyne.KeyA)
	s.keys("<Delete>")
	require.NotEqual(t, was, s.board.Plan())
	changed := s.board.Plan()

	s.commands.run("new")
	require.NotNil(t, s.asking)
	s.keys("<Escape>") // cancel
	assert.Same(t, changed, s.board.Plan())
	s.commands.run("new")
	s.click(s.asking.Pane, "answer 1") // discard
	assert.NotSame(t, changed, s.board.Plan())
	assert.Empty(t, s.board.Plan().Site.Vehicles)
	p, _, err := store.New(store.Program).Load(path)
	require.NoError(t, err)
	assert.NotEmpty(t, p.Site.Vehicles, "discarding does not touch the file")
}

func TestFileChangedByOthersIsNotOverwritten(t *testing.T) {
	path := example(t, "redirect")
	s := sitAt(t, 1440, 900, path)
	other, err := os.ReadFile(path)
	require.NoError(t, err)
	other = append(other[:len(other)-2], []byte(`, "x_other": true}`+"\n")...)
	require.NoError(t, os.WriteFile(path, other, 0o644))
	s.board.Select(s.board.Plan().Casualty().ID)
	s.keys("<Delete>")
	s.ctrl(fyne.KeyS)
	require.NotNil(t, s.asking)
	now, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(other), string(now))
	s.keys("<Escape>")
	assert.Contains(t, s.file.state(), "changed")
}

func TestFaultStaysUntilTheNextPress(t *testing.T) {
	s := sitAt(t, 1440, 900, filepath.Join(t.TempDir(), "gone.kedge"))
	require.NotEmpty(t, s.fault)
	assert.Contains(t, texts(s.frame.status), "gone.kedge")
	e := &desktop.MouseEvent{}
	e.Position = s.at(10, 10)
	s.view.MouseMoved(e)
	assert.Contains(t, texts(s.frame.status), "gone.kedge")
	assert.Contains(t, texts(s.frame.verdict), "Nothing to check yet.")
	s.press(10, 10)
	assert.NotContains(t, texts(s.frame.status), "gone.kedge")
}

func TestSaveThatFailsSaysSo(t *testing.T) {
	s := sitAt(t, 1440, 900, "")
	s.focusBoard()
	s.keys("v")
	s.press(5.5, 8.5)
	s.ctrl(fyne.KeyS)
	s.choosing.Name.SetText(filepath.Join(s.home, "no", "such", "folder", "x.kedge"))
	s.keys("<Return>")
	assert.NotEmpty(t, s.fault)
	assert.Contains(t, texts(s.frame.status), "x.kedge")
	assert.True(t, s.board.Dirty())
	assert.Contains(t, s.file.state(), "changed")
}

func TestQuestionsComeFirst(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.board.Select(s.board.Plan().Casualty().ID)
	s.keys("<Delete>")
	changed := s.board.Plan()
	s.commands.run("new")
	require.NotNil(t, s.asking)
	s.ctrl(fyne.KeyZ)
	assert.Same(t, changed, s.board.Plan())
	s.ctrl(fyne.KeyS)
	assert.Nil(t, s.choosing)
	s.keys("<F1>")
	require.NotNil(t, s.asking)
	assert.NotContains(t, texts(s.asking.Pane), "Tools: V vehicle")
}

// Save as suggests a name after the plan's title that every system takes; of a name
// that is there already Enter asks for another one, and overwrites nothing.
func TestSaveAsSuggestsANameAndOverwritesNothingByEnter(t *testing.T) {
	s := sitAt(t, 1440, 900, "")
	p := *s.board.Plan()
	p.Title = "Moss: east/west? " + strings.Repeat("long ", 30)
	s.file.begin(&p, "", store.Stamp{})
	s.file.saveAs(nil)
	require.NotNil(t, s.choosing)
	name := s.choosing.Name.Text
	assert.Regexp(t, `^Moss- east-west- long[a-z ]*[a-z]$`, name)
	assert.LessOrEqual(t, len(name), mostName)

	s.overwritesNothingByEnter("there.kedge")
}
