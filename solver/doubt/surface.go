package doubt

import "math"

// surface is a quadratic in some figures, fitted to what a rig answered for many of
// them: it stands in for the rig where that is asked a million times.
type surface struct {
	mid, half []float64   // of each figure: u = (x - mid)/half
	terms     [][]float64 // of each answer: 1, u₁ …, u₁u₁, u₁u₂ …
	bent      []int       // the answers that are not the same for all figures
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
	fitRounding = 1e-13 // of an answer: what may come of rounding
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
	var us [MaxDims]float64
	var bs [256]float64
	u := us[:len(x)]
	for i := range x {
		u[i] = (x[i] - s.mid[i]) / s.half[i]
	}
	for a := range out {
		out[a] = s.terms[a][0]
	}
	b, rest := basis(u, bs[:0]), s.bent
	for len(rest) >= 4 { // four at a time: none waits for another
		i, j, k, l := rest[0], rest[1], rest[2], rest[3]
		out[i], out[j], out[k], out[l] = dots(b, s.terms[i], s.terms[j], s.terms[k], s.terms[l])
		rest = rest[4:]
	}
	for _, i := range rest {
		out[i], _, _, _ = dots(b, s.terms[i], b, b, b)
	}
}

// dots are the sums of the products of b with each of four.
func dots(b, p, q, r, s []float64) (x, y, z, w float64) {
	p, q, r, s = p[:len(b)], q[:len(b)], r[:len(b)], s[:len(b)]
	for k, v := range b {
		x, y, z, w = x+p[k]*v, y+q[k]*v, z+r[k]*v, w+s[k]*v
	}
	return x, y, z, w
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
		if s.terms[a] = substitute(normal, right[a], n); bent(s.terms[a]) {
			s.bent = append(s.bent, a)
		}
	}
	return true
}

// bent reports whether an answer hangs on any figure by more than rounding.
func bent(terms []float64) bool {
	most := 0.0
	for _, x := range terms[1:] {
		most = max(most, math.Abs(x))
	}
	return most > fitRounding*math.Abs(terms[0])
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
