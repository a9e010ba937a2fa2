package words

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// slideTexts has the sentences of what is read first.
var slideTexts = map[string]string{"en-x.toml": `
[finding.slides]
what = "{thing} slides before the casualty moves: needs {need:bare}, holds {holds}."
do = "Tie it back to an anchor good for {need}."
[finding.over]
what = "{part} carries {used} of its limit."
do = "Wait."
`}

func withScreen(t *testing.T, more map[string]string) *Words {
	t.Helper()
	w := english(t, quantity.Metric)
	c, err := readCatalogue(folder(more), "en")
	require.NoError(t, err)
	merged := &catalogue{texts: map[key]string{}}
	for k, text := range w.own.texts {
		merged.texts[k] = text
	}
	for k, text := range c.texts {
		merged.texts[k] = text
	}
	return &Words{lang: "en", own: merged, base: merged}
}

func slides() part.Finding {
	return part.Finding{ID: "slides", Level: part.Danger, Things: ids("V2"), Values: []part.Value{force("need", 29_300), limit("holds", 5100)}}
}

// A distance up to which something goes on is rounded down: at 2.999 m, told as 3 m, it
// has run into it.
func TestDistancesToWhatEndsAPullAreRoundedDown(t *testing.T) {
	value := func(name string, x float64) part.Value { return part.Value{Name: name, Unit: part.UnitLength, X: x} }
	for _, f := range []part.Finding{
		{ID: "casualty-meets", Things: ids("V1", "O1"), Values: []part.Value{value("after", 2.999)}},
		{ID: "line-cannot-pass", Things: ids("D1", "B1"), Values: []part.Value{{Name: "what", Unit: part.UnitText, Text: "damper"}, value("after", 2.999), value("haul", 8)}},
		{ID: "pull-stops", Things: ids("V1"), Values: []part.Value{value("end", 2.999), value("long", 8)}},
	} {
		for _, lang := range []string{"en", "de"} {
			w, err := New(lang, quantity.Metric)
			require.NoError(t, err)
			text, _ := w.Finding(f, nil)
			assert.Regexp(t, `2[.,]9`, text, f.ID)
			assert.NotRegexp(t, `\b3[.,]0`, text, f.ID)
		}
	}
}

func TestVerdictLine(t *testing.T) {
	w := withScreen(t, slideTexts)
	names := called("V2", "Winch vehicle")
	loaded := []part.Part{{ID: "L1/0", Kind: part.KindStretch, Thing: "L1"}}
	for _, c := range []struct {
		name string
		a    *solver.Assessment
		want string
	}{
		{"worked by hand", &solver.Assessment{Parts: loaded, Findings: []part.Finding{slides(), {ID: "b", Level: part.Caution}, {ID: "c", Level: part.Caution}}, Resistance: solver.Resistance{PlanOn: plan.PlanHigh}},
			"DANGER  Winch vehicle slides before the casualty moves: needs 29.3, holds 5.1 kN · planned for HIGH resistance, LOW anchor hold · 2 more ▸"},
		{"alone", &solver.Assessment{Parts: loaded, Findings: []part.Finding{slides()}},
			"DANGER  Winch vehicle slides before the casualty moves: needs 29.3, holds 5.1 kN · planned for HIGH resistance, LOW anchor hold"},
		{"planned for likely", &solver.Assessment{Parts: loaded, Findings: []part.Finding{slides()}, Resistance: solver.Resistance{PlanOn: plan.PlanLikely}},
			"DANGER  Winch vehicle slides before the casualty moves: needs 29.3, holds 5.1 kN · planned for LIKELY resistance, LOW anchor hold"},
		{"nothing found", &solver.Assessment{Parts: loaded, Complete: true}, "No finding on the stated basis. People stay outside the zones."},
		{"nothing found, not all computed", &solver.Assessment{Parts: loaded}, "Not everything was computed. People stay outside the zones."},
		{"no assessment", nil, "Nothing to check yet."},
		{"empty", &solver.Assessment{}, "Nothing to check yet."},
		{"empty but for what an empty sheet finds", &solver.Assessment{Findings: []part.Finding{{ID: "nothing-pulls"}, {ID: "no-casualty"}}}, "Nothing to check yet."},
		{"vehicles alone", &solver.Assessment{Findings: []part.Finding{{ID: "presets", Level: part.Caution, Values: []part.Value{{Name: "count", Unit: part.UnitCount, X: 4}}}}},
			"CAUTION  4 ratings are assumed, not read from a tag · planned for HIGH resistance, LOW anchor hold"},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, plain(w.VerdictLine(c.a, names))) })
	}
	level, has, _, more := w.Verdict(&solver.Assessment{Parts: loaded, Findings: []part.Finding{slides(), {ID: "b"}}}, names)
	assert.True(t, has)
	assert.Equal(t, part.Danger, level)
	assert.Equal(t, 1, more)
	_, has, _, _ = w.Verdict(&solver.Assessment{Parts: loaded, Complete: true}, names)
	assert.False(t, has)
}

func TestChipShowsWhatIsNotPlannedOnHigh(t *testing.T) {
	w := english(t, quantity.Metric)
	on := func(s string) *solver.Assessment {
		return &solver.Assessment{Resistance: solver.Resistance{PlanOn: s}}
	}
	assert.Empty(t, w.Chip(on(plan.PlanHigh)))
	assert.Empty(t, w.Chip(on("")))
	assert.Equal(t, "PLANNED FOR LIKELY", w.Chip(on(plan.PlanLikely)))
	assert.Equal(t, "PLANNED FOR LOW", w.Chip(on(plan.PlanLow)))
}

func TestAFindingNamesItsParts(t *testing.T) {
	w := withScreen(t, slideTexts)
	a := &solver.Assessment{
		Parts:    []part.Part{{ID: "L1/0", Kind: part.KindStretch, Thing: "L1", From: "V2/winch", To: "B1"}},
		Findings: []part.Finding{{ID: "over", Level: part.Danger, Things: ids("L1"), Parts: []string{"L1/0"}, Values: []part.Value{{Name: "used", Unit: part.UnitShare, X: 1.27}}}},
	}
	n := called("L1", "Line", "B1", "Block 1")
	what, _ := w.Finding(a.Findings[0], w.Naming(a, n))
	assert.Equal(t, "Line, fairlead to Block 1 carries 127 % of its limit.", plain(what))
	what, _ = w.Finding(a.Findings[0], n)
	assert.Equal(t, "Line, 0 carries 127 % of its limit.", plain(what), "without the assessment the id is taken apart")
	what, _ = w.Finding(part.Finding{ID: "over", Things: ids("L1")}, n)
	assert.Equal(t, "Line carries [used] of its limit.", what, "a value that is not carried shows its name")
}

// As it reads: `Spotter 1 · inside bight`, `Operator 1 · outside the zones`.
func TestPeople(t *testing.T) {
	w := english(t, quantity.Metric)
	n := called("P1", "Spotter 1", "P2", "Operator 1")
	assert.Equal(t, "Spotter 1 · inside bight", w.Person(solver.PersonAt{Person: "P1", Inside: []part.ZoneKind{part.ZoneBight}}, n))
	assert.Equal(t, "Spotter 1 · inside recoil, bight and stand-off", w.Person(solver.PersonAt{Person: "P1", Inside: []part.ZoneKind{part.ZoneRecoil, part.ZoneBight, part.ZoneStandOff}}, n))
	assert.Equal(t, "Operator 1 · outside the zones", w.Person(solver.PersonAt{Zoned: true, Person: "P2"}, n))
}

// look.png, the rows of Loads.
func TestPartNames(t *testing.T) {
	w := english(t, quantity.Metric)
	p := &plan.Plan{
		Site: plan.Site{
			Vehicles: []plan.Vehicle{
				{Head: plan.Head{ID: "V1"}, Stuck: &plan.Stuck{}, Recovery: []plan.RecoveryPoint{{ID: "p1", Name: "front recovery point"}}},
				{Head: plan.Head{ID: "V2"}, Winch: &plan.Winch{}},
			},
			Anchors: []plan.Anchor{{Head: plan.Head{ID: "A1"}, Kind: plan.AnchorTree}},
		},
		Rigs: []plan.Rig{{Head: plan.Head{ID: "R1"}, Lines: []plan.Line{{Head: plan.Head{ID: "L1"}, Path: []plan.Port{{Thing: "V2", Point: plan.PortWinch}, {Thing: "B1"}}}}, Blocks: []plan.Block{{Head: plan.Head{ID: "B1"}}},
			Slings: []plan.Sling{{Head: plan.Head{ID: "S1"}}}, Shackles: []plan.Shackle{{Head: plan.Head{ID: "K1"}}}}},
	}
	n := w.Names(p, "R1")
	for _, c := range []struct {
		want string
		p    part.Part
	}{
		{"Line, fairlead to Block 1", part.Part{ID: "L1/0", Kind: part.KindStretch, Thing: "L1", From: "V2", To: "B1"}},
		{"Line, Block 1 to Casualty", part.Part{ID: "L1/1", Kind: part.KindStretch, Thing: "L1", Index: 1, From: "B1", To: "V1/p1"}},
		{"Line, stretch 2", part.Part{ID: "L1/1", Kind: part.KindStretch, Thing: "L1", Index: 1}},
		{"Winch, layer 2", part.Part{ID: "V2/winch", Kind: part.KindWinch, Thing: "V2", Layer: 2}},
		{"Winch", part.Part{ID: "V2/winch", Kind: part.KindWinch, Thing: "V2"}},
		{"Winch vehicle sliding", part.Part{ID: "V2/slide", Kind: part.KindSlide, Thing: "V2"}},
		{"Casualty tipping", part.Part{ID: "V1/tip", Kind: part.KindTip, Thing: "V1"}},
		{"Casualty, front recovery point", part.Part{ID: "V1/p1", Kind: part.KindPoint, Thing: "V1"}},
		{"Tree 1", part.Part{ID: "A1", Kind: part.KindAnchor, Thing: "A1"}},
		{"Block 1", part.Part{ID: "B1", Kind: part.KindBlock, Thing: "B1"}},
		{"Sling 1, heavier leg", part.Part{ID: "S1", Kind: part.KindSling, Thing: "S1", Angle: 25.3}},
		{"Sling 1", part.Part{ID: "S1", Kind: part.KindSling, Thing: "S1"}},
		{"Shackle 1", part.Part{ID: "K1", Kind: part.KindShackle, Thing: "K1"}},
		{"Fairlead of Winch vehicle", part.Part{ID: "V2/fairlead", Kind: part.KindFairlead, Thing: "V2"}},
		{"Line, soft shackle at Casualty", part.Part{ID: "L1/end", Kind: part.KindEnd, Thing: "L1", To: "V1", Values: []part.Value{{Name: "connector", Unit: part.UnitText, Text: "connector-soft shackle"}}}},
		{"Line, connector at Block 1", part.Part{ID: "L1/start", Kind: part.KindEnd, Thing: "L1", To: "B1", Values: []part.Value{{Name: "connector", Unit: part.UnitText, Text: "connector-"}}}},
	} {
		t.Run(c.want, func(t *testing.T) { assert.Equal(t, c.want, w.PartName(&c.p, n)) })
	}
	assert.Equal(t, "S9", w.PartName(&part.Part{Kind: part.KindSling, Thing: "S9"}, nil), "without names the id")

	p.Site.Vehicles = append(p.Site.Vehicles, plan.Vehicle{Head: plan.Head{ID: "V3", Name: "Second winch"}, Winch: &plan.Winch{}})
	p.Rigs[0].Lines = append(p.Rigs[0].Lines, plan.Line{Head: plan.Head{ID: "L2"}})
	two := w.Names(p, "R1")
	assert.Equal(t, "Line 2", two("L2"), "of two lines each has its number")
	assert.Equal(t, "Winch of Second winch, layer 1", w.PartName(&part.Part{Kind: part.KindWinch, Thing: "V3", Layer: 1}, two))
	assert.Equal(t, "Line 2, Winch vehicle 1 to Block 1", w.PartName(&part.Part{Kind: part.KindStretch, Thing: "L2", From: "V2", To: "B1"}, two), "a tie-back comes from no fairlead")
	assert.Nil(t, w.Names(nil, "R1"))
	assert.Empty(t, w.Names(p, "none")("L1"), "a rig that is not there leaves the site")
}

// Storyboard A 19: nearest way out.
func TestWayOutSaysHowFarAndWhichWay(t *testing.T) {
	w := english(t, quantity.Metric)
	in := []part.ZoneKind{part.ZoneBight}
	at := plan.Point{X: 22, Y: 13}
	assert.Equal(t, "nearest way out 5.0 m north-east", plain(w.WayOut(solver.PersonAt{Inside: in, At: at, Out: plan.Point{X: 25, Y: 17}, OutKnown: true})), "3, 4, 5")
	assert.Equal(t, "nearest way out 2.1 m west", plain(w.WayOut(solver.PersonAt{Inside: in, At: at, Out: plan.Point{X: 19.99, Y: 13}, OutKnown: true})), "rounded up")
	assert.Empty(t, w.WayOut(solver.PersonAt{Inside: in, At: at}), "not known")
	assert.Empty(t, w.WayOut(solver.PersonAt{At: at, Out: plan.Point{}, OutKnown: true}), "outside already")
	for bearing, want := range map[quantity.Degrees]string{0: "north", 22: "north", 23: "north-east", 180: "south", -90: "west", 338: "north", 337: "north-west"} {
		assert.Equal(t, want, w.Compass(bearing), "%v", bearing)
	}
}

func TestAReasonIsWhatTheFindingSays(t *testing.T) {
	w := withScreen(t, map[string]string{"en-x.toml": "[finding.bears]\nwhat = '{thing} bears on {thing2}.'\ndo = 'Bend it.'\n"})
	n := called("L1", "Line 1", "L2", "Line 2", "O1", "Boulder 1")
	a := &solver.Assessment{Findings: []part.Finding{
		{ID: "bears", Things: ids("L1", "O1")}, {ID: "bears", Things: ids("L2", "O1")},
	}}
	assert.Equal(t, "Line 2 bears on Boulder 1", w.Reason(a, &part.Part{ID: "L2/1", Thing: "L2", Why: "bears"}, n), "its own")
	assert.Equal(t, "Line 1 bears on Boulder 1", w.Reason(a, &part.Part{ID: "V1/front", Thing: "V1", Why: "bears"}, n), "else the first")
	assert.Equal(t, "[no-such]", w.Reason(a, &part.Part{Why: "no-such"}, n))
	assert.Empty(t, w.Reason(a, &part.Part{}, n))
}

// Nothing is said to be planned on a resistance that nobody knows.
func TestPlannedOnNothingKnown(t *testing.T) {
	w := english(t, quantity.Metric)
	assert.Equal(t, "resistance not known, LOW anchor hold", w.PlannedOn(&solver.Assessment{Casualty: "V1"}))
	known := solver.Assessment{Casualty: "V1"}
	known.Resistance.Known = true
	assert.Equal(t, "planned for HIGH resistance, LOW anchor hold", w.PlannedOn(&known))
}

// Of a rig that was not computed nothing was planned on anything, and who is in
// none of its zones may be in one that is missing.
func TestARefusedRigPromisesNothing(t *testing.T) {
	w := english(t, quantity.Metric)
	a := &solver.Assessment{Status: part.Refused, Findings: []part.Finding{{ID: "not-solved", Level: part.Danger}}}
	line := plain(w.VerdictLine(a, called("V2", "Winch vehicle")))
	assert.Contains(t, line, "no loads, not all zones computed")
	assert.NotContains(t, line, "planned on")
	assert.Equal(t, "not all zones computed", w.Where(solver.PersonAt{Zoned: true, Partly: true}))
	assert.Equal(t, "inside bight", w.Where(solver.PersonAt{Zoned: true, Partly: true, Inside: []part.ZoneKind{part.ZoneBight}}))
}

// In the list of all findings an item stands for whatever has a name.
func TestAPatternSaysItem(t *testing.T) {
	what, _ := english(t, quantity.Metric).FindingPattern("line-bears")
	assert.Equal(t, "<item> bears on <item 2> from <from> to <to> from the winch. Not computed.", what)
	de, err := New("de", quantity.Metric)
	require.NoError(t, err)
	_, do := de.FindingPattern("still-fastened")
	assert.Equal(t, "<Objekt 2> vor dem Zug abnehmen.", do)
}
