package weldment

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"
)

// First is the number of the first sheet of a weldment.
const First = 101

// Weldment is what one sheet shows.
type Weldment struct {
	Number int    // of its sheet
	ID     string // of its datum member, with its side unless it is of both: the name of its files ends so
	Title  string
	Side   assembly.Side
	Blocks []Block // what is put together on this sheet, the datum first
	Welds  []int   // joints of the assembly that are welded on this sheet, in their order
}

// Block is a member of a weldment: one part, or in the frame a weldment made before.
type Block struct {
	Lead  int   // the part by which it is placed
	Parts []int // all of it
	Sheet int   // number of the sheet that it is made by, 0 for a part
}

// Parts are those of all blocks.
func (w *Weldment) Parts() []int {
	var out []int
	for i := range w.Blocks {
		out = append(out, w.Blocks[i].Parts...)
	}
	return out
}

// Find returns the weldments of an assembly, the frame first, then what it is welded of,
// then the others in the order of their parts. The sheets are numbered from [First].
func Find(a *assembly.Assembly) []Weldment {
	f := newFinder(a)
	var out []Weldment
	for _, set := range f.joined(func(int) bool { return true }) {
		if base := f.base(set); len(base) > 0 {
			out = append(f.frame(set, base), out...)
			continue
		}
		out = append(out, f.weldment(set, f.root(set)))
	}
	for i := range out {
		out[i].Number = First + i
	}
	for i := range out {
		for k := range out[i].Blocks {
			b := &out[i].Blocks[k]
			if len(b.Parts) == 1 {
				continue
			}
			for j := range out {
				if j != i && slices.Equal(out[j].Parts(), b.Parts) {
					b.Sheet = out[j].Number
				}
			}
		}
	}
	return out
}

// finder knows how far, in joints, every part is from the floor.
type finder struct {
	a    *assembly.Assembly
	away []int
}

func newFinder(a *assembly.Assembly) *finder {
	f := &finder{a: a, away: make([]int, len(a.Parts))}
	next := make([][]int, len(a.Parts))
	for i := range a.Joints {
		if j := &a.Joints[i]; j.Kind.Holds() {
			next[j.A], next[j.B] = append(next[j.A], j.B), append(next[j.B], j.A)
		}
	}
	var queue []int
	for i := range a.Parts {
		f.away[i] = math.MaxInt
		if a.Parts[i].Is(assembly.Ground) {
			f.away[i], queue = 0, append(queue, i)
		}
	}
	for len(queue) > 0 {
		i := queue[0]
		queue = queue[1:]
		for _, k := range next[i] {
			if f.away[k] > f.away[i]+1 {
				f.away[k], queue = f.away[i]+1, append(queue, k)
			}
		}
	}
	return f
}

// joined are the sets of two parts or more that welds join, of those that count.
func (f *finder) joined(counts func(part int) bool) [][]int {
	return slices.DeleteFunc(f.a.Welded(counts), func(set []int) bool { return len(set) < 2 })
}

// root is the member that holds the others on the machine: the nearest to the floor; of
// those as near, one that turns or slides in a close fit, else the first.
func (f *finder) root(set []int) int {
	return slices.MinFunc(set, func(p, q int) int {
		return cmp.Or(f.away[p]-f.away[q], len(fits(f.a, q))-len(fits(f.a, p)))
	})
}

// fits are the close fits of a part, as joints of the assembly.
func fits(a *assembly.Assembly, part int) []int {
	var out []int
	for i := range a.Joints {
		if j := &a.Joints[i]; j.Kind == assembly.Fit && (j.A == part || j.B == part) && close(j.Detail.Class) {
			out = append(out, i)
		}
	}
	return out
}

// close reports whether a hole of a fit of ISO 286 is drawn out of shape by a weld beside
// it: of grade 7 and finer.
func close(class string) bool {
	hole, _, _ := strings.Cut(class, "/")
	grade, err := strconv.Atoi(strings.TrimLeft(hole, "ABCDEFGHJKMNPRSTUVXYZ"))
	return err == nil && grade <= 7
}

// onFeet is how far a tube over the feet is from the floor: foot, its seat, the tube.
const onFeet = 2

// base are the members of a set that lie no higher than the tubes which the feet are
// under; none of a set that does not stand on feet.
func (f *finder) base(set []int) []int {
	top := math.Inf(-1)
	rise := func(i int) float64 {
		_, high := solid.Bounds(f.a.Parts[i].Solid, f.a.Parts[i].Place)
		return high.Z
	}
	for _, i := range set {
		if f.away[i] == onFeet && f.seats(i) {
			top = max(top, rise(i))
		}
	}
	var out []int
	for _, i := range set {
		if rise(i) < top+1 {
			out = append(out, i)
		}
	}
	return out
}

// seats reports whether a part that a foot is screwed into is welded to a part.
func (f *finder) seats(part int) bool {
	for i := range f.a.Joints {
		j := &f.a.Joints[i]
		if j.Kind == assembly.Weld && (j.A == part && f.away[j.B] == 1 || j.B == part && f.away[j.A] == 1) {
			return true
		}
	}
	return false
}

// frame takes what stands on feet apart: the frame itself, its base, and the weldments
// that stand on the base. A single part on the base belongs to it.
func (f *finder) frame(set, base []int) []Weldment {
	low, in := map[int]bool{}, map[int]bool{}
	for _, i := range base {
		low[i] = true
	}
	for _, i := range set {
		in[i] = true
	}
	branches := f.joined(func(i int) bool { return in[i] && !low[i] })
	for _, b := range branches {
		for _, i := range b {
			delete(in, i)
		}
	}
	foot := make([]int, 0, len(in))
	for _, i := range set {
		if in[i] {
			foot = append(foot, i)
		}
	}
	// The longest member that the feet are under: a rail.
	rails := slices.DeleteFunc(slices.Clone(base), func(i int) bool { return f.away[i] != onFeet })
	longest := slices.MaxFunc(rails, func(p, q int) int {
		if long, than := f.length(p), f.length(q); long != than {
			return int(math.Copysign(1, long-than))
		}
		return q - p
	})
	subs := []Weldment{f.weldment(foot, longest)}
	subs[0].Title = "Base"
	for _, b := range branches {
		subs = append(subs, f.weldment(b, f.root(b)))
	}
	if len(branches) == 0 {
		return subs
	}
	whole := Weldment{ID: "frame", Title: "Frame"}
	within := make([]int, len(f.a.Parts)) // block of each part, from 1
	for k := range subs {
		w := &subs[k]
		parts := w.Parts()
		whole.Blocks = append(whole.Blocks, Block{Lead: w.Blocks[0].Lead, Parts: parts})
		for _, i := range parts {
			within[i] = k + 1
		}
	}
	for i := range f.a.Joints {
		j := &f.a.Joints[i]
		if j.Kind == assembly.Weld && within[j.A] > 0 && within[j.B] > 0 && within[j.A] != within[j.B] {
			whole.Welds = append(whole.Welds, i)
		}
	}
	return append([]Weldment{whole}, subs...)
}

func (f *finder) length(i int) float64 {
	low, high := solid.Bounds(f.a.Parts[i].Solid, solid.World())
	return max(high.X-low.X, high.Y-low.Y, high.Z-low.Z)
}

// weldment is a set of parts as one sheet, with its datum member.
func (f *finder) weldment(set []int, root int) Weldment {
	p := &f.a.Parts[root]
	w := Weldment{ID: p.ID, Title: p.Title, Side: p.Side}
	in := map[int]bool{}
	w.Blocks = append(w.Blocks, Block{Lead: root, Parts: []int{root}})
	for _, i := range set {
		in[i] = true
		if i != root {
			w.Blocks = append(w.Blocks, Block{Lead: i, Parts: []int{i}})
		}
		// Of both sides, or of one.
		if f.a.Parts[i].Side != p.Side {
			w.Side = assembly.Middle
		}
	}
	if w.Side != p.Side {
		w.ID, w.Title = p.Item, p.Title+"s"
	}
	for _, name := range [2]string{p.Item, strings.TrimSuffix(p.ID, "-"+p.Side.String())} {
		if t, ok := titles()[name]; ok {
			w.Title = t
		}
	}
	for i := range f.a.Joints {
		if j := &f.a.Joints[i]; j.Kind == assembly.Weld && in[j.A] && in[j.B] {
			w.Welds = append(w.Welds, i)
		}
	}
	return w
}

// titles are those of weldments that are called by another name than their datum
// member.
func titles() map[string]string {
	return map[string]string{
		"swivel-sole": "Swivel bracket", "arm-hub": "Arm", "seat-post": "Seat carriage", "tower-upright": "Tower",
		"handle-slide": "Handle", "counter-collar": "Counterweight bar", "counter-bar": "Counterweight bar", "sheave-rail-foot": "Rear sheave stand",
		"sheave-tower-foot": "Front sheave stand", "guide-post": "Guide sheave stand", "guide-stem": "Guide sheave fork", "sheave-guide-fork": "Guide sheave fork",
		"lever-collar": "Plate lever", "input-collar": "Input bar", "output-collar": "Output lever", "stack-head": "Stack head",
		"foot-sleeve": "Foot plate",
	}
}
