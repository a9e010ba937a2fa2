package window

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/sheet"
	"kedge/canvas/store"
	"kedge/canvas/words"
)

// atSheets is a window with the exercise ticked.
func atSheets(t *testing.T) *seat {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.focusBoard()
	s.ctrl(fyne.KeyP)
	s.click(s.printer.list, "sheet overview")
	s.click(s.printer.list, "sheet exercise")
	require.NotNil(t, s.printer.now.booklet)
	return s
}

func (s *seat) choose(path string) {
	s.t.Helper()
	require.NotNil(s.t, s.choosing)
	s.choosing.Name.SetText(path)
	s.keys("<Return>")
}

func (s *seat) write(name string, data []byte) string {
	path := filepath.Join(s.home, name)
	require.NoError(s.t, os.WriteFile(path, data, 0o644))
	return path
}

// A class makes a variant a name, from a file or pasted, and is taken out again.
func TestClassMakesAVariantAName(t *testing.T) {
	s := atSheets(t)
	one := len(s.printer.now.booklet.Pages)
	s.click(s.printer.list, "class-file")
	s.choose(s.write("course.txt", []byte("\ufeffAda Moor\r\n\r\n  Ben   Sedge \nCy Rush")))
	assert.Equal(t, []string{"Ada Moor", "Ben Sedge", "Cy Rush"}, s.printer.now.opt.Class)
	assert.Contains(t, texts(s.printer.list), "3 names")
	assert.Greater(t, len(s.printer.now.booklet.Pages), one)
	assert.Contains(t, texts(s.printer.page), "Ada Moor", "the page has the name on it")

	s.click(s.printer.list, "no-class")
	assert.Empty(t, s.printer.now.opt.Class)
	assert.Len(t, s.printer.now.booklet.Pages, one)

	s.app.Clipboard().SetContent("Di Fenn\nEd Carr\n")
	s.click(s.printer.list, "class-paste")
	assert.Equal(t, []string{"Di Fenn", "Ed Carr"}, s.printer.now.opt.Class)
	assert.Contains(t, texts(s.printer.page), "Di Fenn")
	s.app.Clipboard().SetContent("Fi Holm\nGus Tarn\n")
	s.click(s.printer.list, "class-paste")
	assert.Contains(t, texts(s.printer.page), "Fi Holm", "as many names, other ones")

	for name, data := range map[string]string{"nothing": " \n\n", "no text": "\xff\xfe\x00A", "too many": strings.Repeat("N\n", sheet.MaxVariants+1)} {
		t.Run(name, func(t *testing.T) {
			s.fault = ""
			s.printer.takeClass(data)
			assert.NotEmpty(t, s.fault)
			assert.Equal(t, []string{"Fi Holm", "Gus Tarn"}, s.printer.now.opt.Class, "what was there stays")
		})
	}
}

// A logo is taken where the sheets can use it, and said why where not.
func TestLogoIsTakenOrRefused(t *testing.T) {
	s := atSheets(t)
	before := texts(s.printer.page)
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, 40, 20))))
	s.click(s.printer.list, "logo")
	s.choose(s.write("school.png", b.Bytes()))
	assert.Equal(t, b.Bytes(), s.printer.now.opt.Logo)
	assert.Contains(t, texts(s.printer.list), "school.png")
	require.NotNil(t, s.printer.now.booklet, s.printer.now.fault)
	s.click(s.printer.list, "no-logo")
	assert.Nil(t, s.printer.now.opt.Logo)
	assert.Equal(t, before, texts(s.printer.page))

	s.click(s.printer.list, "logo")
	s.choose(s.write("broken.png", b.Bytes()[:30]))
	assert.Nil(t, s.printer.now.opt.Logo)
	assert.NotEmpty(t, s.fault)
	assert.NotNil(t, s.printer.now.booklet, "the page stays")
}

func (s *seat) entryOf(m *fyne.MenuItem, label string) *fyne.MenuItem {
	s.t.Helper()
	require.NotNil(s.t, m.ChildMenu)
	for _, i := range m.ChildMenu.Items {
		if i.Label == label {
			return i
		}
	}
	s.t.Fatalf("no %q in %q", label, m.Label)
	return nil
}

// A size of text is kept for the next start, leaves the picture as it is, and
// cuts nothing off.
func TestTextSizeIsChosenAndKept(t *testing.T) {
	home := t.TempDir()
	for _, n := range store.TextPercents() {
		s := sitIn(t, home, 1440, 900, example(t, "redirect"))
		was := s.board.View()
		s.entryOf(s.menus.sizes(), s.words().Share(float64(n)/100)).Action()
		assert.InDelta(t, float64(n)/100, s.textScale(), 1e-9)
		assert.InDelta(t, was.PerM, s.board.View().PerM, 0)
		assert.True(t, s.entryOf(s.menus.sizes(), s.words().Share(float64(n)/100)).Checked)
		for _, size := range []fyne.Size{{Width: 1440, Height: 900}, {Width: 1024, Height: 640}} {
			s.win.Resize(size)
			s.refresh()
			_, _, verdict, _ := s.words().Verdict(s.answer(), s.names())
			assert.Contains(t, strings.Join(s.frame.verdict.Record.Texts(), " "), verdict, "%d %%, %v: the verdict is never cut", n, size)
		}
		for i := range s.answer().Parts { // the sum under the pointer leaves the verdict in sight
			s.loads.point(s.answer().Parts[i].ID, true)
			s.refresh()
			require.True(t, s.why.pane.Visible())
			assert.GreaterOrEqual(t, s.why.pane.Position().Y, s.frame.verdict.Position().Y+s.frame.verdict.Size().Height)
			assert.LessOrEqual(t, s.why.pane.Position().Y+s.why.pane.Tall, s.frame.status.Position().Y, "%d %%: %s", n, s.answer().Parts[i].ID)
			s.loads.point(s.answer().Parts[i].ID, false)
		}
		s.win.Resize(fyne.NewSize(1440, 900))
		s.shell.open = true
		for _, id := range append(s.frame.panelsOfSide(), panelOutcome) {
			s.shell.choice = id
			s.refresh()
			s.inside(fyne.NewSize(1440, 900), false)
		}
		s.commands.run("print")
		s.click(s.printer.list, "sheet exercise")
		s.inside(fyne.NewSize(1440, 900), false)
		next := sitIn(t, home, 1440, 900, "")
		assert.Equal(t, n, next.prefs.Percent)
		assert.InDelta(t, float64(n)/100, next.textScale(), 1e-9)
	}
}

// Every language there is can be chosen, is kept, and is spoken at once.
func TestLanguageIsChosenAndKept(t *testing.T) {
	require.NotEmpty(t, words.Languages())
	for _, l := range words.Languages() {
		home := t.TempDir()
		s := sitIn(t, home, 1440, 900, example(t, "redirect"))
		before := s.board.Plan()
		s.entryOf(s.menus.languages(), ownName(l)).Action()
		assert.Equal(t, l, s.words().Lang())
		assert.Equal(t, l, s.board.Words().Lang())
		ws, err := words.New(l, s.words().System())
		require.NoError(t, err)
		assert.Contains(t, texts(s.loads.pane), ws.Label("title-loads"))
		assert.Contains(t, texts(s.frame.menu), ws.Label("menu-file"))
		assert.Same(t, before, s.board.Plan(), "the plan stays")
		next := sitIn(t, home, 1440, 900, "")
		assert.Equal(t, l, next.words().Lang())
	}
}

// Preferences of a Kedge that had more languages open the window in English.
func TestLanguageThatIsNotThere(t *testing.T) {
	home := t.TempDir()
	own := ownStore(home)
	p, err := own.Preferences()
	require.NoError(t, err)
	p.Language = "tlh"
	require.NoError(t, own.SavePreferences(p))
	s := sitIn(t, home, 1440, 900, "")
	assert.Equal(t, english, s.words().Lang())
}
