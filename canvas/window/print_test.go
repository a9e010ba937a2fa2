package window

import (
	"bytes"
	"image"
	"image/gif"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/exercise"
	"kedge/canvas/form"
	"kedge/canvas/sheet"
	"kedge/solver/plan"
	"kedge/solver/travel"
)

func TestSheetsAreTickedAndWritten(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	before := s.board.Plan()
	s.focusBoard()
	s.ctrl(fyne.KeyP)
	require.NotNil(t, s.printer.now)
	require.False(t, s.view.Visible(), "the board gives way to the page")
	page := s.printer.now.shownPage()
	require.NotNil(t, page)
	assert.Equal(t, sheet.Overview, page.Kind)
	assert.NotEmpty(t, texts(s.printer.page))

	s.click(s.printer.list, "sheet exercise")
	assert.True(t, s.printer.now.kinds[sheet.Key], "the exercise ticks its key")
	s.click(s.printer.list, "sheet overview")
	page = s.printer.now.shownPage()
	require.Equal(t, sheet.Exercise, page.Kind)
	require.NotEmpty(t, page.Figures)
	was := page.Figures[0].Blank
	s.click(s.printer.page, "figure 0")
	page = s.printer.now.shownPage()
	assert.Len(t, s.printer.now.opt.Blanks, 1)
	found := false
	for _, f := range page.Figures {
		if f.Part == s.printer.now.opt.Blanks[0] {
			found = true
			assert.True(t, f.Blank || was, "the figure is blank now")
		}
	}
	assert.True(t, found)

	s.click(s.printer.paper, "paper Letter")
	page = s.printer.now.shownPage()
	assert.InDelta(t, sheet.Letter.H, page.W, 1e-9, "a wide drawing lies on the long side by itself")
	s.click(s.printer.paper, "turn")
	page = s.printer.now.shownPage()
	assert.InDelta(t, sheet.Letter.W, page.W, 1e-9)
	require.False(t, s.printer.now.options(s.Window).Colour, "what is printed copies, unless colour is asked for")
	s.click(s.printer.paper, "colour")
	assert.True(t, s.printer.now.options(s.Window).Colour)
	s.click(s.printer.paper, "grey")
	assert.False(t, s.printer.now.options(s.Window).Colour)

	s.click(s.printer.paper, "export")
	require.NotNil(t, s.choosing)
	path := filepath.Join(s.home, "course.pdf")
	s.choosing.Name.SetText(path)
	s.keys("<Return>")
	for _, name := range []string{"course.pdf", "course-KEY.pdf"} {
		data, err := os.ReadFile(filepath.Join(s.home, name))
		require.NoError(t, err)
		assert.True(t, bytes.HasPrefix(data, []byte("%PDF-")), name)
	}
	assert.Contains(t, texts(s.frame.status), "course.pdf, course-KEY.pdf")

	s.win.Canvas().Focus(s.printer.list)
	s.keys("<Escape>")
	assert.Nil(t, s.printer.now)
	assert.True(t, s.view.Visible())
	assert.Equal(t, before, plan.WithExercise(s.board.Plan(), 0, nil), "printing edits nothing but what the exercise asks")
}

func TestNoSheetTickedSaysSo(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.commands.run("print")
	s.click(s.printer.list, "sheet overview")
	assert.Nil(t, s.printer.now.shownPage())
	assert.Contains(t, texts(s.printer.page), s.label("print-none"))
	i := s.printer.paper.Find("export")
	require.GreaterOrEqual(t, i, 0)
	assert.NotEmpty(t, s.printer.paper.Hits[i].Why)
}

func TestEmptySheetCannotBePrintedAndSaysSo(t *testing.T) {
	s := sitAt(t, 1440, 900, "")
	s.commands.run("print")
	assert.Nil(t, s.printer.now.shownPage())
	assert.NotEmpty(t, strings.TrimSpace(texts(s.printer.page)))
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
			s.commands.run(c.run)
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

// Of a picture's name that is there already Enter asks for another one.
func TestAPictureOverwritesNothingByEnter(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.commands.run("picture")
	s.overwritesNothingByEnter("there.png")
}

func TestPictureOfAnUnknownKindIsRefused(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.commands.run("picture")
	s.choosing.Name.SetText(filepath.Join(s.home, "board.bmp"))
	s.keys("<Return>")
	assert.Contains(t, texts(s.frame.status), "board.bmp was not saved: its ending must be .png or .svg")
	assert.NoFileExists(t, filepath.Join(s.home, "board.bmp"))
}

// The pull is saved as a film: a GIF that plays, or a file a frame; of a series there
// already it is asked first, and stopped it leaves nothing behind.
func TestThePullIsSavedAsAFilm(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	save := func(name string) {
		s.commands.run("film")
		s.choosing.Name.SetText(filepath.Join(s.home, name))
		s.keys("<Return>")
	}
	save("pull")
	data, err := os.ReadFile(filepath.Join(s.home, "pull.gif"))
	require.NoError(t, err)
	film, err := gif.DecodeAll(bytes.NewReader(data))
	require.NoError(t, err)
	assert.Len(t, film.Image, 13, "6 m, two frames a metre, and the start")
	save("pull.svg")
	last, err := os.ReadFile(filepath.Join(s.home, "pull-013.svg"))
	require.NoError(t, err)
	assert.Contains(t, texts(s.frame.status), "pull-001.svg … pull-013.svg saved")
	assert.True(t, strings.Contains(string(last), ">6.0\u00a0m: line"), "it ends at the end")
	save("pull.svg")
	assert.Contains(t, texts(s.asking.Pane), "pull-001.svg is there already")
	s.keys("<Escape>")
	later := &held{}
	s.slow = later
	save("stopped.gif")
	require.True(t, s.long.stop())
	later.goOn()
	assert.NoFileExists(t, filepath.Join(s.home, "stopped.gif"))
	assert.Contains(t, texts(s.frame.status), s.label("long-stopped"))
	later.goOn()
	save("pull.bmp")
	later.goOn()
	assert.Contains(t, texts(s.frame.status), "pull.bmp was not saved")
}

// Where there is no pull there is no film of it, and the menu says why.
func TestNoPullNoFilm(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "straight"))
	c, ok := s.commands.find("film")
	require.True(t, ok)
	assert.Contains(t, c.why, "No pull to follow")
}

// A picture of a later moment says which, in every file of it; one as drawn does not.
func TestAPictureSaysItsMoment(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	says := func(text string) bool {
		x, ok := s.pictures.excerpt(false)
		require.True(t, ok)
		data, err := x.SVG(false)
		require.NoError(t, err)
		return strings.Contains(string(data), text)
	}
	assert.False(t, says("of the pull."))
	s.travel.show(2.4)
	assert.True(t, says("Drawn at 2.4\u00a0m of the pull."))
	s.travel.atM = 99 // as of a longer plan before
	assert.True(t, says("Drawn at 6.0\u00a0m of the pull."), "no farther than it goes")
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
		c, ok := s.commands.find(id)
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
	s.commands.run("picture-copy")
	whole := size()
	assert.Contains(t, texts(s.frame.status), "Picture copied")
	s.board.Select(s.board.Plan().Site.Anchors[0].ID)
	s.commands.run("picture-copy-part")
	assert.Less(t, size().X, whole.X)
	s.commands.run("picture-copy-svg")
	assert.Contains(t, s.app.Clipboard().Content(), "<svg")
	before := s.app.Clipboard().Content()

	s.commands.run("print")
	s.click(s.printer.paper, "copy-page")
	assert.Equal(t, image.Pt(1754, 1241), size(), "A4 on its long side at 150 dots to the inch")
	s.click(s.printer.paper, "copy-svg")
	assert.Contains(t, s.app.Clipboard().Content(), "<svg")
	assert.NotEqual(t, before, s.app.Clipboard().Content())

	s.opt.Clipboard = &copied{err: PictureNotTaken.At("")}
	s.commands.run("picture-copy")
	assert.Contains(t, texts(s.frame.status), "Nothing was copied: the desktop did not take the picture")
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
		{"button", func(s *seat) { s.click(s.frame.status, "stop") }},
		{"Escape", func(s *seat) { s.commands.namedKey(fyne.KeyEscape) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := sitAt(t, 1440, 900, example(t, "redirect"))
			s.commands.run("print")
			work := &held{}
			s.slow = work
			s.printer.export()
			s.choosing.Name.SetText(filepath.Join(s.home, "course.png"))
			s.keys("<Return>")
			require.Len(t, work.jobs, 1)
			s.refresh()
			assert.Contains(t, texts(s.frame.status), "Saving course.png …")
			c.stop(s)
			work.goOn()
			assert.Contains(t, texts(s.frame.status), "Stopped.")
			all, err := filepath.Glob(filepath.Join(s.home, "*.png"))
			require.NoError(t, err)
			assert.Empty(t, all)
			assert.NotNil(t, s.printer.now, "the page is still there")
			assert.Nil(t, s.long.going)
		})
	}
}

// Another choice stops the sheets that are being made for the one before.
func TestTheNewestSheetsAreMade(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	work := &held{}
	s.slow = work
	s.commands.run("print")
	s.click(s.printer.paper, "paper A3")
	require.GreaterOrEqual(t, len(work.jobs), 2)
	work.goOn()
	require.NotNil(t, s.printer.now.shownPage())
	assert.InDelta(t, 420, max(s.printer.now.shownPage().W, s.printer.now.shownPage().H), 1e-9, "A3 is 297 × 420 mm (ISO 216)")
	assert.NotContains(t, texts(s.frame.status), "Stopped.")
}

// A question that cannot be answered says why, and is taken out with a button.
func TestAQuestionThatCannotBeAnsweredIsTakenOut(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.commands.run("print")
	s.click(s.printer.list, "sheet exercise")
	s.click(s.printer.list, "sheet overview")
	require.NotNil(t, s.printer.now.shownPage())
	s.printer.now.opt.Questions = []exercise.Question{{Kind: exercise.AskAngle, Part: "B1"}, {Kind: exercise.AskAngle, Part: "K1"}}
	s.refresh()
	require.Nil(t, s.printer.now.shownPage())
	assert.Contains(t, texts(s.printer.page), "Question 2 cannot be answered from its page: no line turns there.")
	s.click(s.printer.page, "remove-question")
	require.NotNil(t, s.printer.now.shownPage())
	assert.Equal(t, []exercise.Question{{Kind: exercise.AskAngle, Part: "B1"}}, s.printer.now.opt.Questions)
}

// A blank that another figure gives away says so; that one is made a blank too.
func TestWhatGivesABlankAwayIsSaid(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.commands.run("print")
	s.click(s.printer.list, "sheet exercise")
	s.printer.blank("B1")
	s.refresh()
	require.NotEmpty(t, s.printer.now.booklet.Giveaways)
	assert.Contains(t, texts(s.printer.list), "gives the blank of Block 1")
	s.click(s.printer.list, "too T1")
	assert.Equal(t, []string{"B1", "T1"}, s.printer.now.opt.Blanks)
	for _, g := range s.printer.now.booklet.Giveaways {
		assert.NotEqual(t, "T1", g.Part)
	}
}

// Variants: what varies is chosen, never nothing; the first three are shown
// small; those drawn anew are counted.
func TestVariantsAreChosenAndShownSmall(t *testing.T) {
	s := sitAt(t, 1440, 1400, example(t, "redirect"))
	s.commands.run("print")
	s.click(s.printer.list, "sheet exercise")
	s.click(s.printer.list, "sheet overview")
	assert.Less(t, s.printer.list.Find("vary-mass 0"), 0, "nothing varies of the plan alone")
	s.click(s.printer.list, "variants 10")
	require.Len(t, s.printer.now.booklet.Variants, 10)
	first := s.printer.now.booklet.Variants[0].Site.Vehicles[1].At
	drawn := s.board.Plan()
	s.click(s.printer.list, "vary-place 0")
	s.click(s.printer.list, "vary-trunks 0")
	s.click(s.printer.list, "vary-turn 0")
	s.click(s.printer.list, "vary-slings 0")
	assert.NotEqual(t, first, s.printer.now.booklet.Variants[0].Site.Vehicles[1].At)
	for _, v := range s.printer.now.booklet.Variants {
		assert.Equal(t, drawn.Site.Vehicles[1].At, v.Site.Vehicles[1].At)
	}
	i := s.printer.list.Find("vary-mass 0")
	require.GreaterOrEqual(t, i, 0)
	assert.NotEmpty(t, s.printer.list.Hits[i].Why, "something has to vary")
	for v := 1; v <= 3; v++ {
		s.click(s.printer.list, "variant "+itoa(v))
		g := s.printer.now.shownPage()
		require.NotNil(t, g)
		assert.Equal(t, v, g.Variant)
		assert.Equal(t, sheet.Exercise, g.Kind)
	}
	assert.Less(t, s.printer.list.Find("variant 4"), 0)
	s.printer.now.booklet.Redrawn = 3
	s.refresh()
	assert.Contains(t, texts(s.printer.list), "3 variants were drawn anew")
}

// The flow of a handout by keys alone: tick, turn the pages, leave.
func TestSheetsByKeys(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.focusBoard()
	s.ctrl(fyne.KeyP)
	require.NotNil(t, s.printer.now)
	assert.Contains(t, texts(s.frame.status), "Page Up, Page Down")
	s.printer.list.Focus = "sheet overview"
	s.keys("<Space>")
	assert.False(t, s.printer.now.kinds[sheet.Overview])
	for s.printer.list.Focus != "sheet exercise" {
		was := s.printer.list.Focus
		s.keys("<Tab>")
		require.NotEqual(t, was, s.printer.list.Focus, "Tab goes on")
	}
	s.keys("<Return>")
	require.NotNil(t, s.printer.now.shownPage())
	assert.Equal(t, sheet.Exercise, s.printer.now.shownPage().Kind)
	for _, c := range []struct {
		key  fyne.KeyName
		want int
	}{{fyne.KeyPageUp, 0}, {fyne.KeyPageDown, 1}, {fyne.KeyEnd, len(s.printer.now.booklet.Pages) - 1}, {fyne.KeyPageDown, len(s.printer.now.booklet.Pages) - 1}, {fyne.KeyHome, 0}} {
		s.printer.list.TypedKey(&fyne.KeyEvent{Name: c.key})
		assert.Equal(t, c.want, s.printer.now.page, c.key)
	}
	s.keys("<Escape>")
	assert.Nil(t, s.printer.now)
}

// PNG is written as fine as chosen, SVG with its letters as outlines.
func TestFormatsAreChosen(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.commands.run("print")
	s.click(s.printer.paper, "fine")
	assert.Equal(t, "fine", s.menus.popup.menuShown())
	s.menus.popup.menu.Hide()
	s.printer.now.opt.DPI, s.printer.now.opt.SVGOutlines = 96, true
	s.refresh()
	data, err := s.printer.now.booklet.PNG(0, 0)
	require.NoError(t, err)
	img, err := png.DecodeConfig(bytes.NewReader(data))
	require.NoError(t, err)
	assert.Equal(t, 1123, img.Width, "297 mm at 96 dots an inch")
	svg, err := s.printer.now.booklet.SVG(0)
	require.NoError(t, err)
	assert.NotContains(t, string(svg), "<text")
}

// Leaving the page for the title block and coming back finds everything ticked
// as it was; the block is printed.
func TestTheTitleBlockIsReachedFromThePage(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.commands.run("print")
	s.click(s.printer.list, "sheet loads")
	s.click(s.printer.paper, "paper A3")
	s.click(s.printer.list, "title-block")
	assert.Nil(t, s.printer.now)
	assert.Equal(t, []plan.ID{form.ThingSheet}, s.board.Selection())
	require.True(t, s.details.set(form.ThingSheet, "title_block/school", "Curlew Moss wardens"))
	s.commands.run("print")
	require.NotNil(t, s.printer.now)
	assert.True(t, s.printer.now.kinds[sheet.Loads])
	assert.Equal(t, sheet.A3, s.printer.now.opt.Paper)
	require.NotNil(t, s.printer.now.shownPage())
	assert.Contains(t, s.printer.now.shownPage().Texts(), "Curlew Moss wardens")
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
	x, ok := s.pictures.excerpt(false)
	require.True(t, ok)
	assert.Same(t, s.board.Plan(), x.Plan)
	assert.Equal(t, travel.Whole(x.Plan, x.Rig), x.Answer)
	assert.NotEqual(t, s.answer().Move, x.Answer.Move, "the drag would change it")
}

// Sheets of a plan that has changed since are neither written nor copied while
// the new ones are made.
func TestSheetsOfAnOlderPlanAreNotWritten(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.commands.run("print")
	require.False(t, s.printer.now.stale())
	work := &held{}
	s.slow = work
	s.click(s.printer.paper, "paper A3")
	require.True(t, s.printer.now.stale())
	s.printer.export()
	assert.Nil(t, s.choosing, "nothing is asked for that would not be written")
	s.commands.namedKey(fyne.KeyEscape)
	assert.Nil(t, s.printer.now.shownPage(), "stopped: what was shown is of other paper")
	work.goOn()
	s.click(s.printer.paper, "paper A4")
	work.goOn()
	require.NotNil(t, s.printer.now.shownPage())
	assert.False(t, s.printer.now.stale())
}

// What is asked of an exercise is an edit of the plan: it makes the file unsaved, is
// undone and done again, comes back with the file, and is each rig's own.
func TestTheExerciseIsKeptInThePlan(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	kept := func() *plan.Exercise { r, _ := s.board.Plan().Rig(s.board.Rig()); return r.Exercise }
	before := s.board.Plan()
	s.commands.run("print")
	s.click(s.printer.list, "sheet exercise")
	require.Same(t, before, s.board.Plan(), "looking changes nothing")
	s.click(s.printer.list, "variants 10")
	s.click(s.printer.list, "variants more")
	s.click(s.printer.list, "variants more")
	s.click(s.printer.list, "variants fewer")
	require.NotNil(t, kept())
	assert.Equal(t, 11, kept().Variants, "ten, two more, one fewer")
	s.click(s.printer.list, "variants 1")
	s.printer.now.opt.Questions = []exercise.Question{{Kind: exercise.AskAngle, Part: "B1"}}
	s.refresh()
	assert.Equal(t, &plan.Exercise{Questions: []string{"angle:B1"}}, kept())
	assert.True(t, s.file.dirty(), "there is something to save")

	s.commands.run("undo")
	assert.Empty(t, s.printer.now.opt.Questions)
	assert.Nil(t, kept())
	s.commands.run("redo")
	assert.Len(t, s.printer.now.opt.Questions, 1)

	s = sitAt(t, 1440, 900, planFile(t, s.board.Plan()))
	s.commands.run("print")
	s.click(s.printer.list, "sheet exercise")
	assert.Equal(t, []exercise.Question{{Kind: exercise.AskAngle, Part: "B1"}}, s.printer.now.opt.Questions)
	s.board.ShowRig(s.board.Plan().Rigs[1].ID)
	s.refresh()
	assert.Empty(t, s.printer.now.opt.Questions)
	require.NotNil(t, s.board.Plan().Rigs[0].Exercise, "that of the first is kept")
}
