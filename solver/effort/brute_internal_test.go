package effort

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"github.com/golang/geo/r3"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// moves reports whether a standing vehicle moves at a tension: whether there is a
// motion, of all that a grid holds, in which the pull and the slope give more than
// the wheels resist. Each wheel resists by the smaller of its limits at that very
// tension, grip or its share of the brake; a wheel that has lifted resists nothing.
// This is the principle of maximum dissipation written out, and shares nothing with
// the search.
func (b *brace) moves(s *stance, mu, t float64, locked [2]bool, caps [2]float64, grid []wrench) bool {
	fa, fb, ra, rb := b.loads(s)
	load := [2]float64{max(0, fa+fb*t), max(0, ra+rb*t)}
	at := [2]float64{s.frontM, s.rearM}
	w := wrench{b.weight*b.sinX + t*b.f.X, b.weight*b.sinY + t*b.f.Y, b.weight*b.sinY*s.cgM + t*b.yaw}
	for _, v := range grid {
		gives, resists := w[0]*v[0]+w[1]*v[1]+w[2]*v[2], 0.0
		for i := range at {
			across := mu * load[i] / 2
			along := 0.0
			if locked[i] {
				along = across
				if caps[i] >= 0 {
					along = min(along, caps[i]/2)
				}
			}
			for _, y := range [2]float64{s.halfTrackM, -s.halfTrackM} {
				resists += math.Hypot(along*(v[0]-v[2]*y), across*(v[1]+v[2]*at[i]))
			}
		}
		if gives > resists {
			return true
		}
	}
	return false
}

// motions is a grid of twists, one each about 3 degrees, moments at an arm of
// 1.5 m.
var motions = func() (grid []wrench) {
	const n = 60
	for i := range n + 1 {
		up := math.Pi * (float64(i)/n - 0.5)
		round := max(1, int(2*n*math.Cos(up)+0.5))
		for k := range round {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(round))
			grid = append(grid, wrench{math.Cos(up) * cos, math.Cos(up) * sin, math.Sin(up) / 1.5})
		}
	}
	return grid
}()

// A vehicle that is said to hold a pull does hold it, and every lesser one:
// whatever its brakes, chocks, slope and pull are, no motion of the grid gains
// below the tension that is told, and just above it the motion that is told does,
// unless an axle lifts first.
func TestHoldAgainstAllMotions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		within := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		v := &plan.Vehicle{Mass: 2600, Wheelbase: 2.8, FrontOverhang: 0.9, Length: 4.6, Track: 1.6,
			CGHeight: quantity.Length(within("cg", 0.5, 1.2)), CGBehindFront: quantity.Length(within("behind", 0.9, 1.9))}
		v.Brake = rapid.SampledFrom([]string{plan.BrakeNone, plan.BrakeRear, plan.BrakeFront, plan.BrakeAll, plan.BrakeAll}).Draw(t, "brake")
		v.Chocks = rapid.SampledFrom([]string{"", "", plan.ChocksFront, plan.ChocksRear, plan.ChocksAll}).Draw(t, "chocks")
		v.BrakeForce = quantity.Force(within("strength", 1000, 20_000))
		sin, cos := math.Sincos(within("pull", -math.Pi, math.Pi))
		rise, flat := math.Sincos(within("rise", -0.3, 0.5))
		end := LineEnd{PerTension: r3.Vector{X: cos * flat, Y: sin * flat, Z: rise},
			AheadM: within("ahead", -2.3, 2.3), LeftM: within("left", -0.8, 0.8), HeightM: within("height", 0.3, 1)}
		b := brace{in: HoldIn{Vehicle: v, Ends: []LineEnd{end}, FallAheadDeg: within("falls ahead", -12, 12), FallLeftDeg: within("falls left", -12, 12)}, n: book()}
		mu := within("grip", 0.2, 0.8)
		b.mu = triple{mu, mu, mu}
		b.sum()
		s, ok := stand(v, 0.5, 0.7)
		if !ok {
			t.Fatal("no stance")
		}
		got, ok := b.least(low, &s, locking{}, giving{})
		if !ok {
			t.Fatal("no answer")
		}
		freeF, freeR, brakeF, brakeR, capN := b.locked(low, locking{})
		locked, caps := [2]bool{freeF || brakeF, freeR || brakeR}, [2]float64{-1, -1}
		fa, fb, ra, rb := b.loads(&s)
		switch {
		case brakeF && brakeR:
			k := max(0, fa) / (max(0, fa) + max(0, ra))
			caps = [2]float64{capN * k, capN * (1 - k)}
		case brakeF:
			caps[0] = capN
		case brakeR:
			caps[1] = capN
		}
		if b.moves(&s, mu, 0, locked, caps, motions) {
			return // it does not stand without a pull: the matter of Stands
		}
		told := min(got.tensionN, 200_000)
		for _, share := range [...]float64{0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 0.98, 0.99, 0.995, 0.998, 0.999} {
			if x := told * share; x > 0 && b.moves(&s, mu, x, locked, caps, motions) {
				t.Fatalf("said to hold %.1f N, and moves at %.1f", got.tensionN, x)
			}
		}
		front, rear := fa+fb*told, ra+rb*told
		if lifts := min(front, rear) < 1; !lifts && got.tensionN < 200_000 && !b.moves(&s, mu, got.tensionN*(1+1e-4)+1, locked, caps, append(motions[:len(motions):len(motions)], wrench(got.twist))) {
			t.Fatalf("said to move at %.1f N by %v, and does not", got.tensionN, got.twist)
		}
	})
}

// A brake on all wheels, 16 kN, on a vehicle whose weight its axles share: 8 kN
// each, grip 0.65 · 12.75 kN = 8.29 kN each at rest. Pulled by its front, 0.85 m up,
// the rear axle slips before the brake of the front gives:
//
//	T = 8 000 + 0.65 · (W/2 − T·0.85/2.8)
func TestHoldWithOneAxleSlipping(t *testing.T) {
	v := &plan.Vehicle{Mass: 2600, Wheelbase: 2.8, FrontOverhang: 0.9, Length: 4.6, Track: 1.6, CGHeight: 0.7, CGBehindFront: 1.4, Brake: plan.BrakeAll, BrakeForce: 16_000}
	b := brace{in: HoldIn{Vehicle: v, Ends: []LineEnd{{PerTension: r3.Vector{X: 1}, AheadM: 2.3, HeightM: 0.85}}}, n: book(), mu: triple{0.65, 0.65, 0.65}}
	b.sum()
	s, _ := stand(v, 0.5, 0.7)
	got, ok := b.least(low, &s, locking{}, giving{})
	want := (8000 + 0.65*2600*quantity.Gravity/2) / (1 + 0.65*0.85/2.8)
	if !ok || math.Abs(got.tensionN-want) > 1e-6*want {
		t.Fatalf("%.2f N, worked by hand %.2f", got.tensionN, want)
	}
}
