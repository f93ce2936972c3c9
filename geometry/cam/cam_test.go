package cam

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/interp"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"
)

const deg = math.Pi / 180

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.10g, want %.10g within %g", what, got, want, tol)
	}
}

// sampled returns the law through n+1 values of a function.
func sampled(t testing.TB, from, to float64, n int, f func(float64) float64) Law {
	t.Helper()
	values := make([]float64, n+1)
	for i := range values {
		values[i] = f(from + (to-from)*float64(i)/float64(n))
	}
	l, err := NewLaw(from, to, values)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// integral is Gauss-Legendre quadrature, the arc or the take-up by definition.
func integral(f func(float64) float64, a, b float64) float64 {
	return quad.Fixed(f, a, b, 60, nil, 0)
}

// Checks 1-7: support functions in closed form (D).
func TestSupportClosedForms(t *testing.T) {
	ellipse := func(t float64) Support {
		const a, b = 100.0, 60.0
		s, c := math.Sincos(t)
		h := math.Sqrt(a*a*c*c + b*b*s*s)
		h1 := (b*b - a*a) * s * c / h
		return Support{h, h1, ((b*b-a*a)*(c*c-s*s) - h1*h1) / h}
	}
	curves := map[string]func(t float64) Support{
		"circle":    func(float64) Support { return Support{H: 80} },
		"eccentric": func(t float64) Support { return Support{80 + 20*math.Cos(t), -20 * math.Sin(t), -20 * math.Cos(t)} },
		"pin":       func(t float64) Support { return Support{20 * math.Cos(t), -20 * math.Sin(t), -20 * math.Cos(t)} },
		"spiral":    func(t float64) Support { h := 60 * math.Exp(.2*t); return Support{h, .2 * h, .04 * h} },
		"linear":    func(t float64) Support { return Support{60 + 12*t, 12, 0} },
		"harmonic": func(t float64) Support {
			return Support{80 + 20*math.Sin(2*t), 40 * math.Cos(2*t), -80 * math.Sin(2*t)}
		},
		"too wavy": func(t float64) Support {
			return Support{80 + 30*math.Sin(2*t), 60 * math.Cos(2*t), -120 * math.Sin(2*t)}
		},
		"ellipse": ellipse,
	}
	takeUp := func(name string, a, b float64) float64 {
		return integral(func(t float64) float64 { return curves[name](t).H }, a, b)
	}
	arc := func(name string, a, b float64) float64 {
		return integral(func(t float64) float64 { return curves[name](t).Radius() }, a, b)
	}
	leastRadius := func(name string) float64 {
		least := math.Inf(1)
		for d := range 360 {
			least = math.Min(least, curves[name](float64(d)*deg).Radius())
		}
		return least
	}

	for d := range 360 {
		a := float64(d) * deg
		near(t, "1 circle", r2.Norm(curves["circle"](a).Point(a)), 80, 1e-12)
		near(t, "1 circle rho", curves["circle"](a).Radius(), 80, 1e-12)
		near(t, "2 eccentric", r2.Norm(r2.Sub(curves["eccentric"](a).Point(a), r2.Vec{X: 20})), 80, 1e-12)
		near(t, "3 pin", r2.Norm(r2.Sub(curves["pin"](a).Point(a), r2.Vec{X: 20})), 0, 1e-12)
		near(t, "3 pin rho", curves["pin"](a).Radius(), 0, 1e-12)
		p := curves["ellipse"](a).Point(a)
		near(t, "7 ellipse", p.X*p.X/1e4+p.Y*p.Y/3600, 1, 1e-12)
	}
	near(t, "2 L(0..90)", takeUp("eccentric", 0, 90*deg), 145.663706, 1e-6)
	near(t, "2 L(0..180)", takeUp("eccentric", 0, 180*deg), 251.327412, 1e-6)
	near(t, "2 perimeter", arc("eccentric", 0, 360*deg), 502.654825, 1e-6)
	near(t, "4 h(2)", curves["spiral"](2).H, 89.509482, 1e-6)
	near(t, "4 |P(0)|", r2.Norm(curves["spiral"](0).Point(0)), 61.188234, 1e-6)
	near(t, "4 L(0..2)", takeUp("spiral", 0, 2), 147.547409, 1e-6)
	near(t, "4 arc", arc("spiral", 0, 2), 153.449306, 1e-6)
	near(t, "4 change of h'", curves["spiral"](2).H1-curves["spiral"](0).H1, 5.901896, 1e-6)
	near(t, "5 L(0..2)", takeUp("linear", 0, 2), 144, 1e-9)
	near(t, "5 arc", arc("linear", 0, 2), 144, 1e-9)
	near(t, "5 rho(2)", curves["linear"](2).Radius(), 84, 1e-12)
	near(t, "6 L(0..90)", takeUp("harmonic", 0, 90*deg), 145.663706, 1e-6)
	near(t, "6 least rho", leastRadius("harmonic"), 20, 1e-9)
	near(t, "6 least rho, too wavy", leastRadius("too wavy"), -10, 1e-9)
	near(t, "7 perimeter", arc("ellipse", 0, 2*math.Pi), 510.539977, 1e-5)
	near(t, "7 rho(0)", curves["ellipse"](0).Radius(), 36, 1e-9)
	near(t, "7 rho(90)", curves["ellipse"](90*deg).Radius(), 166.666667, 1e-6)
	near(t, "7 h(45)", curves["ellipse"](45*deg).H, 82.462113, 1e-6)
}

// Checks 3 and 6 (D) as cams: a pin and a hollow are refused.
func TestUnwrappable(t *testing.T) {
	far := Guide{X: 1e6, Side: Open}
	plate := Plate{Cable: 4, MinRadius: 5}
	pin := Profile{sampled(t, 0, 80*deg, 200, func(a float64) float64 { return 20 * math.Cos(a) }), far, 1}
	wavy := Profile{sampled(t, 0, 90*deg, 200, func(a float64) float64 { return 80 + 30*math.Sin(2*a) }), far, 1}
	for name, p := range map[string]Profile{"pin": pin, "hollow": wavy} {
		var e *Error
		if _, err := p.Outline(plate); !errors.As(err, &e) || e.Kind != Curvature {
			t.Errorf("%s: %v, want kind %s", name, err, Curvature)
		}
	}
}

// Check 8 (D): constant torque 20 N m against a spring of 2 N/mm stretched by
// 100 mm: the stretch grows by what the cam takes up.
func TestConstantTorqueSpring(t *testing.T) {
	const k, torque, x0 = 2, 20000, 100
	arm := func(a float64) float64 { return torque / (k * math.Sqrt(x0*x0+2*torque*a/k)) }
	p := Profile{sampled(t, 0, 2, 400, arm), Guide{X: 500, Side: Open}, 1}
	for _, tt := range []struct{ a, stretch, arm float64 }{{0, 100, 100}, {1, 173.205081, 57.735027}, {2, 223.606798, 44.721360}} {
		h, _, _ := p.Law.At(tt.a)
		near(t, "arm", h, tt.arm, 1e-6)
		x := x0 + p.TakeUp(0, tt.a)
		near(t, "stretch", x, tt.stretch, 1e-6)
		near(t, "torque", k*x*h, torque, 1e-3)
	}
}

func worked(t testing.TB, g Guide) Profile {
	return Profile{sampled(t, 0, 120*deg, 960, func(a float64) float64 { return 80 + 20*math.Sin(a) }), g, 1}
}

// Check 9, first part: the worked table of standards.md 4.3 (D), h = 80 + 20 sin,
// cable tied 500 mm away.
func TestWorkedTable(t *testing.T) {
	p := worked(t, Guide{X: 500, Side: Open})
	tests := []struct{ a, r, t, h1, x, y, rho, free float64 }{
		{0, 80.0000, 80.7931, -19.2211, 31.7735, 75.8940, 79.995, 474.3374},
		{30, 90.0000, 49.6302, -16.7313, 71.0419, 57.7321, 80.983, 475.1020},
		{60, 97.3205, 18.7762, -9.8002, 95.2958, 22.0462, 81.017, 480.6371},
		{90, 100.0000, -11.5370, 0.0000, 97.9796, -20.0000, 80.000, 489.8979},
		{120, 97.3205, -41.2238, 10.2081, 79.9260, -56.4564, 78.897, 500.6454},
	}
	for _, tt := range tests {
		st, err := p.At(tt.a * deg)
		if err != nil {
			t.Fatal(err)
		}
		name := fmt.Sprintf("at %v ", tt.a)
		near(t, name+"h", st.Arm, tt.r, 1e-4)
		near(t, name+"phi", st.Phi/deg, tt.t, 1e-4)
		near(t, name+"H'", st.Support.H1, tt.h1, 1e-4)
		near(t, name+"x", st.Point.X, tt.x, 1e-3)
		near(t, name+"y", st.Point.Y, tt.y, 1e-3)
		near(t, name+"rho", st.Rho, tt.rho, 1e-3)
		near(t, name+"span", st.Span, tt.free, 1e-3)
		turned := r2.Rotate(st.Point, tt.a*deg, r2.Vec{})
		near(t, name+"contact", r2.Norm(r2.Sub(turned, st.Contact)), 0, 1e-9)
		near(t, name+"span by distance", r2.Norm(r2.Sub(st.Leave, st.Contact)), st.Span, 1e-9)
	}
	near(t, "take-up", p.TakeUp(0, 120*deg), 197.551608, 1e-5)
}

// Check 9, second part (D): arc + change of span + wrap on the guide is the
// take-up, with the figures of 4.3 for a guide of radius 45.
func TestTakeUpIdentity(t *testing.T) {
	tests := []struct {
		name           string
		g              Guide
		arc, span, psi float64
	}{
		{"tied", Guide{X: 500, Side: Open}, 171.243578, 26.308030, math.NaN()},
		{"open", Guide{X: 500, Radius: 45, Side: Open}, 171.200796, 27.915716, -.03477564},
		{"crossed", Guide{X: 500, Radius: 45, Side: Crossed}, 171.319993, 24.613790, -.03595168},
	}
	for _, tt := range tests {
		p := worked(t, tt.g)
		arc, span, wrap := parts(t, p, 0, 120*deg)
		near(t, tt.name+" arc", arc, tt.arc, 1e-4)
		near(t, tt.name+" span", span, tt.span, 1e-4)
		if !math.IsNaN(tt.psi) {
			near(t, tt.name+" psi", wrap/(float64(tt.g.Side)*tt.g.Radius), tt.psi, 1e-7)
		}
		near(t, tt.name+" sum", arc+span+wrap, 197.551608, 1e-4)
	}
}

// parts returns the arc wound between two flexions, by quadrature of rho over
// the body angle, the change of span and the change of wrap on the guide.
func parts(t interface{ Fatal(...any) }, p Profile, a, b float64) (arc, span, wrap float64) {
	at := func(theta float64) State {
		st, err := p.At(theta)
		if err != nil {
			t.Fatal(err)
		}
		return st
	}
	const n = 2000
	for i := range n {
		lo, hi := at(a+(b-a)*float64(i)/n), at(a+(b-a)*float64(i+1)/n)
		mid := at(a + (b-a)*(float64(i)+.5)/n)
		arc += (lo.Rho + 4*mid.Rho + hi.Rho) / 6 * (lo.Phi - hi.Phi)
	}
	first, last := at(a), at(b)
	return arc, last.Span - first.Span, float64(p.Guide.Side) * p.Guide.Radius * (last.Psi - first.Psi)
}

// Check 10 (S ratios, D): groove of a 4 mm 7x19 cable.
func TestGroove(t *testing.T) {
	g := NewGroove(4)
	near(t, "least groove radius", g.LeastRadius, 2.12, 1e-12)
	near(t, "greatest groove radius", g.GreatestRadius, 2.2, 1e-12)
	near(t, "groove depth", g.Depth, 6, 1e-12)
}

// The spline against gonum's not-a-knot cubic, its integral against
// quadrature, and the extension against Taylor's formula.
func TestLaw(t *testing.T) {
	values := []float64{62, 71, 88, 103, 111, 108, 97, 86}
	for n := 4; n <= len(values); n++ {
		from, to := -.1, 2.2
		l, err := NewLaw(from, to, values[:n])
		if err != nil {
			t.Fatal(err)
		}
		xs := make([]float64, n)
		for i := range xs {
			xs[i] = from + (to-from)*float64(i)/float64(n-1)
		}
		var ref interp.NotAKnotCubic
		if err := ref.Fit(xs, values[:n]); err != nil {
			t.Fatal(err)
		}
		for i := range 101 {
			x := from + (to-from)*float64(i)/100
			h, h1, h2 := l.At(x)
			near(t, "h", h, ref.Predict(x), 1e-10)
			near(t, "h'", h1, ref.PredictDerivative(x), 1e-9)
			const e = 1e-5
			_, up, _ := l.At(x + e)
			_, down, _ := l.At(x - e)
			near(t, "h''", h2, (up-down)/(2*e), .05)
		}
		near(t, "integral", l.Integral(from, to), integral(func(x float64) float64 { h, _, _ := l.At(x); return h }, from, to), .01)
		near(t, "integral reversed", l.Integral(1.5, .2), -l.Integral(.2, 1.5), 1e-12)
		near(t, "integral in parts", l.Integral(from, .9)+l.Integral(.9, to), l.Integral(from, to), 1e-10)
		for _, end := range []float64{from, to} {
			h, h1, h2 := l.At(end)
			dx := math.Copysign(Overrun, end)
			hx, hx1, hx2 := l.At(end + dx)
			near(t, "extended h", hx, h+h1*dx+h2*dx*dx/2, 1e-9)
			near(t, "extended h'", hx1, h1+h2*dx, 1e-9)
			near(t, "extended h''", hx2, h2, 1e-9)
		}
	}
	if _, err := NewLaw(0, 2, []float64{1, 2, 3}); err == nil {
		t.Error("three values are accepted")
	}
	for _, bad := range [][]float64{{1, 2, 3, 0}, {1, math.NaN(), 3, 4}, {1, 2, math.Inf(1), 4}} {
		var e *Error
		if _, err := NewLaw(0, 2, bad); !errors.As(err, &e) || e.Kind != Input {
			t.Errorf("%v: %v", bad, err)
		}
	}
	if _, err := NewLaw(2, 2, values); err == nil {
		t.Error("an empty range is accepted")
	}
}

func TestBasis(t *testing.T) {
	values := []float64{62, 71, 88, 103, 111, 108, 97, 86, 80}
	l, err := NewLaw(.1, 2.3, values)
	if err != nil {
		t.Fatal(err)
	}
	thetas := []float64{.1 - Overrun, .1, .5, 1.2, 2.0, 2.3, 2.3 + Overrun}
	b0, b1, b2, err := Basis(.1, 2.3, len(values), thetas)
	if err != nil {
		t.Fatal(err)
	}
	y := mat.NewVecDense(len(values), values)
	for k, b := range []*mat.Dense{b0, b1, b2} {
		var got mat.VecDense
		got.MulVec(b, y)
		for i, theta := range thetas {
			h, h1, h2 := l.At(theta)
			near(t, fmt.Sprintf("derivative %d at %v", k, theta), got.AtVec(i), [...]float64{h, h1, h2}[k], 1e-9)
		}
	}
	if _, _, _, err := Basis(.1, 2.3, 9, nil); err == nil {
		t.Error("no angles are accepted")
	}
}

// randomProfile draws a gentle law, a guide and a ratio.
func randomProfile(t *rapid.T) Profile {
	from := rapid.Float64Range(-5, 20).Draw(t, "from") * deg
	to := from + rapid.Float64Range(90, 130).Draw(t, "range")*deg
	mean := rapid.Float64Range(55, 110).Draw(t, "mean")
	a1 := rapid.Float64Range(-.3, .3).Draw(t, "a1") * mean
	a2 := rapid.Float64Range(-.1, .1).Draw(t, "a2") * mean
	turn := rapid.Float64Range(0, 2*math.Pi).Draw(t, "turn")
	g := Guide{Radius: rapid.Float64Range(0, 60).Draw(t, "guide radius"), Side: rapid.SampledFrom([]int{Open, Crossed}).Draw(t, "side")}
	at := normal(rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "bearing"))
	d := rapid.Float64Range(350, 900).Draw(t, "distance")
	g.X, g.Y = d*at.X, d*at.Y
	values := make([]float64, rapid.IntRange(8, 20).Draw(t, "nodes"))
	for i := range values {
		a := float64(i) / float64(len(values)-1)
		values[i] = mean + a1*math.Sin(turn+2*a) + a2*math.Sin(2*turn+4*a)
	}
	l, err := NewLaw(from, to, values)
	if err != nil {
		t.Fatal(err)
	}
	return Profile{l, g, rapid.Float64Range(.8, 2).Draw(t, "ratio")}
}

// Derivatives of the derivation: rho against the turning of the point curve,
// the partial derivatives against differences, the take-up identity, and the
// cable line at the right distances from cam axis and guide.
func TestProfileProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomProfile(t)
		from, to := p.Law.Range()
		theta := from + rapid.Float64Range(.01, .99).Draw(t, "place")*(to-from)
		st, err := p.At(theta)
		if err != nil {
			t.Skip(err)
		}
		check := func(what string, got, want, tol float64) {
			if !(math.Abs(got-want) <= tol) {
				t.Fatalf("%s = %.10g, want %.10g within %g", what, got, want, tol)
			}
		}

		n := normal(st.Psi)
		q := r2.Vec{X: p.Guide.X, Y: p.Guide.Y}
		check("distance of the axis", r2.Dot(n, st.Contact), st.Arm, 1e-9)
		check("distance of the guide", st.Arm-r2.Dot(n, q), float64(p.Guide.Side)*p.Guide.Radius, 1e-9)
		pull := r2.Unit(r2.Sub(st.Leave, st.Contact))
		check("moment of a pull of 1 N", r2.Cross(st.Contact, pull), -st.Arm, 1e-9)

		// H' and rho from differences of support function and points.
		const e = 1e-5
		up, err1 := p.At(theta + e)
		down, err2 := p.At(theta - e)
		if err1 != nil || err2 != nil {
			t.Skip()
		}
		dphi := up.Phi - down.Phi
		check("H'", st.Support.H1, (up.Arm-down.Arm)/dphi, 1e-4)
		step := r2.Scale(1/dphi, r2.Sub(up.Point, down.Point))
		check("rho along the tangent", st.Rho, r2.Dot(step, normal(st.Phi+math.Pi/2)), 2e-3*math.Max(1, math.Abs(st.Rho)))
		check("rho across the tangent", 0, r2.Dot(step, normal(st.Phi)), 2e-2)

		lin, err := p.RhoLinear(theta)
		if err != nil {
			t.Fatal(err)
		}
		check("rho", lin.Rho, st.Rho, 1e-9)
		for i, c := range [...]float64{lin.C0, lin.C1, lin.C2} {
			var d [3]float64
			d[i] = 1e-4 * (1 + math.Abs([...]float64{st.Arm, st.Arm1, st.Arm2}[i]))
			a, err1 := p.linear(theta, st.Arm+d[0], st.Arm1+d[1], st.Arm2+d[2])
			b, err2 := p.linear(theta, st.Arm-d[0], st.Arm1-d[1], st.Arm2-d[2])
			if err1 != nil || err2 != nil {
				t.Fatal(err1, err2)
			}
			check(fmt.Sprintf("C%d", i), c, (a.Rho-b.Rho)/(2*d[i]), 1e-4*(1+math.Abs(c)))
		}

		if _, err := p.WrapAngle(from, to); err != nil {
			return
		}
		for x := from; x < to; x += .01 {
			if _, err := p.At(x); err != nil {
				return
			}
		}
		arc, span, wrap := parts(t, p, from, to)
		check("take-up", arc+span+wrap, p.TakeUp(from, to), 1e-3)
	})
}

func TestProfileErrors(t *testing.T) {
	round := sampled(t, 0, 2, 10, func(float64) float64 { return 80 })
	steep := sampled(t, 0, 2, 40, func(a float64) float64 { return 200 - 95*a })
	good := Guide{X: 500, Radius: 45, Side: Open}
	tests := []struct {
		name  string
		p     Profile
		theta float64
		kind  Kind
	}{
		{"no law", Profile{Guide: good, Ratio: 1}, 0, Input},
		{"no ratio", Profile{Law: round, Guide: good}, 0, Input},
		{"no side", Profile{round, Guide{X: 500}, 1}, 0, Input},
		{"guide on the axis", Profile{round, Guide{Side: Open}, 1}, 0, Input},
		{"nan", Profile{round, good, 1}, math.NaN(), Range},
		{"past the end", Profile{round, good, 1}, 2.2, Range},
		{"guide too near", Profile{round, Guide{X: 60, Side: Open}, 1}, 1, Reach},
		{"crossed too near", Profile{round, Guide{X: 120, Radius: 45, Side: Crossed}, 1}, 1, Reach},
		{"runs back", Profile{steep, Guide{X: 210, Side: Open}, .5}, 0, Turn},
	}
	for _, tt := range tests {
		var e *Error
		if _, err := tt.p.At(tt.theta); !errors.As(err, &e) || e.Kind != tt.kind {
			t.Errorf("%s: %v, want kind %s", tt.name, err, tt.kind)
		} else if e.Hint == "" {
			t.Errorf("%s: no hint", tt.name)
		}
	}
}

func BenchmarkProfileAt(b *testing.B) {
	p := worked(b, Guide{X: 500, Radius: 45, Side: Open})
	b.ReportAllocs()
	for b.Loop() {
		if _, err := p.At(1); err != nil {
			b.Fatal(err)
		}
	}
}
