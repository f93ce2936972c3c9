package fit

import (
	"math"
	"testing"

	"armwright/solver/drive"
	"armwright/solver/solvertest"
	"armwright/specs"
)

// How a cam sits on its shaft changes neither law nor torque; a keyed cam has the
// key of DIN 6885-1 for its shaft, a clamped one a hub whose holes are the cam's.
func TestHubs(t *testing.T) {
	b := solvertest.Brief(t, "cam-study")
	b.Resistance.LeastArm = 50 // room for a bolt circle
	b.Stock.Shaft = 20
	b.Resistance.Load = specs.Loads{Light: 2.5, Middle: 10, Heavy: 20}
	plain := solve(t, b).Resistance
	if plain.Hub.Kind != "bolted" || plain.Outline.Keyed.Len() != 0 {
		t.Errorf("without a word the hub is %q", plain.Hub.Kind)
	}
	// Hand calculation: 20 kg on the one cable, times the largest moment arm.
	most := 0.0
	for _, h := range plain.MomentArm {
		most = math.Max(most, h)
	}
	if want := 20 * 9.80665 * most; math.Abs(plain.Hub.Torque-want) > 1 {
		t.Errorf("torque on the shaft %.0f N·mm, want %.0f", plain.Hub.Torque, want)
	}
	b.Stock.Hub = "keyway"
	keyed := solve(t, b).Resistance
	b.Stock.Hub = "clamp"
	clamped := solve(t, b).Resistance
	for _, r := range []drive.Resistance{keyed, clamped} {
		if r.Middle.RMS != plain.Middle.RMS || r.LeastRadius != plain.LeastRadius {
			t.Errorf("%s: rms %.6f, bolted %.6f", r.Hub.Kind, r.Middle.RMS, plain.Middle.RMS)
		}
	}
	// 20 mm: key 6 x 6, 3.5 and 2.8 mm deep.
	if k := keyed.Hub.Key; k.Width != 6 || k.HubDepth != 2.8 || keyed.Outline.Keyed.Bounds().Max.Y != 12.8 {
		t.Errorf("key %+v, bore %v", k, keyed.Outline.Keyed.Bounds())
	}
	// 2 T / (d (h − t1) l) with plates of 5 and twice 3 mm.
	if want := 2 * keyed.Hub.Torque / (20 * 2.5 * 11); math.Abs(keyed.Hub.Pressure-want) > 1e-9 {
		t.Errorf("pressure %.2f, want %.2f N/mm²", keyed.Hub.Pressure, want)
	}
	h := clamped.Hub
	if len(h.Split.Holes) != clamped.Plate.Bolts || h.Holding < h.Torque {
		t.Errorf("split hub with %d holes holds %.0f of %.0f N·mm", len(h.Split.Holes), h.Holding, h.Torque)
	}
	t.Logf("torque %.1f N·m, key %.0f N/mm², clamp holds %.1f N·m", h.Torque/1000, keyed.Hub.Pressure, h.Holding/1000)

	// A weak hub is told.
	if h.Weak() || keyed.Hub.Weak() {
		t.Errorf("told of a sound hub: %+v, %+v", h, keyed.Hub)
	}
	h.Holding = h.Torque
	keyed.Hub.Pressure = 200 // S235 yields at 235
	if !h.Weak() || !keyed.Hub.Weak() {
		t.Error("a weak hub is not told")
	}
}
