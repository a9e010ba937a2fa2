package statics_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/solver/statics"
)

func wagon(loadN, along, across float64) []statics.Tyre {
	var t []statics.Tyre
	for _, x := range []float64{1.4, -1.4} {
		for _, y := range []float64{0.8, -0.8} {
			t = append(t, statics.Tyre{XM: x, YM: y, LoadN: loadN, Along: along, Across: across})
		}
	}
	return t
}

// Centre pull at an angle, by hand (README section 8): T = SN / sqrt((cos a/c)^2 + (sin a/mu)^2).
func TestLimitSurfaceCentrePull(t *testing.T) {
	for deg := 0.0; deg <= 180; deg += 15 {
		a := deg * math.Pi / 180
		got := statics.LimitSurface(wagon(6000, 0.25, 0.6), [3]float64{math.Cos(a), math.Sin(a), 0})
		require.Equal(t, statics.Converged, got.Status)
		want := 24000 / math.Hypot(math.Cos(a)/0.25, math.Sin(a)/0.6)
		near(t, want, got.TensionN, 1e-8*want, "least tension at %v deg", deg)
		near(t, 0, got.Twist[2], 1e-6, "no yaw at %v deg", deg)
		// v ~ (cos a/c^2, sin a/mu^2)
		near(t, 0, got.Twist[0]*math.Sin(a)/0.36-got.Twist[1]*math.Cos(a)/0.0625, 1e-5, "way at %v deg", deg)
	}
}

// Pure moment, by hand (README section 8): SN sqrt((c y)^2 + (mu x)^2).
func TestLimitSurfacePureMoment(t *testing.T) {
	got := statics.LimitSurface(wagon(6000, 0.25, 0.6), [3]float64{0, 0, 2})
	want := 24000 * math.Hypot(0.25*0.8, 0.6*1.4) / 2
	near(t, want, got.TensionN, 1e-8*want, "least tension for a moment of 2 m")
	near(t, 0.5, got.Twist[2], 1e-8, "turn per metre of line")
}

// One tyre dragged at its contact, and turned about it: the kink of the surface.
func TestLimitSurfaceOneTyre(t *testing.T) {
	one := []statics.Tyre{{XM: 1, YM: 0, LoadN: 5000, Along: 0.5, Across: 0.5}}
	got := statics.LimitSurface(one, [3]float64{1, 0, 0})
	require.Equal(t, statics.Converged, got.Status)
	near(t, 2500, got.TensionN, 1e-6*2500, "drag at the hub")
	// A moment can turn it about its own contact without resistance.
	got = statics.LimitSurface(one, [3]float64{0, 0, 1})
	assert.Equal(t, statics.NoPull, got.Status)
	assert.Zero(t, got.TensionN)
}

func TestLimitSurfaceRefuses(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		tyres  []statics.Tyre
		wrench [3]float64
		want   statics.Status
	}{
		{wagon(nan, 1, 1), [3]float64{1, 0, 0}, statics.BadInput},
		{wagon(-1, 1, 1), [3]float64{1, 0, 0}, statics.BadInput},
		{wagon(1, math.Inf(1), 1), [3]float64{1, 0, 0}, statics.BadInput},
		{wagon(1, 1, 1), [3]float64{nan, 0, 0}, statics.BadInput},
		{wagon(1, 1, 1), [3]float64{}, statics.NoPull},
		{nil, [3]float64{1, 0, 0}, statics.NoPull},
		{wagon(1, 0, 0), [3]float64{1, 0, 0}, statics.NoPull},
		{wagon(1, 0, 1), [3]float64{1, 0, 0}, statics.NoPull},
	} {
		got := statics.LimitSurface(c.tyres, c.wrench)
		assert.Equal(t, c.want, got.Status)
		assert.True(t, math.IsNaN(got.Twist[0]))
	}
}

// Properties: the answer is a point of the surface (no twist needs less), turns
// and scales with the body, and does not depend on the order of the tyres.
func TestLimitSurfaceProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(lo, hi float64, name string) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		tyres := wagon(5000, f(0.02, 0.8, "along"), f(0.2, 0.9, "across"))
		for i := range tyres {
			tyres[i].LoadN *= f(0.3, 2, "share")
		}
		w := [3]float64{f(-1, 1, "fx"), f(-1, 1, "fy"), f(-2, 2, "m")}
		if w[0]*w[0]+w[1]*w[1]+w[2]*w[2] < 0.01 {
			return
		}
		got := statics.LimitSurface(tyres, w)
		if got.Status != statics.Converged {
			t.Fatalf("status %v", got.Status)
		}
		drag := func(v [3]float64) float64 {
			sum := 0.0
			for _, y := range tyres {
				sum += y.LoadN * math.Hypot(y.Along*(v[0]-v[2]*y.YM), y.Across*(v[1]+v[2]*y.XM))
			}
			return sum
		}
		work := func(v [3]float64) float64 { return w[0]*v[0] + w[1]*v[1] + w[2]*v[2] }
		if !(math.Abs(work(got.Twist)-1) <= 1e-9) || !(math.Abs(drag(got.Twist)-got.TensionN) <= 1e-9*got.TensionN) {
			t.Fatalf("the twist does not do the work: %v %v", work(got.Twist), drag(got.Twist)/got.TensionN)
		}
		for k := 0; k < 20; k++ {
			v := [3]float64{f(-1, 1, "vx"), f(-1, 1, "vy"), f(-1, 1, "omega")}
			if g := work(v); g > 1e-6 && !(drag(v)/g >= got.TensionN*(1-1e-8)) {
				t.Fatalf("twist %v needs %v, less than %v", v, drag(v)/g, got.TensionN)
			}
		}
		tyres[0], tyres[3] = tyres[3], tyres[0]
		for i := range w {
			w[i] *= 3
		}
		if again := statics.LimitSurface(tyres, w); !(math.Abs(3*again.TensionN-got.TensionN) <= 1e-8*got.TensionN) {
			t.Fatalf("order or scale: %v against %v", again.TensionN, got.TensionN)
		}
	})
}

func BenchmarkLimitSurface(b *testing.B) {
	tyres := wagon(6000, 0.25, 0.6)
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		if statics.LimitSurface(tyres, [3]float64{0.8, 0.4, 0.7}).Status != statics.Converged {
			b.Fatal("not converged")
		}
	}
}
