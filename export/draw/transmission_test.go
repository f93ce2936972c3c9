package draw

import (
	"slices"
	"testing"

	"armwright/export/sheet"
	"armwright/export/stationtest"
	"armwright/testdata"
)

// The cam's sheet tells the wheels and the belt or chain that the frame has,
// not some that would give the same ratio; with none in the frame it tells none.
func TestCamSheetTellsTheFramesWheels(t *testing.T) {
	for _, c := range testdata.Few(1, []struct {
		region       string
		transmission string
		arm, driven  int
		drive, teeth string
	}{
		{"iso", "chain", 21, 14, "roller chain 08B", "21 to 14, 42 pitches"},
		{"us", "chain", 21, 14, "roller chain 40, ASME B29.1", "21 to 14, 42 pitches"},
		{"us", "belt", 48, 32, "toothed belt 8M", "48 to 32, 42 pitches"},
		{"iso", "belt", 48, 32, "toothed belt 8M", "48 to 32, 42 pitches"},
		{"iso", "belt", 0, 0, "", ""},
	}...) {
		r := *stationtest.Result(t, "arm-pad-station")
		cam := *r.Frame.Geometry.Cam
		cam.ArmTeeth, cam.DrivenTeeth, cam.Pitches = c.arm, c.driven, 42
		r.Frame.Geometry.Cam, r.Frame.Stock.Transmission, r.Frame.Region = &cam, c.transmission, c.region
		set, err := sheets(&r, holds(t, &r))
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(set, func(n named) bool { return n.slug == "cam" })
		d, err := set[i].sheet.Flatten()
		if err != nil {
			t.Fatal(err)
		}
		var words []string
		for _, x := range d.Primitives {
			if l, ok := x.(sheet.Label); ok {
				words = append(words, l.Value)
			}
		}
		for _, want := range []string{c.drive, c.teeth} {
			if want != "" && !slices.Contains(words, want) {
				t.Errorf("%s %d:%d: the sheet does not say %q", c.transmission, c.arm, c.driven, want)
			}
		}
		if told := slices.Contains(words, "Teeth, arm to cam"); told != (c.arm > 0) {
			t.Errorf("%d teeth in the frame, wheels told: %v", c.arm, told)
		}
	}
}
