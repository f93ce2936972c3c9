package draw

import (
	"testing"

	"armwright/export/sheet"
	"armwright/export/stationtest"
	"armwright/geometry/solid"
)

// The screws of the cam's hub are drawn in its section, and their ends pass its boss: a
// tap that ran into its shoulder would break.
func TestHubScrews(t *testing.T) {
	r := stationtest.Result(t, "arm-pad-station")
	set := plain(t, "arm-pad-station")
	d := &drafter{machine: newMachine(r), units: sheet.Millimetres, ballooned: map[string]bool{}}
	for i := range set {
		if set[i].slug == "cam" {
			for _, v := range set[i].sheet.Views {
				for _, e := range v.Entities {
					if h, ok := e.(sheet.Hatch); ok && len(h.Without) != 0 && len(h.Without) != 2 {
						t.Errorf("%s: %d screws", v.Title, len(h.Without))
					} else if ok && len(h.Without) == 2 {
						passesBoss(t, d, h)
						return
					}
				}
			}
		}
	}
	t.Error("no screw in the section of the hub")
}

// passesBoss holds the sides of two screws against the boss.
func passesBoss(t *testing.T, d *drafter, h sheet.Hatch) {
	hub := d.part("cam-hub-right").Solid.(solid.Turned)
	boss, near := hub.Outline[0].X, 1e9
	for _, loop := range h.Without {
		for _, v := range loop {
			near = min(near, max(v.Y, -v.Y))
		}
	}
	if near < boss+0.5 {
		t.Errorf("a screw's side is %.2f mm from the axis, the boss reaches %.2f", near, boss)
	}
}
