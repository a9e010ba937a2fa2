package factstest_test

import (
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver/facts/factstest"
)

func TestPublishedLoadsACase(t *testing.T) {
	cases := factstest.Published(t, os.DirFS("../../../testdata/published"), "gear.toml")
	c := factstest.ByID(t, cases, "gear.43")
	assert.Equal(t, "gear", c.Package)
	assert.Equal(t, 80.0, c.In(t, "breaking_kn"))
	assert.Equal(t, []float64{40}, c.Wants(t, "allowed_kn")) // Alberta OHS Code s.292.1(1)(e): 2 : 1
	c.Check(t, "allowed_kn", 40)
}

func TestWithinRefusesWhatIsNoFigure(t *testing.T) {
	c := factstest.Case{ToleranceRel: 0.01}
	assert.True(t, c.Within(100, 100.9))
	assert.False(t, c.Within(100, 101.1))
	assert.False(t, c.Within(100, math.NaN()))
	assert.False(t, c.Within(math.NaN(), math.NaN()))
	assert.False(t, c.Within(100, math.Inf(1)))
	abs := factstest.Case{ToleranceAbs: 0.5}
	assert.True(t, abs.Within(0, 0.4))
	assert.False(t, abs.Within(0, -0.6))
}
