package window

import (
	"math"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/draw"
	"kedge/canvas/panel"
	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/travel"
)

func TestLoadsAreThoseOfTheSolver(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	a := travel.Whole(s.board.Plan(), s.board.Rig())
	require.NotEmpty(t, a.Parts)
	shown := texts(s.loads.pane)
	ws, names := s.words(), s.words().Naming(a, s.names())
	rows := 0
	table := ws.Loads(a, names, words.ColumnUsed)
	require.Len(t, table.Rows, len(a.Parts))
	for i := range table.Rows {
		r := &table.Rows[i]
		p := r.Part
		require.GreaterOrEqual(t, s.loads.pane.Find("part "+p.ID), 0, "%s has no row", p.ID)
		rows++
		move, limit := figureOf(r, words.ColumnMove), figureOf(r, words.ColumnLimit)
		if p.Move.Known { // loads are rounded up, so a shown figure is never below the solver's
			assert.Contains(t, shown, move, p.ID)
			assert.True(t, strings.HasPrefix(ws.Load(p.Move.Force), move), "%s: %s of %s", p.ID, move, ws.Load(p.Move.Force))
		} else {
			assert.Equal(t, "–", move, "%s: not known is no figure", p.ID)
		}
		if p.Limit.Known {
			assert.Contains(t, shown, limit, p.ID)
		} else {
			assert.Equal(t, "?", limit, p.ID)
		}
		if p.Known() {
			assert.Contains(t, shown, ws.UsedOf(p), p.ID)
		}
	}
	n := 0
	for _, h := range s.loads.pane.Hits {
		if strings.HasPrefix(h.ID, "part ") {
			n++
		}
	}
	assert.Equal(t, rows, n, "a row a part")
	assert.Contains(t, shown, "HIGH "+bare(ws.Load(a.Resistance.High)))
}

func TestLoadsAreSorted(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	first := func() string {
		for _, h := range s.loads.pane.Hits {
			if id, ok := strings.CutPrefix(h.ID, "part "); ok {
				return id
			}
		}
		return ""
	}
	a := s.answer()
	most := 0.0
	for i := range a.Parts {
		if p := &a.Parts[i]; p.Known() {
			most = max(most, p.Most())
		}
	}
	p, ok := a.Part(first())
	require.True(t, ok)
	assert.True(t, !p.Known() || p.Most() == most, "the most used, or what is not known, comes first")
	s.click(s.loads.pane, "sort move")
	p, ok = a.Part(first())
	require.True(t, ok)
	for i := range a.Parts {
		if q := &a.Parts[i]; q.Move.Known {
			assert.LessOrEqual(t, float64(q.Move.Force), float64(p.Move.Force), q.ID)
		}
	}
}

// What is refused has no figure anywhere in its row, and leads the table.

func TestRefusedRowsHaveNoFigures(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	i := s.board.Plan().RigIndex("R1")
	for _, tab := range s.board.Tabs() {
		if strings.Contains(tab.Text, "refused") {
			s.click(s.frame.tabs, "rig "+string(tab.Rig))
			i = s.board.Plan().RigIndex(tab.Rig)
		}
	}
	require.GreaterOrEqual(t, i, 0)
	a := s.answer()
	require.Equal(t, part.Refused, a.Status)
	names := s.words().Naming(a, s.names())
	seen := 0
	table := s.words().Loads(a, names, words.ColumnUsed)
	for i := range table.Rows {
		r := &table.Rows[i]
		if r.Part.Status != part.Refused {
			continue
		}
		seen++
		assert.Equal(t, "–", figureOf(r, words.ColumnMove), r.Part.ID)
		assert.Equal(t, "–", figureOf(r, words.ColumnLimit), "%s: it may have a tag", r.Part.ID)
		assert.Equal(t, "refused", figureOf(r, words.ColumnUsed), r.Part.ID)
		assert.NotEmpty(t, r.Reason, r.Part.ID)
	}
	require.Positive(t, seen)
	assert.Contains(t, texts(s.loads.pane), "refused")
	assert.NotContains(t, texts(s.loads.pane), "\n0.0\n", "not computed is never zero")
}

func TestFindingsAreCards(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	a := s.answer()
	require.NotEmpty(t, a.Findings)
	shown := strings.Join(strings.Fields(texts(s.findings.pane)), " ")
	names := s.words().Naming(a, s.names())
	for _, f := range a.Findings {
		require.GreaterOrEqual(t, s.findings.pane.Find("finding "+f.Key()), 0, f.Key())
	}
	cards := words.Cards(a.Findings)
	assert.Contains(t, shown, "Findings "+itoa(len(cards))+" ")
	for i, c := range cards {
		card := s.words().Card(c, a.Findings, names)
		assert.Contains(t, shown, strings.Join(strings.Fields(itoa(i+1)+" · "+card.Title+" "+strings.Join(card.Texts(), " ")), " "))
	}
	f := a.Findings[0]
	s.click(s.findings.pane, "finding "+f.Key())
	assert.Equal(t, f.Things[0], s.board.Selection()[0])
	assert.Equal(t, f.Key(), s.overlay().Flagged)
	level, has, _, more := s.words().Verdict(a, s.names())
	require.True(t, has)
	assert.Contains(t, texts(s.frame.verdict), s.words().Level(level))
	assert.Contains(t, texts(s.frame.verdict), itoa(more)+" more")
}

// rig draws the redirect of the example, from an empty sheet.

func (s *seat) rig() {
	s.focusBoard()
	s.keys("v")
	s.press(5.5, 8.5)
	s.keys("2450", "<Tab>", "h", "<Return>")
	s.press(32.5, 7.5)
	s.keys("o")
	for _, c := range [][2]float64{{16.5, 6.5}, {19, 6}, {21, 7.5}, {20.5, 10}, {18, 11}, {16, 9}} {
		s.press(c[0], c[1])
	}
	s.keys("<Return>", "a")
	s.press(24, 19.5)
	s.keys("145", "<Tab>", "48", "<Return>", "l")
	s.drag(29.95, 7.60, 8.1, 8.5)
	s.drag(23, 7.9, 24, 19.3)
}

func TestRemedyIsOneUndoStep(t *testing.T) {
	s := sitAt(t, 1440, 900, "")
	s.rig()
	require.Len(t, s.board.Plan().Rigs[0].Blocks, 1)
	before := s.board.Plan()
	id := ""
	for _, h := range s.findings.pane.Hits {
		if strings.HasSuffix(h.ID, "/turn-vehicle") && h.Why == "" {
			id = h.ID
		}
	}
	require.NotEmpty(t, id, "%v", ids(s.findings.pane))
	s.click(s.findings.pane, id)
	require.NotSame(t, before, s.board.Plan())
	// The line keeps its place: the vehicle turns about its fairlead. Reference:
	// the design's drawing of this rig, bearing 450° − 119.8°.
	assert.InDelta(t, 450-119.8, float64(s.board.Plan().Site.Vehicles[1].Bearing), 1)
	s.ctrl(fyne.KeyZ)
	assert.Same(t, before, s.board.Plan())
}

// A remedy that cannot be done says why instead.

func TestRemedyThatCannotBeDoneSaysWhy(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	before := s.board.Plan()
	for _, h := range s.findings.pane.Hits {
		if strings.HasSuffix(h.ID, "/tie-back") {
			s.click(s.findings.pane, h.ID)
			assert.Same(t, before, s.board.Plan(), "the one tree behind stands too far aside")
			require.Contains(t, h.Why, "No anchor stands behind")
			return
		}
	}
	t.Fatal("the example has no such finding")
}

func TestDetailsEditThePlan(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	v := s.board.Plan().Casualty()
	s.board.Select(v.ID)
	s.refresh()
	require.True(t, s.details.pane.Scroll.Visible())
	s.click(s.details.pane, "field mass_kg")
	require.NotNil(t, s.details.entry)
	assert.Equal(t, fyne.Focusable(s.details.entry.Entry), s.focused())
	s.details.entry.SetText("2,7 t")
	s.keys("<Return>")
	assert.InDelta(t, 2700, float64(s.board.Plan().Casualty().Mass), 1e-9)
	assert.Nil(t, s.details.entry)

	s.click(s.details.pane, "field mass_kg")
	s.details.entry.SetText("2.500")
	s.keys("<Return>")
	require.NotNil(t, s.details.entry, "a refused text stays where it was typed")
	assert.Equal(t, "2.500", s.details.entry.Text)
	assert.NotEmpty(t, s.details.entry.where.fault)
	assert.InDelta(t, 2700, float64(s.board.Plan().Casualty().Mass), 1e-9)
	s.keys("<Escape>")
	assert.Nil(t, s.details.entry)

	s.focusBoard()
	s.ctrl(fyne.KeyZ)
	assert.InDelta(t, float64(v.Mass), float64(s.board.Plan().Casualty().Mass), 1e-9)
}

// Ctrl+Z in a field takes back what was typed there, not an edit of the plan.

func TestUndoInAFieldIsTheFields(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.board.Select(s.board.Plan().Casualty().ID)
	s.refresh()
	s.click(s.details.pane, "field mass_kg")
	s.details.entry.SetText("3000")
	s.keys("<Return>")
	edited := s.board.Plan()
	s.click(s.details.pane, "field mass_kg")
	s.keys("1")
	s.ctrl(fyne.KeyZ)
	assert.Same(t, edited, s.board.Plan())
}

func TestResistanceIsChosenInLoads(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.click(s.loads.pane, "plan-on "+plan.PlanLikely)
	assert.Equal(t, plan.PlanLikely, s.answer().Resistance.PlanOn)
	assert.Contains(t, texts(s.frame.verdict), "PLANNED FOR LIKELY")
	assert.Contains(t, texts(s.loads.pane), "PLANNED FOR LIKELY")
	s.click(s.loads.pane, "plan-on "+plan.PlanHigh)
	assert.Equal(t, plan.PlanHigh, s.answer().Resistance.PlanOn)
	assert.NotContains(t, texts(s.frame.verdict), "PLANNED FOR LIKELY")
}

func TestSumIsShownAndPinned(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	a := s.answer()
	p := a.Parts[a.Worst]
	derivation, err := travel.Explain(a, s.board.Plan(), s.board.Rig(), p.ID)
	require.NoError(t, err)
	lines := s.words().Derivation(derivation, s.words().Naming(a, s.names()))
	require.NotEmpty(t, lines)
	last := strings.Join(strings.Fields(lines[len(lines)-1]), " ")

	s.loads.pane.Point("part " + p.ID)
	require.True(t, s.why.pane.Visible())
	assert.Contains(t, strings.Join(strings.Fields(texts(s.why.pane)), " "), last)
	s.loads.pane.Point("")
	assert.False(t, s.why.pane.Visible())

	s.win.Canvas().Focus(s.loads.pane)
	s.loads.pane.Focus = "part " + p.ID
	s.keys("?")
	assert.Contains(t, flat(s.loads.pane), last)
	assert.False(t, s.why.pane.Visible(), "it stands in the row already")
	s.click(s.loads.pane, "fold part "+p.ID)
	assert.NotContains(t, flat(s.loads.pane), last)
}

func TestEverythingFromTheKeyboard(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.focusBoard()
	seen := map[fyne.Focusable]bool{}
	for range 12 {
		seen[s.focused()] = true
		s.keys("<F6>")
	}
	for _, p := range []*panel.Pane{s.frame.rail, s.frame.tabs, s.frame.verdict, s.findings.pane, s.loads.pane, s.frame.menu} {
		assert.True(t, seen[p], "F6 does not reach %s", p.Name)
	}
	s.win.Canvas().Focus(s.frame.rail)
	s.keys("<Down>", "<Return>")
	assert.NotEmpty(t, s.board.Tool(), "the second tool was armed")
	assert.Equal(t, fyne.Focusable(s.view), s.focused())
	s.keys("<Escape>")
	assert.Empty(t, s.board.Tool())
	s.keys("a")
	assert.Equal(t, "anchor", string(s.board.Tool()))
	s.keys("<Escape>")

	rig := s.board.Rig()
	s.ctrl(fyne.KeyTab)
	assert.NotEqual(t, rig, s.board.Rig())

	s.keys("<F2>")
	assert.True(t, s.field)
	s.keys("<F2>")
	assert.False(t, s.field)
	assert.False(t, s.show.HideGrid, "the grid is back")
	s.keys("<F1>")
	require.NotNil(t, s.asking)
	assert.Contains(t, texts(s.asking.Pane), "Tools\nV\nVehicle")
	s.keys("<Escape>")
	assert.Nil(t, s.asking)
	assert.Equal(t, fyne.Focusable(s.view), s.focused())
}

// Nothing is drawn beyond the edges of its panel, at desk and in the field.

// inside looks at every panel on the screen but the printed page, which turns

// texts.

// within tells of texts that reach beyond the left or right edge of a panel,

// or below one that does not scroll.

// No text of the window says of a load or a person what nobody may say.

func TestNoPanelSaysSafe(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	for _, p := range s.panes {
		for _, word := range strings.FieldsFunc(strings.ToLower(texts(p)), func(r rune) bool { return r < 'a' || r > 'z' }) {
			assert.NotContains(t, []string{"safe", "safely", "ok", "okay"}, word, p.Name)
		}
	}
}

func TestEveryLabelHasAText(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.board.Select(s.board.Plan().Casualty().ID)
	s.whys.explain(s.answer().Parts[0].ID)
	s.refresh()
	for _, p := range s.panes {
		assert.NotContains(t, texts(p), "[", "%s shows an id that has no text, or a source in brackets", p.Name)
	}
	for _, c := range s.commands.own {
		assert.True(t, s.words().HasLabel(c.label), c.label)
	}
	for _, m := range append(menuNames[:], "show", "units") {
		for _, i := range s.menus.of(m) {
			assert.NotContains(t, i.Label, "[", m)
		}
	}
	for _, p := range s.panes {
		if p != s.frame.asks && p != s.frame.status && p != s.why.pane {
			assert.True(t, s.words().HasLabel("region-"+p.Name), p.Name)
		}
	}
}

// What went wrong stays to be read while the pointer moves, and goes with the

// next press.

// A plan that cannot be written says so, and stays changed.

// Commands wait while a question is open.

// A tag that is pressed shows its part; one that is dragged stays where it was

// put, and the plan is not edited.

func TestTagsArePressedAndPutByHand(t *testing.T) {
	for _, kind := range []part.Kind{part.KindBlock, part.KindStretch, part.KindSlide} {
		t.Run(string(kind), func(t *testing.T) {
			s := sitAt(t, 1440, 900, example(t, "redirect"))
			before := s.board.Plan()
			var tag draw.LabelBox
			for _, l := range s.view.keep.Boxes {
				for _, id := range l.Parts {
					if p, ok := s.answer().Part(id); ok && p.Kind == kind {
						tag = l
					}
				}
			}
			require.NotEmpty(t, tag.Part, "it has a tag")
			middle := func(b draw.LabelBox) fyne.Position {
				return fyne.NewPos(float32(b.Box.Center().X), float32(b.Box.Center().Y))
			}
			e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
			e.Position = middle(tag)
			s.view.MouseDown(e)
			s.view.MouseUp(e)
			p, _ := s.answer().Part(tag.Part)
			assert.Equal(t, []plan.ID{p.Thing}, s.board.Selection())

			s.view.MouseDown(e)
			to := fyne.NewPos(s.view.Size().Width-220, s.view.Size().Height-60)
			d := &fyne.DragEvent{}
			d.Position = to
			s.view.Dragged(d)
			e.Position = to
			s.view.MouseUp(e)
			s.view.DragEnd()
			assert.Same(t, before, s.board.Plan())
			found := false
			for _, l := range s.view.keep.Boxes {
				if l.Key == tag.Key {
					found = true
					// A tag of several parts unfolds under the pointer: its middle goes half as far.
					was, is := tag.Box.Size(), l.Box.Size()
					assert.InDelta(t, float64(to.X), float64(middle(l).X), 1.5+math.Abs(is.X-was.X)/2)
					assert.InDelta(t, float64(to.Y), float64(middle(l).Y), 1.5+math.Abs(is.Y-was.Y)/2)
				}
			}
			assert.True(t, found)

			// a double click gives it back
			put := s.board.LabelHand()[tag.Key]
			at := s.opt.now()
			s.opt.Now = func() time.Time { return at }
			s.view.MouseDown(e)
			s.view.MouseUp(e)
			s.view.MouseDown(e)
			s.view.MouseUp(e)
			assert.NotContains(t, s.board.LabelHand(), tag.Key)

			// Escape leaves one where it was
			for _, l := range s.view.keep.Boxes {
				if l.Key == tag.Key {
					e.Position = middle(l)
				}
			}
			s.view.MouseDown(e)
			s.view.Dragged(d)
			require.Contains(t, s.board.LabelHand(), tag.Key)
			assert.InDelta(t, put.X, s.board.LabelHand()[tag.Key].X, 1.5, "it follows")
			s.keys("<Escape>")
			s.view.MouseUp(e)
			assert.Empty(t, s.board.LabelHand())
			assert.Same(t, before, s.board.Plan())
		})
	}
}

// A zone that is switched off must not look like no zone.

func TestHiddenZonesAreTold(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	require.NotEmpty(t, s.answer().Zones)
	assert.NotContains(t, texts(s.frame.verdict), "HIDDEN")
	kind := s.answer().Zones[0].Kind
	for _, i := range s.menus.of("show") {
		if strings.TrimSpace(i.Label) == s.words().Zone(kind) {
			require.True(t, i.Checked)
			i.Action()
		}
	}
	assert.True(t, s.show.HideZones[string(kind)])
	assert.Contains(t, texts(s.frame.verdict), "ZONES HIDDEN: 1")
	s.menus.of("show")[0].Action() // all of them
	assert.NotContains(t, texts(s.frame.verdict), "HIDDEN")
	for _, i := range s.menus.of("show") {
		if i.Label == s.label("show-zones-apart") {
			require.False(t, i.Checked)
			i.Action()
		}
	}
	assert.True(t, s.show.ZonesApart)
	kept, err := s.store.Preferences()
	require.NoError(t, err)
	assert.True(t, kept.ZonesApart, "the choice is remembered")
}

// While something is dragged the figures are marked as those of a preview.

func TestPreviewIsMarked(t *testing.T) {
	s := sitAt(t, 1440, 900, "")
	s.rig()
	a := s.board.Plan().Site.Anchors[0].At
	e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	e.Position = s.at(a.X, a.Y)
	s.view.MouseDown(e)
	d := &fyne.DragEvent{}
	d.Position = s.at(a.X+2, a.Y+1)
	s.view.Dragged(d)
	require.NotSame(t, s.board.Plan(), s.board.Shown())
	assert.Contains(t, texts(s.loads.pane), "preview")
	assert.Contains(t, texts(s.frame.verdict), "preview")
	s.keys("<Escape>")
	assert.Same(t, s.board.Plan(), s.board.Shown())
	assert.NotContains(t, texts(s.loads.pane), "preview")
}

func TestRightButtonShowsAMenu(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	v := s.board.Plan().Casualty()
	e := &desktop.MouseEvent{Button: desktop.MouseButtonSecondary}
	e.Position = s.at(v.At.X-1, v.At.Y)
	s.view.MouseDown(e)
	s.view.MouseUp(e)
	assert.Equal(t, "board", s.menus.popup.menuShown())
	assert.Equal(t, []plan.ID{v.ID}, s.board.Selection())
	s.menus.popup.menu.Dismiss()
	assert.Empty(t, s.menus.popup.menuShown())
	assert.Equal(t, fyne.Focusable(s.view), s.focused())
}

// The edges between panels can be dragged; the board keeps its least size, what

// was chosen is kept, and two clicks take it back.

func TestRigIsRenamed(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.commands.run("rename-rig")
	require.NotNil(t, s.details.entry)
	s.details.entry.SetText("Over the pine")
	s.keys("<Return>")
	assert.Equal(t, "Over the pine", s.board.Plan().Rigs[0].Name)
	assert.Contains(t, texts(s.frame.tabs), "Over the pine")
	assert.Nil(t, s.details.entry)
	s.focusBoard()
	s.ctrl(fyne.KeyZ)
	assert.NotEqual(t, "Over the pine", s.board.Plan().Rigs[0].Name)
}

// Things are called as the plan, the rig and the language that are shown have it.
func TestNamesFollowPlanRigAndLanguage(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	p := s.board.Plan()
	require.Len(t, p.Rigs, 2)
	same := func(why string) {
		t.Helper()
		want := s.words().Names(s.board.Shown(), s.board.Rig())
		plan.EachHead(p, &p.Rigs[0], func(h *plan.Head) { assert.Equal(t, want(h.ID), s.names()(h.ID), "%s: %s", why, h.ID) })
		plan.EachHead(p, &p.Rigs[1], func(h *plan.Head) { assert.Equal(t, want(h.ID), s.names()(h.ID), "%s: %s", why, h.ID) })
	}
	line, tree := p.Rigs[0].Lines[0].ID, p.Site.Anchors[0].ID
	same("as opened")
	was := s.names()(line)
	s.board.ShowRig(p.Rigs[1].ID)
	same("the other rig")
	assert.NotEqual(t, was, s.names()(line), "a line of the rig that is not shown has no name")
	was = s.names()(tree)
	s.setLanguage("de")
	same("another language")
	assert.NotEqual(t, was, s.names()(tree))
	require.NoError(t, s.board.Set(tree, "name", "Old oak"))
	same("another plan")
	assert.Equal(t, "Old oak", s.names()(tree))
}
