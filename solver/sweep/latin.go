package sweep

import "math/bits"

// latin is coordinate axis of design i of n on a Latin hypercube: a random
// place in the stratum that a random permutation of the strata gives the
// design, 0 <= u < 1.
func latin(i, n, axis int, seed uint64) float64 {
	key := mix(seed ^ mix(uint64(axis)+1))
	stratum := permuted(uint64(i), uint64(n), key)
	u := (float64(stratum) + unit(mix(key^mix(uint64(i)^place)))) / float64(n)
	return min(u, below1)
}

const (
	place  = 0xa5a5a5a5a5a5a5a5 // tells the draw of the place from that of the stratum
	below1 = 1 - 1.0/(1<<53)
)

// unit is a random number of 53 bits, 0 <= u < 1.
func unit(x uint64) float64 { return float64(x>>11) / (1 << 53) }

// mix is a random function of 64 bits: the output step of SplitMix64 (Steele,
// Lea and Flood 2014) at a step past x.
func mix(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// permuted is place i of a random permutation of 0 to n-1, by a Feistel network
// of four rounds on the least even number of bits that holds n (Luby and
// Rackoff 1988), walked on until it falls below n (Black and Rogaway 2002). It
// needs no memory, so that a design can be computed by itself.
func permuted(i, n, key uint64) uint64 {
	half := (bits.Len64(n-1) + 1) / 2
	mask := uint64(1)<<half - 1
	for {
		left, right := i>>half, i&mask
		for round := range uint64(4) {
			left, right = right, left^mix(key^mix(right|round<<60))&mask
		}
		if i = left<<half | right; i < n {
			return i
		}
	}
}
