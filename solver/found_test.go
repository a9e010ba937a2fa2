package solver_test

import (
	"fmt"
	"maps"
	"os"
	"runtime"
	"slices"
	"strconv"
	"sync"
	"sync/atomic"
	"testing"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/seeded"
)

// The plans that people may find themselves with: some thousands, drawn from what
// is really rigged, always the same. `go run ./cmd/dev found N` tries more of
// them, and each weakening of each, not every fourth.

// foundMore is how many plans are asked for; 0: as many as are tried each time.
var foundMore, _ = strconv.Atoi(os.Getenv("KEDGE_FOUND"))

// foundAfter is the seed after which a longer run begins.
var foundAfter, _ = strconv.ParseUint(os.Getenv("KEDGE_FOUND_AFTER"), 10, 64)

// skips reports whether the i-th of the changes of a plan is left to a longer run.
func skips(seed uint64, i int) bool { return foundMore == 0 && i%4 != int(seed%4) }

// found is a plan as people rig it, from a seed.
type found struct {
	p     *plan.Plan
	r     *plan.Rig
	aside [][]string // see [seeded.Plan]
}

// foundPlan is the plan of a seed, some figures forgotten.
func foundPlan(seed uint64) *found {
	names := slices.Sorted(maps.Keys(forgets))
	p, aside := seeded.Plan(seed, func(p *plan.Plan, pick func(n int) int) {
		applied(p, forgets[names[pick(len(names))]]) // of nothing that is there, nothing
	})
	return &found{p, &p.Rigs[0], aside}
}

// foundOne is a found plan with its answer.
type foundOne struct {
	*found
	seed uint64
	a    *solver.Assessment
}

// foundAll are the plans of a run, with their answers.
var foundAll = sync.OnceValue(func() []foundOne {
	n := foundPlans
	if foundMore > 0 {
		n = foundMore
	}
	all := make([]foundOne, n)
	spread(n, func(i int) {
		seed := foundAfter + uint64(i) + 1
		f := foundPlan(seed)
		all[i] = foundOne{f, seed, solver.Assess(f.p, "R1")}
	})
	return all
})

// spread does n things on all processors.
func spread(n int, do func(i int)) {
	var next atomic.Int64
	var all sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		all.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i)
			}
		})
	}
	all.Wait()
}

// eachFound tries every found plan.
func eachFound(t *testing.T, try func(f *foundOne)) {
	t.Helper()
	all := foundAll()
	spread(len(all), func(i int) { try(&all[i]) })
}

// settledPart reports whether a part is said to be within its limit.
func settledPart(p *part.Part) bool { return p.Status == part.Within || p.Status == part.Near }

// Whatever holds less, or is taken away, never makes an answer lighter, and no
// part that was over its limit or not computed comes to be within it.
func TestFoundWeakerIsNeverLighter(t *testing.T) {
	eachFound(t, func(f *foundOne) {
		all := f.weakenings()
		for i := range all {
			if skips(f.seed, i) {
				continue
			}
			q := copied(f.p)
			all[i].apply(q)
			if why := lighter(f.a, solver.Assess(q, "R1"), &all[i]); why != "" {
				t.Errorf("seed %d, %s: %s", f.seed, all[i].name, why)
			}
		}
	})
}

// lighter says what is better in an answer after a weakening; empty: nothing. A
// rig that becomes refused is worse, whatever it said before.
func lighter(before, after *solver.Assessment, w *weakening) string {
	if after.Why != "" {
		return ""
	}
	was, is := verdictWithout(before, after, w, nil), after.Verdict()
	if w.of != nil {
		was = max(verdictWithout(before, after, w, w.of), min(was, solver.Unsettled))
	}
	if is < was {
		return fmt.Sprintf("verdict %v after %v: %v", is, was, lost(before, after, w.gone))
	}
	if before.Why != "" && w.admits(before, after) {
		return "" // what refused it is gone
	}
	for i := range after.Parts {
		p := &after.Parts[i]
		q, there := before.Part(p.ID)
		if !there || !settledPart(p) || settledPart(q) || q.Status == part.Slack || slices.Contains(w.gone, p.ID) || w.shifted(p, q) || w.decided(before, after, q) {
			continue
		}
		return fmt.Sprintf("%s is %v (%.3f), was %v (%.3f) %s", p.ID, p.Status, p.Used, q.Status, q.Used, q.Why)
	}
	return ""
}

// lost are the findings above NOTICE that are no longer raised.
func lost(before, after *solver.Assessment, gone []string) (ids []string) {
	for i := range before.Findings {
		f := &before.Findings[i]
		if f.Level == part.Notice || about(f, gone) || slices.ContainsFunc(after.Findings, func(g part.Finding) bool { return g.Key() == f.Key() && g.Level >= f.Level }) {
			continue
		}
		ids = append(ids, f.Level.String()+" "+f.Key())
	}
	return ids
}
