package window

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"kedge/canvas/words"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/canvas/panel"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/travel"
)

// written is a file in a folder of the test.
func written(t testing.TB, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, data, 0o644))
	return path
}

func pngOf(t testing.TB, w, h int) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, w, h))))
	return b.Bytes()
}

// drop drops files on the window.
func (s *seat) drop(paths ...string) {
	var list []fyne.URI
	for _, p := range paths {
		list = append(list, storage.NewFileURI(p))
	}
	s.dropped(fyne.NewPos(300, 300), list)
}

func (s *seat) type_(text string) {
	for _, r := range text {
		s.view.TypedRune(r)
	}
}

func (s *seat) named(k fyne.KeyName) { s.view.TypedKey(&fyne.KeyEvent{Name: k}) }

const trees = "name;east;north;height\nPine A;451203,1;612044,5;213,2\nPine B;451218,4;612051,0;211,5\nPine C;451226,0;612033,3;212,0\nGate;451210,6;612030,8;211,9\n"

// A photograph is dropped, two of its points and a length make it true to
// scale, and each step can be taken back.
func TestDropPicture(t *testing.T) {
	s := sitAt(t, 1440, 900, "")
	empty := s.board.Plan()
	s.drop(written(t, "moss.png", pngOf(t, 300, 200)))
	u := s.board.Plan().Site.Underlay
	require.NotNil(t, u)
	assert.Equal(t, "image/png", u.Type)
	assert.Equal(t, "moss.png", u.File)
	assert.Len(t, u.Original, 64, "the file's hash")
	assert.Contains(t, texts(s.frame.status), "moss.png placed.")
	assert.Contains(t, texts(s.frame.status), "not to scale yet")
	assert.Contains(t, texts(s.details.pane), "Scale the picture by two points")

	s.press(10, 10)
	s.press(20, 10)
	require.NotNil(t, s.board.Question())
	assert.Contains(t, texts(s.frame.asks), "How long is it between the two points?")
	s.type_("15 ± 0.5")
	s.named(fyne.KeyReturn)
	assert.Contains(t, texts(s.frame.asks), "Does the picture look straight down")
	s.click(s.frame.asks, "answer 0")
	scaled := s.board.Plan().Site.Underlay
	require.NotNil(t, scaled.Scaled)
	assert.InDelta(t, 15, float64(scaled.Scaled.Length), 1e-9)
	assert.InDelta(t, 0.5, float64(scaled.Scaled.Doubt), 1e-9)
	assert.InDelta(t, 1.5, scaled.Metres/u.Metres, 0.01, "a point is clicked to a pixel")

	s.click(s.details.pane, "fade 75")
	assert.InDelta(t, 0.75, s.board.Plan().Site.Underlay.Fade, 1e-12)
	s.click(s.details.pane, "picture.move")
	assert.Equal(t, board.ToolPictureMove, s.board.Tool())
	s.drag(12, 12, 15, 12)
	assert.InDelta(t, scaled.At.X+3, s.board.Plan().Site.Underlay.At.X, 0.05)
	s.click(s.details.pane, "picture.remove")
	assert.Nil(t, s.board.Plan().Site.Underlay)
	for range 5 {
		s.commands.run("undo")
	}
	assert.Same(t, empty, s.board.Plan())
}

func TestDropRefused(t *testing.T) {
	for _, c := range []struct {
		name, data, said string
	}{
		{"words.png", "no picture", "not a PNG or JPEG picture"},
		{"words.gpx", "<html></html>", "words.gpx"},
		{"empty.csv", "", "It is empty."},
		{"thing.pdf", "%PDF", "can be dropped here"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := sitAt(t, 1440, 900, "")
			was := s.board.Plan()
			s.drop(written(t, c.name, []byte(c.data)))
			assert.Contains(t, strings.ToLower(texts(s.frame.status)), strings.ToLower(strings.TrimPrefix(c.said, "It ")))
			assert.Same(t, was, s.board.Plan())
			assert.Nil(t, s.reading.now)
		})
	}
	t.Run("gone", func(t *testing.T) {
		s := sitAt(t, 1440, 900, "")
		s.drop(filepath.Join(t.TempDir(), "gone.jpg"))
		assert.Contains(t, texts(s.frame.status), "gone.jpg")
		s.drop(filepath.Join(t.TempDir(), "gone.gpx"))
		assert.Contains(t, texts(s.frame.status), "gone.gpx")
		assert.Nil(t, s.reading.now)
	})
}

// A list is shown as it was understood; nothing is edited until it is taken, and
// then as one step.
func TestReadSurvey(t *testing.T) {
	s := sitAt(t, 1440, 900, "")
	empty, view := s.board.Plan(), s.board.View()
	path := written(t, "trees.csv", []byte(trees))
	s.drop(path)
	require.NotNil(t, s.reading.now)
	said := texts(s.details.pane)
	for _, want := range []string{"trees.csv · CSV", "4 points · lines and areas: 0", "Parted by: semicolon", "Decimal sign: ,", "east, m", "height, m", "Pine A", "451203,1", "were taken off all coordinates"} {
		assert.Contains(t, said, want)
	}
	assert.Same(t, empty, s.board.Plan())
	require.NotNil(t, s.reading.result().Plan.Site.Survey)

	s.click(s.details.pane, "use anchors")
	assert.Contains(t, oneLine(s.details.pane), "Heights count from 211.5 m, the lowest point")
	assert.Contains(t, oneLine(s.details.pane), "no hold until they are entered")
	assert.Len(t, s.reading.result().Plan.Site.Anchors, 4)
	s.click(s.details.pane, "rises no")
	assert.Contains(t, texts(s.details.pane), "Heights are left out")
	s.click(s.details.pane, "rises yes")
	s.click(s.details.pane, "take")
	assert.Nil(t, s.reading.now)
	require.Len(t, s.board.Plan().Site.Anchors, 4)
	assert.InDelta(t, 1.7, float64(s.board.Plan().Site.Anchors[0].Rise), 1e-9, "213.2 over 211.5 m")
	assert.Equal(t, "Pine A", s.board.Plan().Site.Anchors[0].Name)
	assert.Contains(t, texts(s.frame.status), "Take 4 anchors from trees.csv")
	s.commands.run("undo")
	assert.Same(t, empty, s.board.Plan())

	s.board.SetView(view)
	s.drop(path)
	s.details.pane.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	assert.Nil(t, s.reading.now)
	assert.Same(t, empty, s.board.Plan())
	assert.Equal(t, view, s.board.View(), "dropped, the view is as before")

	s.drop(path)
	s.named(fyne.KeyEscape) // from the board too
	assert.Nil(t, s.reading.now)
}

// What cannot be done says why, and does nothing.
func TestReadSurveyThatIsNoOutline(t *testing.T) {
	s := sitAt(t, 1440, 900, "")
	was := s.board.Plan()
	s.drop(written(t, "two.csv", []byte("x,y\n1,2\n3,4\n")))
	s.click(s.details.pane, "use obstacles")
	assert.Contains(t, texts(s.details.pane), "at least three corners")
	s.click(s.details.pane, "take")
	assert.NotNil(t, s.reading.now)
	assert.Same(t, was, s.board.Plan())
}

// A column is read as another; a list that was not understood can be helped.
func TestReadSurveyWithOtherColumns(t *testing.T) {
	s := sitAt(t, 1440, 900, "")
	s.drop(written(t, "plain.csv", []byte("1,10,5\n2,20,6\n3,30,9\n")))
	require.NotNil(t, s.reading.now)
	require.NotNil(t, s.reading.now.res.Preview)
	c := s.reading.now.res.Preview.Columns
	s.reading.again(withRole(withRole(withRole(c, 0, "y"), 1, "x"), 2, "z"))
	require.NoError(t, s.reading.now.err)
	require.Len(t, s.reading.now.res.Points, 3)
	a, b := s.reading.now.res.Points[0], s.reading.now.res.Points[1]
	assert.InDelta(t, 10, b.X-a.X, 1e-9)
	assert.InDelta(t, 1, b.Y-a.Y, 1e-9)
	assert.InDelta(t, 1, float64(b.Z-a.Z), 1e-9)

	s.reading.again(withRole(s.reading.now.res.Preview.Columns, 0, "x")) // none is north any more
	require.Error(t, s.reading.now.err)
	assert.Contains(t, oneLine(s.details.pane), "Say which columns are east and north")
	assert.GreaterOrEqual(t, s.details.pane.Find("column 1"), 0, "the columns stay to be chosen")
	s.click(s.details.pane, "cancel")
	assert.Nil(t, s.reading.now)
}

func TestReadGPX(t *testing.T) {
	gpx := `<gpx version="1.1"><wpt lat="54.1" lon="-2.3"><ele>211</ele><name>Pine</name></wpt><trk><trkseg>` +
		`<trkpt lat="54.1001" lon="-2.3"/><trkpt lat="54.1001" lon="-2.2995"/><trkpt lat="54.1004" lon="-2.2995"/><trkpt lat="54.1004" lon="-2.3"/><trkpt lat="54.1001" lon="-2.3"/></trkseg></trk></gpx>`
	s := sitAt(t, 1440, 900, "")
	s.drop(written(t, "bog.gpx", []byte(gpx)))
	said := texts(s.details.pane)
	assert.Contains(t, said, "bog.gpx · GPX")
	assert.Contains(t, said, "Origin 54.1")
	assert.Contains(t, said, "Pine")
	assert.Equal(t, board.MeasuredEach, s.reading.now.use, "it has a point and an area")
	s.click(s.details.pane, "use anchors")
	assert.Contains(t, texts(s.details.pane), "Heights are left out", "a satellite receiver's heights count only if asked for")
	s.click(s.details.pane, "use obstacles")
	s.click(s.details.pane, "take")
	p := s.board.Plan()
	require.Len(t, p.Site.Obstacles, 1)
	assert.Len(t, p.Site.Obstacles[0].Outline, 4)
	require.NotNil(t, p.Site.Survey, "its origin is kept for the next file")
	assert.InDelta(t, 54.1, p.Site.Survey.LatDeg, 0.001)
	s.drop(written(t, "bog.gpx", []byte(gpx)))
	assert.Equal(t, p.Site.Survey.LatDeg, s.reading.now.res.OriginLat, "both lie about one origin")
}

// The chooser of pictures shows pictures, that of surveys surveys.
func TestChooserShowsWhatIsAskedFor(t *testing.T) {
	home := t.TempDir()
	s := sitIn(t, home, 1440, 900, "")
	for _, n := range []string{"a.png", "b.JPG", "c.gpx", "d.kedge", "e.csv"} {
		require.NoError(t, os.WriteFile(filepath.Join(home, n), []byte("x"), 0o644))
	}
	for _, c := range []struct {
		id         string
		with, less []string
	}{
		{"place-picture", []string{"a.png", "b.JPG"}, []string{"c.gpx", "d.kedge", "e.csv"}},
		{"place-survey", []string{"c.gpx", "e.csv"}, []string{"a.png", "d.kedge"}},
	} {
		s.commands.run(c.id)
		require.NotNil(t, s.choosing)
		s.choosing.Enter(home)
		said := texts(s.choosing.List)
		for _, n := range c.with {
			assert.Contains(t, said, n)
		}
		for _, n := range c.less {
			assert.NotContains(t, said, n)
		}
		s.choosing.Close()
	}
}

// A picture attached to a piece of evidence is in the plan, said in Details, chosen for
// another from there, and gone with the last piece that it shows.
func TestAttachAPictureToEvidence(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.commands.run("attach-photo")
	assert.Nil(t, s.choosing)
	assert.Contains(t, texts(s.frame.status), "Select a piece of evidence first.")
	p := s.board.Plan()
	p = plan.WithPin(plan.WithPin(p, 0, plan.Pin{ID: "A", Kind: plan.PinTag}), 0, plan.Pin{ID: "B", Kind: plan.PinTag})
	require.NoError(t, s.board.Replace(p))
	s.board.Select(plan.PinRef("A"))
	s.refresh()
	s.click(s.details.pane, "attach-photo")
	require.NotNil(t, s.choosing)
	s.choosing.Close()
	file := written(t, "tag.png", pngOf(t, 30, 20))
	s.pictures.attach(plan.PinRef("A"), file)
	require.Len(t, s.board.Plan().Photos, 1)
	q := s.board.Plan().Photos[0]
	assert.Equal(t, "tag.png", q.File)
	assert.Equal(t, q.Original, s.board.Plan().Rigs[0].Incident.Pins[0].Shows)
	assert.Contains(t, texts(s.details.pane), "tag.png · SHA-256 "+q.Original[:16], "it is seen")
	s.click(s.details.pane, foldRow+s.label("group-computed"))
	assert.Contains(t, strings.Join(strings.Fields(texts(s.details.pane)), ""), q.Original, "its hash")
	require.NoError(t, s.board.Set(plan.PinRef("B"), "picture", q.Original))
	s.pictures.attach(plan.PinRef("B"), file)
	assert.Len(t, s.board.Plan().Photos, 1, "one file is there once")
	require.Error(t, s.board.Set(plan.PinRef("B"), "picture", "no hash of any"))
	require.NoError(t, s.board.Set(plan.PinRef("A"), "picture", ""))
	assert.Len(t, s.board.Plan().Photos, 1)
	s.board.Select(plan.PinRef("B"))
	s.board.Handle(board.Command{ID: "delete"})
	assert.Empty(t, s.board.Plan().Photos)
	s.board.Undo()
	assert.Len(t, s.board.Plan().Photos, 1)
}

// Show, Picture to trace takes effect at once.
func TestShowPictureSwitch(t *testing.T) {
	s := sitAt(t, 1440, 900, "")
	s.drop(written(t, "moss.png", pngOf(t, 300, 200)))
	with := bytes.Clone(s.view.surface.Front.Pix)
	s.show.HideUnderlay = true
	s.refresh()
	assert.NotEqual(t, with, s.view.surface.Front.Pix)
	s.show.HideUnderlay = false
	s.refresh()
	assert.Equal(t, with, s.view.surface.Front.Pix)
}

// The figures of each rig are those of its own assessment.
func TestCompareRigs(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	before := s.board.Plan()
	s.commands.run("compare")
	require.NotNil(t, s.compare.now)
	said := texts(s.compare.pane)
	p, ws := s.board.Plan(), s.words()
	require.GreaterOrEqual(t, len(p.Rigs), 2)
	for i, r := range s.compare.rigs() {
		a := travel.Whole(p, p.Rigs[i].ID)
		assert.Contains(t, said, r.name)
		rows := map[string]string{}
		for _, row := range r.rows {
			rows[row.label] = row.text
		}
		if a.Move.Known {
			assert.Equal(t, ws.Load(a.Move.Tension), rows["compare-move"])
			assert.Equal(t, ws.Load(a.Stall.Tension), rows["compare-stall"])
			w := &a.Parts[a.Worst]
			assert.Contains(t, rows["compare-worst"], ws.UsedOf(w))
		} else {
			assert.Equal(t, "not computed", rows["compare-move"])
			assert.Equal(t, "not computed", rows["compare-stall"])
		}
		if n := words.CountLevels(a.Findings)[part.Danger]; n > 0 {
			assert.Contains(t, rows["compare-findings"], itoa(n)+" DANGER")
		}
		inside := 0
		for _, q := range a.People {
			if len(q.Inside) > 0 {
				inside++
			}
		}
		if len(a.Zones) > 0 {
			assert.True(t, strings.HasPrefix(plainText(rows["compare-people"]), fmt.Sprintf("%d of %d", inside, len(a.People))), rows["compare-people"])
		}
		kit := len(p.Rigs[i].Lines) + len(p.Rigs[i].Blocks) + len(p.Rigs[i].Slings) + len(p.Rigs[i].Shackles) + len(p.Rigs[i].Dampers)
		assert.True(t, strings.HasPrefix(rows["compare-kit"], itoa(kit)+":"), rows["compare-kit"])
		assert.Contains(t, said, rows["compare-kit"])
	}
	s.click(s.compare.pane, "compare "+string(p.Rigs[1].ID))
	assert.Nil(t, s.compare.now)
	assert.Equal(t, p.Rigs[1].ID, s.board.Rig())

	s.commands.namedKey(fyne.KeyF4)
	require.NotNil(t, s.compare.now)
	s.compare.pane.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	assert.Nil(t, s.compare.now)
	assert.Equal(t, fyne.Focusable(s.view), s.win.Canvas().Focused())
	s.commands.run("compare")
	s.click(s.frame.tabs, "rig "+string(p.Rigs[0].ID))
	assert.Nil(t, s.compare.now, "a tab shows its rig")
	assert.Same(t, before, s.board.Plan(), "looking edits nothing")
}

// oneLine is what a panel shows as one line.
func oneLine(p *panel.Pane) string { return plainText(strings.ReplaceAll(texts(p), "\n", " ")) }

func plainText(s string) string { return quantity.PlainSpaces(s) }

// A rig of which nothing was computed is not praised: no zones is not nobody
// inside, no worst part is not none.
func TestCompareSaysWhatWasNotComputed(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.commands.run("rig.new")
	list := s.compare.rigs()
	last := list[len(list)-1]
	rows := map[string]string{}
	for _, r := range last.rows {
		rows[r.label] = r.text
	}
	require.NotEmpty(t, s.board.Plan().Site.People)
	assert.Equal(t, "no zones computed", rows["compare-people"])
	assert.Equal(t, "not computed", rows["compare-worst"])
	assert.Equal(t, "not computed", rows["compare-move"])
	assert.Equal(t, "no line", rows["compare-line"])
	assert.Equal(t, "0", rows["compare-kit"])
}

// Every figure is in sight or can be scrolled to, in every look and size.
func TestCompareInEveryLook(t *testing.T) {
	for _, c := range []struct {
		wide, high  float32
		dark, field bool
		columns     int
	}{
		{1440, 900, false, false, 2}, {1440, 900, true, false, 2}, {1024, 640, false, false, 2}, {1024, 640, false, true, 2}, {640, 480, false, true, 1},
	} {
		t.Run(fmt.Sprint(c.wide, "x", c.high, " dark ", c.dark, " field ", c.field), func(t *testing.T) {
			s := sitAt(t, c.wide, c.high, example(t, "redirect"))
			s.setLook(c.dark, c.field)
			s.commands.run("compare")
			require.True(t, s.compare.pane.Scroll.Visible())
			require.Len(t, s.compare.now.pictures, 2)
			rows := map[float64]int{}
			for _, h := range s.compare.pane.Hits {
				assert.LessOrEqual(t, h.X1, float64(s.compare.pane.Size().Width)+4, h.ID)
				assert.GreaterOrEqual(t, h.X0, 0.0, h.ID)
				assert.LessOrEqual(t, h.Y1, float64(s.compare.pane.Tall), h.ID)
				if strings.HasPrefix(h.ID, "compare ") {
					rows[h.Y0]++
				}
			}
			for _, n := range rows {
				assert.Equal(t, c.columns, n, "rigs beside one another")
			}
			for _, want := range []string{"at the winch, at stall", "pieces of kit", "Press a rig"} {
				assert.Contains(t, strings.ReplaceAll(texts(s.compare.pane), "\n", " "), strings.Fields(want)[0])
			}
		})
	}
}

// The small pictures are drawn again only when something in them has changed.
func TestComparePicturesAreKept(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.commands.run("compare")
	first := map[string]*smallPicture{}
	for id, p := range s.compare.now.pictures {
		first[id] = p
	}
	s.refresh()
	for id, p := range s.compare.now.pictures {
		assert.Same(t, first[id], p)
	}
	s.setLook(true, false)
	for id, p := range s.compare.now.pictures {
		assert.NotSame(t, first[id], p)
		assert.NotEqual(t, first[id].img.Pix, p.img.Pix)
	}
}

// A tab pressed twice has its name typed.
func TestTabPressedTwiceRenames(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	now := time.Date(2026, 5, 1, 9, 0, 0, 0, time.UTC)
	s.opt.Now = func() time.Time { return now }
	id := "rig " + string(s.board.Plan().Rigs[0].ID)
	s.click(s.frame.tabs, id)
	assert.Nil(t, s.details.entry)
	now = now.Add(time.Second)
	s.click(s.frame.tabs, id)
	assert.Nil(t, s.details.entry, "too slow")
	s.click(s.frame.tabs, id)
	require.NotNil(t, s.details.entry)
	assert.Equal(t, "name", s.details.entry.at().member)
	s.details.entry.SetText("Over the pine")
	s.details.submitEntry(false)
	assert.Equal(t, "Over the pine", s.board.Plan().Rigs[0].Name)
	assert.Contains(t, texts(s.frame.tabs), "Over the pine")
}

// Rigs are made, copied, moved and deleted from the menu, each in one step.
func TestRigMenu(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	was := s.board.Plan()
	order := func() (ids []plan.ID) {
		for _, r := range s.board.Plan().Rigs {
			ids = append(ids, r.ID)
		}
		return ids
	}
	first, second := order()[0], order()[1]
	s.commands.run("rig.right")
	assert.Equal(t, []plan.ID{second, first}, order())
	s.commands.run("rig.left")
	assert.Equal(t, []plan.ID{first, second}, order())
	s.commands.run("rig.duplicate")
	assert.Len(t, order(), 3)
	s.commands.run("rig.new")
	assert.Len(t, order(), 4)
	s.commands.run("rig.delete")
	assert.Len(t, order(), 3)
	var labels []string
	for _, i := range s.menus.of("rig") {
		labels = append(labels, i.Label)
	}
	for _, want := range []string{"New rig", "Copy this rig", "Rename", "Delete", "left", "right"} {
		assert.True(t, strings.Contains(strings.Join(labels, "\n"), want), "%s in %v", want, labels)
	}
	for range 5 {
		s.commands.run("undo")
	}
	assert.Same(t, was, s.board.Plan())
}

// Without a picture the menu says why nothing can be done with it.
// Each tool with a key of its own is in the menu that places things.
func TestPlaceMenuHasTheTools(t *testing.T) {
	s := sitAt(t, 1440, 900, "")
	var labels []string
	for _, i := range s.menus.of("place") {
		labels = append(labels, i.Label)
	}
	said := strings.Join(labels, "\n")
	n := 0
	for _, e := range s.board.Commands() {
		if strings.HasPrefix(e.ID, "tool.") && len(e.Shortcut) == 1 {
			n++
			assert.Contains(t, said, e.Label)
		}
	}
	assert.GreaterOrEqual(t, n, 13)
}

func TestTraceMenuSaysWhyNot(t *testing.T) {
	s := sitAt(t, 1440, 900, "")
	disabled := 0
	for _, m := range s.menus.tracing() {
		if m.ChildMenu == nil {
			continue
		}
		for _, i := range m.ChildMenu.Items {
			if i.Disabled {
				disabled++
				assert.Contains(t, i.Label, "There", i.Label)
			}
		}
	}
	assert.Equal(t, 8, disabled)
}
