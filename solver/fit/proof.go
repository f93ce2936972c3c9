package fit

import (
	"math"
	"sort"

	"armwright/geometry/posture"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/specs"
	"armwright/specs/stock"
)

// Proof shows that some demands of a brief contradict each other whatever the
// station: a bound that every station obeys is on the wrong side of what is
// asked. A search that finds nothing shows only that nothing was found.
type Proof struct {
	Demands []string // ids of requirements and paths of the brief that cannot all hold
	Needed  float64  // what every station needs, or at best reaches, inside units
	Allowed float64  // what the brief allows, inside units
	Unit    require.Unit
	Bound   Bound
}

// Bound is what every station obeys.
type Bound int

// The bounds, by what they show.
const (
	RotationOfHandle Bound = iota
	SheaveTooSmall
	CamSpread
	CableTakenUp
	CableFactor
	PivotsApart
	PivotsTooFarApart
	PivotsContested
	PivotsHigh
	TowerHigh
	SeatTravel
	AxesApart
)

// proofSlack is by how much a bound must pass a limit, in units that matter: far
// more than rounding, far less than anybody would notice.
const proofSlack = 0.01

// Prove lists the contradictions of the brief that simple bounds show. None
// proves nothing.
func (s *Program) Prove() []Proof {
	var list []Proof
	add := func(p Proof, unit float64) {
		if p.Needed > p.Allowed+proofSlack*unit {
			list = append(list, p)
		}
	}
	if s.Asked.Resistance.Drive == "cam" {
		s.proveCam(add)
	}
	if s.Bench() {
		return list
	}
	s.proveSpacing(add)
	add(s.leastHeight())
	r := s.Asked.Posture.GripRotation
	add(Proof{
		Demands: []string{"grip-rotation"}, Needed: math.Abs(r), Allowed: s.LimitOf("grip-rotation"), Unit: require.Angle,
		Bound: RotationOfHandle,
	}, 1*specs.Degree)
	if !s.Reclined() {
		add(s.leastTravel())
		add(s.leastAxes())
	}
	return list
}

// proveCam adds the bounds of cable and cam.
//
// The guide sheave's radius is given, and it must be no less than the cable's
// bend radius R.
//
// The pitch curve's radius of curvature is ρ = H + H″ over the normal's angle φ,
// with H = h the moment arm. Where h ≤ b < R, ρ ≥ R needs H″ ≥ R − b all the
// way. A function with H″ ≥ δ over a stretch W spreads by at least δ W²/8 (it lies
// above a parabola about its lowest point, and half of W is on one side of it). H
// stays between least arm a and b, so (R − b) W²/8 ≤ b − a. W is at least
// k Δθ − Δψ, with k the least ratio allowed and Δψ the turn of the cable's line
// between h = a and h = b, which is largest for the nearest guide.
//
// The take-up ∫ k h dθ is at least k a Δθ. The cable factor is at most the one
// with the cable bent no more than over the guide sheave.
func (s *Program) proveCam(add func(Proof, float64)) {
	r := s.Asked.Resistance
	bend := s.LimitOf("cam-bend")
	add(Proof{
		Demands: []string{"cam-bend", "resistance.sheave_radius"}, Needed: bend, Allowed: r.SheaveRadius,
		Bound: SheaveTooSmall,
	}, 1)
	span := r.Loaded.To - r.Loaded.From
	wrap := r.Ratio.From*span - s.cableTurn()
	if spread := (bend - r.GreatestArm) * (wrap * wrap) / 8; wrap > 0 && bend > r.GreatestArm {
		add(Proof{
			Demands: []string{"cam-bend", "resistance.greatest_arm", "resistance.least_arm"},
			Needed:  spread, Allowed: r.GreatestArm - r.LeastArm,
			Bound: CamSpread,
		}, 1)
	}
	add(Proof{
		Demands: []string{"stack-travel", "resistance.least_arm", "resistance.ratio"},
		Needed:  r.Ratio.From * r.LeastArm * span, Allowed: s.LimitOf("stack-travel"),
		Bound: CableTakenUp,
	}, 10)
	lifting := math.Pow(r.Efficiency, float64(r.Sheaves))
	most := s.Cable.Breaking * stock.BendStrength(s.Cable.TreadRatio(r.SheaveRadius)) * lifting / s.Tension(r.Load.Heavy)
	add(Proof{
		Demands: []string{"cable-factor", "resistance.load.heavy", "stock.cable"},
		Needed:  s.LimitOf("cable-factor"), Allowed: most, Unit: require.Number,
		Bound: CableFactor,
	}, 0.5)
}

// cableTurn bounds how far the cable's line turns between the least and the
// greatest moment arm: acos((a − s r)/Q) − acos((b − s r)/Q) falls with the
// guide's distance Q, which is at least what the guide lies below the pivot less
// the sheave's radius, by which it is moved to bring the cable in line.
func (s *Program) cableTurn() float64 {
	r := s.Asked.Resistance
	reach := r.SheaveRadius
	near := drive.GuideBelow - reach
	if r.Side == "crossed" {
		reach = -reach
	}
	angle := func(h float64) float64 { return math.Acos(math.Max(-1, math.Min(1, (h-reach)/near))) }
	return angle(r.LeastArm) - angle(r.GreatestArm)
}

// proveSpacing adds the bounds of the pivots' spacing: a person of half shoulder
// breadth b and upper arm L abducts by asin((spacing/2 − b)/L), so the limit
// allows an interval of spacings, and all of them must share a point with the
// range of the brief.
func (s *Program) proveSpacing(add func(Proof, float64)) {
	most := math.Sin(s.LimitOf("abduction"))
	least, greatest := math.Inf(-1), math.Inf(1)
	for _, b := range s.Bodies {
		least = math.Max(least, 2*(b.ShoulderHalf-b.UpperArm*most))
		greatest = math.Min(greatest, 2*(b.ShoulderHalf+b.UpperArm*most))
	}
	r := s.Asked.Posture.PivotSpacing
	both := []string{"abduction", "posture.pivot_spacing"}
	add(Proof{Demands: both, Needed: least, Allowed: r.To, Bound: PivotsApart}, 5)
	add(Proof{Demands: both, Needed: r.From, Allowed: greatest, Bound: PivotsTooFarApart}, 5)
	add(Proof{Demands: both[:1], Needed: least, Allowed: greatest, Bound: PivotsContested}, 5)
}

// leastHeight bounds the station's top. The pivots stand no lower than asked, with
// half an arm tube above them where the forearm comes up to level in the loaded
// range, as it does when the range ends beyond the slope of the upper arm. A tower
// holds the stack, its travel of at least the take-up of the smallest moment arm,
// and the room that the station keeps.
func (s *Program) leastHeight() (Proof, float64) {
	p := Proof{Demands: []string{"height", "posture.pivot_height"}, Allowed: s.Asked.Space.Height, Bound: PivotsHigh}
	slope := s.Asked.Posture.PadSlope.To
	if s.Reclined() {
		slope = s.Asked.Posture.ArmAngle.To
	}
	if s.Asked.Resistance.Loaded.To >= slope {
		p.Needed = s.Asked.Posture.PivotHeight.From + s.Arm.H/2
	}
	if r := s.Asked.Resistance; r.Drive == "cam" {
		_, stack := s.Plate.Stack(r.Load.Heavy)
		travel := r.Ratio.From * r.LeastArm * (r.Loaded.To - r.Loaded.From)
		if tower := 2*s.Member.H + drive.StackRest + stack + travel + s.TopHeadroom(); tower > p.Needed {
			p.Needed, p.Bound = tower, TowerHigh
			p.Demands = []string{"height", "resistance.load.heavy"}
		}
	}
	return p, 10
}

// Cells into which proofs of the arm-pad posture divide pad slope and pivot
// spacing. Smaller ones sharpen a bound; all are sound.
const (
	slopeCell   = 0.25 * specs.Degree
	spacingCell = 4.0 // mm
)

// interval is a closed interval.
type interval struct{ lo, hi float64 }

// cells divides a range into intervals no longer than size.
func cells(from, to, size float64) []interval {
	n := max(1, int(math.Ceil((to-from)/size)))
	list := make([]interval, n)
	for i := range list {
		list[i] = interval{from + (to-from)*float64(i)/float64(n), from + (to-from)*float64(i+1)/float64(n)}
	}
	return list
}

// spread of the upper arm: the interval of abduction over a cell of spacings. It
// rises with spacing.
func spread(b *posture.Body, spacing interval) interval {
	at := func(s float64) float64 {
		return math.Asin(math.Max(-1, math.Min(1, (s/2-b.ShoulderHalf)/b.UpperArm)))
	}
	return interval{at(spacing.lo), at(spacing.hi)}
}

// cosine encloses the cosine over an interval within ±180 degrees.
func cosine(x interval) interval {
	a, b := math.Cos(x.lo), math.Cos(x.hi)
	c := interval{math.Min(a, b), math.Max(a, b)}
	if x.lo <= 0 && 0 <= x.hi {
		c.hi = 1
	}
	return c
}

// leastTravel bounds the travel of the seat. With slope σ, abduction α and lean
// λ a person sits at
//
//	z = pivot + (A − offset) cos σ + U cos α sin σ − hip − T cos λ
//
// with A half the arm's depth, U the upper arm, T the trunk. Pivot and offset are
// the same for all, and λ lies in its range, so the seat must travel at least from
// the largest of the lowest heights to the least of the greatest ones. In each
// cell of σ and spacing each person's height is enclosed; the least travel over
// all cells is a lower bound for every station.
func (s *Program) leastTravel() (Proof, float64) {
	p := s.Asked.Posture
	from, to := math.Cos(p.Lean.From), math.Cos(p.Lean.To)
	least := math.Inf(1)
	arms := make([]interval, len(s.Bodies)) // cosine of abduction
	for _, spacing := range cells(p.PivotSpacing.From, p.PivotSpacing.To, spacingCell) {
		for i := range s.Bodies {
			arms[i] = cosine(spread(&s.Bodies[i], spacing))
		}
		for _, slope := range cells(p.PadSlope.From, p.PadSlope.To, slopeCell) {
			cs := interval{math.Cos(slope.hi), math.Cos(slope.lo)} // the slope is 0 to 80 degrees
			sn := interval{math.Sin(slope.lo), math.Sin(slope.hi)}
			top, bottom := math.Inf(-1), math.Inf(1)
			for i := range s.Bodies {
				b := &s.Bodies[i]
				low := b.ArmHalf*cs.lo + b.UpperArm*arms[i].lo*sn.lo - b.Hip
				high := b.ArmHalf*cs.hi + b.UpperArm*arms[i].hi*sn.hi - b.Hip
				top = math.Max(top, low-b.Trunk*from)
				bottom = math.Min(bottom, high-b.Trunk*to)
			}
			least = math.Min(least, top-bottom)
		}
	}
	return Proof{
		Demands: []string{"posture.seat_positions", "posture.seat_pitch", "lean", "posture.lean.from"},
		Needed:  least, Allowed: float64(p.SeatPositions-1) * p.SeatPitch,
		Bound: SeatTravel,
	}, 5
}

// leastAxes bounds the number of axis positions. The elbow axis of a person of
// tilt β, abduction α and humeral turn t has, along the pad, the component
//
//	sin β cos α + cos β cos t sin α
//
// whatever the pad's slope; its arc sine is the axis' latitude. The angle to a
// machine axis is no less than the difference of their latitudes, and must not
// pass the limit of axis tilt. Nor may it pass what the hand path allows: about a
// machine axis at the angle τ the hand of a forearm F swings along the axis by
// F cos γ sin τ cos(θ − θ0), of which any stretch Δθ of the range shows at least
// 1 − cos(Δθ/2), less what falls between the angles that are looked at, and a
// handle stays off by half of that at least, unless the arm may turn while it
// lifts: then the limit of axis tilt alone counts. So each person
// needs a machine axis in an interval of latitudes. The least number of points
// that meet all intervals follows by taking, from the low end, the end of each
// interval not met yet; it is taken over cells of the spacing.
func (s *Program) leastAxes() (Proof, float64) {
	p := s.Asked.Posture
	half := math.Min((s.Asked.Resistance.Loaded.To-s.Asked.Resistance.Loaded.From)/2, math.Pi)
	shown := (math.Cos(drive.AngleStep/2) - math.Cos(half)) / 2
	turn := math.Cos(seat.HumeralTurn)
	tilt, path := s.LimitOf("axis-tilt"), s.LimitOf("hand-path")
	least := math.Inf(1)
	var who seat.Sitter
	var wants []interval
	for _, spacing := range cells(p.PivotSpacing.From, p.PivotSpacing.To, spacingCell) {
		wants = wants[:0]
		for i := range s.Persons {
			who.Take(&s.Placer, i)
			b, h := &s.Bodies[i], who.Limbs[0].Hinge
			a := spread(b, spacing)
			sb, cb := math.Sincos(h.Tilt)
			ca := cosine(a)
			sa := interval{math.Sin(a.lo), math.Sin(a.hi)}
			lo := math.Min(sb*ca.lo, sb*ca.hi) + cb*math.Min(sa.lo, sa.lo*turn)
			hi := math.Max(sb*ca.lo, sb*ca.hi) + cb*math.Max(sa.hi, sa.hi*turn)
			near := tilt
			if sine := path / (b.Forearm * math.Cos(h.Valgus) * shown); shown > 0 && sine < 1 && p.LiftingTurn == 0 {
				near = math.Min(near, math.Asin(sine))
			}
			wants = append(wants, interval{math.Asin(math.Max(-1, lo)) - near, math.Asin(math.Min(1, hi)) + near})
		}
		least = math.Min(least, float64(stabbing(wants)))
	}
	return Proof{
		Demands: []string{"axis-tilt", "hand-path", "posture.axis_positions", "posture.pivot_spacing"},
		Needed:  least, Allowed: float64(p.AxisPositions), Unit: require.Number,
		Bound: AxesApart,
	}, 1
}

// stabbing is the least number of points such that each interval holds one. It
// sorts the intervals.
func stabbing(list []interval) int {
	sort.Slice(list, func(i, j int) bool { return list[i].hi < list[j].hi })
	n, at := 0, math.Inf(-1)
	for _, v := range list {
		if v.lo > at {
			n, at = n+1, v.hi
		}
	}
	return n
}
