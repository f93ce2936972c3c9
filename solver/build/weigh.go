package build

import (
	"math"

	"armwright/geometry/assembly"
	"armwright/geometry/balance"
	"armwright/geometry/solid"
	"armwright/solver/drive"
	"armwright/specs"
)

// Design chooses drive and counterweight, as drive.Designer's does, with what the
// drive's own parts turn out to weigh: it is designed, built, and designed again with
// their moments until those stay.
func (s *Builder) Design(g *specs.Geometry) (drive.State, error) {
	return s.DesignLaid(g, drive.NewMachine(g).Rest.Slope)
}

// DesignLaid is Design with a cam and its guide sheave placed for a pad of another slope,
// rad: a station whose pad is tilted a little more keeps them where they are.
func (s *Builder) DesignLaid(g *specs.Geometry, laid float64) (drive.State, error) {
	d, err := s.Designer.Design(g, nil, laid)
	if err != nil || s.Bench() {
		return d, err
	}
	var own []float64
	var dead float64
	for range designRounds {
		whole := d
		if err := s.Cut(g, &whole); err != nil {
			return d, err
		}
		st := s.Station(g, &whole, nil)
		var next []float64
		next, dead = s.DriveWeights(&st, &d)
		if settled(own, next, ownTolerance*d.Level) {
			break
		}
		own = next
		trial := *g
		again, err := s.Designer.Design(&trial, own, laid)
		if drive.Unmade(err) {
			break // what was found without stands, and is judged with them
		}
		if err != nil {
			return again, err
		}
		*g, d = trial, again
	}
	d.Dead = dead
	d.HeavyTension += s.Tension(dead)
	return d, nil
}

const (
	designRounds = 3
	// ownTolerance is how far the moments of a drive's parts may still be from those
	// that it was designed with, share of the peak torque at the heaviest load. A
	// tenth of the finest step that matters of the torque match.
	ownTolerance = 1e-3
)

// settled reports whether moments differ by no more than a tolerance from those known.
func settled(known, now []float64, tolerance float64) bool {
	for i, v := range now {
		if known != nil {
			v -= known[i]
		}
		if math.Abs(v) > tolerance {
			return false
		}
	}
	return true
}

// WeighDrive adds to a state what the parts weigh that its drive moves and a geometry
// says nothing of: the cam at its own speed, lever and bars with all that is on them,
// and what of a stack rises with the load. A bench, and what cannot be built, is left
// as it is.
func (s *Builder) WeighDrive(st *Station, d *drive.State) {
	if own, dead := s.DriveWeights(st, d); own != nil {
		s.Weigh(d, own, dead)
	}
}

// DriveWeights are the moments that a built station's parts add to what d counts of
// them, N·mm at each angle, resisting flexion: by virtual work, the axis in its middle
// position, of an even number the mean of both. With them comes the mass that rises with
// the load of one stack, kg, which is among them. Nil without an assembly.
func (s *Builder) DriveWeights(st *Station, d *drive.State) (own []float64, dead float64) {
	a := st.Assembly
	if a == nil {
		return nil, 0
	}
	parts := make([]assembly.Weight, len(a.Groups))
	for i := range a.Parts {
		p := &a.Parts[i]
		switch {
		case p.Side == assembly.Left || p.Traits&(assembly.Load|assembly.Stated) != 0:
		case p.Is(assembly.Rises):
			dead += p.Mass
		case p.Is(assembly.Turns):
			parts[p.Group].Add(p.Mass, p.Centre)
		}
	}
	middle := []int{len(st.Values.Axes) / 2}
	if n := len(st.Values.Axes); n%2 == 0 {
		middle = []int{n/2 - 1, n / 2}
	}
	out := make([]float64, len(s.Angles))
	var places []solid.Placement
	height := func(theta float64, axis int) float64 {
		pose := a.Reference
		pose.Axis, pose.Flexion[0] = axis, theta
		places = a.At(pose, places)
		sum := 0.0
		for g, w := range parts {
			if w.Mass > 0 {
				sum += w.Mass * places[g].Point(w.Centre()).Z
			}
		}
		return sum
	}
	const h = 1e-3 // rad: the error is h²/6 of the moment
	for i, theta := range s.Angles {
		for _, axis := range middle {
			out[i] += balance.G / (2 * h * float64(len(middle))) * (height(theta+h, axis) - height(theta-h, axis))
		}
		out[i] += dead * d.Unit[i]
	}
	for i, v := range d.Linkage.Bars { // counted already
		out[i] -= v
	}
	return out, dead
}
