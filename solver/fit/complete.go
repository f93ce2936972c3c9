package fit

import (
	"armwright/geometry/cam"
	"armwright/specs"
)

// complete fills in what a search has no need of.
func (s *builder) complete(g *specs.Geometry, d *drive) error {
	if g.Cam != nil {
		// A measured law may have no closed outline, or one that does not clear the
		// guide sheave; drawing it says why.
		d.Outline, d.Plate, d.NoOutline = s.outline(d.Profile, d.LeastRadius)
	}
	for _, t := range []*Torque{&d.Light, &d.Middle, &d.Heavy} {
		s.moving(g, d, t)
	}
	d.Levels = s.levels(d)
	d.Departures = s.departures(g, d)
	d.Route = s.route(g, d)
	if c := g.Cam; c != nil && c.ArmTeeth > 0 {
		v := s.driveStrength(c, d)
		d.Transmission = &v
	}
	if g.Cam == nil || d.Outline.Root.Len() == 0 {
		return nil
	}
	d.Hub = s.hub(d)
	if s.asked.Stock.CamLightening == "yes" {
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
	if d.Energy, err = s.energy(g.Cam, d); err != nil { // the plates would foul the guide sheave
		d.Outline, d.Plate, d.Hub, d.NoOutline = cam.Outline{}, cam.Plate{}, Hub{}, err
	}
	return nil
}
