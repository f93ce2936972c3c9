//go:build !js

package draw

import (
	"bytes"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"

	"armwright/export/dxf/dxftest"
	"armwright/export/folder"
	"armwright/geometry/cam"
	"armwright/solver"
	"armwright/specs"
	"armwright/testdata"
)

// The sheets of stations solved from random briefs are legible, every file of them can be
// written, and independent readers find nothing to report. ARMWRIGHT_BRIEFS says how many
// briefs, 2 without it, and has every file read.
// ARMWRIGHT_BRIEFS_FROM starts at a later one.
func TestRandomBriefsAreLegible(t *testing.T) {
	testdata.Long(t)
	n, from := number(t, "ARMWRIGHT_BRIEFS", 2), number(t, "ARMWRIGHT_BRIEFS_FROM", 0)
	var drawn, undrawable atomic.Int64
	t.Run("briefs", func(t *testing.T) {
		for i := from; i < from+n; i++ {
			t.Run(fmt.Sprint(i), func(t *testing.T) {
				t.Parallel()
				b := randomBrief(t, rand.New(rand.NewPCG(11, uint64(i))), i)
				r, err := solver.Solve(t.Context(), b, nil)
				var set []named
				if err == nil {
					set, err = sheets(r, holds(t, r))
				}
				if err != nil {
					// No station: the drive that the brief asks for cannot be made.
					var hinted interface{ Hint() string }
					var curved *cam.Error // with its hint in a field
					if !errors.As(err, &hinted) && !errors.As(err, &curved) {
						t.Errorf("%v has no hint", err)
					}
					t.Logf("%s, %s: %v", b.Kind, b.Resistance.Drive, err)
					undrawable.Add(1)
					return
				}
				for k := range set {
					if err := check(&set[k].sheet); err != nil {
						t.Errorf("%s, %s, %s, %s: %v", b.Kind, b.Resistance.Drive, b.Drawing.Units, set[k].slug, err)
					}
				}
				files, err := All(r, holds(t, r), Options{Nest: true})
				if err != nil {
					t.Errorf("%s, %s: %v", b.Kind, b.Resistance.Drive, err)
				}
				readersAccept(t, files, i, os.Getenv("ARMWRIGHT_BRIEFS") != "")
				drawn.Add(1)
			})
		}
	})
	t.Logf("%d drawn, %d without a drive that can be made", drawn.Load(), undrawable.Load())
	if 2*drawn.Load() < int64(n) {
		t.Errorf("only %d of %d could be drawn", drawn.Load(), n)
	}
}

// readersAccept has independent readers look at the DXF files of a brief: at each where
// the number of briefs is given, else at one in twenty, from another one on every time.
func readersAccept(t *testing.T, files []folder.File, from int, each bool) {
	t.Helper()
	n := from
	for _, f := range files {
		if !strings.HasSuffix(f.Path, ".dxf") {
			continue
		}
		if n++; each || n%20 == 0 {
			t.Run(f.Path, func(t *testing.T) { dxftest.Sound(t, f.Data) })
		}
	}
}

// number reads a count from the environment.
func number(t *testing.T, name string, otherwise int) int {
	t.Helper()
	s := os.Getenv(name)
	if s == "" {
		return otherwise
	}
	n, err := strconv.Atoi(s)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// randomBrief varies an example within the ranges of the format; kinds and
// drives take turns. Drawn again until the format accepts it.
func randomBrief(t *testing.T, rnd *rand.Rand, i int) specs.Brief {
	t.Helper()
	turns := [...]struct{ file, drive string }{
		{"arm-pad-station", "cam"}, {"cam-study", "linkage"}, {"reclined-levers", "lever"},
		{"arm-pad-station", "lever"}, {"cam-study", "cam"}, {"reclined-levers", "cam"},
		{"reclined-linkage", "linkage"},
	}
	turn := turns[i%len(turns)]
	data, err := os.ReadFile(filepath.Join("..", "..", "specs", "examples", turn.file+".yaml"))
	if err != nil {
		t.Fatal(err)
	}
	const tries = 50
	for range tries {
		b, err := specs.ParseBrief(turn.file, data)
		if err != nil {
			t.Fatal(err)
		}
		b.Resistance.Drive = turn.drive
		vary(rnd, &b)
		var text bytes.Buffer
		if err := specs.WriteBrief(&text, b); err != nil {
			continue
		}
		if b, err = specs.ParseBrief(turn.file, text.Bytes()); err == nil {
			return b
		}
		if testing.Verbose() {
			t.Logf("drawn again: %v", err)
		}
	}
	t.Fatalf("%s: no brief in %d is accepted", turn.file, tries)
	return specs.Brief{}
}

func vary(rnd *rand.Rand, b *specs.Brief) {
	between := func(a, z float64) float64 { return a + (z-a)*rnd.Float64() }
	pick := func(of ...string) string { return of[rnd.IntN(len(of))] }
	p, r, d, l := &b.People, &b.Resistance, &b.Drawing, &b.Limits
	b.Name = pick("A", "Gym", "Recovery room station", "Bench cam with a long name")
	p.Low, p.High, p.Women = between(0.02, 0.3), between(0.7, 0.98), between(0, 1)
	p.Population, p.Boundary = pick("civilian", "survey"), pick("percentiles", "percentiles", "ellipsoid")
	p.Age, p.Sample, p.Seed = between(0.6, 1.6)*p.Age, 100, rnd.IntN(1000)
	if b.Kind == "arm-pad" {
		b.Posture.PadSlope.From = between(10, 30) * specs.Degree
		b.Posture.PadSlope.To = b.Posture.PadSlope.From + between(10, 30)*specs.Degree
	}
	if b.Kind == "reclined" {
		b.Posture.BackAngle.From = between(15, 30) * specs.Degree
		b.Posture.BackAngle.To = b.Posture.BackAngle.From + between(10, 25)*specs.Degree
	}
	if b.Kind != "cam-study" {
		b.Posture.SeatPositions = 6 + rnd.IntN(12)
	}
	r.Curve = pick("men-measured", "women-measured", "regression", "model-three", "model-four", "model-arms")
	r.Loaded.From, r.Loaded.To = between(5, 25)*specs.Degree, between(95, 130)*specs.Degree
	r.Load.Light = between(3, 8)
	r.Load.Middle = r.Load.Light * between(1.8, 3.5)
	r.Load.Heavy = r.Load.Middle * between(1.4, 2.5)
	if r.Drive == "cam" {
		r.Side = pick("open", "crossed")
		r.Eccentric = float64(rnd.IntN(2)) * between(5, 20)
	}
	b.Stock.Member = pick("50x50x3", "60x60x3")
	l.AxisOffset *= between(0.8, 2)
	l.HandPath *= between(0.8, 2)
	l.TorqueMatch = between(0.06, 0.3)
	d.Units, d.Projection = pick("mm", "in", "in-mm"), pick("first", "third")
	d.Owner = pick("", "Saltmere", "Saltmere Association for Sports and Recovery, Workshop Two")
	d.Number, d.Creator, d.Revision = pick("", "AB-1", "LONG-NUMBER-0001"), pick("", "Bench"), pick("", "A", "12")
}
