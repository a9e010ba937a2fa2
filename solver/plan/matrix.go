package plan

import "math"

// solved8 solves eight equations, by elimination with the greatest of a column first; false:
// they have no one answer.
func solved8(m [8][8]float64, r [8]float64) ([8]float64, bool) {
	for c := range m {
		best := c
		for i := c + 1; i < 8; i++ {
			if math.Abs(m[i][c]) > math.Abs(m[best][c]) {
				best = i
			}
		}
		m[c], m[best], r[c], r[best] = m[best], m[c], r[best], r[c]
		if !(math.Abs(m[c][c]) > 0) {
			return r, false
		}
		for i := c + 1; i < 8; i++ {
			k := m[i][c] / m[c][c]
			for j := c; j < 8; j++ {
				m[i][j] -= k * m[c][j]
			}
			r[i] -= k * r[c]
		}
	}
	for i := 7; i >= 0; i-- {
		for j := i + 1; j < 8; j++ {
			r[i] -= m[i][j] * r[j]
		}
		r[i] /= m[i][i]
	}
	return r, true
}

// full is a map of eight numbers as three rows of three.
func full(h *[8]float64) [9]float64 {
	return [9]float64{h[0], h[1], h[2], h[3], h[4], h[5], h[6], h[7], 1}
}

func apply(m *[9]float64, x, y float64) (a, b, c float64) {
	return m[0]*x + m[1]*y + m[2], m[3]*x + m[4]*y + m[5], m[6]*x + m[7]*y + m[8]
}

func times(a, b [9]float64) (m [9]float64) {
	for i := range 3 {
		for j := range 3 {
			m[3*i+j] = a[3*i]*b[j] + a[3*i+1]*b[3+j] + a[3*i+2]*b[6+j]
		}
	}
	return m
}

func determinant(m [9]float64) float64 {
	return m[0]*(m[4]*m[8]-m[5]*m[7]) - m[1]*(m[3]*m[8]-m[5]*m[6]) + m[2]*(m[3]*m[7]-m[4]*m[6])
}

// inverse is that of m, which has one.
func inverse(m [9]float64) [9]float64 {
	d := determinant(m)
	inv := [9]float64{
		m[4]*m[8] - m[5]*m[7], m[2]*m[7] - m[1]*m[8], m[1]*m[5] - m[2]*m[4],
		m[5]*m[6] - m[3]*m[8], m[0]*m[8] - m[2]*m[6], m[2]*m[3] - m[0]*m[5],
		m[3]*m[7] - m[4]*m[6], m[1]*m[6] - m[0]*m[7], m[0]*m[4] - m[1]*m[3],
	}
	for i := range inv {
		inv[i] /= d
	}
	return inv
}

// longest is by how much the map with the rows (a, b) and (c, d) makes a length longer, the
// way it does most: its greater singular value.
func longest(a, b, c, d float64) float64 {
	return (math.Hypot(a+d, c-b) + math.Hypot(a-d, b+c)) / 2
}
