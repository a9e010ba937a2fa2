package doubt_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"kedge/solver/doubt"
)

// must is a distribution that there can be.
func must(d doubt.Dist, err error) doubt.Dist {
	if err != nil {
		panic(err)
	}
	return d
}

// The test values that Wichura's paper prints for PPND16.
func TestQuantileIsThatOfThePaper(t *testing.T) {
	for share, z := range map[float64]float64{0.25: -0.6744897501960817, 0.001: -3.090232306167814, 1e-20: -9.262340089798408} {
		assert.InDelta(t, z, doubt.Quantile(share), 1e-14, "%g", share)
	}
	assert.Equal(t, math.Inf(-1), doubt.Quantile(0))
	assert.Equal(t, math.Inf(1), doubt.Quantile(1))
	assert.True(t, math.IsNaN(doubt.Quantile(-0.1)))
}

// Against gonum's own distributions.
func TestDistributionsAreGonums(t *testing.T) {
	sigma := math.Sqrt(math.Log1p(0.2 * 0.2))
	for name, tt := range map[string]struct {
		d doubt.Dist
		q interface{ Quantile(float64) float64 }
	}{
		"normal":           {must(doubt.Normal(24, 3)), distuv.Normal{Mu: 24, Sigma: 3}},
		"lognormal":        {must(doubt.Lognormal(33, 0.2)), distuv.LogNormal{Mu: math.Log(33) - sigma*sigma/2, Sigma: sigma}},
		"uniform":          {must(doubt.Uniform(-2, 7)), distuv.Uniform{Min: -2, Max: 7}},
		"triangular":       {must(doubt.Triangular(9, 14, 24)), distuv.NewTriangle(9, 24, 14, nil)},
		"triangular, low":  {must(doubt.Triangular(9, 9, 24)), distuv.NewTriangle(9, 24, 9, nil)},
		"triangular, high": {must(doubt.Triangular(9, 24, 24)), distuv.NewTriangle(9, 24, 24, nil)},
	} {
		for _, u := range []float64{1e-9, 1e-3, 0.1, 0.32, 0.34, 0.5, 0.9, 0.9999} {
			assert.InEpsilon(t, tt.q.Quantile(u), tt.d.At(u), 1e-9, "%s %g", name, u)
			assert.InEpsilon(t, tt.d.At(u), tt.d.OfNormal(doubt.Quantile(u)), 1e-9, "%s %g", name, u)
		}
	}
	assert.Equal(t, 7.0, doubt.Sure(7).At(0.3))
	assert.False(t, must(doubt.Uniform(3, 3)).Scatters())
	assert.True(t, must(doubt.Uniform(3, 4)).Scatters())
}

func TestDistributionsThatCannotBeAreRefused(t *testing.T) {
	for _, f := range []func() (doubt.Dist, error){
		func() (doubt.Dist, error) { return doubt.Normal(1, -1) },
		func() (doubt.Dist, error) { return doubt.Normal(math.NaN(), 1) },
		func() (doubt.Dist, error) { return doubt.Lognormal(0, 0.1) },
		func() (doubt.Dist, error) { return doubt.Uniform(2, 1) },
		func() (doubt.Dist, error) { return doubt.Uniform(0, math.Inf(1)) },
		func() (doubt.Dist, error) { return doubt.Triangular(1, 5, 4) },
	} {
		_, err := f()
		require.ErrorIs(t, err, doubt.ErrDist)
	}
}
