package doubt_test

import (
	"context"
	"math"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/doubt"
	"kedge/solver/facts"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// seen is the example plan after something was seen of it. Its sling is as short of
// strength as the line, so that what happened is no rarity.
func seen(t *testing.T, pins ...plan.Pin) *plan.Plan {
	t.Helper()
	p := redirect(t, func(p *plan.Plan) {
		s := &p.Rigs[0].Slings[0]
		s.Rating = plan.Rating{Force: 50e3, Basis: plan.BasisBreaking}
	})
	for _, q := range pins {
		p = plan.WithPin(p, 0, q)
	}
	return p
}

func rebuilt(t *testing.T, p *plan.Plan, changes ...doubt.Change) *doubt.Reconstruction {
	t.Helper()
	r, err := doubt.Reconstruct(p, "R1", doubt.Request{Per: 256, Seed: 2, Workers: 2, Changes: changes})
	require.NoError(t, err)
	return r
}

var slingBroken = plan.Pin{ID: "A", Kind: plan.PinBroken, Thing: "S1", Known: plan.KnownObserved}

// The sling that was found broken is the first candidate in some state, no other part
// is one, and what changes nothing lowers nothing: every pull that agrees fails with it
// too.
func TestReconstructsAPlan(t *testing.T) {
	whole(t)
	p := seen(t, slingBroken)
	longer, ok := doubt.With(p, "R1", "S1", "rating.force_n", 500e3)
	require.True(t, ok)
	r := rebuilt(t, p, doubt.Change{Name: "nothing", Plan: p}, doubt.Change{Name: "stronger", Plan: longer})
	require.NotEqual(t, doubt.TooFew, r.Answer.Verdict)
	sum := 0.0
	for _, c := range r.Answer.Candidates {
		if c.Part == "S1" {
			sum += c.Posterior.Value
		}
	}
	assert.InDelta(t, 1, sum, 1e-9, "the chances share out the whole")
	require.Len(t, r.Changes, 2)
	assert.Equal(t, "stronger", r.Changes[0].Name, "what lowers it most comes first")
	assert.Less(t, r.Changes[0].After.Value, r.Changes[0].Before.Value/2)
	assert.Zero(t, r.Changes[1].Less.Value)
	assert.Equal(t, 1.0, r.Changes[1].StillFails.Value)
	for _, s := range r.Sensitive {
		assert.False(t, math.IsNaN(s.Given.Value), s.What)
	}
}

// What is done otherwise may be a figure that is drawn: a casualty of another mass, one
// whose mass the plan gives a range of, a block that turns better. Before any fact the pull
// fails as often then as that of a plan which says so itself, drawn by itself.
func TestAChangeOfADrawnFigureCounts(t *testing.T) {
	whole(t)
	for name, c := range map[string]struct {
		of     func(p *plan.Plan)
		thing  plan.ID
		member string
		x      float64
	}{
		"mass":  {func(*plan.Plan) {}, "V1", "mass_kg", 3200},
		"range": {func(p *plan.Plan) { doubtMass(p, 2500, 2700, false) }, "V1", "mass_kg", 3200},
		"proposed": {func(p *plan.Plan) {
			p.Rigs[0].Blocks[0].Efficiency, p.Rigs[0].Blocks[0].Presets = 0.9, []string{"efficiency"}
		}, "B1", "efficiency", 0.4},
	} {
		p := seen(t, slingBroken)
		c.of(p)
		other, ok := doubt.With(p, "R1", c.thing, c.member, c.x)
		require.True(t, ok, name)
		there, itself := rebuilt(t, p, doubt.Change{Name: name, Plan: other}), rebuilt(t, other, doubt.Change{Plan: other})
		require.Len(t, there.Changes, 1)
		require.NoError(t, there.Changes[0].Err)
		assert.Greater(t, math.Abs(there.Changes[0].Less.Value), 0.02, name)
		assert.InDelta(t, itself.Changes[0].Before.Value, there.Changes[0].After.Value, 0.01, name)
	}
}

// However many changes are asked for, each is as it is alone, and one that is not computed
// says so and takes nothing from the others.
func TestManyChangesAreEachAsAlone(t *testing.T) {
	whole(t)
	p := seen(t, slingBroken)
	ask := func(changes ...doubt.Change) []doubt.NamedChange {
		r, err := doubt.Reconstruct(p, "R1", doubt.Request{Per: 16, Seed: 2, Workers: 2, Changes: changes})
		require.NoError(t, err)
		return r.Changes
	}
	stronger, ok := doubt.With(p, "R1", "S1", "rating.force_n", 500e3)
	require.True(t, ok)
	gone := plan.WithRig(p, 0, plan.Rig{Head: plan.Head{ID: "R1"}})
	want := ask(doubt.Change{Name: "stronger", Plan: stronger})[0]
	all := []doubt.Change{{Name: "gone", Plan: gone}}
	for range 65 {
		all = append(all, doubt.Change{Name: "stronger", Plan: stronger})
	}
	got := ask(all...)
	require.Len(t, got, 66)
	for _, c := range got[:65] {
		require.Equal(t, want.Changed, c.Changed)
	}
	assert.Error(t, got[65].Err)
	assert.Equal(t, "gone", got[65].Name)
}

func TestReconstructionsAreTheSameBits(t *testing.T) {
	p := seen(t, slingBroken)
	one, err := doubt.Reconstruct(p, "R1", doubt.Request{Per: 256, Seed: 2, Workers: 1})
	require.NoError(t, err)
	two, err := doubt.Reconstruct(p, "R1", doubt.Request{Per: 256, Seed: 2, Workers: 8})
	require.NoError(t, err)
	assert.Equal(t, one.Answer.Candidates, two.Answer.Candidates)
	assert.Equal(t, one.Answer.BandN, two.Answer.BandN)
}

// A cut seen before the pull makes what was held 9 of 10, and is not read from the break
// again; what the plan says of a prior overrules it.
func TestWhatWasSeenBeforeIsAPriorOnce(t *testing.T) {
	whole(t)
	before := plan.Pin{ID: "A", Kind: plan.PinSeenBefore, Thing: "S1", Look: plan.LookCut, Known: plan.KnownObserved}
	look := plan.Pin{ID: "B", Kind: plan.PinLook, Thing: "S1", Look: plan.LookCut, Known: plan.KnownObserved}
	prior := func(r *doubt.Reconstruction) (p doubt.PriorOf) {
		for _, q := range r.Priors {
			if q.Part == "S1" && q.Way == plan.WeakCut {
				p = q
			}
		}
		return p
	}
	p := seen(t, before, look, slingBrokenAs("C"))
	r := rebuilt(t, p)
	assert.Equal(t, facts.DoubtPriorCutBefore, prior(r).Fact)
	assert.InDelta(t, 0.9, prior(r).Chance, 1e-9)
	assert.Equal(t, doubt.SaidBefore, r.Pins[1].Why)
	r = rebuilt(t, plan.WithPrior(p, 0, plan.Prior{Thing: "S1", Weak: plan.WeakCut, Chance: 0.2}))
	assert.Equal(t, doubt.PriorOf{Part: "S1", Way: plan.WeakCut, Chance: 0.2}, prior(r))
}

func slingBrokenAs(id plan.ID) plan.Pin {
	q := slingBroken
	q.ID = id
	return q
}

// A photographed tag is the rating, whatever the plan had.
func TestAPhotographedTagIsTheRating(t *testing.T) {
	whole(t)
	strength := func(pins ...plan.Pin) float64 {
		for _, a := range rebuilt(t, seen(t, pins...)).Assumed {
			if a.What == "strength" && a.Part == "S1" {
				_, figures := a.Dist.Words()
				return figures[0]
			}
		}
		return 0
	}
	tag := plan.Pin{ID: "B", Kind: plan.PinTag, Thing: "S1", Known: plan.KnownObserved, Rating: plan.Rating{Force: 25e3, Basis: plan.BasisBreaking}}
	assert.InEpsilon(t, 0.5, strength(slingBroken, tag)/strength(slingBroken), 1e-9)
}

// A resting place alone weighs nothing: bounced, slid or rolled, it may be anywhere.
func TestARestingPlaceMovesNoBit(t *testing.T) {
	whole(t)
	rest := plan.Pin{ID: "B", Kind: plan.PinResting, Thing: "B1", Length: plan.Known(quantity.Length(30)), Known: plan.KnownObserved}
	assert.Equal(t, rebuilt(t, seen(t, slingBroken)).Answer, rebuilt(t, seen(t, slingBroken, rest)).Answer)
}

func TestContradictions(t *testing.T) {
	broken, whole := plan.Pin{Kind: plan.PinBroken, Thing: "S1"}, plan.Pin{Kind: plan.PinWhole, Thing: "S1"}
	m := func(x float64) plan.Maybe[quantity.Length] { return plan.Known(quantity.Length(x)) }
	for what, tt := range map[string]struct {
		a, b plan.Pin
		is   bool
	}{
		"broken and whole":        {broken, whole, true},
		"another whole":           {broken, plan.Pin{Kind: plan.PinWhole, Thing: "L1"}, false},
		"first, yet whole":        {plan.Pin{Kind: plan.PinFirst, Thing: "S1"}, whole, true},
		"whole, yet a break seen": {plan.Pin{Kind: plan.PinLook, Thing: "S1", Look: plan.LookCut}, whole, true},
		"whole, yet open":         {plan.Pin{Kind: plan.PinLook, Thing: "S1", Look: plan.LookOpened}, whole, false},
		"two firsts":              {plan.Pin{Kind: plan.PinFirst, Thing: "S1"}, plan.Pin{Kind: plan.PinFirst, Thing: "L1"}, true},
		"stalled, yet broken":     {plan.Pin{Kind: plan.PinStalled}, broken, true},
		"stalled before that":     {plan.Pin{Kind: plan.PinStalled, Earlier: true}, broken, false},
		"layers":                  {plan.Pin{Kind: plan.PinLayer, Layer: 1}, plan.Pin{Kind: plan.PinLayer, Layer: 2}, true},
		"tensions apart":          {plan.Pin{Kind: plan.PinTension, High: 10}, plan.Pin{Kind: plan.PinTension, Low: 11, High: 12}, true},
		"tensions that overlap":   {plan.Pin{Kind: plan.PinTension, High: 11}, plan.Pin{Kind: plan.PinTension, Low: 10, High: 12}, false},
		"skidded and did not":     {plan.Pin{Kind: plan.PinSkid, Thing: "V2", Length: m(0)}, plan.Pin{Kind: plan.PinSkid, Thing: "V2", Length: m(1)}, true},
		"skidded by more or less": {plan.Pin{Kind: plan.PinSkid, Thing: "V2", Length: m(2)}, plan.Pin{Kind: plan.PinSkid, Thing: "V2", Length: m(1)}, false},
	} {
		used := []doubt.PinUse{{Pin: &tt.a}, {Pin: &tt.b}}
		assert.Len(t, doubt.Contradictions(used), map[bool]int{true: 1}[tt.is], what)
		used[0].Pin, used[1].Pin = used[1].Pin, used[0].Pin
		assert.Len(t, doubt.Contradictions(used), map[bool]int{true: 1}[tt.is], "the other way round: "+what)
	}
}

// One person is one source however the name is typed: told twice is told once, with the
// same answer to the bit.
func TestASourceIsOneHoweverItIsTyped(t *testing.T) {
	told := func(id plan.ID, source string) plan.Pin {
		return plan.Pin{ID: id, Kind: plan.PinFirst, Thing: "S1", Known: plan.KnownTold, Source: source}
	}
	want := rebuilt(t, seen(t, told("A", "the driver"))).Answer.Candidates
	for _, typed := range []string{"the driver", "The Driver", " the  driver "} {
		assert.Equal(t, want, rebuilt(t, seen(t, told("A", "the driver"), told("B", typed))).Answer.Candidates, typed)
	}
}

func TestNothingSeenIsNotReconstructed(t *testing.T) {
	_, err := doubt.Reconstruct(seen(t), "R1", doubt.Request{Per: 64})
	assert.ErrorIs(t, err, doubt.ErrNoEvidence)
	p := seen(t, slingBroken)
	p.Site.Vehicles[0].Stuck = nil
	_, err = doubt.Reconstruct(p, "R1", doubt.Request{Per: 64})
	assert.Error(t, err, "a rig that is not computed")
}

// What both were said to have seen cannot be: no answer, and a fact that fits worst.
func TestImpossibleEvidenceHasNoAnswer(t *testing.T) {
	whole(t)
	r := rebuilt(t, seen(t, slingBroken, plan.Pin{ID: "B", Kind: plan.PinWhole, Thing: "S1", Known: plan.KnownObserved}))
	assert.Equal(t, doubt.TooFew, r.Answer.Verdict)
	assert.Empty(t, r.Answer.Candidates)
	assert.Equal(t, [][2]int{{0, 1}}, r.Contradict)
	assert.GreaterOrEqual(t, r.Answer.Worst, 0)
}

// A sampling that is given up answers nothing, and asks the rig no more than a few trials
// further on.
func TestASamplingIsGivenUp(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	in, asked := threeParts(false), 0
	pull := in.Pull
	in.Context, in.Pull = ctx, func(x []float64, p *doubt.Pull) {
		if asked++; asked == 100 {
			stop()
		}
		pull(x, p)
	}
	_, err := doubt.Take(in, 1024, 1, 1)
	assert.ErrorIs(t, err, context.Canceled)
	assert.LessOrEqual(t, asked, 100+64)
	_, err = doubt.Reconstruct(seen(t, slingBroken), "R1", doubt.Request{Per: 64, Seed: 1, Workers: 1, Context: ctx})
	assert.ErrorIs(t, err, context.Canceled)
}

// impatient is a context that is cancelled when it was asked so often.
type impatient struct {
	context.Context
	left atomic.Int64
}

func (c *impatient) Err() error {
	if c.left.Add(-1) < 0 {
		return context.Canceled
	}
	return nil
}

// Wherever it is given up, nothing is answered, and no worker goes on for longer than it
// takes to look again.
func TestWhateverIsAskedIsGivenUp(t *testing.T) {
	p := redirect(t, func(p *plan.Plan) {
		p.Site.Vehicles[1].Doubts = []plan.Doubt{{Member: "mass_kg", Low: 2300, High: 2700, PlusMinus: true}}
	})
	rebuild := seen(t, slingBroken)
	for _, at := range []int64{0, 1, 30, 1000} {
		c := &impatient{Context: context.Background()}
		c.left.Store(at)
		_, err := doubt.SamplePlan(p, "R1", doubt.Request{Per: 64, Seed: 1, Workers: 2, Context: c})
		require.ErrorIs(t, err, context.Canceled, at)
		assert.GreaterOrEqual(t, c.left.Load(), int64(-10), at)
		c.left.Store(at)
		_, err = doubt.Reconstruct(rebuild, "R1", doubt.Request{Per: 1024, Seed: 1, Workers: 2, Context: c})
		require.ErrorIs(t, err, context.Canceled, at)
	}
}

// What was found broken, but has no rating, or is in no rig: no answer, and no blame for
// what has one.
func TestWhatFailedButIsNotKnownHasNoAnswer(t *testing.T) {
	whole(t)
	unrated := redirect(t, func(p *plan.Plan) { p.Rigs[0].Slings[0].Rating = plan.Rating{} })
	for what, p := range map[string]*plan.Plan{
		"unrated": plan.WithPin(unrated, 0, slingBroken),
		"gone":    seen(t, plan.Pin{ID: "A", Kind: plan.PinBroken, Thing: "S9", Known: plan.KnownTold}),
	} {
		r := rebuilt(t, p)
		assert.False(t, r.Answered(), what)
		assert.Equal(t, []int{0}, r.Blocked, what)
		assert.Empty(t, r.Answer.Candidates, what)
		assert.Empty(t, r.Ratios, what)
	}
	assert.True(t, rebuilt(t, seen(t, slingBroken, plan.Pin{ID: "B", Kind: plan.PinBroken, Thing: "S9"})).Answered(), "what is only assumed blocks nothing")
}

// A sling of unknown condition has a strength, and is held more likely to be weak.
func TestAnUnknownConditionIsAPrior(t *testing.T) {
	whole(t)
	p := seen(t, slingBroken)
	p.Rigs[0].Slings[0].Condition = plan.ConditionUnknown
	for _, q := range rebuilt(t, p).Priors {
		if q.Part == "S1" && q.Way == plan.WeakCut {
			assert.Equal(t, facts.DoubtPriorUnknown, q.Fact)
			return
		}
	}
	t.Error("it is no candidate")
}

// whole skips a whole reconstruction in short runs, such as those that look for races:
// TestReconstructionsAreTheSameBits has all the workers.
func whole(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("takes seconds")
	}
}

// What has no strength with a change would seem never to fail: that is not computed.
func TestAChangeToNoRatingIsNotComputed(t *testing.T) {
	p := seen(t, slingBroken)
	none, ok := doubt.With(p, "R1", "S1", "rating.force_n", 0)
	require.True(t, ok)
	r, err := doubt.Reconstruct(p, "R1", doubt.Request{Per: 16, Seed: 2, Changes: []doubt.Change{{Name: "none", Plan: none}}})
	require.NoError(t, err)
	assert.ErrorIs(t, r.Changes[0].Err, doubt.ErrNotComputed)
}
