package testproblems

import (
	"fmt"
	"strings"
)

// Larger returns problems 67, 83 to 86 and 97 to 119 of the collection (115 does
// not exist), which are steeper, more curved and worse scaled than the rest.
// Formulas are S but for those of [More]; minima are D: found by another solver,
// and by this one, to eight figures.
func Larger() []Problem {
	listed := map[string]Problem{}
	for _, p := range append(HockSchittkowski(), More()...) {
		listed[p.Name] = p
	}
	hs := func(name string, x0, lower, upper []float64, best float64) Problem {
		return Problem{Name: name, Source: book + " (S; minimum D)", X0: x0, Minima: []Minimum{{F: best, Global: true}}}.within(lower, upper)
	}
	as := func(p Problem, n int, quantities []string, objective string, rows ...string) Problem {
		q := definitions(n, quantities, objective, rows...)
		q.Lower, q.Upper = p.Lower, p.Upper
		p.Problem = q
		return p
	}
	return []Problem{
		as(hs("HS67", []float64{1745, 12000, 110}, fill(3, 1e-5), []float64{2000, 16000, 120}, -1162.0270),
			3, alkylation, "-(.063*y2*y5-5.04*x1-3.36*y3-.035*x2-10*x3)", alkylationRows()...),
		as(hs("HS83", []float64{78, 33, 27, 27, 27}, []float64{78, 33, 27, 27, 27}, []float64{102, 45, 45, 45, 45}, -30665.538672),
			5, []string{
				"a=85.334407+.0056858*x2*x5+.0006262*x1*x4-.0022053*x3*x5",
				"b=80.51249+.0071317*x2*x5+.0029955*x1*x2+.0021813*x3^2-90",
				"c=9.300961+.0047026*x3*x5+.0012547*x1*x3+.0019085*x3*x4-20",
			}, "5.3578547*x3^2+.8356891*x1*x5+37.293239*x1-40792.141", "a", "b", "c", "92-a", "20-b", "5-c"),
		as(hs("HS84", []float64{2.52, 2, 37.5, 9.25, 6.8}, []float64{0, 1.2, 20, 9, 6.5}, []float64{1000, 2.4, 60, 9.3, 7}, -5280335.133),
			5, []string{
				"a=x1*(-145421.402+2931.1506*x2-40.427932*x3+5106.192*x4+15711.36*x5)",
				"b=x1*(-155011.1084+4360.53352*x2+12.9492344*x3+10236.884*x4+13176.786*x5)",
				"c=x1*(-326669.5104+7390.68412*x2-27.8986976*x3+16643.076*x4+30988.146*x5)",
			}, "24345+x1*(8720288.849-150512.5253*x2+156.6950325*x3-476470.3222*x4-729482.8271*x5)",
			"a", "b", "c", "294000-a", "294000-b", "277200-c"),
		as(hs("HS85", []float64{900, 80, 115, 267, 27}, []float64{704.4148, 68.6, 0, 193, 25}, []float64{906.3855, 288.88, 134.75, 287.0966, 84.1988}, -1.9051553),
			5, pulp, "-(5.843e-7*y17-1.17e-4*y14-.1365-2.358e-5*y13-1.502e-6*y16-.0321*y12-.004324*y5-1e-4*c15/c16-37.48*y2/c12)", pulpRows()...),
		listed["HS86"],
		emission("HS97", 29.08, 78.02),
		emission("HS98", 124.08, 173.02),
		rocket(),
		listed["HS100"],
		geometric("HS101", "-.25", 1809.7647640),
		geometric("HS102", ".125", 911.88057130),
		geometric("HS103", ".5", 543.66795836),
		listed["HS104"],
		mixture(),
		listed["HS106"],
		network107(),
		listed["HS108"],
		network109(),
		as(hs("HS110", fill(10, 9), fill(10, 2.001), fill(10, 9.999), -45.778469707), 10, nil, logarithms()),
		equilibrium(),
		listed["HS112"],
		listed["HS113"],
		as(hs("HS114", []float64{1745, 12000, 110, 3048, 1974, 89.2, 92.8, 8, 3.6, 145},
			[]float64{1e-5, 1e-5, 1e-5, 1e-5, 1e-5, 85, 90, 3, 1.2, 145}, []float64{2000, 16000, 120, 5000, 2000, 93, 95, 12, 4, 162}, -1768.8069634),
			10, []string{
				"a=35.82-.222*x10-.9*x9", "b=-133+3*x7-.99*x10",
				"c=1.12*x1+.13167*x1*x8-.00667*x1*x8^2-.99*x4", "d=57.425+1.098*x8-.038*x8^2+.325*x6-.99*x7",
			}, "5.04*x1+.035*x2+10*x3+3.36*x5-.063*x4*x7",
			"a", "b", "-a+x9*(1/.9-.9)", "-b+(1/.99-.99)*x10", "c", "d", "-c+(1/.99-.99)*x4", "-d+(1/.99-.99)*x7",
			"1.22*x4-x1-x5=0", "98000*x3/(x4*x9+1000*x3)-x6=0", "(x2+x5)/x1-x8=0"),
		as(hs("HS116", []float64{.5, .8, .9, .1, .14, .5, 489, 80, 650, 450, 150, 150, 150},
			[]float64{.1, .1, .1, 1e-4, .1, .1, .1, .1, 500, .1, 1, 1e-4, 1e-4}, []float64{1, 1, 1, .1, .9, .9, 1000, 1000, 1000, 500, 150, 150, 150}, 97.58750956),
			13, nil, "x11+x12+x13",
			"x3-x2", "x2-x1", "1-.002*x7+.002*x8", "x11+x12+x13-50", "250-x11-x12-x13",
			"x13-1.262626*x10+1.231059*x3*x10", "x5-.03475*x2-.975*x2*x5+.00975*x2^2", "x6-.03475*x3-.975*x3*x6+.00975*x3^2",
			"x4-.03475*x1-.975*x1*x4+.00975*x1^2", "x12-1.262626*x9+1.231059*x2*x9", "x11-1.262626*x8+1.231059*x1*x8",
			"x5*x7-x1*x8-x4*x7+x4*x8", "1-.002*(x2*x9+x5*x8-x1*x8-x6*x9)-x5-x6",
			"x2*x9-x3*x10-x6*x9-500*x2+500*x6+x2*x10", "x2-.9-.002*(x2*x10-x3*x10)"),
		listed["HS117"],
		listed["HS118"],
		quartic(),
	}
}

// within returns p with bounds.
func (p Problem) within(lower, upper []float64) Problem {
	p.Lower, p.Upper = lower, upper
	return p
}

// alkylation is the process of HS67. The book iterates for y2 and y4 to a tenth of
// their unit's hundredth; here both fixed points are solved for (D).
var alkylation = []string{
	"y6=((.8393626^2+4*.00813374*(x2/x1+.3664))^.5-.8393626)/(2*.00813374)",
	"y2=.01*x1*(112+13.167*y6-.6667*y6^2)",
	"y3=1.22*y2-x1",
	"e=86.35+1.098*y6-.038*y6^2-28.925",
	"b=y2*(65.346-.666*e)+1000*x3",
	"y4=196000*x3/(b+(b^2-84848.4*y2*x3)^.5)",
	"y5=e+.325*y4",
	"y8=3*y5-133",
	"y7=35.82-.222*y8",
}

func alkylationRows() (rows []string) {
	least, most := []string{"0", "0", "85", "90", "3", ".01", "145"}, []string{"5000", "2000", "93", "95", "12", "4", "162"}
	for k := range least {
		rows = append(rows, fmt.Sprintf("y%d-%s", k+2, least[k]))
	}
	for k := range most {
		rows = append(rows, fmt.Sprintf("%s-y%d", most[k], k+2))
	}
	return rows
}

// pulp is the process of HS85.
var pulp = []string{
	"y1=x2+x3+41.6", "c1=.024*x4-4.62", "y2=12.5/c1+12",
	"c2=.0003535*x1^2+.5311*x1+.08705*y2*x1", "c3=.052*x1+78+.002377*y2*x1", "y3=c2/c3", "y4=19*y3",
	"c4=.04782*(x1-y3)+.1956*(x1-y3)^2/x2+.6376*y4+1.594*y3", "c5=100*x2", "c6=x1-y3-y4", "c7=.95-c4/c5", "y5=c6*c7", "y6=x1-y5-y4-y3",
	"c8=.995*(y5+y4)", "y7=c8/y1", "y8=c8/3798", "c9=y7-.0663*y7/y8-.3153", "y9=96.82/c9+.321*y1",
	"y10=1.29*y5+1.258*y4+2.29*y3+1.71*y6", "y11=1.71*x1-.452*y4+.58*y3", "c10=12.3/752.3", "c11=1.74125*y2*x1", "c12=.995*y10+1998",
	"y12=c10*x1+c11/c12", "y13=c12-1.75*y2", "y14=3623+64.4*x2+58.4*x3+146312/(y9+x5)", "c13=.995*y10+60.8*x2+48*x4-.1121*y14-5095", "y15=y13/c13",
	"y16=148000-331000*y15+40*y13-61*y15*y13", "c14=2324*y10-28740000*y2", "y17=14130000-1328*y10-531*y11+c14/c12",
	"c15=y13/y15-y13/.52", "c16=1.104-.72*y15", "c17=y9+x5",
}

func pulpRows() []string {
	least := []string{"17.505", "11.275", "214.228", "7.458", ".961", "1.612", ".146", "107.99", "922.693", "926.832", "18.766", "1072.163", "8961.448", ".063", "71084.33", "2802713"}
	most := []string{"1053.6667", "35.03", "665.585", "584.463", "265.916", "7.046", ".222", "273.366", "1286.105", "1444.046", "537.141", "3247.039", "26844.086", ".386", "140000", "12146108"}
	rows := []string{"1.5*x2-x3", "y1-213.1", "405.23-y1"}
	for k := range least {
		rows = append(rows, fmt.Sprintf("y%d-%s", k+2, least[k]))
	}
	for k := range most {
		rows = append(rows, fmt.Sprintf("%s-y%d", most[k], k+2))
	}
	return append(rows, "y4-.28/.72*y5", "21-3496*y2/c12", "62212/c17-110.6-y1")
}

// emission is HS97 and HS98, which differ in two right-hand sides.
func emission(name string, third, fourth float64) Problem {
	p := Problem{Name: name, Source: book + " (S; minimum D)", X0: fill(6, 0), Minima: []Minimum{{F: 3.1358091, Global: true}}}
	p.Problem = formulas(6, "4.3*x1+31.8*x2+63.3*x3+15.8*x4+68.5*x5+4.7*x6",
		"17.1*x1+38.2*x2+204.2*x3+212.3*x4+623.4*x5+1495.5*x6-169*x1*x3-3580*x3*x5-3810*x4*x5-18500*x4*x6-24300*x5*x6-32.97",
		"17.9*x1+36.8*x2+113.9*x3+169.7*x4+337.8*x5+1385.2*x6-139*x1*x3-2450*x4*x5-16600*x4*x6-17200*x5*x6-25.12",
		fmt.Sprintf("-273*x2-70*x4-819*x5+26000*x4*x5+%v", third),
		fmt.Sprintf("159.9*x1-311*x2+587*x4+391*x5+2198*x6-14000*x1*x6+%v", fourth))
	return p.within(fill(6, 0), []float64{.31, .046, .068, .042, .028, .0134})
}

// rocket is HS99: the range of a rocket, squared, with its height and climb given.
func rocket() Problem {
	thrust, time := []float64{50, 50, 75, 75, 75, 100, 100}, []float64{0, 25, 50, 100, 150, 200, 290, 380}
	list := []string{"q=0*x1", "r=0*x1", "s=0*x1"}
	last := ""
	for i, a := range thrust {
		d := time[i+1] - time[i]
		was, name := last, strings.Repeat("i", i+1)
		last = name
		list = append(list,
			fmt.Sprintf("q%s=%v*(%v*sin(x%d)-32)+%v*s%s+q%s", name, d*d/2, a, i+1, d, was, was),
			fmt.Sprintf("r%s=%v*cos(x%d)+r%s", name, a*d, i+1, was),
			fmt.Sprintf("s%s=%v*(%v*sin(x%d)-32)+s%s", name, d, a, i+1, was))
	}
	p := Problem{Name: "HS99", Source: book + " (S; minimum D)", X0: fill(7, .5), Minima: []Minimum{{F: -831079891.52, Global: true}}}
	p.Problem = definitions(7, list, fmt.Sprintf("-r%s^2", last), fmt.Sprintf("q%s-100000=0", last), fmt.Sprintf("s%s-1000=0", last))
	return p.within(fill(7, 0), fill(7, 1.58))
}

// geometric is HS101 to HS103, geometric programs that differ in one exponent.
func geometric(name, a string, best float64) Problem {
	p := Problem{Name: name, Source: book + " (S; minimum D)", X0: fill(7, 6), Minima: []Minimum{{F: best, Global: true}}}
	const third, twoThirds = ".333333333333333", ".666666666666667"
	p.Problem = definitions(7, []string{
		"f=10*x1*x2^-1*x4^2*x6^-3*x7^" + a + "+15*x1^-1*x2^-2*x3*x4*x5^-1*x7^-.5+20*x1^-2*x2*x4^-1*x5^-2*x6+25*x1^2*x2^2*x3^-1*x5^.5*x6^-2*x7",
	}, "f",
		"1-.5*x1^.5*x3^-1*x6^-2*x7-.7*x1^3*x2*x3^-2*x6*x7^.5-.2*x2^-1*x3*x4^-.5*x6^"+twoThirds+"*x7^.25",
		"1-1.3*x1^-.5*x2*x3^-1*x5^-1*x6-.8*x3*x4^-1*x5^-1*x6^2-3.1*x1^-1*x2^.5*x4^-2*x5^-1*x6^"+third,
		"1-2*x1*x3^-1.5*x5*x6^-1*x7^"+third+"-.1*x2*x3^-.5*x5*x6^-1*x7^-.5-x1^-1*x2*x3^.5*x5-.65*x2^-2*x3*x5*x6^-1*x7",
		"1-.2*x1^-2*x2*x4^-1*x5^.5*x7^"+third+"-.3*x1^.5*x2^2*x3*x4^"+third+"*x5^-"+twoThirds+"*x7^.25-.4*x1^-3*x2^-2*x3*x5*x7^.75-.5*x3^-2*x4*x7^.5",
		"f-100", "3000-f")
	return p.within(append(fill(6, .1), .01), fill(7, 10))
}

// mixture is HS105: the likelihood of three normal distributions behind 235 values.
func mixture() Problem {
	counts := []struct{ value, number int }{
		{95, 1}, {105, 1}, {110, 4}, {115, 4}, {120, 15}, {125, 15}, {130, 15}, {135, 13}, {140, 21}, {145, 12}, {150, 17}, {155, 4}, {160, 20}, {165, 8},
		{170, 17}, {175, 8}, {180, 6}, {185, 6}, {190, 7}, {195, 4}, {200, 3}, {205, 3}, {210, 8}, {215, 1}, {220, 6}, {230, 5}, {235, 1}, {240, 7}, {245, 1}, {250, 2},
	}
	f := "0"
	for _, c := range counts {
		f += fmt.Sprintf("-%d*log((x1/x6*exp(-(%d-x3)^2/(2*x6^2))+x2/x7*exp(-(%d-x4)^2/(2*x7^2))+(1-x1-x2)/x8*exp(-(%d-x5)^2/(2*x8^2)))*.3989422804014327)",
			c.number, c.value, c.value, c.value)
	}
	p := Problem{Name: "HS105", Source: book + " (S; minimum D, the printed 1138.416240 is less accurate)",
		X0: []float64{.1, .2, 100, 125, 175, 11.2, 13.2, 15.8}, Minima: []Minimum{{F: 1136.3073, Global: true}}}
	p.Problem = formulas(8, f, "1-x1-x2")
	return p.within([]float64{.001, .001, 100, 130, 170, 5, 5, 5}, []float64{.499, .499, 180, 210, 240, 25, 25, 25})
}

// network107 and network109 are flows of power in electrical networks.
func network107() Problem {
	p := Problem{Name: "HS107", Source: book + " (S; minimum D)", X0: []float64{.8, .8, .2, .2, 1.0454, 1.0454, 1.0454, 0, 0}, Minima: []Minimum{{F: 5055.0118034, Global: true}}}
	p.Problem = definitions(9, []string{
		"c=48.4/50.176*sin(.25+0*x1)", "d=48.4/50.176*cos(.25+0*x1)",
		"y1=sin(x8)", "y2=cos(x8)", "y3=sin(x9)", "y4=cos(x9)", "y5=sin(x8-x9)", "y6=cos(x8-x9)",
	}, "3000*x1+1000*x1^3+2000*x2+666.666666667*x2^3",
		".4-x1+2*c*x5^2-x5*x6*(d*y1+c*y2)-x5*x7*(d*y3+c*y4)=0",
		".4-x2+2*c*x6^2+x5*x6*(d*y1-c*y2)+x6*x7*(d*y5-c*y6)=0",
		".8+2*c*x7^2+x5*x7*(d*y3-c*y4)-x6*x7*(d*y5+c*y6)=0",
		".2-x3+2*d*x5^2+x5*x6*(c*y1-d*y2)+x5*x7*(c*y3-d*y4)=0",
		".2-x4+2*d*x6^2-x5*x6*(c*y1+d*y2)-x6*x7*(c*y5+d*y6)=0",
		"-.337+2*d*x7^2-x5*x7*(c*y3+d*y4)+x6*x7*(c*y5-d*y6)=0")
	return p.within([]float64{0, 0, -inf, -inf, .90909, .90909, .90909, -inf, -inf}, []float64{inf, inf, inf, inf, 1.0909, 1.0909, 1.0909, inf, inf})
}

func network109() Problem {
	p := Problem{Name: "HS109", Source: book + " (S; minimum D)", X0: fill(9, 0), Minima: []Minimum{{F: 5326.8513301, Global: true}}}
	p.Problem = definitions(9, []string{"b=sin(.25+0*x1)", "c=cos(.25+0*x1)"},
		"3*x1+1e-6*x1^3+2*x2+.522074e-6*x2^3",
		"x4-x3+.55", "x3-x4+.55", "2250000-x1^2-x8^2", "2250000-x2^2-x9^2",
		"x5*x6*sin(-x3-.25)+x5*x7*sin(-x4-.25)+2*b*x5^2-50.176*x1+400*50.176=0",
		"x5*x6*sin(x3-.25)+x6*x7*sin(x3-x4-.25)+2*b*x6^2-50.176*x2+400*50.176=0",
		"x5*x7*sin(x4-.25)+x6*x7*sin(x4-x3-.25)+2*b*x7^2+881.779*50.176=0",
		"50.176*x8+x5*x6*cos(-x3-.25)+x5*x7*cos(-x4-.25)-200*50.176-2*c*x5^2+.7533e-3*50.176*x5^2=0",
		"50.176*x9+x5*x6*cos(x3-.25)+x6*x7*cos(x3-x4-.25)-200*50.176-2*c*x6^2+.7533e-3*50.176*x6^2=0",
		"x5*x7*cos(x4-.25)+x6*x7*cos(x4-x3-.25)+22.938*50.176-2*c*x7^2+.7533e-3*50.176*x7^2=0")
	return p.within([]float64{0, 0, -.55, -.55, 196, 196, 196, -400, -400}, []float64{inf, inf, .55, .55, 252, 252, 252, 800, 800})
}

// logarithms is the objective of HS110.
func logarithms() string {
	var terms, factors []string
	for j := 1; j <= 10; j++ {
		terms = append(terms, fmt.Sprintf("log(x%d-2)^2+log(10-x%d)^2", j, j))
		factors = append(factors, fmt.Sprintf("x%d", j))
	}
	return strings.Join(terms, "+") + "-(" + strings.Join(factors, "*") + ")^.2"
}

// equilibrium is HS111, HS112 in logarithms of the variables.
func equilibrium() Problem {
	f := "0"
	for j, v := range species {
		f += fmt.Sprintf("+exp(x%d)*((%v)+x%d-log(exp(x1)+exp(x2)+exp(x3)+exp(x4)+exp(x5)+exp(x6)+exp(x7)+exp(x8)+exp(x9)+exp(x10)))", j+1, v, j+1)
	}
	p := Problem{Name: "HS111", Source: book + " (S; minimum D)", X0: fill(10, -2.3), Minima: []Minimum{{F: -47.76109086, Global: true}}}
	p.Problem = formulas(10, f, "exp(x1)+2*exp(x2)+2*exp(x3)+exp(x6)+exp(x10)-2=0", "exp(x4)+2*exp(x5)+exp(x6)+exp(x7)-1=0",
		"exp(x3)+exp(x7)+exp(x8)+2*exp(x9)+exp(x10)-1=0")
	return p.within(fill(10, -100), fill(10, 100))
}

// quartic is HS119: products of quadratics over linear equalities.
func quartic() Problem {
	pairs := [][]int{{1, 4, 7, 8, 16}, {2, 3, 7, 10}, {3, 7, 9, 10, 14}, {4, 7, 11, 15}, {5, 6, 10, 12, 16}, {6, 8, 15}, {7, 11, 13}, {8, 10, 15},
		{9, 12, 16}, {10, 14}, {11, 13}, {12, 14}, {13, 14}, {14}, {15}, {16}}
	q := func(j int) string { return fmt.Sprintf("(x%d^2+x%d+1)", j, j) }
	f := "0"
	for i, list := range pairs {
		for _, j := range list {
			f += "+" + q(i+1) + "*" + q(j)
		}
	}
	columns := [16][8]float64{
		{.22, -1.46, 1.29, -1.10, 0, 0, 1.12, 0}, {.20, 0, -.89, -1.06, 0, -1.72, 0, .45}, {.19, -1.30, 0, .95, 0, -.33, 0, .26},
		{.25, 1.82, 0, -.54, -1.43, 0, .31, -1.10}, {.15, -1.15, -1.16, 0, 1.51, 1.62, 0, .58}, {.11, 0, -.96, -1.78, .59, 1.24, 0, 0},
		{.12, .80, 0, -.41, -.33, .21, 1.12, -1.03}, {.13, 0, -.49, 0, -.43, -.26, 0, .10}, {1, 0, 0, 0, 0, 0, -.36, 0},
		{0, 1}, {0, 0, 1}, {0, 0, 0, 1}, {0, 0, 0, 0, 1}, {0, 0, 0, 0, 0, 1}, {0, 0, 0, 0, 0, 0, 1}, {0, 0, 0, 0, 0, 0, 0, 1},
	}
	var rows []string
	for i, v := range []float64{2.5, 1.1, -3.1, -3.5, 1.3, 2.1, 2.3, -1.5} {
		r := fmt.Sprintf("-(%v)", v)
		for j := range columns {
			if b := columns[j][i]; b != 0 {
				r += fmt.Sprintf("+(%v)*x%d", b, j+1)
			}
		}
		rows = append(rows, r+"=0")
	}
	p := Problem{Name: "HS119", Source: book + " (S; minimum D)", X0: fill(16, 10), Minima: []Minimum{{F: 244.89969752, Global: true}}}
	p.Problem = formulas(16, f, rows...)
	return p.within(fill(16, 0), fill(16, 5))
}
