package zone

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver/plan"
)

// Where a way of 10 m east meets a segment: crossing it,
// touching it, and along one line, where it is the nearer end that is met. (by hand)
func TestWhereAWayIsCut(t *testing.T) {
	for _, c := range []struct {
		what  string
		a, b  plan.Point
		share float64
		ok    bool
	}{
		{"across", pt(4, -1), pt(4, 1), 0.4, true},
		{"touching", pt(4, 0), pt(4, 1), 0.4, true},
		{"short of it", pt(4, 0.1), pt(4, 1), 0, false},
		{"at its start", pt(0, -1), pt(0, 1), 0, true},
		{"at its end", pt(10, -1), pt(10, 1), 1, true},
		{"past its end", pt(10.1, -1), pt(10.1, 1), 0, false},
		{"beside", pt(2, 0.1), pt(3, 0.1), 0, false},
		{"along", pt(3, 0), pt(8, 0), 0.3, true},
		{"along, the other way", pt(8, 0), pt(3, 0), 0.3, true},
		{"along, over its start", pt(-5, 0), pt(5, 0), 0, true},
		{"along, over both ends", pt(-5, 0), pt(15, 0), 0, true},
		{"along, up to its start", pt(-5, 0), pt(0, 0), 0, true},
		{"along, from its end", pt(10, 0), pt(15, 0), 1, true},
		{"along, before it", pt(-5, 0), pt(-1, 0), 0, false},
		{"along, past it", pt(11, 0), pt(15, 0), 0, false},
	} {
		share, ok := cuts(pt(0, 0), pt(10, 0), c.a, c.b)
		assert.Equal(t, c.ok, ok, c.what)
		assert.InDelta(t, c.share, share, 1e-12, c.what)
	}
	// A hair beside, a micrometre at most, is on it, however long the way is.
	for _, x := range []float64{1, 10, 100} {
		_, ok := cuts(pt(0, 0), pt(x, 0), pt(0.2, 0.5e-6), pt(0.9, 0.5e-6))
		assert.True(t, ok, "%v m", x)
		_, ok = cuts(pt(0, 0), pt(x, 0), pt(0.2, 2e-6), pt(0.9, 2e-6))
		assert.False(t, ok, "%v m", x)
	}
}
