package dxf

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Steps of quantisation. Lengths in inches get two more decimals, which is
// then finer than the step in millimetres.
const (
	lengthDecimals     = 4
	lengthDecimalsInch = 6
	angleDecimals      = 6 // degrees, and bulges and factors
	angleStep          = 1e-6
	largest            = 1e9 // beyond it a double has no 1e-6 left to give
	longestText        = 255 // of a group value in release 12; kept in 2000 too
	longestTag         = 300 // of a text with its group code and line ends
)

// handle names an object in AC1015. Zero is no object.
type handle uint64

func (h handle) String() string { return strconv.FormatUint(uint64(h), 16) }

// encoder writes tags and keeps the first error. It knows which names are
// defined, so that each reference is checked where it is written. Without a
// writer it checks and counts only.
type encoder struct {
	w        io.Writer
	buf      []byte
	lo, hi   Point // extents of the drawing
	version  Version
	decimals int
	last     handle // last handle given out
	where    string // what is being written, for errors; "" for an entity
	err      error

	index   int    // of the entity that is being written, in model space or in a block
	inside  string // the block, "" for model space
	current Entity

	defined  map[kind]map[string]handle // by upper case name
	dimBlock int                        // dimensions written so far
	factors  map[string]float64         // linear factor by dimension style
	recent   map[kind]reference         // the last name of each kind that was found defined
}

// reference is a name as given and as written.
type reference struct{ name, written string }

// bufferSize is what is gathered before it is written.
const bufferSize = 1 << 16

// kind is a kind of named thing.
type kind string

const (
	layerKind    kind = "layer"
	linetypeKind kind = "line type"
	styleKind    kind = "text style"
	dimStyleKind kind = "dimension style"
	blockKind    kind = "block"
)

func newEncoder(w io.Writer, v Version, u Units) *encoder {
	e := &encoder{w: w, version: v, decimals: lengthDecimals, factors: map[string]float64{},
		defined: map[kind]map[string]handle{}, recent: map[kind]reference{}}
	if w != nil {
		e.buf = make([]byte, 0, bufferSize+longestTag)
	}
	for _, k := range []kind{layerKind, linetypeKind, styleKind, dimStyleKind, blockKind} {
		e.defined[k] = map[string]handle{}
	}
	if u == Inches {
		e.decimals = lengthDecimalsInch
	}
	return e
}

func (e *encoder) r12() bool { return e.version == AC1009 }

func (e *encoder) fail(hint, format string, args ...any) {
	if e.err == nil {
		where := e.where
		if where == "" {
			where = fmt.Sprintf("entity %d (%s)", e.index, NameOf(e.current))
			if e.inside != "" {
				where = "block " + e.inside + ": " + where
			}
		}
		e.err = &InvalidError{Where: where, Problem: fmt.Sprintf(format, args...), Hint: hint}
	}
}

// tag writes a group code and a value that is known to be clean.
func (e *encoder) tag(code int, value string) {
	if e.w != nil {
		e.code(code)
		e.buf = append(e.buf, value...)
		e.end()
	}
}

// code starts a tag: the group code, three places wide, on its line.
func (e *encoder) code(code int) {
	switch {
	case code < 10:
		e.buf = append(e.buf, ' ', ' ', byte('0'+code), '\n')
	case code < 100:
		e.buf = append(e.buf, ' ', byte('0'+code/10), byte('0'+code%10), '\n')
	default:
		e.buf = append(strconv.AppendInt(e.buf, int64(code), 10), '\n')
	}
}

// end ends a tag and makes room for the next.
func (e *encoder) end() {
	e.buf = append(e.buf, '\n')
	if len(e.buf) >= bufferSize {
		e.flush()
	}
}

func (e *encoder) flush() {
	if e.err == nil {
		_, e.err = e.w.Write(e.buf)
	}
	e.buf = e.buf[:0]
}

func (e *encoder) int(code, v int) {
	if e.w != nil {
		e.code(code)
		e.buf = strconv.AppendInt(e.buf, int64(v), 10)
		e.end()
	}
}

// str writes a text value.
func (e *encoder) str(code int, s string) { e.escaped(code, s, false) }

func (e *encoder) escaped(code int, s string, plain bool) { e.tag(code, e.escape(s, plain)) }

// escape is a text as written.
func (e *encoder) escape(s string, plain bool) string {
	v, err := escape(s, plain)
	switch {
	case err != nil:
		e.fail("use one line of printable text", "%v", err)
	case len(v) > longestText:
		e.fail("break the text into lines", "text of %d bytes, at most %d go into one group", len(v), longestText)
	}
	return v
}

// name writes a name; in AC1009 in upper case.
func (e *encoder) name(code int, s string) { e.tag(code, e.nameOf(s)) }

func (e *encoder) nameOf(s string) string {
	if e.r12() {
		s = key(s)
	}
	return e.escape(s, true)
}

func (e *encoder) fixed(code int, v float64, decimals int) {
	if math.IsNaN(v) || math.IsInf(v, 0) || abs(v) > largest {
		e.fail("", "group %d is %v, not a finite number within ±%g", code, v, float64(largest))
		v = 0
	}
	if e.w == nil {
		return
	}
	e.code(code)
	e.buf = appendFixed(e.buf, v, decimals)
	e.end()
}

// appendFixed appends v with the given number of decimals, 1 to 6, rounded as
// strconv does it, and no sign on a zero.
func appendFixed(b []byte, v float64, decimals int) []byte {
	// Scaled numbers below 2^40 are off by less than 2^-13: away from a half the
	// nearest integer is right, near one the exact digits decide.
	const least, half = 1 << 40, 1.0 / (1 << 12)
	x := abs(v) * math.Pow10(decimals)
	n := math.Floor(x)
	rest := x - n
	if x >= least || abs(rest-0.5) < half {
		at := len(b)
		b = strconv.AppendFloat(b, v, 'f', decimals, 64)
		if b[at] == '-' && len(bytes.Trim(b[at:], "-0.")) == 0 {
			b = slices.Delete(b, at, at+1)
		}
		return b
	}
	if rest > 0.5 {
		n++
	}
	if v < 0 && n > 0 {
		b = append(b, '-')
	}
	var digits [24]byte // from the last
	at, left := len(digits), uint64(n)
	for k := 0; left > 0 || k <= decimals; k++ {
		if k == decimals {
			at--
			digits[at] = '.'
		}
		at--
		digits[at] = byte('0' + left%10)
		left /= 10
	}
	return append(b, digits[at:]...)
}

// length writes a length in drawing units, ratio a dimensionless number,
// angle an angle given in radians.
func (e *encoder) length(code int, v float64) { e.fixed(code, v, e.decimals) }
func (e *encoder) ratio(code int, v float64)  { e.fixed(code, v, angleDecimals) }

func (e *encoder) angle(code int, v float64) {
	deg := v * 180 / math.Pi
	if abs(deg) <= largest {
		deg = math.Mod(deg, 360)
		if deg < 0 {
			deg += 360
		}
		if deg >= 360-angleStep/2 { // would print as 360
			deg = 0
		}
	}
	e.fixed(code, deg, angleDecimals)
}

// positive writes a length that must come out above zero.
func (e *encoder) positive(code int, v float64, what string) {
	if !(v >= e.step()) && !math.IsNaN(v) {
		e.fail("", "%s is %v, must be at least %g", what, v, e.step())
	}
	e.length(code, v)
}

func (e *encoder) step() float64 { return math.Pow10(-e.decimals) }

func (e *encoder) point(code int, p Point) {
	e.xy(code, p)
	e.length(code+20, 0)
}

func (e *encoder) xy(code int, p Point) {
	e.length(code, p.X)
	e.length(code+10, p.Y)
}

// subclass writes a subclass marker, which AC1009 does not have.
func (e *encoder) subclass(name string) {
	if !e.r12() {
		e.tag(100, name)
	}
}

// fresh gives out a new handle; in AC1009, which does without, none.
func (e *encoder) fresh() handle {
	if e.r12() {
		return 0
	}
	e.last++
	return e.last
}

// begin starts an object: its type, handle and owner.
func (e *encoder) begin(kind string, h, owner handle) {
	e.tag(0, kind)
	if e.r12() {
		return
	}
	if kind == "DIMSTYLE" {
		e.handle(105, h)
	} else {
		e.handle(5, h)
	}
	e.handle(330, owner)
}

func (e *encoder) handle(code int, h handle) {
	if e.w != nil {
		e.code(code)
		e.buf = strconv.AppendUint(e.buf, uint64(h), 16)
		e.end()
	}
}

// entity starts an entity with the properties all entities share.
func (e *encoder) entity(kind string, owner handle, a Attr) {
	e.begin(kind, e.fresh(), owner)
	e.subclass("AcDbEntity")
	e.reference(8, layerKind, a.layer())
	if a.Linetype != "" {
		e.reference(6, linetypeKind, a.Linetype)
	}
	if a.Color != ByLayer {
		e.int(62, e.color(a.Color))
	}
	if a.Lineweight != 0 && !e.r12() {
		e.int(370, e.weight(a.Lineweight))
	}
}

func (e *encoder) color(c ACI) int {
	if c < 1 || c > 255 {
		e.fail("use 1 to 255", "colour %d is not in the index", c)
	}
	return int(c)
}

func (e *encoder) weight(w Lineweight) int {
	if !slices.Contains(Lineweights(), w) {
		e.fail("use LineweightOf", "line weight %d is not one the format allows", w)
	}
	return int(w)
}

// reference writes the name of something that must be defined.
func (e *encoder) reference(code int, k kind, name string) {
	last, ok := e.recent[k]
	if !ok || last.name != name {
		if _, ok := e.defined[k][key(name)]; !ok {
			e.fail("add it to the document before use", "%s %q is not defined", k, name)
		}
		last = reference{name, e.nameOf(name)}
		e.recent[k] = last
	}
	e.tag(code, last.written)
}

// define registers the name of the object h.
func (e *encoder) define(k kind, name string, h handle) handle {
	e.where = string(k) + " " + name
	e.checkName(name)
	if _, dup := e.defined[k][key(name)]; dup {
		e.fail("names compare without regard to case", "defined twice")
	}
	e.defined[k][key(name)] = h
	return h
}

// Lengths and characters of names: AC1015 allows 255 of anything but the
// signs below, AC1009 31 of A-Z 0-9 $ _ and -.
const (
	longestName    = 255
	longestNameR12 = 31
	barredInNames  = "<>/\\\":;?*|=`,'"
)

func (e *encoder) checkName(name string) {
	limit := longestName
	if e.r12() {
		limit = longestNameR12
	}
	bare := strings.TrimPrefix(name, "*") // anonymous and reserved blocks, made by this package only
	switch {
	case strings.TrimSpace(name) != name || bare == "":
		e.fail("", "name %q is empty or has outer spaces", name)
	case len(name) > limit:
		e.fail("", "name %q has %d bytes, at most %d are allowed in %s", name, len(name), limit, e.version)
	case strings.ContainsAny(bare, barredInNames):
		e.fail("", "name %q holds one of %s", name, barredInNames)
	case e.r12() && strings.Trim(key(bare), "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789$_-") != "":
		e.fail("use letters, digits, $, _ and -", "name %q does not fit %s", name, e.version)
	}
}
