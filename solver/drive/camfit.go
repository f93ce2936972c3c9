package drive

import (
	"errors"
	"math"
	"slices"

	"armwright/geometry/cam"
	"armwright/solver/nlp"
	"armwright/specs"
	"armwright/specs/stock"
)

// Where the countershaft and the guide sheave stand, mm (own choices): the
// countershaft about so far down the pad's slope ahead of the pivot, the guide sheave on
// the swivel axis below the pad, so that every axis position's cam plane
// passes close to it.
const (
	countershaft = 150.0
	GuideBelow   = 300.0
)

// lawStep is the largest spacing of the nodes of the moment-arm law.
const lawStep = 10 * specs.Degree

// Own choices for the countershaft and the eccentric weight.
const (
	typicalShare    = 0.8   // of the largest moment arm: the cable's place near the middle of the range
	wheelGap        = 10.0  // between the wheels of belt or chain, mm
	eccentricRadius = 200.0 // of the eccentric weight from the axis, mm
	WheelRoom       = 20.0  // of belt beside the cam as the station is laid out, mm
	eccentricShown  = 10.0  // kg, what the choices are shown with where the brief allows none
)

// designCam sets the cam with the smallest drive ratio whose match meets the
// goal, or the ratio with the best match: without an eccentric weight where most
// is 0, else with one of at most that mass. The match is the middle load's
// without, and the worst of the three loads' with one, since the weight stays
// while the load changes. Where the closest cams are too small for their hubs at
// every ratio, larger ones are taken.
func (s *Designer) designCam(g *specs.Geometry, goal, most float64) (State, error) {
	best, reason := s.camAmong(g, goal, most, false)
	if best == nil {
		best, _ = s.camAmong(g, goal, most, true)
	}
	if best == nil {
		if reason == nil {
			return State{}, &CamError{Reason: "no drive ratio is allowed"}
		}
		why := reason.Error()
		var own *CamError
		if errors.As(reason, &own) {
			why = own.Reason
		}
		return State{}, &CamError{Reason: why}
	}
	g.Cam, g.Eccentric = best.cam, best.eccentric
	return best.drive, nil
}

// hubless says whether an error means that a cam has no room for its hub.
func hubless(err error) bool {
	var e *cam.Error
	return errors.As(err, &e) && e.Kind == cam.Hub
}

// camAmong is the drive ratio that designCam takes, nil where no cam can be made
// at any, with the reason at the first.
func (s *Designer) camAmong(g *specs.Geometry, goal, most float64, larger bool) (best *option, reason error) {
	for _, belt := range s.belts() {
		o := s.option(g, belt, most, larger)
		if o.err != nil {
			if reason == nil {
				reason = o.err
			}
			continue
		}
		o.match = o.drive.Middle.RMS
		if most > 0 {
			o.match = o.drive.worst()
		}
		if best == nil || o.match <= goal || o.match < best.match-1e-4 {
			best = &o
		}
		if o.match <= goal {
			break
		}
	}
	return best, reason
}

// worst is the largest rms difference over the three loads.
func (d State) worst() float64 {
	return math.Max(d.Light.RMS, math.Max(d.Middle.RMS, d.Heavy.RMS))
}

// option is one drive ratio, with or without an eccentric weight, and the
// closest cam it allows.
type option struct {
	belt      stock.BeltDrive // ArmTeeth 0: on the arm's shaft
	cam       *specs.Cam
	eccentric *specs.Eccentric
	drive     State
	match     float64
	kkt       nlp.KKT
	err       error
}

// belts are the drive ratios that the brief allows and stock can make, the cam on
// the arm's own shaft first.
func (s *Designer) belts() []stock.BeltDrive {
	r := s.Asked.Resistance
	var list []stock.BeltDrive
	if r.Ratio.From <= 1 && 1 <= r.Ratio.To {
		list = append(list, stock.BeltDrive{Ratio: 1})
	}
	return append(list, s.beltDrives(r.Ratio.From, r.Ratio.To)...)
}

// option works out the closest cam at one drive ratio, or the closest that is
// larger where that has no room for its hub.
func (s *Designer) option(g *specs.Geometry, belt stock.BeltDrive, most float64, larger bool) option {
	o := option{belt: belt}
	trial := *g
	if o.kkt, o.err = s.fitCam(&trial, belt, most, larger); o.err != nil {
		return o
	}
	o.cam, o.eccentric = trial.Cam, trial.Eccentric
	o.drive, o.err = s.Evaluate(&trial)
	return o
}

// SideBySide lays the choices side by side: every drive ratio, without and with
// an eccentric weight, with the match, the parts and the size of each. The
// counterweight is the one the geometry has; with an eccentric weight there is
// none, since the two are one weight.
func (s *Designer) SideBySide(g *specs.Geometry) []RatioChoice {
	if g.Cam == nil {
		return nil
	}
	allowed := s.Asked.Resistance.Eccentric
	var list []RatioChoice
	for _, most := range []float64{0, math.Max(allowed, eccentricShown)} {
		trial := *g
		trial.Eccentric = nil
		if most > 0 {
			if allowed > 0 {
				most = allowed
			}
			trial.Counterweight = nil
		}
		var options []option
		for _, larger := range []bool{false, true} {
			options = options[:0]
			for _, belt := range s.belts() {
				options = append(options, s.option(&trial, belt, most, larger))
			}
			if slices.ContainsFunc(options, func(o option) bool { return o.err == nil }) {
				break
			}
		}
		for _, o := range options {
			list = append(list, s.choice(o, most > 0, g))
		}
	}
	return list
}

// choice tells an option in the terms of the report.
func (s *Designer) choice(o option, eccentric bool, g *specs.Geometry) RatioChoice {
	c := RatioChoice{
		Ratio: o.belt.Ratio, ArmTeeth: o.belt.ArmTeeth, DrivenTeeth: o.belt.DrivenTeeth,
		HasEccentric: eccentric, Allowed: !eccentric || s.Asked.Resistance.Eccentric > 0,
	}
	c.Chosen = c.Allowed && eccentric == (g.Eccentric != nil) && math.Abs(g.Cam.Ratio-c.Ratio) < 1e-9
	// Extra parts of one arm against a cam on the arm's own shaft.
	if c.ArmTeeth > 0 {
		c.Parts = 6 // two wheels, belt or chain, countershaft, its two bearings
	}
	if eccentric {
		c.Parts++
	}
	if o.err != nil {
		c.Reason = o.err.Error()
		return c
	}
	d := &o.drive
	c.Feasible, c.Optimality = true, o.kkt
	c.RMS, c.MaxError, c.WorstRMS = d.Middle.RMS, d.Middle.MaxError, d.worst()
	c.LeastRadius, c.WrapAngle = d.LeastRadius, d.WrapAngle
	if outline, _, err := s.Outline(d.Profile, d.LeastRadius); err == nil {
		box := outline.Blank.Bounds()
		c.Size = math.Max(box.Max.X-box.Min.X, box.Max.Y-box.Min.Y)
	}
	if o.eccentric != nil {
		c.Eccentric = o.eccentric.Mass
	}
	if c.ArmTeeth > 0 {
		c.Pitches, c.Centre = o.cam.Pitches, math.Hypot(o.cam.CentreX, o.cam.CentreY)
		c.Strength = s.TransmissionStrength(o.cam, d)
	}
	return c
}

// TransmissionStrength screens belt or chain at the heaviest load, at rest: the cable's
// greatest torque on the cam's shaft at the wheel's pitch radius.
func (s *Designer) TransmissionStrength(c *specs.Cam, d *State) stock.DriveStrength {
	t := s.Transmission
	pull := d.HeavyTension * slices.Max(d.MomentArm) / (t.WheelDiameter(c.DrivenTeeth) / 2)
	return t.Strength(pull, t.Meshing(c.ArmTeeth, c.DrivenTeeth, math.Hypot(c.CentreX, c.CentreY)))
}

// beltDrives are the attainable ratios nearest to quarter steps, 1 apart.
func (s *Designer) beltDrives(from, to float64) []stock.BeltDrive {
	all := s.Transmission.Ratios(from, to)
	var few []stock.BeltDrive
	for q := math.Ceil(from * 4); q <= to*4; q++ {
		best := -1
		for i, d := range all {
			if best < 0 || math.Abs(d.Ratio-q/4) < math.Abs(all[best].Ratio-q/4) {
				best = i
			}
		}
		if q != 4 && best >= 0 && (len(few) == 0 || few[len(few)-1] != all[best]) {
			few = append(few, all[best])
		}
	}
	return few
}

// bendRooms returns the radii kept in hand, mm, one tried after the other: the arcs
// that an outline is cut in turn a little tighter than the curve they follow
// where its curvature changes fast.
func bendRooms() []float64 { return []float64{0.5, 1, 2, 4} }

// fitCam sets the closest cam at a drive ratio whose outline, cut in arcs, keeps
// the cable's bend radius; with most above 0 also the eccentric weight. A cam
// without room for its hub is an error, unless a larger one will do: then the least
// moment arm is raised by what is missing.
func (s *Designer) fitCam(g *specs.Geometry, belt stock.BeltDrive, most float64, larger bool) (nlp.KKT, error) {
	c, err := s.camPlace(belt)
	if err != nil {
		return nlp.KKT{}, err
	}
	const raises, spare = 8, 0.5 // times, and mm each time more than is missing
	least := s.Asked.Resistance.LeastArm
	for range raises {
		var e *cam.Error
		for _, room := range bendRooms() {
			var kkt nlp.KKT
			if kkt, err = s.closestCam(g, c, least, room, most); err == nil {
				return kkt, nil
			}
			if !errors.As(err, &e) || e.Kind != cam.Curvature {
				break
			}
		}
		if !larger || !hubless(err) {
			break
		}
		least += e.Limit - e.Value + spare
	}
	return nlp.KKT{}, err
}

// camPlace returns a cam without a law: where its axis and its guide sheave
// stand, and what drives it. The countershaft lies down the slope laid at the
// distance that a whole number of belt or chain pitches closes.
func (s *Designer) camPlace(belt stock.BeltDrive) (*specs.Cam, error) {
	r := s.Asked.Resistance
	sn, cs := math.Sincos(s.laid)
	c := &specs.Cam{Ratio: belt.Ratio, GuideR: r.SheaveRadius, Side: r.Side, ArmTeeth: belt.ArmTeeth, DrivenTeeth: belt.DrivenTeeth}
	if belt.ArmTeeth > 0 {
		t := s.Transmission
		wanted := math.Max(countershaft, (t.WheelDiameter(belt.ArmTeeth)+t.WheelDiameter(belt.DrivenTeeth))/2+wheelGap)
		pitches, centre, err := t.Close(belt.ArmTeeth, belt.DrivenTeeth, wanted)
		if err != nil {
			return nil, err
		}
		c.Pitches, c.CentreX, c.CentreY = pitches, centre*cs, -centre*sn
	}
	c.GuideX, c.GuideY = -GuideBelow*sn-c.CentreX, -GuideBelow*cs-c.CentreY
	// Not the sheave's centre but the place where the cable meets it, near the
	// middle of the range, belongs on the swivel axis.
	middle := s.Tension(r.Load.Middle) * c.Ratio
	typical := math.Max(s.camLevel(middle)/middle*typicalShare, r.LeastArm)
	reach := float64(sideOf(c)) * c.GuideR
	if away := math.Hypot(c.GuideX, c.GuideY); math.Abs(typical-reach) < away {
		psi := math.Atan2(c.GuideY, c.GuideX) + math.Acos((typical-reach)/away)
		c.GuideX -= reach * math.Cos(psi)
		c.GuideY -= reach * math.Sin(psi)
	}
	return c, nil
}

// closestCam gives a cam the law whose torque comes closest to the curve, and
// the geometry that cam.
//
// The wanted moment arm is h = (c·s − gravity)/(k F). Without an eccentric
// weight the middle load is matched; with one all three loads together.
func (s *Designer) closestCam(g *specs.Geometry, c *specs.Cam, least, room, most float64) (nlp.KKT, error) {
	problem := s.closestOf(g, c, least, room, most)
	answer, err := problem.solve()
	if err != nil {
		return answer.kkt, err
	}
	made := *c
	made.Law = make([]float64, len(answer.law))
	for i, v := range answer.law {
		made.Law[i] = math.Round(v*1e4) / 1e4
	}
	p, err := camProfile(s.Asked, &made)
	if err != nil {
		return answer.kkt, err
	}
	outline, _, err := s.Outline(p, s.requiredRadius())
	if err != nil {
		return answer.kkt, err // it cannot be closed, or turns too far
	}
	if err := s.clearsGuide(outline, p); err != nil {
		return answer.kkt, err
	}
	g.Cam = &made
	if most > 0 {
		g.Eccentric = s.eccentricOf(g, answer.eccentric, s.Tension(s.Asked.Resistance.Load.Middle)*c.Ratio)
	}
	return answer.kkt, nil
}

// clearsGuide measures a cam at every angle: what closes the outline outside the
// loaded range may reach farther than the range's own part, as far as the guide
// sheave. The error is a *cam.Error.
func (s *Designer) clearsGuide(o cam.Outline, p cam.Profile) error {
	gauge, err := cam.NewGauge(o.Root, s.Cable.Diameter, p.Guide, p.Ratio)
	if err != nil {
		return err
	}
	for _, theta := range s.Angles {
		if _, err := gauge.At(theta); err != nil {
			return err
		}
	}
	return nil
}

// closestOf states the problem of the closest cam with no moment arm below least.
func (s *Designer) closestOf(g *specs.Geometry, c *specs.Cam, least, room, most float64) *closest {
	r := s.Asked.Resistance
	bare := *g
	bare.Eccentric = nil
	gravity := s.GravityMoments(&bare)
	middle := s.Tension(r.Load.Middle) * c.Ratio
	level := s.camLevel(middle)
	problem := &closest{
		from: r.Loaded.From, to: r.Loaded.To, ratio: c.Ratio, angles: s.Angles,
		guide:  cam.Guide{X: c.GuideX, Y: c.GuideY, Radius: c.GuideR, Side: sideOf(c)},
		radius: s.requiredRadius() + room, leastArm: least, greatestArm: r.GreatestArm,
	}
	loads := []float64{r.Load.Middle}
	if most > 0 {
		loads = []float64{r.Load.Light, r.Load.Middle, r.Load.Heavy}
		problem.most = most * s.eccentricUnit(g) / middle
	}
	for _, mass := range loads {
		l := loadCase{share: r.Load.Middle / mass}
		for i, v := range s.Shape {
			l.want = append(l.want, (level*v-l.share*gravity[i])/middle)
		}
		problem.loads = append(problem.loads, l)
	}
	return problem
}

// camLevel is the peak of the wanted torque at the middle load, N·mm, for a cam
// whose torque at the middle load is middle times the moment arm: the strongest
// person's share, no more than moment arm and stack travel allow.
func (s *Designer) camLevel(middle float64) float64 {
	r := s.Asked.Resistance
	level := math.Min(s.wantedLevel()*r.Load.Middle/r.Load.Heavy, middle*r.GreatestArm)
	if travel := s.LimitOf("stack-travel"); travel > 0 {
		// ∫ h k dθ with h = level s / (k F) must not pass the travel.
		var mean float64
		for _, v := range s.Shape {
			mean += v / float64(len(s.Shape))
		}
		level = math.Min(level, 0.98*travel*s.Tension(r.Load.Middle)/(mean*(r.Loaded.To-r.Loaded.From)))
	}
	return level
}

// eccentricUnit is the greatest moment of 1 kg at the eccentric weight's radius
// about the canted axis, N·mm.
func (s *Designer) eccentricUnit(g *specs.Geometry) float64 {
	h := eccentricMoment(g.Pivots.MeanAxis(), specs.Eccentric{Mass: 1, Radius: eccentricRadius})
	return math.Hypot(h.Cos, h.Sin)
}

// eccentricOf returns the weight whose moment, resisting flexion, is p cos θ +
// q sin θ times scale, N·mm; mass and phase rounded as the frame's file does.
func (s *Designer) eccentricOf(g *specs.Geometry, pq [2]float64, scale float64) *specs.Eccentric {
	axis := g.Pivots.MeanAxis()
	unit := eccentricMoment(axis, specs.Eccentric{Mass: 1, Radius: eccentricRadius})
	size := math.Hypot(unit.Cos, unit.Sin)
	// The unit's moment is size·cos(θ + phase0), the wanted one M·cos(θ + phase).
	phase := math.Atan2(-pq[1], pq[0]) - math.Atan2(-unit.Sin, unit.Cos)
	return &specs.Eccentric{
		Mass:   math.Round(math.Hypot(pq[0], pq[1])*scale/size*1e4) / 1e4,
		Radius: eccentricRadius,
		Phase:  math.Remainder(phase, 2*math.Pi),
	}
}
