package draw

import (
	"math"
	"strings"

	"armwright/geometry/assembly"
	"armwright/geometry/cam"
	"armwright/geometry/contour"
	"armwright/geometry/solid"

	"gonum.org/v1/gonum/spatial/r2"
)

// stationPlates are the plates of a station without those of its drive, one an item
// and one more where left and right differ.
func stationPlates(a *assembly.Assembly) []cutPlate {
	var out []cutPlate
	for _, item := range a.Items() {
		if len(item.Parts) == 0 || !cutFromPlate(&a.Parts[item.Parts[0]]) {
			continue
		}
		switch item.ID {
		case "cam-core", "cam-cheek", "input-bar", "coupler", "output-bar", "plate-lever":
			continue // with the drive
		}
		right, left := sides(a, &item)
		profile := profileOf(right)
		p := newPlate(item.ID, item.Title, item.Stock.Size[2], profile)
		p.count = item.Count()
		if left != nil {
			p.count -= p.count / 2
			if !turnsRound(profile) {
				q := newPlate(item.ID+"-left", item.Title+", left", item.Stock.Size[2], profileOf(left))
				q.count = item.Count() / 2
				p.what += ", right"
				out = append(out, p, q)
				continue
			}
			p.count = item.Count()
		}
		out = append(out, p)
	}
	return out
}

// cutFromPlate tells whether a part is cut from plate or sheet on its outline: a
// straight prism as thick as the stock, no strip that is bent or seen on its edge.
func cutFromPlate(p *assembly.Part) bool {
	if p.Stock.Form != assembly.Plate && p.Stock.Form != assembly.Sheet {
		return false
	}
	s, ok := p.Solid.(solid.Prism)
	return ok && len(s.Bores) == 0 && s.From.Tilt == r2.Vec{} && s.To.Tilt == r2.Vec{} && math.Abs(s.To.Z-s.From.Z-p.Stock.Size[2]) < sameSize
}

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

// newPlate is the cut file of a profile with its name etched on.
func newPlate(name, title string, thick float64, p *solid.Profile) cutPlate {
	out := cutPlate{path: "cut/" + name + ".dxf", what: strings.ToLower(title), outline: p.Outer(), thickness: thick}
	for _, h := range p.Holes() {
		switch centre, radius, ok := circleOf(h); {
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
	out.marks = append(out.marks, etched(name, p)...)
	return out
}

// turnsRound tells whether a plate turned over falls on itself in some way: its outline
// and holes mirrored in one of the axes through the middle of its box.
func turnsRound(p *solid.Profile) bool {
	box := p.Outer().Bounds()
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

// Etched letters, mm: as large as fits, within these.
const (
	etchTall  = 6.0
	etchLeast = 2.5
	etchClear = 1.5 // to every edge
)

// etched is a name in strokes where the plate has room for it, in as many lines as it
// has words if need be; nil where there is none.
func etched(name string, p *solid.Profile) []cam.Mark {
	box := p.Outer().Bounds()
	words := strings.Split(name, "-")
	for tall := etchTall; tall >= etchLeast; tall -= 0.5 {
		for _, lines := range [][]string{{name}, twoLines(words), words} {
			wide := 0.0
			for _, l := range lines {
				wide = max(wide, float64(len(l)))
			}
			wide *= letterPitch * tall
			high := tall * (1.6*float64(len(lines)) - 0.6)
			const steps = 24
			for k := range (steps + 1) * (steps + 1) {
				// From the middle outward, in a fixed order.
				i, j := spiral(k%(steps+1), steps), spiral(k/(steps+1), steps)
				at := r2.Vec{
					X: box.Min.X + float64(i)/steps*(box.Max.X-box.Min.X) - wide/2,
					Y: box.Min.Y + float64(j)/steps*(box.Max.Y-box.Min.Y) - high/2,
				}
				if roomFor(p, r2.Box{Min: r2.Sub(at, r2.Vec{X: etchClear, Y: etchClear}), Max: r2.Add(at, r2.Vec{X: wide + etchClear, Y: high + etchClear})}) {
					var out []cam.Mark
					for n, l := range lines {
						out = append(out, letters(l, r2.Vec{X: at.X, Y: at.Y + high - tall - 1.6*tall*float64(n)}, tall)...)
					}
					return out
				}
			}
		}
	}
	return nil
}

// twoLines puts words in two lines of about equal length.
func twoLines(words []string) []string {
	best := words
	least := math.Inf(1)
	for i := 1; i < len(words); i++ {
		a, b := strings.Join(words[:i], "-"), strings.Join(words[i:], "-")
		if long := float64(max(len(a), len(b))); long < least {
			best, least = []string{a, b}, long
		}
	}
	return best
}

// spiral is the k-th place of n+1 counted from the middle outward.
func spiral(k, n int) int {
	if k%2 == 0 {
		return n/2 + k/2
	}
	return n/2 - (k+1)/2
}

// roomFor tells whether a box lies in the material: no edge enters it.
func roomFor(p *solid.Profile, box r2.Box) bool {
	middle := r2.Scale(0.5, r2.Add(box.Min, box.Max))
	if !p.Outer().Contains(middle) {
		return false
	}
	rim := contour.Polygon(box.Min, r2.Vec{X: box.Max.X, Y: box.Min.Y}, box.Max, r2.Vec{X: box.Min.X, Y: box.Max.Y})
	for _, loop := range append([]contour.Path{p.Outer()}, p.Holes()...) {
		for i := range loop.Len() {
			e := loop.Element(i)
			const pieces = 8
			for k := range pieces {
				if e.Bulge == 0 && k > 0 && segmentClear(e.Start, e.End, box) {
					break
				}
				if !segmentClear(e.At(float64(k)/pieces), e.At(float64(k+1)/pieces), box) {
					return false
				}
			}
		}
		if rim.Contains(loop.Vertices[0].Point()) {
			return false
		}
	}
	for _, h := range p.Holes() {
		if h.Contains(middle) {
			return false
		}
	}
	return true
}

// segmentClear tells whether a segment stays out of a box (Liang and Barsky 1984).
func segmentClear(a, b r2.Vec, box r2.Box) bool {
	from, to := 0.0, 1.0
	d := r2.Sub(b, a)
	for _, c := range [4][2]float64{{-d.X, a.X - box.Min.X}, {d.X, box.Max.X - a.X}, {-d.Y, a.Y - box.Min.Y}, {d.Y, box.Max.Y - a.Y}} {
		switch {
		case c[0] == 0 && c[1] < 0:
			return true
		case c[0] < 0:
			from = max(from, c[1]/c[0])
		case c[0] > 0:
			to = min(to, c[1]/c[0])
		}
	}
	return from > to
}

// letterPitch is the advance of a letter in terms of its height: four sixths wide and
// two between.
const letterPitch = 5.0 / 6

// letters writes a word of small letters, digits and hyphens in strokes from the lower
// left of its line.
func letters(word string, at r2.Vec, tall float64) []cam.Mark {
	var out []cam.Mark
	for i, c := range word {
		x := at.X + float64(i)*letterPitch*tall
		for _, stroke := range strings.Split(strokes(c), " ") {
			for k := 0; k+3 < len(stroke); k += 2 {
				point := func(k int) r2.Vec {
					return r2.Vec{X: x + float64(stroke[k]-'0')/6*tall, Y: at.Y + float64(stroke[k+1]-'0')/6*tall}
				}
				out = append(out, cam.Mark{Name: "name", From: point(k), To: point(k + 2)})
			}
		}
	}
	return out
}

// strokes are a letter's lines on a grid of 4 by 6, each a run of points x and y;
// own drawing.
func strokes(c rune) string {
	switch c {
	case 'a':
		return "002640 1333"
	case 'b':
		return "00063645443303 3342413000"
	case 'c':
		return "4536160501103041"
	case 'd':
		return "00062645412000"
	case 'e':
		return "46060040 0333"
	case 'f':
		return "460600 0333"
	case 'g':
		return "45361605011030414323"
	case 'h':
		return "0006 4640 0343"
	case 'i':
		return "2026 1030 1636"
	case 'j':
		return "4641301001"
	case 'k':
		return "0006 4603 0340"
	case 'l':
		return "060040"
	case 'm':
		return "0006234640"
	case 'n':
		return "00064046"
	case 'o':
		return "103041453616050110"
	case 'p':
		return "00063645443303"
	case 'q':
		return "103041453616050110 3140"
	case 'r':
		return "00063645443303 2340"
	case 's':
		return "453616050413334241301001"
	case 't':
		return "0646 2620"
	case 'u':
		return "060110304146"
	case 'v':
		return "062046"
	case 'w':
		return "0610233046"
	case 'x':
		return "0046 0640"
	case 'y':
		return "062346 2320"
	case 'z':
		return "06460040"
	case '0':
		return "103041453616050110 0145"
	case '1':
		return "0426 2620"
	case '2':
		return "05163645440040"
	case '3':
		return "0516364544334241301001 1333"
	case '4':
		return "30360242"
	case '5':
		return "460603334241301001"
	case '6':
		return "4536160501103041423303"
	case '7':
		return "064610"
	case '8':
		return "13334241301001021304051636454433"
	case '9':
		return "0110304145361605041343"
	case '-':
		return "1333"
	}
	return ""
}
