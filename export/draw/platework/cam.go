package platework

import (
	"fmt"

	"armwright/geometry/cam"
	"armwright/solver"
	"armwright/solver/drive"
	"armwright/specs/stock"
)

// Cam is the cam of a station as it is cut: the profile its cable follows and
// the outline made of it, both in the position of flexion 0.
type Cam struct {
	Profile cam.Profile
	Outline cam.Outline
	Plate   cam.Plate
	Cable   stock.CableType
	Core    float64 // thickness of the core plate between the cheeks, mm
	Cheek   float64 // thickness of one cheek plate, mm
}

// CamOf takes the cam of a result and adds the plates it is made of. The error
// is a *MissingError for a station without a cam, or that of
// [cam.Profile.Outline].
func CamOf(r *solver.Result) (Cam, error) {
	if r.Frame.Geometry.Cam == nil {
		return Cam{}, &MissingError{Part: "cam"}
	}
	d := &r.Resistance
	if d.NoOutline != nil {
		return Cam{}, fmt.Errorf("outline of the cam: %w", d.NoOutline)
	}
	return Cam{Profile: d.Profile, Outline: d.Outline, Plate: d.Plate, Cable: d.Cable, Core: drive.CorePlate(d.Cable.Diameter), Cheek: drive.CheekPlate}, nil
}

// MissingError says that a result lacks what a sheet is drawn from.
type MissingError struct{ Part string }

func (e *MissingError) Error() string {
	return fmt.Sprintf("draw: the station has no %s to draw (%s)", e.Part, e.Hint())
}

// Hint says what to do.
func (e *MissingError) Hint() string { return "draw a result that came from Solve or Check" }
