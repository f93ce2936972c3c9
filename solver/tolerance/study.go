package tolerance

import (
	"cmp"
	"context"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync"

	"armwright/solver/require"
)

// Options of a study. The zero value is invalid: Builds must be 1 to MostBuilds.
type Options struct {
	Builds int
	Seed   uint64
	Times  float64         // all tolerances times this; 0 is the perfect build
	Hold   map[int]float64 // tolerances of single dimensions instead of their own, by index

	Progress func(drawn int) // told from time to time how many builds were begun; nil for nobody listens
}

// MostBuilds bounds a study.
const MostBuilds = 200_000

// Spread is how a requirement's margin is spread over the builds. Inside units.
type Spread struct {
	require.Kind
	Limit             float64
	Nominal           float64 // margin as designed
	Mean, Deviation   float64 // of the margin
	Low, Middle, High float64 // margins that 5, 50 and 95 % of the builds stay below
	Met               float64 // share of the builds that meet the requirement
	Near              float64 // share that miss it, if at all, by no more than one unit that matters
	Tighten           float64 // how much tighter the limit to design to has to be for 95 % to meet this one
	Causes            []Cause // what spreads it, largest share first
	Row               string  // person of the governing row
	Histogram         []int   // of the margin, Bins equal parts from From to To
	From, To          float64 // margins
}

// Bins of a histogram.
const Bins = 40

// Cause is one dimension's part in a spread, at the governing row: the
// sensitivity of the margin, the change at the dimension's whole tolerance, and
// the share of the variance. A dimension that each arm has counts once.
type Cause struct {
	Dimension int
	Slope     float64 // of the margin
	Change    float64 // slope times tolerance
	Share     float64
}

// Result is a study of builds.
type Result struct {
	Builds     int
	Seed       uint64
	Classes    Classes
	Dimensions []Dimension
	Spreads    []Spread // of the requirements that spread, in the order of fit.Kinds
	Met        float64  // share of the builds that meet every requirement
	Near       float64  // share that miss none by more than one unit that matters
	PickUp     PickUp
	Holds      []Hold
}

// PickUp is the travel lost before the heaviest load is carried, rad. Room is
// the travel there is before the loaded range.
type PickUp struct {
	Known           bool // there is a cable whose route is known
	New, High, Room float64
	Within          float64 // share of the arms that lose no more than Room
}

// threeSigma is how many standard deviations of a normal dimension make its
// tolerance: one part in 370 falls outside and is drawn again.
const threeSigma = 3

// draw is an error of a dimension with the given tolerance.
func draw(r *rand.Rand, d *Dimension, tolerance float64) float64 {
	if d.Even {
		return tolerance * (2*r.Float64() - 1)
	}
	for {
		if z := r.NormFloat64(); math.Abs(z) <= threeSigma {
			return tolerance * z / threeSigma
		}
	}
}

// deviation is the standard deviation of what draw draws.
func (d *Dimension) deviation(tolerance float64) float64 {
	if d.Even {
		return tolerance / math.Sqrt(3)
	}
	return tolerance / threeSigma * truncated
}

// truncated is the standard deviation of a standard normal cut at ±3:
// sqrt(1 - 6 φ(3)/(2Φ(3)-1)) (Johnson, Kotz and Balakrishnan 1994, 10.1).
const truncated = 0.98658

// tolerances of the dimensions under options.
func (m *Model) tolerances(o *Options) []float64 {
	list := make([]float64, len(m.Dimensions))
	for d := range list {
		list[d] = m.Dimensions[d].Tolerance * o.Times
		if t, ok := o.Hold[d]; ok {
			list[d] = t * o.Times
		}
	}
	return list
}

// errors draws the errors of build b.
func (m *Model) errors(r *rand.Rand, tolerances []float64, s *scratch) {
	for d := range m.Dimensions {
		dim := &m.Dimensions[d]
		s.arms[0][d] = draw(r, dim, tolerances[d])
		s.arms[1][d] = s.arms[0][d]
		if dim.Arm {
			s.arms[1][d] = draw(r, dim, tolerances[d])
		}
	}
}

// Run draws builds and works out how the requirements spread. The same seed
// draws the same builds, whatever the number of cores. The error is ctx's.
func (m *Model) Run(ctx context.Context, o Options) (*Result, error) {
	kinds := len(m.Kinds)
	margins := make([]float64, kinds*o.Builds) // by kind, then build
	lost := make([]float64, 2*o.Builds)
	tolerances := m.tolerances(&o)
	rows := m.active(tolerances)
	const batch = 256
	var group sync.WaitGroup
	next := make(chan int)
	for range runtime.GOMAXPROCS(0) {
		group.Go(func() {
			source := rand.NewPCG(0, 0)
			r, s := rand.New(source), m.scratch(rows)
			for first := range next {
				for b := first; b < min(first+batch, o.Builds); b++ {
					source.Seed(o.Seed, uint64(b))
					m.errors(r, tolerances, s)
					m.build(s)
					for k, v := range s.least {
						margins[k*o.Builds+b] = v
					}
					for arm := range 2 {
						lost[2*b+arm] = m.pickUp.elastic + m.pickUp.settled*o.Times*r.Float64()
					}
				}
			}
		})
	}
	for first := 0; first < o.Builds && ctx.Err() == nil; first += batch {
		if o.Progress != nil {
			o.Progress(first)
		}
		next <- first
	}
	close(next)
	group.Wait()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	res := &Result{Builds: o.Builds, Seed: o.Seed, Dimensions: m.Dimensions, Holds: m.Holds()}
	m.count(res, margins)
	for k := range m.Kinds {
		list := margins[k*o.Builds : (k+1)*o.Builds]
		if math.IsNaN(m.nominal[k]) || math.IsInf(list[0], 1) {
			continue
		}
		slices.Sort(list)
		sp := m.spread(k, list)
		sp.Causes = m.causes(k, tolerances)
		if len(sp.Causes) > 0 || sp.Deviation > 0 {
			res.Spreads = append(res.Spreads, sp)
		}
	}
	if m.pickUp != (pickUp{}) {
		slices.Sort(lost)
		within, _ := slices.BinarySearch(lost, room+1e-12)
		res.PickUp = PickUp{true, m.pickUp.elastic, lost[len(lost)*95/100], room, float64(within) / float64(len(lost))}
	}
	return res, nil
}

// count counts the builds that meet everything.
func (m *Model) count(res *Result, margins []float64) {
	met, near := 0, 0
	for b := range res.Builds {
		all, close := true, true
		for k := range m.Kinds {
			if math.IsNaN(m.nominal[k]) {
				continue
			}
			v := margins[k*res.Builds+b]
			all = all && m.Kinds[k].Meets(v)
			close = close && v >= -m.Kinds[k].Scale
		}
		if all {
			met++
		}
		if close {
			near++
		}
	}
	res.Met, res.Near = float64(met)/float64(res.Builds), float64(near)/float64(res.Builds)
}

// spread sums a requirement's margins up; list is sorted.
func (m *Model) spread(k int, list []float64) Spread {
	n := len(list)
	sp := Spread{Kind: m.Kinds[k], Limit: m.limits[k], Nominal: m.nominal[k], From: list[0], To: list[n-1]}
	sp.Low, sp.Middle, sp.High = list[n*5/100], list[n/2], list[n*95/100]
	for _, v := range list {
		sp.Mean += v / float64(n)
	}
	for _, v := range list {
		sp.Deviation += (v - sp.Mean) * (v - sp.Mean) / float64(n)
		if sp.Meets(v) {
			sp.Met++
		}
		if v >= -sp.Scale {
			sp.Near++
		}
	}
	if sp.Deviation = math.Sqrt(sp.Deviation); sp.From == sp.To {
		sp.Mean, sp.Deviation = sp.From, 0
	}
	sp.Met, sp.Near = sp.Met/float64(n), sp.Near/float64(n)
	sp.Tighten = math.Max(0, -sp.Low)
	sp.Histogram = make([]int, Bins)
	for _, v := range list {
		bin := 0
		if sp.To > sp.From {
			bin = min(Bins-1, int((v-sp.From)/(sp.To-sp.From)*Bins))
		}
		sp.Histogram[bin]++
	}
	return sp
}

// governing is the row with the least nominal margin of a kind, -1 for none.
func (m *Model) governing(k int) int {
	row := -1
	for i, w := range m.rows {
		if w.Kind == k && (row < 0 || m.margin[i] < m.margin[row]) {
			row = i
		}
	}
	return row
}

// causes lists what moves a requirement, by its governing row.
func (m *Model) causes(k int, tolerances []float64) []Cause {
	slopes := m.Slopes(k)
	var list []Cause
	var sum float64
	for d, v := range slopes {
		dim := &m.Dimensions[d]
		if v == 0 || tolerances[d] == 0 {
			continue
		}
		c := Cause{Dimension: d, Slope: v, Change: v * tolerances[d]}
		c.Share = v * dim.deviation(tolerances[d])
		c.Share *= c.Share
		sum += c.Share
		list = append(list, c)
	}
	for i := range list {
		list[i].Share /= sum
	}
	slices.SortStableFunc(list, func(a, b Cause) int { return cmp.Compare(b.Share, a.Share) })
	return list
}

// Slopes are the sensitivities of a requirement's margin to the dimensions, at
// its governing row and for one arm. Those of what is asked of the torque are taken
// about the nominal.
func (m *Model) Slopes(kind int) []float64 {
	out := make([]float64, len(m.Dimensions))
	which := slices.Index([]int{m.match, m.swing, m.span}, kind)
	if which < 0 || math.IsNaN(m.nominal[kind]) {
		if row := m.governing(kind); row >= 0 {
			copy(out, m.slope[row])
		}
		return out
	}
	s, arm := m.scratch(nil), make([]float64, len(m.Dimensions))
	for d := range m.Dimensions {
		delta := step * m.Dimensions[d].Tolerance
		arm[d] = delta
		up := m.torque(s, arm)[which].margin
		arm[d] = -delta
		out[d] = (up - m.torque(s, arm)[which].margin) / (2 * delta)
		arm[d] = 0
	}
	return out
}
