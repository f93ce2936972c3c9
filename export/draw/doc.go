// Package draw turns a station, solved or checked, into shop drawings and cut
// files. Sheets are built from the result alone: every dimension on them is
// measured from what is drawn, and the same result gives the same bytes.
//
// Views use the machine frame (mm; origin on the floor midway between the
// pivots, x the way the user faces, y to the user's left, z up). The main view
// is the one from the user's right, x to the right and z up. Cam sheets and
// cut files are in the cam plane seen from the same side, cam axis at the
// origin, in the position of elbow flexion 0.
//
// docs/drawings.md describes the sheets and the cut files.
package draw
