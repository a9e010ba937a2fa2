package report_test

import (
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/report"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/doubt"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// found is what may have happened with the first rig of an incident of Curlew Moss.
func found(t *testing.T, name string, per int, change func(p *plan.Plan) *plan.Plan) *report.Report {
	t.Helper()
	p, err := plan.ParsePlan(read(t, name))
	require.NoError(t, err)
	p = change(p)
	a, err := report.New(english(t), p, p.Rigs[0].ID, doubt.Request{Per: per, Seed: report.Seed, Workers: 2})
	require.NoError(t, err)
	require.NotNil(t, a.Found)
	return a
}

// read is the file of an incident of Curlew Moss.
func read(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile("../../assets/plans/incidents/" + name + ".kedge")
	require.NoError(t, err)
	return data
}

func english(t *testing.T) *words.Words {
	t.Helper()
	w, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	return w
}

// changeOf is what a change by part of its name does.
func changeOf(t *testing.T, a *report.Report, name string) *doubt.NamedChange {
	t.Helper()
	for i := range a.Found.Changes {
		if c := &a.Found.Changes[i]; strings.Contains(c.Name, name) {
			require.NoError(t, c.Err)
			return c
		}
	}
	t.Fatalf("no change is called %q", name)
	return nil
}

// What was found failed is tried with twice its rating, whether that is entered or read
// from a photograph of its tag: both lower the chance alike.
func TestTwiceTheRatingLowersTheChance(t *testing.T) {
	entered := changeOf(t, found(t, "alder-bend", report.PerSet, func(p *plan.Plan) *plan.Plan { return p }), "rated twice")
	assert.Less(t, entered.After.Value, entered.Before.Value-3*entered.Less.Error)
	photographed := changeOf(t, found(t, "alder-bend", report.PerSet, func(p *plan.Plan) *plan.Plan {
		r := &p.Rigs[0]
		for _, q := range r.Incident.Pins {
			if q.Kind == plan.PinBroken {
				s, ok := r.Sling(q.Thing)
				require.True(t, ok)
				return plan.WithPin(p, 0, plan.Pin{ID: "T", Kind: plan.PinTag, Thing: q.Thing, Known: plan.KnownObserved, Rating: s.Rating})
			}
		}
		return p
	}), "rated twice")
	assert.InDelta(t, entered.Before.Value, photographed.Before.Value, 1e-9)
	assert.InDelta(t, entered.After.Value, photographed.After.Value, 1e-9)
}

// Another rig of the plan is tried in place of the one that is asked about: the same rig
// changes nothing.
func TestAnotherRigIsTried(t *testing.T) {
	a := found(t, "birch", report.PerSet, func(p *plan.Plan) *plan.Plan {
		q := *p
		twin := p.Rigs[0]
		twin.ID, twin.Name, twin.Incident = "R9", "Twin", nil
		q.Rigs = append([]plan.Rig{p.Rigs[0]}, twin)
		return &q
	})
	c := changeOf(t, a, "Twin")
	assert.InDelta(t, c.Before.Value, c.After.Value, 1e-12)
	assert.InDelta(t, 1, c.StillFails.Value, 0.01, "what was found failed fails again")
}

// withWay is a plan whose casualty has to go so far.
func withWay(p *plan.Plan, way quantity.Length) *plan.Plan {
	i := slices.IndexFunc(p.Site.Vehicles, func(v plan.Vehicle) bool { return v.Stuck != nil })
	v := p.Site.Vehicles[i]
	stuck := *v.Stuck
	stuck.WayLength, v.Stuck = way, &stuck
	return plan.WithVehicle(p, i, v)
}

// With another length of way it is another pull, which is followed with the same strengths:
// a part fails in as many of them as of a plan that says so itself, drawn by itself. What is
// seen to have failed some way along is asked there; that says nothing of a way that ends
// before.
func TestAnotherLengthOfWayIsFollowed(t *testing.T) {
	var longer, shorter *plan.Plan
	was := found(t, "ford", 64, func(p *plan.Plan) *plan.Plan {
		longer, shorter = withWay(p, 6.5), withWay(p, 2)
		return p
	})
	of := func(p *plan.Plan, changes ...doubt.Change) *report.Report {
		a, err := report.New(english(t), p, p.Rigs[0].ID, doubt.Request{Per: 64, Seed: report.Seed, Workers: 2, Changes: changes})
		require.NoError(t, err)
		return a
	}
	was = of(was.Plan, doubt.Change{Name: "6.5 m", Plan: longer}, doubt.Change{Name: "2 m", Plan: shorter}, doubt.Change{Name: "12 m", Plan: withWay(was.Plan, 12)})
	nothing := doubt.Change{Name: "nothing", Plan: longer}
	more, less := changeOf(t, was, "6.5 m"), changeOf(t, was, "2 m")
	assert.Equal(t, changeOf(t, of(longer, nothing), "nothing").Before.Value, more.After.Value)
	assert.Less(t, less.After.Value, more.After.Value)
	assert.InDelta(t, less.Before.Value-less.After.Value, less.Less.Value, 1e-12)

	at3 := plan.WithPin(was.Plan, 0, rut("X", "V1", plan.KnownObserved, 3))
	seen := of(at3, doubt.Change{Name: "6.5 m", Plan: withWay(at3, 6.5)}, doubt.Change{Name: "2 m", Plan: withWay(at3, 2)})
	require.Equal(t, 3.0, seen.AtM)
	assert.Zero(t, changeOf(t, seen, "6.5 m").Less.Value)
	none := of(withWay(was.Plan, 0), doubt.Change{Name: "6.5 m", Plan: longer})
	for _, a := range []*report.Report{was, seen, none} { // of 12 m the line is too short: its end is not computed
		last := a.Found.Changes[len(a.Found.Changes)-1]
		assert.ErrorIs(t, last.Err, doubt.ErrNotComputed, last.Name)
		assert.Contains(t, strings.Join(a.Cautions(), "\n"), last.Name+": with it the rig is refused")
	}
}

// A first look tries nothing done otherwise.
func TestAFirstLookTriesNothing(t *testing.T) {
	assert.Empty(t, found(t, "birch", 256, func(p *plan.Plan) *plan.Plan { return p }).Found.Changes)
}

// What slides at the pull to move, by check, is said to be taken as held.
func TestWhatSlidesIsSaidToBeTakenAsHeld(t *testing.T) {
	a := found(t, "ford", 16, func(p *plan.Plan) *plan.Plan { return p })
	checked := solver.Assess(a.Plan, a.Rig)
	var slides []string
	for _, p := range checked.Parts {
		if p.Kind == part.KindSlide && p.Status == part.Over {
			slides = append(slides, p.ID)
		}
	}
	require.NotEmpty(t, slides)
	for i, p := range a.Found.Slides {
		assert.Equal(t, slides[i], p.ID)
	}
	assert.Contains(t, strings.Join(a.Cautions(), "\n"), "is yet taken to pull or hold as hard as is asked: Winch vehicle")
}

// A range of a figure of evidence that no trial draws is said; that of a trace is drawn.
func TestWhatOfEvidenceIsNotDrawnIsSaid(t *testing.T) {
	a := found(t, "ford", 16, func(p *plan.Plan) *plan.Plan {
		x := plan.Pin{ID: "X", Kind: plan.PinLanding, Thing: "B1", Known: plan.KnownTold, Length: plan.Known(quantity.Length(5)), Mass: 4}
		x.Doubts = []plan.Doubt{{Member: "trace_m", Low: 4, High: 6}, {Member: "mass_kg", Low: 3, High: 5}}
		return plan.WithPin(p, 0, x)
	})
	assert.Equal(t, []doubt.Doubtful{{Thing: "X", Member: "mass_kg"}}, a.Found.NotDrawn)
	assert.Contains(t, strings.Join(a.Cautions(), "\n"), "In doubt, but not drawn: Mass (X)")
}

// Two chances that differ are not printed alike: of 0.0138 and 0.0111 a hundred shows nothing.
func TestChancesThatDifferArePrintedApart(t *testing.T) {
	a := found(t, "ford", 16, func(p *plan.Plan) *plan.Plan { return p })
	c := doubt.NamedChange{}
	c.Before, c.After, c.Less = doubt.Estimate{Value: 0.0138}, doubt.Estimate{Value: 0.0111}, doubt.Estimate{Value: 0.0027, Error: 0.0001}
	a.Found.Changes = []doubt.NamedChange{c, c}
	a.Found.Changes[1].Less.Error = 0.01
	before, after, _ := a.Change(0)
	assert.Equal(t, []string{"138 of 10000", "111 of 10000"}, []string{before, after})
	before, after, _ = a.Change(1)
	assert.Equal(t, before, after, "nobody knows whether they differ")
}

// What check finds of a change alone is said with it: a chance that is no lower with a line
// too short is no answer for that line. What it finds of the plan too is not said again.
func TestWhatAChangeBringsIsSaid(t *testing.T) {
	p, err := plan.ParsePlan(read(t, "ford"))
	require.NoError(t, err)
	short, ok := report.With(p, "R1", p.Rigs[0].Lines[0].ID, "length_m", 10)
	require.True(t, ok)
	a, err := report.New(english(t), p, "R1", doubt.Request{Per: 16, Seed: report.Seed, Changes: []doubt.Change{{Name: "short", Plan: short}, {Name: "same", Plan: p}}})
	require.NoError(t, err)
	said := strings.Join(a.Cautions(), "\n")
	assert.Regexp(t, `With short kedge check answers .*: DANGER: Line is .* short: .*10.0.m of line`, said)
	assert.NotContains(t, said, "With same")
	assert.NotContains(t, said, "vehicle slides at", "it does in the plan itself")
}

// A rating that is tried counts though a tag was photographed.
func TestARatingThatIsTriedCountsBeforeTheTag(t *testing.T) {
	p := found(t, "ford", 16, func(p *plan.Plan) *plan.Plan {
		return plan.WithPin(p, 0, plan.Pin{ID: "X", Kind: plan.PinTag, Thing: "K1", Known: plan.KnownObserved, Rating: plan.Rating{Force: 10e3, Basis: plan.BasisWorking}})
	}).Plan
	q, ok := report.With(p, "R1", "K1", "rating.force_n", 20e3)
	require.True(t, ok)
	i := slices.IndexFunc(q.Rigs[0].Incident.Pins, func(q plan.Pin) bool { return q.ID == "X" })
	assert.Equal(t, quantity.Force(20e3), q.Rigs[0].Incident.Pins[i].Rating.Force)
}

// Fewer trials than usual are said, with what that means.
func TestASlowRigIsSaidToBeKnownRoughly(t *testing.T) {
	a := found(t, "ford", 16, func(p *plan.Plan) *plan.Plan { return p })
	said := english(t).Label("recon-slow")
	assert.NotContains(t, a.Cautions(), said)
	a.Found.Slow = true
	assert.Contains(t, a.Cautions(), said)
}

// What was told twice, and not by whom, counts as two accounts: that is said. Of one who is
// entered it is known.
func TestWhoToldTwiceIsAskedFor(t *testing.T) {
	told := func(source string) string {
		return strings.Join(found(t, "ford", 64, func(p *plan.Plan) *plan.Plan {
			first := plan.Pin{ID: "X", Kind: plan.PinFirst, Thing: "K1", Known: plan.KnownTold}
			again := first
			again.ID, again.Source = "Y", source
			return plan.WithPin(plan.WithPin(p, 0, first), 0, again)
		}).Cautions(), "\n")
	}
	assert.Contains(t, told(""), "whether these come from one source")
	assert.NotContains(t, told("the driver"), "one source")
}
