package partlist

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"armwright/geometry/assembly"
	"armwright/specs/stock"
)

// Fastener is something that joints are made with beside the parts: screws, nuts,
// washers, keys. It is no part of the assembly, nor of its balance.
type Fastener struct {
	Kind     string // "screw", "nut", "insert", "washer", "set screw", "key"
	Title    string
	Standard string
	Size     string  // "M14 x 40"
	Class    string  // of strength, "8.8"; empty for none
	Torque   float64 // to tighten to, N·mm; 0 where none is told
	Mass     float64 // of one, kg; 0 where it is not known
	Length   float64 // of a screw under its head, of a key, mm; 0 for what has none
	Count    int

	order int
}

// Ordered is how it is ordered: "ISO 4017 M14 x 40 8.8".
func (f *Fastener) Ordered() string {
	return strings.Join(strings.Fields(f.Standard+" "+f.Size+" "+f.Class), " ")
}

// Fasteners lists what some joints are made with, equal ones together: screws with
// their nuts and washers, then set screws and keys, the larger first.
func Fasteners(a *assembly.Assembly, joints []int) []Fastener {
	var out []Fastener
	for _, k := range joints {
		for _, f := range fastened(a, k) {
			i := slices.IndexFunc(out, func(o Fastener) bool { return o.Title == f.Title && o.Ordered() == f.Ordered() })
			if i < 0 {
				out = append(out, f)
				continue
			}
			out[i].Count += f.Count
		}
	}
	slices.SortStableFunc(out, func(a, b Fastener) int {
		return cmp.Or(cmp.Compare(a.order, b.order), cmp.Compare(b.Mass, a.Mass), cmp.Compare(a.Size, b.Size))
	})
	return out
}

// Every lists all joints of an assembly.
func Every(a *assembly.Assembly) []int {
	out := make([]int, len(a.Joints))
	for i := range out {
		out[i] = i
	}
	return out
}

// fastened is what one joint is made with.
func fastened(a *assembly.Assembly, joint int) []Fastener {
	j := &a.Joints[joint]
	p, q := &a.Parts[j.A], &a.Parts[j.B]
	var out []Fastener
	for _, h := range a.HardwareOf(joint) {
		t, known := stock.ThreadFor(h.Thread)
		name := thread(h.Thread)
		switch h.Kind {
		case assembly.ParallelKey:
			k := h.Key
			out = append(out, Fastener{Kind: "key", Title: "Parallel key", Standard: "DIN 6885-1", Size: "A " + trim(k.Width) + " x " + trim(k.Height) + " x " + trim(k.Length),
				Mass: stock.SteelDensity * (k.Length - (1-math.Pi/4)*k.Width) * k.Width * k.Height, Length: k.Length, Count: h.Count, order: 5})
		case assembly.SetScrew:
			out = append(out, Fastener{Kind: "set screw", Title: "Set screw", Standard: "ISO 4026", Size: name, Class: "45H", Count: h.Count, order: 4})
		default:
			wood := p.Stock.Form == assembly.Board || q.Stock.Form == assembly.Board
			stud := studded(p) || studded(q)
			if !stud {
				f := Fastener{Kind: "screw", Title: "Hexagon screw", Standard: "ISO 4017", Size: name, Class: "8.8", Length: h.Length, Count: h.Count, order: 0}
				if h.Length > 0 {
					f.Length = preferred(h.Length)
					f.Size += " x " + trim(f.Length)
				}
				if known {
					f.Mass = t.ScrewMass(f.Length)
				}
				if known && !wood {
					f.Torque = t.Torque()
				}
				out = append(out, f)
			}
			washers := h.Count
			switch {
			case wood:
				out = append(out, Fastener{Kind: "insert", Title: "Screw-in nut for wood", Size: name, Count: h.Count, order: 2})
			case j.Kind == assembly.Fit || !tapped(p, j) && !tapped(q, j): // what clamps goes through both ears
				out = append(out, Fastener{Kind: "nut", Title: "Hexagon nut", Standard: "ISO 4032", Size: name, Class: "8", Mass: t.NutMass(), Count: h.Count, order: 1})
				if !stud {
					washers *= 2
				}
			case stud:
				washers = 0
			}
			if washers > 0 {
				out = append(out, Fastener{Kind: "washer", Title: "Washer", Standard: "ISO 7089", Size: trim(h.Thread), Class: "200 HV", Mass: t.WasherMass(), Count: washers, order: 3})
			}
		}
	}
	return out
}

// studded tells whether a part is bought with a screw of its own: a rubber buffer.
func studded(p *assembly.Part) bool {
	return p.Stock.Form == assembly.Bought && p.Is(assembly.Soft)
}

// tapped tells whether the bolts of a joint go into threads of a part: into core holes,
// or into holes that its solid does not have.
func tapped(p *assembly.Part, j *assembly.Joint) bool {
	const slack = 0.35 // of a drill from the core hole, mm
	t := j.Detail.Thread
	core := false
	for _, b := range p.About(j) {
		if Clears(b.Diameter, t) {
			return false
		}
		core = core || math.Abs(b.Diameter-stock.CoreHole(t)) < slack
	}
	return core || p.Stock.Form != assembly.Bought
}

// Clears tells whether a hole lets a thread through without more play than a coarse
// clearance hole of ISO 273 has (M).
func Clears(hole, t float64) bool { return hole > t && hole <= 1.25*t+0.5 }

// preferred is the next length of ISO 888 (M), mm.
func preferred(length float64) float64 {
	for _, l := range [...]float64{8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120, 130, 140, 150, 160, 180, 200} {
		if length <= l+1e-6 {
			return l
		}
	}
	return math.Ceil(length/20-1e-6) * 20
}

func thread(d float64) string { return "M" + trim(d) }
func trim(x float64) string   { return strconv.FormatFloat(x, 'g', 4, 64) }
