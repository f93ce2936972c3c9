package draw

import (
	"bytes"
	"errors"
	"html/template"
	"slices"
	"strings"
	"sync"

	"armwright/export/hidden"
	"armwright/export/sheet"
	"armwright/export/svg"
	"armwright/solver"
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

// Pictures draws a station from the user's right with a person of middle size in thin lines,
// from the front, from above, and in an axonometric view: what stands in full
// lines without hidden edges, what moves also in its other end position. A
// study on the bench has none. Names are those to draw, all where there are none.
// Errors are those of [sheet.View.Picture].
func Pictures(r *solver.Result, names ...string) ([]Picture, error) {
	if r.Station.Assembly == nil {
		return nil, nil
	}
	d := &drafter{machine: newMachine(r), units: sheet.Millimetres}
	d.sagitta = pictureChord
	bodies := d.whole(pictureLeast)
	type view struct {
		name, title, description string
		camera                   hidden.Camera
	}
	views := []view{
		{"side", "Seen from the user's right", "The station from the user's right with a person of middle size, arms at the first and the last loaded angle.", hidden.FromRight()},
		{"front", "Seen from the front", "The station from the front.", hidden.FromFront()},
		{"plan", "Plan", "The station from above, the front to the right.", hidden.FromAbove()},
		{"axonometric", "Axonometric view", "The station from the front, the user's right and above.", hidden.Axonometric()},
	}
	if len(names) > 0 {
		views = slices.DeleteFunc(views, func(v view) bool { return !slices.Contains(names, v.name) })
	}
	out := make([]Picture, len(views))
	errs := make([]error, len(views))
	var wait sync.WaitGroup
	for i, w := range views {
		wait.Go(func() {
			v := sheet.View{Title: w.title, Entities: hidden.NewScene(bodies, w.camera).Lines()}
			if all := r.People.Boundary; w.name == "side" && len(all) > 0 {
				v.Entities = append(v.Entities, d.body(&all[0], w.camera)...)
			}
			v.Entities = append(v.Entities, d.flexible(w.camera, true)...)
			out[i].Name = w.name
			out[i].Drawing, errs[i] = v.Picture(i+1, w.title, w.description, pictureWide, pictureTall)
		})
	}
	wait.Wait()
	return out, errors.Join(errs...)
}

// pictureChord is how far, mm, a straight line may stand off a curve on a screen.
const pictureChord = 2.0

// pictureLeast is the size, mm, of the least part that a picture shows: about 4 mm on a
// screen.
const pictureLeast = 50.0

// Portrait is the station from the user's right with a person in it, as an element for a
// page; empty of a study on the bench. Errors are those of [Pictures].
func Portrait(r *solver.Result) (template.HTML, error) {
	list, err := Pictures(r, "side")
	if err != nil || len(list) == 0 {
		return "", err
	}
	var b bytes.Buffer
	if err := (svg.Renderer{}).Render(&b, list[0].Drawing); err != nil {
		return "", err
	}
	_, inline, _ := strings.Cut(b.String(), "<svg")
	return template.HTML("<svg" + inline), nil
}
