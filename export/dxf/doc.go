// Package dxf writes, reads and audits drawings in the open DXF exchange
// format, as far as shop drawings and cut files need it.
//
// A [Document] holds layers, line types, text and dimension styles, blocks and
// entities in model space. [Write] encodes it as AC1015 (the default: line
// weights, units, LWPOLYLINE) or as AC1009 for controllers that know nothing
// newer; [Read] decodes what [Write] encodes; [Audit] checks the bytes of any
// file for the defects that make strict readers refuse it; [CheckCut] checks
// that the loops of a cut file can be cut.
//
// Lengths are in the units of the document (millimetres unless said
// otherwise), angles are in radians counter-clockwise from +x; the file holds
// degrees. The plane is x to the right, y up; z is always zero.
//
// The output depends on the document alone: no clock, no random numbers, no
// map order. Lengths are quantised to 1e-4 mm, angles to 1e-6 degree and
// bulges to 1e-6.
//
// Format: the published DXF group-code reference for releases 12 and 2000,
// and what three independent readers accept (docs/dxf.md).
package dxf
