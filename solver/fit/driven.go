package fit

import (
	"slices"

	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/judge"
	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/specs"
)

// driven tells the optimiser how the drive comes out where the station now stands, as the
// next round would design it there: the arms weigh about other axes, and the cable is led
// otherwise to its guide.
type driven struct {
	s     *Program    // on the coarse grid
	d     drive.State // likewise, as designed
	any   bool        // of the counterweights that the brief allows the best, not the designed one
	touch driveTouch
	rows  []require.Row // at the base
}

// driveTouch is everything of a geometry that these rows depend on.
type driveTouch struct {
	arm         armTouch
	axes        []specs.Axis
	post, tower float64
}

func driveTouchOf(g *specs.Geometry) driveTouch {
	return driveTouch{armTouch{g.Pivots.Height, g.Pivots.Spacing, g.Pad.Offset, g.Pad.Slope}, g.Pivots.Axes, g.Base.PadPost, g.Base.Tower}
}

func (t *driveTouch) same(o *driveTouch) bool {
	return t.arm == o.arm && t.post == o.post && t.tower == o.tower && slices.Equal(t.axes, o.axes)
}

// add adds the rows, as many for every geometry. Off the base they stand where nothing
// has moved that they depend on.
func (v *driven) add(m *model, g *specs.Geometry, st *build.Station, sat []seat.Person, out *require.Rows) {
	touch := driveTouchOf(g)
	if m.near && touch.same(&v.touch) {
		out.List = append(out.List, v.rows...)
		return
	}
	there := *g
	now, err := v.s.Again(&there, v.d, v.any)
	if err != nil {
		now = v.d // what closed where it was designed closes everywhere
	}
	v.s.AlongAxes(&there, st, &now, judge.Others(sat, len(g.Pivots.Axes)))
	if st.Assembly == nil {
		now.Positions = make([]drive.AxisTorque, len(g.Pivots.Axes))
		for i := range now.Positions {
			now.Positions[i].Fault = st.Fault
		}
	}
	first := len(out.List)
	v.s.StandingRows(g, &now, st, sat, out)
	if !m.near {
		touch.axes = append(v.touch.axes[:0], touch.axes...)
		v.touch, v.rows = touch, append(v.rows[:0], out.List[first:]...)
	}
}
