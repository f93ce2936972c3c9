package fit

import (
	"errors"
	"fmt"
	"math"

	"armwright/geometry/cam"
	"armwright/solver/nlp"
	"armwright/specs"
	"armwright/specs/stock"
)

// Where the countershaft and the guide sheave stand, mm (own choices): the
// countershaft down the pad's slope ahead of the pivot, the guide sheave on
// the swivel axis below the pad, so that every axis position's cam plane
// passes close to it.
const (
	countershaft = 150.0
	guideBelow   = 300.0
)

// lawStep is the largest spacing of the nodes of the moment-arm law.
const lawStep = 10 * deg

// designCam sets the cam with the smallest drive ratio whose match meets the
// goal at the middle load, or the ratio with the best match.
func (s *study) designCam(g *specs.Geometry, goal float64) (drive, error) {
	r := s.asked.Resistance
	var choices []RatioChoice
	if r.Ratio.From <= 1 && 1 <= r.Ratio.To {
		choices = append(choices, RatioChoice{Ratio: 1})
	}
	for _, t := range beltDrives(r.Ratio.From, r.Ratio.To) {
		choices = append(choices, RatioChoice{Ratio: t.Ratio, ArmTeeth: t.ArmTeeth, DrivenTeeth: t.DrivenTeeth})
	}
	best, met := -1, false
	var cams []*specs.Cam
	var drives []drive
	for i := range choices {
		c := &choices[i]
		cm, err := s.fitCam(g, c.Ratio)
		cams = append(cams, cm)
		drives = append(drives, drive{})
		if err != nil {
			c.Reason = err.Error()
			continue
		}
		g.Cam = cm
		d, err := s.drive(g)
		if err != nil {
			c.Reason = err.Error()
			continue
		}
		drives[i] = d
		c.Feasible = true
		c.RMS, c.MaxError = d.Middle.RMS, d.Middle.MaxError
		c.LeastRadius, c.WrapAngle = d.LeastRadius, d.WrapAngle
		switch {
		case met:
		case d.Middle.RMS <= goal:
			best, met = i, true
		case best < 0 || c.RMS < choices[best].RMS-1e-4:
			best = i
		}
	}
	if best < 0 {
		reason := "no drive ratio is allowed"
		if len(choices) > 0 {
			reason = choices[0].Reason
		}
		return drive{}, &CamError{Reason: reason}
	}
	choices[best].Chosen = true
	g.Cam = cams[best]
	d := drives[best]
	d.Ratios = choices
	return d, nil
}

// beltDrives are the attainable ratios nearest to quarter steps, 1 apart.
func beltDrives(from, to float64) []stock.BeltDrive {
	all := stock.Ratios(from, to)
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

// Own choices for the hub of a cam: four bolts on a circle that keeps a wall
// round a bore of the shaft's diameter.
const (
	hubBolts = 4
	hubHole  = 7.0 // M6 clearance, mm
	hubWall  = 6.0 // mm
)

// outline closes a cam: with a bolted hub where there is room for one,
// otherwise keyed to the shaft.
func (s *study) outline(p cam.Profile) (cam.Outline, cam.Plate, error) {
	bore := s.asked.Stock.Shaft
	plate := cam.Plate{
		Cable: s.cable.Diameter, MinRadius: s.requiredRadius(),
		Bore: bore, Bolts: hubBolts, BoltHole: hubHole, BoltCircle: bore + 2*hubWall + hubHole, Wall: hubWall,
	}
	o, err := p.Outline(plate)
	var e *cam.Error
	if errors.As(err, &e) && e.Kind == cam.Hub {
		plate.Bolts, plate.BoltHole, plate.BoltCircle = 0, 0, 0
		o, err = p.Outline(plate)
	}
	return o, plate, err
}

// CamError says that no cam can be made at a drive ratio, or at any when Ratio
// is 0.
type CamError struct {
	Ratio  float64
	Reason string
}

func (e *CamError) Error() string {
	if e.Ratio == 0 {
		return "no cam can be made at any allowed drive ratio: " + e.Reason
	}
	return fmt.Sprintf("no cam can be made at drive ratio %.3g: %s", e.Ratio, e.Reason)
}

// Hint says what to change.
func (e *CamError) Hint() string {
	return "raise resistance.greatest_arm, lower resistance.least_arm, choose a thinner cable or a smaller shaft"
}

// bendRooms returns the radii kept in hand, mm, one tried after the other: the arcs
// that an outline is cut in turn a little tighter than the curve they follow
// where its curvature changes fast.
func bendRooms() []float64 { return []float64{0.5, 1, 2, 4} }

// fitCam returns the closest cam at a drive ratio whose outline, cut in arcs,
// keeps the cable's bend radius.
func (s *study) fitCam(g *specs.Geometry, ratio float64) (*specs.Cam, error) {
	var err error
	for _, room := range bendRooms() {
		var c *specs.Cam
		if c, err = s.closestCam(g, ratio, room); err == nil {
			return c, nil
		}
		var e *cam.Error
		if !errors.As(err, &e) || e.Kind != cam.Curvature {
			break
		}
	}
	return nil, err
}

// closestCam returns the cam at a drive ratio whose torque comes closest to the
// curve at the middle load, or nil when none is possible.
//
// The wanted moment arm is h = (c·s − gravity)/(k F). With the nodal values of
// the law as unknowns the cable's moment arm, its derivatives and, at a given
// cam, the change of the radius of curvature are linear, so the closest cam is
// a least-squares problem with linear rows for radius and size, solved anew
// about each answer until the answer stands.
func (s *study) closestCam(g *specs.Geometry, ratio, room float64) (*specs.Cam, error) {
	r := s.asked.Resistance
	m := newMachine(g)
	sn, cs := math.Sincos(m.rest.Slope)
	c := &specs.Cam{Ratio: ratio, GuideR: r.SheaveRadius, Side: r.Side}
	if ratio != 1 {
		c.CentreX, c.CentreY = countershaft*cs, -countershaft*sn
	}
	c.GuideX, c.GuideY = -guideBelow*sn-c.CentreX, -guideBelow*cs-c.CentreY

	nodes := int(math.Ceil((r.Loaded.To-r.Loaded.From)/lawStep-1e-9)) + 1
	nodes = max(nodes, 5)
	// Rows at a fine grid that holds the law's nodes, where the second
	// derivative bends: (nodes-1)·finer steps.
	grid := make([]float64, (nodes-1)*finer+1)
	for i := range grid {
		grid[i] = r.Loaded.From + (r.Loaded.To-r.Loaded.From)*float64(i)/float64(len(grid)-1)
	}
	b0, b1, b2, err := cam.Basis(r.Loaded.From, r.Loaded.To, nodes, grid)
	if err != nil {
		return nil, err
	}
	gravity := s.gravityMoments(g)
	middle := tension(r.Load.Middle) * ratio
	level := s.wantedLevel() * r.Load.Middle / r.Load.Heavy
	level = math.Min(level, middle*r.GreatestArm)
	if travel := s.limits[s.index["stack-travel"]]; travel > 0 {
		// ∫ h k dθ with h = level s / (k F) must not pass the travel.
		var mean float64
		for _, v := range s.shape {
			mean += v / float64(len(s.shape))
		}
		level = math.Min(level, 0.98*travel*tension(r.Load.Middle)/(mean*(r.Loaded.To-r.Loaded.From)))
	}
	// Least squares at the angles of the requirement.
	at, _, _, err := cam.Basis(r.Loaded.From, r.Loaded.To, nodes, s.angles)
	if err != nil {
		return nil, err
	}
	var a, want []float64
	for i := range s.angles {
		a = append(a, at.RawRowView(i)...)
		want = append(want, (level*s.shape[i]-gravity[i])/middle)
	}
	mean := 0.0
	for _, w := range want {
		mean += w / float64(len(want))
	}
	least := s.requiredRadius()
	mean = math.Max(math.Max(mean, least), r.LeastArm)
	law := make([]float64, nodes)
	for i := range law {
		law[i] = math.Min(mean, r.GreatestArm)
	}
	for range relinearise {
		c.Law = law
		p, err := camProfile(s.asked, c)
		if err != nil {
			return nil, err
		}
		var rows, low []float64
		for i, theta := range grid {
			l, err := p.RhoLinear(theta)
			if err != nil {
				return nil, err
			}
			h, h1, h2 := p.Law.At(theta)
			row := make([]float64, nodes)
			for j := range row {
				row[j] = l.C0*b0.At(i, j) + l.C1*b1.At(i, j) + l.C2*b2.At(i, j)
			}
			rows = append(rows, row...)
			low = append(low, least+room-l.Rho+l.C0*h+l.C1*h1+l.C2*h2)
			rows = append(rows, b0.RawRowView(i)...)
			low = append(low, r.LeastArm)
			for j := range row {
				row[j] = -b0.At(i, j)
			}
			rows = append(rows, row...)
			low = append(low, -r.GreatestArm)
		}
		q, err := nlp.LeastSquares(nodes, a, want, rows, low, nil)
		if err != nil {
			return nil, err
		}
		if !q.Status.Usable() {
			return nil, &CamError{Ratio: ratio, Reason: "the cable's bend radius does not fit between the least and the greatest moment arm"}
		}
		step := 0.0
		for i := range law {
			step = math.Max(step, math.Abs(q.X[i]-law[i]))
		}
		law = q.X
		if step < settled {
			break
		}
	}
	for i := range law {
		law[i] = math.Round(law[i]*1e4) / 1e4
	}
	c.Law = law
	p, err := camProfile(s.asked, c)
	if err != nil {
		return nil, err
	}
	if _, _, err := s.outline(p); err != nil {
		return nil, err // it cannot be closed, or turns too far
	}
	return c, nil
}

const (
	finer       = 8    // rows to a step of the law
	relinearise = 12   // linearisations of the radius of curvature; four settle it in practice
	settled     = 1e-6 // mm, change of the law's nodes at which it stands
)
