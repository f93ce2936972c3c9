package platework

import (
	"math"
	"path"
	"slices"
	"strings"

	"armwright/export/cutfile"
	"armwright/geometry/assembly"
	"armwright/geometry/cam"
	"armwright/geometry/contour"
	"armwright/geometry/solid"
	"armwright/solver"

	"gonum.org/v1/gonum/spatial/r2"
)

// plateFile is one cut file of a station's plates.
type plateFile struct {
	item        assembly.Item
	name, title string
	parts       []int // that are cut from it
	side        string
}

// plateFiles are those of a station without those of its drive, one an item and one more
// where left and right differ.
func plateFiles(a *assembly.Assembly) []plateFile {
	var out []plateFile
	for _, item := range a.Items() {
		if len(item.Parts) == 0 || !cutFromPlate(&a.Parts[item.Parts[0]]) {
			continue
		}
		switch item.ID {
		case "cam-core", "cam-cheek", "cam-hub", "input-bar", "coupler", "output-bar", "plate-lever":
			continue // with the drive
		}
		right, left := sides(a, &item)
		if left != nil && !turnsRound(ProfileOf(right)) {
			out = append(out, plateFile{item, item.ID, item.Title, ofSide(a, item.Parts, false), ", right"},
				plateFile{item, item.ID + "-left", item.Title + ", left", ofSide(a, item.Parts, true), ""})
			continue
		}
		out = append(out, plateFile{item, item.ID, item.Title, item.Parts, ""})
	}
	return out
}

// ofStation are what these files hold: what is cut from one file has the marks that
// all of it needs.
func ofStation(a *assembly.Assembly) []plate {
	var out []plate
	for _, f := range plateFiles(a) {
		p := newPlate(f.name, f.title, f.item.Stock.Size[2], ProfileOf(&a.Parts[f.parts[0]]), traced(a, f.parts))
		p.count = len(f.parts)
		p.what += f.side
		out = append(out, p)
	}
	return out
}

// ofSide are those of some parts that are left, or those that are not.
func ofSide(a *assembly.Assembly, parts []int, left bool) []int {
	var out []int
	for _, i := range parts {
		if (a.Parts[i].Side == assembly.Left) == left {
			out = append(out, i)
		}
	}
	return out
}

// traced are the traces on the face that is seen as parts are cut: what is welded there
// is set on them.
func traced(a *assembly.Assembly, parts []int) []cam.Mark {
	var out []cam.Mark
	for _, t := range cutfile.Common(a, parts) {
		if !t.Far {
			out = append(out, cam.Mark{Name: "trace", From: t.A, To: t.B})
		}
	}
	return out
}

// cutFromPlate reports whether a part is cut from plate or sheet on its outline: a
// straight prism as thick as the stock, no strip that is bent or seen on its edge.
func cutFromPlate(p *assembly.Part) bool {
	if p.Stock.Form != assembly.Plate && p.Stock.Form != assembly.Sheet {
		return false
	}
	s, ok := p.Solid.(solid.Prism)
	return ok && len(s.Bores) == 0 && s.From.Tilt == r2.Vec{} && s.To.Tilt == r2.Vec{} && math.Abs(s.To.Z-s.From.Z-p.Stock.Size[2]) < asThick
}

// asThick is the difference, mm, below which two thicknesses are alike.
const asThick = 0.05

// sides are a part of an item that is not on the left, and one that is, nil without.
func sides(a *assembly.Assembly, item *assembly.Item) (right, left *assembly.Part) {
	for _, i := range item.Parts {
		p := &a.Parts[i]
		if p.Side == assembly.Left {
			left = p
		} else if right == nil {
			right = p
		}
	}
	if right == nil {
		right, left = left, nil
	}
	return right, left
}

// leastPierced is the least hole that is cut, as a share of the thickness: what shops
// refuse is half of it (docs/dxf.md). Smaller ones are etched as a cross, to be drilled.
const leastPierced = 0.5

// newPlate is the cut file of a profile with its name and other marks etched on; the name
// keeps off the marks where it can.
func newPlate(name, title string, thick float64, p *solid.Profile, marks []cam.Mark) plate {
	out := plate{path: "cut/" + name + ".dxf", what: strings.ToLower(title), outline: p.Outer(), thickness: thick, marks: marks}
	for _, h := range p.Holes() {
		switch centre, radius, ok := h.Round(); {
		case !ok:
			out.slots = append(out.slots, h)
		case 2*radius < leastPierced*thick:
			for _, arm := range [2]r2.Vec{{X: radius}, {Y: radius}} {
				out.marks = append(out.marks, cam.Mark{Name: "drill", From: r2.Sub(centre, arm), To: r2.Add(centre, arm)})
			}
		default:
			out.holes = append(out.holes, cam.Hole{Name: "hole", Centre: centre, Diameter: 2 * radius})
		}
	}
	taken := slices.Clone(p.Holes())
	for _, m := range marks {
		taken = append(taken, contour.Polygon(m.From, m.To))
	}
	letters := cutfile.Name(name, p.Outer(), taken)
	if letters == nil {
		letters = cutfile.Name(name, p.Outer(), p.Holes())
	}
	for _, m := range letters {
		out.marks = append(out.marks, cam.Mark{Name: "name", From: m[0], To: m[1]})
	}
	return out
}

// turnsRound reports whether a plate turned over falls on itself in some way: its outline
// and holes mirrored in one of the axes through the middle of its box.
func turnsRound(p *solid.Profile) bool {
	box := p.Bounds()
	middle := r2.Scale(0.5, r2.Add(box.Min, box.Max))
	for _, flip := range [2]r2.Vec{{X: 1, Y: -1}, {X: -1, Y: 1}} {
		turn := func(q r2.Vec) r2.Vec {
			return r2.Vec{X: middle.X + flip.X*(q.X-middle.X), Y: middle.Y + flip.Y*(q.Y-middle.Y)}
		}
		falls := func(loop contour.Path, on []contour.Path) bool {
			for _, q := range loop.Points(1) {
				near := math.Inf(1)
				for _, o := range on {
					gap, _ := o.Distance(turn(q))
					near = min(near, gap)
				}
				if near > 1e-3 {
					return false
				}
			}
			return true
		}
		same := falls(p.Outer(), []contour.Path{p.Outer()})
		for _, h := range p.Holes() {
			same = same && falls(h, p.Holes())
		}
		if same {
			return true
		}
	}
	return false
}

// ProfileOf is the outline of a plate, nil of what is none.
func ProfileOf(p *assembly.Part) *solid.Profile {
	if p == nil {
		return nil
	}
	if s, ok := p.Solid.(solid.Prism); ok {
		return s.Profile
	}
	return nil
}

// Paths are the cut files of a station by the id of the item that they cut, the
// left one last. Errors are those of [CamOf].
func Paths(r *solver.Result) (map[string][]string, error) {
	drive, err := ofDrive(r)
	if err != nil {
		return nil, err
	}
	out := map[string][]string{}
	for _, p := range drive {
		id := strings.TrimSuffix(path.Base(p.path), ".dxf")
		if id == "cam" {
			id = "cam-core"
		}
		out[id] = append(out[id], p.path)
	}
	for _, f := range plateFiles(r.Station.Assembly) {
		out[f.item.ID] = append(out[f.item.ID], "cut/"+f.name+".dxf")
	}
	return out, nil
}
