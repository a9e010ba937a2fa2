package doubt

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Between two moments loads go in straight lines, and what crosses first is the first to
// fail; in the first moment, what is nearest to failing. What is not known may be the first.
func TestTheFirstToFail(t *testing.T) {
	nan := math.NaN()
	for what, x := range map[string]struct {
		k        int
		was, now []float64
		which    int
		at       float64
		settled  bool
	}{
		"none":                {1, []float64{0.2, 0.3}, []float64{0.9, 0.99}, -1, math.Inf(1), false},
		"halfway":             {1, []float64{0.5, 0.3}, []float64{1.5, 0.9}, 0, 3, true},
		"the earlier of two":  {1, []float64{0.5, 0.9}, []float64{1.5, 1.3}, 1, 2.5, true},
		"just there":          {1, []float64{0.5, 0}, []float64{1, 0}, 0, 4, true},
		"as drawn":            {0, []float64{0, 0}, []float64{1.1, 1.4}, 1, 2, true},
		"one is not known":    {1, []float64{0.5, 0}, []float64{1.5, nan}, -1, nan, true},
		"nothing was and is ": {1, []float64{0, 0}, []float64{0, 0}, -1, math.Inf(1), false},
	} {
		f := follower{planSample: &planSample{parts: make([]part.Part, 2)}, pull: []WayPoint{{AtM: 2}, {AtM: 4}}, was: x.was, now: x.now}
		y := make([]float64, 1+2*alongColumns)
		y[0] = math.Inf(1)
		assert.Equal(t, x.settled, f.first(x.k, y), what)
		if math.IsNaN(x.at) {
			assert.True(t, math.IsNaN(y[0]) && math.IsNaN(y[1+alongFirst]), what)
			continue
		}
		assert.True(t, y[0] == x.at || math.Abs(y[0]-x.at) < 1e-12, what)
		for i := range 2 {
			assert.Equal(t, b2f(i == x.which), y[1+i*alongColumns+alongFirst], what)
		}
	}
}

// What slides, tips or stalls gives nothing up: it is never the first to fail, however far
// it is over what it holds, nor is it unknown which is because its own strength is.
func TestWhatSlidesIsNeverTheFirst(t *testing.T) {
	known := func(n quantity.Force) part.Load { return part.Load{Force: n, Known: true} }
	holds := func(n quantity.Force) part.Range { return part.Range{Low: n, Likely: n, High: n, Known: true} }
	a := &solver.Figures{}
	for _, k := range []part.Kind{part.KindSlide, part.KindTip, part.KindWinch, part.KindSling} {
		a.Parts = append(a.Parts, part.Part{ID: string(k), Kind: k, Move: known(10), Loosen: known(10), Stall: known(20), Ultimate: holds(1)})
	}
	a.Parts[3].Ultimate = holds(8)
	a.Parts[1].Ultimate = part.Range{}
	n := len(a.Parts)
	f := follower{planSample: &planSample{parts: a.Parts, strengths: make([]drawnStrength, n)}, pull: []WayPoint{{AtM: 2}}, was: make([]float64, n), now: make([]float64, n), row: make([]float64, partColumns)}
	y, u := make([]float64, 1+n*alongColumns), []float64{0.5}
	y[0] = math.Inf(1)
	f.look(a, u, y)
	assert.Equal(t, []float64{0, 0, 0, 1.25}, f.now)
	require.True(t, f.first(0, y))
	assert.Equal(t, 2.0, y[0])
	for i := range n {
		assert.Equal(t, b2f(i == 3), y[1+i*alongColumns+alongFirst], a.Parts[i].ID)
	}
	assert.Equal(t, 1.0, y[1+passGives], "that it slides is counted")
}

// Where a part fails first is of the trials in which it does, not of those in which another
// does or it is not known: of 1 m and 3 m the middle is 2 m. (closed form)
func TestWhereAPartIsTheFirst(t *testing.T) {
	nan := math.NaN()
	at := []float64{3, 9, nan, math.Inf(1), 1}
	assert.Equal(t, [3]float64{1, 2, 3}, whereOf(at, []float64{1, 0, nan, 0, 1}))
	none := whereOf(at, []float64{0, 0, nan, 0, 0})
	assert.True(t, anyNaN(none[:1]) && anyNaN(none[1:2]) && anyNaN(none[2:]))
}

// The strength of a part that is met only farther on scatters as it does where it is met at
// first, and what is one piece with a part that was met has that one's.
func TestStrengthsFartherOnScatterAlike(t *testing.T) {
	s, err := newPlanSample(example(t).was, "R1", false)
	require.NoError(t, err)
	require.Greater(t, len(s.parts), 4)
	later, drawn := *s, 0
	later.strengths, later.assumed = s.strengths[:1], nil
	later.draw(1)
	one := map[plan.ID]int{}
	for i := range s.parts {
		p := &s.parts[i]
		assert.Equal(t, s.strengths[i].over, later.strengths[i].over, p.ID)
		if s.strengths[i].over != (Dist{}) {
			drawn++
		}
		if p.Kind != part.KindStretch {
			continue
		}
		if dim, ok := one[p.Thing]; ok {
			assert.Equal(t, dim, later.strengths[i].dim, "stretches of one line")
		}
		one[p.Thing] = later.strengths[i].dim
	}
	assert.Greater(t, drawn, 3)
	assert.NotEmpty(t, later.assumed)
}

// A part that is loaded only farther on may be one too many to draw: the rig is refused as
// with too many at first.
func TestOnePartTooManyFartherOn(t *testing.T) {
	p := example(t).was
	s, err := newPlanSample(p, "R1", false)
	require.NoError(t, err)
	q := Request{Per: 8, Seed: 1, Workers: 1, Along: []WayPoint{{Plan: p}}}
	last := len(s.parts) - 1
	s.parts, s.strengths = s.parts[:last], s.strengths[:last]
	s.dims = MaxDims - 1
	_, err = s.along(q)
	require.NoError(t, err)
	s.dims = MaxDims
	_, err = s.along(q)
	require.ErrorIs(t, err, ErrIncident)
}
