package testproblems

import (
	"fmt"
	"math"
)

// Maratos returns problems on the unit circle, minimise steep·(x₁²+x₂²-1) - x₁
// with the row rowSteep·(x₁²+x₂²-1) = 0, from starts on it and beside it. Full
// steps along the circle lengthen both objective and violation, so that a method
// that asks both to fall crawls (Maratos 1978; Nocedal and Wright 2006, 15.4).
// Minimum (1, 0) by inspection.
func Maratos() (list []Problem) {
	for _, k := range [][2]float64{{1, 1}, {100, 1}, {1, 100}, {100, 100}, {1000, 1}} {
		for _, x0 := range [][]float64{{1.1, .1}, {math.Cos(1), math.Sin(1)}, {math.Cos(2.5), math.Sin(2.5)}, {-.9, .1}, {0, 3}} {
			list = append(list, Problem{
				Name: fmt.Sprintf("Maratos %v %v from %.2f,%.2f", k[0], k[1], x0[0], x0[1]), Source: "Maratos 1978 (D)", X0: x0,
				Problem: formulas(2, fmt.Sprintf("%v*(x1^2+x2^2-1)-x1", k[0]), fmt.Sprintf("%v*(x1^2+x2^2-1)=0", k[1])),
				Minima:  []Minimum{{F: -1, X: []float64{1, 0}, Digits: 1e-4, Global: true}},
			})
		}
	}
	return list
}

// Valleys returns curved valleys along steep rows: the way to the minimum is long
// and bends. Minima by inspection.
func Valleys() []Problem {
	return []Problem{
		{Name: "parabola 100", Source: "D", X0: []float64{-1.5, 2.25}, Problem: formulas(2, "-x1", "100*(x2-x1^2)=0", "4-x1^2-x2^2"),
			// x₁² + x₁⁴ = 4 at the end.
			Minima: []Minimum{{F: -math.Sqrt((math.Sqrt(17) - 1) / 2), Global: true}}},
		{Name: "helix", Source: "D", X0: []float64{1, 0, 0}, Problem: formulas(3, "(x3-6)^2", "100*(x1-cos(x3))=0", "100*(x2-sin(x3))=0"),
			Minima: []Minimum{{F: 0, X: []float64{math.Cos(6), math.Sin(6), 6}, Digits: 1e-3, Global: true}}},
		{Name: "sphere", Source: "D", X0: []float64{-.6, .64, .48}, Problem: formulas(3, "-x1+.1*x2^2", "100*(x1^2+x2^2+x3^2-1)=0"),
			Minima: []Minimum{{F: -1, X: []float64{1, 0, 0}, Digits: 1e-3, Global: true}}},
		{Name: "inside the circle", Source: "D", X0: []float64{-1, 0.001}, Problem: formulas(2, "-x1", "100*(1-x1^2-x2^2)"),
			Minima: []Minimum{{F: -1, X: []float64{1, 0}, Digits: 1e-3, Global: true}}},
		// A. Wächter and L. Biegler, Failure of global convergence for a class of
		// interior point methods, Mathematical Programming 88, 2000 (M): by the rows
		// x₃ = x₁ - 1/2 >= 0 and x₂ = x₁² - 1 >= 0.
		Problem{Name: "Wächter-Biegler", Source: "Wächter and Biegler 2000 (M)", X0: []float64{-2, 3, 1},
			Problem: formulas(3, "x1", "x1^2-x2-1=0", "x1-x3-.5=0"),
			Minima:  []Minimum{{F: 1, X: []float64{1, 0, .5}, Digits: 1e-5, Global: true}}}.within([]float64{-inf, 0, 0}, []float64{inf, inf, inf}),
		// R. M. Chamberlain, Some examples of cycling in variable metric methods for
		// constrained minimization, Mathematical Programming 16, 1979: in his spirit (D).
		{Name: "half circle and line", Source: "D", X0: []float64{0, 0}, Problem: formulas(2, "-x1-x2", "x2-x1^2", "1-x1^2-x2^2"),
			Minima: []Minimum{{F: -math.Sqrt2, X: []float64{math.Sqrt(.5), math.Sqrt(.5)}, Digits: 1e-5, Global: true}}},
	}
}

// Degenerate returns problems whose rows depend on each other where they are met,
// or leave no multipliers at all.
func Degenerate() []Problem {
	return []Problem{
		HS13(),
		{Name: "row twice", Source: "D", X0: []float64{2, -1.5}, Problem: formulas(2, "x1+x2", "x1^2+x2^2-2=0", "x1^2+x2^2-2=0"),
			Minima: []Minimum{{F: -2, X: []float64{-1, -1}, Digits: 1e-5, Global: true}}},
		{Name: "three circles", Source: "D", X0: []float64{0, 1}, Problem: formulas(2, "x1", "x1^2+x2^2-1", "4-(x1-1)^2-x2^2", "x1+1"),
			// The outer circles touch at (-1, 0), where the half plane ends too.
			Minima: []Minimum{{F: -1, X: []float64{-1, 0}, Digits: 1e-3, Global: true}}},
		{Name: "square row", Source: "D", X0: []float64{2}, Problem: formulas(1, "x1", "-x1^2"),
			Minima: []Minimum{{F: 0, X: []float64{0}, Digits: 1e-2, Global: true}}},
		{Name: "cubed equality", Source: "D", X0: []float64{2, 1}, Problem: formulas(2, "(x1-1)^2+x2^2", "x2^3=0"),
			Minima: []Minimum{{F: 0, X: []float64{1, 0}, Digits: 1e-2, Global: true}}},
		{Name: "redundant rows", Source: "D", X0: []float64{3, 3}, Problem: formulas(2, "x1^2+x2^2", "x1+x2-2", "2*x1+2*x2-4", "x1-1", "x1*x2-1"),
			Minima: []Minimum{{F: 2, X: []float64{1, 1}, Digits: 1e-5, Global: true}}},
		{Name: "flat minimum", Source: "D", X0: []float64{2, 1}, Problem: formulas(2, "x1^4+x2^4", "x1+x2+1"),
			Minima: []Minimum{{F: 0, X: []float64{0, 0}, Digits: .1, Global: true}}},
	}
}

// Complementarity returns programs with complementarity rows, at whose feasible
// points the usual qualification fails. Names and optima as in S. Leyffer,
// MacMPEC, 2000 (M); optima follow by trying the branches.
func Complementarity() []Problem {
	two := func(name, f string, x0 []float64, best float64, rows ...string) Problem {
		return Problem{Name: name, Source: "Leyffer, MacMPEC (M)", X0: x0, Problem: formulas(len(x0), f, rows...), Minima: []Minimum{{F: best, Global: true}}}
	}
	list := []Problem{
		two("scholtes3", "(x1-1)^2/2+(x2-1)^2/2", []float64{.5, 1.5}, .5, "-x1*x2").within(fill(2, 0), fill(2, inf)),
		two("kth1", "x1+x2", []float64{1, 2}, 0, "-x1*x2").within(fill(2, 0), fill(2, inf)),
		two("kth2", "x1+(x2-1)^2", []float64{1, .5}, 0, "-x1*x2").within(fill(2, 0), fill(2, inf)),
		two("kth3", "x1^2/2+(x2-1)^2/2", []float64{.5, .5}, 0, "-x1*x2").within(fill(2, 0), fill(2, inf)),
		two("jr1", "(x1-1)^2+x2^2", []float64{0, 1}, .5, "x2-x1", "-x2*(x2-x1)").within([]float64{-inf, 0}, fill(2, inf)),
		two("jr2", "(x2-1)^2+x1^2", []float64{0, 2}, .5, "x2-x1", "-x2*(x2-x1)").within([]float64{-inf, 0}, fill(2, inf)),
		two("scale1", "(100*x1-1)^2+(x2-1)^2", []float64{1, 2}, 1, "-x1*x2").within(fill(2, 0), fill(2, inf)),
		two("ralph2", "x1^2+x2^2-4*x1*x2", []float64{1, 1}, 0, "-x1*x2").within(fill(2, 0), fill(2, inf)),
		two("bard1", "(x1-5)^2+(2*x2+1)^2", fill(5, 1), 17,
			"2*(x2-1)-1.5*x1+x3-.5*x4+x5=0", "3*x1-x2-3", "-x1+.5*x2+4", "-x1-x2+7",
			"-x3*(3*x1-x2-3)", "-x4*(-x1+.5*x2+4)", "-x5*(-x1-x2+7)").within(fill(5, 0), fill(5, inf)),
	}
	// Branches with other minima: both of scholtes3 and scale1 have F as told.
	list[8].Minima = append(list[8].Minima, Minimum{F: 89.92, Global: false})
	return list
}

// BadlyScaled returns problems whose variables, rows or objective differ in size
// by many powers of ten, or carry a large constant, without a word about scales.
func BadlyScaled() []Problem {
	brown := Problem{Name: "Brown", Source: "Moré, Garbow and Hillstrom 1981, problem 4 (M)", X0: []float64{1, 1},
		Problem: formulas(2, "(x1-1e6)^2+(x2-2e-6)^2+(x1*x2-2)^2"),
		Minima:  []Minimum{{F: 0, X: []float64{1e6, 2e-6}, Digits: 1, Global: true}}}
	powell := Problem{Name: "Powell", Source: "Moré, Garbow and Hillstrom 1981, problem 3 (M)", X0: []float64{0, 1},
		Problem: formulas(2, "(1e4*x1*x2-1)^2+(exp(-x1)+exp(-x2)-1.0001)^2"),
		Minima:  []Minimum{{F: 0, Global: true}}}
	far := Problem{Name: "far off", Source: "D", X0: []float64{0, 0},
		// The bowl's bottom lies at a million each; the row keeps x₁ + x₂ at or below 1.5 million.
		Problem: formulas(2, "(x1/1e6-1)^2+(x2/1e6-1)^2", "1.5-x1/1e6-x2/1e6"),
		Minima:  []Minimum{{F: .125, X: []float64{.75e6, .75e6}, Digits: 10, Global: true}}}
	mixed := Problem{Name: "mixed units", Source: "D", X0: []float64{0, 0, 0},
		Problem: formulas(3, "(x1/1e6-1)^2+(x2-1)^2+(100*x3-1)^2"),
		Minima:  []Minimum{{F: 0, X: []float64{1e6, 1, 1e-2}, Digits: 1e3, Global: true}}}
	list := []Problem{brown, powell, far, mixed}
	for _, p := range append(Larger(), HockSchittkowski()[3]) {
		switch p.Name {
		case "HS43", "HS86", "HS100", "HS113":
			for _, c := range []struct{ add, times float64 }{{1e9, 1}, {-1e6, 1}, {0, 1e8}, {0, 1e-8}} {
				list = append(list, p.Restated(c.add, c.times))
			}
		}
	}
	return list
}

// Restated returns p with its objective multiplied by times and raised by add.
func (p Problem) Restated(add, times float64) Problem {
	f, grad := p.Func, p.Grad
	p.Problem.Func = func(x []float64) float64 { return times*f(x) + add }
	p.Problem.Grad = func(g, x []float64) {
		grad(g, x)
		for j := range g {
			g[j] *= times
		}
	}
	p.Name = fmt.Sprintf("%s times %g plus %g", p.Name, times, add)
	p.Minima = []Minimum{{F: times*p.Minima[0].F + add, Global: true}}
	return p
}
