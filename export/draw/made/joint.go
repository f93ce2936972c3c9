package made

import (
	"math"
	"regexp"
	"strings"

	"armwright/export/partlist"
	"armwright/geometry/assembly"
	"armwright/geometry/solid"
	"armwright/specs/stock"

	"gonum.org/v1/gonum/spatial/r3"
)

// joined tells the features of a part, which is the one of an index, what its joints
// use them for, and adds those that joints ask for beside them: seats, keyways,
// threads.
func (p *Part) joined(a *assembly.Assembly, at int) {
	own := p.Drawn.Place.Inverse()
	for k := range a.Joints {
		j := &a.Joints[k]
		other := j.B
		switch at {
		case j.A:
		case j.B:
			other = j.A
		default:
			continue
		}
		u := use{p: p, mate: &a.Parts[other], d: &j.Detail, at: own.Point(j.At)}
		u.place = own.Then(u.mate.Place)
		switch j.Kind {
		case assembly.Fit:
			u.fit()
		case assembly.Bolts:
			u.bolts(math.Hypot(j.Detail.Pattern[0], j.Detail.Pattern[1]) + near)
		case assembly.Swivel:
			u.bolts(math.Inf(1))
		}
	}
}

// near is how far, mm, a joint's place may be from the line of the hole it is about.
const near = 5.0

// use is one joint of a part with a mate, in the part's own frame.
type use struct {
	p     *Part
	mate  *assembly.Part
	d     *assembly.Detail
	at    r3.Vec
	place solid.Placement // of the mate
}

// screws are those of the joint: what is bought with a thread of its own keeps it.
func (u *use) screws() stock.Screws {
	if partlist.Studded(u.mate) || partlist.Studded(u.p.Drawn) {
		return stock.MetricCoarse
	}
	return u.p.screws
}

// fit is a round in a bore: of whichever the part is.
func (u *use) fit() {
	d := u.d
	hole, shaft, word := classes(d.Class)
	for i := range u.p.Features {
		f := &u.p.Features[i]
		if f.Kind != Hole || !u.about(f) {
			continue
		}
		tapped := d.Count == 0 && d.Thread > 0 && math.Abs(f.Size-stock.CoreHole(d.Thread)) < clear // for a bought stud
		screwed := d.Count == 0 && math.Abs(d.Thread-f.Size) < clear
		if u.mate.Is(assembly.Fastener|assembly.Adjusts) && !tapped && !screwed && math.Abs(f.Size-d.Diameter) <= clear {
			u.detents(f.Size)
			return
		}
		if !tapped && math.Abs(f.Size-d.Diameter) > clear {
			continue
		}
		switch {
		case tapped:
			f.note("tap " + strings.TrimSpace(stock.MetricCoarse.Name(d.Thread)+" "+hole))
		case screwed:
			f.note("thread " + threadOf(u.mate, d.Thread))
		case hole != "" && math.Abs(f.Size-d.Diameter) < 0.05:
			f.note(hole + ", " + called(u.mate))
		default:
			f.note(strings.TrimSpace("for " + called(u.mate) + " " + word))
		}
		if k, ok := stock.KeyFor(d.Diameter); ok && d.Key.Length > 0 {
			u.p.Features = append(u.p.Features, Feature{Kind: Keyway, At: f.At, Dir: f.Dir, Size: d.Key.Width, Deep: k.HubDepth, Inside: true, Standard: k.Standard, Note: k.HubClass()})
		}
		if d.Count > 0 && d.Thread > 0 && !u.mate.Is(assembly.Fastener) {
			name := u.p.screws.Name(d.Thread)
			note := "tap " + name + ", square to the bore"
			if d.Length > 0 {
				note = "drill for " + name + " across both ears"
			}
			u.p.Features = append(u.p.Features, Feature{Kind: Screw, At: u.at, Dir: f.Dir, Size: d.Thread, Count: d.Count, Open: d.Length > 0, Note: note})
		}
		return
	}
	u.seat(shaft)
}

// detents tells all holes of a size that a pin goes into one of them.
func (u *use) detents(size float64) {
	for i := range u.p.Features {
		if f := &u.p.Features[i]; f.Kind == Hole && math.Abs(f.Size-size) < same {
			f.note("for " + called(u.mate))
		}
	}
}

// seat is what a fit asks of a round part: its class over the length of the mate, and
// the keyway.
func (u *use) seat(class string) {
	d := u.d
	z := r3.Vec{Z: 1}
	start, end, ok := u.land()
	if !ok {
		return
	}
	if class != "" {
		low, high := solid.Bounds(u.mate.Solid, u.place)
		from, to := max(low.Z, start), min(high.Z, end)
		u.p.Features = append(u.p.Features, Feature{Kind: Seat, At: r3.Vec{Z: from}, Dir: z, Size: d.Diameter, Depth: to - from, Note: class + ", " + called(u.mate)})
	}
	if k, ok := stock.KeyFor(d.Diameter); ok && d.Key.Length > 0 {
		u.p.Features = append(u.p.Features, Feature{Kind: Keyway, At: r3.Vec{Z: u.at.Z - d.Key.Length/2}, Dir: z, Size: d.Key.Width, Depth: d.Key.Length, Deep: k.ShaftDepth, Standard: k.Standard, Note: k.ShaftClass() + ", " + called(u.mate)})
	}
}

// land is from where to where a round part has the diameter of a joint: the step at the
// joint's place or, where that is in a groove, all the steps of the diameter.
func (u *use) land() (start, end float64, ok bool) {
	start, end = math.Inf(1), math.Inf(-1)
	for i := range u.p.Features {
		f := &u.p.Features[i]
		if f.Kind != Step || math.Abs(f.Size-u.d.Diameter) > clear/2 {
			continue
		}
		from, to := f.At.Z, f.At.Z+f.Depth
		if from-same <= u.at.Z && u.at.Z <= to+same {
			return from, to, true
		}
		start, end = min(start, from), max(end, to)
	}
	return start, end, start-same <= u.at.Z && u.at.Z <= end+same
}

// bolts tells holes what screws go through them, or asks for holes where the mate has
// them, within a distance of the joint's place.
func (u *use) bolts(within float64) {
	t := u.d.Thread
	if t == 0 || u.d.Count == 0 {
		return
	}
	screws := u.screws()
	name := screws.Name(t)
	// Core holes count where there are no clearance holes.
	for _, tapped := range [...]bool{false, true} {
		found, word := false, "for "
		if tapped {
			word = "tap "
		}
		for i := range u.p.Features {
			f := &u.p.Features[i]
			if (f.Kind == Hole || f.Kind == Slot) && !f.Inside && f.Size < t == tapped && passes(f.Size, t, screws) && off(f, u.at) <= within {
				found = true
				f.note(word + name)
			}
		}
		if found {
			return
		}
	}
	ask := Feature{Kind: Hole, Asked: true, Size: screws.Core(t), Note: "tap " + name}
	if u.p.Form == assembly.Board {
		ask.Size, ask.Note = t, "insert "+name
	}
	if u.p.least() > 2.5*t {
		ask.Depth = 2 * t
	}
	mate := Part{Drawn: u.mate}
	mate.see(r3.Vec{})
	centre := r3.Sub(u.p.centre(), u.place.Point(mate.centre()))
	found := false
	for _, f := range drilled(&mate) {
		f.At, f.Dir = u.place.Point(f.At), u.place.Vector(f.Dir)
		if f.Kind != Hole || f.Inside || !passes(f.Size, t, screws) || off(&f, u.at) > within {
			continue
		}
		found = true
		u.ask(ask, f.At, f.Dir, centre)
	}
	if !found {
		u.ask(ask, u.at, u.place.Z, centre)
	}
}

// ask adds a hole that the solid does not have, drilled from the side of the mate.
func (u *use) ask(f Feature, at, dir, centre r3.Vec) {
	if r3.Dot(dir, centre) < 0 {
		dir = r3.Scale(-1, dir)
	}
	f.At, f.Dir = at, dir
	for _, o := range u.p.Features {
		if o.Asked && r3.Norm(r3.Sub(o.At, f.At)) < same {
			return
		}
	}
	u.p.Features = append(u.p.Features, f)
}

// least is the least side of the box round a part.
func (p *Part) least() float64 { return min(p.size.X, p.size.Y, p.thick) }

func (p *Part) centre() r3.Vec {
	low, high := solid.Bounds(p.Drawn.Solid, solid.World())
	return r3.Scale(0.5, r3.Add(low, high))
}

// about reports whether the joint's place is on a hole's centreline or on its wall.
func (u *use) about(f *Feature) bool {
	gap := off(f, u.at)
	return gap < 1 || math.Abs(gap-f.Size/2) < 1
}

// off is how far a place is from the centreline of a hole.
func off(f *Feature, at r3.Vec) float64 { return r3.Norm(r3.Cross(r3.Sub(at, f.At), f.Dir)) }

// note adds what a feature is for, once.
func (f *Feature) note(s string) {
	switch {
	case f.Note == "":
		f.Note = s
	case !strings.Contains(f.Note, s):
		f.Note += "; " + s
	}
}

// clear is the difference, mm, between a hole and what it is for up to which they
// belong together.
const clear = 0.6

// passes reports whether a hole is one for a thread: a clearance hole, or the core hole to
// be tapped.
func passes(hole, t float64, screws stock.Screws) bool {
	return partlist.Clears(hole, t) || math.Abs(hole-screws.Core(t)) < 0.35
}

// classes takes the class of a fit apart: that of the hole and of the shaft, or the
// words instead of them.
func classes(s string) (hole, shaft, word string) {
	a, b, two := strings.Cut(s, "/")
	switch {
	case two:
		return a, b, ""
	case fitClass.MatchString(s) && strings.ToUpper(s) == s:
		return s, "", ""
	case fitClass.MatchString(s):
		return "", s, ""
	}
	return "", "", s
}

var fitClass = regexp.MustCompile(`^[A-Za-z]{1,2}\d+$`)

// threadOf names the thread that a bought part has, with its pitch where it says so.
func threadOf(p *assembly.Part, d float64) string {
	name, _, _ := strings.Cut(p.Stock.Name, ",")
	metric := stock.MetricCoarse.Name(d)
	if strings.HasPrefix(name, metric) && !strings.Contains(name, " ") {
		return name
	}
	return metric
}

// called is a part's title without what follows a comma, in lower case.
func called(p *assembly.Part) string {
	s, _, _ := strings.Cut(p.Title, ",")
	return strings.ToLower(s[:1]) + s[1:]
}
