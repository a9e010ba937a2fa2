package plan_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// pinned is a plan of one rig, with an incident.
func pinned(pins ...plan.Pin) *plan.Plan {
	p := plan.New()
	p.Rigs = []plan.Rig{{Head: plan.Head{ID: "R1"}}}
	for _, q := range pins {
		p = plan.WithPin(p, 0, q)
	}
	return p
}

// An edit of evidence leaves the plan before it as it was, to the byte.
func TestEditsOfEvidenceCanBeUndone(t *testing.T) {
	p := pinned(plan.Pin{ID: "A", Kind: plan.PinBroken, Thing: "S1"}, plan.Pin{ID: "B", Kind: plan.PinWhole, Thing: "L1"})
	before, err := plan.FormatPlan(p)
	require.NoError(t, err)
	for what, q := range map[string]*plan.Plan{
		"changed": plan.WithPin(p, 0, plan.Pin{ID: "B", Kind: plan.PinBroken, Thing: "L1"}),
		"added":   plan.WithPin(p, 0, plan.Pin{ID: "C", Kind: plan.PinLayer, Layer: 2}),
		"removed": plan.WithoutPin(p, 0, "A"),
		"prior":   plan.WithPrior(p, 0, plan.Prior{Thing: "S1", Weak: plan.WeakCut, Chance: 0.3}),
		"none":    plan.WithIncident(p, 0, nil),
	} {
		after, err := plan.FormatPlan(p)
		require.NoError(t, err)
		assert.Equal(t, string(before), string(after), what)
		changed, err := plan.FormatPlan(q)
		require.NoError(t, err)
		assert.NotEqual(t, string(before), string(changed), what)
	}
	one := plan.WithPrior(p, 0, plan.Prior{Thing: "S1", Weak: plan.WeakCut, Chance: 0.3})
	two := plan.WithPrior(one, 0, plan.Prior{Thing: "S1", Weak: plan.WeakCut, Chance: 0.4})
	assert.Len(t, two.Rigs[0].Incident.Priors, 1)
	assert.Equal(t, 0.3, one.Rigs[0].Incident.Priors[0].Chance)
	assert.Len(t, plan.WithoutPrior(one, 0, "S1", plan.WeakWorn).Rigs[0].Incident.Priors, 1, "another hypothesis")
	assert.Empty(t, plan.WithoutPrior(one, 0, "S1", plan.WeakCut).Rigs[0].Incident.Priors)
	assert.Len(t, one.Rigs[0].Incident.Priors, 1)
	assert.Same(t, p, plan.WithPin(p, 3, plan.Pin{ID: "A"}), "there is no such rig")
}

// Pins are lettered as columns of a sheet are: A to Z, AA, AB.
func TestNextPin(t *testing.T) {
	n := &plan.Incident{}
	for range 28 {
		n.Pins = append(n.Pins, plan.Pin{ID: n.NextPin()})
	}
	assert.Equal(t, []plan.ID{"A", "B"}, []plan.ID{n.Pins[0].ID, n.Pins[1].ID})
	assert.Equal(t, []plan.ID{"Z", "AA", "AB"}, []plan.ID{n.Pins[25].ID, n.Pins[26].ID, n.Pins[27].ID})
	n.Pins = slices.Delete(n.Pins, 2, 3)
	assert.Equal(t, plan.ID("C"), n.NextPin())
}

// What somebody says of the first break, and how he reads one, weigh no more than what
// is told (8 to 2), whatever is claimed; what is not said to be known weighs nothing.
func TestTrust(t *testing.T) {
	for want, pins := range map[float64][]plan.Pin{
		1:   {{Kind: plan.PinBroken, Known: plan.KnownObserved}, {Kind: plan.PinFirst, Known: plan.KnownObserved, Recorded: true}},
		0.8: {{Kind: plan.PinFirst, Known: plan.KnownObserved}, {Kind: plan.PinLook, Known: plan.KnownObserved, Trust: plan.Known(0.99)}, {Kind: plan.PinWhole, Known: plan.KnownTold}},
		0.5: {{Kind: plan.PinBroken}, {Kind: plan.PinWhole, Known: plan.KnownAssumed}},
		0.9: {{Kind: plan.PinStalled, Known: plan.KnownTold, Trust: plan.Known(0.9)}},
	} {
		for _, q := range pins {
			assert.Equal(t, want, q.Trusted(), "%+v", q)
		}
	}
}

func TestEvidenceIsRefused(t *testing.T) {
	prior := func(chances ...float64) *plan.Plan {
		n := &plan.Incident{}
		for i, x := range chances {
			n.Priors = append(n.Priors, plan.Prior{Thing: "S1", Weak: plan.Weaknesses()[i], Chance: x})
		}
		return plan.WithIncident(pinned(), 0, n)
	}
	many := &plan.Incident{}
	for range plan.MaxPins + 1 {
		many.Pins = append(many.Pins, plan.Pin{ID: many.NextPin(), Kind: plan.PinRut})
	}
	for want, p := range map[string]*plan.Plan{
		`plan: /rigs/0/incident/pins/0/trust: trust-low trust="0"`:                 pinned(plan.Pin{ID: "A", Trust: plan.Known(0.0)}),
		`plan: /rigs/0/incident/pins/0: range-backwards low="2000" high="1000"`:    pinned(plan.Pin{ID: "A", Low: 2000, High: 1000}),
		`plan: /rigs/0/incident/pins/0/doubts/0: range-backwards low="3" high="2"`: pinned(plan.Pin{ID: "A", Length: plan.Known(quantity.Length(2)), Doubts: []plan.Doubt{{Member: "trace_m", Low: 3, High: 2}}}),
		`plan: /rigs/0/incident/pins/0/id: id-empty`:                               pinned(plan.Pin{}),
		`plan: /rigs/0/incident/priors/1: priors-whole id="S1"`:                    prior(0.6, 0.4),
		`plan: /rigs/0/incident/priors/0/prior: more-than x="1.5" most="1"`:        prior(1.5),
		`plan: /rigs/0/incident: many-pins`:                                        plan.WithIncident(pinned(), 0, many),
		`plan: /rigs/0/incident/none_prior: prior-sure`:                            plan.WithIncident(pinned(), 0, &plan.Incident{None: plan.Known(1.0)}),
		`plan: /rigs/0/incident/jerk_prior: prior-sure`:                            plan.WithIncident(pinned(), 0, &plan.Incident{Jerk: plan.Known(1.0)}),
	} {
		assert.EqualError(t, plan.Validate(p), want)
	}
	assert.NoError(t, plan.Validate(prior(0.6, 0.3)))
	assert.NoError(t, plan.Validate(pinned(plan.Pin{ID: "A", Low: 2000})), "from there up")
	assert.NoError(t, plan.Validate(pinned(plan.Pin{ID: "A", Thing: "gone"})), "what was taken out is no reference")
	assert.Equal(t, []string{"/rigs/0/incident/pins/0/kind"}, plan.UnknownWords(pinned(plan.Pin{ID: "A", Kind: "seen in a dream"})))
}

// A thing added after another was taken out never gets the id that evidence is about:
// it would speak of the wrong thing, and nobody would see it.
func TestNewIDKeepsOffWhatEvidenceIsAbout(t *testing.T) {
	p := pinned(plan.Pin{ID: "A", Kind: plan.PinBroken, Thing: "K2"})
	assert.Equal(t, plan.ID("K3"), plan.NewID(p, plan.PrefixShackle))
	p = plan.WithPrior(p, 0, plan.Prior{Thing: "S4", Weak: plan.WeakCut, Chance: 0.3})
	assert.Equal(t, plan.ID("S5"), plan.NewID(p, plan.PrefixSling))
	assert.Equal(t, plan.ID("B1"), plan.NewID(p, plan.PrefixBlock))
}

// A pin is found among the things of its rig, whatever thing has the same letter.
func TestPinsAreFound(t *testing.T) {
	p := pinned(plan.Pin{ID: "A", Kind: plan.PinBroken}, plan.Pin{ID: "B", Kind: plan.PinWhole})
	p.Site.Anchors = []plan.Anchor{{Head: plan.Head{ID: "A"}, Kind: plan.AnchorBoulder}}
	x := plan.NewIndex(p, &p.Rigs[0])
	assert.Equal(t, plan.ThingAnchor, x.Kind("A"))
	assert.Nil(t, x.Pin("A"))
	assert.Equal(t, plan.PinWhole, x.Pin(plan.PinRef("B")).Kind)
	assert.Equal(t, plan.ThingPin, x.Kind(p.Rigs[0].Incident.Pins[0].Ref()))
	assert.Nil(t, plan.NewIndex(p, nil).Pin(plan.PinRef("B")), "the site alone has none")
	letter, ok := plan.RefPin(plan.PinRef("B"))
	assert.True(t, ok)
	assert.Equal(t, plan.ID("B"), letter)
	_, ok = plan.RefPin("/ground")
	assert.False(t, ok)
}

// What is offered for a kind of thing are kinds of pin, each once; the last piece of
// evidence taken away leaves no incident.
func TestPinKindsForThings(t *testing.T) {
	p := pinned(plan.Pin{ID: "A", Kind: plan.PinBroken})
	p.Site.Vehicles = []plan.Vehicle{{Head: plan.Head{ID: "V1"}, Stuck: &plan.Stuck{}}, {Head: plan.Head{ID: "V2"}}}
	p.Site.Anchors = []plan.Anchor{{Head: plan.Head{ID: "T1"}}}
	p.Rigs[0].Slings = []plan.Sling{{Head: plan.Head{ID: "S1"}}}
	x := plan.NewIndex(p, &p.Rigs[0])
	for _, c := range []struct{ thing, first, never string }{
		{"V1", plan.PinRut, plan.PinSkid}, {"V2", plan.PinStalled, plan.PinRut}, {"T1", plan.PinMoved, plan.PinLanding},
		{"S1", plan.PinBroken, plan.PinMoved}, {"", plan.PinTension, plan.PinBroken}} {
		kinds := x.PinKindsFor(plan.ID(c.thing))
		assert.Equal(t, c.first, kinds[0], c.thing)
		assert.NotContains(t, kinds, c.never, c.thing)
		for i, k := range kinds {
			assert.Contains(t, plan.PinKinds(), k)
			assert.NotContains(t, kinds[:i], k)
		}
		assert.LessOrEqual(t, len(kinds), 9, "each has a digit")
	}
	assert.Nil(t, plan.WithoutPin(p, 0, "A").Rigs[0].Incident)
}
