package specs

import (
	"slices"
	"strings"
	"testing"
)

// What a brief leaves to the tool is read as the values themselves are.
func TestOptions(t *testing.T) {
	b, err := ParseBrief("b", Starter("arm-pad"))
	if err != nil {
		t.Fatal(err)
	}
	if list := b.Options(); list != nil {
		t.Errorf("the starter leaves %v to the tool", list)
	}
	b.Choose = Choose{Cable: "7x19-4,7x19-5", SeatPitch: "2 cm, 30 mm", Member: Any}
	if err := b.Validate(); err != nil {
		t.Fatal(err)
	}
	list := b.Options()
	if len(list) != 3 || list[1].Path != "stock.cable" || !slices.Equal(list[1].Values, []string{"7x19-4", "7x19-5"}) ||
		!slices.Equal(list[2].Values, []string{"20 mm", "30 mm"}) {
		t.Errorf("options %+v", list)
	}
	for _, name := range list[0].Values {
		if strings.HasSuffix(name, "in") {
			t.Errorf("%s among millimetre tubes", name)
		}
	}
	for _, c := range []struct {
		choose Choose
		want   string
	}{
		{Choose{Cable: "7x19-4, 7x19-44"}, "choose.cable"},
		{Choose{SeatPitch: "20 mm, 90 mm"}, "90 mm is above 60 mm"},
		{Choose{SeatPitch: "any"}, "choose.seat_pitch"},
		{Choose{SheaveRadius: "40, 48 mm"}, "choose.sheave_radius: 40 has no unit"},
		{Choose{SeatPositions: "8, 8"}, "twice"},
		{Choose{Member: "any", Cable: "any", SeatPositions: "1,2,3,4,5,6,7,8,9,10,11,12,13"}, "combinations"},
	} {
		b.Choose = c.choose
		if err := b.Validate(); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: %v, want %q", c.choose, err, c.want)
		}
	}
}
