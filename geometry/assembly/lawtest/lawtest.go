// Package lawtest holds an assembly against the laws that every machine keeps, for the
// tests of those that build one.
package lawtest

import (
	"fmt"
	"math"
	"strings"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r3"
)

// Settings are how many positions of each kind a machine has, 0 for none, and its range:
// flexion, rad, and lift of the stack, mm.
type Settings struct {
	Axis, Handle, Seat, Foot, Chest int
	First, Last, Lift               float64
}

// Poses are all axis positions, flexions every step, and ends of all other settings.
func Poses(a *assembly.Assembly, s Settings, step float64) []assembly.Pose {
	var out []assembly.Pose
	for axis := range s.Axis {
		for theta := s.First; ; theta += step {
			theta = min(theta, s.Last)
			p := a.Reference
			p.Axis, p.Flexion = axis, [2]float64{theta, theta}
			out = append(out, p)
			p.Handle, p.Seat, p.Foot, p.Chest = s.Handle-1, s.Seat-1, s.Foot-1, s.Chest-1
			share := (theta - s.First) / (s.Last - s.First)
			p.Lift = [2]float64{share * s.Lift, share * s.Lift}
			out = append(out, p)
			if theta == s.Last {
				break
			}
		}
	}
	return out
}

// Faults returns what is against the laws of an assembly over some poses, each fault
// once: ids, shapes, masses, twins, what floats, joints that are not on their parts, and
// parts in each other.
func Faults(a *assembly.Assembly, poses []assembly.Pose) []string {
	var out []string
	fault := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	ids := map[string]bool{}
	for i := range a.Parts {
		p := &a.Parts[i]
		if ids[p.ID] {
			fault("%s twice", p.ID)
		}
		ids[p.ID] = true
		if err := p.Solid.Validate(); err != nil {
			fault("%s: %v", p.ID, err)
		}
		if !(p.Mass > 0) {
			fault("%s: mass %v", p.ID, p.Mass)
		}
		if p.Density > 0 && math.Abs(p.Mass-p.Density*p.Solid.Volume()) > 1e-3*p.Mass {
			fault("%s: %v kg is not volume times density", p.ID, p.Mass)
		}
		if p.Side == assembly.Right {
			if other := mirrorFault(p, &a.Parts[i+1]); other != "" {
				fault("%s: %s", p.ID, other)
			}
		}
	}
	for _, i := range a.Floating() {
		fault("%s floats", a.Parts[i].ID)
	}
	s := NewSpace(a)
	for _, l := range s.Loose(0.5) {
		j := a.Joints[l.Joint]
		fault("%s of %s and %s at %.1f: %.2f from %s", j.Kind, a.Parts[j.A].ID, a.Parts[j.B].ID, j.At, l.Distance, a.Parts[l.Part].ID)
	}
	told := map[[2]int]bool{}
	tell := func(list []Overlap, pose assembly.Pose) {
		for _, o := range list {
			if !told[[2]int{o.A, o.B}] {
				fault("%s in %s by %.2f at %+v", a.Parts[o.A].ID, a.Parts[o.B].ID, o.Depth, pose)
			}
			told[[2]int{o.A, o.B}] = true
		}
	}
	const tolerance = 0.05 // of hollow arcs filled by chords: solid.Sagitta
	tell(s.Overlaps(tolerance, false), a.Reference)
	for _, pose := range poses {
		s.Move(pose)
		tell(s.Overlaps(tolerance, true), pose)
	}
	return out
}

// mirrorFault tells how a left part is not the mirror image of a right one.
func mirrorFault(right, left *assembly.Part) string {
	switch {
	case left.Side != assembly.Left || left.Item != right.Item || left.ID != strings.TrimSuffix(right.ID, "right")+"left":
		return "the next part, " + left.ID + ", is not its left twin"
	case math.Abs(left.Mass-right.Mass) > 1e-9*right.Mass:
		return "its twin has another mass"
	}
	low, high := solid.Bounds(right.Solid, right.Place)
	l, h := solid.Bounds(left.Solid, left.Place)
	c := left.Place.Point(left.Solid.Centroid())
	for _, d := range [3]r3.Vec{
		r3.Sub(l, r3.Vec{X: low.X, Y: -high.Y, Z: low.Z}), r3.Sub(h, r3.Vec{X: high.X, Y: -low.Y, Z: high.Z}), r3.Sub(c, r3.Vec{X: right.Centre.X, Y: -right.Centre.Y, Z: right.Centre.Z}),
	} {
		if r3.Norm(d) > 1e-6 {
			return "its twin stands elsewhere"
		}
	}
	return ""
}
