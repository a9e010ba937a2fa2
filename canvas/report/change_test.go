package report_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/report"
	"kedge/canvas/words"
	"kedge/solver/doubt"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// found is what may have happened with the first rig of an incident of Curlew Moss.
func found(t *testing.T, name string, per int, change func(p *plan.Plan) *plan.Plan) *report.Report {
	t.Helper()
	data, err := os.ReadFile("../../assets/plans/incidents/" + name + ".kedge")
	require.NoError(t, err)
	p, err := plan.ParsePlan(data)
	require.NoError(t, err)
	w, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	p = change(p)
	a, err := report.New(w, p, p.Rigs[0].ID, doubt.Request{Per: per, Seed: report.Seed, Workers: 2})
	require.NoError(t, err)
	require.NotNil(t, a.Found)
	return a
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

// With another length of way it is another pull, which the places of this one do not answer
// for.
func TestALongerWayIsNotAnsweredFor(t *testing.T) {
	data, err := os.ReadFile("../../assets/plans/incidents/ford.kedge")
	require.NoError(t, err)
	p, err := plan.ParsePlan(data)
	require.NoError(t, err)
	longer, err := plan.ParsePlan(data)
	require.NoError(t, err)
	longer.Casualty().Stuck.WayLength *= 2
	w, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	a, err := report.New(w, p, p.Rigs[0].ID, doubt.Request{Per: 64, Seed: report.Seed, Workers: 2, Changes: []doubt.Change{{Name: "longer", Plan: longer}, {Name: "the same", Plan: p}}})
	require.NoError(t, err)
	require.Len(t, a.Found.Changes, 2)
	for i := range a.Found.Changes {
		c := &a.Found.Changes[i]
		assert.Equal(t, c.Name == "longer", c.Err != nil, c.Name)
	}
	assert.Contains(t, strings.Join(a.Cautions(), "\n"), "longer")
}

// A first look tries nothing done otherwise.
func TestAFirstLookTriesNothing(t *testing.T) {
	assert.Empty(t, found(t, "birch", 256, func(p *plan.Plan) *plan.Plan { return p }).Found.Changes)
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
