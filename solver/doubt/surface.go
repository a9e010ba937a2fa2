package doubt

import "math"

// surface is a quadratic in some figures, fitted to what a rig answered for many of
// them: it stands in for the rig where that is asked a million times.
type surface struct {
	mid, half []float64   // of each figure: u = (x - mid)/half
	terms     [][]float64 // of each answer: 1, u₁ …, u₁u₁, u₁u₂ …; those behind them are none
}

// How a surface is fitted and tried.
const (
	fitTimes    = 4     // points for each term
	fitLeast    = 64    // points at least
	fitTried    = 64    // points that it is tried at, none of those it is fitted to
	fitMost     = 0.005 // most that an answer may be out, of its size; of a logarithm, at all: the force is out by that share
	fitEffort   = 0.02  // the same of what it takes to break loose, a range many times as wide
	fitSigmas   = 3.5   // how far out the points lie, as of a standard normal
	fitRefused  = 0.05  // most of the points at which the rig may be refused
	fitRounding = 1e-13 // of its greatest term, up to which a term is rounding
)

// termCount is how many terms a quadratic in d figures has.
func termCount(d int) int { return 1 + d + d*(d+1)/2 }

// basis writes the terms of a quadratic in u.
func basis(u, out []float64) []float64 {
	out = append(out[:0], 1)
	out = append(out, u...)
	for i := range u {
		for j := i; j < len(u); j++ {
			out = append(out, u[i]*u[j])
		}
	}
	return out
}

// at writes the answers for figures x.
func (s *surface) at(x, out []float64) {
	var room [MaxDims]float64
	var terms [256]float64
	u := room[:len(x)]
	for i := range x {
		u[i] = (x[i] - s.mid[i]) / s.half[i]
	}
	b := basis(u, terms[:0])
	for a := range out {
		out[a] = dot(s.terms[a], b)
	}
}

// dot is the sum of the products of a with as much of b. It is added up in four parts,
// of which none waits for another.
func dot(a, b []float64) float64 {
	b = b[:len(a)]
	var s, t, u, v float64
	for len(a) >= 4 && len(b) >= 4 {
		s, t, u, v = s+a[0]*b[0], t+a[1]*b[1], u+a[2]*b[2], v+a[3]*b[3]
		a, b = a[4:], b[4:]
	}
	for i := range a {
		s += a[i] * b[i]
	}
	return s + t + u + v
}

// fit fits a surface to what ask answers for figures that scatter as dists do, and
// tries it elsewhere. False: they do not lie on one: one is out by more than most says of
// it and its figure. An answer that ask does not have is left out; refused is the share
// of those, drawn the share where figures scatter.
func fit(dists []Dist, answers int, ask func(x, y []float64) bool, most func(answer int, is float64) float64) (s *surface, refused, drawn float64, ok bool) {
	d := len(dists)
	s = &surface{mid: make([]float64, d), half: make([]float64, d), terms: make([][]float64, answers)}
	for i, x := range dists {
		low, high := x.OfNormal(-fitSigmas), x.OfNormal(fitSigmas)
		s.mid[i], s.half[i] = (low+high)/2, (high-low)/2
	}
	n := 1
	for n < max(fitLeast, fitTimes*termCount(d)) {
		n *= 2
	}
	rows, ys, none := samplePoints(dists, n, 0, answers, ask)
	tried, tys, noneTried := samplePoints(dists, fitTried, 1, answers, ask)
	refused, drawn = float64(none+noneTried)/float64(n+fitTried), float64(noneTried)/fitTried
	if refused > fitRefused || len(rows) < 2*termCount(d) {
		return nil, refused, drawn, false
	}
	if !s.solve(rows, ys) {
		return nil, refused, drawn, false
	}
	got := make([]float64, answers)
	for k, x := range tried {
		s.at(x, got)
		for a := range got {
			if !(math.Abs(got[a]-tys[k][a]) <= most(a, tys[k][a])) {
				return nil, refused, drawn, false
			}
		}
	}
	return s, refused, drawn, true
}

// samplePoints asks for n points of a set: the first spreads evenly as far as the tails
// go, the other as the figures scatter.
func samplePoints(dists []Dist, n, set, answers int, ask func(x, y []float64) bool) (xs, ys [][]float64, refused int) {
	u := make([]float64, n*len(dists))
	points(u, len(dists), 0, set, 1)
	for k := range n {
		x, y := make([]float64, len(dists)), make([]float64, answers)
		for i, d := range dists {
			v := u[k*len(dists)+i]
			if set == 0 {
				x[i] = d.OfNormal(fitSigmas * (2*v - 1))
			} else {
				x[i] = d.At(v)
			}
		}
		if !ask(x, y) {
			refused++
			continue
		}
		xs, ys = append(xs, x), append(ys, y)
	}
	return xs, ys, refused
}

// solve is the least squares fit, by the normal equations.
func (s *surface) solve(xs, ys [][]float64) bool {
	n := termCount(len(s.mid))
	normal, u, b := make([]float64, n*n), make([]float64, len(s.mid)), make([]float64, 0, n)
	right := make([][]float64, len(s.terms))
	for a := range right {
		right[a] = make([]float64, n)
	}
	for k, x := range xs {
		for i := range x {
			u[i] = (x[i] - s.mid[i]) / s.half[i]
		}
		b = basis(u, b)
		for i := range n {
			for j := range i + 1 {
				normal[i*n+j] += b[i] * b[j]
			}
			for a := range right {
				right[a][i] += b[i] * ys[k][a]
			}
		}
	}
	if !cholesky(normal, n) {
		return false
	}
	for a := range right {
		s.terms[a] = trimmed(substitute(normal, right[a], n))
	}
	return true
}

// trimmed is an answer's terms without those at the end that are but rounding of the
// greatest: of one that hangs on no figure the constant is left.
func trimmed(terms []float64) []float64 {
	most := 0.0
	for _, x := range terms {
		most = max(most, math.Abs(x))
	}
	n := len(terms)
	for n > 1 && math.Abs(terms[n-1]) <= fitRounding*most {
		n--
	}
	return terms[:n]
}

// cholesky turns a symmetric matrix into its lower factor; false: it is not positive.
func cholesky(m []float64, n int) bool {
	for i := range n {
		for j := range i + 1 {
			x := m[i*n+j]
			for l := range j {
				x -= m[i*n+l] * m[j*n+l]
			}
			switch {
			case i != j:
				m[i*n+j] = x / m[j*n+j]
			case x > 1e-12*m[i*n+i]:
				m[i*n+i] = math.Sqrt(x)
			default:
				return false
			}
		}
	}
	return true
}

// substitute solves with a lower factor and its transpose.
func substitute(l, b []float64, n int) []float64 {
	x := append([]float64(nil), b...)
	for i := range n {
		for j := range i {
			x[i] -= l[i*n+j] * x[j]
		}
		x[i] /= l[i*n+i]
	}
	for i := n - 1; i >= 0; i-- {
		for j := i + 1; j < n; j++ {
			x[i] -= l[j*n+i] * x[j]
		}
		x[i] /= l[i*n+i]
	}
	return x
}
