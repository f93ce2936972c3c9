package judge

import (
	"cmp"
	"slices"

	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/specs"
	"armwright/specs/people"
)

// Cell is those of a crowd of one sex, in a band of stature and one of the carrying angle.
type Cell struct {
	Sex               people.Sex
	Stature, Carrying float64 // where the bands begin, mm and rad
	N, Fits           int
	Away              []Count // by what turns away most each of those who do not fit, most first
}

// Bands of stature, mm: what a chart on a station lists, up to 2200.
const (
	bandWidth = 50.0
	leastBand = 1300.0
	bands     = 18
)

func band(stature, width float64, n int) int {
	return max(0, min(n-1, int((stature-leastBand)/width)))
}

// Count is how often a requirement turned somebody away.
type Count struct {
	ID string
	N  int
}

// Widths of the bands of cells, mm and rad; the carrying angle's begin at 0 and take in
// what is below.
const (
	CellStature   = bandWidth
	CellCarrying  = 4 * specs.Degree
	carryingBands = 9 // up to 36 degrees
	mostKinds     = 64
)

// cells counts a crowd in a grid. Nothing in it grows.
type cells [2][bands][carryingBands]struct {
	n, fits int
	away    [mostKinds]int // by kind
}

// add counts one person, with what turns that person away most, a kind, or none below 0.
func (c *cells) add(p *seat.Person, most int) {
	turn := int(p.Person.CarryingAngle / CellCarrying)
	at := &c[p.Person.Sex][band(p.Person.Stature, bandWidth, bands)][max(0, min(carryingBands-1, turn))]
	at.n++
	if most < 0 {
		at.fits++
		return
	}
	at.away[most]++
}

// list are the cells with anybody in them.
func (c *cells) list(kinds []require.Kind) (out []Cell) {
	for sex := range c {
		for i := range c[sex] {
			for k := range c[sex][i] {
				at := &c[sex][i][k]
				if at.n == 0 {
					continue
				}
				cell := Cell{Sex: people.Sex(sex), Stature: leastBand + float64(i)*bandWidth, Carrying: float64(k) * CellCarrying, N: at.n, Fits: at.fits}
				for kind, n := range at.away {
					if n > 0 {
						cell.Away = append(cell.Away, Count{kinds[kind].ID, n})
					}
				}
				slices.SortStableFunc(cell.Away, func(a, b Count) int { return cmp.Compare(b.N, a.N) })
				out = append(out, cell)
			}
		}
	}
	return out
}
