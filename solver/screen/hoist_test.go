package screen

import (
	"math"
	"testing"

	"armwright/geometry/assembly"
	"armwright/solver/solvertest"

	"gonum.org/v1/gonum/spatial/r3"
)

// The tower of the hall by hand, from where its parts stand. The cable's pull is 1.5 times
// its tension at the heaviest load, half of 80 kg, and all of it counts 2.5 times. A tube of
// 60x60x3 has W = 11.7 cm³ and A = 6.61 cm² (printed).
func TestTowerByHand(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	if f.Asked.Stock.Member != "60x60x3" || f.Asked.Resistance.Stack != "shared" {
		t.Fatalf("members of %s, stack %s", f.Asked.Stock.Member, f.Asked.Resistance.Stack)
	}
	s, sc := seatedOn(t, &f)
	var all screening
	s.screening(sc.Station, sc.seated, &sc.drive, &all)
	find := func(id string) *assembly.Part {
		i, ok := sc.Station.Assembly.Index(id)
		if !ok {
			t.Fatalf("no %s", id)
		}
		return &sc.Station.Assembly.Parts[i]
	}
	const w, area = 11.7e3, 661.0
	heavy := f.Asked.Resistance.Load.Heavy * 9.80665
	pull := 1.5 * sc.drive.HeavyTension
	near(t, "tension", sc.drive.HeavyTension, heavy/2, 1e-6)
	share := func(stress float64) float64 { return 2.5 * stress / s.Steel.Yield }

	// The floating sheave hangs on two cables; its axle of 12 lies on cheeks of 6, 18 apart:
	// 2 F over 24, W = pi 12³/32 = 169.6 mm³.
	near(t, "axle", all.value[sheaveAxles], share(2*pull*24/4/169.646), 1e-4)

	upright, top, bar := find("tower-upright-right"), find("tower-top"), find("rod-bar")
	outer, inner := find("sheave-outer-axle-right").Place.Origin, find("sheave-inner-axle-right").Place.Origin
	foot := upright.Place.Origin
	out, in := math.Abs(outer.Y)-math.Abs(foot.Y), math.Abs(foot.Y)-math.Abs(inner.Y)
	if out <= 0 || in <= 0 {
		t.Fatalf("sheaves %v outside and %v inside the upright", out, in)
	}
	lever := math.Max(out, math.Abs(in-out)) + top.Centre.Z - outer.Z
	got := all.value[towerTop]
	near(t, "top", got, share(pull*lever/w+pull/area), 0.02*got)

	high := bar.Centre.Z - foot.Z
	got = all.value[towerUpright]
	near(t, "upright", got, share(heavy*math.Sin(10*math.Pi/180)/2*high/w+2*pull/area), 0.02*got)

	// Each stem bends by the pull at its axle and carries as much along.
	worst := 0.0
	for _, n := range []string{"rail", "tower", "outer", "inner"} {
		axle, stem := find("sheave-"+n+"-axle-right"), find("sheave-"+n+"-stem-right")
		d := stem.Stock.Size[0]
		far := r3.Norm(r3.Sub(axle.Place.Origin, stem.Place.Origin)) // its foot, or its end at the fork
		long := stem.Stock.Length
		lever := math.Max(far, math.Abs(axle.Place.Origin.Z-stem.Centre.Z)+long/2)
		bend := pull * lever / (math.Pi * d * d * d / 32)
		worst = math.Max(worst, share(bend+pull/(math.Pi*d*d/4)))
	}
	got = all.value[sheaveStems]
	near(t, "stem", got, worst, 0.1*got)
}

// The rail between its feet, a beam of two supports with a post on it: the post's moment
// goes to both sides by their lengths, its force bends by F a b/l (handbooks), and it is
// the larger side that counts.
func TestRailByHand(t *testing.T) {
	eachStation(t, func(t *testing.T, s *Screen, sc *Scene) {
		var all screening
		s.screening(sc.Station, sc.seated, &sc.drive, &all)
		a := sc.Station.Assembly
		at := func(id string) r3.Vec {
			i, ok := a.Index(id)
			if !ok {
				t.Fatalf("no %s", id)
			}
			return a.Parts[i].Place.Origin
		}
		post := at("pivot-post-right").X
		rear, front := post-at("foot-rear-right").X, at("foot-front-right").X-post
		f := &all.beams
		if rear > 0 && front > 0 {
			long := rear + front
			near(t, "rail", f.rail.strong, f.post.strong*math.Max(rear, front)/long+f.post.axial*rear*front/long, 1e-6*f.rail.strong)
			near(t, "rail, sideways", f.rail.weak, f.post.twist*math.Max(rear, front)/long, 1e-6*math.Abs(f.rail.weak)+1e-9)
		}
		near(t, "rail, twisted", f.rail.twist, f.post.weak, 1e-9*math.Abs(f.post.weak))
	})
}
