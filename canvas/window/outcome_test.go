package window

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/canvas/report"
	"kedge/canvas/sheet"
	"kedge/canvas/store"
	"kedge/canvas/words"
	"kedge/solver/doubt"
	"kedge/solver/part"
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

// hurried reckons as it is reckoned, but what was seen in one step, once for all tests that
// ask the same, and chances with the fewest points.
var hurried = &reckoning{report: remembered, past: []int{report.PerSet}, ahead: []int{16}}

// known are the reports of all tests, by what was asked.
var known sync.Map

// remembered is the report of a plan, made when it is first asked for.
func remembered(w *words.Words, p *plan.Plan, rig plan.ID, q doubt.Request) (*report.Report, error) {
	data, err := plan.FormatPlan(p)
	if err != nil {
		return nil, err
	}
	key := fmt.Sprint(w.Lang(), w.System(), rig, q.Per, string(data))
	if a, ok := known.Load(key); ok {
		return a.(*report.Report), q.Context.Err()
	}
	a, err := report.New(w, p, rig, q)
	if err == nil {
		known.Store(key, a)
	}
	return a, err
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

	de, err := words.New("de", s.words().System())
	require.NoError(t, err)
	s.board.SetWords(de)
	s.refresh()
	told := s.outcome.got
	assert.Same(t, de, told.words)
	assert.Contains(t, texts(s.outcome.pane), de.Label("report-limits"))
	assert.Same(t, &a.Found.Answer.Candidates[0], &told.report.Found.Answer.Candidates[0], "the words alone are made anew")
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

// Where nothing was seen and nothing is in doubt the panel says so, and what to do: type a
// range, or draw what is known to scatter.
func TestNothingInDoubtIsSaid(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.outcome.typedOnly = true
	s.commands.run(panelOutcome)
	said := strings.Join(strings.Fields(texts(s.outcome.pane)), " ")
	assert.Contains(t, said, s.label("outcome-nothing"))
	assert.Contains(t, said, s.label("outcome-nothing-do"))
	assert.Contains(t, ids(s.outcome.pane), "outcome-scatter", "known scatter can be drawn")
}

// A figure typed with ± gives chances of each part, those of the command line: what is known
// to scatter is drawn too, and the whole pull. Few trials come first.
func TestChancesBeforeThePull(t *testing.T) {
	for _, last := range []int{wholly.past[len(wholly.past)-1], wholly.ahead[len(wholly.ahead)-1]} {
		assert.Equal(t, report.PerSet, last, "as everywhere else")
	}
	const per = 64
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	q := &queue{}
	s.outcome.worker, s.outcome.how = q, &reckoning{ahead: []int{16, per}}
	require.NoError(t, s.board.Set(s.board.Plan().Casualty().ID, "mass_kg", "2450 ± 200"))
	s.refresh()
	s.click(s.frame.heads, "outcome")
	require.True(t, q.next())
	first := s.outcome.got
	assert.Equal(t, 16*16, first.chances.Found.Trials)
	assert.True(t, first.more)
	for len(q.jobs) > 0 {
		require.True(t, q.next())
	}
	o := s.outcome.got
	assert.False(t, o.more)
	assert.Equal(t, s.board.Plan(), o.plan)
	assert.Equal(t, 16*per, o.chances.Found.Trials)
	p, rig := s.board.Plan(), s.board.Rig()
	asked, err := report.Request(t.Context(), p, rig, false) // as the command line asks
	require.NoError(t, err)
	assert.Equal(t, report.PerSet, asked.Per)
	asked.Per = per
	want, err := doubt.SamplePlan(p, rig, asked)
	require.NoError(t, err)
	got := o.chances.Found
	for _, x := range [...][2]any{{want.MoveN, got.MoveN}, {want.Drawn, got.Drawn}, {want.Along.Trials, got.Along.Trials}, {want.Along.Fails, got.Along.Fails}, {len(want.Parts), len(got.Parts)}, {len(want.Along.Parts), len(got.Along.Parts)}} {
		assert.Equal(t, x[0], x[1])
	}
	assert.Len(t, got.Assumed, len(want.Assumed))
	for i := range want.Parts {
		x, y := &want.Parts[i], &got.Parts[i]
		assert.Equal(t, []any{x.Part.ID, x.OverLimit, x.OverAtStall, x.Gives, x.GivesStall}, []any{y.Part.ID, y.OverLimit, y.OverAtStall, y.Gives, y.GivesStall})
	}
	for i := range want.Along.Parts {
		x, y := &want.Along.Parts[i], &got.Along.Parts[i]
		assert.Equal(t, []any{x.Part.ID, x.OverLimit, x.OverAtStall, x.Gives, x.GivesStall, x.First}, []any{y.Part.ID, y.OverLimit, y.OverAtStall, y.Gives, y.GivesStall, y.First})
	}
	for _, section := range []string{"parts", "scatter"} {
		s.click(s.outcome.pane, "section "+section)
	}
	said := strings.Join(strings.Fields(texts(s.outcome.pane)), " ")
	sections := []report.Section{o.chances.Along(), o.chances.Over(), o.chances.Assumed()}
	for _, section := range sections {
		for _, row := range section.Rows[1:] {
			for _, cell := range row {
				if !strings.Contains(said, strings.Join(strings.Fields(cell), " ")) {
					t.Errorf("%q is not said", cell)
				}
			}
		}
	}
	assert.Contains(t, said, strings.Join(strings.Fields(sections[0].Lines[0]), " "))
	assert.Contains(t, said, s.label("outcome-assumes"))
	s.click(s.outcome.pane, "outcome-typed")
	require.True(t, q.next())
	assert.Empty(t, s.outcome.got.chances.Found.Assumed)
	assert.Len(t, s.outcome.got.chances.Found.Drawn, 1, "the mass alone")
}

// A part that is pressed is selected, and the strip goes to where it fails first in half of
// the trials; of one that never is the first the strip stays.
func TestAPartIsShownWhereItFailsFirst(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.outcome.pickAlong(&doubt.PartAlong{Part: part.Part{ID: "B1"}, FirstM: [3]float64{1, 2.5, 3}})
	assert.InDelta(t, 2.5, s.travel.shown(), 1e-12)
	assert.Equal(t, []plan.ID{"B1"}, s.board.Selection())
	nan := math.NaN()
	s.outcome.pickAlong(&doubt.PartAlong{Part: part.Part{ID: "T1"}, FirstM: [3]float64{nan, nan, nan}})
	assert.InDelta(t, 2.5, s.travel.shown(), 1e-12)
	assert.Equal(t, []plan.ID{"T1"}, s.board.Selection())
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

// A copy is sealed from the menu, checked from the menu, and never written over; one bit
// altered is told.
func TestACopyIsSealedAndChecked(t *testing.T) {
	s := sitAt(t, 1440, 900, incident(t, "birch"))
	path := filepath.Join(s.home, "copy"+sealedEnding)
	choose := func(command string) {
		s.commands.run(command)
		s.choose(path)
	}
	choose("seal")
	s.keys("<Return>", "<Escape>")
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	sealedCopy, altered, err := store.Unseal(data)
	require.NoError(t, err)
	assert.Empty(t, altered)
	was, err := plan.FormatPlan(s.board.Plan())
	require.NoError(t, err)
	assert.Equal(t, was, sealedCopy.Plan.Data)
	assert.Equal(t, "kedge "+report.Version, sealedCopy.App, "as the command line seals it")
	s.commands.run(panelOutcome)
	s.commands.run("seal")
	known := filepath.Join(s.home, "known"+sealedEnding)
	s.choose(known)
	s.keys("<Return>")
	assert.Contains(t, texts(s.asking.Pane), s.label("seal-keep"))
	s.keys("<Return>")
	assert.Equal(t, sealedCopy.Hash, s.app.Clipboard().Content())
	again, err := os.ReadFile(known)
	require.NoError(t, err)
	assert.Equal(t, data, again, "of what the panel shows as of what is reckoned for it")
	choose("seal-check")
	require.NotNil(t, s.asking)
	assert.Contains(t, texts(s.asking.Pane), s.label("seal-unaltered"))
	s.keys("<Escape>")
	data[bytes.Index(data, []byte(sealedCopy.Figures.Hash))] ^= 1
	require.NoError(t, os.WriteFile(path, data, 0o644))
	choose("seal-check")
	require.NotNil(t, s.asking)
	assert.Contains(t, texts(s.asking.Pane), strings.Fields(s.label("seal-altered"))[0])
	s.keys("<Escape>")
	choose("seal")
	require.NotNil(t, s.asking)
	assert.Len(t, s.asking.Answers, 2, "nothing follows what was altered")
	is, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, data, is)
}

// Who took, measured and kept what is typed in the panel, is in the report a line an item,
// and is one undo step.
func TestCustodyIsTypedAndPrinted(t *testing.T) {
	s := sitAt(t, 1440, 900, incident(t, "birch"))
	s.commands.run(panelOutcome)
	was := s.board.Plan()
	s.click(s.outcome.pane, "written incident/custody")
	require.NotNil(t, s.details.entry)
	s.details.entry.SetText("12 May, the instructor: photographed the roots\n13 May, the driver: weighed the vehicle")
	s.keys("<Tab>")
	assert.Equal(t, "12 May, the instructor: photographed the roots\n13 May, the driver: weighed the vehicle", s.board.Plan().Rigs[0].Incident.Custody)
	said := strings.Join(strings.Fields(texts(s.outcome.pane)), " ")
	assert.Contains(t, said, "13 May, the driver")
	s.keys("<Escape>") // the next text
	s.ctrl(fyne.KeyZ)
	assert.Equal(t, was.Rigs[0].Incident, s.board.Plan().Rigs[0].Incident)
}

// Pictures are sealed as they are, each once; whoever leaves the choice of one comes back to
// what is sealed. A later version has a name of its own, the pictures of the one before, and
// says why it was made before it is made.
func TestALaterVersionOfASealedCopySaysWhy(t *testing.T) {
	s := sitAt(t, 1440, 900, incident(t, "birch"))
	s.commands.run(panelOutcome)
	photo := s.write("roots.jpg", []byte("not really a picture"))
	path, later := filepath.Join(s.home, "copy"+sealedEnding), filepath.Join(s.home, "copy-2"+sealedEnding)
	unsealed := func(path string) *store.Sealed {
		t.Helper()
		c, err := s.outcome.readSealed(path)
		require.NoError(t, err)
		return c
	}
	s.commands.run("seal")
	s.choose(path)
	assert.Contains(t, texts(s.asking.Pane), s.label("seal-no-pictures"))
	for range 2 {
		s.click(s.asking.Pane, "answer 1")
		s.choose(photo)
	}
	s.click(s.asking.Pane, "answer 1")
	s.keys("<Escape>")
	require.NotNil(t, s.asking, "back to what is sealed")
	assert.Contains(t, texts(s.asking.Pane), "roots.jpg")
	s.click(s.asking.Pane, "answer 0")
	s.keys("<Escape>")
	first := unsealed(path)
	require.Len(t, first.Pictures, 1)
	assert.Equal(t, "not really a picture", string(first.Pictures[0].Data))

	s.commands.run("seal")
	s.choose(path)
	s.keys("<Return>") // a later version
	require.NotNil(t, s.asking.Entry)
	s.keys("<Return>")
	assert.Contains(t, texts(s.asking.Pane), s.label("seal-why-first"))
	require.NoFileExists(t, later)
	s.keys("the mass was weighed", "<Return>")
	assert.Contains(t, texts(s.asking.Pane), s.label("seal-follows", part.Text("hash", first.Hash), part.Text("why", "the mass was weighed")))
	s.keys("<Escape>")
	second := unsealed(later)
	assert.Equal(t, []store.Change{{Hash: first.Hash, Why: "the mass was weighed"}}, second.Log)
	assert.Equal(t, first.Pictures, second.Pictures)

	s.commands.run("seal")
	s.choose(filepath.Join(s.home, "other"))
	s.click(s.asking.Pane, "answer 2")
	s.choose(photo)
	assert.NotEmpty(t, s.fault, "no sealed copy")
	s.click(s.asking.Pane, "answer 2")
	s.choose(later)
	s.keys("a tree was measured", "<Return>", "<Escape>")
	assert.Len(t, unsealed(filepath.Join(s.home, "other"+sealedEnding)).Log, 2)
}

// Of a rig of which nothing was seen nothing is sealed, and the menu says so.
func TestNothingSeenIsNotSealed(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.commands.run("seal")
	assert.Nil(t, s.choosing)
	assert.Equal(t, s.label("seal-nothing"), s.said)
}

// queue is a worker whose jobs wait until they are told to go on.
type queue struct{ jobs []func() func() }

func (q *queue) Do(_ string, job func() func()) { q.jobs = append(q.jobs, job) }
func (q *queue) Close()                         {}

// next does the job that waits longest; it reports whether there was something to show.
func (q *queue) next() bool {
	job := q.jobs[0]
	q.jobs = q.jobs[1:]
	show := job()
	if show != nil {
		show()
	}
	return show != nil
}

// The answer comes with few trials first. An edit gives up what is reckoned and starts
// anew; until then what is shown is said to be of the plan before, and marks nothing.
func TestAnEditStartsTheOutcomeAnew(t *testing.T) {
	s := sitAt(t, 1440, 900, incident(t, "birch"))
	q := &queue{}
	s.outcome.worker, s.outcome.how = q, &reckoning{report: remembered, past: wholly.past}
	shows := func(label string) bool {
		return strings.Contains(strings.Join(strings.Fields(texts(s.outcome.pane)), " "), s.label(label))
	}
	s.commands.run(panelOutcome)
	assert.True(t, shows("outcome-wait"))
	require.True(t, q.next())
	assert.True(t, shows("outcome-going"))
	first := s.outcome.got
	require.Len(t, q.jobs, 1, "more trials follow")
	s.click(s.outcome.pane, "candidates 0")
	assert.Equal(t, s.outcome.picked.Part, s.outcome.got.listed[0].Part)
	marked := len(s.overlay().Texts)
	require.NoError(t, s.board.Set(s.board.Plan().Casualty().ID, "mass_kg", "2600"))
	s.refresh()
	assert.True(t, shows("outcome-before"))
	assert.Less(t, len(s.overlay().Texts), marked)
	assert.Same(t, first, s.outcome.got, "what was found before stays in sight")
	assert.False(t, q.next(), "what was begun of the plan before shows nothing")
	assert.Same(t, first, s.outcome.got)
	require.True(t, q.next())
	assert.False(t, shows("outcome-before"))
	require.True(t, q.next())
	assert.False(t, shows("outcome-going"))
	assert.Greater(t, s.outcome.got.report.Found.Trials, first.report.Found.Trials)
	assert.Empty(t, q.jobs)
	s.refresh()
	assert.Empty(t, q.jobs, "what is known is not reckoned again")
	now := slices.IndexFunc(s.outcome.got.listed, func(c doubt.Candidate) bool { return s.outcome.same(&c) })
	s.click(s.outcome.pane, "candidates "+itoa(now))
	assert.Nil(t, s.outcome.picked, "pressed again, whatever its figures are by now")
}

// What is not to be seen is not reckoned.
func TestAHiddenOutcomeIsGivenUp(t *testing.T) {
	s := sitAt(t, 1440, 900, incident(t, "birch"))
	q := &queue{}
	s.outcome.worker = q
	s.refresh()
	assert.Empty(t, q.jobs)
	s.commands.run(panelOutcome)
	require.Len(t, q.jobs, 1)
	s.commands.run("findings")
	assert.False(t, q.next())
	s.commands.run(panelOutcome)
	assert.Len(t, q.jobs, 1, "it is asked for again")
}
