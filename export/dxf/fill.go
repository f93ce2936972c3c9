package dxf

import (
	"slices"

	"armwright/export/sheet"

	"gonum.org/v1/gonum/spatial/r2"
)

// solids cuts a filled region, even-odd over its loops, into triangles and
// quadrangles, which both versions of the format and all readers know. A
// triangle stays whole; anything else is cut into bands at the height of every
// corner, arcs broken up to the sheet's chord error. Loops must not cross.
func solids(loops [][]sheet.Vertex) [][]Point {
	if len(loops) == 1 && len(loops[0]) == 3 && straight(loops[0]) {
		v := loops[0]
		return [][]Point{{pointOf(v[0].Vec), pointOf(v[1].Vec), pointOf(v[2].Vec)}}
	}
	var edges [][2]r2.Vec
	var heights []float64
	for _, loop := range loops {
		ps := polyline(Attr{}, loop, true).Path().Points(sheet.ChordError)
		for i, p := range ps {
			edges = append(edges, [2]r2.Vec{p, ps[(i+1)%len(ps)]})
			heights = append(heights, p.Y)
		}
	}
	slices.Sort(heights)
	var out [][]Point
	low := 0
	for i := range heights {
		// Corners closer in height than can be told apart in the file are one.
		if heights[i]-heights[low] >= leastBand {
			out = append(out, band(edges, heights[low], heights[i])...)
			low = i
		}
	}
	return out
}

// leastBand is the least height of a band, mm: the resolution of a plot.
const leastBand = 1e-3

func straight(path []sheet.Vertex) bool {
	return !slices.ContainsFunc(path, func(v sheet.Vertex) bool { return v.Bulge != 0 })
}

// band returns the pieces of the region between two neighbouring heights.
func band(edges [][2]r2.Vec, low, high float64) [][]Point {
	middle := (low + high) / 2
	var across [][2]r2.Vec
	for _, e := range edges {
		if (e[0].Y <= middle) != (e[1].Y <= middle) {
			across = append(across, e)
		}
	}
	slices.SortStableFunc(across, func(a, b [2]r2.Vec) int {
		switch xa, xb := crossing(a, middle), crossing(b, middle); {
		case xa < xb:
			return -1
		case xa > xb:
			return 1
		}
		return 0
	})
	var out [][]Point
	for i := 0; i+1 < len(across); i += 2 {
		l, r := across[i], across[i+1]
		out = append(out, []Point{{crossing(l, low), low}, {crossing(r, low), low},
			{crossing(r, high), high}, {crossing(l, high), high}})
	}
	return out
}

// crossing returns where an edge is at a height, or its nearer end if it does
// not reach so far.
func crossing(e [2]r2.Vec, y float64) float64 {
	share := (y - e[0].Y) / (e[1].Y - e[0].Y)
	return e[0].X + min(max(share, 0), 1)*(e[1].X-e[0].X)
}
