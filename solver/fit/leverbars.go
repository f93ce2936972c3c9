package fit

import (
	"context"
	"math"
	"math/rand/v2"

	"armwright/geometry/linkage"
	"armwright/solver/nlp"
	"armwright/specs"
)

// Own choices for the four-bar linkage.
const (
	barGround    = 200.0 // between the two shafts, mm; only the bars' shares of it shape the torque
	leastBar     = 0.25  // shortest bar, share of the ground
	longestBar   = 2.0   // longest bar, share of the ground
	leastPass    = 40 * deg
	leastRatio   = 0.3 // turn of the output per turn of the arm: far from where the output turns back
	barStarts    = 8   // random starts of each assembly
	barSeed      = 1
	startsTried  = 4000 // draws for a start whose bars close over the range
	barsPastEnds = 5 * deg
)

// LinkageState is how the linkage works over the loaded range and the travel to
// the stops.
type LinkageState struct {
	LeastTransmission float64   // between coupler and output, rad
	Ratio             []float64 // turn of the output per turn of the arm, at each angle
	LeverRMS          float64   // what the best single lever would leave at the middle load, share of the peak
}

// bars are the linkage of a frame.
func bars(v *specs.Linkage) linkage.FourBar {
	return linkage.FourBar{Ground: v.Ground, Input: v.Input, Coupler: v.Coupler, Output: v.Output, Crossed: v.Assembly == "crossed"}
}

// linkageMoments of a unit plate mass over the loaded range, N·mm/kg: by virtual
// work the moment of the plates about their shaft times the velocity ratio. The
// plates' shaft is parallel to the arm's; the bars' own weight is left out.
func (s *study) linkageMoments(g *specs.Geometry, v *specs.Linkage) ([]float64, error) {
	plates := eccentricMoment(middleAxis(newMachine(g)), specs.Eccentric{Mass: 1, Radius: v.Radius, Phase: v.Phase})
	f := bars(v)
	from, to := s.angles[0]+v.InputPhase, s.angles[len(s.angles)-1]+v.InputPhase
	if err := f.Clear(from, to); err != nil {
		return nil, err
	}
	out := make([]float64, len(s.angles))
	for i, theta := range s.angles {
		p, err := f.At(theta + v.InputPhase)
		if err != nil {
			return nil, err
		}
		out[i] = p.Ratio * plates.At(p.Output)
	}
	return out, nil
}

// linkageState tells ratio and least transmission angle of a frame's linkage.
func (s *study) linkageState(v *specs.Linkage) LinkageState {
	out := LinkageState{LeastTransmission: math.Pi / 2}
	f := bars(v)
	for _, theta := range s.angles {
		p, err := f.At(theta + v.InputPhase)
		if err != nil {
			out.LeastTransmission = 0
			continue
		}
		out.LeastTransmission = math.Min(out.LeastTransmission, p.Transmission)
		out.Ratio = append(out.Ratio, p.Ratio)
	}
	return out
}

// barRatio is the velocity ratio at a flexion and its derivative, by central
// difference; 0 where the bars do not close.
func barRatio(v *specs.Linkage, theta float64) (ratio, slope float64) {
	const h = 1e-4
	f := bars(v)
	at, err := f.At(theta + v.InputPhase)
	before, err1 := f.At(theta - h + v.InputPhase)
	after, err2 := f.At(theta + h + v.InputPhase)
	if err != nil || err1 != nil || err2 != nil {
		return 0, 0
	}
	return at.Ratio, (after.Ratio - before.Ratio) / (2 * h)
}

// barFit is one linkage with its plates' two components, found by least squares.
type barFit struct {
	miss float64    // sum of squared differences over the squared level
	p    [2]float64 // of the plates' moment, N·mm: p0 cos u + p1 sin u at the output angle u
	rows []float64  // what must not be negative
}

// barTrial works out a linkage. Unknown are input, coupler and output as shares
// of the ground, and the input's phase; the plates' moment, linear in its two
// components, is the best for these bars. False where the bars do not close.
func (s *study) barTrial(x []float64, crossed bool, gravity []float64, level float64) (barFit, bool) {
	f := linkage.FourBar{Ground: 1, Input: x[0], Coupler: x[1], Output: x[2], Crossed: crossed}
	n := len(s.angles)
	out := barFit{rows: make([]float64, 0, 3*(n+2))}
	row := func(theta float64) (linkage.Position, bool) {
		at := theta + x[3]
		p, err := f.At(at)
		if err != nil {
			return p, false
		}
		// The cosine of the transmission angle by the triangle's sides is smooth
		// where the angle is not.
		e2 := 1 + x[0]*x[0] - 2*x[0]*math.Cos(at)
		cos := (x[1]*x[1] + x[2]*x[2] - e2) / (2 * x[1] * x[2])
		limit := math.Cos(leastPass)
		out.rows = append(out.rows, limit-cos, limit+cos, math.Abs(p.Ratio)-leastRatio)
		return p, true
	}
	// Normal equations of the two components.
	var a11, a12, a22, b1, b2 float64
	u := make([][2]float64, n)
	for i, theta := range s.angles {
		p, ok := row(theta)
		if !ok {
			return out, false
		}
		sin, cos := math.Sincos(p.Output)
		u[i] = [2]float64{p.Ratio * cos, p.Ratio * sin}
		want := level*s.shape[i] - gravity[i]
		a11 += u[i][0] * u[i][0]
		a12 += u[i][0] * u[i][1]
		a22 += u[i][1] * u[i][1]
		b1 += u[i][0] * want
		b2 += u[i][1] * want
	}
	for _, theta := range []float64{s.angles[0] - barsPastEnds, s.angles[n-1] + barsPastEnds} {
		if _, ok := row(theta); !ok {
			return out, false
		}
	}
	det := a11*a22 - a12*a12
	if !(det > 0) {
		return out, false
	}
	out.p = [2]float64{(b1*a22 - b2*a12) / det, (a11*b2 - a12*b1) / det}
	for i := range u {
		out.miss += sq((u[i][0]*out.p[0] + u[i][1]*out.p[1] + gravity[i] - level*s.shape[i]) / level)
	}
	return out, true
}

// solveBars finds the linkage from random starts of both assemblies, drawn with
// a seed. The transmission angle stays above 40 degrees (a common bound of
// machine design, M) and the ratio off zero over the loaded range and five
// degrees past it, which keeps the dead points out. The error is a
// *LinkageError.
func (s *study) solveBars(g *specs.Geometry, seed uint64) (*specs.Linkage, error) {
	r := s.asked.Resistance
	gravity := s.gravityMoments(g)
	level := s.wantedLevel() * r.Load.Middle / r.Load.Heavy
	random := rand.New(rand.NewPCG(seed, 0))
	low := []float64{leastBar, leastBar, leastBar, -2 * math.Pi}
	high := []float64{longestBar, longestBar, longestBar, 2 * math.Pi}
	var best barFit
	var bestX []float64
	bestCrossed := false
	for _, crossed := range []bool{false, true} {
		p := nlp.Problem{
			N: 4, M: 3 * (len(s.angles) + 2), Lower: low, Upper: high, Scale: []float64{0.3, 0.3, 0.3, 0.3},
			Both: func(c, x []float64) float64 {
				f, ok := s.barTrial(x, crossed, gravity, level)
				if !ok {
					for i := range c {
						c[i] = math.NaN()
					}
					return math.NaN()
				}
				copy(c, f.rows)
				return missScale * f.miss / float64(len(s.angles))
			},
		}
		p.Func = func(x []float64) float64 { return p.Both(make([]float64, p.M), x) }
		p.Rows = func(c, x []float64) { p.Both(c, x) }
		for range barStarts {
			x, ok := s.barStart(random, crossed, gravity, level)
			if !ok {
				break
			}
			// A search of four unknowns takes milliseconds: nobody need stop it.
			found, err := nlp.Minimize(context.Background(), p, x, &nlp.Settings{MaxIterations: 300})
			if err != nil {
				return nil, err
			}
			if !found.Status.Usable() {
				continue
			}
			f, ok := s.barTrial(found.X, crossed, gravity, level)
			if ok && (bestX == nil || f.miss < best.miss) {
				best, bestX, bestCrossed = f, found.X, crossed
			}
		}
	}
	if bestX == nil {
		return nil, &LinkageError{}
	}
	return s.linkageOf(g, bestX, bestCrossed, best.p), nil
}

// missScale brings the mean squared difference, 1e-5 to 1e-2 of the squared
// peak, to the size the optimiser's tolerances are made for.
const missScale = 1e4

// barStart draws bars that close over the range and keep the rows.
func (s *study) barStart(random *rand.Rand, crossed bool, gravity []float64, level float64) ([]float64, bool) {
	for range startsTried {
		x := []float64{0, 0, 0, math.Pi * (2*random.Float64() - 1)}
		for i := range 3 {
			x[i] = leastBar + (longestBar-leastBar)*random.Float64()
		}
		f, ok := s.barTrial(x, crossed, gravity, level)
		for _, row := range f.rows {
			ok = ok && row >= 0
		}
		if ok {
			return x, true
		}
	}
	return nil, false
}

// linkageOf turns the unknowns into a frame's linkage. The plates' shaft stands
// down the pad's slope from the arm's.
func (s *study) linkageOf(g *specs.Geometry, x []float64, crossed bool, p [2]float64) *specs.Linkage {
	unit := eccentricMoment(middleAxis(newMachine(g)), specs.Eccentric{Mass: 1, Radius: 1})
	v := &specs.Linkage{
		Ground: barGround, Direction: -newMachine(g).rest.Slope,
		Input: x[0] * barGround, Coupler: x[1] * barGround, Output: x[2] * barGround, Assembly: "open",
		InputPhase: math.Remainder(x[3], 2*math.Pi),
		Radius:     math.Hypot(p[0], p[1]) / (s.asked.Resistance.Load.Middle * math.Hypot(unit.Cos, unit.Sin)),
		Phase:      math.Remainder(math.Atan2(-p[1], p[0])-math.Atan2(-unit.Sin, unit.Cos), 2*math.Pi),
	}
	if crossed {
		v.Assembly = "crossed"
	}
	return v
}

// bestLever is the least rms that a single plate lever of any radius and phase
// leaves at the middle load, share of the peak. Its torque is a first harmonic,
// so this is linear least squares with one answer; a second weight on the same
// lever adds to the harmonic and changes nothing.
func (s *study) bestLever(g *specs.Geometry) float64 {
	r := s.asked.Resistance
	gravity := s.gravityMoments(g)
	level := s.wantedLevel() * r.Load.Middle / r.Load.Heavy
	var a11, a12, a22, b1, b2 float64
	for i, theta := range s.angles {
		sin, cos := math.Sincos(theta)
		want := level*s.shape[i] - gravity[i]
		a11, a12, a22 = a11+cos*cos, a12+cos*sin, a22+sin*sin
		b1, b2 = b1+cos*want, b2+sin*want
	}
	det := a11*a22 - a12*a12
	h := linkage.Harmonic{Cos: (b1*a22 - b2*a12) / det, Sin: (a11*b2 - a12*b1) / det}
	sum := 0.0
	for i, theta := range s.angles {
		sum += sq((h.At(theta) + gravity[i] - level*s.shape[i]) / level)
	}
	return math.Sqrt(sum / float64(len(s.angles)))
}

// LinkageError says that no four-bar linkage was found.
type LinkageError struct{}

func (e *LinkageError) Error() string {
	return "no four-bar linkage was found that keeps its dead points out of the loaded range"
}

// Hint says what to change.
func (e *LinkageError) Hint() string { return "narrow resistance.loaded, or use a cam" }
