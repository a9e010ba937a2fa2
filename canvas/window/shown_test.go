package window

import (
	"os"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/panel"
	"kedge/canvas/pen"
	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// A danger that was not there before leaves what is being read where it is; the verdict says
// that there is one out of sight, and leads to it.
func TestNewDangerMovesNothingThatIsRead(t *testing.T) {
	s := sitAt(t, 1440, 760, example(t, "redirect"))
	was := map[string]bool{}
	for _, f := range s.answer().Findings {
		was[f.Key()] = true
	}
	s.findings.pane.Scroll.ScrollToBottom()
	require.Positive(t, s.findings.pane.Scroll.Offset.Y, "the list is longer than its room")
	s.refresh()
	require.Positive(t, s.findings.pane.Scroll.Offset.Y, "nothing new: it stays where it was left")
	s.click(s.loads.pane, "plan-on "+plan.PlanLikely) // another resistance, not a new danger of its own accord
	s.commands.run("tool.person")
	pane := s.findings.pane
	topmost := func() (string, float64) {
		i := slices.IndexFunc(pane.Hits, func(h panel.Hit) bool { return h.Y0 >= float64(pane.Scroll.Offset.Y) })
		require.GreaterOrEqual(t, i, 0)
		return pane.Hits[i].ID, pane.Hits[i].Y0 - float64(pane.Scroll.Offset.Y)
	}
	read, y := "", 0.0
	bight := s.answer().Nodes
	require.NotEmpty(t, bight)
	for _, n := range bight {
		if s.board.Plan().Rigs[0].Blocks[0].ID == n.Thing {
			s.findings.pane.Scroll.ScrollToBottom()
			read, y = topmost()
			assert.NotContains(t, texts(s.frame.verdict), s.label("new-danger"))
			s.press(n.At.X-1.5, n.At.Y-1.5)
		}
	}
	fresh := ""
	for _, f := range s.answer().Findings {
		if f.Level == part.Danger && !was[f.Key()] {
			fresh = f.Key()
			break
		}
	}
	require.NotEmpty(t, fresh, "somebody stands in the bight")
	still, at := topmost()
	assert.Equal(t, read, still)
	assert.InDelta(t, y, at, 0.01)
	i := pane.Find("finding " + fresh)
	require.False(t, pane.InSight(i), "it is above what is read")
	assert.Contains(t, texts(s.frame.verdict), s.label("new-danger"))
	s.click(s.frame.verdict, "more")
	assert.True(t, pane.InSight(i))
	assert.NotContains(t, texts(s.frame.verdict), s.label("new-danger"))
}

// What Details shows of members with no value of their own, by names, and by
// boxes to tick.
func TestDetailsSayWhatCounts(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	show := func(id plan.ID) string {
		s.board.Select(id)
		s.refresh()
		s.unfoldDetails()
		return texts(s.details.pane)
	}
	p := s.board.Plan()
	v := p.Casualty()
	require.NotNil(t, v)
	shown := show(v.ID)
	assert.Contains(t, shown, "= "+s.label("plan-high"))
	for _, i := range []int{s.details.pane.Find("field locked"), s.details.pane.Find("field hidden")} {
		require.GreaterOrEqual(t, i, 0)
		h := s.details.pane.Hits[i]
		for _, m := range s.details.pane.Record.Marks {
			if m.Text == "no" && m.Y > h.Y0 && m.Y < h.Y1 && m.X > h.X0 {
				t.Errorf("%s is a box to tick, not a word", h.ID)
			}
		}
	}

	l := p.Rigs[0].Lines[0]
	shown = show(l.ID)
	for _, port := range l.Path {
		assert.NotContains(t, shown, port.String()+";", "by its name")
	}
	assert.Contains(t, shown, s.names()(p.Rigs[0].Blocks[0].ID))
}

func TestNameProposesWhatTheThingIsCalled(t *testing.T) {
	s := sitAt(t, 1440, 900, "")
	s.rig()
	b := s.board.Plan().Rigs[0].Blocks[0]
	require.Empty(t, b.Name)
	s.board.Select(b.ID)
	s.refresh()
	i := s.details.pane.Find("field name")
	require.GreaterOrEqual(t, i, 0)
	h, called := s.details.pane.Hits[i], s.names()(b.ID)
	require.NotEmpty(t, called)
	found := false
	for _, m := range s.details.pane.Record.Marks {
		found = found || m.Text == called && m.Y > h.Y0 && m.Y < h.Y1 && m.X > h.X0
	}
	assert.True(t, found, "%q stands in the field", called)
	s.click(s.details.pane, "field name")
	assert.Equal(t, called, s.details.entry.PlaceHolder)
	assert.Empty(t, s.details.entry.Text, "it is no name that was given")
}

// The 100 % line stands beside the bars: through no text of the table.
func TestHundredPercentLineGoesThroughNoText(t *testing.T) {
	for _, field := range []bool{false, true} {
		s := sitAt(t, 1440, 900, example(t, "redirect"))
		if field {
			s.commands.run("field")
		}
		x := -1.0
		for _, m := range s.loads.pane.Record.Marks {
			if m.Text == "100 %" && m.Type.Anchor == pen.Middle {
				x = m.X
			}
		}
		require.Positive(t, x)
		for _, m := range s.loads.pane.Record.Marks {
			if m.Text != "" || m.Style.Stroke.A == 0 {
				continue
			}
			box := m.Path.Bounds()
			if box.IsEmpty() || box.X.Length() > 3 || x < box.X.Lo-1 || x > box.X.Hi+1 { // another stroke
				continue
			}
			for _, n := range s.loads.pane.Record.Marks {
				if n.Text == "" || n.Text == "100 %" {
					continue
				}
				w := panel.Width(n.Text, n.Type)
				x0 := n.X
				if n.Type.Anchor == pen.End {
					x0 -= w
				}
				if x0 < x && x < x0+w {
					assert.False(t, n.Y > box.Y.Lo && n.Y < box.Y.Hi, "through %q", n.Text)
				}
			}
		}
	}
}

// The question of the board and the sum under the pointer leave the scale bar
// in sight.
func TestQuestionLeavesTheScaleBar(t *testing.T) {
	s := sitAt(t, 1440, 900, "")
	s.focusBoard()
	s.keys("v")
	s.press(5.5, 8.5)
	require.NotNil(t, s.board.Question())
	s.refresh()
	require.True(t, s.frame.asks.Visible())
	foot := s.view.Position().Y + s.view.Size().Height
	assert.LessOrEqual(t, s.frame.asks.Position().Y+s.frame.asks.Size().Height, foot-43, "draw keeps 43 px of its foot for the scale bar")
}

// The list can be filtered by level and to what is selected; it says how much is
// left out, and a danger that was not there before is never left out.
func TestFindingsAreSifted(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	listed := func() (levels map[part.Level]int) {
		levels = map[part.Level]int{} // of the cards
		for _, c := range words.Cards(s.answer().Findings) {
			if s.findings.pane.Find("finding "+s.answer().Findings[c.Of[0]].Key()) >= 0 {
				levels[c.Level]++
			}
		}
		return levels
	}
	all := listed()
	require.Positive(t, all[part.Danger])
	require.Positive(t, all[part.Caution])
	verdict := texts(s.frame.verdict)
	require.NotContains(t, texts(s.findings.pane), "not listed")

	s.click(s.findings.pane, "filter "+s.words().Level(part.Caution))
	some := listed()
	assert.Zero(t, some[part.Caution])
	assert.Equal(t, all[part.Warning], some[part.Warning])
	assert.Contains(t, texts(s.findings.pane), itoa(words.CountLevels(s.answer().Findings)[part.Caution])+" not listed")
	assert.Equal(t, verdict, texts(s.frame.verdict), "the verdict is of all findings")
	s.click(s.findings.pane, "filter all")
	assert.Equal(t, all, listed())

	// the selection, and what is about it
	tree := s.board.Plan().Site.Anchors[0].ID
	s.board.Select(tree)
	s.refresh()
	s.click(s.findings.pane, "filter selected")
	for i := range s.answer().Findings {
		f := &s.answer().Findings[i]
		assert.Equal(t, slices.Contains(f.Things, tree), s.findings.pane.Find("finding "+f.Key()) >= 0, f.Key())
	}
	s.click(s.findings.pane, "filter all")

	// a danger that is new lists all again
	s.click(s.findings.pane, "filter "+s.words().Level(part.Danger))
	require.Zero(t, listed()[part.Danger])
	before := len(s.answer().Findings)
	s.focusBoard()
	s.keys("<Escape>", "p", "p")
	s.press(18, 12)
	require.Greater(t, len(s.answer().Findings), before)
	s.refresh()
	assert.Greater(t, listed()[part.Danger], all[part.Danger], "all dangers are listed again")
	assert.NotContains(t, texts(s.findings.pane), "not listed")
}

// No name in the table is cut: in a narrow panel and another language two parts
// would look alike.
func TestLoadsCutNoName(t *testing.T) {
	for _, lang := range words.Languages() {
		t.Run(lang, func(t *testing.T) {
			s := sitAt(t, 1200, 800, example(t, "redirect"))
			w, err := words.New(lang, s.words().System())
			require.NoError(t, err)
			s.board.SetWords(w)
			s.refresh()
			shown := strings.Join(strings.Fields(texts(s.loads.pane)), " ")
			names := s.words().Naming(s.answer(), s.names())
			for i := range s.answer().Parts {
				name := s.words().PartName(&s.answer().Parts[i], names)
				assert.Contains(t, shown, strings.Join(strings.Fields(name), " "))
			}
		})
	}
}

// A first start speaks the desktop's language, if it is there; a language that
// was chosen stays.
func TestTheFirstLanguageIsTheDesktops(t *testing.T) {
	for locale, want := range map[string]string{"de_DE.UTF-8": "de", "de": "de", "en_GB": "en", "en_US.UTF-8": "en-US", "de_AT@euro": "de", "C": "en", "C.UTF-8": "en", "fr_FR.UTF-8": "en"} {
		t.Run(locale, func(t *testing.T) {
			s := sitAt(t, 800, 600, "")
			t.Setenv("LC_ALL", locale)
			w, err := New(s.app, Options{Worker: inline{}, Store: s.store, Now: s.opt.Now})
			require.NoError(t, err)
			assert.Equal(t, want, w.words().Lang())
			w.file.end()
			w.win.Close()
		})
	}
}

// A locale of no language is named as the window toolkit knows it: of C.UTF-8 it would
// complain on standard error. One of a language stays.
func TestALocaleOfNoLanguageIsQuiet(t *testing.T) {
	for given, want := range map[string]string{"C.UTF-8": "C", "C": "C", "POSIX": "POSIX", "de_DE.UTF-8": ""} {
		t.Setenv("LC_ALL", "")
		t.Setenv("LC_MESSAGES", "")
		t.Setenv("LANG", given)
		QuietLocale()
		assert.Equal(t, want, os.Getenv("LC_ALL"), given)
	}
	t.Setenv("LC_ALL", "de_DE.UTF-8")
	QuietLocale()
	assert.Equal(t, "de_DE.UTF-8", os.Getenv("LC_ALL"))
}

// The key of the field look goes there and back, from the board and from a panel.
func TestTheFieldKeyGoesBack(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	for _, at := range []fyne.Focusable{s.view, s.loads.pane} {
		s.win.Canvas().Focus(at)
		s.keys("<F2>")
		assert.True(t, s.look().Field)
		s.keys("<F2>")
		assert.False(t, s.look().Field)
	}
}

// The rail arms the tool that turns things about a point; a quarter turn about
// (20, 10) takes (24, 19.5) to (29.5, 6).
func TestTurningAboutAPointFromTheRail(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.board.Select("T1")
	was := s.board.Plan().Site.Anchors[0]
	require.Equal(t, plan.Point{X: 24, Y: 19.5}, was.At)
	s.click(s.frame.rail, "tool turn")
	s.press(20, 10)
	s.drag(26, 10, 20, 4)
	assert.Equal(t, plan.Point{X: 29.5, Y: 6}, s.board.Plan().Site.Anchors[0].At)
	s.ctrl(fyne.KeyZ)
	assert.Equal(t, was, s.board.Plan().Site.Anchors[0])
}

// What a limit rests on is never cut, nor what the resistance does: in a narrow panel, in
// any language, with a part that is over its limit to break loose it goes on in the next line.
func TestLoadsCutNoBasis(t *testing.T) {
	broken := tiedFile(t, func(p *plan.Plan) { p.Rigs[0].Lines[0].Rating.Force = 40e3 }) // 15.3 kN of it count, 15.4 are asked
	for _, lang := range words.Languages() {
		for _, file := range [...]string{broken, example(t, "redirect")} {
			s := sitAt(t, 1024, 640, file)
			w, err := words.New(lang, s.words().System())
			require.NoError(t, err)
			s.board.SetWords(w)
			s.shell.showPanel("loads")
			s.refresh()
			shown := flat(s.loads.pane)
			assert.NotContains(t, shown, "…", lang)
			table := s.words().Loads(s.answer(), s.names(), words.ColumnUsed)
			for i := range table.Rows {
				assert.Contains(t, shown, strings.Join(strings.Fields(table.Rows[i].Cells[words.ColumnBasis]), " "), lang)
			}
		}
	}
}

// A row tells the worst over the pull, and behind it the load now where that is another: as
// its tag does.
func TestLoadsTellTheLoadNow(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	id := s.answer().Parts[s.answer().Worst].ID
	worst, ok := s.answer().Part(id)
	require.True(t, ok)
	require.Positive(t, worst.AtM)
	start, ok := s.board.Pull().Moments[0].Assessment.Part(id)
	require.True(t, ok)
	figure := s.words().LoadFigure(start.Move)
	require.NotEqual(t, s.words().LoadFigure(worst.Move), figure)
	now := s.label("draw-now", part.Text("load", figure))
	assert.Contains(t, flat(s.loads.pane), now)
	s.travel.show(worst.AtM)
	assert.NotContains(t, flat(s.loads.pane), now, "the picture shows the worst")
}
