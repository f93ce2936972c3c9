package tolerance

import (
	"context"
	"math"
	"math/rand/v2"
	"reflect"
	"runtime"
	"slices"
	"testing"

	"armwright/geometry/cam"
	"armwright/geometry/contour"
	"armwright/solver/judge"
	"armwright/specs"
	"armwright/testdata"
)

var classes = Classes{Machined: "m", Welded: "B"}

func frame(t testing.TB, name string) (*judge.Judge, *specs.Frame) {
	t.Helper()
	f, err := specs.ParseFrame(name, testdata.Frame(name))
	if err != nil {
		t.Fatal(err)
	}
	j, err := judge.New(&f.Asked)
	if err != nil {
		t.Fatal(err)
	}
	return j, &f
}

func model(t testing.TB, name string) (*Model, *judge.Judge, *specs.Frame) {
	t.Helper()
	j, f := frame(t, name)
	m, err := NewModel(j, f, classes)
	if err != nil {
		t.Fatal(err)
	}
	return m, j, f
}

func run(t testing.TB, m *Model, o Options) *Result {
	t.Helper()
	r, err := m.Run(context.Background(), o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func (r *Result) of(t testing.TB, id string) Spread {
	t.Helper()
	for _, s := range r.Spreads {
		if s.ID == id {
			return s
		}
	}
	t.Fatalf("%s does not spread", id)
	return Spread{}
}

// A perfect build is the design: what judging it gives, without spread.
func TestPerfectBuildHasNoSpread(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "reclined-levers"} {
		m, j, f := model(t, name)
		r := run(t, m, Options{Builds: 500, Seed: 1})
		if len(r.Spreads) != 0 || r.Met != 1 {
			t.Errorf("%s: %d requirements spread, share met %g", name, len(r.Spreads), r.Met)
		}
		list, err := j.Margins(&f.Geometry)
		if err != nil {
			t.Fatal(err)
		}
		s := m.scratch(m.active(make([]float64, len(m.Dimensions))))
		m.build(s)
		for _, q := range list {
			for k := range m.Kinds {
				if m.Kinds[k].ID == q.ID && math.Abs(s.least[k]-q.Margin) > 1e-9*q.Scale {
					t.Errorf("%s: %s: margin %g, judged %g", name, q.ID, s.least[k], q.Margin)
				}
			}
		}
	}
}

// The sensitivities of the margins are what judging the geometry a little off,
// with everybody's settings chosen anew, gives over the same step. Where another row
// takes over near the nominal the two sides differ, and there is nothing to compare.
func TestSlopesAgreeWithFiniteDifferences(t *testing.T) {
	testdata.Long(t)
	for _, name := range []string{"arm-pad-station", "reclined-levers"} {
		m, j, f := model(t, name)
		compared := 0
		for d := range m.Dimensions {
			dim := &m.Dimensions[d]
			if dim.at == nil {
				continue
			}
			value := func(by float64) map[string]float64 {
				g := judge.Clone(&f.Geometry)
				for _, p := range dim.at(g) {
					*p += by
				}
				list, err := j.Margins(g)
				if err != nil {
					t.Fatal(err)
				}
				out := map[string]float64{}
				for _, q := range list {
					out[q.ID] = q.Margin
				}
				return out
			}
			delta, wide := 0.003*dim.Tolerance, step*dim.Tolerance
			low, mid, high := value(-delta), value(0), value(delta)
			lower, higher := value(-wide), value(wide)
			for k, kind := range m.Kinds {
				if math.IsNaN(m.nominal[k]) || kind.ID == "fleet-angle" { // of the drive, held
					continue
				}
				if of := kind.ID == "member-stress" || kind.ID == "member-deflection" || kind.ID == "bearing-static"; of && dim.Unit == Kilogram {
					continue // by the torque that a weight leaves to the load, of the drive too
				}
				scale := kind.Scale / dim.Tolerance // one unit that matters at the whole tolerance
				before, after := (mid[kind.ID]-low[kind.ID])/delta, (high[kind.ID]-mid[kind.ID])/delta
				got := m.Slopes(k)[d]
				bend := (higher[kind.ID] + lower[kind.ID] - 2*mid[kind.ID]) / wide
				if math.Abs(before-after) > 0.01*scale || math.Abs(bend) > 0.02*scale {
					continue
				}
				compared++
				if want := (higher[kind.ID] - lower[kind.ID]) / (2 * wide); math.Abs(got-want) > 0.01*scale+0.01*math.Abs(want) {
					t.Errorf("%s: %s by %s: %g, by differences %g", name, kind.ID, dim.Name, got, want)
				}
			}
		}
		if compared < 300 {
			t.Errorf("%s: only %d compared", name, compared)
		}
	}
}

// The cam's influences are what measuring its outline gives, that outline or
// its guide being moved: lines and arcs against the formula.
func TestCamSlopesAgreeWithMeasuredOutlines(t *testing.T) {
	j, f := frame(t, "arm-pad-station")
	whole, err := j.Frame(f.Name, f.Geometry)
	if err != nil {
		t.Fatal(err)
	}
	r := &whole.Resistance
	p, o := r.Profile, r.Outline
	const delta = 0.05 // mm; an outline's arcs are within 0.01 mm of the curve
	moved := func(x, y float64) contour.Path {
		path := contour.Path{Closed: o.Root.Closed, Vertices: slices.Clone(o.Root.Vertices)}
		for i := range path.Vertices {
			path.Vertices[i].X += x
			path.Vertices[i].Y += y
		}
		return path
	}
	arm := func(path contour.Path, cable float64, g cam.Guide, theta float64) float64 {
		v, err := cam.Measure(path, cable, g, p.Ratio, theta)
		if err != nil {
			t.Fatal(err)
		}
		return v.Arm
	}
	cable := r.Cable.Diameter
	for _, c := range []struct {
		name string
		e    camError
		at   func(by, theta float64) float64
	}{
		{"turned", turned, func(by, theta float64) float64 { return arm(o.Root, cable, p.Guide, theta+by/100/p.Ratio) * 100 }},
		{"grown", grown, func(by, theta float64) float64 { return arm(o.Root, cable+2*by, p.Guide, theta) }},
		{"forward", offForward, func(by, theta float64) float64 { return arm(moved(by, 0), cable, p.Guide, theta) }},
		{"up", offUp, func(by, theta float64) float64 { return arm(moved(0, by), cable, p.Guide, theta) }},
		{"guide forward", guideForward, func(by, theta float64) float64 {
			g := p.Guide
			g.X += by
			return arm(o.Root, cable, g, theta)
		}},
		{"guide up", guideUp, func(by, theta float64) float64 {
			g := p.Guide
			g.Y += by
			return arm(o.Root, cable, g, theta)
		}},
		{"guide radius", guideGrown, func(by, theta float64) float64 {
			g := p.Guide
			g.Radius += by
			return arm(o.Root, cable, g, theta)
		}},
	} {
		most := 0.0
		for _, theta := range r.Angles[1 : len(r.Angles)-1] {
			s, err := p.At(theta)
			if err != nil {
				t.Fatal(err)
			}
			want := (c.at(delta, theta) - c.at(-delta, theta)) / (2 * delta)
			got := armChange(c.e, p, s)
			scale := 1.0
			if c.e == turned {
				scale = 100 // mm/rad
			}
			most = math.Max(most, math.Abs(got-want)/scale)
			if math.Abs(got-want) > 0.02*scale {
				t.Errorf("%s at %.0f deg: %.4f, measured %.4f", c.name, theta*180/math.Pi, got, want)
			}
		}
		t.Logf("%s: within %.4f", c.name, most)
	}
}

// Builds by the model are those of judging every build in full, both arms
// alike, within half a unit that matters where it counts. Where the hip comes to
// lie bends too much for the whole tolerances: of a trunk of 600 mm that leans by 8
// degrees, 6 mm of height are all that there is to upright, and each moves the hip
// by cot 8° = 7 mm; and a need of the parts is the least of several rooms. Those are
// compared at a third of them.
func TestModelAgreesWithFullBuilds(t *testing.T) {
	for _, c := range []struct {
		name  string
		share float64 // of the tolerances
	}{{"arm-pad-station", 1}, {"arm-pad-station", 1. / 3}, {"reclined-levers", 1}} {
		name := c.name
		m, j, f := model(t, name)
		h, err := j.Hold(&f.Geometry)
		if err != nil {
			t.Fatal(err)
		}
		tolerances := m.tolerances(&Options{Times: c.share})
		r := rand.New(rand.NewPCG(3, 4))
		s := m.scratch(m.active(tolerances))
		var sum float64
		n := 0
		for range 40 {
			m.errors(r, tolerances, s)
			copy(s.arms[1], s.arms[0])
			full := m.full(h, f, s)
			m.build(s)
			for k, kind := range m.Kinds {
				if math.IsNaN(m.nominal[k]) || k == m.match || math.IsInf(full[k], 1) {
					continue
				}
				if bends := kind.ID == "hip-on-seat" || kind.ID == "body-frame" || kind.ID == "frame-clear"; bends && c.share == 1 && f.Geometry.Back == nil {
					continue
				}
				e := (s.least[k] - full[k]) / kind.Scale
				sum += e * e
				n++
				// What a row is a minimum of may change within it, far from its limit.
				near, far := 0.5, 1.5
				switch kind.ID {
				case "handle-reach":
					// From the radius that minimises a largest error: it bends where another
					// angle has that error, by up to two units over whole tolerances.
					near, far = 1.25, 1.5
					if c.share == 1 {
						near, far = 2, 2
					}
				case "hand-path":
					// The least circle about the hand's path bends likewise.
					near = 1
				}
				if math.Abs(e) > near && full[k] < 3*kind.Scale || math.Abs(e) > far {
					t.Errorf("%s: %s: margin %g by the model, %g in full", name, kind.ID, s.least[k], full[k])
				}
			}
		}
		if rms := math.Sqrt(sum / float64(n)); rms > 0.12 {
			t.Errorf("%s: differs by %g units that matter, rms", name, rms)
		} else {
			t.Logf("%s: differs by %.4f units that matter, rms of %d", name, rms, n)
		}
	}
}

// full is the least margin by kind of a build with both arms alike, judged in full.
func (m *Model) full(h *judge.Held, f *specs.Frame, s *scratch) []float64 {
	g := judge.Clone(&f.Geometry)
	for d := range m.Dimensions {
		if m.Dimensions[d].at == nil {
			continue
		}
		for _, p := range m.Dimensions[d].at(g) {
			*p += s.arms[0][d]
		}
	}
	list := make([]float64, len(m.Kinds))
	for k := range list {
		list[k] = math.Inf(1)
	}
	for i, v := range h.Margins(nil, g) {
		list[m.rows[i].Kind] = math.Min(list[m.rows[i].Kind], v)
	}
	return list
}

// By hand: the footprint's length is the distance of front and rear feet and no
// more, so its margin spreads by the root of the sum of their squares. By
// ISO 13920-B a foot 400 to 1000 mm from the pivots is within 3 mm, one up to
// 400 within 2.
func TestSpreadByHand(t *testing.T) {
	m, _, f := model(t, "arm-pad-station")
	by := func(x float64) float64 {
		switch x = math.Abs(x); {
		case x <= 400:
			return 2
		case x <= 1000:
			return 3
		}
		return 4
	}
	front, rear := by(f.Geometry.Base.Front), by(f.Geometry.Base.Rear)
	want := math.Hypot(front, rear) / 3 * 0.98658
	s := run(t, m, Options{Builds: 20000, Seed: 2, Times: 1}).of(t, "footprint-length")
	if math.Abs(s.Deviation/want-1) > 0.02 { // four standard errors of a deviation from 20 000
		t.Errorf("deviation %g mm, want %g", s.Deviation, want)
	}
	if len(s.Causes) != 2 || math.Abs(s.Causes[0].Share-math.Max(front, rear)*math.Max(front, rear)/(front*front+rear*rear)) > 1e-6 {
		t.Errorf("causes %+v", s.Causes)
	}
	if got, want := s.Middle, s.Nominal; math.Abs(got-want) > 0.05 {
		t.Errorf("middle %g, nominal %g", got, want)
	}
}

// truncated is the deviation of the normal cut at three, by integration.
func TestTruncatedDeviation(t *testing.T) {
	var mass, second float64
	const n = 100000
	for i := range n {
		z := -3 + 6*(float64(i)+0.5)/n
		p := math.Exp(-z * z / 2)
		mass, second = mass+p, second+z*z*p
	}
	if want := math.Sqrt(second / mass); math.Abs(truncated-want) > 1e-5 {
		t.Errorf("%g, by integration %g", truncated, want)
	}
}

// Held as told, a station keeps every requirement within what it may use up.
func TestHoldingKeepsTheDesign(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "reclined-levers"} {
		m, _, _ := model(t, name)
		hold := map[int]float64{}
		for _, h := range m.Holds() {
			if own := m.Dimensions[h.Dimension].Tolerance; h.To > own || h.General != (h.To == own) || h.To <= 0 {
				t.Errorf("%s: %s: hold %g of %g", name, m.Dimensions[h.Dimension].Name, h.To, own)
			}
			hold[h.Dimension] = h.To
		}
		r := run(t, m, Options{Builds: 4000, Seed: 5, Times: 1, Hold: hold})
		loose := run(t, m, Options{Builds: 4000, Seed: 5, Times: 1})
		if r.Near < 0.97 || r.Near < loose.Near {
			t.Errorf("%s: %.1f %% of builds stay near the design, %.1f %% without", name, 100*r.Near, 100*loose.Near)
		}
		t.Logf("%s: near %.3f, without %.3f; met %.3f, %.3f", name, r.Near, loose.Near, r.Met, loose.Met)
	}
}

func TestRounded(t *testing.T) {
	d, a := Dimension{}, Dimension{Unit: Radian}
	for v, want := range map[float64]float64{0.99: 0.8, 1: 1, 1.6: 1.5, 0.031: 0.03, 7: 5, 80: 80, 0.0149: 0.01} {
		if got := d.rounded(v); math.Abs(got-want) > 1e-12 {
			t.Errorf("%g: %g, want %g", v, got, want)
		}
		if got := a.rounded(v * math.Pi / 180); math.Abs(got*180/math.Pi-want) > 1e-12 {
			t.Errorf("%g deg: %g, want %g", v, got*180/math.Pi, want)
		}
	}
}

// The builds do not depend on how many work on them, but on the seed.
func TestSameSeedSameBuilds(t *testing.T) {
	m, _, _ := model(t, "reclined-levers")
	o := Options{Builds: 1000, Seed: 9, Times: 1}
	many := run(t, m, o)
	before := runtime.GOMAXPROCS(1)
	one := run(t, m, o)
	runtime.GOMAXPROCS(before)
	if !reflect.DeepEqual(many.Spreads, one.Spreads) || many.Met != one.Met {
		t.Error("one core gives other builds")
	}
	o.Seed = 10
	if other := run(t, m, o); reflect.DeepEqual(many.Spreads, other.Spreads) {
		t.Error("the seed changes nothing")
	}
}

func TestStops(t *testing.T) {
	m, _, _ := model(t, "reclined-levers")
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := m.Run(ctx, Options{Builds: MostBuilds, Seed: 1, Times: 1}); err == nil {
		t.Error("did not stop")
	}
}

func BenchmarkModel(b *testing.B) {
	j, f := frame(b, "arm-pad-station")
	for b.Loop() {
		if _, err := NewModel(j, f, classes); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkBuilds(b *testing.B) {
	m, _, _ := model(b, "arm-pad-station")
	for _, n := range []int{1000, 10000} {
		b.Run(map[int]string{1000: "1000", 10000: "10000"}[n], func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				run(b, m, Options{Builds: n, Seed: 1, Times: 1})
			}
		})
	}
}
