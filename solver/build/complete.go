package build

import (
	"armwright/geometry/cam"
	"armwright/solver/drive"
	"armwright/specs"
)

// Complete fills in what a search has no need of.
func (s *Builder) Complete(g *specs.Geometry, d *drive.State) error {
	if g.Cam != nil {
		// A measured law may have no closed outline, or one that does not clear the
		// guide sheave; drawing it says why.
		d.Outline, d.Plate, d.NoOutline = s.Outline(d.Profile, d.LeastRadius)
	}
	for _, t := range []*drive.Torque{&d.Light, &d.Middle, &d.Heavy} {
		s.Moving(g, d, t)
	}
	d.Levels = s.Levels(d)
	d.Departures = s.Departures(g, d)
	d.Route = s.Route(g, d)
	if c := g.Cam; c != nil && c.ArmTeeth > 0 {
		v := s.TransmissionStrength(c, d)
		d.Transmission = &v
	}
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
