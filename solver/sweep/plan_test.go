package sweep

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"armwright/specs"

	"pgregory.net/rapid"
)

// places are the places of a starter brief at paths.
func places(t testing.TB, paths ...string) []*specs.Place {
	t.Helper()
	b, err := specs.ParseBrief("starter", specs.Starter("arm-pad"))
	if err != nil {
		t.Fatal(err)
	}
	v, err := specs.Vary(b, paths...)
	if err != nil {
		t.Fatal(err)
	}
	return v.Places()
}

func axis(t testing.TB, path, text string) Axis {
	t.Helper()
	a, err := ParseAxis(places(t, path)[0], text)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// Points 5, 777 and 1023 in 21 dimensions as scipy 1.10.1 gives them,
// scipy.stats.qmc.Sobol(21, scramble=False), which takes its direction numbers
// from Joe and Kuo's file.
func TestSobolIsThePublishedSequence(t *testing.T) {
	for i, want := range map[uint32][SobolAxes]float64{
		5: {0.875, 0.875, 0.125, 0.375, 0.875, 0.625, 0.875, 0.375, 0.375, 0.125, 0.375, 0.875, 0.875, 0.125, 0.875, 0.375, 0.875, 0.375, 0.375, 0.625, 0.625},
		777: {0.6923828125, 0.9365234375, 0.1630859375, 0.2744140625, 0.6357421875, 0.3564453125, 0.1904296875, 0.7626953125, 0.3486328125, 0.3232421875, 0.7451171875,
			0.6962890625, 0.3837890625, 0.4736328125, 0.5693359375, 0.5146484375, 0.4033203125, 0.8642578125, 0.3701171875, 0.7529296875, 0.2373046875},
		1023: {0.0009765625, 0.7529296875, 0.6123046875, 0.1455078125, 0.1865234375, 0.4384765625, 0.1396484375, 0.6181640625, 0.3447265625, 0.8505859375, 0.6787109375,
			0.0361328125, 0.1298828125, 0.6650390625, 0.3623046875, 0.4638671875, 0.3134765625, 0.8759765625, 0.5849609375, 0.3193359375, 0.8662109375},
	} {
		for k, u := range want {
			if got := sobol(i, k); got != u {
				t.Errorf("point %d, axis %d: %v, want %v", i, k, got, u)
			}
		}
	}
}

func TestPermutationIsOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Uint64Range(1, 3000).Draw(t, "n")
		key := rapid.Uint64().Draw(t, "key")
		seen := make([]bool, n)
		for i := range n {
			j := permuted(i, n, key)
			if j >= n || seen[j] {
				t.Fatalf("place %d goes to %d, again or outside %d", i, j, n)
			}
			seen[j] = true
		}
	})
}

// Every stratum of every axis holds one design, which is what makes it a Latin
// hypercube, and two axes are not the same permutation.
func TestLatinHasOneDesignAStratum(t *testing.T) {
	const n, axes = 500, 4
	var rank [axes][n]int
	for k := range axes {
		seen := make([]bool, n)
		for i := range n {
			u := latin(i, n, k, 7)
			s := int(u * n)
			if u < 0 || u >= 1 || seen[s] {
				t.Fatalf("axis %d: stratum %d twice", k, s)
			}
			seen[s], rank[k][i] = true, s
		}
	}
	for k := 1; k < axes; k++ {
		// Correlation of ranks: a random permutation's is within 4/sqrt(n) but once in 16 000.
		var sum float64
		for i := range n {
			sum += (float64(rank[0][i]) - (n-1)/2.0) * (float64(rank[k][i]) - (n-1)/2.0)
		}
		if r := sum / (n * (n*n - 1) / 12.0); math.Abs(r) > 4/math.Sqrt(n) {
			t.Errorf("axes 0 and %d correlate by %.2f", k, r)
		}
	}
	if latin(3, n, 0, 7) == latin(3, n, 0, 8) {
		t.Error("the seed changes nothing")
	}
}

// The integral of a smooth function over the unit square comes out better than
// by chance: products of |4x-2| integrate to 1 (Sobol' 1967 and since).
func TestSpreadIntegratesBetterThanChance(t *testing.T) {
	const n = 1024
	f := func(u func(i, k int) float64) float64 {
		var sum float64
		for i := range n {
			p := 1.0
			for k := range 3 {
				p *= math.Abs(4*u(i, k) - 2)
			}
			sum += p
		}
		return math.Abs(sum/n - 1)
	}
	r := rand.New(rand.NewPCG(1, 2))
	chance := f(func(int, int) float64 { return r.Float64() })
	if e := f(func(i, k int) float64 { return sobol(uint32(i), k) }); e > 0.005 || e > chance {
		t.Errorf("Sobol: error %.4f, by chance %.4f", e, chance)
	}
	if e := f(func(i, k int) float64 { return latin(i, n, k, 1) }); e > 0.05 {
		t.Errorf("Latin hypercube: error %.4f, by chance %.4f", e, chance)
	}
}

func TestPlan(t *testing.T) {
	height, sample, cable := "posture.pivot_height.to", "people.sample", "stock.cable"
	for _, c := range []struct {
		name   string
		method Method
		axes   []Axis
		points int
		want   []string // first designs
		size   int
	}{
		{"grid, last fastest", Grid, []Axis{axis(t, height, "800 mm..1000 mm:3"), axis(t, cable, "7x19-4, 7x19-5")}, 0,
			[]string{"800 mm 7x19-4", "800 mm 7x19-5", "900 mm 7x19-4", "900 mm 7x19-5", "1000 mm 7x19-4", "1000 mm 7x19-5"}, 6},
		{"every whole number", Grid, []Axis{axis(t, sample, "100..103")}, 0, []string{"100", "101", "102", "103"}, 4},
		{"rounded levels once", Grid, []Axis{axis(t, sample, "100..102:9")}, 0, []string{"100", "101", "102"}, 3},
		{"units as the file has them", Grid, []Axis{axis(t, height, "40 in, 1 m")}, 0, []string{"1016 mm", "1000 mm"}, 2},
		{"sobol", Sobol, []Axis{axis(t, height, "800 mm..1000 mm"), axis(t, cable, "7x19-4, 7x19-5")}, 4,
			[]string{"800 mm 7x19-4", "900 mm 7x19-5", "950 mm 7x19-4", "850 mm 7x19-5"}, 4},
		{"sobol over a count", Sobol, []Axis{axis(t, sample, "100..103")}, 4, []string{"100", "102", "103", "101"}, 4},
	} {
		p, err := NewPlan(c.method, c.axes, c.points, 1)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if p.Len() != c.size {
			t.Errorf("%s: %d designs, want %d", c.name, p.Len(), c.size)
		}
		for i, want := range c.want {
			if got := strings.Join(p.Design(nil, i), " "); got != want {
				t.Errorf("%s: design %d is %s, want %s", c.name, i, got, want)
			}
		}
	}
}

func TestAxisLevelsOfRanges(t *testing.T) {
	a := axis(t, "posture.lean", "0 deg..10 deg, 0 deg..20 deg")
	if !slices.Equal(a.Levels, []string{"0 deg..10 deg", "0 deg..20 deg"}) {
		t.Errorf("levels %q", a.Levels)
	}
}

func TestRefused(t *testing.T) {
	for _, c := range []struct{ path, text, want string }{
		{"limits.hand_path", "20 mm..10 mm", "limits.hand_path: the range is empty or runs backwards"},
		{"limits.hand_path", "10 mm..20 mm:1", `limits.hand_path: "1" is no number of levels`},
		{"limits.hand_path", "10 mm..200 mm", "limits.hand_path: 200 mm is above 100 mm\n  hint: 1 mm to 100 mm are allowed"},
		{"limits.hand_path", "10 mm, 1 cm", "limits.hand_path: 10 mm appears twice"},
		{"limits.hand_path", "10, 20", "limits.hand_path: 10 has no unit\n  hint: write 10 mm or 10 in"},
		{"stock.cable", "7x19-4..7x19-5", "stock.cable: \"7x19-4..7x19-5\" is not a known value"},
	} {
		if _, err := ParseAxis(places(t, c.path)[0], c.text); err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%s=%s: %v, want %s", c.path, c.text, err, c.want)
		}
	}
	free := axis(t, "limits.hand_path", "10 mm..20 mm")
	for _, c := range []struct {
		method Method
		axes   []Axis
		points int
		want   string
	}{
		{Grid, []Axis{free}, 0, "limits.hand_path: a grid needs the number of levels of a range"},
		{Grid, nil, 0, "study: no value varies"},
		{Sobol, []Axis{free}, 0, "study: 0 designs"},
		{Grid, []Axis{axis(t, "people.sample", "100..200")}, 5, "study: a grid has as many designs as its levels make"},
		{Grid, slices.Repeat([]Axis{axis(t, "people.sample", "100..99999")}, 2), 0, "study: more than 100000000 designs"},
		{Sobol, slices.Repeat([]Axis{free}, SobolAxes+1), 8, "study: 22 axes; the direction numbers here serve 21"},
	} {
		if _, err := NewPlan(c.method, c.axes, c.points, 1); err == nil || err.Error() != c.want || err.(*Error).Hint() == "" {
			t.Errorf("%s: %v, want %s", c.method, err, c.want)
		}
	}
}
