// Package measure reads an output folder back and holds it against its own
// report: the cam's moment arm and torque from the cut outline, hole places,
// radii, axis angles and footprint from the sheets, and every written
// dimension against the points it stands on. It trusts nothing but the files:
// they are read with the reader of export/dxf, and the figures come from
// report.json.
//
// Lengths are mm, angles degrees, torques N·m: those of the report.
// docs/drawings.md lists what is compared and where the tolerances come from.
package measure
