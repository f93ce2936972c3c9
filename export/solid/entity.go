package solid

import (
	"math"
	"strconv"
	"unicode/utf16"

	"gonum.org/v1/gonum/spatial/r3"

	"armwright/geometry/solid"
)

// Decimals of what is written. Lengths of 1e-7 mm and directions of 1e-12 keep
// vertices of a body of metres on their curves and surfaces within the 1e-5 mm
// that the file states as its accuracy.
const (
	lengthDecimals    = 7
	directionDecimals = 12
)

// data is the DATA section while it is written. Equal points, directions and
// placements of one part are written once, directions even in the whole file.
type data struct {
	out        []byte
	last       int // number of the last entity
	points     map[[3]int64]int
	directions map[[3]int64]int
	vectors    map[int]int
	placements map[[3]int]int
}

func newData(size int) *data {
	d := &data{out: make([]byte, 0, size), directions: map[[3]int64]int{}, vectors: map[int]int{}}
	d.part()
	return d
}

// part begins a part: what has a place is not shared with others.
func (d *data) part() {
	d.points, d.placements = map[[3]int64]int{}, map[[3]int]int{}
}

// begin writes the number and name of a new entity.
func (d *data) begin(name string) int {
	d.last++
	d.out = append(d.out, '#')
	d.out = strconv.AppendInt(d.out, int64(d.last), 10)
	d.out = append(d.out, '=')
	d.out = append(d.out, name...)
	d.out = append(d.out, '(')
	return d.last
}

func (d *data) end() { d.out = append(d.out, ");\n"...) }

func (d *data) text(s string) { d.out = append(d.out, s...) }

func (d *data) ref(n int) {
	d.out = append(d.out, '#')
	d.out = strconv.AppendInt(d.out, int64(n), 10)
}

func (d *data) refs(ns []int) {
	d.out = append(d.out, '(')
	for i, n := range ns {
		if i > 0 {
			d.out = append(d.out, ',')
		}
		d.ref(n)
	}
	d.out = append(d.out, ')')
}

// entity writes an entity whose parameters are references, after an empty name.
func (d *data) entity(name string, refs ...int) int {
	n := d.begin(name)
	d.text("''")
	for _, r := range refs {
		d.text(",")
		d.ref(r)
	}
	d.end()
	return n
}

func quantise(x float64, decimals int) int64 { return int64(math.Round(x * math.Pow10(decimals))) }

// real writes a quantised number: digits, always a point, no needless zeros.
func (d *data) real(q int64, decimals int) {
	if q < 0 {
		d.out = append(d.out, '-')
		q = -q
	}
	scale := int64(1)
	for range decimals {
		scale *= 10
	}
	d.out = strconv.AppendInt(d.out, q/scale, 10)
	d.out = append(d.out, '.')
	for rest := q % scale; rest > 0; rest = rest * 10 % scale {
		d.out = append(d.out, byte('0'+rest*10/scale))
	}
}

func (d *data) length(x float64) { d.real(quantise(x, lengthDecimals), lengthDecimals) }

// triple writes three numbers once, and returns the entity that has them.
func (d *data) triple(name string, v r3.Vec, decimals int, seen map[[3]int64]int) int {
	q := [3]int64{quantise(v.X, decimals), quantise(v.Y, decimals), quantise(v.Z, decimals)}
	if n, ok := seen[q]; ok {
		return n
	}
	n := d.begin(name)
	d.text("'',(")
	for i, x := range q {
		if i > 0 {
			d.text(",")
		}
		d.real(x, decimals)
	}
	d.text(")")
	d.end()
	seen[q] = n
	return n
}

func (d *data) point(v r3.Vec) int {
	return d.triple("CARTESIAN_POINT", v, lengthDecimals, d.points)
}

func (d *data) direction(v r3.Vec) int {
	return d.triple("DIRECTION", r3.Unit(v), directionDecimals, d.directions)
}

func (d *data) placement(p solid.Placement) int {
	key := [3]int{d.point(p.Origin), d.direction(p.Z), d.direction(p.X)}
	if n, ok := d.placements[key]; ok {
		return n
	}
	n := d.entity("AXIS2_PLACEMENT_3D", key[:]...)
	d.placements[key] = n
	return n
}

// str writes a string of ISO 10303-21: apostrophes and backslashes doubled, what
// is not ASCII as UTF-16 in \X2\.
func (d *data) str(s string) { d.out = appendString(d.out, s) }

func appendString(out []byte, s string) []byte {
	out = append(out, '\'')
	wide := false
	for _, r := range s {
		if special := r < ' ' || r > '~'; special != wide {
			wide = special
			if wide {
				out = append(out, `\X2\`...)
			} else {
				out = append(out, `\X0\`...)
			}
		}
		switch {
		case wide:
			for _, u := range utf16.Encode([]rune{r}) {
				const hex = "0123456789ABCDEF"
				out = append(out, hex[u>>12], hex[u>>8&15], hex[u>>4&15], hex[u&15])
			}
		case r == '\'' || r == '\\':
			out = append(out, byte(r), byte(r))
		default:
			out = append(out, byte(r))
		}
	}
	if wide {
		out = append(out, `\X0\`...)
	}
	return append(out, '\'')
}
