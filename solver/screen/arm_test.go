package screen

import (
	"math"
	"testing"

	"armwright/specs/stock"
)

// Arm and grip at their roots by hand, from who pulls the most and where: the arm bends at
// its hub's edge by what is left there of the torque, and sideways by 90 N along
// the grip; the grip's force beside it twists it. 40x40x3: W 4.66 cm³ (printed), Bredt
// T/(2·37²·3). The grip is a tube from the slide's face to its middle.
func TestArmByHand(t *testing.T) {
	eachStation(t, func(t *testing.T, s *Screen, sc *Scene) {
		var all screening
		s.screening(sc.Station, sc.seated, &sc.drive, &all)
		var r rig
		r.find(sc.Station)
		var l burden
		s.loads(&r, sc.seated, &sc.drive, &l)
		v := &sc.Station.Values
		if v.Arm.Name != "40x40x3" {
			t.Skip("arms of " + v.Arm.Name)
		}
		p := v.Planes()
		hub := r.part(aHub).Stock.Size[0] / 2
		rest := l.hand.reach - hub
		bent := (l.hand.torque/l.hand.reach*rest + 90*rest) / 4660
		twisted := l.hand.force * math.Abs(p.Arm-p.GripMiddle) / (2 * 37 * 37 * 3)
		want := 2.5 * math.Sqrt(bent*bent+3*twisted*twisted) / s.Steel.Yield
		near(t, "arm", all.value[armRoot], want, 0.005*want)

		grip := r.part(aGrip).Stock.Size
		d, bore := grip[0], grip[1]
		section := math.Pi / 32 * (math.Pow(d, 4) - math.Pow(bore, 4)) / d
		area := math.Pi / 4 * (d*d - bore*bore)
		long := math.Abs(p.Arm-p.GripMiddle) - v.Slide.Width/2
		want = 2.5 * (l.hand.force*long/section + 90/area) / s.Steel.Yield
		near(t, "grip", all.value[gripBent], want, 0.03*want) // and a little shear
	})
}

// The post under a user who leans on one pad, and the bolts of the bearing that is loaded
// most. 60x60x3: W 11.7 cm³, A 6.61 cm² (printed); twisted by Bredt T/(2·57²·3). Bolts of
// class 8.8 by EN 1993-1-8: shear of half the load each against 0.6·800·As/1.25, the pull
// of what the balls stand off between them against 1.4 times 0.9·800·As/1.25; M10 to M16
// have 58.0, 84.3, 115 and 157 mm² (printed).
func TestPostAndBoltsByHand(t *testing.T) {
	eachStation(t, func(t *testing.T, s *Screen, sc *Scene) {
		var all screening
		s.screening(sc.Station, sc.seated, &sc.drive, &all)
		v := &sc.Station.Values
		if v.Member.Name == "60x60x3" {
			for what, c := range map[string]struct {
				b   beam
				got float64
			}{"post": {all.beams.post, all.value[postFoot]}, "leaned": {all.beams.leaned, all.value[postLeaned]}} {
				normal := (math.Abs(c.b.strong)+math.Abs(c.b.weak))/11700 + math.Abs(c.b.axial)/661
				shear := c.b.twist / (2 * 57 * 57 * 3)
				want := 2.5 * math.Sqrt(normal*normal+3*shear*shear) / s.Steel.Yield
				near(t, what, c.got, want, 0.005*want)
			}
		}
		least := min(all.value[armBearing], all.value[driveBearing])
		if v.Second != nil {
			least = min(least, all.value[secondBearing])
		}
		unit, err := stock.Bearing(s.Asked.Stock.Bearing)
		if err != nil {
			t.Fatal(err)
		}
		load := 2.5 * 1.5 * unit.Static / least
		as := map[float64]float64{10: 58.0, 12: 84.3, 14: 115, 16: 157}[v.Bearing.Thread]
		if as == 0 {
			t.Fatalf("bolts of M%v", v.Bearing.Thread)
		}
		shear, pull := load/2, load*v.Bearing.Centre/v.Bearing.Across
		strength := 800 * as / 1.25
		want := max(shear/(0.6*strength)+pull/(1.4*0.9*strength), pull/(0.9*strength))
		near(t, "bolts", all.value[bearingBolts], want, 0.005*want)
	})
}
