package stock

import "strconv"

// Fraction writes n parts of an inch, of a power of two, in lowest terms: "1 1/4".
func Fraction(n, of int) string {
	for n%2 == 0 && of > 1 {
		n, of = n/2, of/2
	}
	switch {
	case of == 1:
		return strconv.Itoa(n)
	case n > of:
		return strconv.Itoa(n/of) + " " + strconv.Itoa(n%of) + "/" + strconv.Itoa(of)
	}
	return strconv.Itoa(n) + "/" + strconv.Itoa(of)
}
