//go:build !js

package draw

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"armwright/export/sheet"
	"armwright/export/stationtest"
	"armwright/solver"
	"armwright/specs"
	"armwright/testdata"
)

// The sheets of many frames are legible: no text on a text, on an outline or
// on a mark of the frame, nothing outside the frame. The frames are the stored
// ones with every size moved by up to an eighth, within the ranges of the
// format, and other names, units, projections, counts of positions. Frames
// whose cam cannot be made are drawn again; they are told apart by their error.
// ARMWRIGHT_FRAMES says how many; the long test is 200.
func TestRandomFramesAreLegible(t *testing.T) {
	names := stations()
	n := number(t, "ARMWRIGHT_FRAMES", len(testdata.Few(2, names...))) // one of each
	for i := range n {
		t.Run(fmt.Sprint(i), func(t *testing.T) {
			t.Parallel()
			rnd := rand.New(rand.NewPCG(7, uint64(i)))
			set := drawable(t, rnd, names[i%len(names)])
			for k := range set {
				if err := check(&set[k].sheet); err != nil {
					t.Errorf("%s: %v", set[k].slug, err)
				}
			}
		})
	}
}

// The stored frames are legible in inches with millimetres beside them, and
// carry their revision.
func TestDualSheetsAreLegible(t *testing.T) {
	testdata.Long(t)
	for _, name := range stations() {
		r := *stationtest.Result(t, name)
		r.Frame.Drawing.Units, r.Frame.Drawing.Revision = "in-mm", "B2"
		set, err := sheets(&r, holds(t, &r))
		if err != nil {
			t.Fatal(err)
		}
		for k := range set {
			s := &set[k].sheet
			if err := check(s); err != nil {
				t.Errorf("%s, %s: %v", name, set[k].slug, err)
			}
			withoutNegativeZero(t, s)
			d, err := s.Flatten()
			if err != nil {
				t.Fatal(err)
			}
			for _, q := range d.Dimensions {
				if q.Dimension.Kind != sheet.Angular && !strings.Contains(q.Text, "[") {
					t.Errorf("%s, %s: %q has no millimetres", name, set[k].slug, q.Text)
				}
			}
			if !slices.ContainsFunc(d.Primitives, func(p sheet.Primitive) bool { l, ok := p.(sheet.Label); return ok && l.Value == "B2" }) {
				t.Errorf("%s, %s: no revision in the title block", name, set[k].slug)
			}
		}
	}
}

// drawable varies a stored frame until its cam can be made.
func drawable(t *testing.T, rnd *rand.Rand, name string) []named {
	t.Helper()
	const tries = 40
	var last error
	for range tries {
		f := varied(t, rnd, name)
		r, err := solver.Check(f)
		if err == nil {
			var set []named
			if set, err = sheets(r, holds(t, r)); err == nil {
				return set
			}
		}
		last = err
	}
	t.Fatalf("%s: no frame in %d can be drawn; the last: %v", name, tries, last)
	return nil
}

func varied(t *testing.T, rnd *rand.Rand, name string) specs.Frame {
	t.Helper()
	f, err := specs.ParseFrame(name, testdata.Frame(name))
	if err != nil {
		t.Fatal(err)
	}
	f.People.Sample = 30 // coverage alone
	by := func(x *float64) { *x *= 0.875 + 0.25*rnd.Float64() }
	pick := func(of ...string) string { return of[rnd.IntN(len(of))] }
	g, d := &f.Geometry, &f.Drawing
	f.Name = pick("A", "Gym", "Recovery room station", "Bench cam with a long name")
	d.Owner = pick("", "Saltmere", "Saltmere Association for Sports and Recovery, Workshop Two")
	d.Number, d.Creator = pick("", "AB-1", "LONG-NUMBER-0001"), pick("", "Bench")
	d.Units, d.Projection = pick("mm", "in", "in-mm"), pick("first", "third")
	f.Stock.Member = pick("50x50x3", "60x60x3", "60x60x3")
	by(&g.Pivots.Height)
	by(&g.Pivots.Spacing)
	for i := range g.Pivots.Axes {
		by(&g.Pivots.Axes[i].Toe)
		by(&g.Pivots.Axes[i].Cant)
	}
	slices.SortFunc(g.Pivots.Axes, func(a, b specs.Axis) int {
		if a.Toe < b.Toe {
			return -1
		}
		return 1
	})
	if p := g.Pad; p != nil {
		by(&p.Slope)
		by(&p.Offset)
		by(&p.Near)
		by(&p.Far)
		by(&p.Width)
	}
	if s := g.Seat; s != nil {
		by(&s.Lowest)
		by(&s.Front)
		by(&s.Depth)
		by(&s.Width)
		by(&s.Pitch)
		s.Positions = 1 + rnd.IntN(9)
	}
	by(&g.Handle.Least)
	by(&g.Handle.Pitch)
	g.Handle.Positions = 1 + rnd.IntN(12)
	by(&g.Handle.GripLength)
	if c := g.Cam; c != nil {
		by(&c.GuideX)
		by(&c.GuideY)
		k := 0.95 + 0.2*rnd.Float64()
		for i := range c.Law {
			c.Law[i] *= k
		}
	}
	if v := g.Lever; v != nil {
		by(&v.Radius)
		by(&v.Phase)
	}
	if v := g.Linkage; v != nil {
		by(&v.Radius)
		by(&v.Phase)
		by(&v.Direction)
	}
	if c := g.Counterweight; c != nil {
		by(&c.Mass)
		by(&c.Radius)
	}
	if b := g.Base; b != nil {
		by(&b.Rear)
		by(&b.Front)
		by(&b.Width)
		by(&b.SeatPost)
		by(&b.PadPost)
	}
	if k := g.Back; k != nil {
		by(&k.Angle)
		by(&k.Length)
		by(&k.Foot)
	}
	return f
}

// What cannot be drawn says why.
func TestUndrawable(t *testing.T) {
	f := varied(t, rand.New(rand.NewPCG(1, 1)), "cam-study")
	for i := range f.Geometry.Cam.Law {
		f.Geometry.Cam.Law[i] = 30 + 90*float64(i%2)
	}
	r, err := solver.Check(f)
	if err == nil {
		_, err = sheets(r, holds(t, r))
	}
	var hinted interface{ Hint() string }
	if err == nil || !errors.As(err, &hinted) && err.Error() == "" {
		t.Errorf("a zigzag cam gives %v", err)
	}
}
