package report

import (
	"io"
	"strconv"
	"strings"

	"armwright/solver"
	"armwright/solver/seat"
	"armwright/specs"
	"armwright/specs/people"
)

// PersonTable writes one row a person: sizes, settings, results and what turns
// the person away. Positions count from 1.
type PersonTable struct {
	frame  *specs.Frame
	table  *table
	names  []string
	values []float64 // scratch
}

// PersonTableHead is the first line of a table of persons, by which a file is known
// to be one.
func PersonTableHead() string {
	var b strings.Builder
	_ = newTable(&b, personHeader()).done() // a builder takes everything
	return b.String()
}

// NewPersonTable writes the header of a table of persons on a frame.
func NewPersonTable(w io.Writer, f *specs.Frame) *PersonTable {
	return &PersonTable{frame: f, names: people.Dimensions(), table: newTable(w, personHeader())}
}

func personHeader() string {
	header := []string{"label", "sex"}
	for _, name := range people.Dimensions() {
		header = append(header, name+"_"+dimensionUnit(name))
	}
	return strings.Join(header, " ") + " seat_position seat_height_mm axis_position handle_position handle_radius_mm hand_axial_mm " +
		"abduction_deg lean_deg arm_slope_deg axis_offset_mm axis_tilt_deg arm_turn_deg " +
		"hand_path_mm hand_path_rms_mm hand_path_angle_deg common_axis_hand_path_mm foot_gap_mm seat_load fits turned_by foot_position left_axis_position left_handle_position"
}

// Add writes one person.
func (t *PersonTable) Add(outcome *seat.Person) error {
	p := person(t.frame, outcome)
	c := t.table
	c.text(plainText(p.Label), p.Sex)
	t.values = outcome.Person.Values(t.values[:0])
	for i, x := range t.values {
		if dimensionUnit(t.names[i]) == "deg" {
			x /= specs.Degree
		}
		c.numbers(round(x, decimals))
	}
	c.whole(p.SeatPosition)
	c.numbers(p.SeatHeight)
	c.whole(p.AxisPosition)
	c.whole(p.HandlePlace)
	c.numbers(p.HandleRadius, p.HandAxial, p.Abduction, p.Lean, p.ArmSlope, p.AxisOffset, p.AxisTilt, p.ArmTurn,
		p.HandPath, p.HandPathRMS, p.HandPathAngle, p.CommonPath, p.FootGap, p.SeatLoad)
	c.text(strconv.FormatBool(p.Fits), strings.Join(p.TurnedBy, " "))
	c.whole(p.FootPosition)
	c.whole(p.LeftAxis)
	c.whole(p.LeftHandle)
	c.end()
	return c.Error()
}

// plainText keeps a spreadsheet from taking a label out of somebody's table
// for a formula.
func plainText(label string) string {
	if label != "" && strings.ContainsRune("=+-@", rune(label[0])) {
		return "'" + label
	}
	return label
}

// Close writes what is still held back.
func (t *PersonTable) Close() error { return t.table.done() }

// PeopleTable writes one row a boundary person.
func PeopleTable(w io.Writer, r *solver.Result) error {
	t := NewPersonTable(w, &r.Frame)
	for i := range r.People.Boundary {
		if err := t.Add(&r.People.Boundary[i]); err != nil {
			return err
		}
	}
	return t.Close()
}

func dimensionUnit(name string) string {
	switch name {
	case "mass":
		return "kg"
	case "carrying_angle":
		return "deg"
	}
	return "mm"
}
