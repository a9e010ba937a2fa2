package solver_test

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// raises is the plan that raises the finding, as a file holds it.
func (c findingCase) raises(t tester) []byte { return stored(t, c.raise, "Curlew Moss: raises "+c.id) }

// allCases are the cases of every package.
func allCases() []findingCase {
	return slices.Concat(solverCases, lineCases, slingCases, holdCases, casualtyCases, pullerCases, zoneCases)
}

// saidByBase is all that the base plan says, none of it above NOTICE.
var saidByBase = []string{"recoil-energy", "resistance-measured"}

// unreached are the findings that no valid plan is known to raise, and why.
// They are there for callers of the packages and for plans nobody has validated.
var unreached = map[string]string{
	"anchor-impossible":  "a negative size, weight or hold is refused when the plan is read",
	"does-not-balance":   "a fault of the program: no rig is known that it finds",
	"hold-not-computed":  "the limit surface of four contacts always has an answer for finite figures",
	"no-sight":           "what stands between two people is always known here: sight-blocked",
	"not-solved":         "no drawn rig is known that the solver leaves without another word",
	"hold-back-pays-out": "raised of a whole pull by package travel, and tested there",
	"way-bends-tight":    "raised of a whole pull by package travel, and tested there",
	"drag-not-computed":  "raised of a whole pull by package travel, and tested there",
	"way-dragged":        "raised of a whole pull by package travel, and tested there",
	"way-drawn-worse":    "raised of a whole pull by package travel, and tested there",
	"way-not-steered":    "raised of a whole pull by package travel, and tested there",
	"pull-stops":         "raised of a whole pull by package travel, and tested there",
	"person-not-placed":  "a place that is no number is refused when the plan is read",
	"rating-impossible":  "a negative rating is refused when the plan is read",
	"runs-away":          "a point that is pulled off meets a block or the winch first: blocks-touch",
	"shackle-small":      "a plan cannot join a shackle to a line, only to its ends",
	"soft-shackle-edge":  "a plan has no member for the edge: soft-shackle-edge-unknown",
	"zone-not-drawn":     "a place that is no number is refused when the plan is read",
}

// printed are figures of the handbook that a text says as they are, the same
// for every plan: no value could fill them with another.
var printed = map[string]string{
	"anchor-aside":           "45",                    // degrees, beyond which it is refused (ours)
	"block-rating-beyond":    "2.2",                   // pounds in a kilogram
	"breakaway-odd":          "1",                     // nothing takes less to break loose than to move
	"connector-beyond-line":  "2.2",                   // pounds in a kilogram
	"boulder-mass-unknown":   "2.4",                   // t/m³, low end of boulder.density
	"deadman-line-flat":      "1",                     // the first of "1 in {run}"
	"deadman-line-steep":     "1",                     // the same
	"deadman-outside-table":  "1 0.91 2.13 1 1 1 4",   // 3 to 7 ft, 1:1 to 1:4 (FM 5-125); the first of "1 in {run}"
	"deadman-slope-unknown":  "1 1",                   // 1:1
	"line-knot":              "90",                    // per cent, end.hmpe-splice and knot.short-splice
	"pickets-layout-unknown": "1 1 1 1 1 1 2 1 3 2 1", // layouts of the table
	"rating-beyond-size":     "2.2",                   // pounds in a kilogram
	"shackle-round-pin":      "5",                     // degrees, ASME B30.26
	"shackle-side-pull":      "5",                     // degrees, ASME B30.26
	"sling-opens-wide":       "120",                   // degrees, EN 1492
	"tree-girth-assumed":     "1.3",                   // m, tree.breast-height
	"tree-moved":             "4",                     // mm in a metre: a quarter degree
	"tree-roots-unknown":     "0.8",                   // m, tree.deep-roots
}

// rulesOf are the rules of an id; more than one room may have it.
func rulesOf(id string) (rules []part.Rule) {
	for _, pkg := range solver.Rulebook() {
		for _, r := range pkg.Rules {
			if r.ID == id {
				rules = append(rules, r)
			}
		}
	}
	return rules
}

// stored is the base plan with one change, as a file holds it.
func stored(t tester, c change, title string) []byte {
	t.Helper()
	p := basePlan()
	p.Title = title
	if c != nil {
		c(p)
	}
	data, err := plan.FormatPlan(p)
	require.NoError(t, err, title)
	return data
}

// readPlan reads a file's bytes as a plan and assesses its rig.
func readPlan(t tester, data []byte) (*plan.Plan, *solver.Assessment) {
	t.Helper()
	p, err := plan.ParsePlan(data)
	require.NoError(t, err)
	return p, solver.Assess(p, "R1")
}

// extra are the finding ids of an assessment, sorted, without those of the base
// plan and without one.
func extra(a *solver.Assessment, but string) (ids []string, has bool) {
	for i := range a.Findings {
		id := a.Findings[i].ID
		has = has || id == but
		if id != but && !slices.Contains(saidByBase, id) && !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	slices.Sort(ids)
	return ids, has
}

// The base plan leaves nothing open: kedge check ends with status 0 on it.
func TestBasePlanSaysNothing(t *testing.T) {
	p, a := readPlan(t, stored(t, nil, basePlan().Title))
	require.True(t, a.Complete)
	require.Equal(t, part.Within, a.Status)
	require.True(t, a.Move.Known)
	require.True(t, a.Moves)
	require.Len(t, a.Parts, 10)
	for i := range a.Parts {
		require.Equal(t, part.Within, a.Parts[i].Status, a.Parts[i].ID)
		require.True(t, a.Parts[i].Known(), a.Parts[i].ID)
	}
	var said []string
	for i := range a.Findings {
		require.Equal(t, part.Notice, a.Findings[i].Level, a.Findings[i].ID)
		said = append(said, a.Findings[i].ID)
	}
	require.ElementsMatch(t, saidByBase, said)
	for i := range a.People {
		require.Empty(t, a.People[i].Inside, a.People[i].Person)
	}
	checkFindings(t, p, a)
}

// Each finding is raised by its own plan, with nothing else but what its case
// names, and not by the plan beside it.
func TestFindingsAtTheirBorders(t *testing.T) {
	for _, c := range allCases() {
		t.Run(c.id, func(t *testing.T) {
			p, a := readPlan(t, c.raises(t))
			others, has := extra(a, c.id)
			assert.True(t, has, "not raised")
			assert.Equal(t, strings.Join(c.with, " "), strings.Join(others, " "), "raised besides")
			checkFindings(t, p, a)
			for _, id := range c.still {
				q, ok := a.Part(id)
				require.True(t, ok, id)
				assert.True(t, q.Known() && q.Status == part.Within, "%s is %v", id, q.Status)
			}
			p, a = readPlan(t, stored(t, c.clear, "Curlew Moss: does not raise "+c.id))
			others, has = extra(a, c.id)
			assert.False(t, has, "still raised")
			assert.Equal(t, strings.Join(c.left, " "), strings.Join(others, " "), "left")
			checkFindings(t, p, a)
		})
	}
}

// What no file can hold, because reading refuses it, is never within a limit
// either when a plan nobody validated is assessed; the rest is computed.
func TestWhatNoFileCanHold(t *testing.T) {
	nan := math.NaN()
	for _, c := range []findingCase{
		{id: "rating-impossible", raise: theBlock(func(b *plan.Block) { b.Rating.Force = -1 }), still: rest},
		{id: "rating-impossible", raise: winch(func(w *plan.Winch) { w.LinePull = -1 }), still: rest[1:]},
		{id: "anchor-impossible", raise: do(onBoulder, theAnchor(func(a *plan.Anchor) { a.Mass = -1 })), still: []string{"B1", "S1", "K1", "L1/1", "L1/2"}},
		{id: "anchor-impossible", raise: do(inGround, theAnchor(func(a *plan.Anchor) { a.Depth = -1 })), still: []string{"B1", "S1", "K1", "L1/1", "L1/2"}},
		{id: "person-not-placed", raise: person(who(plan.RoleSpotter, nan, 0)), still: rest},
	} {
		t.Run(c.id, func(t *testing.T) {
			p := basePlan()
			c.raise(p)
			require.Error(t, plan.Validate(p))
			a := solver.Assess(p, "R1")
			require.Equal(t, part.Danger, levels(a)[c.id])
			for _, id := range c.still {
				require.Equal(t, part.Within, partOf(t, a, id).Status, id)
			}
			if c.id != "person-not-placed" {
				require.False(t, a.Complete)
				require.Empty(t, unsound(a))
			}
		})
	}
}

// Every rule of every package has a plan that raises it, or a reason why none can.
func TestEveryRuleHasAPlan(t *testing.T) {
	has := map[string]bool{}
	for _, c := range allCases() {
		assert.False(t, has[c.id], "%s twice", c.id)
		assert.True(t, slices.IsSorted(c.with) && slices.IsSorted(c.left), "%s: its lists are not sorted", c.id)
		has[c.id] = true
	}
	ruled := map[string]bool{}
	for _, pkg := range solver.Rulebook() {
		for _, r := range pkg.Rules {
			ruled[r.ID] = true
			assert.NotEqual(t, has[r.ID], unreached[r.ID] != "", "%s needs a plan or a reason, not both", r.ID)
			_, ok := facts.Get(facts.ID(r.Fact))
			assert.Equal(t, r.Fact != "", ok, "%s rests on %q, which is no fact", r.ID, r.Fact)
			assert.NotEmpty(t, r.Why+r.Fact, "%s rests on nothing", r.ID)
		}
	}
	for id := range has {
		assert.True(t, ruled[id], "%s is no rule", id)
	}
	for id := range unreached {
		assert.True(t, ruled[id], "%s is no rule", id)
	}
}

// tester is what a test and a property have in common.
type tester interface {
	require.TestingT
	Helper()
}

// checkFindings asks of every finding of a plan what all must be.
func checkFindings(t tester, p *plan.Plan, a *solver.Assessment) {
	t.Helper()
	keys := map[string]bool{}
	for i := range a.Findings {
		f := &a.Findings[i]
		assert.False(t, keys[f.Key()], "%s twice", f.Key())
		keys[f.Key()] = true
		if i > 0 {
			assert.LessOrEqual(t, f.Level, a.Findings[i-1].Level, "%s stands after a lower one", f.ID)
		}
		checkFinding(t, p, f)
	}
	again := solver.Assess(p, a.Rig)
	require.Equal(t, a.Findings, again.Findings, "the same plan, other findings")
}

func checkFinding(t tester, p *plan.Plan, f *part.Finding) {
	t.Helper()
	rules := rulesOf(f.ID)
	if !assert.NotEmpty(t, rules, "%s is in no table of rules", f.ID) {
		return
	}
	fits := slices.ContainsFunc(rules, func(r part.Rule) bool {
		return slices.Contains(r.Levels, f.Level) && !slices.ContainsFunc(r.Values, func(name string) bool { return !carries(f, name) })
	})
	assert.True(t, fits, "%s at %v with %v fits none of its rules %v", f.ID, f.Level, f.Values, rules)
	assert.Contains(t, levelsOf(rules), f.Level, f.ID)
	for _, v := range f.Values {
		assert.False(t, math.IsNaN(v.X) || math.IsInf(v.X, 0), "%s: %s is no number", f.ID, v.Name)
		switch v.Unit {
		case part.UnitText:
			assert.True(t, catalogue().has(v.Text), "%s: the word %q of %s has no text", f.ID, v.Text, v.Name)
		case part.UnitThing:
			assert.NotEmpty(t, v.Text, "%s: %s names nothing", f.ID, v.Name)
		case part.UnitNone: // a plain number, or somebody's own words
			assert.True(t, v.Text == "" || v.X == 0, "%s: %s has a word and a number", f.ID, v.Name)
		default:
			assert.Empty(t, v.Text, "%s: %s has a word and a number", f.ID, v.Name)
		}
	}
	text, ok := catalogue().Finding[f.ID]
	require.True(t, ok, "%s has no text", f.ID)
	checkSentence(t, f, text.What)
	checkSentence(t, f, text.Do)
	figures := figure.FindAllString(slots.ReplaceAllString(text.What+" "+text.Do, ""), -1)
	assert.Equal(t, printed[f.ID], strings.Join(figures, " "), "%s: a figure in its text that is no value", f.ID)
	x := plan.NewIndex(p, &p.Rigs[0])
	for _, id := range f.Things {
		assert.True(t, id == p.Rigs[0].ID || x.Find(id).Kind != 0, "%s is about %q, which is not there", f.ID, id)
	}
}

// carries reports whether a finding has a value of that name.
func carries(f *part.Finding, name string) bool {
	return slices.ContainsFunc(f.Values, func(v part.Value) bool { return v.Name == name })
}

func levelsOf(rules []part.Rule) (all []part.Level) {
	for _, r := range rules {
		all = append(all, r.Levels...)
	}
	return all
}

// slots are the placeholders of a text.
var slots = regexp.MustCompile(`\{([a-z0-9_-]+)(:[a-z:]+|\|[^{}|]*\|([^{}|]*))?\}`)

// figure is a number written out in a text.
var figure = regexp.MustCompile(`[0-9]+(\.[0-9]+)?`)

// checkSentence asks that whatever a text leaves open is filled by the finding.
func checkSentence(t tester, f *part.Finding, text string) {
	t.Helper()
	require.NotEmpty(t, text, f.ID)
	for _, m := range slots.FindAllStringSubmatch(text, -1) {
		filled := carries(f, m[1])
		switch m[1] {
		case "thing":
			filled = len(f.Things) > 0
		case "thing2":
			filled = len(f.Things) > 1
		case "thing3":
			filled = len(f.Things) > 2
		case "fields":
			filled = len(f.Lacks) > 0
		case "part":
			filled = filled || len(f.Parts)+len(f.Things) > 0
		}
		assert.True(t, filled, "%s: nothing fills {%s} of %q: things %v, values %v", f.ID, m[1], text, f.Things, f.Values)
	}
}
