package report

import (
	"encoding/csv"
	"io"
	"math"
	"strconv"
	"strings"

	"armwright/export/partlist"
	"armwright/export/shoplist"
	"armwright/geometry/assembly"
	"armwright/solver"
	"armwright/solver/drive"
	"armwright/specs"
	"armwright/specs/strength"
)

// table writes rows of comma-separated values under a header. Text that a
// spreadsheet would take for a formula is not turned into one: the texts here
// are our own words or a brief's name, which no cell starts with.
type table struct {
	*csv.Writer
	row []string
}

func newTable(w io.Writer, header string) *table {
	t := &table{Writer: csv.NewWriter(w)}
	t.text(strings.Fields(header)...)
	t.end()
	return t
}

func (t *table) text(cells ...string) { t.row = append(t.row, cells...) }

func (t *table) whole(n int) { t.text(strconv.Itoa(n)) }

// numbers appends quantised values.
func (t *table) numbers(list ...float64) {
	for _, x := range list {
		t.text(strconv.FormatFloat(x, 'f', -1, 64))
	}
}

// known appends a value, or an empty cell where it is zero and so unknown.
func (t *table) known(x float64) {
	if x == 0 {
		t.text("")
		return
	}
	t.numbers(x)
}

// end finishes a row. Errors are kept until done.
func (t *table) end() {
	_ = t.Write(t.row)
	t.row = t.row[:0]
}

func (t *table) done() error {
	t.Flush()
	return t.Error()
}

// camStep is the largest step of flexion in the cam's table.
const camStep = 1 * specs.Degree

// CamTable writes the cam in steps of a degree or less over the loaded range:
// moment arm, cam turn, angle of the cable line's outward normal at rest (psi)
// and in the cam (phi), radius of curvature (rho) and place of the cable's
// centre line on the cam, and take-up since the first angle. A station without
// a cam has the header only.
func CamTable(w io.Writer, r *solver.Result) error {
	t := newTable(w, "flexion_deg moment_arm_mm cam_turn_deg psi_deg phi_deg rho_mm x_mm y_mm take_up_mm")
	c := r.Frame.Geometry.Cam
	if c == nil {
		return t.done()
	}
	loaded := r.Frame.Asked.Resistance.Loaded
	p := r.Resistance.Profile
	n := int(math.Ceil((loaded.To-loaded.From)/camStep - 1e-9))
	for i := range n + 1 {
		theta := loaded.From + (loaded.To-loaded.From)*float64(i)/float64(n)
		s, err := p.At(theta)
		if err != nil {
			return err
		}
		t.numbers(deg(theta), mm(s.Arm), deg(c.Ratio*theta), deg(s.Psi), deg(s.Phi), mm(s.Rho), mm(s.Point.X), mm(s.Point.Y), mm(p.TakeUp(loaded.From, theta)))
		t.end()
	}
	return t.done()
}

// TorqueTable writes target and delivered torque of one arm at the three
// loads, with the strength curve, the band of curves and the moment of the arm.
func TorqueTable(w io.Writer, r *solver.Result) error {
	t := newTable(w, "flexion_deg strength band_low band_high gravity_nm "+
		"light_target_nm light_delivered_nm middle_target_nm middle_delivered_nm heavy_target_nm heavy_delivered_nm "+
		"middle_lifting_nm middle_lowering_nm middle_inertia_nm")
	d := &r.Resistance
	for i, theta := range d.Angles {
		low, high := strength.Band(theta)
		t.numbers(deg(theta), share(d.Strength[i]), share(low), share(high), torque(d.Gravity[i]))
		for _, l := range []*drive.Torque{&d.Light, &d.Middle, &d.Heavy} {
			t.numbers(torque(l.Target[i]), torque(l.Delivered[i]))
		}
		t.numbers(torque(d.Middle.Lifting[i]), torque(d.Middle.Lowering[i]), torque(d.Middle.Inertia[i]))
		t.end()
	}
	return t.done()
}

// PartsTable writes the parts list; cells of what is not known are empty. Of what joints
// are made with beside the parts, mass_kg is empty, as it is no part of the balance, and
// fastener_kg is that of one.
func PartsTable(w io.Writer, r *solver.Result) error {
	t := newTable(w, "item title count stock length_mm mass_kg ends form right left middle total_kg fastener_kg torque_nm")
	for _, p := range partlist.Of(r) {
		t.whole(p.Item)
		t.text(p.Title)
		t.whole(p.Count)
		t.text(p.Stock)
		t.known(mm(p.Length))
		t.known(kg(p.Mass))
		t.text(p.Ends, p.Form.String())
		var sides [3]int
		if a := r.Station.Assembly; a != nil {
			for _, i := range p.Parts {
				sides[a.Parts[i].Side]++
			}
		}
		for _, s := range [...]assembly.Side{assembly.Right, assembly.Left, assembly.Middle} {
			if len(p.Parts) == 0 {
				t.text("")
				continue
			}
			t.whole(sides[s])
		}
		t.known(kg(p.Mass * float64(p.Count)))
		fastener, torque := 0.0, 0.0
		if p.Fastener != nil {
			fastener, torque = p.Fastener.Mass, p.Fastener.Torque
		}
		t.known(kg(fastener))
		t.known(round(torque/1000, 1))
		t.end()
	}
	return t.done()
}

// TreeTable writes what a station is put together from, weldment by weldment, right and
// left apart: each level is what the line above of the level before is made of.
func TreeTable(w io.Writer, r *solver.Result) error {
	t := newTable(w, "level kind number title side count stock length_mm mass_kg total_kg")
	for _, n := range shoplist.Tree(r) {
		t.whole(n.Level)
		t.text(n.Kind, n.Number, n.Title, n.Side)
		t.whole(n.Count)
		t.text(n.Stock)
		t.known(mm(n.Length))
		t.known(kg(n.Mass))
		t.known(kg(n.Mass * float64(n.Count)))
		t.end()
	}
	return t.done()
}

// PurchaseTable writes what is bought, with prices where the user has a list of them and
// a total over what has one.
func PurchaseTable(w io.Writer, r *solver.Result) error {
	t := newTable(w, "what order quantity unit mass_kg items unit_price price")
	const cents = 2
	total, priced := 0.0, false
	for _, p := range shoplist.Purchases(r) {
		t.text(p.What, p.Order)
		t.known(p.Quantity)
		t.text(p.Unit)
		t.known(kg(p.Mass))
		t.text(p.Items)
		if p.Price != nil {
			sum := round(p.Quantity**p.Price, cents)
			total, priced = total+sum, true
			t.numbers(*p.Price, sum)
		} else {
			t.text("", "")
		}
		t.end()
	}
	if priced {
		t.text("total", "what has a price", "", "", "", "", "")
		t.numbers(round(total, cents))
		t.end()
	}
	return t.done()
}
