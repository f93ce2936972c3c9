package lawtest

import (
	"math"
	"slices"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
)

// Overlap is a pair of parts that share space.
type Overlap struct {
	A, B  int
	Depth float64 // by which one would have to be moved to part them, mm
}

// Gap is how far two parts are from each other, mm; negative as an overlap is deep.
type Gap struct {
	A, B     int
	Distance float64
	OnA, OnB r3.Vec // nearest points
}

// Loose is a joint whose place is not on one of its parts.
type Loose struct {
	Joint, Part int
	Distance    float64 // from the place to the part, mm
}

// Space is an assembly with what is needed again and again to measure between
// its parts: their convex pieces.
type Space struct {
	a       *assembly.Assembly
	pieces  [][]solid.Convex
	hulls   []solid.Convex
	allowed map[[2]int32]float64 // depth that the joints of a pair allow
	groups  []solid.Placement
	places  []solid.Placement
	low     []r3.Vec
	high    []r3.Vec
	order   []int
}

// NewSpace prepares an assembly for measuring.
func NewSpace(a *assembly.Assembly) *Space {
	n := len(a.Parts)
	s := &Space{
		a: a, pieces: make([][]solid.Convex, n), hulls: make([]solid.Convex, n), allowed: map[[2]int32]float64{},
		places: make([]solid.Placement, n), low: make([]r3.Vec, n), high: make([]r3.Vec, n), order: make([]int, n),
	}
	for i := range a.Parts {
		s.pieces[i], s.hulls[i] = a.Parts[i].Solid.Pieces(), a.Parts[i].Solid.Hull()
		s.order[i] = i
	}
	for i := range a.Joints {
		j := &a.Joints[i]
		key := pairKey(j.A, j.B)
		depth := j.Detail.Depth
		if j.Kind.Through() {
			depth = math.Inf(1)
		}
		s.allowed[key] = max(s.allowed[key], depth)
	}
	s.Move(a.Reference)
	return s
}

func pairKey(a, b int) [2]int32 {
	if a > b {
		a, b = b, a
	}
	return [2]int32{int32(a), int32(b)}
}

// Move puts every part where a pose has it.
func (s *Space) Move(pose assembly.Pose) {
	s.groups = s.a.At(pose, s.groups)
	for i := range s.a.Parts {
		s.places[i] = s.a.Place(i, s.groups)
		s.low[i], s.high[i] = solid.Extent(s.hulls[i], s.places[i])
	}
}

// Place returns where a part stands.
func (s *Space) Place(part int) solid.Placement { return s.places[part] }

// Distance returns the gap between two parts.
func (s *Space) Distance(a, b int) Gap {
	best := Gap{A: a, B: b, Distance: math.Inf(1)}
	for _, p := range s.pieces[a] {
		for _, q := range s.pieces[b] {
			if d, on, at := solid.Distance(p, s.places[a], q, s.places[b]); d < best.Distance {
				best.Distance, best.OnA, best.OnB = d, on, at
			}
		}
	}
	return best
}

// near calls f for every pair of parts whose upright boxes come within reach of
// each other.
func (s *Space) near(reach float64, f func(i, j int)) {
	slices.SortFunc(s.order, func(i, j int) int {
		switch {
		case s.low[i].X < s.low[j].X:
			return -1
		case s.low[i].X > s.low[j].X:
			return 1
		}
		return i - j
	})
	for n, i := range s.order {
		for _, j := range s.order[n+1:] {
			if s.low[j].X > s.high[i].X+reach {
				break
			}
			if s.low[j].Y > s.high[i].Y+reach || s.low[i].Y > s.high[j].Y+reach || s.low[j].Z > s.high[i].Z+reach || s.low[i].Z > s.high[j].Z+reach {
				continue
			}
			f(min(i, j), max(i, j))
		}
	}
}

// Overlaps returns the pairs of parts that share space by more than the tolerance,
// mm, beyond what their joint says. With moving only, pairs of one group, which
// keep their places to each other, are left out.
func (s *Space) Overlaps(tolerance float64, moving bool) []Overlap {
	var out []Overlap
	s.near(0, func(i, j int) {
		if moving && s.a.Parts[i].Group == s.a.Parts[j].Group {
			return
		}
		allowed := s.allowed[pairKey(i, j)]
		if math.IsInf(allowed, 1) {
			return
		}
		if g := s.Distance(i, j); -g.Distance > tolerance+allowed {
			out = append(out, Overlap{i, j, -g.Distance})
		}
	})
	slices.SortFunc(out, func(p, q Overlap) int {
		if p.A != q.A {
			return p.A - q.A
		}
		return p.B - q.B
	})
	return out
}

// Gaps returns the pairs that come nearer to each other than reach, one part in
// each of two groups for which apart holds, without those joined to each other.
func (s *Space) Gaps(reach float64, apart func(a, b *assembly.Part) bool) []Gap {
	var out []Gap
	s.near(reach, func(i, j int) {
		if !apart(&s.a.Parts[i], &s.a.Parts[j]) {
			return
		}
		if _, joined := s.allowed[pairKey(i, j)]; joined {
			return
		}
		if g := s.Distance(i, j); g.Distance < reach {
			out = append(out, g)
		}
	})
	slices.SortFunc(out, func(p, q Gap) int {
		if p.A != q.A {
			return p.A - q.A
		}
		return p.B - q.B
	})
	return out
}

// Loose returns the joints of which a part is farther than the tolerance from the
// joint's place in the reference pose.
func (s *Space) Loose(tolerance float64) []Loose {
	s.Move(s.a.Reference)
	var out []Loose
	for i := range s.a.Joints {
		j := &s.a.Joints[i]
		for _, part := range [2]int{j.A, j.B} {
			least := math.Inf(1)
			for _, p := range s.pieces[part] {
				d, _, _ := solid.Distance(solid.Ball{Centre: j.At}, solid.World(), p, s.places[part])
				least = min(least, d)
			}
			if least > tolerance {
				out = append(out, Loose{i, part, least})
			}
		}
	}
	return out
}
