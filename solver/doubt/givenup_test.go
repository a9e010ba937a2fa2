package doubt_test

import (
	"context"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/doubt"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// However far it has come, what is given up asks the pull and its changes no more than a few
// times a worker, while the trials are drawn and while more that agree are sought.
func TestWhatIsGivenUpAsksNoMore(t *testing.T) {
	for _, slow := range []bool{false, true} {
		for _, stopAt := range []int64{1, 1000, 20000, 100000} {
			ctx, stop := context.WithCancel(t.Context())
			var asked, stopped atomic.Int64
			in := threeParts(true)
			pull := in.Pull
			count := func(x []float64, p *doubt.Pull) {
				if pull(x, p); asked.Add(1) == stopAt {
					stop()
					stopped.Store(asked.Load()) // the other worker may have gone on until then
				}
			}
			in.Pull, in.Changes, in.Context, in.Slow = count, []func([]float64, *doubt.Pull){count, count}, ctx, slow
			_, err := doubt.Take(in, 4096, 1, 2)
			stop()
			require.ErrorIs(t, err, context.Canceled)
			most := int64(2 * 64 * 3) // trials of two workers, of a pull and two changes each
			if slow {
				most = 2 * 3
			}
			assert.LessOrEqual(t, asked.Load(), stopped.Load()+most, "slow %v", slow)
		}
	}
}

// Whenever a reconstruction is given up there is no answer, and hardly anything is begun
// after that: not a part of one, whose chances would be those of what was drawn by then.
func TestAReconstructionIsGivenUpAtOnce(t *testing.T) {
	whole(t)
	p := seen(t, slingBroken)
	stronger, ok := doubt.With(p, "R1", "S1", "rating.force_n", 500e3)
	require.True(t, ok)
	ask := func(ctx context.Context) error {
		q := doubt.Request{Context: ctx, Per: 16, Seed: 2, Workers: 2}
		other := doubt.Change{Name: "stronger", Plan: stronger}
		for s := 0.0; s <= 4; s += 2 {
			q.Along = append(q.Along, doubt.WayPoint{AtM: s, Plan: plan.AdvancedOf(p, "V1", quantity.Length(s))})
			other.Along = append(other.Along, doubt.WayPoint{AtM: s, Plan: plan.AdvancedOf(stronger, "V1", quantity.Length(s))})
		}
		q.Changes = []doubt.Change{other}
		_, err := doubt.Reconstruct(p, "R1", q)
		return err
	}
	const never = 1 << 60
	c := &impatient{Context: t.Context()}
	c.left.Store(never)
	require.NoError(t, ask(c))
	total := never - c.left.Load()
	for _, at := range []int64{0, total / 3, total - 120, total - 10, total - 1} {
		c.left.Store(at)
		require.ErrorIs(t, ask(c), context.Canceled, "at %d of %d", at, total)
		assert.Greater(t, c.left.Load(), int64(-700), "at %d of %d", at, total) // the points of surfaces, of which none is asked
	}
}
