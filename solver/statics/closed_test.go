package statics_test

import (
	"math"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/statics"
)

func fixed(x, y float64) statics.Point { return statics.Point{Pos: r3.Vector{X: x, Y: y}} }

func free(x, y float64) statics.Point {
	return statics.Point{Kind: statics.Free, Pos: r3.Vector{X: x, Y: y}}
}

func onBody(x, y float64) statics.Point {
	return statics.Point{Kind: statics.OnBody, Pos: r3.Vector{X: x, Y: y}}
}

func constant(eta float64) statics.Sheave {
	return statics.Sheave{Model: statics.Constant, Eta: eta}
}

func byWrap(eta float64) statics.Sheave { return statics.Sheave{Eta: eta} }

func solved(t testing.TB, r statics.Rig) statics.Result {
	t.Helper()
	require.NoError(t, r.Validate())
	var s statics.Solver
	var out statics.Result
	st := s.Solve(&r, &out)
	require.True(t, st.HasForces(), "status %v, flags %v", st, out.Flags)
	require.Empty(t, sound(&r, &out))
	return out
}

// redirect is a block made fast at the origin between two legs at an included
// angle, the second leg ending on a body pulled along it.
func redirect(deg float64, h statics.Sheave) statics.Rig {
	a := deg / 2 * math.Pi / 180
	return statics.Rig{Points: []statics.Point{fixed(-20*math.Cos(a), 20*math.Sin(a)), fixed(0, 0),
		onBody(-15*math.Cos(a), -15*math.Sin(a))},
		Bodies: []statics.Body{{Motion: r3.Vector{X: math.Cos(a), Y: math.Sin(a)}}},
		Lines:  []statics.Line{{Path: []int{0, 1, 2}, Sheaves: []statics.Sheave{h}, Drum: true, TensionN: 1000}}}
}

// Load factor of a redirect block against included angle: printed alike in four
// trade copies (common practice); the exact value is 2 cos(theta/2). Printed values are cut off: tolerance 0.012.
func TestRedirectLoadFactor(t *testing.T) {
	for _, row := range []struct{ deg, printed float64 }{
		{0, 2.00}, {10, 1.99}, {20, 1.97}, {30, 1.93}, {40, 1.87}, {45, 1.84}, {50, 1.81}, {60, 1.73},
		{70, 1.64}, {80, 1.53}, {90, 1.41}, {100, 1.29}, {110, 1.15}, {120, 1.00}, {130, 0.84}, {135, 0.76},
		{140, 0.68}, {150, 0.52}, {160, 0.35}, {170, 0.17}, {180, 0.00},
	} {
		out := solved(t, redirect(row.deg, constant(1)))
		v := out.Lines[0].Visits[0]
		near(t, row.printed, v.LoadMagN/1000, 0.012, "printed factor at %v deg", row.deg)
		near(t, 2*math.Cos(row.deg/2*math.Pi/180), v.LoadMagN/1000, 1e-9, "exact factor at %v deg", row.deg)
		near(t, row.deg, v.IncludedDeg, 1e-5, "included angle")
	}
}

// Redirect worked examples of trade handouts. (common practice)
func TestRedirectWorkedExamples(t *testing.T) {
	for _, row := range []struct{ tension, deg, load, share float64 }{
		{1000, 50, 1810, 0.005}, {1000, 135, 760, 0.01}, {150, 100, 194, 0.01},
	} {
		r := redirect(row.deg, constant(1))
		r.Lines[0].TensionN = row.tension
		out := solved(t, r)
		near(t, row.load, out.Lines[0].Visits[0].LoadMagN, row.share*row.load, "load at %v deg", row.deg)
	}
}

// Closed form with friction (README section 7): T sqrt(1 + rho^2 + 2 rho cos theta).
func TestRedirectWithFriction(t *testing.T) {
	for _, deg := range []float64{0, 20, 65, 90, 140, 175} {
		for _, eta := range []float64{0.8, 0.93, 0.98} {
			out := solved(t, redirect(deg, constant(eta)))
			want := 1000 * math.Sqrt(1+eta*eta+2*eta*math.Cos(deg*math.Pi/180))
			near(t, want, out.Lines[0].Visits[0].LoadMagN, 1e-6, "load at %v deg, eta %v", deg, eta)
			near(t, 1000*eta, out.Bodies[0].PullN, 1e-6, "pull at %v deg, eta %v", deg, eta)
			near(t, eta, out.Advantage.Efficiency, 1e-8, "efficiency")
		}
	}
}

// Ratio against wrap: by hand (README section 7), printed to four places.
func TestRatioByWrap(t *testing.T) {
	wraps := []float64{180, 150, 120, 90, 60, 30}
	for eta, row := range map[float64][]float64{
		0.90: {.9000, .9032, .9128, .9282, .9487, .9731},
		0.85: {.8500, .8547, .8687, .8914, .9219, .9588},
		0.80: {.8000, .8061, .8242, .8539, .8943, .9438},
	} {
		for i, want := range row {
			out := solved(t, redirect(180-wraps[i], byWrap(eta)))
			v := out.Lines[0].Visits[0]
			near(t, want, v.Ratio, 0.6e-4, "eta %v wrap %v", eta, wraps[i])
			// pin friction itself: T1 - T2 = kappa |N|
			kappa := (1 - eta) / (1 + eta)
			near(t, kappa*v.LoadMagN, 1000*(1-v.Ratio), 1e-6, "pin friction")
		}
	}
	out := solved(t, redirect(180, byWrap(0.8)))
	near(t, 1, out.Lines[0].Visits[0].Ratio, 1e-9, "no turn, no loss")
}

// A ring follows the capstan equation e^(-mu wrap).
func TestRing(t *testing.T) {
	for _, deg := range []float64{0, 60, 120, 180} {
		out := solved(t, redirect(deg, statics.Sheave{Model: statics.Ring, Mu: 0.12}))
		want := math.Exp(-0.12 * (180 - deg) * math.Pi / 180)
		near(t, want, out.Lines[0].Visits[0].Ratio, 1e-8, "ring at %v deg", deg)
	}
}

// n parts to one, all parallel, winch on the body: sum of eta^k, by hand.
func TestTackle(t *testing.T) {
	for n := 2; n <= 7; n++ {
		for _, h := range []statics.Sheave{constant(0.93), byWrap(0.93)} { // half turns: alike
			r := statics.Rig{Points: []statics.Point{onBody(0, 0), fixed(25, 0), onBody(0, 0)},
				Bodies: []statics.Body{{Motion: r3.Vector{X: 1}}}}
			l := statics.Line{Path: []int{0}, Drum: true, TensionN: 1000}
			want := 0.0
			for k := 0; k < n; k++ {
				l.Path = append(l.Path, 1+k%2)
				want += math.Pow(0.93, float64(k))
			}
			for k := 0; k < n-1; k++ {
				l.Sheaves = append(l.Sheaves, h)
			}
			r.Lines = []statics.Line{l}
			out := solved(t, r)
			near(t, want, out.Advantage.ByForce, 1e-9, "%d to 1", n)
			near(t, float64(n), out.Advantage.ByMotion, 1e-9, "%d to 1 by motion", n)
			near(t, float64(n), out.Lines[0].HaulPerMetre, 1e-9, "%d to 1 haul", n)
			near(t, want/float64(n), out.Advantage.Efficiency, 1e-9, "%d to 1 efficiency", n)
		}
	}
}

// Doubled line with its ends apart: pull (1+eta) T cos a, side (1-eta) T sin a.
func TestSpreadDoubled(t *testing.T) {
	const eta, T = 0.9, 1000.0
	r := statics.Rig{Points: []statics.Point{fixed(18, 5), onBody(0, 0), fixed(18, -5)},
		Bodies: []statics.Body{{Motion: r3.Vector{X: 1}}},
		Lines:  []statics.Line{{Path: []int{0, 1, 2}, Sheaves: []statics.Sheave{constant(eta)}, Drum: true, TensionN: T}}}
	out := solved(t, r)
	a := math.Atan2(5, 18)
	near(t, (1+eta)*T*math.Cos(a), out.Bodies[0].ForceN.X, 1e-6, "pull")
	near(t, (1-eta)*T*math.Sin(a), out.Bodies[0].ForceN.Y, 1e-6, "side")
}

// Elastic sling in line: L0 + (1+eta) T / k, in a rig a hundred times as stiff
// and as soft as usual.
func TestElasticSlingInLine(t *testing.T) {
	for _, k := range []float64{4e4, 4e5, 4e7} {
		r := statics.Rig{Points: []statics.Point{fixed(0, 0), free(17, 0), onBody(0, 0), fixed(20, 0)},
			Bodies: []statics.Body{{Motion: r3.Vector{X: 1}}},
			Lines:  []statics.Line{{Path: []int{0, 1, 2}, Sheaves: []statics.Sheave{constant(0.95)}, Drum: true, TensionN: 4e4}},
			Slings: []statics.Sling{{A: 3, B: 1, LengthM: 2, StiffnessNPerM: k}}}
		out := solved(t, r)
		near(t, 2+1.95*4e4/k, out.Slings[0].LengthM, 1e-7, "stretched length, k %v", k)
		near(t, 1.95*4e4, out.Slings[0].TensionN, 1e-3, "tension, k %v", k)
	}
}

// A bridle with a slack leg: the other stands in line with the line and carries
// all of it, by hand.
func TestBridleWithSlackLeg(t *testing.T) {
	r := statics.Rig{Points: []statics.Point{fixed(20, 12), free(2, 0.2), onBody(0, 0.7), onBody(0, -0.7)},
		Bodies: []statics.Body{{Motion: r3.Vector{X: 1}}},
		Lines:  []statics.Line{{Path: []int{0, 1}, Drum: true, TensionN: 1000}},
		Slings: []statics.Sling{{A: 2, B: 1, LengthM: 2}, {A: 3, B: 1, LengthM: 3.5}}}
	out := solved(t, r)
	assert.Equal(t, statics.Slack, out.Status)
	assert.True(t, out.Has(statics.SlackSling, 1))
	near(t, 1000, out.Slings[0].TensionN, 1e-4, "taut leg")
	near(t, 0, out.Slings[1].TensionN, 1e-4, "slack leg")
	d := math.Hypot(20, 11.3)
	near(t, 20/d, out.Slings[0].Dir.X, 1e-7, "in line")
}

// Three to one with the standing end on the becket of the travelling block,
// itself on a strap from the casualty: T (1 + eta + eta^2), three metres a metre.
// The block's point is visited by the line and ends it.
func TestBecket(t *testing.T) {
	r := statics.Rig{Points: []statics.Point{fixed(25, 0), free(0.9, 0.1), fixed(25, 0), onBody(0, 0)},
		Bodies: []statics.Body{{Motion: r3.Vector{X: 1}}},
		Lines: []statics.Line{{Path: []int{0, 1, 2, 1}, Sheaves: []statics.Sheave{constant(0.9), constant(0.9)},
			Drum: true, TensionN: 1000}},
		Slings: []statics.Sling{{A: 3, B: 1, LengthM: 1}}}
	out := solved(t, r)
	near(t, 1000*(1+0.9+0.81), out.Slings[0].TensionN, 1e-4, "strap")
	near(t, 2.71, out.Advantage.ByForce, 1e-7, "by force")
	near(t, 3, out.Advantage.ByMotion, 1e-7, "by motion")
	near(t, 2.71/3, out.Advantage.Efficiency, 1e-7, "efficiency")
}

// An elastic length line between two posts, pulled aside by a drum line: force
// balance by hand at a known sag.
func TestElasticLineAside(t *testing.T) {
	const sag, half, c = 0.5, 10.0, 1e-5
	l := 2 * math.Hypot(half, sag)
	tension := (l - 2*half) / c
	pull := 2 * tension * sag / math.Hypot(half, sag)
	r := statics.Rig{Points: []statics.Point{fixed(-half, 0), free(0, -0.2), fixed(half, 0), fixed(0, -20)},
		Lines: []statics.Line{
			{Path: []int{3, 1}, Drum: true, TensionN: pull},
			{Path: []int{0, 1, 2}, Sheaves: []statics.Sheave{{Eta: 1}}, LengthM: 2 * half, ComplianceMPerN: c}}}
	out := solved(t, r)
	near(t, -sag, out.Points[1].Pos.Y, 1e-6, "sag")
	near(t, tension, out.Lines[1].TensionN, 1e-4*tension, "tension")
	near(t, l, out.Lines[1].LengthM, 1e-6, "length")
}

// A line of given length that stretches and rubs: each stretch takes its own
// tension, so the line is longer by t·(L/EA)·(l1 + eta·l2)/(l1 + l2), and not by
// t·L/EA. A block at the origin, ten metres to the hauling end, y to a point
// that a drum line holds with a known tension.
func TestAnElasticLineStretchesByTheTensionOfEachStretch(t *testing.T) {
	const l1, y, eta, pull, c = 10.0, 6.0, 0.8, 8000.0, 1e-4
	tension := pull / eta
	stretch := tension * c * (l1 + eta*y) / (l1 + y)
	r := statics.Rig{Points: []statics.Point{fixed(-l1, 0), fixed(0, 0), free(0, y-0.3), fixed(0, 20)},
		Lines: []statics.Line{
			{Path: []int{3, 2}, Drum: true, TensionN: pull},
			{Path: []int{0, 1, 2}, Sheaves: []statics.Sheave{constant(eta)}, LengthM: l1 + y - stretch, ComplianceMPerN: c}}}
	out := solved(t, r)
	near(t, tension, out.Lines[1].TensionN, 1e-6*tension, "tension at the hauling end")
	near(t, y, out.Points[2].Pos.Y, 1e-6, "where its end comes to rest")
}
