package doubt_test

import (
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/solver/doubt"
)

// table draws figures of distributions, one dimension each, and what f makes of them.
func table(dists []doubt.Dist, columns int, seed uint64, f func(x, y []float64)) *doubt.Table {
	return doubt.Draw(len(dists), columns, doubt.Request{Per: perSet, Seed: seed, Workers: 2}, func() func(u, y []float64) {
		x := make([]float64, len(dists))
		return func(u, y []float64) {
			for i, d := range dists {
				x[i] = d.At(u[i])
			}
			f(x, y)
		}
	})
}

func one(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// exceed: a load and a strength.
func exceed(t *testing.T, c *refCase, seed uint64) map[string]float64 {
	load, strength := in[dist](t, c, "load"), in[dist](t, c, "strength")
	s := table([]doubt.Dist{load.of(t, 1), strength.of(t, 1)}, 1, seed, func(x, y []float64) { y[0] = one(x[0] > x[1]) })
	return map[string]float64{"P(load > strength)": s.Mean(0).Value}
}

// slingBasket: a sling round a trunk, two lengths, the same trials.
func slingBasket(t *testing.T, c *refCase, seed uint64) map[string]float64 {
	load, strength := in[dist](t, c, "block_load_kN"), in[dist](t, c, "leg_strength_kN")
	r := in[float64](t, c, "trunk_radius_m")
	got := map[string]float64{}
	factor := func(lengthM float64) float64 {
		low, high := r, lengthM // of the apex from the middle of the trunk
		for range 200 {
			a := (low + high) / 2
			if 2*math.Sqrt(a*a-r*r)+2*r*(math.Pi-math.Acos(r/a)) < lengthM {
				low = a
			} else {
				high = a
			}
		}
		half := math.Asin(r / low)
		names := []string{strconv.FormatFloat(lengthM, 'f', 2, 64), strconv.FormatFloat(lengthM, 'f', 1, 64)}
		for _, n := range names {
			got["apex "+n+" m"], got["legs open "+n+", deg"], got["leg per load "+n] = low, 2*half*180/math.Pi, 0.55/math.Cos(half)
		}
		return 0.55 / math.Cos(half)
	}
	before, after := factor(in[float64](t, c, "sling_length_before_m")), factor(in[float64](t, c, "sling_length_after_m"))
	s := table([]doubt.Dist{load.of(t, 1), strength.of(t, 1)}, 2, seed, func(x, y []float64) {
		y[0], y[1] = one(before*x[0] > x[1]), one(after*x[0] > x[1])
	})
	both := s.Chance(func(i int) bool { return s.Columns[0][i]*s.Columns[1][i] > 0 }).Value
	got["P(sling fails) before"], got["P(sling fails) after"] = s.Mean(0).Value, s.Mean(1).Value
	got["P(fails after | failed before)"] = both / s.Mean(0).Value
	return got
}

// flying: what was found so far off says of the tension. One part that fails at the
// tension drawn, and nothing else.
func flying(t *testing.T, c *refCase, seed uint64) map[string]float64 {
	tension, share := in[dist](t, c, "tension_kN"), in[dist](t, c, "efficiency")
	limitN := in[float64](t, c, "limit_kN") * newtons
	perN2 := 0.0
	for _, s := range in[[]struct {
		K  float64 `json:"force_per_tension"`
		L  float64 `json:"length_m"`
		EA float64 `json:"EA_N"`
	}](t, c, "stretches") {
		perN2 += s.K * s.K * s.L / (2 * s.EA)
	}
	mass, speed := in[float64](t, c, "thrown_mass_kg"), doubt.LeastSpeed(in[float64](t, c, "found_at_m"), 0)
	got := map[string]float64{"energy per kN^2, J": perN2 * newtons * newtons, "least speed m/s": speed}
	full := in[dist](t, c, "efficiency").High
	got["least tension that could throw it"] = math.Sqrt(speed*speed*mass/2/full/perN2) / newtons
	for _, e := range c.Evidence {
		incident := &doubt.Incident{
			Parts:  []doubt.Part{{ID: "part", Sound: tension.of(t, newtons)}},
			Flying: share.of(t, 1),
			Pull: func(_ []float64, p *doubt.Pull) {
				p.EndN, p.Factors[0], p.JPerN2 = math.Inf(1), 1, perN2
			},
		}
		for _, f := range e.Facts {
			f.Thrown, f.Mass = []string{"part"}, mass
			incident.Facts = append(incident.Facts, f.of(t))
		}
		s := take(t, incident, seed)
		w := s.Weight()
		above := s.Given(func(x *doubt.Trial) float64 { return one(x.TensionN > limitN) }, w).Value
		if e.Facts[0].Trust < 1 {
			got["P(T > limit | told, trust "+strconv.FormatFloat(e.Facts[0].Trust, 'g', -1, 64)+")"] = above
			continue
		}
		q := s.Bands(w, 0.05, 0.5, 0.95)
		got["P(evidence)"], got["P(T > limit | evidence)"] = s.Mean(w).Value, above
		got["P(T > limit)"] = s.Mean(func(x *doubt.Trial) float64 { return one(x.TensionN > limitN) }).Value
		got["posterior mean T"] = s.Given(func(x *doubt.Trial) float64 { return x.TensionN }, w).Value / newtons
		got["posterior q0.05 T"], got["posterior q0.5 T"], got["posterior q0.95 T"] = q[0]/newtons, q[1]/newtons, q[2]/newtons
	}
	return got
}

// take draws an incident.
func take(t *testing.T, in *doubt.Incident, seed uint64) *doubt.Sample {
	t.Helper()
	s, err := doubt.Take(in, perSet, seed, 2)
	require.NoError(t, err)
	return s
}

// shares is variance, first-order, total and given-data shares of a function of figures
// between 0 and 1. Given-data shares are of a table of about 20 000 rows, so that the
// bins are as in the case.
func shares(inputs int, seed uint64, f func(u []float64) float64) map[string]float64 {
	first, total := doubt.Shares(inputs, perSet, seed, 2, f)
	s := doubt.Draw(inputs, inputs+1, doubt.Request{Per: perSet, Seed: seed + 1, Workers: 2}, func() func(u, y []float64) {
		return func(u, y []float64) {
			copy(y, u)
			y[inputs] = f(u)
		}
	})
	y := s.Columns[inputs]
	m := s.Mean(inputs).Value
	got := map[string]float64{"mean": m, "variance": s.Of(func(from, to int) float64 {
		v := 0.0
		for _, x := range y[from:to] {
			v += (x - m) * (x - m)
		}
		return v / float64(to-from)
	}).Value}
	for i := range inputs {
		n := strconv.Itoa(i + 1)
		got["S"+n], got["ST"+n] = first[i].Value, total[i].Value
		got["S"+n+" given data"] = doubt.Share(s.Columns[i], y)
		got["share x"+n] = got["S"+n+" given data"]
	}
	return got
}

// ishigami: y = sin x1 + a sin² x2 + b x3⁴ sin x1, with a = 7 and b = 0.1 if not given.
func ishigami(t *testing.T, c *refCase, seed uint64) map[string]float64 {
	return shares(3, seed, func(u []float64) float64 {
		x := func(i int) float64 { return math.Pi * (2*u[i] - 1) }
		return math.Sin(x(0)) + 7*math.Pow(math.Sin(x(1)), 2) + 0.1*math.Pow(x(2), 4)*math.Sin(x(0))
	})
}

// sobolG: the g-function.
func sobolG(t *testing.T, c *refCase, seed uint64) map[string]float64 {
	a := in[[]float64](t, c, "a")
	return shares(len(a), seed, func(u []float64) float64 {
		y := 1.0
		for i, x := range u {
			y *= (math.Abs(4*x-2) + a[i]) / (1 + a[i])
		}
		return y
	})
}

// linear: a sum of figures.
func linear(t *testing.T, c *refCase, seed uint64) map[string]float64 {
	var dists []doubt.Dist
	for _, name := range slices.Sorted(maps.Keys(c.Inputs)) {
		d := in[dist](t, c, name)
		dists = append(dists, d.of(t, 1))
	}
	return shares(len(dists), seed, func(u []float64) float64 {
		y := 0.0
		for i, d := range dists {
			y += c.Model.Coefficients[i] * d.At(u[i])
		}
		return y
	})
}

// bivariate: the rank correlation of two normal figures.
func bivariate(t *testing.T, c *refCase, seed uint64) map[string]float64 {
	x, e := in[dist](t, c, "x"), in[dist](t, c, "e")
	got := map[string]float64{}
	for name := range c.Expected.Quantities {
		_, text, ok := strings.Cut(name, "rho=")
		require.True(t, ok, name)
		rho, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err)
		s := table([]doubt.Dist{x.of(t, 1), e.of(t, 1)}, 2, seed, func(x, y []float64) {
			y[0], y[1] = x[0], rho*x[0]+math.Sqrt(1-rho*rho)*x[1]
		})
		got[name] = doubt.RankCorrelation(s.Columns[0], s.Columns[1])
	}
	return got
}
