package specs

import (
	"bytes"
	"errors"
	"strings"
	"testing"
)

// A variant prints what the writer prints of the same values set one by one.
func TestVariantPrintsAsTheWriter(t *testing.T) {
	base := frameExample(t)
	paths := []string{"limits.hand_path", "posture.lean.to", "geometry.pivots.axes[1].toe", "geometry.cam.moment_arm[2]", "people.sample",
		"stock.member", "geometry.pivots.axes[1].cant", "posture.lean.from", "geometry.pad.slope"}
	v, err := Vary(base, paths...)
	if err != nil {
		t.Fatal(err)
	}
	for _, texts := range [][]string{
		{"12 mm", "10 deg", "16 deg", "91.5 mm", "200", "50x50x3", "-2.5 deg", "1 deg", "40 deg"},
		{"1/2 in", "0.25 rad", "1 deg", "9 cm", "1000", "2x2x0.125in", "0 deg", "0 deg", "41.0000004 deg"},
	} {
		if err := v.Set(texts); err != nil {
			t.Fatal(err)
		}
		var want bytes.Buffer
		if err := WriteFrame(&want, *v.Value()); err != nil {
			t.Fatal(err)
		}
		if got := v.AppendText(nil); !bytes.Equal(got, want.Bytes()) {
			t.Errorf("%v: prints\n%s\nwant\n%s", texts, got, want.Bytes())
		}
		back, err := ParseFrame("f.yaml", v.AppendText(nil))
		if err != nil {
			t.Fatal(err)
		}
		if len(v.Places()) != len(paths) || back.Limits != v.Value().Limits || back.Geometry.Pivots.Axes[1] != v.Value().Geometry.Pivots.Axes[1] {
			t.Errorf("%v: reads back as %+v", texts, back)
		}
	}
	if base.Geometry.Cam.Law[2] != 90 || base.Geometry.Pad.Slope == v.Value().Geometry.Pad.Slope {
		t.Error("the base changed, or the variant did not")
	}
}

func TestVaryRefuses(t *testing.T) {
	f := frameExample(t)
	for _, c := range []struct{ path, want string }{
		{"geometry.back.angle", "geometry.back: there is none here"},
		{"geometry.pivots.axes", "geometry.pivots.axes: holds a list\n  hint: name an item, geometry.pivots.axes[0] the first"},
		{"geometry.pivots.axes[2].toe", "geometry.pivots.axes: no item [2]\n  hint: items are [0] to [1]"},
		{"geometry.pivots.axes[-1].toe", "geometry.pivots.axes: no item [-1]\n  hint: items are [0] to [1]"},
		{"geometry.pad[0].slope", "geometry.pad: holds no list\n  hint: leave out the brackets"},
		{"posture.lean.middle", "unknown key \"middle\" in posture.lean\n  hint: keys here: from, to"},
		{"posture.lean.to.x", "posture.lean: holds a value, not keys"},
	} {
		if _, err := Vary(f, c.path); err == nil || err.Error() != c.want {
			t.Errorf("%s: %v, want %s", c.path, err, c.want)
		}
	}
	if _, err := Vary(f, "people.sample", "people.sample"); err == nil || !strings.HasPrefix(err.Error(), "people.sample: named twice") {
		t.Errorf("twice: %v", err)
	}
}

func TestPlaceChecksAsTheReader(t *testing.T) {
	b, err := ParseBrief("b.yaml", []byte(least))
	if err != nil {
		t.Fatal(err)
	}
	v, err := Vary(b, "limits.hand_path", "people.sample", "stock.cable", "posture.lean", "resistance.load.light")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		at         int
		text, want string
	}{
		{0, "12 mm", ""},
		{0, "12", "limits.hand_path: 12 has no unit\n  hint: write 12 mm or 12 in"},
		{0, "0.5 mm", "limits.hand_path: 0.5 mm is below 1 mm\n  hint: 1 mm to 100 mm are allowed"},
		{1, "99", "people.sample: 99 is below 100\n  hint: 100 to 100000 are allowed"},
		{2, "7x19-4", ""},
		{3, "20 deg..10 deg", "posture.lean: the range 20 deg..10 deg runs backwards\n  hint: write 10 deg..20 deg"},
	} {
		got := ""
		if err := v.Places()[c.at].Check(c.text); err != nil {
			got = err.Error()
		}
		if got != c.want {
			t.Errorf("%q: %q, want %q", c.text, got, c.want)
		}
	}
	for i, want := range []bool{true, true, false, false, true} {
		if got := v.Places()[i].Numeric(); got != want {
			t.Errorf("%s: numeric %v", v.Places()[i].Path(), got)
		}
	}
	if x, err := v.Places()[0].Number("1 in"); x != 25.4 || err != nil {
		t.Errorf("1 in is %g, %v", x, err)
	}
	var p *Problems
	if err := v.Set([]string{"12 mm", "200", "7x19-4", "0 deg..10 deg", "300 kg"}); !errors.As(err, &p) || p.List[0].Path != "resistance.load.light" {
		t.Errorf("a light load above the middle one: %v", err)
	}
}

func BenchmarkVariant(b *testing.B) {
	v, err := Vary(frameExample(b), "limits.hand_path", "posture.lean.to", "geometry.pivots.height")
	if err != nil {
		b.Fatal(err)
	}
	var text []byte
	for b.Loop() {
		if err := v.Set([]string{"12 mm", "15 deg", "810 mm"}); err != nil {
			b.Fatal(err)
		}
		text = v.AppendText(text[:0])
	}
}
