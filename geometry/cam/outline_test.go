package cam

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"armwright/geometry/contour"
	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"
)

// peaked is a strength-shaped law over 5 to 130 degrees: it rises to a peak at
// 85 degrees of flexion and falls again.
func peaked(t testing.TB, low, high float64) Law {
	return sampled(t, 5*deg, 130*deg, 12, func(a float64) float64 {
		return high - (high-low)*(1-math.Cos(1.4*(a-85*deg)))/(1-math.Cos(1.4*80*deg))
	})
}

func plate() Plate {
	return Plate{Cable: 4, MinRadius: 36, Bore: 25, AnchorHole: 8}
}

// verify checks a finished outline by what a shop and an inspector would: it is
// a simple smooth convex loop that turns once, its arcs are wide enough, it
// stays within 0.02 mm of the law's curve, holes keep their walls, and the
// moment arm measured from the arcs is the law's within share.
func verify(t interface {
	Helper()
	Errorf(string, ...any)
	Fatal(...any)
}, p Profile, pl Plate, out Outline, share float64) {
	t.Helper()
	for name, path := range map[string]contour.Path{"pitch": out.Pitch, "root": out.Root, "blank": out.Blank} {
		if err := path.Validate(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if a, i := path.MaxCorner(); a > 1e-6 {
			t.Errorf("%s: corner of %v at %d", name, a, i)
		}
		turn := 0.0
		for i := range path.Len() {
			if s := path.Element(i).Sweep(); s < 0 {
				t.Errorf("%s: hollow at %d", name, i)
			} else {
				turn += s
			}
		}
		if math.Abs(turn-2*math.Pi) > 1e-6 {
			t.Errorf("%s turns by %v degrees", name, turn/deg)
		}
	}
	if r, _ := out.Pitch.MinRadius(); r < pl.MinRadius*(1-bendSlack) || r != out.LeastRadius {
		t.Errorf("least radius %v, stated %v, required %v", r, out.LeastRadius, pl.MinRadius)
	}
	for i, h := range out.Holes {
		if d, _ := out.Root.Distance(h.Centre); !out.Root.Contains(h.Centre) || d-h.Diameter/2 < 1.5*pl.Cable-.02 {
			t.Errorf("%s hole %d lies %v from the groove", h.Name, i, d-h.Diameter/2)
		}
		for j, o := range out.Holes[:i] {
			if o.Name == "bore" && h.Name == "bolt" || o.Name == "bolt" && h.Name == "bolt" {
				continue // the hub's own affair
			}
			if gap := r2.Norm(r2.Sub(h.Centre, o.Centre)) - (h.Diameter+o.Diameter)/2; gap < 1.5*pl.Cable-1e-6 {
				t.Errorf("holes %d and %d are %v apart", i, j, gap)
			}
		}
	}
	if wrap := out.WrapTo - out.WrapFrom + out.DeadWrap; out.DeadWrap < LeastDeadWrap-1e-9 || wrap > 2*math.Pi {
		t.Errorf("wrap %v with dead wrap %v degrees", wrap/deg, out.DeadWrap/deg)
	}
	if d, _ := out.Pitch.Distance(out.Anchor.Tangent); d > 1e-6 {
		t.Errorf("the anchor's tangent point lies %v off", d)
	}
	// The cable goes on straight from there, the way it winds, past a hole that keeps its
	// wall below the groove, and leaves ten degrees free before the first contact.
	n := r2.Sub(out.Anchor.Tangent, out.Anchor.Hole.Centre)
	const wall = 1.5 // of the cable, where the plate says nothing
	if d := r2.Norm(n) - (wall*pl.Cable + out.Anchor.Hole.Diameter/2 + pl.Cable/2); math.Abs(d) > 1e-9 {
		t.Errorf("the anchor's hole is %v off its inset", d)
	}
	if d := out.Anchor.Direction; math.Abs(r2.Dot(d, n)) > 1e-9 || math.Abs(r2.Cross(r2.Unit(n), d)-1) > 1e-12 {
		t.Errorf("the cable leaves towards %v at the normal %v", d, r2.Unit(n))
	}
	if free := out.WrapFrom + 2*math.Pi - out.WrapTo - out.DeadWrap; free < 10*deg-1e-9 {
		t.Errorf("only %v degrees are free past the anchor", free/deg)
	}

	from, to := p.Law.Range()
	for i := range 201 {
		theta := from + (to-from)*float64(i)/200
		st, err := p.At(theta)
		if err != nil {
			t.Fatal(err)
		}
		if d, _ := out.Pitch.Distance(st.Point); d > .02 {
			t.Errorf("pitch curve %v off at %v degrees", d, theta/deg)
		}
		r, err := Measure(out.Root, pl.Cable, p.Guide, p.Ratio, theta)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(r.Arm-st.Arm) > share*st.Arm {
			t.Errorf("measured arm %v at %v degrees, law %v", r.Arm, theta/deg, st.Arm)
		}
		if math.Abs(r.Span-st.Span) > .5 || math.Abs(r.Psi-st.Psi) > 1e-3 {
			t.Errorf("measured span %v and psi %v, law %v and %v", r.Span, r.Psi, st.Span, st.Psi)
		}
	}
	// In the lead-ins the arm goes on without a jump.
	for _, theta := range []float64{from - Overrun, to + Overrun} {
		r, err := Measure(out.Root, pl.Cable, p.Guide, p.Ratio, theta)
		if err != nil {
			t.Fatal(err)
		}
		if h, _, _ := p.Law.At(theta); math.Abs(r.Arm-h) > .05*h {
			t.Errorf("arm %v past the end, law %v", r.Arm, h)
		}
	}
}

// The loop closes: law -> outline -> measured arm within 0.02 %, over laws,
// ratios, and open and crossed guides.
func TestOutlineMeasuredBack(t *testing.T) {
	constant := sampled(t, 5*deg, 130*deg, 8, func(float64) float64 { return 70 })
	rising := sampled(t, 0, 120*deg, 10, func(a float64) float64 { return 60 + 25*a })
	falling := sampled(t, 0, 120*deg, 10, func(a float64) float64 { return 115 - 20*a })
	guides := map[string]Guide{
		"open":    {X: 120, Y: -480, Radius: 48, Side: Open},
		"crossed": {X: 120, Y: -480, Radius: 48, Side: Crossed},
		"behind":  {X: -600, Y: 150, Radius: 48, Side: Open},
		"tied":    {X: 500, Side: Open},
	}
	tests := []struct {
		name  string
		law   Law
		ratio float64
	}{
		{"constant", constant, 1}, {"constant", constant, 1.5}, {"constant", constant, 2},
		{"rising", rising, 1}, {"rising", rising, 1.5},
		{"falling", falling, 1}, {"falling", falling, 1.5}, {"falling", falling, 2},
		{"gently peaked", peaked(t, 85, 105), 1},
		{"peaked", peaked(t, 60, 110), 1.5},
		{"peaked", peaked(t, 60, 110), 2},
		{"sharply peaked", peaked(t, 50, 120), 2},
	}
	for _, tt := range tests {
		for guide, g := range guides {
			t.Run(fmt.Sprintf("%s/%v/%s", tt.name, tt.ratio, guide), func(t *testing.T) {
				p := Profile{tt.law, g, tt.ratio}
				pl := plate()
				out, err := p.Outline(pl)
				if err != nil {
					t.Fatal(err)
				}
				verify(t, p, pl, out, 2e-4)
			})
		}
	}
}

// A circle about the axis comes out as that circle over the working part, and
// the worked example of 4.3 (D) as an outline gives its table back.
func TestOutlineOfKnownCurves(t *testing.T) {
	p := worked(t, Guide{X: 500, Side: Open})
	out, err := p.Outline(plate())
	if err != nil {
		t.Fatal(err)
	}
	for a, h := range map[float64]float64{0: 80, 30: 90, 60: 97.3205, 90: 100, 120: 97.3205} {
		r, err := Measure(out.Root, 4, p.Guide, 1, a*deg)
		if err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprintf("arm at %v", a), r.Arm, h, .01)
	}
}

// Measuring curves that are no outline of ours: circles with known tangents.
func TestMeasureCircles(t *testing.T) {
	const d = 4
	guide := Guide{X: 300, Y: -400, Radius: 48, Side: Open}
	for theta := 0.0; theta < 3; theta += .5 {
		for _, side := range []int{Open, Crossed} {
			guide.Side = side
			// About the axis: the arm is the radius.
			r, err := Measure(contour.Circle(r2.Vec{}, 78), d, guide, 1.5, theta)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "concentric arm", r.Arm, 80, 1e-9)
			w := 80 - float64(side)*48
			near(t, "concentric span", r.Span, math.Sqrt(500*500-w*w), 1e-9)

			// Off the axis: the common tangent of two circles, by its angle.
			c := r2.Rotate(r2.Vec{X: 20}, 1.5*theta, r2.Vec{})
			r, err = Measure(contour.Circle(r2.Vec{X: 20}, 78), d, guide, 1.5, theta)
			if err != nil {
				t.Fatal(err)
			}
			v := r2.Sub(r2.Vec{X: guide.X, Y: guide.Y}, c)
			psi := math.Atan2(v.Y, v.X) + math.Acos(w/r2.Norm(v))
			near(t, "eccentric arm", r.Arm, 80+r2.Dot(c, normal(psi)), 1e-9)
			near(t, "eccentric span", r.Span, math.Sqrt(r2.Norm2(v)-w*w), 1e-9)
		}
	}
	var e *Error
	if _, err := Measure(contour.Circle(r2.Vec{}, 78), d, Guide{X: 60, Side: Open}, 1, 0); !errors.As(err, &e) || e.Kind != Reach {
		t.Errorf("guide inside the cam: %v", err)
	}
	if _, err := Measure(contour.Path{}, d, guide, 1, 0); !errors.As(err, &e) || e.Kind != Input {
		t.Errorf("no outline: %v", err)
	}
}

// The take-up summed from measured arms is the law's.
func TestMeasuredTakeUp(t *testing.T) {
	p := Profile{peaked(t, 60, 110), Guide{X: 120, Y: -480, Radius: 48, Side: Open}, 1.5}
	out, err := p.Outline(plate())
	if err != nil {
		t.Fatal(err)
	}
	from, to := p.Law.Range()
	sum := integral(func(theta float64) float64 {
		r, err := Measure(out.Root, 4, p.Guide, p.Ratio, theta)
		if err != nil {
			t.Fatal(err)
		}
		return r.Arm * p.Ratio
	}, from, to)
	near(t, "take-up", sum, p.TakeUp(from, to), .01)
}

func TestOutlineHolesAndMarks(t *testing.T) {
	p := Profile{peaked(t, 80, 120), Guide{X: 120, Y: -480, Radius: 48, Side: Open}, 1.5}
	pl := plate()
	pl.Bolts, pl.BoltCircle, pl.BoltHole, pl.Lighten = 4, 50, 9, true
	out, err := p.Outline(pl)
	if err != nil {
		t.Fatal(err)
	}
	verify(t, p, pl, out, 2e-4)
	count := map[string]int{}
	for _, h := range out.Holes {
		count[h.Name]++
	}
	if count["bore"] != 1 || count["bolt"] != 4 || count["anchor"] != 1 || count["lightening"] == 0 {
		t.Errorf("holes %v", count)
	}
	for _, m := range out.Marks {
		if d, _ := out.Root.Distance(m.From); d > 1e-6 || !out.Root.Contains(m.To) {
			t.Errorf("mark %s begins %v off the root", m.Name, d)
		}
		if m.Name == "index" && (m.From.X != 0 || m.From.Y <= 0) {
			t.Errorf("the index is not plumb above the axis: %v", m.From)
		}
	}
	// The rim stands the groove's depth outside the root all round.
	for _, q := range out.Root.Points(.1) {
		d, _ := out.Blank.Distance(q)
		near(t, "groove depth", d, 6, 1e-6)
	}
}

func TestOutlineErrors(t *testing.T) {
	g := Guide{X: 120, Y: -480, Radius: 48, Side: Open}
	good := Profile{peaked(t, 60, 110), g, 1.5}
	change := func(f func(*Plate)) Plate { p := plate(); f(&p); return p }
	tests := []struct {
		name string
		p    Profile
		pl   Plate
		kind Kind
	}{
		{"sharp peak on the shaft", Profile{peaked(t, 40, 120), g, 1}, plate(), Curvature},
		{"too much wrap", Profile{peaked(t, 60, 110), g, 2.6}, plate(), Wrap},
		{"dead wrap", good, change(func(p *Plate) { p.DeadWrap = 200 * deg }), Wrap},
		{"little dead wrap", good, change(func(p *Plate) { p.DeadWrap = 5 * deg }), Input},
		{"no cable", good, change(func(p *Plate) { p.Cable = 0 }), Input},
		{"nan", good, change(func(p *Plate) { p.Bore = math.NaN() }), Input},
		{"least radius", good, change(func(p *Plate) { p.MinRadius = 1 }), Input},
		{"bolts in the bore", good, change(func(p *Plate) { p.Bolts, p.BoltCircle, p.BoltHole = 4, 30, 9 }), Input},
		{"bore", good, change(func(p *Plate) { p.Bore = 110 }), Hub},
		{"bolt circle", good, change(func(p *Plate) { p.Bolts, p.BoltCircle, p.BoltHole = 4, 120, 9 }), Hub},
	}
	for _, tt := range tests {
		var e *Error
		if _, err := tt.p.Outline(tt.pl); !errors.As(err, &e) || e.Kind != tt.kind {
			t.Errorf("%s: %v, want kind %s", tt.name, err, tt.kind)
		}
	}
}

// A spiral that grows too fast for the turning left cannot be closed convexly.
func TestOutlineDoesNotClose(t *testing.T) {
	law := sampled(t, 0, 120*deg, 12, func(a float64) float64 { return 40 * math.Exp(.9*a) })
	p := Profile{law, Guide{X: 900, Radius: 48, Side: Open}, 2.0}
	var e *Error
	if _, err := p.Outline(plate()); !errors.As(err, &e) || e.Kind != Closing {
		t.Errorf("%v, want kind %s", err, Closing)
	}
}

// For random laws: either a typed error, or an outline that measures back.
func TestOutlineProperties(t *testing.T) {
	made, asked := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		asked++
		p := randomProfile(t)
		pl := plate()
		pl.DeadWrap = rapid.Float64Range(45, 120).Draw(t, "dead wrap") * deg
		out, err := p.Outline(pl)
		if err != nil {
			var e *Error
			if !errors.As(err, &e) {
				t.Fatalf("error without a kind: %v", err)
			}
			return
		}
		made++
		verify(t, p, pl, out, 5e-4)
	})
	if made*4 < asked {
		t.Errorf("only %d of %d random laws gave an outline", made, asked)
	}
}

func BenchmarkOutline(b *testing.B) {
	p := Profile{peaked(b, 60, 110), Guide{X: 120, Y: -480, Radius: 48, Side: Open}, 1.5}
	for b.Loop() {
		if _, err := p.Outline(plate()); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkMeasure(b *testing.B) {
	p := Profile{peaked(b, 60, 110), Guide{X: 120, Y: -480, Radius: 48, Side: Open}, 1.5}
	out, err := p.Outline(plate())
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Measure(out.Root, 4, p.Guide, p.Ratio, 1); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleProfile_Outline() {
	const deg = math.Pi / 180
	law, err := NewLaw(5*deg, 130*deg, []float64{62, 78, 93, 104, 109, 107, 100, 90})
	if err != nil {
		fmt.Println(err)
		return
	}
	profile := Profile{
		Law:   law,
		Guide: Guide{X: 120, Y: -480, Radius: 48, Side: Open},
		Ratio: 1.5,
	}
	outline, err := profile.Outline(Plate{Cable: 4, MinRadius: 36, Bore: 25})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, flexion := range []float64{5, 65, 130} {
		r, err := Measure(outline.Root, 4, profile.Guide, profile.Ratio, flexion*deg)
		if err != nil {
			fmt.Println(err)
			return
		}
		want, _, _ := law.At(flexion * deg)
		fmt.Printf("at %3.0f deg: %.1f mm asked, %.1f mm measured\n", flexion, want, r.Arm)
	}
	// Output:
	// at   5 deg: 62.0 mm asked, 62.0 mm measured
	// at  65 deg: 106.6 mm asked, 106.6 mm measured
	// at 130 deg: 90.0 mm asked, 90.0 mm measured
}

// Rounded as a cut file rounds it, 1e-4 mm and 1e-6 of bulge, the outline is
// still valid and measures the same.
func TestMeasureRoundedOutline(t *testing.T) {
	p := Profile{peaked(t, 60, 110), Guide{X: 120, Y: -480, Radius: 48, Side: Open}, 1.5}
	out, err := p.Outline(plate())
	if err != nil {
		t.Fatal(err)
	}
	for i, v := range out.Root.Vertices {
		out.Root.Vertices[i] = contour.Vertex{
			X:     math.Round(v.X*1e4) / 1e4,
			Y:     math.Round(v.Y*1e4) / 1e4,
			Bulge: math.Round(v.Bulge*1e6) / 1e6,
		}
	}
	if err := out.Root.Validate(); err != nil {
		t.Error(err)
	}
	if a, i := out.Root.MaxCorner(); a > 1e-3 {
		t.Errorf("corner of %v at %d", a, i)
	}
	from, to := p.Law.Range()
	for i := range 101 {
		theta := from + (to-from)*float64(i)/100
		r, err := Measure(out.Root, 4, p.Guide, p.Ratio, theta)
		if err != nil {
			t.Fatal(err)
		}
		h, _, _ := p.Law.At(theta)
		near(t, "arm", r.Arm, h, 2e-4*h)
	}
}
