package window

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/canvas/sheet"
	"kedge/solver/plan"
)

// incident is the path of an incident of Curlew Moss.
func incident(t testing.TB, name string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("../../assets/plans/incidents", name+extension))
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), name+extension)
	require.NoError(t, os.WriteFile(path, data, 0o644))
	return path
}

// What may have happened is what the report says, its ratios before its chances.
func TestOutcomeSaysWhatTheReportSays(t *testing.T) {
	s := sitAt(t, 1440, 900, incident(t, "alder-bend"))
	require.Contains(t, ids(s.frame.heads), "outcome", "something was seen: the panel has a tab")
	s.click(s.frame.heads, "outcome")
	require.NotNil(t, s.outcome.got)
	assert.False(t, s.outcome.got.more)
	a := s.outcome.got.report
	said := strings.Join(strings.Fields(texts(s.outcome.pane)), " ")
	for _, row := range a.Candidates().Rows[1:] {
		for _, cell := range row {
			if cell != "–" {
				assert.Contains(t, said, strings.Join(strings.Fields(cell), " "))
			}
		}
	}
	assert.Contains(t, said, strings.Join(strings.Fields(a.Agree()), " "))
	assert.Less(t, strings.LastIndex(said, a.Candidates().Rows[0][1]+":"), strings.LastIndex(said, a.Candidates().Rows[0][3]+":"), "what facts say comes before what follows")
}

// A candidate that is pressed has its part marked on the board with the load on it then;
// pressed again, no more.
func TestAPickedCandidateIsMarked(t *testing.T) {
	s := sitAt(t, 1440, 900, incident(t, "ford"))
	s.commands.run(panelOutcome)
	before := len(s.overlay().Texts)
	s.click(s.outcome.pane, "candidates 0")
	c := s.outcome.got.report.Listed()[0]
	thing := s.outcome.thingOf(c.Part)
	assert.Equal(t, []plan.ID{thing}, s.board.Selection())
	o := s.overlay()
	require.Len(t, o.Texts, before+1)
	tag, sentence := s.outcome.got.report.Moment(0)
	assert.Equal(t, tag, o.Texts[before].Text)
	assert.Equal(t, s.board.PartOf(thing), o.HoverPart)
	assert.Contains(t, strings.Join(strings.Fields(texts(s.outcome.pane)), " "), strings.Join(strings.Fields(sentence), " "))
	s.click(s.outcome.pane, "candidates 0")
	assert.Len(t, s.overlay().Texts, before)
}

// What was held before is typed into its row: one undo step, taken back to the byte.
func TestAPriorIsTyped(t *testing.T) {
	s := sitAt(t, 1440, 900, incident(t, "birch"))
	s.commands.run(panelOutcome)
	s.click(s.outcome.pane, "section priors")
	bytes := func() string {
		data, err := plan.FormatPlan(s.board.Plan())
		require.NoError(t, err)
		return string(data)
	}
	was, last := bytes(), len(s.outcome.got.report.Found.Priors)
	s.click(s.outcome.pane, priorID(0))
	s.keys("often", "<Return>")
	require.NotNil(t, s.outcome.typing)
	assert.Equal(t, s.label("outcome-prior-bad"), s.outcome.typing.fault)
	s.keys("<Escape>")
	assert.Equal(t, was, bytes())
	s.click(s.outcome.pane, priorID(0))
	s.keys("12 of 100; the fleet's count", "<Return>")
	require.Nil(t, s.outcome.typing)
	q := s.outcome.got.report.Found.Priors[0]
	assert.InDelta(t, 0.12, q.Chance, 1e-12, "it is reckoned anew")
	assert.Equal(t, "the fleet's count", q.Source)
	s.ctrl(fyne.KeyZ)
	assert.Equal(t, was, bytes())
	s.click(s.outcome.pane, priorID(last))
	s.keys("0.2", "<Return>")
	assert.InDelta(t, 0.2, s.board.Plan().Rigs[0].Incident.None.Or(0), 1e-12)
	s.click(s.outcome.pane, priorID(last))
	s.keys("<Return>")
	assert.Equal(t, was, bytes(), "left empty it is as proposed")
}

func TestWhatIsReadAsAChance(t *testing.T) {
	for _, typed := range []string{"12 of 100", "0.12", "12 %", "0,12", "12/100", "12 von 100; wir"} {
		chance, source, known, ok := priorTyped(typed)
		assert.True(t, known && ok, typed)
		assert.InDelta(t, 0.12, chance, 1e-12, typed)
		assert.Equal(t, strings.HasSuffix(typed, "wir"), source == "wir", typed)
	}
	for _, typed := range []string{"1", "1.5", "-0.1", "5 of 0", "0 of 0", "often", "1 of 2 of 3", "; me", "1e-3"} {
		_, _, _, ok := priorTyped(typed)
		assert.False(t, ok, typed)
	}
	_, _, known, ok := priorTyped(" ")
	assert.True(t, ok && !known, "the proposed")
}

// Where nothing was seen and nothing is in doubt the panel says so, and what to do.
func TestNothingInDoubtIsSaid(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.commands.run(panelOutcome)
	said := strings.Join(strings.Fields(texts(s.outcome.pane)), " ")
	assert.Contains(t, said, s.label("outcome-nothing"))
	assert.Contains(t, said, s.label("outcome-nothing-do"))
}

// A figure typed with ± gives chances of each part, those of the command line.
func TestChancesBeforeThePull(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	require.NoError(t, s.board.Set(s.board.Plan().Casualty().ID, "mass_kg", "2450 ± 200"))
	s.refresh()
	s.click(s.frame.heads, "outcome")
	o := s.outcome.got
	require.NotNil(t, o)
	require.NotNil(t, o.chances)
	assert.Equal(t, s.board.Plan(), o.plan)
	assert.Equal(t, 16*1024, o.chances.Found.Trials)
	said := strings.Join(strings.Fields(texts(s.outcome.pane)), " ")
	for _, row := range o.chances.Over().Rows[1:] {
		assert.Contains(t, said, strings.Join(strings.Fields(row[0]), " "))
		assert.Contains(t, said, strings.Join(strings.Fields(row[1]), " "))
	}
}

// A change that is pressed shows the rig as it was and with it, side by side, with the
// chance of a failure in either.
func TestAChangeIsCompared(t *testing.T) {
	s := sitAt(t, 1440, 900, incident(t, "ford"))
	s.board.Handle(board.Command{ID: "rig.duplicate"})
	s.board.ShowRig(s.board.Plan().Rigs[0].ID)
	s.commands.run(panelOutcome)
	changes := s.outcome.got.report.Found.Changes
	require.NotEmpty(t, changes)
	s.click(s.outcome.pane, "changes 0")
	require.NotNil(t, s.compare.now)
	said := strings.Join(strings.Fields(texts(s.compare.pane)), " ")
	before, after, _ := s.outcome.got.report.Change(0)
	for _, want := range []string{s.label("outcome-was"), changes[0].Name, before, after} {
		assert.Contains(t, said, strings.Join(strings.Fields(want), " "))
	}
	s.keys("<Escape>")
	assert.Nil(t, s.compare.now)
}

// The report is the sheet of that kind.
func TestTheReportIsOpened(t *testing.T) {
	s := sitAt(t, 1440, 900, incident(t, "ford"))
	s.commands.run(panelOutcome)
	s.click(s.outcome.pane, "report")
	require.NotNil(t, s.printer.now)
	assert.Equal(t, map[sheet.Kind]bool{sheet.Report: true}, s.printer.now.kinds)
}
