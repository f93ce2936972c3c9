package screen

import (
	"math"

	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r3"
)

// wrench is a force, N, and its moment about the right pivot, N·mm, machine frame.
type wrench struct{ f, m r3.Vec }

// push is a force at a place told from the pivot.
func push(at, f r3.Vec) wrench { return wrench{f, r3.Cross(at, f)} }

func (w wrench) plus(o wrench) wrench { return wrench{r3.Add(w.f, o.f), r3.Add(w.m, o.m)} }

func (w wrench) times(k float64) wrench { return wrench{r3.Scale(k, w.f), r3.Scale(k, w.m)} }

// about is the moment about a place told from the pivot.
func (w wrench) about(at r3.Vec) r3.Vec { return r3.Sub(w.m, r3.Cross(at, w.f)) }

// beam is what a section carries: moments about its strong and weak axis, force along
// and across it, and torque. Signs do not matter.
type beam struct{ strong, weak, axial, across, twist float64 }

// section resolves a wrench at a place: along the beam, and across it square to the
// strong axis of bending, which is the third.
func (w wrench) section(at, along, deep r3.Vec) beam {
	m, strong := w.about(at), r3.Cross(along, deep)
	return beam{
		strong: math.Abs(r3.Dot(m, strong)), weak: math.Abs(r3.Dot(m, deep)), twist: math.Abs(r3.Dot(m, along)),
		axial: math.Abs(r3.Dot(w.f, along)), across: math.Hypot(r3.Dot(w.f, deep), r3.Dot(w.f, strong)),
	}
}

// tube is the equivalent stress (von Mises) of a hollow section, N/mm²: bending both
// ways and axial force at a corner, torsion by Bredt's formula on the middle line of
// the wall.
func (b beam) tube(sec *stock.Section) float64 {
	normal := b.strong/sec.Wx + b.weak/sec.Wy + b.axial/sec.Area
	shear := b.twist / (2 * (sec.B - sec.T) * (sec.H - sec.T) * sec.T)
	return math.Sqrt(normal*normal + 3*shear*shear)
}

// ring is the greatest force per length, N/mm, in a weld all round a rectangle, high
// across the strong axis and wide: bending and axial force with the section moduli of
// its line, shear over its length, torsion as flow round it.
func (b beam) ring(high, wide float64) float64 {
	length := 2 * (high + wide)
	normal := b.strong/(high*wide+high*high/3) + b.weak/(high*wide+wide*wide/3) + b.axial/length
	return math.Hypot(normal, b.across/length+b.twist/(2*high*wide))
}

// joint is the share of its strength that a branch square to a chord takes of the
// chord's walls: moments along and across the chord and force along the branch, added
// up. A narrower branch yields the chord's face, one of about its width crushes its
// side walls (EN 1993-1-8 tables 7.11 and 7.14, M).
func (b beam) joint(branch, chord *stock.Section, yield float64) float64 {
	t, wide, h := chord.T, chord.B, branch.H
	var in, out, axial float64
	if beta := branch.B / wide; beta <= 0.85 {
		eta, root := h/wide, math.Sqrt(1-beta)
		q := (1 + beta) / (1 - beta)
		in = yield * t * t * h * (1/(2*eta) + 2/root + eta/(1-beta))
		out = yield * t * t * (h*q/2 + math.Sqrt(2*wide*branch.B*q))
		axial = yield * t * t / (1 - beta) * (2*eta + 4*root)
	} else {
		in = 0.5 * yield * t * (h + 5*t) * (h + 5*t)
		out = yield * t * (wide - t) * (h + 5*t)
		axial = yield * t * (2*h + 10*t)
	}
	return b.strong/in + b.weak/out + b.axial/axial
}

// round is the equivalent stress of a round bar, or of a tube with a bore, N/mm².
func (b beam) round(d, bore float64) float64 {
	modulus := math.Pi / 32 * (d*d*d*d - bore*bore*bore*bore) / d
	area := math.Pi / 4 * (d*d - bore*bore)
	normal, shear := math.Hypot(b.strong, b.weak)/modulus+b.axial/area, b.twist/(2*modulus)
	return math.Sqrt(normal*normal + 3*shear*shear)
}

// circle is the greatest force per length, N/mm, in a weld round a circle of a length.
func (b beam) circle(length float64) float64 {
	d := length / math.Pi
	normal := math.Hypot(b.strong, b.weak)/(math.Pi/4*d*d) + b.axial/length
	return math.Hypot(normal, b.across/length+b.twist/(math.Pi/2*d*d))
}

// flat is the stress of a plate's cross-section bent out of its plane, N/mm².
func flat(moment, wide, thick float64) float64 { return moment / (wide * thick * thick / 6) }

// stressArea of a metric bolt of coarse thread, mm² (ISO 898-1, M).
func stressArea(thread float64) float64 {
	pitch := 2.0
	switch {
	case thread <= 6:
		pitch = 1
	case thread <= 8:
		pitch = 1.25
	case thread <= 10:
		pitch = 1.5
	case thread <= 12:
		pitch = 1.75
	}
	d := thread - 0.9382*pitch
	return math.Pi / 4 * d * d
}

// bolt is the share of a bolt's strength that pull and shear take, class 8.8 with the
// thread in the shear plane (EN 1993-1-8 table 3.4, M).
func bolt(thread, pull, shear float64) float64 {
	strength := boltStrength * stressArea(thread) / boltPartial
	return max(shear/(0.6*strength)+pull/(1.4*0.9*strength), pull/(0.9*strength))
}

// sheared is the share that a force takes of a pin's strength and of the walls that
// it bears on, by how many planes and walls of a thickness: shear to the yield
// strength over root 3, bearing to 1.5 times it (EN 1993-1-8 3.13, M).
func sheared(force, d float64, planes int, walls, yield float64) float64 {
	shear := force / (float64(planes) * math.Pi / 4 * d * d)
	return max(shear*math.Sqrt(3), force/(d*walls)/1.5) / yield
}
