package report_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/canvas/report"
	"kedge/canvas/words"
	"kedge/solver/doubt"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// BenchmarkReconstruct is a whole reconstruction, as the command line asks for it, of each
// incident of Curlew Moss by one worker.
func BenchmarkReconstruct(b *testing.B) {
	w, err := words.New("en", quantity.Metric)
	require.NoError(b, err)
	for _, name := range []string{"alder-bend", "birch", "ford"} {
		data, err := os.ReadFile("../../assets/plans/incidents/" + name + ".kedge")
		require.NoError(b, err)
		p, err := plan.ParsePlan(data)
		require.NoError(b, err)
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				a, err := report.New(w, p, p.Rigs[0].ID, doubt.Request{Per: report.PerSet, Seed: report.Seed, Workers: 1})
				require.NoError(b, err)
				require.NotNil(b, a.Found)
			}
		})
	}
}
