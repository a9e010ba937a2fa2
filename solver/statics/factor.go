package statics

import "math"

// skyline is a symmetric matrix by rows of the lower triangle from the first
// entry that may differ from zero, factored in place as L D L'.
type skyline struct {
	n     int
	first []int32 // first column of each row
	off   []int32 // a[off[i]+j] is entry (i, j)
	a     []float64
	inv   []float64 // 1/D
	min   []int32   // smallest free index coupled to each
}

// envelope lays out the skyline for the rig's couplings.
func (s *Solver) envelope() {
	m := &s.m
	nf := len(s.free)
	m.n = 3 * nf
	m.min = s.indices.grow(m.min, nf)
	for f := range m.min {
		m.min[f] = int32(f)
	}
	couple := func(f, g int32) {
		if f > g {
			f, g = g, f
		}
		if f >= 0 && f < m.min[g] {
			m.min[g] = f
		}
	}
	for k := range s.st {
		couple(s.st[k].fa, s.st[k].fb)
	}
	for i := range s.el {
		e := &s.el[i]
		for n := e.n0; n < e.n1; n++ {
			for k := n + 1; k < e.n1; k++ {
				couple(s.nodes[n].f, s.nodes[k].f)
			}
		}
	}
	m.first = s.indices.grow(m.first, m.n)
	m.off = s.indices.grow(m.off, m.n)
	m.inv = s.numbers.grow(m.inv, m.n)
	size := int32(0)
	for f := int32(0); f < int32(nf); f++ {
		c0 := 3 * m.min[f]
		w := 3*f + 3 - c0
		for r := int32(0); r < 3; r++ {
			i := 3*f + r
			m.first[i] = c0
			m.off[i] = size - c0
			size += w
		}
	}
	m.a = grow(m.a, int(size))
	s.grad = s.numbers.grow(s.grad, m.n)
	s.rhs = s.numbers.grow(s.rhs, m.n)
	s.delta = s.numbers.grow(s.delta, m.n)
}

// factor overwrites the matrix; false when it is not positive definite.
func (m *skyline) factor() bool {
	for i := 0; i < m.n; i++ {
		fi := int(m.first[i])
		oi := int(m.off[i])
		row := m.a[oi+fi : oi+i+1]
		for j := fi; j < i; j++ {
			fj := int(m.first[j])
			k0 := max(fi, fj)
			if k0 >= j {
				continue
			}
			oj := int(m.off[j])
			x := row[k0-fi : j-fi]
			y := m.a[oj+k0 : oj+j]
			y = y[:len(x)]
			sum := row[j-fi]
			for k, v := range x {
				sum -= v * y[k]
			}
			row[j-fi] = sum
		}
		last := len(row) - 1
		d := row[last]
		for j := 0; j < last; j++ {
			l := row[j] * m.inv[fi+j]
			d -= l * row[j]
			row[j] = l
		}
		if !(d > 0) {
			return false
		}
		m.inv[i] = 1 / d
	}
	return true
}

// solve overwrites b with the solution.
func (m *skyline) solve(b []float64) {
	b = b[:m.n]
	for i := range b {
		fi := int(m.first[i])
		oi := int(m.off[i])
		row := m.a[oi+fi : oi+i]
		x := b[fi : fi+len(row)]
		sum := b[i]
		for k, v := range row {
			sum -= v * x[k]
		}
		b[i] = sum
	}
	for i := range b {
		b[i] *= m.inv[i]
	}
	for i := m.n - 1; i >= 0; i-- {
		fi := int(m.first[i])
		oi := int(m.off[i])
		row := m.a[oi+fi : oi+i]
		x := b[fi : fi+len(row)]
		bi := b[i]
		for k, v := range row {
			x[k] -= v * bi
		}
	}
}

// dense is a full matrix factored with row exchanges, for rigs whose stiffness
// is not symmetric.
type dense struct {
	n    int
	a    []float64
	perm []int32
	tmp  []float64
}

// from copies the symmetric matrix.
func (d *dense) from(m *skyline) {
	d.n = m.n
	d.a = grow(d.a, m.n*m.n)
	d.perm = grow(d.perm, m.n)
	d.tmp = grow(d.tmp, m.n)
	clear(d.a)
	for i := 0; i < m.n; i++ {
		oi := int(m.off[i])
		for j := int(m.first[i]); j <= i; j++ {
			v := m.a[oi+j]
			d.a[i*d.n+j] = v
			d.a[j*d.n+i] = v
		}
	}
}

func (d *dense) factor() bool {
	n := d.n
	for c := 0; c < n; c++ {
		p, best := c, math.Abs(d.a[c*n+c])
		for r := c + 1; r < n; r++ {
			if v := math.Abs(d.a[r*n+c]); v > best {
				p, best = r, v
			}
		}
		if !(best > 0) {
			return false
		}
		d.perm[c] = int32(p)
		rc := d.a[c*n : c*n+n]
		if p != c {
			rp := d.a[p*n : p*n+n]
			for k := range rc {
				rc[k], rp[k] = rp[k], rc[k]
			}
		}
		inv := 1 / rc[c]
		for r := c + 1; r < n; r++ {
			rr := d.a[r*n : r*n+n]
			if rr[c] == 0 {
				continue
			}
			f := rr[c] * inv
			rr[c] = f
			for k := c + 1; k < n; k++ {
				rr[k] -= f * rc[k]
			}
		}
	}
	return true
}

func (d *dense) solve(b []float64) {
	n := d.n
	for c := 0; c < n; c++ {
		if p := d.perm[c]; int(p) != c {
			b[c], b[p] = b[p], b[c]
		}
	}
	for i := 0; i < n; i++ {
		row := d.a[i*n : i*n+i]
		sum := b[i]
		for k, v := range row {
			sum -= v * b[k]
		}
		b[i] = sum
	}
	for i := n - 1; i >= 0; i-- {
		row := d.a[i*n : i*n+n]
		sum := b[i]
		for k := i + 1; k < n; k++ {
			sum -= row[k] * b[k]
		}
		b[i] = sum / row[i]
	}
}
