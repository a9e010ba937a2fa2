package window

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/canvas/panel"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/travel"
)

// onScreen is where a hit of a pane is seen, from the top of its scroll.
func onScreen(t *testing.T, p *panel.Pane, id string) float64 {
	t.Helper()
	i := p.Find(id)
	require.GreaterOrEqual(t, i, 0, id)
	return p.Hits[i].Y0 - float64(p.Scroll.Offset.Y)
}

// lastLine is the end of the sum of a part: its share.
func lastLine(t *testing.T, s *seat, id string) string {
	t.Helper()
	sum, err := travel.Explain(s.answer(), s.board.Plan(), s.board.Rig(), id)
	require.NoError(t, err)
	lines := s.words().Derivation(sum, s.words().Naming(s.answer(), s.names()))
	require.NotEmpty(t, lines)
	return strings.Join(strings.Fields(lines[len(lines)-1]), " ")
}

// Why unfolds in the row of Loads that was pressed, below its part and above the next, and
// folds when it is pressed again: what is above stays where it was, and so does the row.
func TestWhyUnfoldsInItsRowOfLoads(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	pane := s.loads.pane
	var rows []string
	for _, id := range ids(pane) {
		if strings.HasPrefix(id, "part ") {
			rows = append(rows, id)
		}
	}
	second, third := rows[1], rows[2]
	above, row, below := onScreen(t, pane, rows[0]), onScreen(t, pane, second), onScreen(t, pane, third)
	last := lastLine(t, s, strings.TrimPrefix(second, "part "))
	s.click(pane, second)
	require.Contains(t, flat(pane), last)
	fold := onScreen(t, pane, "fold "+second)
	assert.InDelta(t, above, onScreen(t, pane, rows[0]), 0.01)
	assert.InDelta(t, row, onScreen(t, pane, second), 0.01)
	assert.Greater(t, fold, row)
	assert.Greater(t, onScreen(t, pane, third), fold, "it ends above the next part")
	s.click(pane, third) // it unfolds too, and closes nothing above the pointer
	assert.InDelta(t, row, onScreen(t, pane, second), 0.01)
	assert.Contains(t, flat(pane), lastLine(t, s, strings.TrimPrefix(third, "part ")))
	s.click(pane, third)
	s.click(pane, second)
	assert.NotContains(t, flat(pane), last)
	assert.InDelta(t, below, onScreen(t, pane, third), 0.01)
	assert.Negative(t, s.details.pane.Find("unpin"), "it has no place of its own")

	s.click(pane, partRow(solver.ResistancePart)) // of what resists likewise, below its own line
	assert.Greater(t, onScreen(t, pane, rows[0]), above)
	assert.InDelta(t, onScreen(t, pane, "sort part"), onScreen(t, pane, "fold why resistance"), 80)
}

// A row of Loads that is one part of several of its thing selects the thing to show it,
// and Delete takes nothing: pressed on the board itself, it does.
func TestDeleteOfARowTakesNoWholeThing(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	before := s.board.Plan()
	for _, thing := range []plan.ID{before.Casualty().ID, before.Site.Vehicles[1].ID} {
		for i := range s.answer().Parts {
			p := &s.answer().Parts[i]
			if p.Thing != thing {
				continue
			}
			s.whys.explain(p.ID)
			require.Equal(t, []plan.ID{thing}, s.board.Selection())
			s.commands.run("cut")
			require.Same(t, before, s.board.Plan(), p.ID)
			s.view.handle(board.Key{Name: "Delete"})
			require.Same(t, before, s.board.Plan(), p.ID)
			assert.Contains(t, s.board.Prompt(), "cannot be deleted alone")
		}
	}
	s.board.Select(before.Casualty().ID)
	s.view.handle(board.Key{Name: "Delete"})
	assert.Nil(t, s.board.Plan().Casualty())
}

// By keyboard: Enter on a row unfolds it, the next step goes to what folds it again; a
// question mark on the board unfolds the row of what is selected and brings it into sight.
func TestWhyUnfoldsByKeyboard(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	pane, id := s.loads.pane, s.answer().Parts[s.answer().Worst].ID
	s.win.Canvas().Focus(pane)
	pane.Focus = "part " + id
	s.keys("<Return>")
	require.Contains(t, flat(pane), lastLine(t, s, id))
	s.keys("<Down>")
	assert.Equal(t, "fold part "+id, pane.Focus)
	s.keys("<Return>")
	assert.NotContains(t, flat(pane), lastLine(t, s, id))

	tree := s.board.Plan().Site.Anchors[0].ID
	s.board.Select(tree)
	s.focusBoard()
	pane.Scroll.ScrollToTop()
	s.keys("?")
	assert.Contains(t, flat(pane), lastLine(t, s, string(tree)))
	at := onScreen(t, pane, "part "+string(tree))
	assert.GreaterOrEqual(t, at, 0.0)
	assert.Less(t, at, float64(pane.Scroll.Size().Height)/2, "with its sum below it")
	s.board.Select(s.board.Plan().Rigs[0].Blocks[0].ID)
	s.keys("?")
	block := "part " + string(s.board.Plan().Rigs[0].Blocks[0].ID)
	for _, row := range [...]string{"part " + string(tree), block} { // each with its own part
		fold, after := pane.Find("fold "+row), pane.Find(row)+1
		assert.Equal(t, after, fold, row)
	}
}

// In Findings why stands in the row that was pressed: what the rule rests on, and the sum of
// its part.
func TestWhyUnfoldsInItsFinding(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	pane, fs := s.findings.pane, s.answer().Findings
	i := slices.IndexFunc(fs, func(f part.Finding) bool { return f.ID == "over-limit" && len(f.Parts) > 0 })
	require.GreaterOrEqual(t, i, 0)
	f := &fs[i]
	row := findingRow(f)
	rule, ok := solver.RuleOf(f.ID)
	require.True(t, ok)
	on := strings.Join(strings.Fields(s.words().RestsOn(&rule)), " ")
	require.NotEmpty(t, on)
	require.NotContains(t, flat(pane), on)
	pane.RevealHit(pane.Find(row))
	at := onScreen(t, pane, row)
	s.click(pane, row)
	assert.InDelta(t, at, onScreen(t, pane, row), 0.01)
	said := flat(pane)
	assert.Contains(t, said, on)
	assert.Contains(t, said, lastLine(t, s, f.Parts[0]))
	assert.Contains(t, s.board.Selection(), f.Things[0], "it is shown too")
	s.click(pane, row)
	assert.NotContains(t, flat(pane), on)
	s.win.Canvas().Focus(pane)
	pane.Focus = row
	s.keys("<Return>")
	assert.Contains(t, flat(pane), on)
}

// While something is dragged, and findings come and go, the panels of the side keep their
// places and heights, with something selected and without; a row under the pointer keeps
// its place too.
func TestTheSideIsSteadyWhileSomethingIsDragged(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	boxes := func() (all [3][2]float32) {
		for i, p := range [...]*panel.Pane{s.findings.pane, s.loads.pane, s.details.pane} {
			require.True(t, p.Shown(), p.Name)
			all[i] = [2]float32{p.Scroll.Position().Y, p.Scroll.Size().Height}
		}
		return all
	}
	want, talls := boxes(), map[float32]bool{}
	s.board.Select(s.board.Plan().Casualty().ID)
	s.refresh()
	assert.Equal(t, want, boxes(), "selected")
	s.board.Select()
	s.refresh()
	tree := s.board.Plan().Site.Anchors[0].At
	for _, to := range [...][2]float64{{2, 0}, {4, -3}, {6, 2}, {-3, 6}, {0, 0}} {
		was := s.board.Plan().Site.Anchors[0].At
		s.drag(was.X, was.Y, tree.X+to[0], tree.Y+to[1])
		talls[s.findings.pane.Tall] = true
		assert.Equal(t, want, boxes(), "%v", to)
	}
	require.Greater(t, len(talls), 1, "findings have come and gone")
	s.shell.setShare(dividerDetails, 0.5) // the person's to change
	s.refresh()
	assert.NotEqual(t, want, boxes())
}

// A row under the pointer keeps its place when what is above it changes: here the sum that
// unfolds above it, and the order of the loads.
func TestTheRowUnderThePointerKeepsItsPlace(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	pane := s.loads.pane
	pane.Scroll.ScrollToOffset(fyne.NewPos(0, 120))
	row := ""
	for _, id := range ids(pane) {
		if y := onScreen(t, pane, id); strings.HasPrefix(id, "part ") && y > 60 && y < float64(pane.Scroll.Size().Height)-60 {
			row = id
		}
	}
	require.NotEmpty(t, row)
	pane.Point(row)
	at, was := onScreen(t, pane, row), pane.Hits[pane.Find(row)].Y0
	for i, change := range [...]func(){
		func() { s.whys.explain(solver.ResistancePart) },
		func() { s.loads.sortBy = words.ColumnStall },
	} {
		change()
		s.refresh()
		assert.InDelta(t, at, onScreen(t, pane, row), 0.5, "%d", i)
		assert.NotEqual(t, was, pane.Hits[pane.Find(row)].Y0, "%d: it was moved in its list", i)
		was = pane.Hits[pane.Find(row)].Y0
	}
}
