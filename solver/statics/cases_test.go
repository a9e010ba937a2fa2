package statics_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/statics"
)

func TestCases(t *testing.T) {
	for _, f := range loadCases(t) {
		for i := range f.Cases {
			c := &f.Cases[i]
			t.Run(c.ID, func(t *testing.T) {
				t.Run("as it is", func(t *testing.T) { runCase(t, c, lying) })
				t.Run("tilted", func(t *testing.T) { runCase(t, c, tilted) })
			})
		}
		for i := range f.Surface {
			c := &f.Surface[i]
			t.Run(c.ID, func(t *testing.T) { runSurface(t, c) })
		}
	}
}

// near fails when got is not within tol of want, NaN included.
func near(t testing.TB, want, got, tol float64, what string, args ...any) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: want %.12g, got %.12g, off by %.3g, tolerance %.3g", fmt.Sprintf(what, args...), want, got, got-want, tol)
	}
}

func nearVec(t testing.TB, want []float64, got r3.Vector, tol float64, what string, args ...any) {
	t.Helper()
	w, g := xyz(vec(want)), xyz(got)
	for k := range w {
		near(t, w[k], g[k], tol, "%s [%d]", fmt.Sprintf(what, args...), k)
	}
}

// frame is where a case is put before it is solved: three directions square to
// each other, which its own x, y and z become, and the place of its origin. The
// answer is turned back and compared with the one of the file.
type frame struct{ x, y, z, from r3.Vector }

var (
	lying = frame{x: r3.Vector{X: 1}, y: r3.Vector{Y: 1}, z: r3.Vector{Z: 1}}
	// tilted is no plane of the axes: 0.7 rad about z, then 1.1 rad about x.
	tilted = func() frame {
		ca, sa, cb, sb := math.Cos(0.7), math.Sin(0.7), math.Cos(1.1), math.Sin(1.1)
		return frame{x: r3.Vector{X: ca, Y: sa * cb, Z: sa * sb}, y: r3.Vector{X: -sa, Y: ca * cb, Z: ca * sb},
			z: r3.Vector{Y: -sb, Z: cb}, from: r3.Vector{X: 13, Y: -7, Z: 29}}
	}()
)

// turn puts a direction, force or moment of the case into the frame.
func (f frame) turn(v r3.Vector) r3.Vector {
	return f.x.Mul(v.X).Add(f.y.Mul(v.Y)).Add(f.z.Mul(v.Z))
}

func (f frame) put(v r3.Vector) r3.Vector { return f.turn(v).Add(f.from) }

// back is the inverse of turn.
func (f frame) back(v r3.Vector) r3.Vector {
	return r3.Vector{X: v.Dot(f.x), Y: v.Dot(f.y), Z: v.Dot(f.z)}
}

// answer turns a whole answer back.
func (f frame) answer(out *statics.Result) {
	for i := range out.Lines {
		for k := range out.Lines[i].Stretches {
			d := &out.Lines[i].Stretches[k].Dir
			*d = f.back(*d)
		}
		for k := range out.Lines[i].Visits {
			l := &out.Lines[i].Visits[k].LoadN
			*l = f.back(*l)
		}
	}
	for i := range out.Slings {
		out.Slings[i].Dir = f.back(out.Slings[i].Dir)
	}
	for i := range out.Points {
		p := &out.Points[i]
		p.Pos, p.ForceN = f.back(p.Pos.Sub(f.from)), f.back(p.ForceN)
	}
	for i := range out.Bodies {
		b := &out.Bodies[i]
		b.ForceN, b.MomentNm = f.back(b.ForceN), f.back(b.MomentNm)
	}
}

func runCase(t *testing.T, c *refCase, f frame) {
	r, n := c.rig(t)
	r = mapped(r, f.put, f.turn)
	require.NoError(t, r.Validate())
	var s statics.Solver
	var out statics.Result
	st := s.Solve(&r, &out)
	f.answer(&out)
	sense := c.sense()
	for i := range out.Bodies {
		out.Bodies[i].PullN *= sense
	}
	out.Advantage.ByForce *= sense
	checkFlags(t, c, n, st, &out)
	if c.Expected == nil {
		require.NotEmpty(t, c.Flags, "a case must expect something")
		return
	}
	require.True(t, st.HasForces(), "status %v", st)
	tens, long := caseScale(c)
	checkExpected(t, c, &r, n, &out, caseTol*tens, caseTol*long)
	checkClosed(t, c, n, &out, caseTol*tens, caseTol*long)
	checkMotion(t, c, &r, &out)
	checkInverse(t, c, &r)
}

// checkInverse asks for the tension that gives the stated resistance; where the
// vehicle is let down, for the resistance at the stated tension.
func checkInverse(t *testing.T, c *refCase, r *statics.Rig) {
	t.Helper()
	inv := c.Inverse
	if inv == nil {
		return
	}
	require.Len(t, r.Bodies, 1)
	var s statics.Solver
	var out statics.Result
	var st statics.Status
	if c.sense() > 0 {
		st = s.RequiredPull(r, 0, inv.Resistance, &out)
	} else {
		down := copyRig(*r)
		down.Lines[0].TensionN = inv.Tension
		st = s.Solve(&down, &out)
	}
	require.True(t, st.HasForces(), "required pull: %v", st)
	near(t, inv.Tension, out.Lines[0].TensionN, caseTol*inv.Tension, "inverse tension")
	near(t, inv.Resistance, c.sense()*out.Bodies[0].PullN, caseTol*inv.Resistance, "inverse pull")
}

func checkFlags(t *testing.T, c *refCase, n ids, st statics.Status, out *statics.Result) {
	t.Helper()
	if len(c.Flags) == 0 {
		assert.Equal(t, statics.Converged, st)
		return
	}
	for _, f := range c.Flags {
		kind, rest, ok := strings.Cut(f, ":")
		require.True(t, ok, f)
		switch kind {
		case "slack", "infeasible":
			sling, line := statics.SlackSling, statics.SlackLine
			if kind == "infeasible" {
				sling, line = statics.ShortSling, statics.ShortLine
				assert.Equal(t, statics.Infeasible, st)
			} else {
				assert.Equal(t, statics.Slack, st)
			}
			for _, id := range strings.Split(rest, ",") {
				if i, ok := n.sling[id]; ok {
					assert.True(t, out.Has(sling, i), "flag %s: %v", f, out.Flags)
				} else {
					i, ok := n.line[id]
					require.True(t, ok, id)
					assert.True(t, out.Has(line, i), "flag %s: %v", f, out.Flags)
				}
			}
		case "floating":
			assert.Equal(t, statics.Slack, st)
			assert.True(t, out.Has(statics.FloatingPoint, n.point[rest]), "flag %s: %v", f, out.Flags)
		case "two_blocked":
			assert.Equal(t, statics.TwoBlocked, st)
			a, b, ok := strings.Cut(rest, "-")
			require.True(t, ok, f)
			found := false
			for _, g := range out.Flags {
				p, q := n.point[a], n.point[b]
				found = found || g.Kind == statics.BlocksTouch && (g.A == p && g.B == q || g.A == q && g.B == p)
			}
			assert.True(t, found, "flag %s: %v", f, out.Flags)
		default:
			t.Fatalf("flag %q not understood", f)
		}
	}
}

func checkExpected(t *testing.T, c *refCase, r *statics.Rig, n ids, out *statics.Result, ftol, ltol float64) {
	t.Helper()
	for id, pos := range c.Expected.Free {
		nearVec(t, pos, out.Points[n.point[id]].Pos, ltol, "place of %s", id)
	}
	for _, g := range c.Expected.Segments {
		s := out.Lines[n.line[g.Line]].Stretches[g.Index]
		assert.Equal(t, n.point[g.A], s.A)
		assert.Equal(t, n.point[g.B], s.B)
		near(t, g.Tension, s.TensionN, ftol, "tension of %s/%d", g.Line, g.Index)
		near(t, g.Length, s.LengthM, ltol, "length of %s/%d", g.Line, g.Index)
	}
	for _, g := range c.Expected.Slings {
		s := out.Slings[n.sling[g.ID]]
		near(t, g.Tension, s.TensionN, ftol, "tension of %s", g.ID)
		near(t, g.Length, s.LengthM, ltol, "length of %s", g.ID)
		assert.Equal(t, g.Slack, s.Slack)
		// A direction is as good as the places over the sling's length.
		dtol := ltol / g.Length * 2
		nearVec(t, g.Dir, s.Dir, dtol, "direction of %s", g.ID)
		az := math.Atan2(s.Dir.Y, s.Dir.X) * 180 / math.Pi
		near(t, 0, math.Remainder(az-g.Azimuth, 360), dtol*180/math.Pi, "azimuth of %s", g.ID)
	}
	for _, g := range c.Expected.Blocks {
		v := out.Lines[n.line[g.Rope]].Visits[g.Visit-1]
		assert.Equal(t, n.point[g.Point], v.Point)
		nearVec(t, g.Load, v.LoadN, ftol, "load at %s", g.Point)
		near(t, g.Magnitude, v.LoadMagN, ftol, "load size at %s", g.Point)
		// An angle of next to nothing shows the square root of rounding.
		near(t, g.Included, v.IncludedDeg, 3e-6, "included angle at %s", g.Point)
	}
	mtol := ftol * ltol / caseTol
	drum := 0.0
	for i := range r.Lines {
		if r.Lines[i].Drum {
			drum = r.Lines[i].TensionN
		}
	}
	for id, v := range c.Expected.Vehicles {
		b := out.Bodies[n.body[id]]
		nearVec(t, v.Force, b.ForceN, ftol, "force on %s", id)
		if v.MomentZ != nil {
			want := []float64{b.MomentNm.X, b.MomentNm.Y, *v.MomentZ}
			if c.Dim == 2 { // nothing turns it out of its plane
				want[0], want[1] = 0, 0
			}
			nearVec(t, want, b.MomentNm, mtol, "moment on %s", id)
		}
		if v.Moment != nil {
			nearVec(t, v.Moment, b.MomentNm, mtol, "moment on %s", id)
		}
		if v.Pull != nil {
			near(t, *v.Pull, b.PullN, ftol, "pull on %s", id)
		}
		if v.MA != nil {
			near(t, *v.MA, b.PullN/drum, caseTol**v.MA, "advantage of %s", id)
			near(t, *v.MA, out.Advantage.ByForce, caseTol**v.MA, "advantage by force")
		}
	}
}

// checkMotion compares the ideal advantage and the kinematic ratio, which the
// file gives for the rig without friction, with a second solve, and the way the
// sheaves were found to turn.
func checkMotion(t *testing.T, c *refCase, r *statics.Rig, out *statics.Result) {
	t.Helper()
	ideal := copyRig(*r)
	for i := range ideal.Lines {
		for j := range ideal.Lines[i].Sheaves {
			ideal.Lines[i].Sheaves[j] = constant(1)
		}
	}
	for i := range ideal.Bodies {
		ideal.Bodies[i].Motion = ideal.Bodies[i].Motion.Mul(c.sense())
	}
	var s statics.Solver
	var free statics.Result
	require.True(t, s.Solve(&ideal, &free).HasForces())
	for _, v := range c.Expected.Vehicles {
		if v.MAIdeal != nil {
			near(t, *v.MAIdeal, free.Advantage.ByForce, caseTol**v.MAIdeal, "ideal advantage")
		}
		if v.Kinematic != nil {
			near(t, *v.Kinematic, free.Advantage.ByMotion, caseTol**v.Kinematic, "haul per metre")
			near(t, 1, free.Advantage.Efficiency, caseTol, "efficiency without friction")
		}
	}
	if len(c.Expected.Vehicles) != 1 {
		return
	}
	for i, l := range out.Lines {
		for j, v := range l.Visits {
			want := statics.Haul
			switch eta := c.Ropes[i].Eta[j]; {
			case eta == 1:
				continue
			case eta > 1:
				want = statics.Pay
			}
			assert.Equal(t, want, v.Motion, "line %d visit %d", i, j)
			assert.True(t, v.Determined, "line %d visit %d", i, j)
		}
	}
}

// checkClosed compares the closed forms the file states, where they are of a
// kind the answer has.
func checkClosed(t *testing.T, c *refCase, n ids, out *statics.Result, ftol, ltol float64) {
	t.Helper()
	if c.Closed == nil {
		return
	}
	free := -1
	for _, p := range c.Points {
		if p.Kind == "free" {
			free = n.point[p.ID]
		}
	}
	for name, want := range c.Closed.Values {
		switch name {
		case "block_load":
			near(t, want, out.Lines[0].Visits[0].LoadMagN, ftol, "%s", name)
		case "vehicle_pull":
			near(t, want, out.Bodies[0].PullN, ftol, "%s", name)
		case "sling", "leg1":
			near(t, want, out.Slings[0].TensionN, ftol, "%s", name)
		case "leg2":
			near(t, want, out.Slings[1].TensionN, ftol, "%s", name)
		case "Bx", "Px", "Mx", "Yx":
			near(t, want, out.Points[free].Pos.X, ltol, "%s", name)
		case "By", "Yy":
			near(t, want, out.Points[free].Pos.Y, ltol, "%s", name)
		case "Bz":
			near(t, want, out.Points[free].Pos.Z, ltol, "%s", name)
		case "MA":
			near(t, want, out.Advantage.ByForce, caseTol*want, "%s", name)
		case "rho":
			near(t, want, out.Lines[0].Visits[0].Ratio, caseTol, "%s", name)
		case "included_angle_deg":
			near(t, want, out.Lines[0].Visits[0].IncludedDeg, 1e-6, "%s", name)
		case "Fx":
			near(t, want, out.Bodies[0].ForceN.X, ftol, "%s", name)
		case "Fy":
			near(t, want, out.Bodies[0].ForceN.Y, ftol, "%s", name)
		case "Mz":
			near(t, want, out.Bodies[0].MomentNm.Z, ftol*ltol/caseTol, "%s", name)
		case "beta_deg":
			d := out.Lines[0].Stretches[1].Dir
			near(t, want, math.Asin(d.Z)*180/math.Pi, 1e-5, "%s", name)
		case "delta_deg":
			near(t, want, offset(out), 1e-5, "%s", name)
		case "stored_energy":
			x := out.Slings[0].TensionN
			near(t, want, x*(out.Slings[0].LengthM-2)/2, ftol*ltol/caseTol, "%s", name)
		case "eta180":
			near(t, want, *c.Eta180, 0, "%s", name)
		default:
			t.Errorf("closed form %q not understood", name)
		}
	}
}

// offset is the angle of the first sling from the bisector of the legs, degrees.
func offset(out *statics.Result) float64 {
	v := out.Lines[0].Stretches
	bis := v[1].Dir.Sub(v[0].Dir)
	d := out.Slings[0].Dir
	cross := bis.X*d.Y - bis.Y*d.X
	return math.Abs(math.Atan2(cross, bis.X*d.X+bis.Y*d.Y)) * 180 / math.Pi
}

func runSurface(t *testing.T, c *refTyres) {
	var tyres []statics.Tyre
	for _, y := range c.Tyres {
		tyres = append(tyres, statics.Tyre{XM: y.X, YM: y.Y, LoadN: y.N, Along: y.C, Across: y.Mu})
	}
	got := statics.LimitSurface(tyres, xyz(vec(c.Wren)))
	require.Equal(t, statics.Converged, got.Status)
	near(t, c.T, got.TensionN, caseTol*c.T, "least tension")
}
