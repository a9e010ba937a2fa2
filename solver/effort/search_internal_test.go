package effort

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// What a motion costs is the definition of D with its corners rounded, less what the
// wrench at rest gives, for twists at which the pull gives 1; its slopes and their
// slopes are the differences of neighbours. Else the search settles nothing and
// halves its way instead, which is slow.
func TestTheSearchKnowsItsSlopes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		within := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		near := func(what string, want, got, size float64) {
			if !(math.Abs(got-want) <= 1e-5*size) {
				t.Fatalf("%s: %v, by differences %v", what, got, want)
			}
		}
		cs := make([]contact, mostContacts)
		for i := range cs {
			cs[i] = contact{xM: within("x", -2, 2), yM: within("y", -1, 1), alongA: within("along", 2000, 5000), alongB: within("alongB", -0.3, 0.3),
				acrossA: within("across", 2000, 5000), acrossB: within("acrossB", -0.3, 0.3)}
		}
		rest := wrench{within("rx", -3000, 3000), within("ry", -3000, 3000), within("rz", -3000, 3000)}
		pull := wrench{math.Cos(within("toward", -3, 3)), within("aside", 0.5, 1), within("turns", -2, 2)}
		s := search{cs: cs, rest: rest, arm: armM(cs)}
		for i := range cs {
			if math.Hypot(cs[i].xM, cs[i].yM) > s.arm {
				t.Fatalf("%v farther than the arm %v", cs[i], s.arm)
			}
		}
		if !s.aim(pull) {
			t.Fatal("no aim")
		}
		z, tension, eps := [2]float64{within("z0", -1, 1), within("z1", -1, 1)}, within("tension", 0, 4000), within("eps", 0.05, 0.2)
		s.z = z
		v := s.twist()
		near("pull·v", 1, pull[0]*v[0]+pull[1]*v[1]+pull[2]*v[2], 1)
		want := -(rest[0]*v[0] + rest[1]*v[1] + rest[2]*v[2])
		for _, c := range cs {
			along, across := c.alongA+c.alongB*tension, c.acrossA+c.acrossB*tension
			want += math.Sqrt(math.Pow(along*(v[0]-v[2]*c.yM), 2) + math.Pow(across*(v[1]+v[2]*c.xM), 2) + math.Pow(eps*(along+across), 2))
		}
		d, _ := s.cost(z, tension, eps)
		near("cost", want, d, 1e4)
		same, g, h, _ := s.lost(z, tension, eps)
		near("lost", want, same, 1e4)
		const step, sharp = 1e-4, 1e-6 // what the rounding adds does not count in the slope in T
		up, _ := s.cost(z, tension+1, sharp)
		down, _ := s.cost(z, tension-1, sharp)
		_, dt := s.cost(z, tension, sharp)
		_, _, _, sameDt := s.lost(z, tension, sharp)
		near("slope in T", (up-down)/2, dt, 1)
		near("slope in T of lost", dt, sameDt, 1)
		for i := range z {
			p, m := z, z
			p[i], m[i] = z[i]+step, z[i]-step
			up, gp, _, _ := s.lost(p, tension, eps)
			down, gm, _, _ := s.lost(m, tension, eps)
			near("slope", (up-down)/(2*step), g[i], 1e5)
			near("slope of slope", (gp[i]-gm[i])/(2*step), h[2*i], 1e6)
			near("slope across", (gp[1-i]-gm[1-i])/(2*step), h[1], 1e6)
		}
	})
}
