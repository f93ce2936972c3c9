package build

import (
	"reflect"
	"slices"

	"armwright/geometry/cam"
	"armwright/solver/drive"
	"armwright/specs"
)

// Complete fills in what a search has no need of, and builds the station with it.
func (s *Builder) Complete(g *specs.Geometry, d *drive.State) (Station, error) {
	if err := s.Cut(g, d); err != nil {
		return Station{}, err
	}
	st := s.Station(g, d, nil)
	st.sound()
	s.WeighDrive(&st, d)
	s.AlongAxes(g, &st, d, nil)
	for _, t := range []*drive.Torque{&d.Light, &d.Middle, &d.Heavy} {
		s.Moving(g, d, t)
	}
	d.Levels = s.Levels(d)
	d.Steps, d.Limb = s.Steps(d), s.LimbOf(g, d)
	d.Departures = s.Departures(g, d)
	if c := g.Cam; c != nil && c.ArmTeeth > 0 {
		v := s.TransmissionStrength(c, d)
		d.Transmission = &v
	}
	d.Route = s.Route(&st, d)
	return st, nil
}

// Cut gives the cam the plates that it is cut to, by which a station is judged in the
// end; a search has a disc of about their area.
func (s *Builder) Cut(g *specs.Geometry, d *drive.State) error {
	s.close(g, d)
	return s.bore(g, d)
}

// Cutter cuts cams for one judgement after another and remembers the last: designs that
// differ in limits or people alone have the same. The zero value is ready; it is for
// one goroutine at a time.
type Cutter struct {
	cam        specs.Cam
	resistance specs.Resistance
	stock      specs.Stock
	required   float64 // radius
	cut        *drive.State
	err        error
}

// Cut is Builder.Cut of a state that Evaluate has worked out for a geometry.
func (c *Cutter) Cut(s *Builder, g *specs.Geometry, d *drive.State) error {
	if g.Cam == nil {
		return nil
	}
	a := s.Asked
	if c.cut == nil || c.resistance != a.Resistance || c.stock != a.Stock || c.required != d.RequiredRadius || !reflect.DeepEqual(c.cam, *g.Cam) {
		made := *d
		c.err = s.Cut(g, &made)
		c.cam, c.resistance, c.stock, c.required, c.cut = *g.Cam, a.Resistance, a.Stock, d.RequiredRadius, &made
		c.cam.Law = slices.Clone(g.Cam.Law)
	}
	d.Outline, d.Plate, d.Hub, d.Energy, d.NoOutline = c.cut.Outline, c.cut.Plate, c.cut.Hub, c.cut.Energy, c.cut.NoOutline
	return c.err
}

// close gives the cam its outline. A measured law may have no closed one, or one that
// does not clear the guide sheave; drawing it says why.
func (s *Builder) close(g *specs.Geometry, d *drive.State) {
	if g.Cam != nil {
		d.Outline, d.Plate, d.NoOutline = s.Outline(d.Profile, d.LeastRadius)
	}
}

// bore gives the cam's plates their hub and holes.
func (s *Builder) bore(g *specs.Geometry, d *drive.State) error {
	if g.Cam == nil || d.Outline.Root.Len() == 0 {
		return nil
	}
	d.Hub = s.HubOf(d)
	if s.Asked.Stock.CamLightening == "yes" {
		// Holes change nothing but the plate: a search has no need of them.
		plate := d.Plate
		plate.Lighten = true
		o, err := d.Profile.Outline(plate)
		if err != nil {
			return err
		}
		d.Outline, d.Plate = o, plate
	}
	var err error
	if d.Energy, err = s.Energy(g.Cam, d); err != nil { // the plates would foul the guide sheave
		d.Outline, d.Plate, d.Hub, d.NoOutline = cam.Outline{}, cam.Plate{}, drive.Hub{}, err
	}
	return nil
}
