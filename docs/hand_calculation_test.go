package docs_test

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"armwright/export/report"
	"armwright/geometry/assembly"

	"gonum.org/v1/gonum/spatial/r3"
)

// The page's own formulas, with the page's own rounded inputs, give the numbers
// set in bold; the program's differ by no more than what the page says it
// leaves out.
func TestHandCalculation(t *testing.T) {
	const name = "hand-calculation.md"
	result, r := told(t, "measuring/measured.yaml")
	text := page(t, name)
	sin := func(deg float64) float64 { return math.Sin(deg * math.Pi / 180) }
	cos := func(deg float64) float64 { return math.Cos(deg * math.Pi / 180) }
	tan := func(deg float64) float64 { return math.Tan(deg * math.Pi / 180) }
	turn := func(rad float64) float64 { return rad * 180 / math.Pi }
	// Inputs are read from the program's own tables where the page says so, and
	// the page must print them.
	var b bytes.Buffer
	if err := report.PeopleTable(&b, result); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	printed := func(v float64, decimals int) float64 {
		t.Helper()
		s := strconv.FormatFloat(v, 'f', decimals, 64)
		if !strings.Contains(text, s) {
			t.Errorf("the page does not print %s", s)
		}
		v, _ = strconv.ParseFloat(s, 64)
		return v
	}
	size := func(person int, column string) float64 {
		t.Helper()
		v, err := strconv.ParseFloat(rows[1+person][slices.Index(rows[0], column)], 64)
		if err != nil {
			t.Fatal(err)
		}
		return printed(v, 1)
	}
	who := r.People.Boundary[0]
	at := func(deg float64) int { return slices.Index(r.Resistance.Angles, deg) }
	middle := r.Resistance.Loads[1]

	var out strings.Builder
	out.WriteString("| what | by hand | program |\n|---|---|---|\n")
	compare := func(what, unit string, decimals int, hand, program, within float64) {
		t.Helper()
		if math.IsNaN(program) || math.Abs(hand-program) > within {
			t.Errorf("%s: by hand %v, program %v, want within %v", what, hand, program, within)
		}
		shown := strconv.FormatFloat(hand, 'f', decimals, 64)
		if u := map[string]string{"deg": "°", "%": " %"}[unit]; u != "" {
			shown += u
		} else {
			shown += " " + unit
		}
		if !strings.Contains(text, "**"+shown+"**") {
			t.Errorf("%s: the page does not print **%s**", what, shown)
		}
		fmt.Fprintf(&out, "| %s | %s | %s %s |\n", what, shown, strconv.FormatFloat(program, 'f', decimals+1, 64), unit)
	}

	n := math.Sqrt(tan(13.3)*tan(13.3) + 1 + tan(5)*tan(5))
	compare("axis 3 to the machine's y", "deg", 1, turn(math.Acos(1/n)), turn(math.Acos(-r.Pivots.Right.Axes[2].Vector[1])), 0.01)

	upper := size(0, "acromion_to_axis_mm") - 45
	shoulder := size(0, "biacromial_mm")/2 - 37.9
	hip := size(0, "thigh_clearance_mm") / 2
	trunk := size(0, "acromion_height_mm") - 45 - hip
	off := size(0, "upper_arm_girth_mm")/(2*math.Pi) - 55
	compare("elbow beside the axis", "mm", 1, math.Abs(off), who.AxisOffset, 0.05)
	abduction := turn(math.Asin((169.5 - shoulder) / upper))
	compare("upper arm spread", "deg", 1, abduction, who.Abduction, 0.05)
	high := 911 + off*cos(20) + upper*cos(abduction)*sin(20)
	if who.SeatPosition != 4 {
		t.Errorf("she takes seat position %d, the page says 4", who.SeatPosition)
	}
	compare("lean", "deg", 1, turn(math.Acos((high-491-hip)/trunk)), who.Lean, 0.1) // as the page says

	drift := size(0, "axis_to_grip_mm") * 0.5 * sin(15.7) * (cos(5) - cos(130))
	compare("hand path on a common axis", "mm", 1, drift/2, who.CommonPath, 0.5)

	force := 40 * 9.80665 / 2
	torque := 1.5 * force * 0.1236
	risen, cam, shaft, axis := 0.0, assembly.Weight{}, r3.Vec{}, r3.Vec{}
	st := result.Station.Assembly
	for i := range st.Parts {
		p := &st.Parts[i]
		switch {
		case p.Is(assembly.Rises) && !p.Is(assembly.Load):
			risen += p.Mass
		case p.Side == assembly.Right && p.Item == "countershaft":
			shaft, axis = p.Centre, p.Place.Z
		case p.Side == assembly.Right && strings.HasPrefix(p.ID, "cam-c"): // core and cheeks; the hub is round
			cam.Add(p.Mass, p.Centre)
		}
	}
	from := r3.Sub(cam.Centre(), shaft)
	from = r3.Sub(from, r3.Scale(r3.Dot(from, axis), axis))
	risen, off, place := printed(risen, 2), printed(r3.Norm(from), 1), printed(turn(math.Atan2(from.Z, from.X)), 1)
	plates := printed(cam.Mass, 2)
	hung := torque * (1 + risen/40)
	weights := 9.80665 / 1000 * (511.8*cos(60) - 565.5*cos(35.8) + 1.5*plates*off*cos(place+112.5))
	// The page takes weights as if the axis lay across; it is 10° off.
	compare("torque at 80°, at rest", "N·m", 1, hung+weights, middle.Delivered[at(80)], 0.05)
	pass := math.Pow(0.97, 5)
	compare("going up", "N·m", 1, hung/pass+weights, middle.Lifting[at(80)], 0.05)
	compare("coming down", "N·m", 1, hung*pass+weights, middle.Lowering[at(80)], 0.05)
	sum := 0.0
	for i, h := range result.Frame.Geometry.Cam.Law {
		weight := 1.0
		if i == 0 || i == len(result.Frame.Geometry.Cam.Law)-1 {
			weight = 0.5
		}
		sum += weight * printed(h*weight, 1) / weight
	}
	compare("rise of the stack", "mm", 1, 1.5*12.5*math.Pi/180*sum, *r.Resistance.Cam.TakeUp, 1)

	light := r.Seated[0]
	man := slices.IndexFunc(r.People.Boundary, func(p report.Person) bool { return p.Label == "man 02 (small)" })
	if light.Person != r.People.Boundary[man].Label {
		t.Fatalf("%s sits lightest, the page says man 02", light.Person)
	}
	k := at(70)
	strength := -23.8 - 0.13*35 + 22*size(man, "stature_mm")/1000 + 0.51*light.Weight/9.80665
	arm, reach, weight := size(man, "acromion_to_axis_mm")-45, size(man, "axis_to_grip_mm"), printed(light.Weight, 1)
	printed(100*r.Resistance.Strength[k], 1)
	printed(strength, 1)
	load := 2 * strength * r.Resistance.Strength[k] / (reach / 1000)
	compare("pull of both hands at 70°", "N", 1, load, light.Load[k], 0.1)
	pads := load * (arm*cos(70) + reach) / (arm - 90)
	seat := weight - pads*cos(20) + load*cos(70-20)
	printed(pads, 1)
	asked := r.Requirements[slices.IndexFunc(r.Requirements, func(q report.Requirement) bool { return q.ID == "seat-load" })]
	compare("seat load at 70°", "N", 1, seat, asked.Value/100*light.Weight, 0.3)
	compare("share of his weight", "%", 1, 100*seat/weight, asked.Value, 0.05)

	for _, c := range r.Stability.Cases {
		if c.Case != "empty, both arms, heavy load" {
			continue
		}
		h, m := printed(c.Centre[2], 1), printed(c.Mass, 1)
		ahead := 624 - 44 - printed(c.Centre[0], 1)
		compare("tilt, empty", "deg", 1, turn(math.Atan(ahead/h)), c.Tilt, 0.01)
		compare("work to tip it", "J", 1, m*9.80665*(math.Hypot(h, ahead)-h)/1000, c.Energy, 0.1)
	}
	if n := strings.Count(out.String(), "\n"); n != 2+14 {
		t.Errorf("%d lines compared, want 14", n-2)
	}
	made(t, name, "side by side", out.String())
}
