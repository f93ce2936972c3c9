package screen

import (
	"math"

	"armwright/geometry/balance"
	"armwright/geometry/contour"
	"armwright/solver/build"
	"armwright/solver/require"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// tipping judges one user after another on one station.
type tipping struct {
	s        *Screen
	base     build.Stand
	stand    func() *stance
	anchored bool
	watch    Watcher                  // nil for nobody
	extents  [loads][waysOfUse]extent // of stand's moments, where only what governs is wanted
	spots    []r2.Vec                 // hull of the centres of mass on the floor, for the watcher
	lean     float64                  // tangent of the tilt that anchors must hold, for the watcher
	pull     float64                  // greatest on an anchor, for the watcher
}

// poise is where the centre of mass of a case stands to one side: how far
// inside the feet over how high.
type poise struct {
	ratio         float64
	load, way, at int
}

// judge adds the rows of one user, nil for nobody.
//
// Mass and moment of mass grow in proportion to the load, so the ratio of
// inside to height is a quotient of two linear functions of it and has its
// least at the lightest or the heaviest, and with nothing lifted what is between
// load and cable stays down too: the middle load is looked at only where every case
// is told.
func (t *tipping) judge(out *require.Rows, id string, who int, title require.Phrase, person string, kg float64, user *Carriage) {
	s, base, stand, half := t.s, t.base, t.stand(), t.base.Half
	var least [3]poise
	for i := range least {
		least[i].ratio = math.Inf(1)
	}
	told := t.watch != nil
	for i := range stand.mass {
		if i == middleLoad && !told {
			continue
		}
		mass := stand.mass[i] + kg
		for w := range waysOfUse {
			here, side := poise{ratio: math.Inf(1)}, 0
			for k, c := range stand.moment[i][w] {
				if user != nil {
					u := &user[w][k]
					c.X, c.Y, c.Z = c.X+kg*u.X, c.Y+kg*u.Y, c.Z+kg*u.Z
				}
				up := 1 / c.Z
				insides := [3]float64{base.Front*mass - c.X, c.X - base.Rear*mass, half*mass - math.Abs(c.Y)}
				for j, inside := range insides {
					ratio := inside * up
					if ratio < least[j].ratio {
						least[j] = poise{ratio, i, w, k}
					}
					if ratio < here.ratio {
						here, side = poise{ratio, i, w, k}, j
					}
				}
				if told {
					c = r3.Scale(1/mass, c)
					t.spots = append(t.spots, r2.Vec{X: c.X, Y: c.Y}, r2.Vec{X: c.X, Y: -c.Y})
					// The greatest pull on one anchor, two to an edge, of a station
					// leaning by the limit of its tilt.
					long := base.Front - base.Rear
					for j, reach := range [3]float64{long, long, 2 * base.Half} {
						e := balance.Edge{Inside: insides[j] / mass}
						t.pull = max(t.pull, e.AnchorPull(mass, c.Z, t.lean, reach)/2)
					}
				}
			}
			if told {
				c := stand.moment[i][w][here.at]
				if user != nil {
					c = r3.Add(c, r3.Scale(kg, user[w][here.at]))
				}
				c = r3.Scale(1/mass, c)
				e := balance.LeastTilt(balance.Edges(base.Feet(), mass, c))
				t.watch.Tipping(StabilityCase{
					Case: title.Then(require.Name(wayNames[w] + ", " + loadNames[i])), Person: person, Mass: mass,
					X: c.X, Y: c.Y, Z: c.Z, Tilt: e.Tilt, Edge: sideNames[side], Energy: e.Energy,
					Angle: s.Angles[here.at], Lift: stand.lift[w][here.at],
				})
			}
		}
	}
	if told { // of one user's places no more than the hull is of use
		t.spots = append(t.spots[:0], contour.Hull(t.spots)...)
	}
	if t.anchored {
		return
	}
	for j, v := range least {
		w := out.Add(id, who, math.Atan(v.ratio)).At(s.Angles[v.at])
		if !out.Quiet {
			w.Case = title.Then(require.Name(wayNames[v.way] + ", " + loadNames[v.load] + ", over the " + sideNames[j]))
		}
	}
}
