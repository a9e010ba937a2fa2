package travel

import "math"

// peak is the largest value along a pull.
type peak struct {
	sM, value float64
	foundM    float64 // where it was computed: beside a cut
	smooth    bool    // flat at its top; otherwise at an end of the pull or at a cut
	left      bool    // reached just before a jump down
	known     bool
}

// evenShare is the share by which a value must be larger to take the place of an
// earlier one.
const evenShare = 1e-9

// tieShare, of a value, is rounding: less is no slope.
const tieShare = 1e-11

// peak finds the largest of value i: the best place of the grid, or the top between
// its places where one may be higher.
func (s *scan) peak(i int) peak {
	var p peak
	take := func(sM, foundM, value float64, smooth, left bool) {
		if value == value && (!p.known || value > p.value+evenShare*math.Abs(p.value)) {
			p = peak{sM, value, foundM, smooth, left, true}
		}
	}
	last := len(s.nodes) - 1
	for k := range s.nodes {
		n := &s.nodes[k]
		sM, border, left := n.sM, k == 0 || k == last, false
		if n.side != 0 {
			sM, border = n.cut, true
		}
		if n.side < 0 && k < last {
			after := s.nodes[k+1].at(i)
			left = !(n.at(i)-after <= jumpShare*math.Abs(n.at(i))) // or not known beyond
		}
		take(sM, n.sM, n.at(i), !border, left)
	}
	if !p.known {
		return p
	}
	for k := range s.nodes {
		sM, value, found := s.top(i, k, p.value)
		if !found {
			continue
		}
		// The best place of the grid may be this top's own.
		own := p.smooth && math.Abs(p.sM-s.nodes[k].sM) <= besideM && value >= p.value-tieShare*math.Abs(p.value)
		if own || value > p.value+evenShare*math.Abs(p.value) {
			p = peak{sM, value, sM, true, false, true}
		}
	}
	return p
}

// top finds the flat top next to node k, if there is one that may be above best.
func (s *scan) top(i, k int, best float64) (sM, value float64, found bool) {
	b := &s.nodes[k]
	var a, c *node
	if k > 0 && b.side <= 0 {
		a = &s.nodes[k-1]
	}
	if k+1 < len(s.nodes) && b.side >= 0 {
		c = &s.nodes[k+1]
	}
	low, high := b.sM, b.sM
	switch {
	case a != nil && c != nil:
		if !(b.at(i) >= a.at(i) && b.at(i) > c.at(i)) {
			return 0, 0, false
		}
		_, v, _ := vertex([3]float64{a.sM, b.sM, c.sM}, [3]float64{a.at(i), b.at(i), c.at(i)})
		if v+math.Abs(v-b.at(i)) < best {
			return 0, 0, false
		}
		low, high = a.sM, c.sM
	case a != nil:
		if !(b.at(i) > a.at(i)) || b.at(i)+(b.at(i)-a.at(i)) < best {
			return 0, 0, false
		}
		low = a.sM
	case c != nil:
		if !(b.at(i) > c.at(i)) || b.at(i)+(b.at(i)-c.at(i)) < best {
			return 0, 0, false
		}
		high = c.sM
	}
	h := math.Min(slopeM, (high-low)/8)
	slope := func(sM float64) float64 {
		sM = math.Min(math.Max(sM, low+h), high-h)
		return s.one(i, sM+h) - s.one(i, sM-h)
	}
	up, down := slope(low), slope(high)
	if even := tieShare * math.Abs(b.at(i)); !(up > even && down < -even) {
		return 0, 0, false
	}
	sM = root(slope, low, high, up, down)
	return sM, s.one(i, sM), true
}
