package tolerance

import (
	"math"

	"armwright/solver/judge"
	"armwright/specs"
)

// Hold is how closely a dimension has to be held for the station to stay what
// was designed: no requirement that it moves may use up more than the larger
// of its margin and one unit that matters, when all that move it do their part.
type Hold struct {
	Dimension int
	To        float64 // ±, mm, rad or kg
	General   bool    // the general tolerance does it
	For       string  // requirement that asks for it
}

// Holding is a dimension with how closely it has to be held.
type Holding struct {
	Dimension
	Hold
}

// WeldedOnSheets is the class of ISO 13920 that the sheets ask for.
const WeldedOnSheets = "B"

// HoldsOf works out how closely the dimensions of a station are to be held, by the
// classes that its sheets name; none of a bench. The errors are those of NewModel.
func HoldsOf(f *specs.Frame) ([]Holding, error) {
	if f.Geometry.Base == nil {
		return nil, nil
	}
	j, err := judge.New(&f.Asked)
	if err != nil {
		return nil, err
	}
	m, err := NewModel(j, f, Classes{Machined: f.Drawing.Tolerance, Welded: WeldedOnSheets})
	if err != nil {
		return nil, err
	}
	var list []Holding
	for _, h := range m.Holds() {
		list = append(list, Holding{m.Dimensions[h.Dimension], h})
	}
	return list, nil
}

// least is the share of a requirement's variance below which a dimension does
// not count among those that move it.
const least = 0.01

// Holds works out the tolerance to hold of every dimension. The dimensions that
// move a requirement add up as squares, so each of n may take 1/√n of what there
// is.
func (m *Model) Holds() []Hold {
	list := make([]Hold, len(m.Dimensions))
	tolerances := m.tolerances(&Options{Times: 1})
	for d := range list {
		list[d] = Hold{Dimension: d, To: tolerances[d], General: true}
	}
	for k := range m.Kinds {
		if math.IsNaN(m.nominal[k]) {
			continue
		}
		causes := m.causes(k, tolerances)
		n := 0
		for _, c := range causes {
			if c.Share >= least {
				n++
			}
		}
		room := math.Max(m.nominal[k], m.Kinds[k].Scale)
		for _, c := range causes {
			h := &list[c.Dimension]
			most := room / math.Sqrt(float64(n)) / math.Abs(c.Slope)
			if c.Share >= least && most < h.To {
				h.To, h.General, h.For = m.Dimensions[c.Dimension].rounded(most), false, m.Kinds[k].ID
			}
		}
	}
	return list
}

// rounded is a tolerance rounded down to a step of 1, 1.5, 2, 3, 5 or 8 times a
// power of ten, of a millimetre, a degree or a kilogram.
func (d *Dimension) rounded(v float64) float64 {
	unit := 1.0
	if d.Unit == Radian {
		unit = specs.Degree
	}
	v /= unit
	p := math.Pow(10, math.Floor(math.Log10(v)))
	best := p
	for _, f := range []float64{1.5, 2, 3, 5, 8} {
		if f*p <= v*(1+1e-12) {
			best = f * p
		}
	}
	return best * unit
}
