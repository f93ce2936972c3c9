// Package solid holds the bodies that a station is made of: profiles carried
// along a line between two planes, with holes, and bodies turned about an axis.
// It gives their volume, centroid and moments of inertia in closed form, their
// boundary as faces and edges, and the distance or overlap of two of them.
//
// Each body lives in its own right-handed frame and is put into another by a
// Placement. Lengths are mm, angles rad, volumes mm³, moments of inertia per
// unit density mm⁵.
//
// The bodies are what a small shop saws, drills, cuts and turns. Chamfers and
// fillets other than those of a profile's outline, threads, knurls, the drill's
// point, weld beads and bent tube are left out: a threaded hole is a round hole
// of its stated diameter and a blind one ends flat.
package solid
