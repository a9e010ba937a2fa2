package main

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver"
)

func TestExitStatus(t *testing.T) {
	assert.Equal(t, 0, exitStatus(solver.Settled))
	assert.Equal(t, 4, exitStatus(solver.Unsettled))
	assert.Equal(t, 1, exitStatus(solver.Dangerous))
}

func TestNumbersHaveSixDigitsAndNoPowers(t *testing.T) {
	for _, c := range []struct {
		x    float64
		want string
	}{
		{0, "0"}, {math.Copysign(0, -1), "0"}, {29307.712345, "29307.7"}, {0.8528734, "0.852873"}, {-6.1234567, "-6.12346"},
		{123456789, "123457000"}, {1.5e-9, "0.0000000015"}, {math.NaN(), "null"}, {math.Inf(1), "null"}, {math.Inf(-1), "null"},
	} {
		got, err := number(c.x).MarshalJSON()
		assert.NoError(t, err)
		assert.Equal(t, c.want, string(got))
	}
	assert.Nil(t, known(12.0, false), "what is not known is null, never 0")
	assert.Nil(t, known(math.NaN(), true))
	assert.Nil(t, positive(0.0))
}
