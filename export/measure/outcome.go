package measure

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"armwright/export/dxf"
	"armwright/export/report"
)

// Difference is a figure that does not agree.
type Difference struct {
	File      string  // path in the folder
	What      string  // what was measured
	Want      float64 // by the report, or by what is written
	Got       float64 // by measurement; NaN when there is nothing to measure
	Unit      string  // "mm", "deg", "N m", or empty
	Tolerance float64 // largest difference that passes
	Note      string  // instead of figures, when there are none
}

// String is one line: file, what, both figures and the tolerance.
func (d Difference) String() string {
	switch {
	case d.Note != "":
		return d.File + ": " + d.What + ": " + d.Note
	case math.IsNaN(d.Got):
		return fmt.Sprintf("%s: %s: nothing measures %s", d.File, d.What, quantity(d.Want, d.Unit))
	}
	return fmt.Sprintf("%s: %s: %s, should be %s (within %s)", d.File, d.What,
		quantity(d.Got, d.Unit), quantity(d.Want, d.Unit), strconv.FormatFloat(d.Tolerance, 'g', 2, 64))
}

func quantity(x float64, unit string) string {
	return strings.TrimSpace(strconv.FormatFloat(x, 'f', 4, 64) + " " + unit)
}

// Outcome is what came of measuring a folder.
type Outcome struct {
	Files       []string // measured, in the report's order
	Compared    int      // figures compared
	Nothing     bool     // there is no station, so there are no drawings to measure
	Differences []Difference
}

// Agrees reports whether everything measures up.
func (o *Outcome) Agrees() bool { return len(o.Differences) == 0 }

// compare counts a comparison and keeps it if it fails.
func (o *Outcome) compare(file, what, unit string, want, got, tolerance float64) {
	o.Compared++
	if !(math.Abs(got-want) <= tolerance) { // also when nothing was measured
		o.Differences = append(o.Differences, Difference{File: file, What: what, Want: want, Got: got, Unit: unit, Tolerance: tolerance})
	}
}

// check counts a comparison without figures and keeps it, with the note, if it
// fails.
func (o *Outcome) check(ok bool, file, what, note string) {
	if ok {
		o.Compared++
		return
	}
	o.fault(file, what, note)
}

// fault counts a comparison without figures that fails.
func (o *Outcome) fault(file, what, note string) {
	o.Compared++
	o.Differences = append(o.Differences, Difference{File: file, What: what, Got: math.NaN(), Note: note})
}

// measurer holds the files of one folder.
type measurer struct {
	report   *report.Report
	drawings map[string]*dxf.Document // by path
	assembly *listedAssembly          // nil where the folder has none
	out      Outcome
}
