package effort

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"kedge/solver/statics"
)

// Where no load follows the tension and nothing falls, the least tension is
// the limit surface of the statics, which was checked to 40 digits.
func TestLeastTensionMeetsTheLimitSurface(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		load := func(n string) float64 { return rapid.Float64Range(500, 8000).Draw(t, n) }
		mu := rapid.Float64Range(0.1, 0.8).Draw(t, "mu")
		front := rapid.SampledFrom([]float64{0, 1}).Draw(t, "front locked")
		rear := rapid.SampledFrom([]float64{0.3, 1}).Draw(t, "rear")
		deg := rapid.Float64Range(-180, 180).Draw(t, "deg") * math.Pi / 180
		at := rapid.Float64Range(-3, 3).Draw(t, "at")
		var cs [4]contact
		var ty [4]statics.Tyre
		for i := range cs {
			x, y, c := 1.4, 0.8, front*mu
			if i >= 2 {
				x, c = -1.4, rear*mu
			}
			if i%2 == 1 {
				y = -y
			}
			n := load("load")
			cs[i] = contact{xM: x, yM: y, alongA: c * n, acrossA: mu * n}
			ty[i] = statics.Tyre{XM: x, YM: y, LoadN: n, Along: c, Across: mu}
		}
		w := wrench{math.Cos(deg), math.Sin(deg), at * math.Sin(deg)}
		want := statics.LimitSurface(ty[:], w)
		if want.Status != statics.Converged || want.TensionN < 1 {
			return // straight along free wheels: nothing holds
		}
		got, ok := leastTension(cs[:], wrench{}, w, giving{})
		// Both round the corners of D; 1e-6 is far below any figure shown.
		if !ok || !(math.Abs(got.tensionN-want.TensionN) <= 1e-6*want.TensionN) {
			t.Fatalf("%v (%v), the statics %v", got.tensionN, ok, want.TensionN)
		}
		again, ok := leastTension(cs[:], wrench{}, w, giving{tensionN: got.tensionN * 1.4, z: got.z})
		if !ok || !(math.Abs(again.tensionN-want.TensionN) <= 1e-6*want.TensionN) {
			t.Fatalf("warm %v (%v), the statics %v", again.tensionN, ok, want.TensionN)
		}
	})
}

// Load that follows the tension: the answer is a tension at which the loads it
// makes itself just hold.
func TestLeastTensionHoldsWithItsOwnLoads(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shift := rapid.Float64Range(0, 0.4).Draw(t, "shift")
		mu := rapid.Float64Range(0.1, 0.8).Draw(t, "mu")
		deg := rapid.Float64Range(5, 175).Draw(t, "deg") * math.Pi / 180
		at := rapid.Float64Range(-2, 2).Draw(t, "at")
		var cs [4]contact
		for i := range cs {
			y := 0.8 - 1.6*float64(i%2)
			if i < 2 {
				cs[i] = contact{xM: 1.4, yM: y, acrossA: mu * 6000, acrossB: mu * shift / 2}
				continue
			}
			cs[i] = contact{xM: -1.4, yM: y, alongA: mu * 6000, alongB: -mu * shift / 2, acrossA: mu * 6000, acrossB: -mu * shift / 2}
		}
		w := wrench{math.Cos(deg), math.Sin(deg), at * math.Sin(deg)}
		got, ok := leastTension(cs[:], wrench{}, w, giving{})
		if !ok {
			t.Fatal("no answer")
		}
		l, _, ok := factorLeft(cs[:], got.tensionN, wrench{}.plus(w, got.tensionN))
		if !ok || !(math.Abs(l-1) <= 1e-6) {
			t.Fatalf("at %v N the loads hold %v times the pull", got.tensionN, l)
		}
	})
}

// What is found at once to be borne without a pull, the limit surface of the statics says
// is borne too: the search for it may be left out, and no bit changes. It is found of most
// of what rests with grip to spare.
func TestRestsWithinIsBorne(t *testing.T) {
	found, borne := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		load := func(n string) float64 { return rapid.Float64Range(0, 8000).Draw(t, n) }
		mu := rapid.Float64Range(0.1, 0.8).Draw(t, "mu")
		half := rapid.SampledFrom([]float64{0, 0.8}).Draw(t, "half the track")
		along := [2]float64{rapid.SampledFrom([]float64{0, 0.2, 1}).Draw(t, "front"), rapid.SampledFrom([]float64{0, 0.2, 1}).Draw(t, "rear")}
		var cs [4]contact
		for i := range cs {
			n := mu * load("load")
			cs[i] = contact{xM: 1.4 - 2.8*float64(i/2), yM: half * float64(1-2*(i%2)), alongA: along[i/2] * n, acrossA: n}
		}
		share := rapid.Float64Range(0, 0.8).Draw(t, "share")
		deg := rapid.Float64Range(-180, 180).Draw(t, "deg") * math.Pi / 180
		w := wrench{share * mu * 16_000 * math.Cos(deg), share * mu * 16_000 * math.Sin(deg), share * mu * rapid.Float64Range(-9000, 9000).Draw(t, "moment")}
		if !(math.Hypot(w[0], w[1]) > restShare*gripAtRest(cs[:])) {
			return // it is taken for none
		}
		l, _, ok := factorLeft(cs[:], 0, w)
		if ok && l > 1.5 {
			borne++
		}
		if restsWithin(cs[:], w) {
			found++
			if !ok || !(l > 1) {
				t.Fatalf("borne at once, and the limit surface says %v (%v)", l, ok)
			}
		}
	})
	if !(found > 0 && 2*found > borne) {
		t.Fatalf("%d found of %d borne half as much again", found, borne)
	}
}

// Four wheels alike, pushed along, across or round their middle, share it alike: at once
// it is found what they bear together. Grip 1000 N each, 1.4 and 0.8 m off the middle.
func TestRestsWithinToTheEdge(t *testing.T) {
	var cs [4]contact
	for i := range cs {
		cs[i] = contact{xM: 1.4 - 2.8*float64(i/2), yM: 0.8 - 1.6*float64(i%2), alongA: 1000, acrossA: 1000}
	}
	for _, all := range [...]wrench{{4000, 0, 0}, {0, 4000, 0}, {0, 0, 4000 * math.Hypot(1.4, 0.8)}} {
		if !restsWithin(cs[:], wrench{}.plus(all, 0.998)) || restsWithin(cs[:], wrench{}.plus(all, 1.001)) {
			t.Fatalf("%v", all)
		}
	}
}
