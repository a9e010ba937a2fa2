package words

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
)

// Each finding of an answer is in one card, and a row of it, over the examples and
// plans as people rig them; a card is of one rule and level.
func TestEachFindingIsInOneCard(t *testing.T) {
	w, joined := english(t, quantity.Metric), 0
	look := func(p *plan.Plan, rig plan.ID) {
		a := solver.Assess(p, rig)
		seen := make([]int, len(a.Findings))
		for n, c := range Cards(a.Findings) {
			title, rows, _ := w.Card(c, a.Findings, w.Names(p, rig))
			require.NotEmpty(t, title)
			assert.NotContains(t, title, "[")
			if len(c.Of) > 1 {
				joined++
				assert.Len(t, rows, len(c.Of))
			}
			for _, i := range c.Of {
				seen[i]++
				assert.Equal(t, n+1, CardNumber(Cards(a.Findings), i))
				assert.Equal(t, a.Findings[c.Of[0]].ID, a.Findings[i].ID)
				assert.Equal(t, c.Level, a.Findings[i].Level)
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
	assert.Len(t, Cards(append(two("stall-near", part.Warning), two("stall-near", part.Caution)...)), 2)
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
	title, rows, dos := w.Card(Cards(fs)[0], fs, called("K1", "Shackle 1", "T1", "Tree 1"))
	assert.Equal(t, "2 parts pass their limit (at 6.0 m of travel)", plain(title))
	require.Len(t, rows, 2)
	assert.Equal(t, "Shackle 1: 55.6 kN of 46.7 kN, 119 %", plain(rows[0]), "55.6 ÷ 1.19 = 46.72, a limit is rounded down")
	assert.Equal(t, "Tree 1: 55.6 kN of 47.5 kN, 117 %", plain(rows[1]), "55.6 ÷ 1.17 = 47.52")
	assert.Len(t, dos, 1)
	fs[0].Travel = 3
	title, rows, _ = w.Card(Cards(fs)[0], fs, called("K1", "Shackle 1", "T1", "Tree 1"))
	assert.Equal(t, "2 parts pass their limit", title)
	assert.Contains(t, plain(rows[1]), "(at 3.0 m of travel)")
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
