package testproblems

import (
	"fmt"
	"math"
	"strings"
)

// More returns further problems of the same collection, written from memory (M).
// The tests keep each to its remembered optimum and, independently, to a KKT
// residual there.
func More() []Problem {
	s2, s7 := math.Sqrt2, math.Sqrt(7)
	mk := func(name string, n int, f string, x0 []float64, best float64, rows ...string) Problem {
		return Problem{
			Name: name, Source: book + " (M)", Problem: formulas(n, f, rows...), X0: x0,
			Minima: []Minimum{{F: best, Global: true}},
		}
	}
	hs1 := mk("HS1", 2, "100*(x2-x1^2)^2+(1-x1)^2", []float64{-2, 1}, 0)
	hs1.Lower = []float64{-inf, -1.5}
	hs66 := mk("HS66", 3, ".2*x3-.8*x1", []float64{0, 1.05, 2.9}, .5181632741, "x2-exp(x1)", "x3-exp(x2)")
	hs66.Lower, hs66.Upper = fill(3, 0), []float64{100, 100, 10}
	hs80 := mk("HS80", 5, "exp(x1*x2*x3*x4*x5)", []float64{-2, 2, 2, -1, -1}, .0539498478,
		"x1^2+x2^2+x3^2+x4^2+x5^2-10=0", "x2*x3-5*x4*x5=0", "x1^3+x2^3+1=0")
	hs80.Lower, hs80.Upper = []float64{-2.3, -2.3, -3.2, -3.2, -3.2}, []float64{2.3, 2.3, 3.2, 3.2, 3.2}
	hs104 := mk("HS104", 8, hs104f, []float64{6, 3, .4, .2, 6, 6, 1, .5}, 3.95116344,
		"1-.0588*x5*x7-.1*x1", "1-.0588*x6*x8-.1*x1-.1*x2",
		"1-4*x3/x5-2*x3^-.71/x5-.0588*x3^-1.3*x7", "1-4*x4/x6-2*x4^-.71/x6-.0588*x4^-1.3*x8",
		hs104f+"-.1", "4.2-("+hs104f+")")
	hs104.Lower, hs104.Upper = fill(8, .1), fill(8, 10)
	hs108 := mk("HS108", 9, "-.5*(x1*x4-x2*x3+x3*x9-x5*x9+x5*x8-x6*x7)", fill(9, 1), -math.Sqrt(3)/2,
		"1-x3^2-x4^2", "1-x9^2", "1-x5^2-x6^2", "1-x1^2-(x2-x9)^2", "1-(x1-x5)^2-(x2-x6)^2",
		"1-(x1-x7)^2-(x2-x8)^2", "1-(x3-x5)^2-(x4-x6)^2", "1-(x3-x7)^2-(x4-x8)^2", "1-x7^2-(x8-x9)^2",
		"x1*x4-x2*x3", "x3*x9", "-x5*x9", "x5*x8-x6*x7")
	hs108.Lower = append(fill(8, -inf), 0)
	return []Problem{
		hs1,
		mk("HS6", 2, "(1-x1)^2", []float64{-1.2, 1}, 0, "10*(x2-x1^2)=0"),
		mk("HS7", 2, "log(1+x1^2)-x2", []float64{2, 2}, -math.Sqrt(3), "(1+x1^2)^2+x2^2-4=0"),
		mk("HS10", 2, "x1-x2", []float64{-10, 10}, -1, "-3*x1^2+2*x1*x2-x2^2+1"),
		mk("HS11", 2, "(x1-5)^2+x2^2-25", []float64{4.9, .1}, -8.498464223, "-x1^2+x2"),
		mk("HS12", 2, ".5*x1^2+x2^2-x1*x2-7*x1-7*x2", fill(2, 0), -30, "25-4*x1^2-x2^2"),
		mk("HS14", 2, "(x1-2)^2+(x2-1)^2", []float64{2, 2}, 9-2.875*s7, "-.25*x1^2-x2^2+1", "x1-2*x2+1=0"),
		mk("HS22", 2, "(x1-2)^2+(x2-1)^2", []float64{2, 2}, 1, "-x1-x2+2", "-x1^2+x2"),
		mk("HS26", 3, "(x1-x2)^2+(x2-x3)^4", []float64{-2.6, 2, 2}, 0, "(1+x2^2)*x1+x3^4-3=0"),
		mk("HS28", 3, "(x1+x2)^2+(x2+x3)^2", []float64{-4, 1, 1}, 0, "x1+2*x2+3*x3-1=0"),
		mk("HS39", 4, "-x1", fill(4, 2), -1, "x2-x1^3-x3^2=0", "x1^2-x2-x4^2=0"),
		mk("HS40", 4, "-x1*x2*x3*x4", fill(4, .8), -.25, "x1^3+x2^2-1=0", "x1^2*x4-x3=0", "x4^2-x2=0"),
		mk("HS48", 5, "(x1-1)^2+(x2-x3)^2+(x4-x5)^2", []float64{3, 5, -3, 2, -2}, 0, "x1+x2+x3+x4+x5-5=0", "x3-2*(x4+x5)+3=0"),
		hs66,
		mk("HS77", 5, "(x1-1)^2+(x1-x2)^2+(x3-1)^2+(x4-1)^4+(x5-1)^6", fill(5, 2), .24150513,
			fmt.Sprintf("x1^2*x4+sin(x4-x5)-%v=0", 2*s2), fmt.Sprintf("x2+x3^4*x4^2-%v=0", 8+s2)),
		mk("HS78", 5, "x1*x2*x3*x4*x5", []float64{-2, 1.5, 2, -1, -1}, -2.91970041,
			"x1^2+x2^2+x3^2+x4^2+x5^2-10=0", "x2*x3-5*x4*x5=0", "x1^3+x2^3+1=0"),
		mk("HS79", 5, "(x1-1)^2+(x1-x2)^2+(x2-x3)^2+(x3-x4)^4+(x4-x5)^4", fill(5, 2), .0787768209,
			fmt.Sprintf("x1+x2^2+x3^3-%v=0", 2+3*s2), fmt.Sprintf("x2-x3^2+x4-%v=0", 2*s2-2), "x1*x5-2=0"),
		hs80,
		colville1(),
		hs104,
		hs108,
		hs112(),
		colville2(),
	}
}

const hs104f = ".4*x1^.67*x7^-.67+.4*x2^.67*x8^-.67+10-x1-x2"

// Data of the problems of Colville (1968) that HS86 and HS117 share.
var (
	colvilleE = [5]float64{-15, -27, -36, -18, -12}
	colvilleD = [5]float64{4, 8, 10, 6, 2}
	colvilleC = [5][5]float64{
		{30, -20, -10, 32, -10}, {-20, 39, -6, -31, 32}, {-10, -6, 10, -6, -10}, {32, -31, -6, 39, -20}, {-10, 32, -10, -20, 30},
	}
	colvilleA = [10][5]float64{
		{-16, 2, 0, 1, 0}, {0, -2, 0, .4, 2}, {-3.5, 0, 2, 0, 0}, {0, -2, 0, -4, -1}, {0, -9, -2, 1, -2.8},
		{2, 0, -4, 0, 0}, {-1, -1, -1, -1, -1}, {-1, -2, -3, -2, -1}, {1, 2, 3, 4, 5}, {1, 1, 1, 1, 1},
	}
	colvilleB = [10]float64{-40, -2, -.25, -4, -4, -1, -40, -60, 5, 1}
)

// colville1 is HS86: a cubic over linear rows.
func colville1() Problem {
	var f strings.Builder
	f.WriteString("0")
	var rows []string
	for j := range 5 {
		fmt.Fprintf(&f, "+(%v)*x%d+%v*x%d^3", colvilleE[j], j+1, colvilleD[j], j+1)
		for i := range 5 {
			fmt.Fprintf(&f, "+(%v)*x%d*x%d", colvilleC[i][j], i+1, j+1)
		}
	}
	for i := range 10 {
		r := fmt.Sprintf("-(%v)", colvilleB[i])
		for j := range 5 {
			r += fmt.Sprintf("+(%v)*x%d", colvilleA[i][j], j+1)
		}
		rows = append(rows, r)
	}
	p := Problem{Name: "HS86", Source: book + " (M)", Problem: formulas(5, f.String(), rows...), X0: []float64{0, 0, 0, 0, 1}}
	p.Lower = fill(5, 0)
	p.Minima = []Minimum{{F: -32.3486790, Global: true}}
	return p
}

// colville2 is HS117, the dual of HS86.
func colville2() Problem {
	var f strings.Builder
	f.WriteString("0")
	for j := range 10 {
		fmt.Fprintf(&f, "-(%v)*x%d", colvilleB[j], j+1)
	}
	var rows []string
	for j := range 5 {
		fmt.Fprintf(&f, "+2*%v*x%d^3", colvilleD[j], j+11)
		r := fmt.Sprintf("%v*3*x%d^2+(%v)", colvilleD[j], j+11, colvilleE[j])
		for k := range 5 {
			fmt.Fprintf(&f, "+(%v)*x%d*x%d", colvilleC[k][j], k+11, j+11)
			r += fmt.Sprintf("+2*(%v)*x%d", colvilleC[k][j], k+11)
		}
		for k := range 10 {
			r += fmt.Sprintf("-(%v)*x%d", colvilleA[k][j], k+1)
		}
		rows = append(rows, r)
	}
	p := Problem{Name: "HS117", Source: book + " (M)", Problem: formulas(15, f.String(), rows...), X0: fill(15, .001)}
	p.X0[6] = 60
	p.Lower = fill(15, 0)
	p.Minima = []Minimum{{F: 32.3486790, Global: true}}
	return p
}

// species are the constants of HS111 and HS112.
var species = [10]float64{-6.089, -17.164, -34.054, -5.914, -24.721, -14.986, -24.1, -10.708, -26.662, -22.179}

// hs112 is the chemical equilibrium of ten species.
func hs112() Problem {
	f := "0"
	for j, v := range species {
		f += fmt.Sprintf("+x%d*((%v)+log(x%d/(x1+x2+x3+x4+x5+x6+x7+x8+x9+x10)))", j+1, v, j+1)
	}
	p := Problem{Name: "HS112", Source: book + " (M; optimum D, the printed -47.707579 is less accurate)", X0: fill(10, .1)}
	p.Problem = formulas(10, f, "x1+2*x2+2*x3+x6+x10-2=0", "x4+2*x5+x6+x7-1=0", "x3+x7+x8+2*x9+x10-1=0")
	p.Lower = fill(10, 1e-6)
	p.Minima = []Minimum{{F: -47.76109086, Global: true}}
	return p
}
