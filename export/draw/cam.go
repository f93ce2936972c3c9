package draw

import (
	"errors"
	"fmt"
	"math"

	"armwright/geometry/cam"
	"armwright/solver/fit"
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

// Own choices for the cam's hub, mm: four screws M8 on a flange that is welded
// to a hub on the shaft.
const (
	hubScrews    = 4
	hubHole      = 9.0  // clearance for M8, medium (ISO 273)
	hubFlange    = 28.0 // bolt circle over the bore
	cheekPlate   = 3.0
	coreOverhead = 1.05 // core thickness over the cable's diameter, at least
)

// arcSlack is the share by which the radius of a fitted arc may fall short of
// the profile's own: arcs that follow a curve within a few micrometres
// alternate about its curvature.
const arcSlack = 0.005

// CamOf works out the cam of a result. A hub with a bolt circle is used where
// there is room, else a plain bore to weld the hub into. The error is a
// *MissingError for a station without a cam, or that of [cam.Profile.Outline].
func CamOf(r *fit.Result) (Cam, error) {
	c := r.Frame.Geometry.Cam
	if c == nil {
		return Cam{}, &MissingError{Part: "cam"}
	}
	s := r.Frame.Stock
	cable, err := stock.Cable(s.Cable)
	if err != nil {
		return Cam{}, err
	}
	loaded := r.Frame.Resistance.Loaded
	law, err := cam.NewLaw(loaded.From, loaded.To, c.Law)
	if err != nil {
		return Cam{}, err
	}
	out := Cam{
		Profile: cam.Profile{Law: law, Ratio: c.Ratio, Guide: cam.Guide{X: c.GuideX, Y: c.GuideY, Radius: c.GuideR, Side: side(c)}},
		Cable:   cable,
		Cheek:   cheekPlate,
		Plate: cam.Plate{
			Cable: cable.Diameter, Bore: s.Shaft,
			// A frame that breaks the bend rule is drawn as it is; its report
			// says that the rule does not hold, and the sheet gives the radius.
			MinRadius: (1 - arcSlack) * math.Min(r.Resistance.RequiredRadius, r.Resistance.LeastRadius),
			Bolts:     hubScrews, BoltCircle: s.Shaft + hubFlange, BoltHole: hubHole,
		},
	}
	for _, t := range stock.PlateThicknesses() {
		if out.Core = t; t >= coreOverhead*cable.Diameter {
			break
		}
	}
	out.Outline, err = out.Profile.Outline(out.Plate)
	var bad *cam.Error
	if errors.As(err, &bad) && (bad.Kind == cam.Hub || bad.Kind == cam.Closing) {
		out.Plate.Bolts, out.Plate.BoltCircle, out.Plate.BoltHole = 0, 0, 0
		out.Outline, err = out.Profile.Outline(out.Plate)
	}
	if err != nil {
		return Cam{}, fmt.Errorf("outline of the cam: %w", err)
	}
	return out, nil
}
