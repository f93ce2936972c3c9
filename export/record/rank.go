package record

import (
	"cmp"
	"math"
	"slices"

	"armwright/solver/judge"
	"armwright/solver/sweep"
)

// Objective is a column that designs are judged by: less is better, or more.
type Objective struct {
	Column string
	More   bool
}

// order is negative where figure a is better than b.
func (q *Objective) order(a, b float64) int {
	if q.More {
		return cmp.Compare(b, a)
	}
	return cmp.Compare(a, b)
}

// Judge reads a row's figures by objective, and says whether its requirements are met,
// and whether it counts: it has all figures, and is met or every row counts.
func (r *Row) Judge(by []Objective, every bool, into []float64) (met, counts bool) {
	met = r.Text("verdict") == string(judge.Met)
	counts = met || every
	for i, q := range by {
		into[i] = r.Number(q.Column)
		counts = counts && !math.IsNaN(into[i])
	}
	return met, counts
}

// Design is what is kept of a row.
type Design struct {
	Number           int
	Names, Values    []string // of what varies
	Verdict, Governs string
	Figures          []float64 // by objective
}

// Ranking is what one reading of a study gives.
type Ranking struct {
	All, Met  int
	Designs   []Design  // the best, the best first; by several objectives those that none betters
	Low, High []float64 // of the figures, over the designs that count
	Missing   string    // a column that no row has a number in, "" for none
}

// Spaced takes at most n of the designs, evenly, with the first and the last.
func (k *Ranking) Spaced(n int) []Design {
	list := k.Designs
	if len(list) <= n {
		return list
	}
	out := list[:1:1]
	for i := 1; i < n; i++ {
		out = append(out, list[i*(len(list)-1)/(n-1)])
	}
	return out
}

// Rank reads a study once, each calling take for its rows in order, and keeps the best
// designs: at most number by one objective, by several all that none betters.
func Rank(each func(take func(*Row)) error, by []Objective, every bool, number int) (*Ranking, error) {
	k := &Ranking{}
	more := make([]bool, len(by))
	for i, q := range by {
		more[i] = q.More
		k.Low, k.High = append(k.Low, math.Inf(1)), append(k.High, math.Inf(-1))
	}
	front := sweep.NewFront[Design](more...)
	known := make([]bool, len(by)) // columns met with a number
	figures := make([]float64, len(by))
	better := func(a, b Design) int { return by[0].order(a.Figures[0], b.Figures[0]) }
	err := each(func(row *Row) {
		met, counts := row.Judge(by, every, figures)
		k.All++
		if met {
			k.Met++
		}
		for i, v := range figures {
			known[i] = known[i] || !math.IsNaN(v)
		}
		if !counts {
			return
		}
		for i, v := range figures {
			k.Low[i], k.High[i] = math.Min(k.Low[i], v), math.Max(k.High[i], v)
		}
		d := Design{Number: row.Design, Names: row.Varied(), Verdict: row.Text("verdict"), Governs: row.Text("governs"), Figures: slices.Clone(figures)}
		for _, name := range d.Names {
			d.Values = append(d.Values, row.Text(name))
		}
		if len(by) > 1 {
			front.Add(figures, d)
			return
		}
		at, _ := slices.BinarySearchFunc(k.Designs, d, func(a, b Design) int {
			if better(a, b) <= 0 {
				return -1 // equals stay in their order
			}
			return 1
		})
		if k.Designs = slices.Insert(k.Designs, at, d); len(k.Designs) > number {
			k.Designs = k.Designs[:number]
		}
	})
	if err != nil {
		return nil, err
	}
	for i, q := range by {
		if !known[i] && k.All > 0 && k.Missing == "" {
			k.Missing = q.Column
		}
	}
	for _, p := range front.Points() {
		k.Designs = append(k.Designs, p.Design)
	}
	if len(by) > 1 {
		slices.SortStableFunc(k.Designs, better)
	}
	return k, nil
}
