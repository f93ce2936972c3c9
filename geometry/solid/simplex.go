package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// simplex is a point, segment, triangle or tetrahedron and the shares of its
// corners in its point nearest to the origin.
type simplex struct {
	at    [4]corner
	share [4]float64
	n     int

	// thorough has every side tried instead of those that signs of areas and
	// volumes name: between corners so close that rounding decides the signs.
	thorough bool
}

func (s *simplex) push(c corner) {
	s.at[s.n] = c
	s.n++
}

func (s *simplex) has(w r3.Vec) bool {
	for i := range s.n {
		if s.at[i].w == w {
			return true
		}
	}
	return false
}

// reduce drops the corners that have no share in the point nearest to the
// origin. It returns that point, and whether the origin is inside a
// tetrahedron.
func (s *simplex) reduce() (v r3.Vec, inside bool) {
	var share [4]float64
	switch s.n {
	case 1:
		share[0] = 1
	case 2:
		share = s.onSegment(0, 1)
	case 3:
		share = s.onTriangle(0, 1, 2)
	case 4:
		share, inside = s.inTetrahedron()
	}
	n := 0
	for i := range s.n {
		if share[i] > 0 {
			s.at[n], s.share[n] = s.at[i], share[i]
			v = r3.Add(v, r3.Scale(share[i], s.at[i].w))
			n++
		}
	}
	s.n = n
	return v, inside
}

// points returns the points of both bodies that the shares stand for.
func (s *simplex) points() (a, b r3.Vec) {
	for i := range s.n {
		a = r3.Add(a, r3.Scale(s.share[i], s.at[i].a))
		b = r3.Add(b, r3.Scale(s.share[i], s.at[i].b))
	}
	return a, b
}

// square returns the direction of the nearest point v set square to the simplex.
// Where v is short its own direction is that of rounding, and small errors of
// it look large seen from far corners.
func (s *simplex) square(v r3.Vec) r3.Vec {
	var d r3.Vec
	switch s.n {
	case 2:
		t := r3.Sub(s.at[1].w, s.at[0].w)
		d = r3.Sub(v, r3.Scale(r3.Dot(v, t)/r3.Norm2(t), t))
	case 3:
		ab, ac := r3.Sub(s.at[1].w, s.at[0].w), r3.Sub(s.at[2].w, s.at[0].w)
		d = r3.Cross(ab, ac)
		if nn := r3.Norm2(d); nn > flatness*flatness*r3.Norm2(ab)*r3.Norm2(ac) {
			d = r3.Scale(r3.Dot(d, v)/nn, d)
		}
	}
	// What points elsewhere is rounding too.
	if r3.Dot(d, v) < .5*r3.Norm(d)*r3.Norm(v) || d == (r3.Vec{}) {
		return v
	}
	return d
}

// point returns the point of given shares.
func (s *simplex) point(share *[4]float64) r3.Vec {
	var v r3.Vec
	for i := range s.n {
		if share[i] != 0 {
			v = r3.Add(v, r3.Scale(share[i], s.at[i].w))
		}
	}
	return v
}

// nearer puts the shares in place of those given if their point is nearer.
func (s *simplex) nearer(share *[4]float64, least *float64, other [4]float64) {
	if d := r3.Norm2(s.point(&other)); d < *least {
		*least, *share = d, other
	}
}

func (s *simplex) onSegment(i, j int) (share [4]float64) {
	a, b := s.at[i].w, s.at[j].w
	t := r3.Sub(b, a)
	u, length := -r3.Dot(a, t), r3.Norm2(t)
	switch {
	case !(u > 0):
		share[i] = 1
	case u >= length:
		share[j] = 1
	default:
		share[j] = u / length
		share[i] = 1 - share[j]
	}
	return share
}

// flatness is the sine below which a triangle counts as a line and the ratio
// below which a tetrahedron counts as flat: rounding of 1e-16 then leaves three
// digits of its normal.
const flatness = 1e-13

func (s *simplex) onTriangle(i, j, k int) (share [4]float64) {
	a, b, c := s.at[i].w, s.at[j].w, s.at[k].w
	ab, ac := r3.Sub(b, a), r3.Sub(c, a)
	n := r3.Cross(ab, ac)
	nn := r3.Norm2(n)
	// Areas of the triangles that the origin's foot makes with each side.
	var area [3]float64
	least := math.Inf(1)
	if nn > flatness*flatness*r3.Norm2(ab)*r3.Norm2(ac) {
		area = [3]float64{r3.Dot(n, r3.Cross(b, r3.Sub(c, b))), r3.Dot(n, r3.Cross(c, r3.Sub(a, c))), r3.Dot(n, r3.Cross(a, ab))}
		if area[0] > 0 && area[1] > 0 && area[2] > 0 {
			sum := area[0] + area[1] + area[2]
			share[i], share[j], share[k] = area[0]/sum, area[1]/sum, area[2]/sum
			if !s.thorough {
				return share
			}
			least = r3.Norm2(s.point(&share))
		}
	}
	if s.thorough || area[0] <= 0 {
		s.nearer(&share, &least, s.onSegment(j, k))
	}
	if s.thorough || area[1] <= 0 {
		s.nearer(&share, &least, s.onSegment(k, i))
	}
	if s.thorough || area[2] <= 0 {
		s.nearer(&share, &least, s.onSegment(i, j))
	}
	return share
}

func (s *simplex) inTetrahedron() (share [4]float64, inside bool) {
	var beyond [4]bool // the origin is beyond the face that faces the corner
	least := math.Inf(1)
	for i := range share {
		face := faces[i]
		a := s.at[face[0]].w
		ab, ac, ad := r3.Sub(s.at[face[1]].w, a), r3.Sub(s.at[face[2]].w, a), r3.Sub(s.at[i].w, a)
		n := r3.Cross(ab, ac)
		height, origin := r3.Dot(n, ad), -r3.Dot(n, a)
		flat := height*height <= flatness*flatness*r3.Norm2(n)*r3.Norm2(ad)
		beyond[i] = flat || origin*height <= 0
		if !beyond[i] {
			share[i] = origin / height
		}
	}
	if beyond == [4]bool{} {
		return share, true
	}
	for i, face := range faces {
		if s.thorough || beyond[i] {
			s.nearer(&share, &least, s.onTriangle(face[0], face[1], face[2]))
		}
	}
	return share, false
}

// faces are the corners of a tetrahedron without each one.
var faces = [4][3]int{{1, 2, 3}, {0, 2, 3}, {0, 1, 3}, {0, 1, 2}}
