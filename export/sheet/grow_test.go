package sheet_test

import (
	"testing"

	"armwright/export/sheet"
)

// A small free view takes the room that is left up to full size, one with a scale of its
// own does not; a view to look at is drawn where there is room, no larger than the rest,
// and left out without a trace where there is none.
func TestViewsTakeWhatRoomIsLeft(t *testing.T) {
	half, fifth := sheet.Scale{Drawing: 1, Real: 2}, sheet.Scale{Drawing: 1, Real: 5}
	for _, c := range []struct {
		what  string
		views []sheet.View
		want  []sheet.Scale // of those drawn
	}{
		{"a small one grows", []sheet.View{
			{Title: "main", Position: sheet.Front, Entities: []sheet.Entity{box(400, 300)}},
			{Title: "bar", Entities: []sheet.Entity{box(150, 20)}},
			{Title: "fixed", Scale: fifth, Entities: []sheet.Entity{box(100, 20)}},
		}, []sheet.Scale{half, {Drawing: 1, Real: 1}, fifth}},
		{"a spare one is no larger than the rest", []sheet.View{
			{Title: "main", Position: sheet.Front, Scale: half, Entities: []sheet.Entity{box(200, 200)}},
			{Title: "as it looks", Spare: true, Entities: []sheet.Entity{box(120, 120)}},
		}, []sheet.Scale{half, half}},
		{"a spare one gives way", []sheet.View{
			{Title: "main", Position: sheet.Front, Scale: sheet.Scale{Drawing: 1, Real: 1}, Entities: []sheet.Entity{box(350, 150)}},
			{Title: "as it looks", Spare: true, Entities: []sheet.Entity{box(220, 220)}},
		}, []sheet.Scale{{Drawing: 1, Real: 1}}},
	} {
		d, err := (&sheet.Sheet{Size: sheet.A3, Views: c.views}).Flatten()
		if err != nil {
			t.Fatalf("%s: %v", c.what, err)
		}
		if len(d.Views) != len(c.want) {
			t.Errorf("%s: %d views are drawn, want %d", c.what, len(d.Views), len(c.want))
			continue
		}
		for i, v := range d.Views {
			if v.Scale != c.want[i] {
				t.Errorf("%s: %q at %v, want %v", c.what, v.Title, v.Scale, c.want[i])
			}
		}
	}
}
