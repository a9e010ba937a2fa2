package statics_test

import (
	"testing"
	"kedge/solver/statics"
)

func TestDev(t *testing.T) {
	var s statics.Solver
	var out statics.Result
	count := map[statics.Status]int{}
	flags := map[statics.FlagKind]int{}
	its := 0
	shown := 0
	for seed := uint64(0); seed < 20000; seed++ {
		r := realistic(seed, 2+int(seed%2))
		if err := r.Validate(); err != nil { t.Fatal(err) }
		st := s.Solve(&r, &out)
		count[st]++
		its += out.Iterations
		seen := map[statics.FlagKind]bool{}
		for _, f := range out.Flags { seen[f.Kind] = true }
		for k := range seen { flags[k]++ }
		if !st.HasForces() && shown < 12 { shown++; t.Log(seed, st, out.Flags, out.Iterations) }
	}
	t.Log(count, flags, its)
}
