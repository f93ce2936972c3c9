package draw

import (
	"errors"
	"sync"

	"armwright/export/sheet"
	"armwright/solver"

	"gonum.org/v1/gonum/spatial/r3"
)

// Picture is one view of a station for a screen, without dimensions.
type Picture struct {
	Name    string // "side", "front", "plan", "axonometric"
	Drawing *sheet.Drawing
}

// Size, paper mm, that a picture fills in one direction.
const (
	pictureWide = 180.0
	pictureTall = 130.0
)

// Pictures draws a station from the user's right with a person of middle size,
// from the front, from above, and in an axonometric view: what stands in full
// lines without hidden edges, what moves also in its other end position. A
// study on the bench has none. Errors are those of [CamOf] and of
// [sheet.View.Picture].
func Pictures(r *solver.Result) ([]Picture, error) {
	if len(r.Structure.Members) == 0 {
		return nil, nil
	}
	d := &drafter{machine: newMachine(r), units: sheet.Millimetres}
	if r.Frame.Geometry.Cam != nil {
		c, err := CamOf(r)
		if err != nil {
			return nil, err
		}
		d.cam = &c
	}
	bodies := d.bodies()
	for i := range bodies {
		bodies[i].bare = true
		bodies[i].base = coarser(bodies[i])
	}
	views := [...]struct {
		name, title, description string
		camera                   camera
	}{
		{"side", "Seen from the user's right", "The station from the user's right with a person of middle size, arms at the first and the last loaded angle.", fromRight()},
		{"front", "Seen from the front", "The station from the front.", fromFront()},
		{"plan", "Plan", "The station from above, the front to the right.", fromAbove()},
		{"axonometric", "Axonometric view", "The station from the front, the user's right and above.", axonometric()},
	}
	out := make([]Picture, len(views))
	errs := make([]error, len(views))
	var wait sync.WaitGroup
	for i, w := range views {
		wait.Go(func() {
			v := sheet.View{Title: w.title, Entities: drawn(bodies, w.camera)}
			if all := r.People.Boundary; w.name == "side" && len(all) > 0 {
				v.Entities = append(v.Entities, d.figure(&all[0], w.camera, sheet.Phantom)...)
			}
			v.Entities = append(v.Entities, d.cableLine(w.camera, true)...)
			out[i].Name = w.name
			out[i].Drawing, errs[i] = v.Picture(i+1, w.title, w.description, pictureWide, pictureTall)
		})
	}
	wait.Wait()
	return out, errors.Join(errs...)
}

// coarser is the base of a body for a screen: of a curve every third corner,
// which is enough for a circle of 24.
func coarser(p prism) []r3.Vec {
	const least = 36 // corners of a curve that is thinned
	if !p.round || len(p.base) < least {
		return p.base
	}
	var out []r3.Vec
	for i := 0; i < len(p.base); i += 3 {
		out = append(out, p.base[i])
	}
	return out
}
