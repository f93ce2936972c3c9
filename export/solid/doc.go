// Package solid writes bodies for other programs: as ISO 10303-21 files of
// application protocol 214 (STEP), true planes, cylinders, cones, spheres,
// circles and ellipses with the structure of the assembly, and as binary glTF 2.0
// meshes for looking at.
//
// What a body leaves out (see geometry/solid) is not in the files either:
// threads, chamfers, weld beads and the drill's point. The same model gives the
// same bytes.
package solid
