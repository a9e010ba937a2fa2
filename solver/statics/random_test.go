package statics_test

import (
	"math"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/solver/statics"
)

// balance sums the forces on every free point from the stretches and slings
// of the answer alone and gives the largest, newtons.
func balance(r *statics.Rig, out *statics.Result) float64 {
	sum := make([]r3.Vector, len(r.Points))
	add := func(p int, d r3.Vector, t float64) {
		sum[p] = sum[p].Add(d.Mul(t))
	}
	for _, l := range out.Lines {
		for _, s := range l.Stretches {
			add(s.A, s.Dir, s.TensionN)
			add(s.B, s.Dir, -s.TensionN)
		}
	}
	for i, s := range out.Slings {
		add(r.Slings[i].A, s.Dir, s.TensionN)
		add(r.Slings[i].B, s.Dir, -s.TensionN)
	}
	for _, l := range r.Loads {
		add(l.Point, l.ForceN, 1)
	}
	worst := 0.0
	for p := range r.Points {
		if r.Points[p].Kind == statics.Free {
			worst = math.Max(worst, sum[p].Norm())
		}
	}
	return worst
}

// sound checks what every answer with forces must satisfy, from the answer and
// the rig alone; "" when it does.
func sound(r *statics.Rig, out *statics.Result) string {
	tol := 1e-6 * out.ReferenceN
	if b := balance(r, out); !(b <= tol) {
		return "forces do not balance"
	}
	if !(out.ResidualN <= tol) {
		return "residual not within tolerance"
	}
	for i := range out.Lines {
		l := &out.Lines[i]
		for k := range l.Stretches {
			s := &l.Stretches[k]
			if !(s.TensionN >= -tol) || !(s.LengthM > 0) {
				return "a stretch pushes or has no length"
			}
			a, b := out.Points[s.A].Pos, out.Points[s.B].Pos
			if !(math.Abs(a.Distance(b)-s.LengthM) <= 1e-8*s.LengthM+1e-9) {
				return "a stretch is not as long as its points are apart"
			}
		}
		for k := range l.Visits {
			v := &l.Visits[k]
			before, after := l.Stretches[k].TensionN, l.Stretches[k+1].TensionN
			if !(after >= v.RatioLow*before-tol) || !(after <= v.RatioHigh*before+tol) {
				return "a sheave holds more than its friction"
			}
			if v.Determined && v.Ratio != 1 {
				if v.Motion == statics.Haul && v.RunPerMetre < -1e-6 || v.Motion == statics.Pay && v.RunPerMetre > 1e-6 {
					return "a sheave turns against its line"
				}
			}
		}
		if r.Lines[i].Drum && !(math.Abs(l.TensionN-out.Scale*r.Lines[i].TensionN) <= tol) {
			return "a drum line has not its tension"
		}
		if bad := lengthOff(r, out, i); bad != "" {
			return bad
		}
	}
	for i := range out.Slings {
		s, g := &out.Slings[i], &r.Slings[i]
		stretch := 0.0
		if g.StiffnessNPerM > 0 {
			stretch = s.TensionN / g.StiffnessNPerM
		}
		if !(s.TensionN >= -tol) || g.LengthM > 0 && !(s.LengthM <= g.LengthM+stretch+1e-5) {
			return "a sling pushes or is longer than it is"
		}
	}
	return ""
}

// lengthOff says what is wrong with the length of a line that is on no drum: its own, as
// drawn if it has none, and what each of its stretches gives by its tension. (1e-4: what
// lies behind a sheave that sticks is parted off as stretched as it is by then.)
func lengthOff(r *statics.Rig, out *statics.Result, i int) string {
	given, l := &r.Lines[i], &out.Lines[i]
	if given.Drum {
		return ""
	}
	own, long, stretched, least := given.LengthM, 0.0, 0.0, math.Inf(1)
	for k, s := range l.Stretches {
		if given.LengthM == 0 {
			own += r.Points[given.Path[k]].Pos.Distance(r.Points[given.Path[k+1]].Pos)
		}
		long += s.LengthM
		stretched += s.TensionN * s.LengthM
		least = math.Min(least, s.TensionN)
	}
	want := own + given.ComplianceMPerN*stretched/long
	if long > want*(1+1e-4) {
		return "a line is longer than it is"
	}
	if least > 1e-3*out.ReferenceN && long < want*(1-1e-4) {
		return "a taut line is shorter than it is"
	}
	return ""
}

func TestRealisticRigs(t *testing.T) {
	n := 100_000
	if testing.Short() {
		n = 5_000
	}
	var s statics.Solver
	var out statics.Result
	count := map[statics.Status]int{}
	for seed := 0; seed < n; seed++ {
		r := realistic(uint64(seed), seed%2 == 0)
		st := s.Solve(&r, &out)
		count[st]++
		if !st.HasForces() {
			t.Errorf("seed %d: %v %v", seed, st, out.Flags)
			continue
		}
		if bad := sound(&r, &out); bad != "" {
			t.Errorf("seed %d: %s", seed, bad)
		}
	}
	t.Logf("%d rigs: %v", n, count)
	assert.Greater(t, count[statics.Converged], n/2, "the generator must make rigs under tension")
}

func TestNastyRigs(t *testing.T) {
	n := 10_000
	if testing.Short() {
		n = 2_000
	}
	var s statics.Solver
	var out statics.Result
	count := map[statics.Status]int{}
	for seed := 0; seed < n; seed++ {
		r := nasty(uint64(seed), seed%2 == 0)
		require.NoError(t, r.Validate())
		st := s.Solve(&r, &out)
		count[st]++
		checkAnswer(t, &r, &out, st)
	}
	t.Logf("%d rigs: %v", n, count)
	assert.Less(t, count[statics.NotConverged], n/200, "rigs without a finding")
	assert.Zero(t, count[statics.BadInput])
	assert.Zero(t, count[statics.NotComputed])
}

type failer interface{ Errorf(string, ...any) }

// checkAnswer checks that an answer is either sound or withheld with a reason.
func checkAnswer(t failer, r *statics.Rig, out *statics.Result, st statics.Status) {
	if st != out.Status {
		t.Errorf("status %v against %v", st, out.Status)
	}
	if st.HasForces() {
		if bad := sound(r, out); bad != "" {
			t.Errorf("%s: %v", bad, out.Flags)
		}
		return
	}
	switch st {
	case statics.TwoBlocked, statics.Infeasible, statics.LooseEnd, statics.Runaway, statics.BadInput:
		if len(out.Flags) == 0 {
			t.Errorf("%v names nothing", st)
		}
	case statics.NotConverged, statics.NoPull:
	default:
		t.Errorf("unexpected status %v", st)
	}
	withheld(t, out)
}

// withheld checks that nothing in a result without forces looks like a number.
func withheld(t failer, out *statics.Result) {
	figure := func(x float64, what string) {
		if !math.IsNaN(x) {
			t.Errorf("%s is %v in a result with status %v", what, x, out.Status)
		}
	}
	for _, l := range out.Lines {
		figure(l.TensionN, "line tension")
		figure(l.HaulPerMetre, "haul")
		if len(l.Stretches)+len(l.Visits) > 0 {
			t.Errorf("stretches in a result with status %v", out.Status)
		}
	}
	for _, s := range out.Slings {
		figure(s.TensionN, "sling tension")
	}
	for _, p := range out.Points {
		figure(p.ForceN.X, "force on a point")
	}
	for _, b := range out.Bodies {
		figure(b.ForceN.X, "force on a body")
		figure(b.MomentNm.Z, "moment on a body")
		figure(b.PullN, "pull")
	}
	figure(out.Advantage.ByForce, "advantage")
	figure(out.Scale, "scale")
	figure(out.ResidualN, "residual")
}

func TestRequiredPullMeetsResistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		seed := rapid.Uint64().Draw(t, "seed")
		level := rapid.Bool().Draw(t, "level")
		k := rapid.Float64Range(0.5, 1.5).Draw(t, "k")
		if bad := pullMeets(seed, level, k); bad != "" {
			t.Fatal(bad)
		}
	})
}

func pullMeets(seed uint64, level bool, k float64) string {
	r := realistic(seed, level)
	var s statics.Solver
	var out statics.Result
	if !s.Solve(&r, &out).HasForces() || out.Bodies[0].PullN < 0.05*out.ReferenceN {
		return ""
	}
	want := k * out.Bodies[0].PullN
	st := s.RequiredPull(&r, 0, want, &out)
	if st == statics.TwoBlocked {
		return "" // an elastic rig may pull its blocks together before it pulls that much
	}
	if !st.HasForces() {
		return st.String()
	}
	if !(math.Abs(out.Bodies[0].PullN-want) <= 1e-7*want) {
		return "the pull is not the resistance"
	}
	if bad := sound(&r, &out); bad != "" {
		return bad
	}
	// the reverse: solving with the tension found gives the same pull
	q := copyRig(r)
	for i := range q.Lines {
		q.Lines[i].TensionN *= out.Scale
	}
	var back statics.Result
	s.Solve(&q, &back)
	if bad := compare(&q, &out, &back, change{}, order{}); bad != "" {
		return "the way back: " + bad
	}
	return ""
}

// elasticOracle compares an elastic rig with the minimum gonum finds of the
// potential written out in potential_test.go.
func TestElasticRigsAgainstGonum(t *testing.T) {
	n := uint64(3000)
	if testing.Short() {
		n = 300
	}
	var s statics.Solver
	var out statics.Result
	compared := 0
	for seed := uint64(0); seed < n; seed++ {
		r := still(elastic(lossless(realistic(seed, seed&1 == 0), 0.93))) // without a motion all haul
		for i := range r.Lines {                                          // gonum needs lengths said
			if l := &r.Lines[i]; !l.Drum && l.LengthM == 0 {
				for k := range l.Path[1:] {
					l.LengthM += r.Points[l.Path[k]].Pos.Distance(r.Points[l.Path[k+1]].Pos)
				}
			}
		}
		p := newPotential(&r)
		if p.n == 0 {
			continue
		}
		st := s.Solve(&r, &out)
		require.True(t, st.HasForces(), "seed %d: %v", seed, st)
		if st == statics.Slack || faint(&out) {
			continue
		}
		x := make([]float64, p.n)
		for i, c := range p.col {
			for e := 0; e < 3; e++ {
				x[c+e] = xyz(out.Points[i].Pos)[e]
			}
		}
		// the gradient at our answer, and the minimum where gonum gets there
		g := make([]float64, p.n)
		p.derive(g, nil, x)
		for _, v := range g {
			require.LessOrEqual(t, math.Abs(v), 1e-6*out.ReferenceN, "seed %d: gradient at the answer", seed)
		}
		best, err := p.newton()
		if err != nil && best == nil {
			continue
		}
		p.derive(g, nil, best.X)
		there := 0.0
		for _, v := range g {
			there = math.Max(there, math.Abs(v))
		}
		if !(there <= 1e-6*out.ReferenceN) {
			continue // its line search gave up
		}
		compared++
		for i := range x {
			require.InDelta(t, best.X[i], x[i], 1e-4, "seed %d unknown %d", seed, i)
		}
		require.LessOrEqual(t, p.value(x), best.F+1e-9*math.Abs(best.F), "seed %d: potential", seed)
	}
	t.Logf("%d rigs compared", compared)
	require.Greater(t, compared, int(n)/3)
}
