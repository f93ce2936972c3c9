package judge

import (
	"math"
	"slices"
	"testing"

	"armwright/solver/drive"
	"armwright/solver/seat"
	"armwright/solver/solvertest"
)

// Coverage is asked only where the brief does, is counted on the random persons where
// there are some and on the panel where there are none, and fails between what was
// counted and one person more.
func TestCoverageRequirement(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	f.People.Sample = 200
	r, err := Check(f)
	if err != nil {
		t.Fatal(err)
	}
	if _, asked := r.Requirement("coverage"); asked {
		t.Error("nobody asked for coverage")
	}
	share := r.People.Coverage
	for _, c := range []struct {
		limit float64
		met   bool
	}{{share, true}, {share + 0.005, false}} {
		f.People.Coverage = c.limit
		r, err := Check(f)
		if err != nil {
			t.Fatal(err)
		}
		q, _ := r.Requirement("coverage")
		if q.Met != c.met || math.Abs(q.Value-share) > 1e-12 || (r.Verdict == Met) != c.met {
			t.Errorf("at least %g: %+v, %s", c.limit, q, r.Verdict)
		}
	}
	f.People.CoverageOf = "women-and-men"
	if r, err = Check(f); err != nil {
		t.Fatal(err)
	}
	q, _ := r.Requirement("coverage")
	if want := math.Min(r.People.Crowd.Sexes[0].Share, r.People.Crowd.Sexes[1].Share); q.Value != want {
		t.Errorf("the lesser of %+v is not %g", r.People.Crowd.Sexes, q.Value)
	}
	j := judge(t, f)
	list, err := j.s.Margins(&f.Geometry)
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(list, func(q Requirement) bool { return q.ID == "coverage" })
	if i < 0 || math.Abs(list[i].Value-q.Value) > 0.1 {
		t.Errorf("of the panel %+v, of random persons %g", list[max(0, i)], q.Value)
	}
}

// Counted on 20000 random persons:
//
//   - the panel counts what they do, to within 3 points: of so many the share is known to
//     0.3, of 400 spread evenly to less than 2;
//   - the told interval holds the true share in 95 % of repeated draws: of 200 draws of
//     100 persons, theirs being taken for true, in 182 at least and not in all (binomial,
//     1 in 100 beyond either). Wilson 1927; Brown, Cai & DasGupta 2001 find 94 to 96 %
//     at such shares.
func TestCoverageAgainstMany(t *testing.T) {
	f := solvertest.Frame(t, "arm-pad-station")
	f.People.Coverage = 0.5
	const draws, each = 200, 100
	var fits []bool // women first, in the order in which they are drawn
	j := judge(t, f)
	many := j.s.cover(&f.Geometry, j.d, &j.st, Persons{
		All:  drive.Population(f.People).Draw(draws*each, 9),
		Each: func(_ *seat.Person, away []Shortfall) { fits = append(fits, len(away) == 0) },
	})

	all, sexes := j.s.panel(&f.Geometry, j.d, &j.st)
	if all.N != panelSize || sexes[0].N+sexes[1].N != all.N || sexes[0].Fits+sexes[1].Fits != all.Fits {
		t.Errorf("%+v %+v", all, sexes)
	}
	if math.Abs(all.Share-many.All.Share) > 0.03 {
		t.Errorf("panel %.1f %%, many %.1f %%", 100*all.Share, 100*many.All.Share)
	}

	held := 0
	for i := range draws {
		g := Group{N: each}
		for k := i; k < len(fits); k += draws { // as many women as a draw of its own would have
			if fits[k] {
				g.Fits++
			}
		}
		if g.rate(); g.Low <= many.All.Share && many.All.Share <= g.High {
			held++
		}
	}
	t.Logf("%d of %d intervals hold %.2f %%; of the panel %.2f %%", held, draws, 100*many.All.Share, 100*all.Share)
	if held < 182 || held == draws {
		t.Errorf("%d of %d intervals hold %.2f %%", held, draws, 100*many.All.Share)
	}
}
