package weldment

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// parallel is the sine below which two directions are one.
const parallel = 1e-4

func along(p, q r3.Vec) bool { return r3.Norm(r3.Cross(p, q)) < parallel }

// lies reports whether a direction is along an axis of a frame.
func lies(v r3.Vec, f *solid.Placement) bool {
	return along(v, f.X) || along(v, f.Y) || along(v, f.Z)
}

// round reports whether a part is placed by its own z: one that is round about it, or has a
// round hole there.
func round(p *assembly.Part) bool {
	s, prism := p.Solid.(solid.Prism)
	return p.Round() || prism && bored(s.Profile)
}

// bored reports whether a profile has a round hole about its own z.
func bored(p *solid.Profile) bool {
	for _, h := range p.Holes() {
		if c, _, ok := h.Round(); ok && r2.Norm(c) < 0.1 {
			return true
		}
	}
	return false
}

// square reports whether a part lies along the axes of a frame.
func square(p *assembly.Part, f *solid.Placement) bool {
	return lies(p.Place.Z, f) && (p.Round() || lies(p.Place.X, f))
}

// Frame is that of the weldment in the machine frame: its origin is the datum, its axes
// those along which the sheet measures. Of the machine's axes and the members' own, of
// those along which its datum member lies, they are the ones along which most members do.
func (w *Weldment) Frame(a *assembly.Assembly) solid.Placement {
	best, most := solid.World(), -1
	root := &a.Parts[w.Blocks[0].Lead]
	try := func(f solid.Placement) {
		n := 0
		if !square(root, &f) {
			return
		}
		for i := range w.Blocks {
			if square(&a.Parts[w.Blocks[i].Lead], &f) {
				n++
			}
		}
		if n > most {
			best, most = f, n
		}
	}
	try(solid.World())
	for i := range w.Blocks {
		try(upright(a.Parts[w.Blocks[i].Lead].Place))
	}
	best.Origin = r3.Vec{}
	low, high := extent(a, w, best)
	if high.Y-low.Y > wider*(high.X-low.X) {
		best.X, best.Y = best.Y, r3.Scale(-1, best.X)
	}
	ref := reference(root, &best, best)
	best.Origin = best.Point(r3.Vec{X: ref[0].at, Y: ref[1].at, Z: ref[2].at})
	return best
}

// wider is how much wider than deep a weldment is that is drawn from the front first.
const wider = 1.5

// extent is the box round a weldment in a frame.
func extent(a *assembly.Assembly, w *Weldment, f solid.Placement) (low, high r3.Vec) {
	inf := math.Inf(1)
	low, high = r3.Vec{X: inf, Y: inf, Z: inf}, r3.Vec{X: -inf, Y: -inf, Z: -inf}
	inverse := f.Inverse()
	for k := range w.Blocks {
		for _, i := range w.Blocks[k].Parts {
			l, h := solid.Bounds(a.Parts[i].Solid, inverse.Then(a.Parts[i].Place))
			low = r3.Vec{X: min(low.X, l.X), Y: min(low.Y, l.Y), Z: min(low.Z, l.Z)}
			high = r3.Vec{X: max(high.X, h.X), Y: max(high.Y, h.Y), Z: max(high.Z, h.Z)}
		}
	}
	return low, high
}

// upright names the axes of a frame anew: z the one nearest to the machine's, x of the
// others the one nearest to the machine's.
func upright(p solid.Placement) solid.Placement {
	axes := []r3.Vec{p.X, p.Y, p.Z}
	take := func(part func(r3.Vec) float64) r3.Vec {
		k := 0
		for i := range axes {
			if math.Abs(part(axes[i])) > math.Abs(part(axes[k]))+1e-9 {
				k = i
			}
		}
		v := axes[k]
		axes = append(axes[:k:k], axes[k+1:]...)
		if part(v) < 0 {
			v = r3.Scale(-1, v)
		}
		return v
	}
	z := take(func(v r3.Vec) float64 { return v.Z })
	x := take(func(v r3.Vec) float64 { return v.X })
	return solid.Placement{X: x, Y: r3.Cross(z, x), Z: z}
}

// place says where a part is along one axis of a frame.
type place struct {
	at   float64
	kind kind
}

// kind is what of a part a place is of.
type kind int8

const (
	face   kind = iota // the nearer of its two faces
	axis               // its axis
	middle             // of its lower end: a part askew
)

// reference tells where a part is in a frame by what can be measured: an axis, or the
// face nearer to the origin; of a part that lies askew, the middle of its first end.
func reference(p *assembly.Part, axes *solid.Placement, f solid.Placement) [3]place {
	own := f.Inverse().Then(p.Place)
	if !square(p, axes) {
		q := own.Point(first(p))
		return [3]place{{q.X, middle}, {q.Y, middle}, {q.Z, middle}}
	}
	low, high := solid.Bounds(p.Solid, own)
	var out [3]place
	nearer := func(lo, hi float64) place {
		if math.Abs(hi) < math.Abs(lo)-1e-6 {
			lo = hi
		}
		return place{lo, face}
	}
	q := own.Point(first(p))
	for k, v := range [3][4]float64{{low.X, high.X, q.X, own.Z.X}, {low.Y, high.Y, q.Y, own.Z.Y}, {low.Z, high.Z, q.Z, own.Z.Z}} {
		if round(p) && math.Abs(v[3]) < 0.5 {
			out[k] = place{v[2], axis}
		} else {
			out[k] = nearer(v[0], v[1])
		}
	}
	return out
}

// first is the middle of a part's lower end in its own frame.
func first(p *assembly.Part) r3.Vec {
	switch s := p.Solid.(type) {
	case solid.Turned:
		return r3.Vec{Z: s.Outline[0].Y}
	case solid.Prism:
		return r3.Vec{Z: s.From.Z}
	}
	return r3.Vec{}
}
