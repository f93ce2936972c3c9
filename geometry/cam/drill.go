package cam

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// drill places bore, bolt holes, anchor and lightening holes.
func (out *Outline) drill(plate Plate) error {
	hub := plate.hub()
	if room, _ := out.Root.Distance(r2.Vec{}); !out.Root.Contains(r2.Vec{}) || room < hub+plate.Wall-.01 {
		return &Error{Kind: Hub, What: "distance of the groove root from the cam axis (mm)", Value: room, Limit: hub + plate.Wall, Hint: "use a smaller bore or bolt circle, or a larger moment arm"}
	}
	if plate.Bore > 0 {
		out.Holes = append(out.Holes, Hole{Name: "bore", Diameter: plate.Bore})
	}
	if plate.KeyWidth > 0 {
		out.Keyed = keyedBore(plate.Bore, plate.KeyWidth, plate.KeyDepth)
	}
	out.Holes = append(out.Holes, boltHoles(plate.Bolts, plate.BoltCircle, plate.BoltHole)...)
	if err := out.anchor(plate); err != nil {
		return err
	}
	if plate.Lighten {
		out.lighten(plate)
	}
	return nil
}

// anchor places the cable anchor at the end of the dead wrap or, if the hub is
// in the way there, at the first place behind it that is free.
func (out *Outline) anchor(plate Plate) error {
	hub := plate.hub()
	inset := plate.Wall + plate.AnchorHole/2
	clear := hub + plate.Wall + plate.AnchorHole/2
	const step = math.Pi / 180
	// The lead-in past the last flexion must stay free of the cable's end.
	end := out.WrapFrom + 2*math.Pi - 10*step
	best := 0.0
	for phi := out.WrapTo + out.DeadWrap; phi <= end; phi += step {
		n := normal(phi)
		_, root := out.Root.Support(n)
		hole := Hole{Name: "anchor", Centre: r2.Sub(root, r2.Scale(inset, n)), Diameter: plate.AnchorHole}
		off := r2.Norm(hole.Centre)
		best = math.Max(best, off)
		// Sideways from the normal the outline may be nearer than the inset.
		wall, _ := out.Root.Distance(hole.Centre)
		if off < clear || wall < inset-1e-6 {
			continue
		}
		out.DeadWrap = phi - out.WrapTo
		out.Anchor = Anchor{
			Tangent:   r2.Add(root, r2.Scale(plate.Cable/2, n)),
			Direction: normal(phi + math.Pi/2),
			Hole:      hole,
		}
		out.Holes = append(out.Holes, hole)
		return nil
	}
	return &Error{Kind: Hub, What: "distance of the cable anchor from the cam axis (mm)", Value: best, Limit: clear, Hint: "use a smaller anchor, bore or bolt circle, or a larger moment arm at the first flexion"}
}

const (
	leastLightening = 20 // diameter, mm, below which a hole is not worth its cut
	mostLightening  = 6
)

// lighten cuts the largest round hole that fits between hub and groove, then
// the next, in whole millimetres, until none is worth it.
func (out *Outline) lighten(plate Plate) {
	hub := plate.hub()
	bounds := out.Root.Bounds()
	reach := math.Hypot(math.Max(-bounds.Min.X, bounds.Max.X), math.Max(-bounds.Min.Y, bounds.Max.Y))
	const directions, rings = 72, 40
	for range mostLightening {
		var best Hole
		for i := range directions {
			u := normal(2 * math.Pi * float64(i) / directions)
			for k := range rings {
				at := r2.Scale(hub+(reach-hub)*float64(k)/rings, u)
				if !out.Root.Contains(at) {
					break
				}
				room, _ := out.Root.Distance(at)
				room = math.Min(room, r2.Norm(at)-hub)
				for _, h := range out.Holes {
					room = math.Min(room, r2.Norm(r2.Sub(at, h.Centre))-h.Diameter/2)
				}
				if d := math.Floor(2 * (room - plate.Wall)); d > best.Diameter {
					best = Hole{Name: "lightening", Centre: at, Diameter: d}
				}
			}
		}
		if best.Diameter < leastLightening {
			return
		}
		out.Holes = append(out.Holes, best)
	}
}

// markShare is the length of a mark as a share of the wall, so that no mark
// runs into a hole.
const markShare = .75

// mark places the lines to be etched, inwards from the groove root: the index,
// which stands plumb above the cam axis at flexion 0, and the contacts at the
// first and last flexion.
func (out *Outline) mark(plate Plate, first, last State) {
	length := markShare * plate.Wall
	top := r2.Vec{Y: out.above()}
	out.Marks = append(out.Marks, Mark{Name: "index", From: top, To: r2.Sub(top, r2.Vec{Y: length})})
	for _, contact := range [...]struct {
		name string
		phi  float64
	}{{"first", first.Phi}, {"last", last.Phi}} {
		n := normal(contact.phi)
		_, root := out.Root.Support(n)
		out.Marks = append(out.Marks, Mark{Name: contact.name, From: root, To: r2.Sub(root, r2.Scale(length, n))})
	}
}

// above returns the height of the groove root plumb above the cam axis.
func (out *Outline) above() float64 {
	lo, hi := 0.0, out.Root.Bounds().Max.Y
	const steps = 80 // of an outline kilometres large, whose numbers stand farther apart than is asked
	for n := 0; n < steps && hi-lo > 1e-9; n++ {
		if mid := (lo + hi) / 2; out.Root.Contains(r2.Vec{Y: mid}) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}
