package weldment

import (
	"math"
	"strconv"

	"armwright/export/sheet"
	"armwright/geometry/assembly"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// symbols points at every weld in the view that shows its seam best, and lists them.
func (g *drawing) symbols() sheet.Table {
	t := sheet.Table{Title: "Welds, in their order, " + g.Units.Symbol(), Columns: sheet.Columns("No", "<Item", "<on", "<Weld", ">All runs", ">Run")}
	for n, k := range g.w.Welds {
		j := &g.Assembly.Joints[k]
		fillet := FilletOf(g.Assembly, j)
		number := strconv.Itoa(n + 1)
		symbol := sheet.Weld{Throat: fillet.Throat, Around: fillet.Around, Both: fillet.Runs == 2, Tail: number}
		if !fillet.Around {
			symbol.Length = fillet.Length
		}
		v, at := g.seam(j)
		symbol.At = at
		g.views[v].Entities = append(g.views[v].Entities, symbol)
		kind, run := "one side", g.Units.Figure(fillet.Length)
		switch {
		case fillet.Around:
			kind = "all round"
		case fillet.Runs == 2:
			kind, run = "both sides", "2 x "+run
		}
		t.Rows = append(t.Rows, []string{number, g.name(j.A), g.name(j.B), kind + ", " + symbol.Size(g.Units), g.Units.Figure(float64(fillet.Runs) * fillet.Length), run})
	}
	return t
}

// name is a part in the table of welds.
func (g *drawing) name(i int) string {
	p := g.part(i)
	if p.Side != assembly.Middle && g.w.Side == assembly.Middle {
		return g.Item[i] + " " + p.Side.String()
	}
	return g.Item[i]
}

// seam is a place on the seam of a weld where an arrow may point, and the view, of the
// three, where it can be seen farthest out of the middle.
func (g *drawing) seam(j *assembly.Joint) (view int, at r2.Vec) {
	least := math.Inf(-1)
	middle := g.frame.Point(r3.Scale(0.5, r3.Add(g.low, g.high)))
	const proud = 1.0 // mm off the surfaces
	f := &g.frame
	for v := range 3 {
		w := &g.views[v]
		right, up := [3]r3.Vec{f.X, f.Y, f.X}[v], [3]r3.Vec{f.Z, f.Z, f.Y}[v]
		toward := r3.Cross(right, up)
		out := g.room(j, j.At, toward)
		for _, dir := range [4]r3.Vec{right, r3.Scale(-1, right), up, r3.Scale(-1, up)} {
			reach := g.room(j, j.At, dir)
			q := r3.Add(j.At, r3.Scale(reach, dir))
			front := r3.Add(r3.Add(j.At, r3.Scale(max(0, reach-proud), dir)), r3.Scale(out+proud, toward))
			worth := r2.Norm(r2.Sub(w.See(q), w.See(middle))) / g.size()
			if reach > 1 {
				worth++ // along the seam, not into a part
			}
			if w.Sees(front) || w.Sees(r3.Add(q, r3.Scale(proud, r3.Add(dir, toward)))) {
				worth += 4
			}
			// A place of its own: symbols side by side are in each other's way.
			for _, e := range w.Entities {
				if o, ok := e.(sheet.Weld); ok && r2.Norm(r2.Sub(o.At, w.See(q)))*g.scale.Factor() < crowded {
					worth -= 0.8
				}
			}
			if worth > least+1e-9 {
				least, view, at = worth, v, w.See(q)
			}
		}
	}
	return view, at
}

// crowded is the distance between arrows, paper mm, below which symbols look for room
// elsewhere.
const crowded = 15.0

// room is how far both parts of a joint reach from a place along a direction, by the
// boxes round them in their own frames.
func (g *drawing) room(j *assembly.Joint, from, dir r3.Vec) float64 {
	out := math.Inf(1)
	for _, i := range [2]int{j.A, j.B} {
		p := g.part(i)
		own := p.Place.Inverse()
		q, d := own.Point(from), own.Vector(dir)
		low, high := solid.Bounds(p.Solid, solid.World())
		for _, a := range [3][4]float64{{q.X, d.X, low.X, high.X}, {q.Y, d.Y, low.Y, high.Y}, {q.Z, d.Z, low.Z, high.Z}} {
			switch {
			case a[1] > parallel:
				out = min(out, (a[3]-a[0])/a[1])
			case a[1] < -parallel:
				out = min(out, (a[2]-a[0])/a[1])
			}
		}
	}
	return max(0, out)
}

// notes say what the tables leave out: the datum, the order, what is machined when the
// weldment has cooled.
func (g *drawing) notes() []string {
	root := g.part(g.placed[0].Part)
	datum := "x, y and z count from three faces of item " + g.Item[g.placed[0].Part] + ", " + lower(root.Title)
	if round(root) {
		datum = "x, y and z count from the axis and the end of item " + g.Item[g.placed[0].Part] + ", " + lower(root.Title)
	}
	size := "a the throat"
	if g.Units != sheet.Millimetres {
		size = "the size is the leg"
	}
	out := []string{
		datum + ", where the cross stands; ordinates and table say the same of each member's nearer face, or of its axis.",
		"Fillets all over, " + size + ". Tack all members, check them against the table, then weld in the order of the table: opposite sides in turn, short runs.",
	}
	if g.anyAskew() {
		out = append(out, "Plan and rise are angles of the member's own axis, a plate's across its face, from x towards y and above the plane of x and y; turn is that about it.")
	}
	return append(out, g.machined()...)
}

func (g *drawing) anyAskew() bool {
	for i := range g.placed {
		if !g.placed[i].Square {
			return true
		}
	}
	return false
}

func lower(s string) string {
	if s == "" {
		return s
	}
	return string(s[0]|0x20) + s[1:]
}

// machined says what fits are made when the weldment has cooled, and what is kept true
// while it is welded.
func (g *drawing) machined() []string {
	in := map[int]bool{}
	for _, i := range g.w.Parts() {
		in[i] = true
	}
	var out []string
	seen := map[string]bool{}
	say := func(s string) {
		if !seen[s] {
			seen[s], out = true, append(out, s)
		}
	}
	for i := range g.Assembly.Joints {
		j := &g.Assembly.Joints[i]
		if in[j.A] == in[j.B] {
			continue
		}
		mine := j.A
		if in[j.B] {
			mine = j.B
		}
		switch {
		case len(in) > len(g.w.Blocks): // told where it is made
		case j.Kind == assembly.Fit && close(j.Detail.Class):
			say("Item " + g.Item[mine] + ": the fit " + j.Detail.Class + " on diameter " + g.Units.Figure(j.Detail.Diameter) + " is finished after welding.")
		case j.Kind == assembly.Slide:
			say("Item " + g.Item[mine] + ": keep the sliding faces free of weld and spatter; try the fit of what slides.")
		case j.Kind == assembly.Swivel:
			say("Item " + g.Item[mine] + ": its face is flat to " + g.Units.Figure(0.5) + " after welding; its holes are reamed with the mating plate.")
		}
	}
	if a, b, ok := g.carriers(); ok {
		say("Items " + a + " and " + b + " carry one axis: weld them on a straight bar through both bores, the runs inside and outside in turn; the bar turns by hand when the weldment has cooled.")
	}
	return out
}

// carriers are two members with round holes about one axis.
func (g *drawing) carriers() (a, b string, ok bool) {
	type hole struct {
		part  int
		at, z r3.Vec
		wide  float64
	}
	var list []hole
	const least = 15.0 // mm: of a shaft or its bearing, not of a screw
	for _, i := range g.w.Parts() {
		s, prism := g.part(i).Solid.(solid.Prism)
		if !prism {
			continue
		}
		for _, h := range s.Profile.Holes() {
			if c, radius, isCircle := h.Round(); isCircle && 2*radius >= least {
				list = append(list, hole{i, g.part(i).Place.Point(r3.Vec{X: c.X, Y: c.Y}), g.part(i).Place.Z, 2 * radius})
			}
		}
	}
	for k, p := range list {
		for _, q := range list[:k] {
			if p.part == q.part || g.Item[p.part] == g.Item[q.part] || !along(p.z, q.z) {
				continue
			}
			if r3.Norm(r3.Cross(r3.Sub(p.at, q.at), p.z)) < 0.1 {
				return g.Item[q.part], g.Item[p.part], true
			}
		}
	}
	return "", "", false
}
