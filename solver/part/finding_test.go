package part

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
)

// Of findings with one key one stays, at the most severe of their levels, wherever
// in the list its doubles stand: counted by a map of the keys.
func TestSortFindingsDropsDoubles(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 1))
	for _, n := range []int{1, 2, 3, 20, 900} {
		worst := map[string]Level{}
		var all []Finding
		for range 3 * n {
			k := rnd.IntN(n)
			f := Finding{ID: fmt.Sprint("rule-", k%7), Level: []Level{Notice, Caution, Warning, Danger}[rnd.IntN(4)], Things: []plan.ID{plan.ID(fmt.Sprint("T", k))}}
			if k%3 == 0 {
				f.Parts = []string{fmt.Sprint("P", k)}
			}
			all = append(all, f)
			worst[f.Key()] = max(worst[f.Key()], f.Level)
		}
		got := SortFindings(all, func(f *Finding) float64 { return float64(len(f.Parts)) })
		require.Len(t, got, len(worst))
		for i := range got {
			require.Equal(t, worst[got[i].Key()], got[i].Level, got[i].Key())
			require.True(t, i == 0 || got[i-1].Level >= got[i].Level)
			delete(worst, got[i].Key())
		}
		require.Empty(t, worst)
	}
}
