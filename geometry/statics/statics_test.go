package statics_test

import (
	"math"
	"slices"
	"testing"

	"armwright/geometry/statics"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"
)

func vec(t *rapid.T, name string, most float64) r2.Vec {
	v := func(s string) float64 { return rapid.Float64Range(-most, most).Draw(t, name+s) }
	return r2.Vec{X: v(" x"), Y: v(" y")}
}

// A chain taken apart joint by joint, from the ends to the root, each segment balanced
// by itself, gives the same joint forces and moments as the cuts do, and what is left
// at the root is what the whole body's balance says.
func TestCutsAgreeWithSegmentsTakenApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var b statics.Body
		n := rapid.IntRange(2, 6).Draw(t, "segments")
		for i := range n {
			s := statics.Segment{Parent: -1, Joint: vec(t, "joint", 500)}
			if i > 0 {
				s.Parent = rapid.IntRange(0, i-1).Draw(t, "parent")
			}
			for range rapid.IntRange(0, 2).Draw(t, "forces") {
				s.Forces = append(s.Forces, statics.Force{At: vec(t, "at", 500), Force: vec(t, "force", 300)})
			}
			b.Segments = append(b.Segments, s)
		}
		for range rapid.IntRange(1, 4).Draw(t, "patches") {
			sin, cos := math.Sincos(rapid.Float64Range(0, 6).Draw(t, "normal"))
			b.Patches = append(b.Patches, statics.Patch{Segment: rapid.IntRange(0, n-1).Draw(t, "of"), From: vec(t, "from", 500), To: vec(t, "to", 500),
				Normal: r2.Vec{X: cos, Y: sin}, Points: rapid.IntRange(1, 3).Draw(t, "points"), Friction: 0.4})
		}
		contacts := b.Contacts()
		var f statics.Forces
		for range contacts {
			f.Push = append(f.Push, rapid.Float64Range(0, 500).Draw(t, "push"))
			f.Hold = append(f.Hold, rapid.Float64Range(-200, 200).Draw(t, "hold"))
		}
		eq := b.Balance(contacts)
		if i := rapid.IntRange(0, n-1).Draw(t, "of the last force"); len(b.Segments[i].Forces) > 0 { // as if it had come later
			without := b
			without.Segments = slices.Clone(b.Segments)
			list := without.Segments[i].Forces
			without.Segments[i].Forces = list[:len(list)-1]
			eq = without.Balance(contacts).Under(&without, i, list[len(list)-1])
		}

		// What each segment gets from its parent, from the last to the first.
		force, moment := make([]r2.Vec, n), make([]float64, n)
		for i := n - 1; i >= 0; i-- {
			s := &b.Segments[i]
			origin := s.Joint
			if i == 0 {
				origin = contacts[0].At
			}
			add := func(at, v r2.Vec) {
				force[i] = r2.Sub(force[i], v)
				moment[i] -= r2.Cross(r2.Sub(at, origin), v)
			}
			for _, g := range s.Forces {
				add(g.At, g.Force)
			}
			for k, c := range contacts {
				if c.Segment == i {
					add(c.At, r2.Add(r2.Scale(f.Push[k], c.Normal), r2.Scale(f.Hold[k], c.Tangent)))
				}
			}
			for j := i + 1; j < n; j++ {
				if b.Segments[j].Parent == i { // and gives its children the opposite
					add(b.Segments[j].Joint, r2.Scale(-1, force[j]))
					moment[i] += moment[j]
				}
			}
		}
		same := func(what string, got, want float64) {
			if math.Abs(got-want) > 1e-6*(1+math.Abs(want)) {
				t.Fatalf("%s is %.6f, want %.6f", what, got, want)
			}
		}
		same("level force left over", eq.Level.At(&f), -force[0].X)
		same("upright force left over", eq.Upright.At(&f), -force[0].Y)
		same("moment left over", eq.Turn.At(&f), -moment[0])
		for i := 1; i < n; i++ {
			same("joint's moment", eq.Moments[i].At(&f), moment[i])
			l := b.Across(contacts, i, r2.Vec{X: 0.6, Y: 0.8})
			same("joint's force", l.At(&f), 0.6*force[i].X+0.8*force[i].Y)
		}
	})
}

func TestContactsOfAPatch(t *testing.T) {
	b := statics.Body{Segments: []statics.Segment{{Parent: -1}}, Patches: []statics.Patch{{To: r2.Vec{X: 60}, Normal: r2.Vec{Y: 1}, Points: 3, Friction: 0.3}}}
	got := b.Contacts()
	for i, x := range []float64{10, 30, 50} {
		if c := got[i]; c.At != (r2.Vec{X: x}) || c.Tangent != (r2.Vec{X: 1}) || math.Abs(c.Share-1.0/3) > 1e-15 || c.Friction != 0.3 {
			t.Errorf("%+v", c)
		}
	}
}
