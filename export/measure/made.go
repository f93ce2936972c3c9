package measure

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"armwright/export/dxf"
	"armwright/geometry/contour"

	"gonum.org/v1/gonum/spatial/r2"
)

// madeRow is a row of the table of a sheet of made parts, lengths mm.
type madeRow struct {
	item                int
	feature, from, note string
	x, y, size          float64 // NaN where the cell is no figure
	angle               bool    // size is one, in degrees
}

// made holds the sheets of made parts against the report, against the cut files, and
// their tables against what is drawn: lengths and mitres of tubes, the holes of tubes
// along them, the holes of plates as drawn and as cut.
func (m *measurer) made() {
	type place struct {
		path  string
		mitre float64
	}
	of := map[int]place{} // of the items of tubes that have rows
	tubes := ""
	var dims []dimension
	for _, path := range m.out.Files {
		if !madeSheet.MatchString(path) {
			continue
		}
		d := m.drawings[path]
		rows := madeRows(d)
		if strings.HasSuffix(path, "-tubes.dxf") {
			if tubes == "" {
				tubes = path
			}
			own := dimensions(d)
			dims = append(dims, own...)
			m.drilled(path, d, rows, own)
			for _, r := range rows {
				if r.angle {
					of[r.item] = place{path, r.size}
				}
			}
		}
		if strings.HasSuffix(path, "-plates.dxf") {
			m.pierced(path, d, rows)
		}
	}
	if tubes == "" {
		return
	}
	for _, p := range m.report.Parts {
		if !strings.HasPrefix(p.Stock, "tube ") || p.Length == nil {
			continue
		}
		got, slack := nearestValue(dims, across.of, *p.Length)
		m.out.compare(tubes, fmt.Sprintf("item %d, %s, length", p.Item, p.Title), "mm", *p.Length, got, 2*slack+2*quantum)
		mitre := mitrePattern.FindStringSubmatch(p.Mitre)
		if mitre == nil {
			continue
		}
		want, _ := strconv.ParseFloat(mitre[1], 64)
		at, ok := of[p.Item]
		if !ok {
			at = place{tubes, math.NaN()}
		}
		const coarse = 0.06 // the report tells a tenth of a degree
		m.out.compare(at.path, fmt.Sprintf("item %d, %s, mitre in the table", p.Item, p.Title), "deg", want, at.mitre, coarse)
		got, _ = nearestValue(dims, angle.of, want)
		m.out.compare(at.path, fmt.Sprintf("item %d, %s, mitre", p.Item, p.Title), "deg", want, got, coarse)
	}
}

var (
	madeSheet    = regexp.MustCompile(`^drawings/2\d\d-`)
	mitrePattern = regexp.MustCompile(`^([\d.]+) deg`)
	scalePattern = regexp.MustCompile(`(\d+):(\d+)\)?$`)
)

// drilled holds the holes along tubes: each row's place has an ordinate, and each
// ordinate is a row's place, an end or a length.
func (m *measurer) drilled(path string, d *dxf.Document, rows []madeRow, dims []dimension) {
	written := rowRounding(d)
	var places []float64
	for _, r := range rows {
		if r.feature == "hole" && !math.IsNaN(r.x) {
			places = append(places, r.x)
			got, slack := nearestValue(dims, ordinateX, r.x)
			m.out.compare(path, fmt.Sprintf("item %d, hole at %g", r.item, r.x), "mm", r.x, got, written+2*slack)
		}
	}
	for _, q := range dims {
		if q.Kind == dxf.Ordinate || across.of(q) {
			places = append(places, 0)
		}
		if across.of(q) {
			places = append(places, q.value)
		}
	}
	for i, q := range dims {
		if !ordinateX(q) {
			continue
		}
		off := math.NaN()
		for _, x := range places {
			off = math.Min(orInf(off), math.Abs(x-q.value))
		}
		m.out.compare(path, fmt.Sprintf("dimension %d, %q, off a place of the table", i+1, q.Text), "mm", 0, off, written+2*q.slack)
	}
}

func orInf(x float64) float64 {
	if math.IsNaN(x) {
		return math.Inf(1)
	}
	return x
}

// pierced holds the holes of plates: as drawn they stand as the table says, and as cut.
func (m *measurer) pierced(path string, d *dxf.Document, rows []madeRow) {
	written := rowRounding(d)
	of := map[int][]madeRow{}
	var items []int
	file := map[int]string{}
	for _, r := range rows {
		if _, known := of[r.item]; !known {
			items = append(items, r.item)
			of[r.item] = nil
		}
		switch {
		case r.feature == "outline":
			file[r.item] = r.note
		case r.feature == "hole" && r.from == "front" && !math.IsNaN(r.x+r.y+r.size):
			of[r.item] = append(of[r.item], r)
		}
	}
	for _, item := range items {
		holes := of[item]
		cut := m.drawings[file[item]]
		if cut == nil {
			continue
		}
		p, ok := plateOf(cut)
		if !ok {
			continue // told for that file
		}
		if len(holes) > 0 {
			m.out.check(stands(d, item, p.outline, holes, written), path, fmt.Sprintf("item %d", item), "it is drawn otherwise than the table says, or than it is cut")
		}
		corner := p.outline.Bounds().Min
		for i, c := range p.circles() {
			off := math.NaN()
			for _, h := range holes {
				off = math.Min(orInf(off), math.Hypot(c.Centre.X-corner.X-h.x, c.Centre.Y-corner.Y-h.y)+math.Abs(2*c.Radius-h.size))
			}
			m.out.compare(path, fmt.Sprintf("item %d, hole %d of %s, off the table", item, i+1, file[item]), "mm", 0, off, 3*written+placeTolerance)
		}
	}
}

// stands reports whether a sheet shows an outline as large as that which is cut, with
// circles where the table has the holes of the item, at the scale that its caption tells.
func stands(d *dxf.Document, item int, outline contour.Path, holes []madeRow, written float64) bool {
	factor, main := 0.0, 0.0
	caption := strconv.Itoa(item) + "  "
	var circles []dxf.Circle
	var outlines []contour.Path
	for _, e := range d.Entities {
		switch e := e.(type) {
		case dxf.Circle:
			circles = append(circles, e)
			outlines = append(outlines, contour.Circle(r2.Vec{X: e.Centre.X, Y: e.Centre.Y}, e.Radius)) // of a ring
		case dxf.Polyline:
			if p := e.Path(); p.Closed {
				outlines = append(outlines, p)
			}
		case dxf.Text:
			s := scalePattern.FindStringSubmatch(e.Value)
			switch {
			case strings.HasPrefix(e.Value, caption):
				factor = -1
				if s != nil && strings.HasSuffix(e.Value, ")") {
					factor = ratio(s)
				}
			case s != nil && s[0] == e.Value:
				main = ratio(s)
			}
		}
	}
	if factor < 0 {
		factor = main
	}
	slack := 2*step + 2*written*factor
	for _, p := range outlines {
		is, want := p.Bounds(), outline.Bounds()
		if math.Abs(is.Max.X-is.Min.X-factor*(want.Max.X-want.Min.X)) > slack || math.Abs(is.Max.Y-is.Min.Y-factor*(want.Max.Y-want.Min.Y)) > slack {
			continue
		}
		all := true
		for _, h := range holes {
			all = all && slices.ContainsFunc(circles, func(c dxf.Circle) bool {
				return math.Hypot(c.Centre.X-is.Min.X-h.x*factor, c.Centre.Y-is.Min.Y-h.y*factor) <= slack && math.Abs(c.Radius-h.size/2*factor) <= slack
			})
		}
		if all {
			return true
		}
	}
	return false
}

func ratio(s []string) float64 {
	a, _ := strconv.ParseFloat(s[1], 64)
	b, _ := strconv.ParseFloat(s[2], 64)
	return a / b
}

// rowRounding is half the last place that the tables of a sheet are written to, mm.
func rowRounding(d *dxf.Document) float64 {
	if inches(d) {
		return 0.0005 * millimetresPerInch
	}
	return 0.005
}

// madeRows reads the table of a sheet of made parts, in as many parts as it is broken
// into.
func madeRows(d *dxf.Document) []madeRow {
	unit := 1.0
	if inches(d) {
		unit = millimetresPerInch
	}
	var out []madeRow
	for _, row := range tableRows(d, "Item", "Feature", "x", "y", "From", "Size", "Thread, fit, use") {
		item, err := strconv.Atoi(row[0])
		if err != nil {
			continue
		}
		r := madeRow{item: item, feature: row[1], x: figure(row[2], unit), y: figure(row[3], unit), from: row[4], note: row[6]}
		size := strings.TrimLeft(row[5], "Ø⌀")
		if s, ok := strings.CutSuffix(size, "°"); ok {
			r.angle, r.size = true, figure(s, 1)
		} else {
			r.size = figure(size, unit)
		}
		out = append(out, r)
	}
	return out
}
