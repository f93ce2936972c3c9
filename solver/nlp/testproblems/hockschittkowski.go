package testproblems

import (
	"fmt"
	"math"
	"strings"
)

// book is the collection the HS problems come from.
const book = "Hock and Schittkowski, Test Examples for Nonlinear Programming Codes, 1981"

// HockSchittkowski returns the twelve problems of the acceptance list. Formulas
// are S, minima and multipliers D: solved to KKT residuals of 1e-4 or less on
// another solver and in agreement with the printed ones, HS106 excepted, whose
// printed optimum 7049.330923 is less accurate than the one here.
func HockSchittkowski() []Problem {
	s3 := math.Sqrt(3)
	hs := func(name string) Problem { return Problem{Name: name, Source: book + " (S; minimum D)"} }
	var list []Problem

	p := hs("HS24")
	p.Problem = formulas(2, "((x1-3)^2-9)*x2^3/46.76537180435969", // 27√3
		"x1/1.7320508075688772-x2", "x1+1.7320508075688772*x2", "6-x1-1.7320508075688772*x2")
	p.Lower = fill(2, 0)
	p.X0 = []float64{1, .5}
	p.Minima = []Minimum{{F: -1, X: []float64{3, s3}, Digits: 1e-6, Multipliers: []float64{.866025, 0, .5}, Global: true}}
	list = append(list, p)

	p = hs("HS29")
	p.Problem = formulas(3, "-x1*x2*x3", "48-x1^2-2*x2^2-4*x3^2")
	p.X0 = fill(3, 1)
	p.Minima = []Minimum{{F: -16 * math.Sqrt2, X: []float64{4, 2 * math.Sqrt2, 2}, Digits: 1e-5, Multipliers: []float64{.707107}, Global: true}}
	list = append(list, p)

	p = hs("HS35")
	p.Problem = formulas(3, "9-8*x1-6*x2-4*x3+2*x1^2+2*x2^2+x3^2+2*x1*x2+2*x1*x3", "3-x1-x2-2*x3")
	p.Lower = fill(3, 0)
	p.X0 = fill(3, .5)
	p.Minima = []Minimum{{F: 1. / 9, X: []float64{4. / 3, 7. / 9, 4. / 9}, Digits: 1e-6, Multipliers: []float64{2. / 9}, Global: true}}
	list = append(list, p)

	p = hs("HS43")
	p.Problem = formulas(4, "x1^2+x2^2+2*x3^2+x4^2-5*x1-5*x2-21*x3+7*x4",
		"8-x1^2-x2^2-x3^2-x4^2-x1+x2-x3+x4",
		"10-x1^2-2*x2^2-x3^2-2*x4^2+x1+x4",
		"5-2*x1^2-x2^2-x3^2-2*x1+x2+x4")
	p.X0 = fill(4, 0)
	p.Minima = []Minimum{{F: -44, X: []float64{0, 1, 2, -1}, Digits: 1e-5, Multipliers: []float64{1, 0, 2}, Global: true}}
	list = append(list, p)

	p = hs("HS65")
	p.Problem = formulas(3, "(x1-x2)^2+(x1+x2-10)^2/9+(x3-5)^2", "48-x1^2-x2^2-x3^2")
	p.Lower, p.Upper = []float64{-4.5, -4.5, -5}, []float64{4.5, 4.5, 5}
	p.X0 = []float64{-5, 5, 0}
	p.Minima = []Minimum{{F: .953528857, X: []float64{3.6504617, 3.6504617, 4.6204176}, Digits: 1e-5, Multipliers: []float64{.0821533}, Global: true}}
	list = append(list, p)

	p = hs("HS71")
	p.Problem = formulas(4, "x1*x4*(x1+x2+x3)+x3", "x1*x2*x3*x4-25", "x1^2+x2^2+x3^2+x4^2-40=0")
	p.Lower, p.Upper = fill(4, 1), fill(4, 5)
	p.X0 = []float64{1, 5, 5, 1}
	p.Minima = []Minimum{{F: 17.0140173, X: []float64{1, 4.7429994, 3.8211503, 1.3794082}, Digits: 1e-5, Global: true}}
	list = append(list, p)

	p = hs("HS76")
	p.Problem = formulas(4, "x1^2+.5*x2^2+x3^2+.5*x4^2-x1*x3+x3*x4-x1-3*x2+x3-x4",
		"5-x1-2*x2-x3-x4", "4-3*x1-x2-2*x3+x4", "x2+4*x3-1.5")
	p.Lower = fill(4, 0)
	p.X0 = fill(4, .5)
	p.Minima = []Minimum{{F: -4.681818181818182, X: []float64{3. / 11, 23. / 11, 0, 6. / 11}, Digits: 1e-5, Multipliers: []float64{5. / 11, 0, 0}, Global: true}}
	list = append(list, p)

	p = hs("HS93")
	const u, v = "x1*x4*(x1+x2+x3)", "x2*x3*(x1+1.57*x2+x4)"
	p.Problem = formulas(6, ".0204*"+u+"+.0187*"+v+"+.0607*"+u+"*x5^2+.0437*"+v+"*x6^2",
		".001*x1*x2*x3*x4*x5*x6-2.07", "1-.00062*"+u+"*x5^2-.00058*"+v+"*x6^2")
	p.Lower = fill(6, 0)
	p.X0 = []float64{5.54, 4.4, 12.02, 11.82, .702, .852}
	p.Minima = []Minimum{{F: 135.075963, X: []float64{5.332666, 4.656744, 10.432992, 12.082306, .752608, .878651}, Digits: 1e-3, Multipliers: []float64{71.460, 62.153}, Global: true}}
	list = append(list, p)

	p = hs("HS100")
	p.Problem = formulas(7, "(x1-10)^2+5*(x2-12)^2+x3^4+3*(x4-11)^2+10*x5^6+7*x6^2+x7^4-4*x6*x7-10*x6-8*x7",
		"127-2*x1^2-3*x2^4-x3-4*x4^2-5*x5", "282-7*x1-3*x2-10*x3^2-x4+x5",
		"196-23*x1-x2^2-6*x6^2+8*x7", "-4*x1^2-x2^2+3*x1*x2-2*x3^2-5*x6+11*x7")
	p.X0 = []float64{1, 2, 0, 4, 0, 1, 1}
	p.Minima = []Minimum{{F: 680.6300573, X: []float64{2.330499, 1.951372, -.4775410, 4.365726, -.6244870, 1.038131, 1.594227}, Digits: 1e-3, Multipliers: []float64{1.13972, 0, 0, .368615}, Global: true}}
	list = append(list, p)

	p = hs("HS106")
	p.Problem = formulas(8, "x1+x2+x3",
		"1-.0025*(x4+x6)", "1-.0025*(x5+x7-x4)", "1-.01*(x8-x5)",
		"x1*x6-833.33252*x4-100*x1+83333.333", "x2*x7-1250*x5-x2*x4+1250*x4", "x3*x8-1250000-x3*x5+2500*x5")
	p.Lower = []float64{100, 1e3, 1e3, 10, 10, 10, 10, 10}
	p.Upper = []float64{1e4, 1e4, 1e4, 1e3, 1e3, 1e3, 1e3, 1e3}
	p.X0 = []float64{5000, 5000, 5000, 200, 350, 150, 225, 425}
	p.Minima = []Minimum{{F: 7049.2480205, X: []float64{579.30669, 1359.97067, 5109.97067, 182.01770, 295.60117, 217.98230, 286.41653, 395.60117}, Digits: .05,
		Multipliers: []float64{1964.05, 5210.67, 5109.97, .00847585, .00957865, .01}, Global: true}}
	list = append(list, p)

	p = hs("HS113")
	p.Problem = formulas(10, "x1^2+x2^2+x1*x2-14*x1-16*x2+(x3-10)^2+4*(x4-5)^2+(x5-3)^2+2*(x6-1)^2+5*x7^2+7*(x8-11)^2+2*(x9-10)^2+(x10-7)^2+45",
		"105-4*x1-5*x2+3*x7-9*x8", "-10*x1+8*x2+17*x7-2*x8", "8*x1-2*x2-5*x9+2*x10+12",
		"-3*(x1-2)^2-4*(x2-3)^2-2*x3^2+7*x4+120", "-5*x1^2-8*x2-(x3-6)^2+2*x4+40",
		"-.5*(x1-8)^2-2*(x2-4)^2-3*x5^2+x6+30", "-x1^2-2*(x2-2)^2+2*x1*x2-14*x5+6*x6",
		"3*x1-6*x2-12*(x9-8)^2+7*x10")
	p.X0 = []float64{2, 3, 5, 5, 1, 2, 7, 3, 6, 10}
	p.Minima = []Minimum{{F: 24.3062091, X: []float64{2.171996, 2.363684, 8.773926, 5.095984, .9906554, 1.430575, 1.321644, 9.828725, 8.280091, 8.375926}, Digits: 1e-4,
		Multipliers: []float64{1.71653, .47452, 1.37593, .0205456, .312028, 0, .287049, 0}, Global: true}}
	list = append(list, p)

	p = hs("HS118")
	var f, rows []string
	for k := range 5 {
		a, b, c := 3*k+1, 3*k+2, 3*k+3
		f = append(f, fmt.Sprintf("2.3*x%d+.0001*x%d^2+1.7*x%d+.0001*x%d^2+2.2*x%d+.00015*x%d^2", a, a, b, b, c, c))
	}
	for j := 1; j <= 4; j++ {
		for i, most := range []int{6, 7, 6} {
			now, last := 3*j+1+i, 3*j-2+i
			rows = append(rows, fmt.Sprintf("x%d-x%d+7", now, last), fmt.Sprintf("%d-x%d+x%d", most, now, last))
		}
	}
	for k, least := range []int{60, 50, 70, 85, 100} {
		rows = append(rows, fmt.Sprintf("x%d+x%d+x%d-%d", 3*k+1, 3*k+2, 3*k+3, least))
	}
	p.Problem = formulas(15, strings.Join(f, "+"), rows...)
	p.Lower, p.Upper = []float64{8, 43, 3}, []float64{21, 57, 16}
	for range 4 {
		p.Lower, p.Upper = append(p.Lower, 0, 0, 0), append(p.Upper, 90, 120, 60)
	}
	p.X0 = []float64{20, 55, 15, 20, 60, 20, 20, 60, 20, 20, 60, 20, 20, 60, 20}
	p.Minima = []Minimum{{F: 664.82045, X: []float64{8, 49, 3, 1, 56, 0, 1, 63, 6, 3, 70, 12, 5, 77, 18}, Digits: 1e-5, Global: true}}
	return append(list, p)
}

// HS13 has a minimum at (1, 0) that is no Karush-Kuhn-Tucker point: the row and
// the bound have opposite gradients there. A solver can only approach it (S).
func HS13() Problem {
	p := Problem{Name: "HS13", Source: book + " (S)", X0: []float64{-2, -2}}
	p.Problem = formulas(2, "(x1-2)^2+x2^2", "(1-x1)^3-x2")
	p.Lower = fill(2, 0)
	p.Minima = []Minimum{{F: 1, X: []float64{1, 0}, Digits: .1, Global: true}}
	return p
}
