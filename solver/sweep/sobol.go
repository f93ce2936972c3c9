package sweep

import "math/bits"

// SobolAxes is the most axes of a Sobol' study.
const SobolAxes = 21

// sobol is coordinate axis of point i of the Sobol' sequence in the order of
// Gray codes (Antonov and Saleev 1979), 0 <= u < 1. The first point is the
// origin and belongs to the sequence (Owen 2020). The numbers of points that
// are powers of two are the balanced ones.
func sobol(i uint32, axis int) float64 {
	v := directions(axis)
	var x uint32
	for g := i ^ i>>1; g != 0; g &= g - 1 {
		x ^= v[bits.TrailingZeros32(g)]
	}
	return float64(x) / (1 << 32)
}

// directions are the direction numbers of an axis, the first in the top bit.
func directions(axis int) (v [32]uint32) {
	if axis == 0 {
		for k := range v {
			v[k] = 1 << (31 - k)
		}
		return v
	}
	d := primitive[axis-1]
	s := len(d.start)
	for k := range v {
		if k < s {
			v[k] = d.start[k] << (31 - k)
			continue
		}
		v[k] = v[k-s] ^ v[k-s]>>s
		for j := 1; j < s; j++ {
			if d.inner>>(s-1-j)&1 == 1 {
				v[k] ^= v[k-j]
			}
		}
	}
	return v
}

// primitive holds, for the axes after the first, the inner coefficients of the
// primitive polynomial and the starting direction numbers, from Joe and Kuo
// (2008), "Constructing Sobol sequences with better two-dimensional
// projections", their search criterion D(6).
var primitive = [SobolAxes - 1]struct {
	inner uint32
	start []uint32
}{
	{0, []uint32{1}},
	{1, []uint32{1, 3}},
	{1, []uint32{1, 3, 1}},
	{2, []uint32{1, 1, 1}},
	{1, []uint32{1, 1, 3, 3}},
	{4, []uint32{1, 3, 5, 13}},
	{2, []uint32{1, 1, 5, 5, 17}},
	{4, []uint32{1, 1, 5, 5, 5}},
	{7, []uint32{1, 1, 7, 11, 19}},
	{11, []uint32{1, 1, 5, 1, 1}},
	{13, []uint32{1, 1, 1, 3, 11}},
	{14, []uint32{1, 3, 5, 5, 31}},
	{1, []uint32{1, 3, 3, 9, 7, 49}},
	{13, []uint32{1, 1, 1, 15, 21, 21}},
	{16, []uint32{1, 3, 1, 13, 27, 49}},
	{19, []uint32{1, 1, 1, 15, 7, 5}},
	{22, []uint32{1, 3, 1, 15, 13, 25}},
	{25, []uint32{1, 1, 5, 5, 19, 61}},
	{1, []uint32{1, 3, 7, 11, 23, 15, 103}},
	{4, []uint32{1, 3, 7, 13, 13, 15, 69}},
}
