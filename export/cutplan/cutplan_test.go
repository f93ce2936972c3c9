package cutplan

import (
	"math"
	"slices"
	"testing"

	"armwright/export/partlist"

	"pgregory.net/rapid"
)

// Worked by hand: bars of 100 with a kerf of 1.
func TestNestByHand(t *testing.T) {
	pieces := func(lengths ...float64) (out []Piece) {
		for i, l := range lengths {
			out = append(out, Piece{Item: i + 1, Length: l, Each: l, Count: 1})
		}
		return out
	}
	for _, c := range []struct {
		lengths []float64
		want    [][]float64
	}{
		{[]float64{40, 60}, [][]float64{{60}, {40}}},                           // 60+1+40 = 101
		{[]float64{39, 60}, [][]float64{{60, 39}}},                             // 60+1+39 = 100, the last kerf in the end
		{[]float64{100, 10}, [][]float64{{100}, {10}}},                         // no room for a kerf
		{[]float64{30, 50, 18, 60, 40}, [][]float64{{60, 30}, {50, 40}, {18}}}, // 60+1+30+1 leaves 8
		{[]float64{120}, [][]float64{{120}}},                                   // longer than a bar: by itself
		{nil, nil},
	} {
		var got [][]float64
		for _, b := range Nest(pieces(c.lengths...), 100, 1) {
			var row []float64
			for _, p := range b.Pieces {
				row = append(row, p.Length)
			}
			got = append(got, row)
		}
		if !slices.EqualFunc(got, c.want, slices.Equal) {
			t.Errorf("%v: %v, want %v", c.lengths, got, c.want)
		}
	}
}

// Every piece is in one bar, no bar is overfull, and no two bars would go into
// one, which is what first fit promises.
func TestNest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const bar, kerf = 6000.0, 3.0
		lengths := rapid.SliceOfN(rapid.Float64Range(20, bar), 0, 60).Draw(t, "lengths")
		var pieces []Piece
		for i, l := range lengths {
			pieces = append(pieces, Piece{Item: i, Length: l, Each: l, Count: 1})
		}
		seen := map[int]bool{}
		bars := Nest(pieces, bar, kerf)
		for _, b := range bars {
			sum := -kerf
			for _, p := range b.Pieces {
				if seen[p.Item] {
					t.Fatalf("piece %d twice", p.Item)
				}
				seen[p.Item] = true
				sum += p.Length + kerf
			}
			if sum > bar+1e-9 || math.Abs(sum+kerf-b.Used) > 1e-9 {
				t.Fatalf("bar takes %g", sum)
			}
		}
		if len(seen) != len(pieces) {
			t.Fatalf("%d of %d pieces", len(seen), len(pieces))
		}
		for i := range bars {
			for k := range i {
				if bars[i].Used+bars[k].Used <= bar+kerf {
					t.Fatalf("bars %d and %d fit into one", k, i)
				}
			}
		}
	})
}

// Two posts cut at 45 degrees across a side of 60, 500 long each: one oblique cut of
// 3·√2 parts them, and they take 1000 - 60 + 3√2 of a bar. Worked by hand. With both
// ends mitred, or one piece, each is cut by itself.
func TestMitresShareACut(t *testing.T) {
	line := partlist.Line{Item: 7, Count: 3, Length: 500, Bar: "tube", Drop: 60, Side: 60}
	got := Bars([]partlist.Line{line}, 6000, 3)
	if len(got) != 1 || len(got[0].Pieces) != 2 {
		t.Fatalf("%+v", got)
	}
	pair, one := got[0].Pieces[0], got[0].Pieces[1]
	if pair.Count != 2 || math.Abs(pair.Length-(940+3*math.Sqrt2)) > 1e-9 || one.Count != 1 || one.Length != 500 {
		t.Errorf("%+v", got[0].Pieces)
	}
	line.Drop = 0
	for _, p := range Bars([]partlist.Line{line}, 6000, 3)[0].Pieces {
		if p.Count != 1 || p.Length != 500 {
			t.Errorf("without a mitre: %+v", p)
		}
	}
}

// On a plate of 200 by 100 with gaps of 10: four pieces of 80 by 30 lie in two rows of
// two (10 + 90 + 90 = 190 along, 10 + 40 + 40 = 90 across), a fifth begins another
// plate; one larger than a plate has one by itself. Worked by hand.
func TestBlanksByHand(t *testing.T) {
	line := func(item, count int, l, w float64) partlist.Line {
		return partlist.Line{Item: item, Count: count, Blank: "plate 10", Box: [2]float64{w, l}}
	}
	got := Blanks([]partlist.Line{line(1, 5, 80, 30)}, 200, 100)
	if len(got) != 2 || got[0].Items[0] != (Cut{1, 4}) || got[1].Items[0] != (Cut{1, 1}) || math.Abs(got[0].Area-4*80*30/20000.) > 1e-12 {
		t.Errorf("%+v", got)
	}
	got = Blanks([]partlist.Line{line(1, 1, 300, 50), line(2, 1, 50, 20)}, 200, 100)
	if len(got) != 2 || got[0].Items[0] != (Cut{1, 1}) || got[1].Items[0] != (Cut{2, 1}) {
		t.Errorf("too long: %+v", got)
	}
}

// Every piece is on one blank, and none is fuller than full.
func TestBlanks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var list []partlist.Line
		want := map[int]int{}
		for i := range rapid.IntRange(0, 12).Draw(t, "lines") {
			l := partlist.Line{Item: i, Count: rapid.IntRange(1, 9).Draw(t, "count"), Blank: "plate",
				Box: [2]float64{rapid.Float64Range(20, 900).Draw(t, "x"), rapid.Float64Range(20, 900).Draw(t, "y")}}
			list, want[i] = append(list, l), l.Count
		}
		got := map[int]int{}
		for _, b := range Blanks(list, 2000, 1000) {
			if b.Area > 1 {
				t.Fatalf("a blank is %g full", b.Area)
			}
			for _, c := range b.Items {
				got[c.Item] += c.Count
			}
		}
		for item, n := range want {
			if got[item] != n {
				t.Fatalf("%d of %d pieces of item %d", got[item], n, item)
			}
		}
	})
}
