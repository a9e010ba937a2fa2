package words

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
	"kedge/solver/travel"
)

// Each finding of an answer is in one card, and a row of it, over the examples and
// plans as people rig them; a card is of one rule and level.
func TestEachFindingIsInOneCard(t *testing.T) {
	w, joined := english(t, quantity.Metric), 0
	look := func(p *plan.Plan, rig plan.ID) {
		a := solver.Assess(p, rig)
		seen := make([]int, len(a.Findings))
		for n, c := range Cards(a.Findings) {
			card := w.Card(c, a.Findings, w.Names(p, rig))
			require.NotEmpty(t, card.Title)
			assert.NotContains(t, card.Line(), "[")
			if len(c.Of) > 1 {
				joined++
			}
			assert.Equal(t, c.Level, a.Findings[c.Of[0]].Level, "a card is at the level of its worst")
			for _, i := range c.Of {
				seen[i]++
				assert.Equal(t, n+1, CardNumber(Cards(a.Findings), i))
				assert.LessOrEqual(t, a.Findings[i].Level, c.Level)
				assert.True(t, told(w, a.Findings, i, card, w.Names(p, rig)), "%s in %s", a.Findings[i].Key(), card.Line())
			}
		}
		for i, n := range seen {
			assert.Equal(t, 1, n, a.Findings[i].Key())
		}
	}
	for _, name := range []string{"redirect", "straight", "doubled"} {
		p := seeded.Example(t, name)
		for i := range p.Rigs {
			look(p, p.Rigs[i].ID)
		}
	}
	for seed := range uint64(200) {
		p, _ := seeded.Plan(seed, nil)
		look(p, p.Rigs[0].ID)
	}
	assert.Greater(t, joined, 50, "there were cards of several")
}

// told reports whether a card says a finding: as its title, in a row with its share, or, of
// what was not entered, in a row for each member.
func told(w *Words, fs []part.Finding, i int, card CardText, n Names) bool {
	f := &fs[i]
	for _, l := range f.Lacks {
		if !slices.ContainsFunc(card.Rows, func(r CardRow) bool { return r.Thing == l.Thing && r.Member == l.Member && r.Text != "" }) {
			return false
		}
	}
	if len(f.Lacks) > 0 {
		return true
	}
	if what, _ := w.Finding(*f, n); strings.HasPrefix(card.Title, what) {
		return true
	}
	return slices.ContainsFunc(card.Rows, func(r CardRow) bool {
		if r.Finding != i {
			return false
		}
		for _, v := range f.Values {
			if v.Unit == part.UnitShare && !strings.Contains(r.Text, w.Value(v, n)) {
				return false
			}
		}
		return f.Level == fs[card.Rows[0].Finding].Level || strings.HasPrefix(r.Text, w.Level(f.Level)) || card.Dos != nil
	})
}

// The pull of the example is told in nine cards at most, whatever it has to say.
func TestTheRedirectHasNineCardsAtMost(t *testing.T) {
	p := seeded.Example(t, "redirect")
	pull, err := travel.Assess(t.Context(), p, p.Rigs[0].ID, nil)
	require.NoError(t, err)
	a := pull.Assessment
	require.Greater(t, len(a.Findings), 20, "nothing is left out")
	assert.LessOrEqual(t, len(Cards(a.Findings)), 9, "an aim of the design")
	assert.Equal(t, part.Danger, Cards(a.Findings)[0].Level)
}

// often are the rules that speak of more than half of the plans as people rig them. None is
// of DANGER or WARNING: what holds for every plan is no finding, and stands with what is not checked.
var often = map[string]string{
	"recoil-energy":       "figures of this line, which differ from plan to plan",
	"shackle-missing":     "the plans of package seeded lay half of their slings without a shackle",
	"resistance-measured": "half of the plans of package seeded have a measured resistance",
}

func TestFewRulesSpeakOfMostPlans(t *testing.T) {
	plans, by, level := 0, map[string]int{}, map[string]part.Level{}
	look := func(p *plan.Plan, rig plan.ID) {
		plans++
		seen := map[string]bool{}
		for _, f := range solver.Assess(p, rig).Findings {
			if !seen[f.ID] {
				seen[f.ID] = true
				by[f.ID]++
			}
			level[f.ID] = max(level[f.ID], f.Level)
		}
	}
	for _, name := range []string{"redirect", "straight", "doubled"} {
		p := seeded.Example(t, name)
		for i := range p.Rigs {
			look(p, p.Rigs[i].ID)
		}
	}
	for seed := range uint64(200) {
		p, _ := seeded.Plan(seed, nil)
		look(p, p.Rigs[0].ID)
	}
	for id, n := range by {
		if 2*n <= plans {
			continue
		}
		t.Logf("%s speaks of %d of %d plans", id, n, plans)
		assert.Contains(t, often, id)
		assert.Less(t, level[id], part.Warning, id)
	}
	for id := range often {
		assert.Greater(t, 2*by[id], plans, "%s may go from the list", id)
	}
}

// Who stands where, and what slides, tips or rolls, keeps a card of its own; so does
// a rule at another level.
func TestPeopleAndWhatMovesKeepTheirOwnCards(t *testing.T) {
	two := func(id string, l part.Level) []part.Finding {
		return []part.Finding{{ID: id, Level: l, Things: []plan.ID{"A"}}, {ID: id, Level: l, Things: []plan.ID{"B"}}}
	}
	for _, id := range []string{"person-in-zone", "bystander-in-stand-off", "operator-out-of-reach", "vehicle-slides", "tips-at-stall", "rolls-by-itself", "side-slip"} {
		assert.Len(t, Cards(two(id, part.Danger)), 2, id)
	}
	assert.Len(t, Cards(two("over-limit", part.Danger)), 1)
	assert.Len(t, Cards(append(two("sling-opens", part.Warning), two("sling-opens", part.Caution)...)), 2)
	assert.Len(t, Cards(append(two("stall-near", part.Warning), two("near-limit", part.Caution)...)), 1, "little margin is one subject")
	assert.Len(t, Cards(append(two("tips-sideways", part.Danger), two("side-slip", part.Warning)...)), 2, "one card a vehicle, of one cause")
}

// A card of several counts in its title, and has a row each with its figures, and
// what is the same to do once.
func TestACardOfSeveralCounts(t *testing.T) {
	w := english(t, quantity.Metric)
	over := func(id string, used float64) part.Finding {
		return part.Finding{ID: "over-limit", Level: part.Danger, Parts: []string{id}, Travel: 6,
			Values: []part.Value{force("load", 55_600), limit("limit", 55_600/used), {Name: "used", Unit: part.UnitShare, X: used}}}
	}
	fs := []part.Finding{over("T1", 1.17), over("K1", 1.19)} // the worst first
	names := called("K1", "Shackle 1", "T1", "Tree 1")
	card := w.Card(Cards(fs)[0], fs, names)
	rows := card.Texts()
	assert.Equal(t, "2 parts pass their limit (at 6.0 m of travel)", plain(card.Title))
	require.Len(t, rows, 2)
	assert.Equal(t, "Shackle 1: 55.6 kN of 46.7 kN, 119 %", plain(rows[0]), "55.6 ÷ 1.19 = 46.72, a limit is rounded down")
	assert.Equal(t, "Tree 1: 55.6 kN of 47.5 kN, 117 %", plain(rows[1]), "55.6 ÷ 1.17 = 47.52")
	assert.Len(t, card.Dos, 1)
	fs[0].Travel = 3
	card = w.Card(Cards(fs)[0], fs, names)
	assert.Equal(t, "2 parts pass their limit", card.Title)
	assert.Contains(t, plain(card.Texts()[1]), "(at 3.0 m of travel)")
}

// What nobody entered is one card, a row a member however many rules lack it; a part
// without a limit is with what it has none for.
func TestWhatIsMissingIsOneCard(t *testing.T) {
	w := english(t, quantity.Metric)
	lack := func(rule, member string) part.Lack { return part.Lack{Thing: "T1", Member: member, Rule: rule} }
	fs := []part.Finding{
		{ID: "point-side-pull", Level: part.Danger, Things: []plan.ID{"V1"}, Parts: []string{"V1/front"}},
		{ID: noLimit, Level: part.Warning, Things: []plan.ID{"V1"}, Parts: []string{"V1/front"}, Values: []part.Value{force("load", 1000)}},
		{ID: noLimit, Level: part.Warning, Things: []plan.ID{"K1"}, Parts: []string{"K1"}, Values: []part.Value{force("load", 1000)}},
		{ID: part.NotDecidedID, Level: part.Caution, Things: []plan.ID{"T1"}, Lacks: []part.Lack{lack("a", "height_m"), lack("b", "height_m"), lack("b", "girth_m")}},
	}
	cards := Cards(fs)
	require.Len(t, cards, 2)
	assert.Equal(t, []int{0, 1}, cards[0].Of, "pulled too far off its direction nothing of its rating counts")
	assert.Equal(t, []int{2, 3}, cards[1].Of)
	card := w.Card(cards[1], fs, called("K1", "Shackle 1", "T1", "Tree 1"))
	assert.Equal(t, "2 answers missing", plain(card.Title), "that there is no limit follows")
	require.Len(t, card.Rows, 3)
	assert.Equal(t, CardRow{Finding: 3, Text: card.Rows[0].Text, Thing: "T1", Member: "height_m"}, card.Rows[0])
	assert.Contains(t, card.Rows[1].Text, "Tree 1")
	assert.Equal(t, 2, card.Rows[2].Finding)
}

// What is not decided of load or of what moves is in the verdict, after a DANGER and
// before anything less.
func TestTheVerdictSaysWhatIsNotDecided(t *testing.T) {
	w, names := english(t, quantity.Metric), called("T1", "Tree 1", "V2", "Truck")
	verdict := func(l part.Level, a *solver.Assessment) string {
		a.Findings = append([]part.Finding{{ID: "tree-may-fall", Level: l, Things: []plan.ID{"T1"}, Values: []part.Value{metres("reach", 30)}}}, a.Findings...)
		_, has, text, _ := w.Verdict(a, names)
		require.True(t, has)
		return plain(text)
	}
	tree := func() *solver.Assessment {
		return &solver.Assessment{Parts: []part.Part{{ID: "T1", Kind: part.KindAnchor, Thing: "T1", Status: part.Undecided}}}
	}
	said, _ := w.Finding(part.Finding{ID: "tree-may-fall", Things: []plan.ID{"T1"}, Values: []part.Value{metres("reach", 30)}}, names)
	falls := strings.TrimSuffix(plain(said), ".")
	assert.Contains(t, verdict(part.Danger, tree()), falls+" · NOT DECIDED: Tree 1 · ")
	assert.Contains(t, verdict(part.Warning, tree()), "NOT DECIDED: Tree 1 · "+falls+" · ")
	lacks := func(rule string) *solver.Assessment {
		a := tree()
		a.Parts[0].Status = part.Within
		a.Findings = []part.Finding{{ID: part.NotDecidedID, Level: part.Caution, Things: []plan.ID{"V2"}, Lacks: []part.Lack{{Thing: "V2", Member: "mass_kg", Rule: rule}}}}
		return a
	}
	assert.Contains(t, verdict(part.Warning, lacks("vehicle-slides")), "NOT DECIDED: Truck")
	assert.NotContains(t, verdict(part.Warning, lacks("winch-duty")), "NOT DECIDED", "it bears no load and moves nothing")
	within := tree()
	within.Parts[0].Status = part.Within
	assert.NotContains(t, verdict(part.Danger, within), "NOT DECIDED")
}
