package dxf

import "armwright/export/sheet"

// table writes a symbol table: its head, and its records, each of which is
// given the handle of the table as owner.
func (e *encoder) table(name string, records []func(table handle)) {
	h := e.fresh()
	e.tag(0, "TABLE")
	e.tag(2, name)
	if !e.r12() {
		e.tag(5, h.String())
		e.tag(330, "0")
		e.tag(100, "AcDbSymbolTable")
	}
	e.int(70, len(records))
	if name == "DIMSTYLE" && !e.r12() {
		e.tag(100, "AcDbDimStyleTable")
		e.int(71, 0)
	}
	for _, r := range records {
		r(h)
	}
	e.tag(0, "ENDTAB")
}

// record starts a record of a table.
func (e *encoder) record(kind string, h, table handle, class string) {
	e.begin(kind, h, table)
	e.subclass("AcDbSymbolTableRecord")
	e.subclass(class)
}

// viewport writes the active view, fitted to the drawing.
func (e *encoder) viewport(d *Document) {
	lo, hi := e.lo, e.hi
	const margin = 1.05
	height := max(hi.Y-lo.Y, hi.X-lo.X, e.step()) * margin
	e.where = "active view"
	e.table("VPORT", []func(handle){func(table handle) {
		e.record("VPORT", e.fresh(), table, "AcDbViewportTableRecord")
		e.tag(2, "*ACTIVE")
		e.int(70, 0)
		e.xy(10, Point{0, 0}) // corners of the screen
		e.xy(11, Point{1, 1})
		e.xy(12, Point{(lo.X + hi.X) / 2, (lo.Y + hi.Y) / 2})
		e.xy(13, Point{0, 0})   // snap
		e.xy(14, Point{10, 10}) // snap and grid spacing
		e.xy(15, Point{10, 10})
		e.xy(16, Point{0, 0}) // view direction, from +z
		e.ratio(36, 1)
		e.point(17, Point{})
		e.length(40, height)
		e.ratio(41, 1) // aspect
		e.length(42, 50)
		e.length(43, 0)
		e.length(44, 0)
		e.angle(50, 0)
		e.angle(51, 0)
		for _, f := range [][2]int{{71, 0}, {72, 100}, {73, 1}, {74, 3}, {75, 0}, {76, 0}, {77, 0}, {78, 0}} {
			e.int(f[0], f[1])
		}
	}})
}

func (e *encoder) linetypes(d *Document) {
	types := make([]Linetype, 0, len(d.Linetypes)+3)
	if !e.r12() {
		types = append(types, Linetype{Name: byBlock}, Linetype{Name: byLayer})
	}
	types = append(types, Linetype{Name: continuous, Description: "Solid line"})
	types = append(types, d.Linetypes...)
	var records []func(handle)
	for _, t := range types {
		h := e.define(linetypeKind, t.Name, e.fresh())
		records = append(records, func(table handle) { e.linetype(t, h, table) })
	}
	e.table("LTYPE", records)
}

func (e *encoder) linetype(t Linetype, h, table handle) {
	e.where = "line type " + t.Name
	e.record("LTYPE", h, table, "AcDbLinetypeTableRecord")
	e.name(2, t.Name)
	e.int(70, 0)
	e.str(3, t.Description)
	e.int(72, 65) // alignment, always A
	e.int(73, len(t.Pattern))
	var total float64
	for _, p := range t.Pattern {
		total += abs(p)
	}
	e.length(40, total)
	for _, p := range t.Pattern {
		e.length(49, p)
		if !e.r12() {
			e.int(74, 0) // no shape
		}
	}
	if len(t.Pattern) > 0 && (len(t.Pattern) < 2 || t.Pattern[0] < 0 || total < e.step()) {
		e.fail("start with a dash, then a gap", "pattern %v is not one the format allows", t.Pattern)
	}
}

func (e *encoder) layers(d *Document, s *skeleton) {
	var records []func(handle)
	for _, l := range withDefault(d.Layers, layerZero(), func(l Layer) string { return l.Name }) {
		l = l.filled()
		h := e.define(layerKind, l.Name, e.fresh())
		records = append(records, func(table handle) {
			e.where = "layer " + l.Name
			e.record("LAYER", h, table, "AcDbLayerTableRecord")
			e.name(2, l.Name)
			e.int(70, 0)
			e.int(62, e.color(l.Color))
			e.reference(6, linetypeKind, l.Linetype)
			if e.r12() {
				return
			}
			weight := -3 // the reader's default
			if l.Lineweight != 0 {
				weight = e.weight(l.Lineweight)
			}
			e.int(370, weight)
			e.tag(390, s.plotStyle.String())
		})
	}
	e.table("LAYER", records)
}

func (e *encoder) textStyles(d *Document) {
	var records []func(handle)
	for _, t := range withDefault(d.TextStyles, standardText(), func(t TextStyle) string { return t.Name }) {
		t = t.filled()
		if e.r12() {
			t = t.stroked()
		}
		h := e.define(styleKind, t.Name, e.fresh())
		records = append(records, func(table handle) {
			e.where = "text style " + t.Name
			e.record("STYLE", h, table, "AcDbTextStyleTableRecord")
			e.name(2, t.Name)
			e.int(70, 0)
			e.length(40, 0) // height left to each text
			e.ratio(41, t.Width)
			e.angle(50, 0)
			e.int(71, 0)
			e.length(42, sheet.ViewText)
			e.str(3, t.Font)
			e.tag(4, "")
		})
	}
	e.table("STYLE", records)
}

func (e *encoder) application(table handle) {
	e.record("APPID", e.fresh(), table, "AcDbRegAppTableRecord")
	e.tag(2, "ACAD")
	e.int(70, 0)
}

func (e *encoder) dimStyles(d *Document) {
	var records []func(handle)
	for _, s := range withDefault(d.DimStyles, standardDim(), func(s DimStyle) string { return s.Name }) {
		s = s.filled()
		h := e.define(dimStyleKind, s.Name, e.fresh())
		e.factors[key(s.Name)] = s.LinearFactor
		records = append(records, func(table handle) { e.dimStyle(s, h, table) })
	}
	e.table("DIMSTYLE", records)
}

func (e *encoder) dimStyle(s DimStyle, h, table handle) {
	e.where = "dimension style " + s.Name
	if s.Decimals < 0 || s.Decimals > 8 {
		e.fail("use 0 to 8", "%d decimals", s.Decimals)
	}
	e.record("DIMSTYLE", h, table, "AcDbDimStyleTableRecord")
	e.name(2, s.Name)
	e.int(70, 0)
	e.ratio(40, 1)
	e.positive(41, s.ArrowSize, "arrow size")
	e.length(42, s.Offset)
	e.length(44, s.Extension)
	e.positive(140, s.TextHeight, "text height")
	if !(s.LinearFactor >= angleStep) {
		e.fail("", "linear factor is %v", s.LinearFactor)
	}
	e.ratio(144, s.LinearFactor)
	e.length(147, s.ArrowSize/4) // gap between text and line
	e.int(73, 0)                 // text runs along the line
	e.int(74, 0)
	e.int(77, 1) // text above the line
	e.int(78, 8) // no trailing zeros
	if e.r12() {
		return // no text style of its own in release 12
	}
	e.int(271, s.Decimals)
	e.int(278, '.')
	style, ok := e.defined[styleKind][key(s.TextStyle)]
	if !ok {
		e.fail("", "text style %q is not defined", s.TextStyle)
	}
	e.tag(340, style.String())
}

// withDefault puts the default entry first unless the list has its own.
func withDefault[T any](list []T, def T, name func(T) string) []T {
	for _, v := range list {
		if key(name(v)) == key(name(def)) {
			return list
		}
	}
	return append([]T{def}, list...)
}
