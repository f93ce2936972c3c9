// Package fit turns a brief into the geometry of a station, and judges the
// geometry of an existing one. Solve searches; Check only evaluates. Both end
// in the same Result, worked out from the same frame by the same code, so
// that a solved frame checked again gives the same numbers.
package fit

import (
	"fmt"
	"math"
	"sync"

	"armwright/geometry/station"
	"armwright/specs"
	"armwright/specs/people"
	"armwright/specs/stock"
	"armwright/specs/strength"

	"gonum.org/v1/gonum/spatial/r3"
)

// angleStep is the spacing of the angle grid over the loaded range. Hand path
// and torque are smooth on the scale of a radian: halving it moves no
// requirement by more than 0.1 of its scale.
const angleStep = 5 * deg

// humeralTurn is how far the humerus may turn about its own length to meet
// the machine axis. Judgement; no published comfort limit at hand.
const humeralTurn = 10 * deg

// study is everything about a brief that does not depend on the geometry.
type study struct {
	asked   *specs.Asked
	kinds   []Kind
	index   map[string]int
	limits  []float64 // by kind
	limitAt []int     // by kind, see limitIndices
	room    []float64 // by kind: what the search is to have in hand; nil for none
	persons []people.Person
	bodies  []station.Body
	angles  []float64 // flexion, the loaded range
	sin     []float64 // of the angles
	cos     []float64
	shape   []float64 // strength at the angles, peak 1
	curve   strength.Curve
	supplies
	heavy   int        // index of the heaviest person
	desks   *sync.Pool // of *desk
	designs *designs
}

// desk is memory for judging one geometry after another.
type desk struct {
	rows, tried rows
	sitter      sitter
	sat         []Person
}

func newStudy(a *specs.Asked) (*study, error) {
	kinds := Kinds()
	return newStudyLike(a, &study{asked: &specs.Asked{}, kinds: kinds, index: kindIndex(), limitAt: limitIndices(kinds),
		desks: &sync.Pool{New: func() any { return new(desk) }}, designs: &designs{known: map[designKey]remembered{}}})
}

// leave has the search leave room, by requirement, inside units.
func (s *study) leave(room map[string]float64) {
	s.room = make([]float64, len(s.kinds))
	for k := range s.kinds {
		s.room[k] = math.Max(0, room[s.kinds[k].ID])
	}
}

// roomOf is what the search is to have in hand of a kind of requirement.
func (s *study) roomOf(k int) float64 {
	if s.room == nil {
		return 0
	}
	return s.room[k]
}

// supplies are what a station is built from.
type supplies struct {
	member       stock.Section
	arm          stock.Section // tube of the moving arms
	steel        stock.Steel
	cable        stock.CableType
	bearing      stock.BearingUnit
	transmission stock.Transmission
	plate        stock.WeightPlate
}

// units are those of who reads the result, size is a length in them.
func (s *study) units() specs.Units     { return s.asked.Drawing.Reads() }
func (s *study) size(mm float64) string { return s.units().Size(mm, "mm") }

// newStudyLike is newStudy with what does not differ taken from another study.
func newStudyLike(a *specs.Asked, like *study) (*study, error) {
	s := &study{asked: a, kinds: like.kinds, index: like.index, limitAt: like.limitAt, desks: like.desks, designs: like.designs}
	s.limits = make([]float64, len(s.kinds))
	for i, k := range s.kinds {
		if k.ID != "cam-bend" { // set by the cable, below
			s.limits[i] = s.limit(a, i)
		}
	}
	var err error
	r, q := &a.Resistance, &like.asked.Resistance
	sameCurve := r.Curve == q.Curve && r.CurveTable == q.CurveTable && r.Shoulder == q.Shoulder
	if sameCurve {
		s.curve = like.curve
	} else if s.curve, err = r.StrengthCurve(); err != nil {
		return nil, err
	}
	if a.Stock == like.asked.Stock && a.Region == like.asked.Region {
		s.supplies = like.supplies
	} else if s.supplies, err = newSupplies(a.Region, a.Stock); err != nil {
		return nil, err
	}
	s.limits[s.index["cam-bend"]] = s.requiredRadius()

	if sameCurve && r.Loaded == q.Loaded {
		s.angles, s.sin, s.cos, s.shape = like.angles, like.sin, like.cos, like.shape
	} else {
		s.grid(int(math.Ceil((r.Loaded.To-r.Loaded.From)/angleStep-1e-9)) + 1)
	}

	if a.People == like.asked.People && a.Posture.GripRotation == like.asked.Posture.GripRotation {
		s.persons, s.bodies, s.heavy = like.persons, like.bodies, like.heavy
		return s, nil
	}
	s.persons = boundary(a.People)
	for i, p := range s.persons {
		b := Body(p, a.People, a.Posture.GripRotation)
		s.bodies = append(s.bodies, b)
		if p.Mass > s.persons[s.heavy].Mass {
			s.heavy = i
		}
	}
	return s, nil
}

// newSupplies looks up what a station is built from.
func newSupplies(region string, k specs.Stock) (s supplies, err error) {
	s.plate = stock.StackPlate(region)
	if s.member, err = stock.Member(k.Member); err != nil {
		return s, err
	}
	if s.arm, err = stock.Member(armStock(region)); err != nil {
		return s, err
	}
	if s.steel, err = stock.SteelGrade(k.Steel); err != nil {
		return s, err
	}
	if s.cable, err = stock.Cable(k.Cable); err != nil {
		return s, err
	}
	if s.bearing, err = stock.Bearing(k.Bearing); err != nil {
		return s, err
	}
	s.transmission, err = stock.TransmissionOf(k.Transmission)
	return s, err
}

// grid divides the loaded range into n angles.
func (s *study) grid(n int) {
	r := s.asked.Resistance.Loaded
	s.angles, s.sin, s.cos, s.shape = nil, nil, nil, nil
	for i := range n {
		theta := r.From + (r.To-r.From)*float64(i)/float64(n-1)
		sin, cos := math.Sincos(theta)
		s.angles, s.sin, s.cos = append(s.angles, theta), append(s.sin, sin), append(s.cos, cos)
		s.shape = append(s.shape, s.curve.At(theta))
	}
}

// coarseStride is the stride through the angle grid at which the search looks;
// what happens between is seen when a round is finished on the whole grid, and
// paid for with a guard.
const coarseStride = 3

// coarse is the study on every coarseStride-th angle and the last one.
func (s *study) coarse() *study {
	c := *s
	c.angles, c.shape = every(s.angles, coarseStride), every(s.shape, coarseStride)
	c.sin, c.cos = every(s.sin, coarseStride), every(s.cos, coarseStride)
	return &c
}

// every takes each stride-th element of a and the last.
func every(a []float64, stride int) []float64 {
	var out []float64
	for i := 0; i < len(a); i += stride {
		out = append(out, a[i])
	}
	if n := len(a); n > 0 && (n-1)%stride != 0 {
		out = append(out, a[n-1])
	}
	return out
}

// boundary returns the persons a station must fit.
func boundary(w specs.People) []people.Person {
	if w.Boundary == "ellipsoid" {
		return population(w).Ellipsoid(w.Share)
	}
	return population(w).Boundary(w.Low, w.High)
}

func population(w specs.People) people.Population {
	var c people.Carrying
	c.Mean[people.Man], c.SD[people.Man] = w.Carrying.MenMean, w.Carrying.MenSD
	c.Mean[people.Woman], c.SD[people.Woman] = w.Carrying.WomenMean, w.Carrying.WomenSD
	c.Stature = w.Carrying.Stature
	return people.Population{Source: w.Population, Carrying: c, Age: w.Age, Women: w.Women}
}

// requiredRadius is the smallest radius of the cable's centreline over cam and
// sheave: the tread ratio asked for times the diameter, halved.
func (s *study) requiredRadius() float64 {
	ratio := s.cable.CriticalRatio
	if s.asked.Stock.BendRule == "desirable" {
		ratio = s.cable.DesirableRatio
	}
	return s.cable.LeastRadius(ratio)
}

func (s *study) reclined() bool { return s.asked.Kind == "reclined" }
func (s *study) bench() bool    { return s.asked.Kind == "cam-study" }

// row is one requirement of one person or case.
type row struct {
	kind     int
	value    float64
	margin   float64 // positive when met, inside unit
	who      int     // person, -1 for none
	angle    float64
	hasAngle bool
	note     string
}

// scaled is the margin in units that matter.
func (s *study) scaled(r *row) float64 { return r.margin / s.kinds[r.kind].Scale }

// rows collects the outcome of one evaluation.
type rows struct {
	s     *study
	quiet bool // no notes: the search reads none
	list  []row
	bars  []float64 // least margin by kind so far, where only what governs is kept; else nil
	spare row       // the last that was not
}

// govern empties the rows and has them keep only what governs: a row that is not
// below all before it of its kind.
func (r *rows) govern(s *study) {
	r.s, r.quiet, r.list, r.bars = s, true, r.list[:0], r.bars[:0]
	for range s.kinds {
		r.bars = append(r.bars, math.Inf(1))
	}
}

// below is the value under which a row of a requirement that asks for at least
// its limit would be kept; +Inf where every row is.
func (r *rows) below(id string) float64 {
	if r.bars == nil {
		return math.Inf(1)
	}
	k := r.s.index[id]
	return r.bars[k] + r.s.limits[k]
}

// add appends a row of the requirement id for a person (or -1).
func (r *rows) add(id string, who int, value float64) *row {
	k := r.s.index[id]
	m := r.s.limits[k] - value
	if r.s.kinds[k].AtLeast {
		m = -m
	}
	return r.put(row{kind: k, value: value, margin: m, who: who})
}

// within is add for a requirement with a least value as well: the nearer limit
// counts.
func (r *rows) within(id string, who int, value, least float64) {
	k := r.s.index[id]
	r.put(row{kind: k, value: value, margin: min(r.s.limits[k]-value, value-least), who: who})
}

// put appends a row, if it is to be kept.
func (r *rows) put(w row) *row {
	if r.bars != nil {
		if w.margin >= r.bars[w.kind] {
			r.spare = w
			return &r.spare
		}
		r.bars[w.kind] = w.margin
	}
	r.list = append(r.list, w)
	return &r.list[len(r.list)-1]
}

func (w *row) at(theta float64) *row  { w.angle, w.hasAngle = theta, true; return w }
func (w *row) named(note string) *row { w.note = note; return w }
func (r *rows) named(w *row, format string, args ...any) {
	if !r.quiet {
		w.note = fmt.Sprintf(format, args...)
	}
}

// span is a stretch of rows.
type span struct{ from, to int }

// since returns the stretch from a row to the last one and its smallest scaled
// margin, +Inf of no rows.
func (r *rows) since(first int) (span, float64) {
	m := math.Inf(1)
	for i := first; i < len(r.list); i++ {
		m = min(m, r.s.scaled(&r.list[i]))
	}
	return span{first, len(r.list)}, m
}

// least is the smallest scaled margin of all.
func (r *rows) least() float64 {
	_, m := r.since(0)
	return m
}

// take is least, and empties the rows.
func (r *rows) take() float64 {
	m := r.least()
	r.list = r.list[:0]
	return m
}

// machine is the geometry in the terms of placing.
type machine struct {
	geo   *specs.Geometry
	pivot r3.Vec // right
	axes  []r3.Vec
	rest  station.Rest
	back  station.Recline
}

func newMachine(g *specs.Geometry) machine {
	m := machine{geo: g, pivot: r3.Vec{Y: -g.Pivots.Spacing / 2, Z: g.Pivots.Height}}
	m.axes = make([]r3.Vec, len(g.Pivots.Axes))
	for i, a := range g.Pivots.Axes {
		m.axes[i] = station.AxisVector(a.Toe, a.Cant)
	}
	if g.Pad != nil {
		m.rest = station.Rest{Slope: g.Pad.Slope, Offset: g.Pad.Offset, Near: g.Pad.Near, Far: g.Pad.Far, Width: g.Pad.Width}
	}
	if g.Back != nil {
		m.back = station.Recline{Angle: g.Back.Angle, Foot: g.Back.Foot}
	}
	return m
}

func (m machine) seatTop(i int) float64 { return m.geo.Seat.Lowest + float64(i)*m.geo.Seat.Pitch }
