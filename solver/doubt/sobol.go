package doubt

import (
	"math/bits"
	"strconv"
	"strings"
	"sync"
)

const (
	// Sets is how many independently scrambled sets there are of every sample.
	Sets = 16
	// MaxDims is how many inputs may scatter.
	MaxDims = 101

	blockPoints = 1024 // points that one worker makes at a time
)

// vectors are the direction vectors of all dimensions, the first bit of an index
// first.
var vectors = sync.OnceValue(func() [][32]uint32 {
	all := make([][32]uint32, 1, MaxDims)
	for k := range 32 {
		all[0][k] = 1 << (31 - k)
	}
	for _, row := range strings.Split(strings.TrimSpace(directions), ";") {
		var numbers []uint32
		for _, f := range strings.Fields(row) {
			n, _ := strconv.ParseUint(f, 10, 32) // the table is ours, and tested
			numbers = append(numbers, uint32(n))
		}
		all = append(all, vector(numbers[0], numbers[1:]))
	}
	return all
})

// vector is the direction vectors of one dimension by the recurrence of its
// polynomial (Bratley and Fox, ACM TOMS 14 (1988) 88-100).
func vector(a uint32, m []uint32) (v [32]uint32) {
	s := len(m)
	for k := range v {
		if k < s {
			v[k] = m[k] << (31 - k)
			continue
		}
		v[k] = v[k-s] ^ v[k-s]>>s
		for j := 1; j < s; j++ {
			if a>>(s-1-j)&1 == 1 {
				v[k] ^= v[k-j]
			}
		}
	}
	return v
}

// points fills u, point after point, with the points from..from+len(u)/dims of a set:
// each figure between 0 and 1, neither of them itself. from is in Gray-code order.
func points(u []float64, dims, from, set int, seed uint64) {
	vs := vectors()
	for d := range dims {
		scramble, x := scrambleSeed(seed, set, d), uint32(0)
		for g, k := uint32(from^from>>1), 0; g != 0; g, k = g>>1, k+1 {
			if g&1 == 1 {
				x ^= vs[d][k]
			}
		}
		i := uint32(from)
		for at := d; at < len(u); at += dims {
			u[at] = (float64(owen(x, scramble)) + 0.5) / (1 << 32)
			i++
			x ^= vs[d][bits.TrailingZeros32(i)&31]
		}
	}
}

// owen scrambles the digits of x, each by the ones before it: nested uniform
// scrambling (Owen 1995) by a hash in the manner of Laine and Karras (Stratified
// sampling for stochastic transparency, 2011) with the constants of Vegdahl (2021).
func owen(x, seed uint32) uint32 {
	x = bits.Reverse32(x)
	x ^= x * 0x3d20adea
	x += seed
	x *= seed>>16 | 1
	x ^= x * 0x05526c56
	x ^= x * 0x53a22864
	return bits.Reverse32(x)
}

// scrambleSeed is the seed of one dimension of one set.
func scrambleSeed(seed uint64, set, dim int) uint32 {
	return uint32(mix(mix(seed)+uint64(set)<<32+uint64(dim)) >> 32)
}

// mix is the finaliser of SplitMix64 (Steele, Lea and Flood 2014): every bit of the
// answer hangs on every bit of x.
func mix(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}
