package words

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/quantity"
)

// tableOf is an answer with a part in each state: 10 kN to move, 20 kN at stall,
// and limits of 40, 12 and 8 kN, so that 25 %, 84 % and 125 % are used.
func tableOf(loosen quantity.Force) *solver.Assessment {
	load := func(n quantity.Force) part.Load { return part.Load{Known: true, Force: n} }
	with := func(id string, limit part.Limit) part.Part {
		p := part.Part{ID: id, Thing: "L1", Kind: part.KindStretch, Move: load(10e3), Loosen: load(loosen), Stall: load(20e3), Limit: limit}
		p.Judge()
		return p
	}
	limit := func(n quantity.Force) part.Limit { return part.Limit{Known: true, Force: n, Basis: "tag"} }
	within, near, over, nothing, none := with("L1/1", limit(40e3)), with("L1/2", limit(12e3)), with("L1/3", limit(8e3)), with("L1/4", limit(0)), with("L1/5", part.Limit{Basis: "tag"})
	undecided := with("L1/6", limit(40e3))
	undecided.Undecide()
	slack := part.Part{ID: "L1/7", Thing: "L1", Kind: part.KindStretch, Move: load(0), Loosen: load(0), Stall: load(0), Status: part.Slack}
	refused := part.Part{ID: "L1/8", Thing: "L1", Kind: part.KindStretch, Status: part.Refused, Why: "line-bears"}
	over.Ultimate = part.Range{Known: true, Low: 25e3, Likely: 30e3, High: 35e3}
	return &solver.Assessment{Parts: []part.Part{within, slack, refused, near, none, undecided, nothing, over},
		Findings: []part.Finding{{ID: "line-bears", Level: part.Caution, Parts: []string{"L1/2"}}, {ID: "line-bears", Level: part.Warning, Parts: []string{"L1/3", "L1/8"}}}}
}

// Every table of loads is this one: what stands in a row for each state.
func TestLoads(t *testing.T) {
	w := english(t, quantity.Metric)
	table := w.Loads(tableOf(10e3), called("L1", "Line 1"), ColumnUsed)
	assert.Equal(t, []LoadColumn{ColumnPart, ColumnMove, ColumnStall, ColumnLimit, ColumnBasis, ColumnUsed, ColumnFailure, ColumnStatus}, table.Columns)
	tag := w.Basis("tag")
	for id, want := range map[string][6]string{ // move, limit, basis, used, failure, status
		"L1/1": {"10.0", "40.0", tag, "25 %", "–", "within limit"},
		"L1/2": {"10.0", "12.0", tag, "84 %", "–", "near limit"},
		"L1/3": {"10.0", "8.0", tag, "125 %", "40 %", "OVER LIMIT"},
		"L1/4": {"10.0", "0.0", tag, w.Label("holds-nothing"), "–", "OVER LIMIT"},
		"L1/5": {"10.0", "no rating", tag, "–", "–", "no rating"},
		"L1/6": {"10.0", "40.0", tag, "25 %", "–", "not decided"},
		"L1/7": {"0.0", "no rating", "", "–", "–", "slack"},
		"L1/8": {"–", "–", "", "–", "–", "refused"},
	} {
		i := slices.IndexFunc(table.Rows, func(r LoadRow) bool { return r.Part.ID == id })
		require.GreaterOrEqual(t, i, 0, id)
		var got [6]string
		for k, c := range []LoadColumn{ColumnMove, ColumnLimit, ColumnBasis, ColumnUsed, ColumnFailure, ColumnStatus} {
			got[k] = plain(table.Rows[i].Cells[c])
		}
		assert.Equal(t, want, got, id)
		assert.Equal(t, id == "L1/8", table.Rows[i].Uncomputed(), id)
		assert.Equal(t, id == "L1/8", table.Rows[i].Reason != "", id)
		assert.Equal(t, map[string]int{"L1/3": 1, "L1/8": 1}[id], table.Rows[i].Number, "%s: a CAUTION flags none", id)
	}
	assert.Contains(t, w.Loads(tableOf(11e3), called(), ColumnUsed).Columns, ColumnLoosen, "breaking loose asks more")
}

// Rows come the worst first, or by any column, the heaviest load or lowest limit
// first: one that nobody knows may be the lowest.
func TestLoadsInOrder(t *testing.T) {
	w := english(t, quantity.Metric)
	ids := func(by LoadColumn) (all []string) {
		for _, r := range w.Loads(tableOf(10e3), called("L1", "Line 1"), by).Rows {
			all = append(all, r.Part.ID[3:])
		}
		return all
	}
	assert.Equal(t, []string{"4", "3", "8"}, ids(ColumnUsed)[:3], "over, the most first; then what was not computed")
	assert.Equal(t, "7", ids(ColumnUsed)[7], "what is slack last")
	assert.Equal(t, []string{"7", "8"}, ids(ColumnStall)[6:])
	assert.ElementsMatch(t, []string{"5", "7", "8"}, ids(ColumnLimit)[:3])
	assert.Equal(t, []string{"4", "3", "2"}, ids(ColumnLimit)[3:6])
	assert.Equal(t, math.MaxFloat64, tableOf(10e3).Parts[6].Used, "what holds nothing is over it by any load")
}
