package window

import (
	"bytes"
	"errors"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/form"
	"kedge/canvas/sheet"
	"kedge/solver"
	"kedge/solver/plan"
)

func TestSheetsAreTickedAndWritten(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	before := s.board.Plan()
	s.focusBoard()
	s.ctrl(fyne.KeyP)
	require.NotNil(t, s.print)
	require.False(t, s.view.Visible(), "the board gives way to the page")
	page := s.print.shownPage()
	require.NotNil(t, page)
	assert.Equal(t, sheet.Overview, page.Kind)
	assert.NotEmpty(t, texts(s.sheet))

	s.click(s.sheets, "sheet exercise")
	assert.True(t, s.print.kinds[sheet.Key], "the exercise ticks its key")
	s.click(s.sheets, "sheet overview")
	page = s.print.shownPage()
	require.Equal(t, sheet.Exercise, page.Kind)
	require.NotEmpty(t, page.Figures)
	was := page.Figures[0].Blank
	s.click(s.sheet, "figure 0")
	page = s.print.shownPage()
	assert.Len(t, s.print.opt.Blanks, 1)
	found := false
	for _, f := range page.Figures {
		if f.Part == s.print.opt.Blanks[0] {
			found = true
			assert.True(t, f.Blank || was, "the figure is blank now")
		}
	}
	assert.True(t, found)

	s.click(s.paper, "paper Letter")
	page = s.print.shownPage()
	assert.InDelta(t, sheet.Letter.H, page.W, 1e-9, "a wide drawing lies on the long side by itself")
	s.click(s.paper, "turn")
	page = s.print.shownPage()
	assert.InDelta(t, sheet.Letter.W, page.W, 1e-9)

	s.click(s.paper, "export")
	require.NotNil(t, s.choosing)
	path := filepath.Join(s.home, "course.pdf")
	s.choosing.Name.SetText(path)
	s.keys("<Return>")
	for _, name := range []string{"course.pdf", "course-KEY.pdf"} {
		data, err := os.ReadFile(filepath.Join(s.home, name))
		require.NoError(t, err)
		assert.True(t, bytes.HasPrefix(data, []byte("%PDF-")), name)
	}
	assert.Contains(t, texts(s.status), "course.pdf, course-KEY.pdf")

	s.win.Canvas().Focus(s.sheets)
	s.keys("<Escape>")
	assert.Nil(t, s.print)
	assert.True(t, s.view.Visible())
	assert.Same(t, before, s.board.Plan(), "printing edits nothing")
}

func TestNoSheetTickedSaysSo(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.run("print")
	s.click(s.sheets, "sheet overview")
	assert.Nil(t, s.print.shownPage())
	assert.Contains(t, texts(s.sheet), s.label("print-none"))
	i := s.paper.Find("export")
	require.GreaterOrEqual(t, i, 0)
	assert.NotEmpty(t, s.paper.Hits[i].Why)
}

func TestEmptySheetCannotBePrintedAndSaysSo(t *testing.T) {
	s := sitAt(t, 1440, 900, "")
	s.run("print")
	assert.Nil(t, s.print.shownPage())
	assert.NotEmpty(t, strings.TrimSpace(texts(s.sheet)))
}

func TestPictureIsWritten(t *testing.T) {
	for _, c := range []struct{ run, name, begins string }{
		{"picture", "board.png", "\x89PNG"},
		{"picture", "board.SVG", "<?xml"},
		{"picture-part", "part.png", "\x89PNG"},
		{"picture-part", "part", "\x89PNG"},
	} {
		t.Run(c.run+" "+c.name, func(t *testing.T) {
			s := sitAt(t, 1440, 900, example(t, "redirect"))
			s.board.Select(s.board.Plan().Site.Anchors[0].ID)
			s.run(c.run)
			s.choosing.Name.SetText(filepath.Join(s.home, c.name))
			s.keys("<Return>")
			if filepath.Ext(c.name) == "" {
				c.name += ".png"
			}
			data, err := os.ReadFile(filepath.Join(s.home, c.name))
			require.NoError(t, err)
			assert.True(t, bytes.HasPrefix(data, []byte(c.begins)), string(data[:5]))
			left, err := filepath.Glob(filepath.Join(s.home, ".kedge*"))
			require.NoError(t, err)
			assert.Empty(t, left, "no leftovers")
		})
	}
}

func TestPictureOfAnUnknownKindIsRefused(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.run("picture")
	s.choosing.Name.SetText(filepath.Join(s.home, "board.bmp"))
	s.keys("<Return>")
	assert.Contains(t, texts(s.status), "board.bmp was not written: its ending must be .png or .svg")
	assert.NoFileExists(t, filepath.Join(s.home, "board.bmp"))
}

// copied is a clipboard for pictures, or one that is broken.
type copied struct {
	png []byte
	err error
}

func (c *copied) PutPNG(png []byte) error {
	if c.err == nil {
		c.png = png
	}
	return c.err
}

func TestPicturesAreCopied(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	why := func(id string) string {
		c, ok := s.find(id)
		require.True(t, ok, id)
		return c.why
	}
	assert.Equal(t, "this desktop takes no pictures to copy", why("picture-copy"))
	assert.Equal(t, "Nothing is selected", why("picture-copy-part"))
	assert.Equal(t, "Nothing is selected", why("picture-part"))

	board := &copied{}
	s.opt.Clipboard = board
	require.Empty(t, why("picture-copy"))
	size := func() image.Point {
		img, err := png.DecodeConfig(bytes.NewReader(board.png))
		require.NoError(t, err)
		return image.Pt(img.Width, img.Height)
	}
	s.focusBoard()
	s.run("picture-copy")
	whole := size()
	assert.Contains(t, texts(s.status), "Picture copied")
	s.board.Select(s.board.Plan().Site.Anchors[0].ID)
	s.run("picture-copy-part")
	assert.Less(t, size().X, whole.X)
	s.run("picture-copy-svg")
	assert.Contains(t, s.app.Clipboard().Content(), "<svg")
	before := s.app.Clipboard().Content()

	s.run("print")
	s.click(s.paper, "copy-page")
	assert.Equal(t, image.Pt(1754, 1241), size(), "A4 on its long side at 150 dots to the inch")
	s.click(s.paper, "copy-svg")
	assert.Contains(t, s.app.Clipboard().Content(), "<svg")
	assert.NotEqual(t, before, s.app.Clipboard().Content())

	s.opt.Clipboard = &copied{err: errors.New("the desktop did not take the picture")}
	s.run("picture-copy")
	assert.Contains(t, texts(s.status), "Nothing was copied: the desktop did not take the picture")
}

// held is a worker that waits until a test lets it go on.
type held struct{ jobs []func() func() }

func (h *held) Do(_ string, job func() func()) { h.jobs = append(h.jobs, job) }
func (h *held) Close()                         {}

func (h *held) goOn() {
	for len(h.jobs) > 0 {
		job := h.jobs[0]
		h.jobs = h.jobs[1:]
		if show := job(); show != nil {
			show()
		}
	}
}

// Work that takes its time shows how far it is, and can be stopped: then no file
// is there, not even a half one.
func TestWritingSheetsCanBeStopped(t *testing.T) {
	for _, c := range []struct {
		name string
		stop func(s *seat)
	}{
		{"button", func(s *seat) { s.click(s.status, "stop") }},
		{"Escape", func(s *seat) { s.namedKey(fyne.KeyEscape) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := sitAt(t, 1440, 900, example(t, "redirect"))
			s.run("print")
			work := &held{}
			s.slow = work
			s.export()
			s.choosing.Name.SetText(filepath.Join(s.home, "course.png"))
			s.keys("<Return>")
			require.Len(t, work.jobs, 1)
			s.refresh()
			assert.Contains(t, texts(s.status), "Writing course.png …")
			c.stop(s)
			work.goOn()
			assert.Contains(t, texts(s.status), "Stopped.")
			all, err := filepath.Glob(filepath.Join(s.home, "*.png"))
			require.NoError(t, err)
			assert.Empty(t, all)
			assert.NotNil(t, s.print, "the page is still there")
			assert.Nil(t, s.going)
		})
	}
}

// Another choice stops the sheets that are being made for the one before.
func TestTheNewestSheetsAreMade(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	work := &held{}
	s.slow = work
	s.run("print")
	s.click(s.paper, "paper A3")
	require.GreaterOrEqual(t, len(work.jobs), 2)
	work.goOn()
	require.NotNil(t, s.print.shownPage())
	assert.InDelta(t, 420, max(s.print.shownPage().W, s.print.shownPage().H), 1e-9, "A3 is 297 × 420 mm (ISO 216)")
	assert.NotContains(t, texts(s.status), "Stopped.")
}

// A question that cannot be answered says why, and is taken out with a button.
func TestAQuestionThatCannotBeAnsweredIsTakenOut(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.run("print")
	s.click(s.sheets, "sheet exercise")
	s.click(s.sheets, "sheet overview")
	require.NotNil(t, s.print.shownPage())
	s.print.opt.Questions = []sheet.Question{{Kind: sheet.AskAngle, Part: "B1"}, {Kind: sheet.AskAngle, Part: "K1"}}
	s.refresh()
	require.Nil(t, s.print.shownPage())
	assert.Contains(t, texts(s.sheet), "Question 2 cannot be answered from its page: no line turns there.")
	s.click(s.sheet, "remove-question")
	require.NotNil(t, s.print.shownPage())
	assert.Equal(t, []sheet.Question{{Kind: sheet.AskAngle, Part: "B1"}}, s.print.opt.Questions)
}

// A blank that another figure gives away says so; that one is made a blank too.
func TestWhatGivesABlankAwayIsSaid(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.run("print")
	s.click(s.sheets, "sheet exercise")
	s.blank("B1")
	s.refresh()
	require.NotEmpty(t, s.print.booklet.Giveaways)
	assert.Contains(t, texts(s.sheets), "gives the blank of Block 1")
	s.click(s.sheets, "too T1")
	assert.Equal(t, []string{"B1", "T1"}, s.print.opt.Blanks)
	for _, g := range s.print.booklet.Giveaways {
		assert.NotEqual(t, "T1", g.Part)
	}
}

// Variants: what varies is chosen, never nothing; the first three are shown
// small; those drawn anew are counted.
func TestVariantsAreChosenAndShownSmall(t *testing.T) {
	s := sitAt(t, 1440, 1400, example(t, "redirect"))
	s.run("print")
	s.click(s.sheets, "sheet exercise")
	s.click(s.sheets, "sheet overview")
	assert.Less(t, s.sheets.Find("vary-mass 0"), 0, "nothing varies of the plan alone")
	s.click(s.sheets, "variants 10")
	require.Len(t, s.print.booklet.Variants, 10)
	first := s.print.booklet.Variants[0].Site.Vehicles[1].At
	drawn := s.board.Plan()
	s.click(s.sheets, "vary-place 0")
	s.click(s.sheets, "vary-trunks 0")
	s.click(s.sheets, "vary-turn 0")
	s.click(s.sheets, "vary-slings 0")
	assert.NotEqual(t, first, s.print.booklet.Variants[0].Site.Vehicles[1].At)
	for _, v := range s.print.booklet.Variants {
		assert.Equal(t, drawn.Site.Vehicles[1].At, v.Site.Vehicles[1].At)
	}
	i := s.sheets.Find("vary-mass 0")
	require.GreaterOrEqual(t, i, 0)
	assert.NotEmpty(t, s.sheets.Hits[i].Why, "something has to vary")
	for v := 1; v <= 3; v++ {
		s.click(s.sheets, "variant "+itoa(v))
		g := s.print.shownPage()
		require.NotNil(t, g)
		assert.Equal(t, v, g.Variant)
		assert.Equal(t, sheet.Exercise, g.Kind)
	}
	assert.Less(t, s.sheets.Find("variant 4"), 0)
	s.print.booklet.Redrawn = 3
	s.refresh()
	assert.Contains(t, texts(s.sheets), "3 variants were drawn anew")
}

// The flow of a handout by keys alone: tick, turn the pages, leave.
func TestSheetsByKeys(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.focusBoard()
	s.ctrl(fyne.KeyP)
	require.NotNil(t, s.print)
	assert.Contains(t, texts(s.status), "Page Up, Page Down")
	s.sheets.Focus = "sheet overview"
	s.keys("<Space>")
	assert.False(t, s.print.kinds[sheet.Overview])
	for s.sheets.Focus != "sheet exercise" {
		was := s.sheets.Focus
		s.keys("<Tab>")
		require.NotEqual(t, was, s.sheets.Focus, "Tab goes on")
	}
	s.keys("<Return>")
	require.NotNil(t, s.print.shownPage())
	assert.Equal(t, sheet.Exercise, s.print.shownPage().Kind)
	for _, c := range []struct {
		key  fyne.KeyName
		want int
	}{{fyne.KeyPageUp, 0}, {fyne.KeyPageDown, 1}, {fyne.KeyEnd, len(s.print.booklet.Pages) - 1}, {fyne.KeyPageDown, len(s.print.booklet.Pages) - 1}, {fyne.KeyHome, 0}} {
		s.sheets.TypedKey(&fyne.KeyEvent{Name: c.key})
		assert.Equal(t, c.want, s.print.page, c.key)
	}
	s.keys("<Escape>")
	assert.Nil(t, s.print)
}

// PNG is written as fine as chosen, SVG with its letters as outlines.
func TestFormatsAreChosen(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.run("print")
	s.click(s.paper, "fine")
	assert.Equal(t, "fine", s.popup.menuShown())
	s.popup.menu.Hide()
	s.print.opt.DPI, s.print.opt.SVGOutlines = 96, true
	s.refresh()
	data, err := s.print.booklet.PNG(0, 0)
	require.NoError(t, err)
	img, err := png.DecodeConfig(bytes.NewReader(data))
	require.NoError(t, err)
	assert.Equal(t, 1123, img.Width, "297 mm at 96 dots an inch")
	svg, err := s.print.booklet.SVG(0)
	require.NoError(t, err)
	assert.NotContains(t, string(svg), "<text")
}

// Leaving the page for the title block and coming back finds everything ticked
// as it was; the block is printed.
func TestTheTitleBlockIsReachedFromThePage(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.run("print")
	s.click(s.sheets, "sheet loads")
	s.click(s.paper, "paper A3")
	s.click(s.sheets, "title-block")
	assert.Nil(t, s.print)
	assert.Equal(t, []plan.ID{form.ThingSheet}, s.board.Selection())
	require.True(t, s.set(form.ThingSheet, "title_block/school", "Curlew Moss wardens"))
	s.run("print")
	require.NotNil(t, s.print)
	assert.True(t, s.print.kinds[sheet.Loads])
	assert.Equal(t, sheet.A3, s.print.opt.Paper)
	require.NotNil(t, s.print.shownPage())
	assert.Contains(t, s.print.shownPage().Texts(), "Curlew Moss wardens")
}

// A picture shows the plan with its own figures, whatever is being dragged.
func TestPicturesAreOfThePlanAlone(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	tree := s.board.Plan().Site.Anchors[0].At
	e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	e.Position = s.at(tree.X, tree.Y)
	s.view.MouseMoved(e)
	s.view.MouseDown(e)
	d := &fyne.DragEvent{}
	d.Position = s.at(tree.X+3, tree.Y+2)
	s.view.Dragged(d)
	require.NotSame(t, s.board.Plan(), s.board.Shown())
	x, ok := s.excerpt(false)
	require.True(t, ok)
	assert.Same(t, s.board.Plan(), x.Plan)
	assert.Equal(t, solver.Assess(x.Plan, x.Rig), x.Answer)
	assert.NotEqual(t, s.answer().Move, x.Answer.Move, "the drag would change it")
}

// Sheets of a plan that has changed since are neither written nor copied while
// the new ones are made.
func TestSheetsOfAnOlderPlanAreNotWritten(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.run("print")
	require.False(t, s.print.stale())
	work := &held{}
	s.slow = work
	s.click(s.paper, "paper A3")
	require.True(t, s.print.stale())
	s.export()
	assert.Nil(t, s.choosing, "nothing is asked for that would not be written")
	s.namedKey(fyne.KeyEscape)
	assert.Nil(t, s.print.shownPage(), "stopped: what was shown is of other paper")
	work.goOn()
	s.click(s.paper, "paper A4")
	work.goOn()
	require.NotNil(t, s.print.shownPage())
	assert.False(t, s.print.stale())
}
