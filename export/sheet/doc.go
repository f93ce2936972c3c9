// Package sheet is the one model of a drawing: views of model geometry with
// dimensions, tables, notes and a title block on a sheet of paper. It holds
// data and layout only; the packages svg, pdf and dxf render it.
//
// A view's entities are written in model millimetres, x to the right and y up.
// Everything that belongs to the paper (text heights, arrowheads, the distance
// of a dimension line from the outline, dash lengths) is in paper millimetres
// whatever the scale of the view. Flatten lays the sheet out and returns a
// Drawing: strokes, fills and labels in paper millimetres, origin at the lower
// left corner of the trimmed sheet, y up. Angles are in radians, counter-
// clockwise positive.
//
// The layout follows ISO 5457 (sheets), ISO 7200 (title block), ISO 5455
// (scales), ISO 128 (lines), ISO 129-1 (dimensions), ISO 3098 (lettering) and
// ISO 5456-2 (arrangement of views). docs/sheets.md says how.
package sheet
