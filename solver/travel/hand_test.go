package travel_test

import (
	"fmt"
	"math/rand"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/seeded"
	"kedge/solver/travel"
)

// honest checks a pull against Assess at places nobody chose: what is within its limit
// on the whole way is so there, and what is over there is not better on the whole.
func honest(t *testing.T, name string, p *plan.Plan, rnd *rand.Rand) (whole bool) {
	rig := p.Rigs[0].ID
	h := followed(t, p, rig)
	if h.EndM == 0 {
		return false
	}
	for range 5 {
		sM := rnd.Float64() * h.EndM
		a := solver.Assess(travel.At(p, rig, sM), rig)
		for k := range h.Parts {
			w := &h.Parts[k]
			q, ok := a.Part(w.ID)
			switch {
			case !ok:
			case w.Status == part.Within:
				require.Contains(t, []part.Status{part.Within, part.Slack}, q.Status, "%s: %s at %g m", name, w.ID, sM)
			case q.Status == part.Over:
				require.Equal(t, part.Over, w.Status, "%s: %s at %g m", name, w.ID, sM)
			}
		}
	}
	return h.Stop == ""
}

// Every plan at hand is followed, or says why not.
func TestPlansAtHand(t *testing.T) {
	rnd := rand.New(rand.NewSource(1))
	files, err := filepath.Glob("../../testdata/*/*.kedge")
	require.NoError(t, err)
	whole := 0
	for _, file := range files {
		raw, err := os.ReadFile(file)
		require.NoError(t, err)
		p, err := plan.ParsePlan(raw)
		if err != nil || len(p.Rigs) == 0 {
			continue
		}
		if honest(t, file, p, rnd) {
			whole++
		}
	}
	require.Greater(t, whole, 20)
}

// So are plans as people rig them.
func TestSeededPlans(t *testing.T) {
	rnd := rand.New(rand.NewSource(2))
	whole := 0
	for seed := range uint64(150) {
		p, _ := seeded.Plan(seed, nil)
		if honest(t, fmt.Sprint("seed ", seed), p, rnd) {
			whole++
		}
	}
	require.Greater(t, whole, 20)
}
