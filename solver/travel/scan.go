package travel

import (
	"math"
	"slices"
)

// node is a place at which everything was computed. Before a node with step set
// lies no way: it is the far side of a cut, where values may jump.
type node struct {
	sM   float64
	v    []float64
	cut  float64 // the cut whose side it is
	side int8    // -1: just before the cut; +1: at or just after it; 0: no cut
}

// at is value i at the node; NaN: nobody followed it there.
func (n *node) at(i int) float64 {
	if i >= len(n.v) {
		return math.NaN()
	}
	return n.v[i]
}

// along gives values along a way.
type along interface {
	all(sM float64) []float64      // every value at a place, in a slice of its own
	one(i int, sM float64) float64 // value i
}

// scan holds the values along a pull at the places of a grid. A cut is a place where
// values or their slopes may jump: both its sides are nodes, and nothing is ever
// bracketed across it. A value that is not a number was not computed.
type scan struct {
	along
	nodes []node
	stop  func() bool // asked between places; nil: never
}

// newScan computes the values at places, in their order.
func newScan(a along, places []float64, stop func() bool) *scan {
	s := &scan{along: a, stop: stop, nodes: make([]node, 0, len(places)+32)}
	for _, sM := range places {
		if s.stopped() {
			break
		}
		s.nodes = append(s.nodes, s.node(sM))
	}
	return s
}

// even are places from 0 to endM, no further apart than stepM.
func even(endM, stepM float64) []float64 {
	n := max(1, int(math.Ceil(endM/stepM-1e-9)))
	at := make([]float64, n+1)
	for i := range at {
		at[i] = endM * float64(i) / float64(n)
	}
	return at
}

func (s *scan) stopped() bool { return s.stop != nil && s.stop() }

func (s *scan) node(sM float64) node { return node{sM: sM, v: s.all(sM)} }

// cut makes both sides of a place nodes. beyondM is how far beyond it its far side is
// computed: 0 if the place itself counts as that, besideM if it is known to rootM
// only.
func (s *scan) cut(atM, beyondM float64) {
	s.cutBetween(atM-besideM, atM, math.Min(atM+beyondM, s.nodes[len(s.nodes)-1].sM))
}

// cutBetween is cut for one that lies between two places.
func (s *scan) cutBetween(beforeM, atM, farM float64) {
	if beforeM < 0 || atM > s.nodes[len(s.nodes)-1].sM {
		return
	}
	for i := range s.nodes {
		if s.nodes[i].side != 0 && math.Abs(s.nodes[i].cut-atM) < 2*besideM {
			return
		}
	}
	s.nodes = slices.DeleteFunc(s.nodes, func(n node) bool {
		return n.side == 0 && n.sM > beforeM-besideM && n.sM < math.Max(farM, atM+besideM)
	})
	i := 0
	for i < len(s.nodes) && s.nodes[i].sM < atM {
		i++
	}
	before, far := s.node(beforeM), s.node(farM)
	before.cut, before.side, far.cut, far.side = atM, -1, atM, 1
	s.nodes = slices.Insert(s.nodes, i, before, far)
}

// again computes anew what lies beyond a place.
func (s *scan) again(fromM float64) {
	for i := range s.nodes {
		if n := &s.nodes[i]; n.sM >= fromM {
			n.v = s.all(n.sM)
		}
	}
}

// crossing is a place where a value passes a level. By a jump, before and after are
// the values on both sides.
type crossing struct {
	sM            float64
	rises         bool
	start         bool // beyond already at the start
	jump          bool
	before, after float64
}

// jumpShare is the share of a value below which two sides of a cut agree.
const jumpShare = 1e-6

// crossings finds every place where value i passes a level, rising from at or below
// it to above it, or falling back, in order. nearby: a value within this of the level
// is looked at between the grid's places even if its neighbours do not suggest that
// it gets there.
func (s *scan) crossings(i int, level, nearby float64) []crossing {
	var out []crossing
	at := func(sM float64) float64 { return s.one(i, sM) - level }
	pass := func(a, b, fa, fb float64) {
		if fa == fa && fb == fb && (fa > 0) != (fb > 0) {
			sM := root(at, a, b, fa, fb)
			out = append(out, crossing{sM: sM, rises: fb > 0})
		}
	}
	if first := s.nodes[0].at(i) - level; first > 0 {
		out = append(out, crossing{rises: true, start: true, after: first + level})
	}
	for k := 1; k < len(s.nodes) && !s.stopped(); k++ {
		a, b := &s.nodes[k-1], &s.nodes[k]
		fa, fb := a.at(i)-level, b.at(i)-level
		switch {
		case b.side > 0:
			if fa == fa && fb == fb && (fa > 0) != (fb > 0) {
				jump := math.Abs(fb-fa) > jumpShare*math.Max(math.Abs(a.at(i)), math.Abs(b.at(i)))
				out = append(out, crossing{sM: b.cut, rises: fb > 0, jump: jump, before: a.at(i), after: b.at(i)})
			}
		case fa == fa && fb == fb && (fa > 0) == (fb > 0) && k+1 < len(s.nodes) && s.nodes[k+1].side <= 0:
			c := &s.nodes[k+1]
			fc := c.at(i) - level
			if x, fx, found := touch(at, [3]float64{a.sM, b.sM, c.sM}, [3]float64{fa, fb, fc}, nearby); found {
				if x < b.sM {
					pass(a.sM, x, fa, fx)
					pass(x, b.sM, fx, fb)
				} else {
					pass(b.sM, x, fb, fx)
					pass(x, c.sM, fx, fc)
				}
			}
		default:
			pass(a.sM, b.sM, fa, fb)
		}
	}
	return out
}

// touch looks between three places whose values have one sign for one of the other
// sign.
func touch(f func(float64) float64, x, y [3]float64, nearby float64) (at, value float64, found bool) {
	sign := 1.0
	if !(y[1] > 0) {
		sign = -1
	}
	for i := range y {
		y[i] *= sign
		if y[i] != y[i] {
			return 0, 0, false
		}
	}
	if y[1] > y[0] || y[1] > y[2] || y[0] <= 0 || y[2] <= 0 {
		return 0, 0, false
	}
	const near = 0.3 // share of the value that the parabola may miss it by
	steps := 20
	if _, low, ok := vertex(x, y); !ok || low > near*y[1] {
		if steps = 12; y[1] > nearby {
			return 0, 0, false
		}
	}
	at, value = lowest(func(sM float64) float64 { return sign * f(sM) }, x[0], x[1], x[2], y[1], steps)
	return at, sign * value, value <= 0
}
