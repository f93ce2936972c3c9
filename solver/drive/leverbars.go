package drive

import (
	"context"
	"math"
	"math/rand/v2"

	"armwright/geometry/linkage"
	"armwright/solver/nlp"
	"armwright/specs"

	"gonum.org/v1/gonum/spatial/r2"
)

// Own choices for the four-bar linkage.
const (
	BarGround    = 200.0 // between the two shafts, mm; only the bars' shares of it shape the torque
	leastBar     = 0.25  // shortest bar, share of the ground
	longestBar   = 2.0   // longest bar, share of the ground
	leastPass    = 40 * specs.Degree
	leastRatio   = 0.3 // turn of the output per turn of the arm: far from where the output turns back
	barStarts    = 8   // random starts of each assembly
	barSeed      = 1
	startsTried  = 4000 // draws for a start whose bars close over the range
	barsPastEnds = 5 * specs.Degree
	leastLever   = 80.0 // shortest plate lever of which the weight is reckoned, mm
)

// barFit is one linkage with its plates' two components, found by least squares.
type barFit struct {
	miss float64    // sum of squared differences over the squared level
	p    [2]float64 // of the plates' moment, N·mm: p0 cos u + p1 sin u at the output angle u
	rows []float64  // what must not be negative
}

// barTask is what the bars of a linkage are to do.
type barTask struct {
	s         *Designer
	direction float64   // of the output shaft
	up        r2.Vec    // vertical, in the plane across the axis
	gravity   []float64 // of arm and handle over the loaded range, N·mm
	level     float64   // peak wanted at the middle load, N·mm
	weak      bool      // the plates may hang where they miss the level
}

func (s *Designer) barTask(g *specs.Geometry) barTask {
	load := s.Asked.Resistance.Load
	return barTask{
		s: s, direction: s.linkageDirection(g), up: vertical(g.Pivots.MeanAxis()),
		gravity: s.GravityMoments(g), level: s.wantedLevel() * load.Middle / load.Heavy,
	}
}

// train is the linkage of the unknowns: input, coupler and output as shares of
// the ground, and the input's phase; the plates are left out.
func (b *barTask) train(x []float64, crossed bool) linkage.Train {
	return linkage.Train{
		Bars:      linkage.FourBar{Ground: BarGround, Input: x[0] * BarGround, Coupler: x[1] * BarGround, Output: x[2] * BarGround, Crossed: crossed},
		Direction: b.direction, InputPhase: x[3],
	}
}

// radius is where plates and lever have the moment p about the output shaft at
// the middle load.
func (b *barTask) radius(p [2]float64) float64 {
	want := math.Hypot(p[0], p[1]) / (linkage.G * r2.Norm(b.up))
	load := b.s.Asked.Resistance.Load.Middle
	radius := want / load
	for range 20 { // the lever's own share is small: each round gains two digits
		radius = want / (load + b.s.barWeights(linkage.Train{Radius: math.Max(radius, leastLever)}).Plates)
	}
	return radius
}

// try works out a linkage. The plates' moment, linear in its two
// components, is the best for these bars. False where the bars do not close.
func (b *barTask) try(x []float64, crossed bool) (barFit, bool) {
	s, t := b.s, b.train(x, crossed)
	n := len(s.Angles)
	out := barFit{rows: make([]float64, 0, s.barRows())}
	row := func(theta float64) (linkage.Pose, bool) {
		at := theta + x[3]
		p, err := t.At(theta)
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
	// Plates and lever hang on the output shaft; the other bars weigh as they are.
	own := s.barWeights(t)
	own.Plates = 0
	gravity := make([]float64, n)
	// Normal equations of the two components.
	var a11, a12, a22, b1, b2 float64
	u := make([][2]float64, n)
	for i, theta := range s.Angles {
		p, ok := row(theta)
		if !ok {
			return out, false
		}
		sin, cos := math.Sincos(p.Output)
		u[i] = [2]float64{p.Ratio * cos, p.Ratio * sin}
		gravity[i] = b.gravity[i] + p.Resistance(own, b.up)
		want := b.level*s.Shape[i] - gravity[i]
		a11 += u[i][0] * u[i][0]
		a12 += u[i][0] * u[i][1]
		a22 += u[i][1] * u[i][1]
		b1 += u[i][0] * want
		b2 += u[i][1] * want
	}
	for _, theta := range []float64{s.Angles[0] - barsPastEnds, s.Angles[n-1] + barsPastEnds} {
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
		out.miss += sq((u[i][0]*out.p[0] + u[i][1]*out.p[1] + gravity[i] - b.level*s.Shape[i]) / b.level)
	}
	const radiusUnit = 100 // mm
	radius, within := b.radius(out.p), s.leverRange()
	out.rows = append(out.rows, (radius-within.From)/radiusUnit, (within.To-radius)/radiusUnit)
	if b.weak {
		clear(out.rows[len(out.rows)-2:])
	}
	return out, true
}

// barRows is the number of a trial's rows.
func (s *Designer) barRows() int { return 3*(len(s.Angles)+2) + 2 }

// solveBars finds the linkage from random starts of both assemblies, drawn with
// a seed. The transmission angle stays above 40 degrees (a common bound of
// machine design, M) and the ratio off zero over the loaded range and five
// degrees past it, which keeps the dead points out; the coupler passes the
// output shaft clear, and the plates hang within resistance.lever_radius. Where no
// place there gives the wanted level they hang at the end that comes nearest, as a
// lever's do: the shape is judged, and the level follows from the load. The error
// is a *LinkageError.
func (s *Designer) solveBars(g *specs.Geometry, seed uint64) (*specs.Linkage, error) {
	if within := s.leverRange(); within.From > within.To {
		return nil, &LinkageError{ShortLever: true}
	}
	task := s.barTask(g)
	v, err := task.solve(g, seed)
	if Unmade(err) {
		task.weak = true
		v, err = task.solve(g, seed)
	}
	return v, err
}

func (b *barTask) solve(g *specs.Geometry, seed uint64) (*specs.Linkage, error) {
	random := rand.New(rand.NewPCG(seed, 0))
	low, high := b.s.barBounds()
	var best barFit
	var bestX []float64
	bestCrossed := false
	for _, crossed := range []bool{false, true} {
		for range barStarts {
			start, ok := b.start(random, crossed, low, high)
			if !ok {
				break
			}
			x, f, err := b.minimise(start, crossed)
			if err != nil {
				return nil, err
			}
			if x != nil && (bestX == nil || f.miss < best.miss) {
				best, bestX, bestCrossed = f, x, crossed
			}
		}
	}
	if bestX == nil {
		return nil, &LinkageError{}
	}
	return b.linkage(g, bestX, bestCrossed, best.p), nil
}

// refineBars finds the linkage beginning with the geometry's own: what was best
// for axes that have since moved a little.
func (s *Designer) refineBars(g *specs.Geometry) (*specs.Linkage, error) {
	task := s.barTask(g)
	v := g.Linkage
	crossed := v.Assembly == "crossed"
	x, f, err := task.minimise([]float64{v.Input / v.Ground, v.Coupler / v.Ground, v.Output / v.Ground, v.InputPhase}, crossed)
	if err != nil || x == nil {
		return v, err
	}
	return task.linkage(g, x, crossed, f.p), nil
}

// barBounds are those of the unknowns. Each bar is long enough for its bores, and the
// coupler passes the output shaft at the output bar's length times the sine of the
// transmission angle.
func (s *Designer) barBounds() (low, high []float64) {
	stock := s.Asked.Stock
	bar, coupler, _ := LeastBars(stock.Shaft, stock.CamPlate)
	bar, coupler = math.Max(leastBar, bar/BarGround), math.Max(leastBar, coupler/BarGround)
	output := math.Max(bar, ShaftClear(stock.Shaft, stock.CamPlate)/(BarGround*math.Sin(leastPass)))
	return []float64{bar, coupler, output, -2 * math.Pi}, []float64{longestBar, longestBar, longestBar, 2 * math.Pi}
}

// leverRange is how far from the output shaft plates may hang: as the brief says, and
// far enough for the bores of their lever.
func (s *Designer) leverRange() specs.Range {
	within := s.Asked.Resistance.LeverRadius
	_, _, least := LeastBars(s.Asked.Stock.Shaft, s.Asked.Stock.CamPlate)
	within.From = math.Max(within.From, math.Ceil(least))
	return within
}

// minimise brings the miss to its least from a start; nil where the search finds
// nothing that keeps the rows.
func (b *barTask) minimise(start []float64, crossed bool) ([]float64, barFit, error) {
	low, high := b.s.barBounds()
	p := nlp.Problem{
		N: 4, M: b.s.barRows(), Lower: low, Upper: high, Scale: []float64{0.3, 0.3, 0.3, 0.3},
		Both: func(c, x []float64) float64 {
			f, ok := b.try(x, crossed)
			if !ok {
				for i := range c {
					c[i] = math.NaN()
				}
				return math.NaN()
			}
			copy(c, f.rows)
			return missScale * f.miss / float64(len(b.s.Angles))
		},
	}
	// A search of four unknowns takes milliseconds: nobody need stop it.
	found, err := nlp.Minimize(context.Background(), p, start, &nlp.Settings{MaxIterations: 300})
	if err != nil || !found.Status.Usable() {
		return nil, barFit{}, err
	}
	f, ok := b.try(found.X, crossed)
	if !ok {
		return nil, barFit{}, nil
	}
	return found.X, f, nil
}

// missScale brings the mean squared difference, 1e-5 to 1e-2 of the squared
// peak, to the size the optimiser's tolerances are made for.
const missScale = 1e4

// start draws bars that close over the range and keep the rows, but for the
// plates' radius, which the search brings into its range.
func (b *barTask) start(random *rand.Rand, crossed bool, low, high []float64) ([]float64, bool) {
	for range startsTried {
		x := []float64{0, 0, 0, math.Pi * (2*random.Float64() - 1)}
		for i := range 3 {
			x[i] = low[i] + (high[i]-low[i])*random.Float64()
		}
		f, ok := b.try(x, crossed)
		if !ok {
			continue
		}
		for _, row := range f.rows[:len(f.rows)-2] {
			ok = ok && row >= 0
		}
		if ok {
			return x, true
		}
	}
	return nil, false
}

// linkage turns the unknowns into a frame's linkage.
func (b *barTask) linkage(g *specs.Geometry, x []float64, crossed bool, p [2]float64) *specs.Linkage {
	unit := eccentricMoment(g.Pivots.MeanAxis(), specs.Eccentric{Mass: 1, Radius: 1})
	t := b.train(x, crossed)
	within := b.s.leverRange()
	v := &specs.Linkage{
		Ground: t.Bars.Ground, Direction: t.Direction,
		Input: t.Bars.Input, Coupler: t.Bars.Coupler, Output: t.Bars.Output, Assembly: "open",
		InputPhase: math.Remainder(x[3], 2*math.Pi),
		Radius:     math.Max(within.From, math.Min(within.To, b.radius(p))),
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
func (s *Designer) bestLever(g *specs.Geometry) float64 {
	r := s.Asked.Resistance
	gravity := s.GravityMoments(g)
	level := s.wantedLevel() * r.Load.Middle / r.Load.Heavy
	want := make([]float64, len(s.Angles))
	for i := range want {
		want[i] = level*s.Shape[i] - gravity[i]
	}
	h := linkage.NearestHarmonic(s.Angles, want)
	sum := 0.0
	for i, theta := range s.Angles {
		sum += sq((h.At(theta) + gravity[i] - level*s.Shape[i]) / level)
	}
	return math.Sqrt(sum / float64(len(s.Angles)))
}
