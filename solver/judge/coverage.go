package judge

import (
	"iter"
	"math"
	"math/bits"
	"sort"

	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/specs"
	"armwright/specs/people"
)

// Persons are the people a station is judged on for coverage.
type Persons struct {
	Source Source
	All    iter.Seq[people.Person]         // one by one; a million take no more memory than one
	Each   func(*seat.Person, []Shortfall) // told every person's outcome, nil for nobody listens; valid during the call
}

// Source is where persons come from: a table of measured ones, or a population they
// are drawn from. The zero value is nowhere.
type Source struct {
	Table      string // its name
	Population string
	Women      float64 // share of them among those drawn
}

// Shortfall is one requirement that turns a person away, with its worst value.
type Shortfall struct {
	require.Kind
	Value, Limit, Margin float64
}

// Crowd is the outcome over many persons, kept in counts.
type Crowd struct {
	Source       Source
	All          Group
	Shrug        Group    // as All, those counted in who miss soft limits alone, by little: see shrugs
	Sexes        [2]Group // by people.Sex
	Bands        []Band   // by stature, those with anybody in them
	Cells        []Cell   // by sex, stature and carrying angle
	Arms         []Arm    // by elbow to grip, those in which anybody fits
	TurnedBy     []Turned // most first
	HandPath     Spread   // beside the handle, mm
	Common       Spread   // on one straight common axis with fixed handles, mm
	FootGap      Spread   // shoe sole above the support, mm
	OneAxis      []OneAxis
	Extrapolated int // persons above the body mass index that measured shapes cover
}

// Group is how many of some persons fit, with the 95 % score interval of their
// share (Wilson 1927).
type Group struct {
	N, Fits          int
	Share, Low, High float64
}

func (g *Group) rate() { g.Share, g.Low, g.High = wilson(g.Fits, g.N) }

// Band is a band of stature with the settings those who fit in it take: the
// settings chart of a station. Seat and handle follow stature; the axis
// position follows carrying angle and shoulder breadth, so sexes differ.
type Band struct {
	From, To float64 // mm
	Group
	Sexes        [2]Group // by people.Sex
	Seat, Handle Usual
	Axis         [2]Usual // by people.Sex
	Foot         Usual    // position of the foot plate from 1, 0 the floor; nobody without a plate
}

// Usual are the positions some persons take, from 0: the 10th, 50th and 90th
// percentile. N is how many persons.
type Usual struct{ N, Low, Middle, High int }

// Turned is how many persons a requirement turns away.
type Turned struct {
	ID       string
	N        int
	Only     int     // of these, turned away by nothing else
	Sexes    [2]int  // by people.Sex
	From, To float64 // stature of the middle 80 %, mm
}

// Spread is the distribution of a quantity over persons, to 0.1 mm.
type Spread struct{ Median, P95, Worst float64 }

// OneAxis is what would be left if one of the axis positions were the only one.
type OneAxis struct {
	Axis     int
	HandPath Spread  // mm, at the best handle position
	Slide    Spread  // mm, that a sliding handle would need to follow the hand
	Swivel   Spread  // deg, that it would need to swivel
	Within   float64 // share of persons within the limits of hand path, axis tilt and axis offset
}

// finerWidth is of the bands that tell who is turned away, mm.
const (
	finerWidth = 10.0
	finerBands = 90
)

// tally gathers the outcome of persons one by one. Nothing in it grows.
type tally struct {
	s            *Judge
	all, shrug   Group
	soft         []float64 // slack by kind, 0 of what is hard
	sexes        [2]Group
	bands        [bands]bandTally
	arms         [armBands][60]int // handle positions
	cells        cells
	turned       []turnedTally // by kind
	path, common histogram
	foot         histogram
	axes         []axisTally
	extrapolated int
	plate        bool // there is a foot plate
}

type bandTally struct {
	Group
	sexes        [2]Group
	seat, handle [60]int
	axis         [2][8]int
	foot         [21]int
}

type turnedTally struct {
	n, only int
	sexes   [2]int
	stature [finerBands]int
}

type axisTally struct {
	path          histogram
	slide, swivel histogram // mm, deg
	within        int
}

func newTally(s *Judge, axes int) *tally {
	return &tally{s: s, soft: slacks(&s.Card), turned: make([]turnedTally, len(s.Kinds)), axes: make([]axisTally, axes)}
}

// add counts one person, with the requirements that turn the person away as
// bits.
func (t *tally) add(p *seat.Person, away uint64) {
	sex := p.Person.Sex
	b := &t.bands[band(p.Person.Stature, bandWidth, bands)]
	for _, g := range [...]*Group{&t.all, &t.sexes[sex], &b.Group, &b.sexes[sex]} {
		g.N++
		if away == 0 {
			g.Fits++
		}
	}
	if away == 0 {
		b.seat[p.Seat]++
		b.handle[p.Handle]++
		b.axis[sex][p.Axis]++
		t.arms[armBand(p.Person.AxisToGrip)][p.Handle]++
		if t.plate {
			b.foot[p.Foot+1]++
		}
	}
	for rest := away; rest != 0; rest &= rest - 1 {
		k := &t.turned[bits.TrailingZeros64(rest)]
		k.n++
		k.sexes[sex]++
		k.stature[band(p.Person.Stature, finerWidth, finerBands)]++
		if away&(away-1) == 0 {
			k.only++
		}
	}
	t.path.add(p.HandPath)
	t.common.add(p.Common)
	t.foot.add(p.FootGap)
	if p.Person.Extrapolated {
		t.extrapolated++
	}
}

// alone counts what each axis position would leave the person if it were the
// only one.
func (t *tally) alone(m drive.Machine, p *seat.Sitter, scratch *require.Rows) {
	for i := range p.Swings[0] {
		w := &p.Swings[0][i]
		a := &t.axes[w.Axis]
		if !w.Whole { // it could not be chosen
			t.s.Follow(m, w)
		}
		least, margin := math.Inf(1), math.Inf(-1)
		for _, handle := range m.Handles(w.Want.Radius) {
			dev, _ := t.s.Grip(m, p, w, handle, scratch)
			least = math.Min(least, dev.Max)
			margin = math.Max(margin, scratch.Take())
		}
		a.path.add(least)
		along, swivel := w.Slide(p.Body.Forearm)
		a.slide.add(along)
		a.swivel.add(swivel / specs.Degree)
		if math.Min(margin, w.Least) >= require.Meets {
			a.within++
		}
	}
}

// crowd is the tally told.
func (t *tally) crowd(source Source) Crowd {
	c := Crowd{Source: source, All: t.all, Shrug: t.shrug, Sexes: t.sexes, Extrapolated: t.extrapolated,
		HandPath: t.path.spread(), Common: t.common.spread(), FootGap: t.foot.spread()}
	c.All.rate()
	c.Shrug.rate()
	for i := range c.Sexes {
		c.Sexes[i].rate()
	}
	for i := range t.bands {
		b := &t.bands[i]
		if b.N == 0 {
			continue
		}
		from := leastBand + float64(i)*bandWidth
		out := Band{From: from, To: from + bandWidth, Group: b.Group, Sexes: b.sexes, Seat: usual(b.seat[:]), Handle: usual(b.handle[:]), Foot: usual(b.foot[:])}
		out.rate()
		for sex := range b.axis {
			out.Sexes[sex].rate()
			out.Axis[sex] = usual(b.axis[sex][:])
		}
		c.Bands = append(c.Bands, out)
	}
	c.Arms, c.Cells = t.byArm(), t.cells.list(t.s.Kinds)
	for i := range t.turned {
		k := &t.turned[i]
		if k.n == 0 {
			continue
		}
		u := usual(k.stature[:])
		c.TurnedBy = append(c.TurnedBy, Turned{t.s.Kinds[i].ID, k.n, k.only, k.sexes,
			leastBand + float64(u.Low)*finerWidth, leastBand + float64(u.High+1)*finerWidth})
	}
	sort.SliceStable(c.TurnedBy, func(i, j int) bool { return c.TurnedBy[i].N > c.TurnedBy[j].N })
	for i := range t.axes {
		a := &t.axes[i]
		c.OneAxis = append(c.OneAxis, OneAxis{i, a.path.spread(), a.slide.spread(), a.swivel.spread(), float64(a.within) / math.Max(1, float64(t.all.N))})
	}
	return c
}

// Arm is a band of the distance from elbow to grip with the handle positions that
// those who fit in it take.
type Arm struct {
	From, To float64 // mm
	Handle   Usual
}

// Widths of the bands of arm length, mm: a handle's usual pitch.
const (
	armWidth = 10.0
	leastArm = 200.0
	armBands = 30 // up to 500
)

func armBand(length float64) int {
	return max(0, min(armBands-1, int((length-leastArm)/armWidth)))
}

// byArm tells the handle positions taken by arm length.
func (t *tally) byArm() []Arm {
	var list []Arm
	for i := range t.arms {
		from := leastArm + float64(i)*armWidth
		if u := usual(t.arms[i][:]); u.N > 0 {
			list = append(list, Arm{from, from + armWidth, u})
		}
	}
	return list
}

// usual finds the percentiles of counted positions.
func usual(counts []int) Usual {
	var u Usual
	for _, n := range counts {
		u.N += n
	}
	at := func(share float64) int {
		sum := 0
		for i, n := range counts {
			if sum += n; float64(sum) >= share*float64(u.N) && sum > 0 {
				return i
			}
		}
		return 0
	}
	u.Low, u.Middle, u.High = at(0.1), at(0.5), at(0.9)
	return u
}

// histogram counts a length in bins of 0.1 mm between -200 and 400 mm, what is
// beyond in the last ones, and keeps the greatest.
type histogram struct {
	n     int
	bins  [6000]int32
	worst float64
}

const (
	binWidth  = 0.1
	leastBin  = -200.0
	binsCount = 6000
)

func (h *histogram) add(x float64) {
	if h.n == 0 || x > h.worst {
		h.worst = x
	}
	h.n++
	h.bins[max(0, min(binsCount-1, int(math.Floor((x-leastBin)/binWidth))))]++
}

func (h *histogram) spread() Spread {
	at := func(share float64) float64 {
		sum := 0
		for i, n := range h.bins {
			if sum += int(n); sum > 0 && float64(sum) >= share*float64(h.n) {
				return math.Min(h.worst, leastBin+(float64(i)+0.5)*binWidth)
			}
		}
		return 0
	}
	return Spread{at(0.5), at(0.95), h.worst}
}

// Random are the random persons a brief asks to be judged on.
func Random(w specs.People) Persons {
	return Persons{
		Source: Source{Population: w.Population, Women: w.Women},
		All:    drive.Population(w).Draw(w.Sample, uint64(w.Seed)),
	}
}

// cover places persons one by one and counts who fits.
func (s *Judge) cover(g *specs.Geometry, d drive.State, st *build.Station, from Persons) Crowd {
	u := s.usher(g, d, st)
	t := newTally(s, len(u.m.Axes))
	t.plate = g.FootPlate != nil
	var short []Shortfall
	for who := range from.All {
		r, away := u.seat(who)
		r.Common = s.CommonAxis(&u.sitter)
		r.Fits = away == 0
		if s.Reclined() { // the arms hang otherwise from every seat
			at := s.Sit(u.m, &u.sitter, r.Seat, &u.scratch)
			u.scratch.Take()
			s.SwingAll(u.m, &u.sitter, &at, math.Inf(1), &u.scratch)
		}
		t.add(&r, away)
		t.cells.add(&r, s.most(u.own.List, away))
		if t.shrug.N++; shrugs(t.soft, u.own.List, away) {
			t.shrug.Fits++
		}
		t.alone(u.m, &u.sitter, &u.scratch)
		if from.Each != nil {
			short = s.shortfalls(short[:0], u.own.List, away)
			for _, f := range short {
				r.TurnedBy = append(r.TurnedBy, f.ID)
			}
			from.Each(&r, short)
		}
	}
	return t.crowd(from.Source)
}

// away tells, as bits, the requirements that turn a person away.
func (s *Judge) away(own []require.Row) (kinds uint64) {
	for _, w := range own {
		if s.Scaled(&w) < require.Meets {
			kinds |= 1 << w.Kind
		}
	}
	return kinds
}

// shortfalls appends the worst row of each requirement that turns away.
func (s *Judge) shortfalls(out []Shortfall, own []require.Row, away uint64) []Shortfall {
	for ; away != 0; away &= away - 1 {
		k := bits.TrailingZeros64(away)
		var worst *require.Row
		for i := range own {
			if w := &own[i]; w.Kind == k && (worst == nil || w.Margin < worst.Margin) {
				worst = w
			}
		}
		out = append(out, Shortfall{s.Kinds[k], worst.Value, s.Limits[k], worst.Margin})
	}
	return out
}

// most is the requirement that a person misses by most units that matter, of those that
// turn the person away, as bits; below 0 for none.
func (s *Judge) most(own []require.Row, away uint64) int {
	kind, least := -1, 0.0
	for i := range own {
		w := &own[i]
		if away&(1<<w.Kind) == 0 {
			continue
		}
		if m := s.Scaled(w); kind < 0 || m < least {
			kind, least = w.Kind, m
		}
	}
	return kind
}
