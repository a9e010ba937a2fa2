package window

import (
	"crypto/sha256"
	"fmt"
	"os"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/part"
	"kedge/solver/plan"

	"kedge/canvas/panel"
)

// pixels are what a panel shows, as a short text; empty if it shows nothing.
func pixels(p *panel.Pane) string {
	if p.Surface.Front == nil {
		return ""
	}
	return fmt.Sprintf("%v %x", p.Surface.Front.Rect, sha256.Sum256(p.Surface.Front.Pix))
}

// Every panel that changes and changes back before the worker comes to it is
// drawn back: another rig and the first again, the page and the board again.
func TestEveryPanelThatChangesBackIsDrawnBack(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.board.Select(s.board.Plan().Casualty().ID)
	s.refresh()
	s.refresh()
	first, other := s.board.Rig(), s.board.Plan().Rigs[1].ID
	want := map[string]string{}
	for _, p := range s.panes {
		want[p.Name] = pixels(p)
	}
	for _, name := range []string{"verdict", "findings", "loads", "details", "tabs", "status", "menu", "rail"} {
		require.NotEmpty(t, want[name], name)
	}
	w := &late{}
	s.worker = w
	for _, rig := range []plan.ID{other, first} {
		s.board.ShowRig(rig)
		s.board.Select(s.board.Plan().Casualty().ID)
		for _, p := range s.panes {
			p.Update()
		}
	}
	w.all()
	for _, p := range s.panes {
		if p.Shown() {
			assert.Equal(t, want[p.Name], pixels(p), p.Name)
		}
	}
}

func TestThePageComesBackASecondTime(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.focusBoard()
	s.ctrl(fyne.KeyP)
	want := []string{pixels(s.printer.page), pixels(s.printer.paper)}
	require.NotEmpty(t, want[0])
	s.keys("<Escape>")
	w := &late{}
	s.worker, s.slow = w, w
	s.focusBoard()
	s.ctrl(fyne.KeyP)
	w.all()
	assert.Equal(t, want[0], pixels(s.printer.page))
	assert.Equal(t, want[1], pixels(s.printer.paper))
}

// A window that is resized while something is held drops it where it was: the
// pointer lies over another place of the plan by then.
func TestResizedWhileSomethingIsHeld(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	before := s.board.Plan()
	v := before.Casualty()
	e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	e.Position = s.at(v.At.X, v.At.Y)
	s.view.MouseMoved(e)
	s.view.MouseDown(e)
	d := &fyne.DragEvent{}
	d.Position = s.at(v.At.X+3, v.At.Y+2)
	s.view.Dragged(d)
	require.NotSame(t, before, s.board.Shown(), "a preview is shown")
	s.win.Resize(fyne.NewSize(1300, 820))
	assert.Same(t, before, s.board.Shown(), "it is given up")
	s.view.Dragged(d)
	s.view.MouseUp(e)
	s.view.DragEnd()
	assert.Same(t, before, s.board.Plan())
	assert.Same(t, before, s.board.Shown())
	s.drag(v.At.X, v.At.Y, v.At.X+3, v.At.Y)
	assert.NotSame(t, before, s.board.Plan(), "the next drag counts")
}

// Desk, Field and Desk again show the same place at the same scale, in a plan
// that has grown since it was opened too.
func TestFieldAndBackKeepsThePlaceShown(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.drag(s.board.Plan().Casualty().At.X, s.board.Plan().Casualty().At.Y, 1, 1)
	was := s.board.View()
	s.commands.run("field")
	assert.Equal(t, was.Middle, s.board.View().Middle)
	assert.InDelta(t, was.PerM, s.board.View().PerM, 0)
	s.commands.run("field")
	assert.Equal(t, was, s.board.View())
}

// Two windows on one file: the second is told, its first answer is another
// name, and choosing the same name again asks once more.
func TestSecondWindowOnAFileDoesNotOverwrite(t *testing.T) {
	path := example(t, "redirect")
	one := sitAt(t, 1440, 900, path)
	two := sitIn(t, one.home, 1440, 900, path)
	edit := func(s *seat, mass string) {
		require.True(t, s.details.set(s.board.Plan().Casualty().ID, "mass_kg", mass))
		s.focusBoard()
		s.ctrl(fyne.KeyS)
	}
	edit(one, "2600")
	require.Nil(t, one.asking)
	saved, err := os.ReadFile(path)
	require.NoError(t, err)
	edit(two, "2700")
	require.NotNil(t, two.asking)
	assert.Equal(t, two.label("do-save-as"), two.asking.Answers[0].Word)
	two.keys("<Return>")
	require.NotNil(t, two.choosing)
	two.keys("<Return>") // the same name
	require.NotNil(t, two.asking, "it is asked before the other's work is overwritten")
	now, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(saved), string(now))
	two.keys("<Escape>")
	assert.Contains(t, two.file.state(), "changed")
	assert.NotContains(t, texts(two.frame.menu), two.label("saved", part.Text("name", two.file.name())))
}

// A plan of a newer version that can be read says that what is unknown is kept.
func TestPlanOfANewerVersionSaysSo(t *testing.T) {
	path := example(t, "redirect")
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	next := strings.Replace(string(data), `"version": `+itoa(plan.CurrentVersion), `"version": `+itoa(plan.CurrentVersion+1), 1)
	require.NotEqual(t, string(data), next)
	require.NoError(t, os.WriteFile(path, []byte(next), 0o644))
	s := sitAt(t, 1440, 900, path)
	assert.Contains(t, texts(s.frame.status), s.label("newer-version"))
}

func TestNewPlanForgetsWhatWasReported(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.board.Select("T1")
	s.focusBoard()
	s.keys("<Delete>")
	s.ctrl(fyne.KeyZ)
	require.Contains(t, texts(s.frame.status), "Undone")
	s.commands.run("new")
	assert.NotContains(t, texts(s.frame.status), "Undone")
}

func TestRegionsGoToTheTabsFirst(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.focusBoard()
	for range 14 {
		s.keys("<F6>")
		if s.focused() == fyne.Focusable(s.frame.tabs) {
			assert.Equal(t, "rig "+string(s.board.Rig()), s.frame.tabs.Focus)
			return
		}
	}
	t.Fatal("F6 never came to the tabs")
}
