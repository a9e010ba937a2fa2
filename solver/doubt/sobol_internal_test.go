package doubt

import (
	"math/bits"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// primitive reports whether a polynomial over two elements, its bits the coefficients,
// is primitive: x has order 2^degree - 1.
func primitive(p uint32) bool {
	s := bits.Len32(p) - 1
	x := uint32(1)
	for k := 1; ; k++ {
		if x <<= 1; x>>s&1 == 1 {
			x ^= p
		}
		if x == 1 {
			return k == 1<<s-1
		}
		if k == 1<<s {
			return false
		}
	}
}

// The polynomials of the table are all the primitive ones of degrees 1 to 9 in rising
// order, by trying each; m_i is odd and below 2^i (Bratley and Fox 1988).
func TestPolynomialsAreThePrimitiveOnes(t *testing.T) {
	require.Len(t, vectors(), MaxDims)
	d := 1
	for s := 1; s <= 9; s++ {
		for a := range uint32(1) << (s - 1) {
			p := uint32(1)<<s | a<<1 | 1
			if !primitive(p) {
				continue
			}
			var m []uint32
			for k := range s {
				m = append(m, vectors()[d][k]>>(31-k))
				assert.True(t, m[k]%2 == 1 && m[k] < 2<<k, "dimension %d m%d", d+1, k+1)
			}
			assert.Equal(t, vector(a, m), vectors()[d], "dimension %d has another polynomial", d+1)
			d++
		}
	}
	assert.Equal(t, MaxDims, d)
}

// Sobol's property A, which Joe and Kuo's numbers have up to 1111 dimensions: the first
// bits of the first d direction numbers of d dimensions are a matrix of determinant 1.
func TestDirectionNumbersHavePropertyA(t *testing.T) {
	for d := 1; d <= 32; d++ {
		rows := make([]uint32, d)
		for j := range rows {
			for k := range d {
				rows[j] |= vectors()[j][k] >> 31 << k
			}
		}
		for k := range d { // Gauss over two elements
			at := slices.IndexFunc(rows[k:], func(r uint32) bool { return r>>k&1 == 1 })
			require.GreaterOrEqual(t, at, 0, "%d dimensions", d)
			rows[k], rows[k+at] = rows[k+at], rows[k]
			for j := k + 1; j < d; j++ {
				if rows[j]>>k&1 == 1 {
					rows[j] ^= rows[k]
				}
			}
		}
	}
}

// The first points in Gray-code order of the unscrambled sequence, three dimensions,
// as Joe and Kuo print them (their notes on generating Sobol sequences, 2008).
func TestFirstPointsAreThePublishedOnes(t *testing.T) {
	want := [][3]float64{{0, 0, 0}, {0.5, 0.5, 0.5}, {0.75, 0.25, 0.25}, {0.25, 0.75, 0.75}, {0.375, 0.375, 0.625},
		{0.875, 0.875, 0.125}, {0.625, 0.125, 0.875}, {0.125, 0.625, 0.375}, {0.1875, 0.3125, 0.9375}, {0.6875, 0.8125, 0.4375}}
	for i, w := range want {
		for d := range w {
			x := uint32(0)
			for g, k := i^i>>1, 0; g != 0; g, k = g>>1, k+1 {
				if g&1 == 1 {
					x ^= vectors()[d][k]
				}
			}
			assert.Equal(t, w[d], float64(x)/(1<<32), "point %d dimension %d", i, d+1)
		}
	}
}

// A scrambled net is a net: each of 2^k equal stretches of each dimension holds one of
// 2^k points, and so does each of the boxes of the first two dimensions (Owen 1995).
// A block that starts in the middle goes on where the one before ended.
func TestScrambledPointsFillEveryStretchOnce(t *testing.T) {
	const n = 1024
	u := make([]float64, n*MaxDims)
	points(u, MaxDims, 0, 3, 42)
	for d := range MaxDims {
		var hit [n]bool
		for i := range n {
			hit[int(u[i*MaxDims+d]*n)] = true
		}
		require.NotContains(t, hit, false, "dimension %d", d+1)
	}
	for k := range 11 {
		hit := map[[2]int]bool{}
		for i := range n {
			hit[[2]int{int(u[i*MaxDims] * float64(int(1)<<k)), int(u[i*MaxDims+1] * float64(int(n)>>k))}] = true
		}
		assert.Len(t, hit, n, "%d by %d", 1<<k, n>>k)
	}
	later := make([]float64, 24*MaxDims)
	points(later, MaxDims, 1000, 3, 42)
	assert.Equal(t, u[1000*MaxDims:], later)
	other := make([]float64, n*MaxDims)
	points(other, MaxDims, 0, 4, 42)
	assert.NotEqual(t, u, other, "sets are scrambled each in its own way")
}
