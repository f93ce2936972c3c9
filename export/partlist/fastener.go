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
	Size     string  // "M14 x 40", "9/16-12 UNC x 1 5/8"
	Class    string  // of strength, "8.8", "grade 8"; empty for none
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

// Fasteners lists what some joints are made with, equal ones together: screws of a system
// with their nuts and washers, then set screws and keys, the larger first. What is bought
// with a stud of its own keeps its thread, and the nut on it; keys are those of the shaft.
func Fasteners(a *assembly.Assembly, joints []int, system stock.Screws) []Fastener {
	var out []Fastener
	for _, k := range joints {
		for _, f := range fastened(a, k, system) {
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

// ware is what a system of screws is ordered by.
type ware struct {
	screw, nut, washer, set string // standards
	class, nutClass         string
	setClass, washerClass   string
}

func wares(s stock.Screws) ware {
	if s == stock.UnifiedCoarse {
		return ware{screw: "ASME B18.2.1", nut: "ASME B18.2.2", washer: "ASME B18.21.1", set: "ASME B18.3", class: "grade 8", nutClass: "grade 8", setClass: "alloy steel", washerClass: "type A narrow"}
	}
	return ware{screw: "ISO 4017", nut: "ISO 4032", washer: "ISO 7089", set: "ISO 4026", class: "8.8", nutClass: "8", setClass: "45H", washerClass: "200 HV"}
}

// ClampScrew is the screw that clamps a split hub, as it is ordered.
func ClampScrew(thread float64, s stock.Screws) string {
	return s.Name(thread) + " " + wares(s).class + " with nut"
}

// fastened is what one joint is made with.
func fastened(a *assembly.Assembly, joint int, system stock.Screws) []Fastener {
	j := &a.Joints[joint]
	p, q := &a.Parts[j.A], &a.Parts[j.B]
	stud := Studded(p) || Studded(q)
	if stud {
		system = stock.MetricCoarse
	}
	w := wares(system)
	var out []Fastener
	for _, h := range a.HardwareOf(joint) {
		t, known := system.Thread(h.Thread)
		name := system.Name(h.Thread)
		switch h.Kind {
		case assembly.ParallelKey:
			k := h.Key
			standard, size := stock.KeyOrder(k.Width, k.Height, k.Length)
			volume := (k.Length - (1-math.Pi/4)*k.Width) * k.Width * k.Height
			if k.Width == k.Height && stock.InchSize(k.Length) { // its ends are square
				volume = k.Length * k.Width * k.Height
			}
			out = append(out, Fastener{Kind: "key", Title: "Parallel key", Standard: standard, Size: size, Mass: stock.SteelDensity * volume, Length: k.Length, Count: h.Count, order: 5})
		case assembly.SetScrew:
			out = append(out, Fastener{Kind: "set screw", Title: "Set screw", Standard: w.set, Size: name, Class: w.setClass, Count: h.Count, order: 4})
		default:
			wood := p.Stock.Form == assembly.Board || q.Stock.Form == assembly.Board
			if !stud {
				f := Fastener{Kind: "screw", Title: "Hexagon screw", Standard: w.screw, Size: name, Class: w.class, Length: h.Length, Count: h.Count, order: 0}
				if h.Length > 0 {
					long := ""
					f.Length, long = preferred(h.Length, system)
					f.Size += " x " + long
				}
				if known {
					f.Mass = t.ScrewMass(f.Length)
				}
				if known && !wood {
					f.Torque = system.Torque(h.Thread)
				}
				out = append(out, f)
			}
			washers := h.Count
			switch {
			case wood:
				out = append(out, Fastener{Kind: "insert", Title: "Screw-in nut for wood", Size: name, Count: h.Count, order: 2})
			case j.Kind == assembly.Fit || !tapped(p, j, system) && !tapped(q, j, system): // what clamps goes through both ears
				out = append(out, Fastener{Kind: "nut", Title: "Hexagon nut", Standard: w.nut, Size: name, Class: w.nutClass, Mass: t.NutMass(), Count: h.Count, order: 1})
				if !stud {
					washers *= 2
				}
			case stud:
				washers = 0
			}
			if washers > 0 {
				size, _, _ := strings.Cut(strings.TrimPrefix(name, "M"), "-")
				out = append(out, Fastener{Kind: "washer", Title: "Washer", Standard: w.washer, Size: size, Class: w.washerClass, Mass: t.WasherMass(), Count: washers, order: 3})
			}
		}
	}
	return out
}

// Studded reports whether a part is bought with a screw of its own: a rubber buffer.
func Studded(p *assembly.Part) bool {
	return p.Stock.Form == assembly.Bought && p.Is(assembly.Soft)
}

// tapped reports whether the bolts of a joint go into threads of a part: into core holes,
// or into holes that its solid does not have.
func tapped(p *assembly.Part, j *assembly.Joint, system stock.Screws) bool {
	const slack = 0.35 // of a drill from the core hole, mm
	t := j.Detail.Thread
	core := false
	for _, b := range p.About(j) {
		if Clears(b.Diameter, t) {
			return false
		}
		core = core || math.Abs(b.Diameter-system.Core(t)) < slack
	}
	return core || p.Stock.Form != assembly.Bought
}

// Clears reports whether a hole lets a thread through without more play than a coarse
// clearance hole of ISO 273 has (M).
func Clears(hole, t float64) bool { return hole > t && hole <= 1.25*t+0.5 }

// preferred is the next length of screws that there is, mm and as it is ordered: of ISO
// 888, or by eighths of an inch up to one and by quarters beyond (ASME B18.2.1; both M).
func preferred(length float64, system stock.Screws) (mm float64, ordered string) {
	if system == stock.UnifiedCoarse {
		eighths := math.Ceil(length/25.4*8 - 1e-6)
		if eighths > 8 {
			eighths = 2 * math.Ceil(eighths/2)
		}
		return eighths / 8 * 25.4, stock.Fraction(int(eighths), 8)
	}
	for _, l := range [...]float64{8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120, 130, 140, 150, 160, 180, 200} {
		if length <= l+1e-6 {
			return l, trim(l)
		}
	}
	long := math.Ceil(length/20-1e-6) * 20
	return long, trim(long)
}

func trim(x float64) string { return strconv.FormatFloat(x, 'g', 4, 64) }
