package statics_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/solver/statics"
)

// sameTol: two ways to the same answer agree to this share of the largest
// tension and of the longest stretch (ours).
const sameTol = 1e-7

// change is a change of a rig with known effect on the answer.
type change struct {
	name     string
	rig      func(statics.Rig, *gen) (statics.Rig, order)
	force    float64 // forces get this factor
	length   float64
	turn     func(v r3.Vector) r3.Vector // vectors; nil: as they are
	shift    r3.Vector
	mirrored bool
}

// order maps indices of the first rig to those of the second; nil: the same.
type order struct{ point, line, sling []int }

func (o order) at(list []int, i int) int {
	if list == nil {
		return i
	}
	return list[i]
}

func copyRig(r statics.Rig) statics.Rig {
	r.Points = append([]statics.Point(nil), r.Points...)
	r.Bodies = append([]statics.Body(nil), r.Bodies...)
	r.Slings = append([]statics.Sling(nil), r.Slings...)
	r.Loads = append([]statics.PointLoad(nil), r.Loads...)
	lines := make([]statics.Line, len(r.Lines))
	for i, l := range r.Lines {
		l.Path = append([]int(nil), l.Path...)
		l.Sheaves = append([]statics.Sheave(nil), l.Sheaves...)
		lines[i] = l
	}
	r.Lines = lines
	return r
}

// faint reports whether a block stands in an all but straight line: its sling
// carries some, but under a hundredth of the reference tension. Such a block is
// held so softly that two ways to the same balance may stop apart.
func faint(a *statics.Result) bool {
	for _, s := range a.Slings {
		if !s.Slack && s.TensionN < 1e-2*a.ReferenceN {
			return true
		}
	}
	for _, l := range a.Lines {
		for _, v := range l.Visits {
			if v.LoadMagN < 1e-2*a.ReferenceN && v.LoadMagN > 1e-6*a.ReferenceN {
				return true
			}
		}
	}
	return false
}

// compare gives the first difference between an answer and that of the changed rig.
func compare(r *statics.Rig, a, b *statics.Result, c change, o order) string {
	if faint(a) || faint(b) {
		return ""
	}
	if a.Status != b.Status {
		return fmt.Sprintf("status %v against %v %v %v", a.Status, b.Status, a.Flags, b.Flags)
	}
	if !a.Status.HasForces() {
		return ""
	}
	if c.force == 0 {
		c.force = 1
	}
	if c.length == 0 {
		c.length = 1
	}
	if c.turn == nil {
		c.turn = func(v r3.Vector) r3.Vector { return v }
	}
	tens, long := a.ReferenceN, 0.0
	for _, l := range a.Lines {
		for _, s := range l.Stretches {
			tens, long = math.Max(tens, s.TensionN), math.Max(long, s.LengthM)
		}
	}
	for _, s := range a.Slings {
		tens = math.Max(tens, s.TensionN)
	}
	ftol, ltol := sameTol*tens*c.force, sameTol*long*c.length
	bad := ""
	check := func(want, got, tol float64, what string, args ...any) {
		if bad == "" && !(math.Abs(want-got) <= tol) && !(math.IsNaN(want) && math.IsNaN(got)) {
			bad = fmt.Sprintf(what, args...) + fmt.Sprintf(": %.12g against %.12g, tolerance %.3g", want, got, tol)
		}
	}
	checkVec := func(want, got r3.Vector, k, tol float64, what string, i int) {
		w, g := xyz(c.turn(want)), xyz(got)
		for e := range w {
			check(k*w[e], g[e], tol, what, i)
		}
	}
	floats := func(p int) bool { return a.Has(statics.FloatingPoint, p) || a.Has(statics.HangingPoint, p) }
	for i := range a.Lines {
		la, lb := &a.Lines[i], &b.Lines[o.at(o.line, i)]
		for k := range la.Stretches {
			check(c.force*la.Stretches[k].TensionN, lb.Stretches[k].TensionN, ftol, "line %d stretch %d tension", i, k)
		}
		for k := range la.Visits {
			va, vb := &la.Visits[k], &lb.Visits[k]
			if va.Motion != vb.Motion || va.Determined != vb.Determined {
				return fmt.Sprintf("line %d visit %d: %v against %v", i, k, va, vb)
			}
			checkVec(va.LoadN, vb.LoadN, c.force, ftol, "line %d load", i)
		}
		check(la.HaulPerMetre, lb.HaulPerMetre, 1e-6*math.Max(1, math.Abs(la.HaulPerMetre)), "line %d haul", i)
	}
	for i := range a.Slings {
		sa, sb := &a.Slings[i], &b.Slings[o.at(o.sling, i)]
		if !a.Has(statics.SharedSlings, i) {
			check(c.force*sa.TensionN, sb.TensionN, ftol, "sling %d", i)
		}
	}
	for i := range a.Points {
		pa, pb := &a.Points[i], &b.Points[o.at(o.point, i)]
		if !floats(i) {
			w, g := xyz(c.turn(pa.Pos).Mul(c.length).Add(c.shift)), xyz(pb.Pos)
			for e := range w {
				check(w[e], g[e], ltol+1e-9*c.shift.Norm(), "place of %d", i)
			}
		}
		checkVec(pa.ForceN, pb.ForceN, c.force, ftol, "force on %d", i)
	}
	for i := range a.Bodies {
		checkVec(a.Bodies[i].ForceN, b.Bodies[i].ForceN, c.force, ftol, "force on body %d", i)
		m := c.turn(a.Bodies[i].MomentNm).Mul(c.force * c.length)
		if c.mirrored {
			m = m.Mul(-1)
		}
		w, g := xyz(m), xyz(b.Bodies[i].MomentNm)
		for e := range w {
			check(w[e], g[e], ftol*long*c.length+1e-9*c.shift.Norm()*tens, "moment on body %d", i)
		}
		check(c.force*a.Bodies[i].PullN, b.Bodies[i].PullN, ftol, "pull on body %d", i)
	}
	check(a.Advantage.ByForce, b.Advantage.ByForce, 1e-6, "advantage by force")
	check(a.Advantage.ByMotion, b.Advantage.ByMotion, 1e-6*math.Max(1, math.Abs(a.Advantage.ByMotion)), "advantage by motion")
	return bad
}

// mapped applies f to every place, g to every direction.
func mapped(r statics.Rig, f, g func(r3.Vector) r3.Vector) statics.Rig {
	r = copyRig(r)
	for i := range r.Points {
		r.Points[i].Pos = f(r.Points[i].Pos)
	}
	for i := range r.Bodies {
		r.Bodies[i].RefM = f(r.Bodies[i].RefM)
		r.Bodies[i].Motion = g(r.Bodies[i].Motion)
	}
	for i := range r.Loads {
		r.Loads[i].ForceN = g(r.Loads[i].ForceN)
	}
	return r
}

func changes(g *gen) []change {
	a, b := g.between(-3, 3), g.between(-3, 3)
	rotate := func(v r3.Vector) r3.Vector {
		x, y := v.X*math.Cos(a)-v.Y*math.Sin(a), v.X*math.Sin(a)+v.Y*math.Cos(a)
		v.X, v.Y = x, y
		y, z := v.Y*math.Cos(b)-v.Z*math.Sin(b), v.Y*math.Sin(b)+v.Z*math.Cos(b)
		v.Y, v.Z = y, z
		return v
	}
	mirror := func(v r3.Vector) r3.Vector { v.Y = -v.Y; return v }
	far := r3.Vector{X: 5e5, Y: -5e5}
	shift := func(v r3.Vector) r3.Vector { v.X += far.X; v.Y += far.Y; return v }
	keep := func(v r3.Vector) r3.Vector { return v }
	kf, kl := math.Exp(g.between(-3, 3)), math.Exp(g.between(-2, 2))
	return []change{
		{name: "rotation", turn: rotate, rig: func(r statics.Rig, _ *gen) (statics.Rig, order) {
			return mapped(r, rotate, rotate), order{}
		}},
		{name: "mirror", turn: mirror, mirrored: true, rig: func(r statics.Rig, _ *gen) (statics.Rig, order) {
			return mapped(r, mirror, mirror), order{}
		}},
		{name: "translation", shift: far, rig: func(r statics.Rig, _ *gen) (statics.Rig, order) {
			return mapped(r, shift, keep), order{}
		}},
		{name: "force scale", force: kf, rig: func(r statics.Rig, _ *gen) (statics.Rig, order) {
			r = copyRig(r)
			for i := range r.Lines {
				r.Lines[i].TensionN *= kf
				r.Lines[i].ComplianceMPerN /= kf
			}
			for i := range r.Slings {
				r.Slings[i].StiffnessNPerM *= kf
			}
			for i := range r.Loads {
				r.Loads[i].ForceN = r.Loads[i].ForceN.Mul(kf)
			}
			return r, order{}
		}},
		{name: "length scale", length: kl, rig: func(r statics.Rig, _ *gen) (statics.Rig, order) {
			scale := func(v r3.Vector) r3.Vector { return r3.Vector{X: v.X * kl, Y: v.Y * kl, Z: v.Z * kl} }
			r = mapped(r, scale, keep)
			for i := range r.Lines {
				r.Lines[i].LengthM *= kl
				r.Lines[i].ComplianceMPerN *= kl
			}
			for i := range r.Slings {
				r.Slings[i].LengthM *= kl
				r.Slings[i].StiffnessNPerM /= kl
			}
			return r, order{}
		}},
		{name: "order of input", rig: shuffled},
	}
}

// shuffled lists points, lines and slings in another order.
func shuffled(r statics.Rig, g *gen) (statics.Rig, order) {
	o := order{g.Perm(len(r.Points)), g.Perm(len(r.Lines)), g.Perm(len(r.Slings))}
	q := copyRig(r)
	for i, p := range r.Points {
		q.Points[o.point[i]] = p
	}
	for i := range r.Lines {
		l := r.Lines[i]
		l.Path = append([]int(nil), l.Path...)
		for k := range l.Path {
			l.Path[k] = o.point[l.Path[k]]
		}
		q.Lines[o.line[i]] = l
	}
	for i, s := range r.Slings {
		s.A, s.B = o.point[s.B], o.point[s.A]
		q.Slings[o.sling[i]] = s
	}
	for i := range q.Loads {
		q.Loads[i].Point = o.point[r.Loads[i].Point]
	}
	return q, o
}

func TestChangesOfRig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		seed := rapid.Uint64().Draw(t, "seed")
		if bad := changesOf(seed, rapid.Bool().Draw(t, "level")); bad != "" {
			t.Fatal(bad)
		}
	})
}

func changesOf(seed uint64, level bool) string {
	r := realistic(seed, level)
	var s statics.Solver
	var a, b statics.Result
	s.Solve(&r, &a)
	g := newGen(seed + 1)
	for _, c := range changes(g) {
		q, o := c.rig(r, g)
		s.Solve(&q, &b)
		if bad := compare(&r, &a, &b, c, o); bad != "" {
			return fmt.Sprintf("seed %d level %t %s: %s", seed, level, c.name, bad)
		}
	}
	return ""
}

// moved draws every point that stands a little elsewhere, as a drag does.
func moved(r statics.Rig, g *gen, byM float64) statics.Rig {
	r = copyRig(r)
	for i := range r.Points {
		if r.Points[i].Kind == statics.Free {
			continue
		}
		by := r3.Vector{X: g.between(-byM, byM), Y: g.between(-byM, byM), Z: g.between(-byM, byM)}
		r.Points[i].Pos = r.Points[i].Pos.Add(by)
	}
	return r
}

func TestWarmIsCold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		if bad := warmIsCold(rapid.Uint64().Draw(t, "seed"), rapid.Bool().Draw(t, "level")); bad != "" {
			t.Fatal(bad)
		}
	})
}

func warmIsCold(seed uint64, level bool) string {
	r := realistic(seed, level)
	var s, fresh statics.Solver
	var a, b statics.Result
	s.Solve(&r, &a)
	g := newGen(seed + 2)
	for i := 0; i < 3; i++ {
		r = moved(r, g, 0.05)
		s.Warm(&r, &a)
		fresh.Solve(&r, &b)
		if bad := compare(&r, &b, &a, change{}, order{}); bad != "" {
			return fmt.Sprintf("seed %d level %t step %d: %s", seed, level, i, bad)
		}
	}
	return ""
}

// TestManyChangesAndWarm runs both properties over a fixed stream of rigs.
func TestManyChangesAndWarm(t *testing.T) {
	n := uint64(3000)
	if testing.Short() {
		n = 300
	}
	for seed := uint64(1); seed <= n; seed++ {
		require.Empty(t, changesOf(seed, seed&1 == 0))
		require.Empty(t, warmIsCold(seed, seed&1 == 0))
	}
}

// lossless makes every sheave the same constant loss, everything stiff and
// nothing heavy.
func lossless(r statics.Rig, eta float64) statics.Rig {
	r = copyRig(r)
	for i := range r.Lines {
		l := &r.Lines[i]
		l.ComplianceMPerN = 0
		for j := range l.Sheaves {
			l.Sheaves[j] = statics.Sheave{Model: statics.Constant, Eta: eta}
		}
	}
	for i := range r.Slings {
		r.Slings[i].StiffnessNPerM = 0
	}
	r.Loads = nil
	return r
}

// With efficiency going to one the advantage by force goes to the advantage by
// motion (virtual work, README section 5).
func TestEfficiencyToOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := realistic(rapid.Uint64().Draw(t, "seed"), rapid.Bool().Draw(t, "level"))
		var s statics.Solver
		var out statics.Result
		last := math.Inf(1)
		for _, eta := range []float64{0.999, 0.999999, 1} {
			q := lossless(r, eta)
			if st := s.Solve(&q, &out); !st.HasForces() || faint(&out) || math.Abs(out.Advantage.ByMotion) < 0.05 {
				return
			}
			off := math.Abs(out.Advantage.ByForce - out.Advantage.ByMotion)
			if !(off <= 100*(1-eta)+sameTol) || !(off <= last+sameTol) {
				t.Fatalf("eta %v: advantage by force %v, by motion %v", eta, out.Advantage.ByForce, out.Advantage.ByMotion)
			}
			last = off
		}
		if !(math.Abs(out.Advantage.Efficiency-1) <= 1e-6) {
			t.Fatalf("efficiency without friction: %v", out.Advantage.Efficiency)
		}
	})
}

// Haul per metre against the definition: move the bodies both ways and take
// the difference of the drum lines' lengths.
func TestHaulIsDifferenceOfLengths(t *testing.T) {
	n := uint64(400)
	compared := 0
	for seed := uint64(1); seed <= n; seed++ {
		r := realistic(seed, seed&1 == 0)
		var s statics.Solver
		var mid, fore, back statics.Result
		if !s.Solve(&r, &mid).HasForces() || faint(&mid) {
			continue
		}
		const h = 1e-3
		step := func(k float64, out *statics.Result) bool {
			q := copyRig(r)
			for i := range q.Lines { // lengths as drawn must not follow the move
				if l := &q.Lines[i]; !l.Drum && l.LengthM == 0 {
					for j := range l.Path[1:] {
						l.LengthM += r.Points[l.Path[j]].Pos.Distance(r.Points[l.Path[j+1]].Pos)
					}
				}
			}
			by := q.Bodies[0].Motion.Normalize().Mul(k)
			for i := range q.Points {
				if q.Points[i].Kind == statics.OnBody {
					q.Points[i].Pos = q.Points[i].Pos.Add(by)
				}
			}
			return s.Solve(&q, out).HasForces()
		}
		if !step(h, &fore) || !step(-h, &back) || len(mid.Flags) != len(fore.Flags) || len(mid.Flags) != len(back.Flags) {
			continue
		}
		stuck := false
		for _, l := range mid.Lines {
			for _, v := range l.Visits {
				stuck = stuck || v.Motion == statics.Stick
			}
		}
		if stuck {
			continue // held at its own length in each solve, not over the move
		}
		want := (back.Lines[0].LengthM - fore.Lines[0].LengthM) / (2 * h)
		got := mid.Lines[0].HaulPerMetre
		// central difference: third derivative of lengths over 0.5 m slings
		if !(math.Abs(want-got) <= 2e-5*math.Max(1, math.Abs(want))) {
			t.Errorf("seed %d: haul per metre %v, difference of lengths %v", seed, got, want)
		}
		compared++
	}
	require.Greater(t, compared, int(n)/4)
}
