package station

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/contour"
	"armwright/geometry/solid"
	"armwright/geometry/station/values"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Own choices for the swivel, mm.
const (
	indexThick  = 10.0
	soleThick   = 10.0
	soleLedge   = 9.0  // of the sole beyond the cheeks, for their weld
	clampThread = 12.0 // two coach bolts
	clampHole   = 13.0
	indexPin    = 10.0 // pull pin
	indexHole   = 10.2
	indexWeb    = 5.0  // least metal between two index holes: half a hole
	earOut      = 27.0 // least from the cheeks' foot to the clamp bolts
	nutRoom     = 16.0 // from a clamp bolt's middle to the post: its nut and a spanner
	pinOut      = 34.0 // of the pull pin from the front clamp bolt
	pinApart    = 22.0 // of the index holes' circle from the bolt's slot beside it
	earRound    = 18.0
	postLedge   = 8.0 // of the index plate beyond the post, for its weld
)

func (b *builder) setSwivel() {
	s, c := math.Sincos(math.Abs(b.angles[b.middle]))
	swing := 0.0
	for _, t := range b.angles {
		swing = max(swing, math.Abs(t-b.angles[b.middle]))
	}
	w := b.planes.Bearings
	post := -b.shift * c
	room := b.postHalf()*c + b.v.Member.Width/2*s + nutRoom + w*math.Sin(swing)
	foot := b.footHalf() + earOut
	rear, front := min(-foot, post-room), max(foot, post+room)
	b.points = swivelPoints{rear: r2.Vec{X: rear, Y: w}, pin: r2.Vec{X: front + pinOut, Y: w}}
	ring := r2.Norm(b.points.pin) - pinApart
	b.points.front = r2.Vec{X: front, Y: math.Sqrt(max(0, ring*ring-front*front))}
}

// postHalf is half the length of the post's, or the stub's, end along the pad.
func (b *builder) postHalf() float64 {
	s, c := math.Sincos(b.v.Rest.Slope)
	if b.v.Reclined {
		return b.v.Member.Height / 2 / s
	}
	return b.v.Member.Height / 2 / c
}

// footHalf is half the length of the cheeks' foot along the pad.
func (b *builder) footHalf() float64 { return b.v.Bearing.Long / 2 }

// soleDisks is the outline of the sole plate in (down, outward).
func (b *builder) soleDisks() [7]contour.Disk {
	const r = 5.0
	p := b.points
	foot := b.footHalf() + r
	in := b.planes.InnerCheek - values.CheekThick/2 - soleLedge + r
	out := b.planes.OuterCheek + values.CheekThick/2 + soleLedge - r
	return [7]contour.Disk{{At: r2.Vec{X: -foot, Y: in}, Radius: r}, {At: r2.Vec{X: foot, Y: in}, Radius: r}, {At: p.pin, Radius: earRound}, {At: p.front, Radius: earRound},
		{At: r2.Vec{X: foot, Y: out}, Radius: r}, {At: r2.Vec{X: -foot, Y: out}, Radius: r}, {At: p.rear, Radius: earRound}}
}

// onPlate turns a place (down, outward) of the swivelling side at an angle of the
// axis into the index plate's own frame: down the pad, and to the left.
func onPlate(q r2.Vec, angle float64) r2.Vec {
	s, c := math.Sincos(angle)
	return r2.Vec{X: q.X*c - q.Y*s, Y: -q.X*s - q.Y*c}
}

// indexPlate adds the plates on the posts that the brackets swivel on: a hole for
// the pull pin at every axis position, and two arc slots for the clamp bolts.
func (b *builder) indexPlate() {
	v := b.v
	first, last := b.angles[0], b.angles[0]
	for _, t := range b.angles {
		first, last = min(first, t), max(last, t)
	}
	middle := b.angles[b.middle]
	long := b.postHalf()
	place := b.onRest(0, -b.carry)
	post := r2.Vec{X: -r3.Dot(r3.Sub(b.postTop, b.pivot), b.up), Y: b.postTop.Y - b.pivot.Y}
	points := b.points

	key := shape{kind: indexShape, n: [16]float64{b.planes.Bearings, b.footHalf(), post.X, post.Y, long, v.Member.Width, float64(len(b.angles))}}
	copy(key.n[7:], b.angles)
	profile := func() *solid.Profile {
		var disks []contour.Disk
		for _, t := range [3]float64{first, middle, last} {
			for _, d := range b.soleDisks() {
				disks = append(disks, contour.Disk{At: onPlate(d.At, t), Radius: d.Radius + 2})
			}
		}
		const r = 5.0
		x, y := long+postLedge-r, v.Member.Width/2+postLedge-r
		for _, q := range [4]r2.Vec{{X: x, Y: y}, {X: -x, Y: y}, {X: -x, Y: -y}, {X: x, Y: -y}} {
			disks = append(disks, contour.Disk{At: r2.Add(post, q), Radius: r})
		}
		var holes []contour.Path
		for _, q := range [2]r2.Vec{points.rear, points.front} {
			at := onPlate(q, middle)
			a := math.Atan2(at.Y, at.X)
			holes = append(holes, contour.ArcSlot(r2.Norm(at), a+middle-last, a+middle-first, clampHole))
		}
		for _, t := range b.angles {
			at := onPlate(points.pin, t)
			holes = append(holes, circle(at.X, at.Y, indexHole))
		}
		return solid.NewProfile(contour.Around(disks...), holes...)
	}
	if len(b.angles) > len(key.n)-7 { // more than the key tells apart
		b.shapes.Forget(key)
	}
	p, size := b.shapes.Blank(key, profile)
	b.index = b.Pair(assembly.Part{
		ID: "index-plate", Title: "Index plate", Group: b.frame, Stock: b.plateStock(size.X, size.Y, indexThick),
		Solid: prism(p, 0, indexThick), Place: place, Density: steelDensity,
	})
	weld := b.tubeWeld(&v.Member)
	weld.Run = 4*long + 2*v.Member.Width
	b.JoinPair(assembly.Weld, b.index, b.carrier, b.postTop, weld)

	// No part of the plate, which stands still, may reach into the planes of what
	// turns beside the bracket.
	out := 0.0
	for _, t := range b.angles {
		d := onPlate(r2.Vec{Y: 1}, t)
		h, _ := p.Outer().Support(d)
		out = max(out, h)
	}
	b.need("index-plate-inside-drive", b.planes.RingOut+values.LayerClear/2-out)

	web := math.Inf(1)
	for i, t := range b.angles {
		for _, q := range b.angles[:i] {
			web = min(web, 2*r2.Norm(points.pin)*math.Sin(math.Abs(t-q)/2)-indexHole-indexWeb)
		}
	}
	if len(b.angles) > 1 {
		b.need("index-holes-apart", web)
	}
}
