package station

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"
	"armwright/geometry/station/values"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Own choices for the stops, mm, rad and kg.
const (
	stopWide    = 40.0 // flat bar of the stops
	stopThick   = 20.0
	stopGap     = 6.0               // between a stop and a bearing housing
	stopBefore  = 2 * math.Pi / 180 // of the lower stop below flexion 0
	stopAfter   = 3 * math.Pi / 180 // of the upper one past the loaded range
	bufferLong  = 15.0
	bufferWide  = 30.0
	bufferOut   = 5.0 // from the middle of the arm's tube: away from the user
	bufferMass  = 0.02
	stopNearest = 70.0 // of a stop's middle along the arm
	stopStep    = 10.0
)

// stopPlace is where a flat bar of the stops stands in (down, normal): along and
// across the arm as it lies on it.
type stopPlace struct {
	middle        r2.Vec // of the bar
	along, across r2.Vec // across points from the bar to the arm
	reach         float64
}

// stopPlaces are the lower and the upper stop.
func (b *builder) stopPlaces() [2]stopPlace {
	return [2]stopPlace{b.stopPlace(-stopBefore, 1), b.stopPlace(b.v.Last+stopAfter, -1)}
}

// stopPlace finds the nearest place along the arm, at an angle of flexion, that is
// clear of the bearings on the same cheek.
func (b *builder) stopPlace(theta, side float64) stopPlace {
	s, c := math.Sincos(theta)
	along, across := r2.Vec{X: c, Y: s}, r2.Vec{X: -s * side, Y: c * side}
	below := b.v.Arm.Height/2 + bufferLong + stopThick/2
	round := math.Hypot(stopWide/2, stopThick/2) + stopGap
	for r := stopNearest; ; r += stopStep {
		p := stopPlace{r2.Sub(r2.Scale(r, along), r2.Scale(below, across)), along, across, r}
		clear := func(at r2.Vec) bool {
			for _, d := range b.unitDisks(at, round) {
				if r2.Norm(r2.Sub(d.At, p.middle)) < d.Radius {
					return false
				}
			}
			return true
		}
		if clear(r2.Vec{}) && (b.v.Second == nil || clear(b.second)) || r >= b.v.Handle.Least-slideLong/2 {
			return p
		}
	}
}

// stops adds a bar with a rubber buffer for the arm at either end of its way, both
// on the inner cheek.
func (b *builder) stops() {
	v := b.v
	ids := [2]string{"lower", "upper"}
	titles := [2]string{"Lower stop", "Upper stop"}
	from, to := b.planes.Arm+bufferOut-bufferWide/2-2, b.planes.InnerCheek-values.CheekThick/2
	for i, s := range b.stopPlaces() {
		space := func(q r2.Vec) r3.Vec { return r3.Add(r3.Scale(q.X, b.down), r3.Scale(q.Y, b.normal)) }
		along, across := space(s.along), space(s.across)
		origin := b.atAxis(s.middle.X, s.middle.Y, from)
		place := solid.Placement{Origin: origin, X: r3.Cross(across, b.axis), Y: across, Z: b.axis}
		bar := b.Pair(assembly.Part{
			ID: "stop-" + ids[i], Item: "stop", Title: titles[i], Group: b.swivels[0], Stock: b.plateStock(to-from, stopWide, stopThick),
			Solid: prism(b.rect(stopWide, stopThick, 0), 0, to-from), Place: place, Density: steelDensity, Traits: assembly.Swivels | assembly.Buffer,
		})
		b.JoinPair(assembly.Weld, bar, b.innerCheek, place.Point(r3.Vec{Z: to - from}), assembly.Detail{Throat: cheekWeld, Run: 2 * (stopWide + stopThick)})
		root := place.Point(r3.Vec{Y: stopThick / 2, Z: b.planes.Arm + bufferOut - from})
		buffer := b.Pair(assembly.Part{
			ID: "buffer-" + ids[i], Item: "buffer", Title: "Rubber buffer", Group: b.swivels[0],
			Stock: assembly.Stock{Form: assembly.Bought, Name: "30x15 M8", Grade: "rubber", Size: [3]float64{bufferWide, bufferLong, 8}},
			Solid: solid.Round(bufferWide, bufferLong), Place: solid.Along(root, r3.Add(root, across), along), Mass: bufferMass,
			Traits: assembly.Swivels | assembly.Soft | assembly.Buffer,
		})
		b.JoinPair(assembly.Bolts, buffer, bar, root, assembly.Detail{Thread: 8, Count: 1, Length: stopThick})
		b.need("stop-inside-handle-"+ids[i], v.Handle.Least-slideLong/2-s.reach-stopWide/2)
	}
}
