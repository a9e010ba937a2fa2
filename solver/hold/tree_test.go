package hold_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/hold"
	"kedge/solver/part"
)

func TestTreeScotsPine(t *testing.T) {
	// Design: 128.8 kN·m; limit 42.9 kN at 1 m. By hand: V = 8.6e-5 ·
	// 48^1.634205 · 20^1.079539 = 1.2202 m³, 1037 kg, times 124.2.
	in := hold.TreeIn{Tree: pine(), Soil: hold.SoilGleyed, Height: 1}
	m, ok := hold.Moments(in)
	require.True(t, ok)
	inDelta(t, 128.8e3, float64(m.Uproot), 50)
	c := hold.Tree(in, nil, nil)
	require.True(t, c.Limit.Known)
	inDelta(t, 42.9e3, float64(c.Limit.Force), 50)
	assert.Equal(t, "hold ÷ 3", c.Limit.Basis)
	inDelta(t, 128.8e3, float64(c.Ultimate.Low), 50)
	assert.Equal(t, part.SuretyOurs, c.Limit.Surety, "the factor is ours")
}
