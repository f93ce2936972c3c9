package specs

import (
	"bytes"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unicode"

	"armwright/specs/aims"

	"pgregory.net/rapid"
)

// frameExample is a small frame of an arm-pad station with a cam.
func frameExample(t testing.TB) Frame {
	b, err := ParseBrief("b.yaml", []byte(least))
	if err != nil {
		t.Fatal(err)
	}
	const deg = math.Pi / 180
	f := Frame{Format: FrameFormat, Name: b.Name, Asked: b.Asked}
	f.Geometry = Geometry{
		Pivots: Pivots{Height: 812.34567, Spacing: 441.2, Axes: []Axis{{12 * deg, 3 * deg}, {17 * deg, 4.5 * deg}}},
		Pad:    &Pad{Slope: 42 * deg, Offset: 48, Near: 35, Far: 260, Width: 140},
		Seat:   &Seat{Lowest: 380, Pitch: 20, Positions: 11, Front: -120, Depth: 380, Width: 360},
		Handle: Handle{Least: 280, Pitch: 10, Positions: 9, Middle: 12.5, GripLength: 120, Diameter: 32, ArmMass: 6.2, ArmCentre: 150},
		Cam: &Cam{Ratio: 1.5, CentreX: -200, CentreY: -300, GuideX: -250, GuideY: 40, GuideR: 48, Side: "open",
			ArmTeeth: 36, DrivenTeeth: 24, Pitches: 120, Law: []float64{60, 75.00004, 90, 84, 70}},
		Base: &Base{Rear: -400, Front: 700, Width: 800, PadPost: 60, SeatPost: -200, Tower: 600, TowerTall: 1200},
	}
	return f
}

func frameText(t testing.TB) []byte {
	var b bytes.Buffer
	if err := WriteFrame(&b, frameExample(t)); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestWriteFrameGolden(t *testing.T) { golden(t, "frame.yaml", frameText(t)) }

func TestWriteFrameRefuses(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*Frame)
		want   string
	}{
		{"not finite", func(f *Frame) { f.Geometry.Pivots.Height = math.NaN() }, "geometry.pivots.height: the value is not finite\n  hint: 100 mm to 2000 mm are allowed"},
		{"out of range", func(f *Frame) { f.Geometry.Seat.Depth = 100 }, "geometry.seat.depth: 100 mm is below 150 mm\n  hint: 150 mm to 800 mm are allowed"},
		{"no cam", func(f *Frame) { f.Geometry.Cam = nil }, "geometry.cam: missing\n  hint: resistance.drive is cam"},
		{"no seat", func(f *Frame) { f.Geometry.Seat = nil }, "geometry.seat: missing\n  hint: the user sits"},
		{"short law", func(f *Frame) { f.Geometry.Cam.Law = f.Geometry.Cam.Law[:3] }, "geometry.cam.moment_arm: 3 items; 4 to 1000 are allowed\n  hint: cable moment arm at equal steps of flexion over the loaded range"},
		{"pad upside down", func(f *Frame) { f.Geometry.Pad.Near = 270 }, "geometry.pad.near: 270 mm is not below far, 260 mm\n  hint: near < far, both from the pivot along the pad"},
		{"no base", func(f *Frame) { f.Geometry.Base = nil }, "geometry.base: missing\n  hint: a station stands on its base"},
		{"no format", func(f *Frame) { f.Format = "" }, "armwright: \"\" is not a known value\n  hint: allowed: frame/1"},
	} {
		f := frameExample(t)
		c.change(&f)
		var b bytes.Buffer
		if err := WriteFrame(&b, f); err == nil || strings.TrimSpace(err.Error()) != c.want {
			t.Errorf("%s: got\n%v\nwant\n%s", c.name, err, c.want)
		}
		if b.Len() > 0 {
			t.Errorf("%s: %d bytes were written", c.name, b.Len())
		}
	}
}

// A value just beyond a bound by less than the last digit kept is the bound.
func TestWriteFrameAtBound(t *testing.T) {
	f := frameExample(t)
	f.Geometry.Pivots.Height = 2000.00001
	if err := WriteFrame(new(bytes.Buffer), f); err != nil {
		t.Error(err)
	}
}

// Any frame within its tags survives writing and reading to the last bit
// once quantised, and quantising is idempotent.
func TestFrameRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var f Frame
		draw(t, reflect.ValueOf(&f).Elem(), "")
		related(&f.Asked)
		g := &f.Geometry
		ensure(&g.Pad, Pad{Offset: 50, Far: 200, Width: 100})
		ensure(&g.Seat, Seat{Lowest: 400, Pitch: 20, Positions: 3, Depth: 300, Width: 300})
		ensure(&g.Back, Back{Length: 700})
		ensure(&g.Base, Base{Width: 500})
		ensure(&g.Cam, Cam{Ratio: 1, GuideR: 48, Side: "open", Law: []float64{30, 40, 50, 60}})
		if c := g.Cam; c.ArmTeeth < fewestTeeth || c.DrivenTeeth < fewestTeeth || c.Pitches == 0 {
			c.ArmTeeth, c.DrivenTeeth, c.Pitches = 0, 0, 0
		} else if math.Hypot(c.CentreX, c.CentreY) < 900 { // more than any two wheels need
			c.CentreX, c.CentreY = 900, 100
		}
		if g.Counterweight != nil && g.Counterweight.Mass < 0.01 {
			g.Counterweight.Mass = 1
		}
		if g.Eccentric != nil && g.Eccentric.Mass < 0.01 {
			g.Eccentric.Mass = 1
		}
		ensure(&g.Lever, Lever{Radius: 300})
		ensure(&g.Linkage, Linkage{Ground: 200, Input: 100, Coupler: 200, Output: 200, Assembly: "open", Radius: 300})
		if g.Pad.Near >= g.Pad.Far {
			g.Pad.Near, g.Pad.Far = 10, 200
		}

		q := f.Quantised()
		if again := q.Quantised(); !reflect.DeepEqual(again, q) {
			t.Fatalf("quantised twice:\n%+v\n%+v", q, again)
		}
		var b, c bytes.Buffer
		if err := WriteFrame(&b, f); err != nil {
			t.Fatal(err)
		}
		back, err := ParseFrame("f.yaml", b.Bytes())
		if err != nil {
			t.Fatalf("%v\n%s", err, b.Bytes())
		}
		if !reflect.DeepEqual(back, q) {
			t.Fatalf("read back\n%+v\nwant\n%+v", back, q)
		}
		if err := WriteFrame(&c, back); err != nil || !bytes.Equal(b.Bytes(), c.Bytes()) {
			t.Fatalf("written again (%v):\n%s\nwas\n%s", err, c.Bytes(), b.Bytes())
		}
	})
}

func TestBriefRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var f Brief
		draw(t, reflect.ValueOf(&f).Elem(), "")
		related(&f.Asked)
		var b bytes.Buffer
		if err := WriteBrief(&b, f); err != nil {
			t.Fatal(err)
		}
		back, err := ParseBrief("b.yaml", b.Bytes())
		if err != nil {
			t.Fatalf("%v\n%s", err, b.Bytes())
		}
		if back != f.Quantised() {
			t.Fatalf("read back\n%+v\nwant\n%+v", back, f.Quantised())
		}
	})
}

// A quantised frame shares nothing with the frame it was made from.
func TestQuantisedCopies(t *testing.T) {
	f := frameExample(t)
	q := f.Quantised()
	q.Geometry.Pad.Width = 1
	q.Geometry.Cam.Law[0] = 1
	q.Geometry.Pivots.Axes[0].Toe = 1
	if !reflect.DeepEqual(f, frameExample(t)) {
		t.Error("changing the quantised frame changed the other")
	}
}

func ensure[T any](p **T, value T) {
	if *p == nil {
		*p = &value
	}
}

// related makes the drawn values obey the rules between them.
func related(a *Asked) {
	loads := []float64{a.Resistance.Load.Light, a.Resistance.Load.Middle, a.Resistance.Load.Heavy}
	slices.Sort(loads)
	if loads[1]-loads[0] < 0.1 || loads[2]-loads[1] < 0.1 {
		loads = []float64{10, 40, 80}
	}
	a.Resistance.Load = Loads{loads[0], loads[1], loads[2]}
	if a.Resistance.Loaded.To-a.Resistance.Loaded.From < 1e-3 {
		a.Resistance.Loaded = Range{0, 2}
	}
	if r := &a.Resistance; r.Curve == CurveTable {
		// A file's step is more than the table's own tolerance at its ends.
		r.Loaded.From = math.Round(r.Loaded.From*1e3) / 1e3
		if _, err := r.StrengthCurve(); err != nil { // within both tables
			r.Loaded = Range{0.2, 1.5}
		}
	}
	if a.Resistance.LeastArm > a.Resistance.GreatestArm-1 {
		a.Resistance.LeastArm, a.Resistance.GreatestArm = 10, 100
	}
	if a.Resistance.Drive == "linkage" {
		a.Resistance.Counter = "none"
	}
	if a.Kind == "cam-study" && a.Resistance.Drive == "lever" {
		a.Resistance.Drive = "cam"
	}
}

// draw fills a tagged struct with values that its tags allow.
func draw(t *rapid.T, v reflect.Value, path string) {
	for _, f := range fieldsOf(v.Type()) {
		drawField(t, f, v.FieldByIndex(f.index), join(path, f.key))
	}
}

func drawField(t *rapid.T, f field, v reflect.Value, path string) {
	number := func(label string) float64 {
		return rapid.Float64Range(f.bound(f.min), f.bound(f.max)).Draw(t, label)
	}
	_, section := f.section()
	switch {
	case section && v.Kind() == reflect.Pointer:
		if rapid.Bool().Draw(t, path) {
			v.Set(reflect.New(v.Type().Elem()))
			draw(t, v.Elem(), path)
		}
	case section:
		draw(t, v, path)
	case f.isList():
		n := rapid.IntRange(f.least, min(f.most, f.least+6)).Draw(t, path)
		v.Set(reflect.MakeSlice(v.Type(), n, n))
		for i := range n {
			drawField(t, f.item(), v.Index(i), child(path, i))
		}
	case f.isRange():
		a, b := number(path+".from"), number(path+".to")
		v.Set(reflect.ValueOf(Range{min(a, b), max(a, b)}))
	case v.Kind() == reflect.Float64:
		v.SetFloat(number(path))
	case v.Kind() == reflect.Int:
		v.SetInt(int64(rapid.IntRange(int(f.bound(f.min)), int(f.bound(f.max))).Draw(t, path)))
	case len(f.choice) > 0:
		v.SetString(rapid.SampledFrom(f.choice).Draw(t, path))
	case f.names != "":
		v.SetString(rapid.SampledFrom(KnownNames().list(f.names)).Draw(t, path))
	case f.form == "population": // nor this
		v.SetString("women stature 1580 mm 60 mm; women mass 62 kg 12 kg, stature 0.35; men stature 1700 mm 65 mm; men mass 72 kg 13 kg")
	case f.form == "curve": // never empty, as the curve may be the table
		v.SetString(rapid.SampledFrom([]string{"5 deg 40, 30 deg 46, 60 deg 52, 105 deg 43", "0 rad 1, 0.5 rad 2, 1 rad 2.5, 2 rad 2"}).Draw(t, path))
	case f.form == "values":
		some := map[string][]string{
			"member": {"", "any", "40x40x3, 60x60x3"}, "cable": {"", "7x19-4"}, "sheave_radius": {"", "40 mm, 2 in"},
			"seat_positions": {"", "8,12"}, "seat_pitch": {"", "20 mm, 25 mm"}, "handle_pitch": {"", "10 mm"},
		}
		v.SetString(rapid.SampledFrom(some[f.key]).Draw(t, path))
	case f.form == "prices":
		v.SetString(rapid.SampledFrom([]string{"", "tube 60x60x3 42.50; ISO 4017 M8 x 25 0.12"}).Draw(t, path))
	case f.form == "aims":
		v.SetString(rapid.SampledFrom([]string{aims.Default, "mass", "2 length, 0.5 area"}).Draw(t, path))
	case f.form == "date":
		v.SetString(rapid.SampledFrom([]string{"", "2024-02-29"}).Draw(t, path))
	default:
		printing := rapid.RuneFrom(nil, &unicode.RangeTable{R16: []unicode.Range16{{' ', '~', 1}}}).Filter(unicode.IsPrint)
		v.SetString("a" + rapid.StringOfN(printing, 0, f.most-1, -1).Draw(t, path))
	}
}
