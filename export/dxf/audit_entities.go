package dxf

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// markers returns the subclass markers of an entity, in order, or nil for one
// this audit does not know.
func markers(o object) []string {
	switch o.kind {
	case "LINE":
		return []string{"AcDbEntity", "AcDbLine"}
	case "CIRCLE":
		return []string{"AcDbEntity", "AcDbCircle"}
	case "ARC":
		return []string{"AcDbEntity", "AcDbCircle", "AcDbArc"}
	case "LWPOLYLINE":
		return []string{"AcDbEntity", "AcDbPolyline"}
	case "POLYLINE":
		return []string{"AcDbEntity", "AcDb2dPolyline"}
	case "VERTEX":
		return []string{"AcDbEntity", "AcDbVertex", "AcDb2dVertex"}
	case "SEQEND":
		return []string{"AcDbEntity"}
	case "TEXT":
		return []string{"AcDbEntity", "AcDbText", "AcDbText"}
	case "SOLID":
		return []string{"AcDbEntity", "AcDbTrace"}
	case "INSERT":
		return []string{"AcDbEntity", "AcDbBlockReference"}
	case "DIMENSION":
		m := []string{"AcDbEntity", "AcDbDimension"}
		switch kindOf(o) {
		case Rotated:
			return append(m, "AcDbAlignedDimension", "AcDbRotatedDimension")
		case Aligned:
			return append(m, "AcDbAlignedDimension")
		case Diameter:
			return append(m, "AcDbDiametricDimension")
		case Radius:
			return append(m, "AcDbRadialDimension")
		case Angular:
			return append(m, "AcDb3PointAngularDimension")
		case Ordinate:
			return append(m, "AcDbOrdinateDimension")
		}
	}
	return nil
}

func kindOf(o object) DimKind {
	n, _ := strconv.Atoi(o.word(70))
	return DimKind(n & dimKindMask)
}

// entities checks the entities of a block or of model space.
func (a *auditor) entities(all []object, block string) {
	chain := object{} // the POLYLINE that is open
	vertices := 0
	for _, o := range all {
		if chain.kind != "" && o.kind != "VERTEX" && o.kind != "SEQEND" {
			a.add(OpenChain, chain.line, "POLYLINE", "no SEQEND before %s", o.kind)
			chain = object{}
		}
		switch o.kind {
		case "POLYLINE":
			chain, vertices = o, 0
		case "VERTEX":
			vertices++
			if chain.kind == "" {
				a.add(OpenChain, o.line, o.kind, "outside a POLYLINE")
			}
		case "SEQEND":
			if chain.kind != "" && vertices < 2 {
				a.add(FewVertices, chain.line, "POLYLINE", "%d vertices", vertices)
			}
			chain = object{}
		}
		a.entity(o, block)
	}
	if chain.kind != "" {
		a.add(OpenChain, chain.line, "POLYLINE", "no SEQEND")
	}
}

func (a *auditor) entity(o object, block string) {
	want := markers(o)
	if want == nil {
		a.add(UnknownEntity, o.line, o.kind, "cannot be vouched for")
		return
	}
	a.subclasses(o, want...)
	a.space(o, block)
	a.pointers(o)
	if _, ok := o.find(8); !ok {
		a.add(NoLayer, o.line, o.kind, "has no layer")
	}
	a.defined(NoLayer, layerKind, o, 8)
	a.defined(NoLinetype, linetypeKind, o, 6)
	a.color(o)
	a.weight(o)
	switch o.kind {
	case "CIRCLE", "ARC":
		a.positive(o, 40, "radius")
	case "LWPOLYLINE":
		a.polyline(o)
	case "TEXT":
		a.positive(o, 40, "text height")
		a.defined(NoTextStyle, styleKind, o, 7)
		a.text(o)
	case "INSERT":
		a.defined(NoBlock, blockKind, o, 2)
		for code := 41; code <= 43; code++ {
			if t, ok := o.find(code); ok {
				if v, _ := t.number(); v == 0 {
					a.add(BadSize, t.line, o.kind, "scale is zero")
				}
			}
		}
	case "DIMENSION":
		a.defined(NoDimStyle, dimStyleKind, o, 3)
		a.text(o)
		a.picture(o)
		a.measurement(o)
	}
}

func (a *auditor) text(o object) {
	if o.word(1) == "" {
		a.add(NoText, o.line, o.kind, "has no text")
	}
}

func (a *auditor) positive(o object, code int, what string) {
	t, ok := o.find(code)
	if v, finite := t.number(); !ok || finite && v <= 0 {
		a.add(BadSize, o.line, o.kind, "%s is %q", what, t.value)
	}
}

func (a *auditor) color(o object) {
	if t, ok := o.find(62); ok {
		if n, ok := t.integer(); ok && (n < -256 || n > 256) {
			a.add(BadColor, t.line, o.kind, "colour %d", n)
		}
	}
}

func (a *auditor) weight(o object) {
	t, ok := o.find(370)
	if !ok {
		return
	}
	if a.version == AC1009 {
		a.add(WrongVersion, t.line, o.kind, "AC1009 has no line weights")
	}
	n, ok := t.integer()
	if ok && (n < -3 || n > 0 && !slices.Contains(Lineweights(), Lineweight(n))) {
		a.add(BadWeight, t.line, o.kind, "line weight %d", n)
	}
}

func (a *auditor) polyline(o object) {
	if a.version == AC1009 {
		a.add(WrongVersion, o.line, o.kind, "AC1009 has no LWPOLYLINE")
	}
	vertices, announced, late := 0, -1, false
	for _, t := range o.tags {
		switch t.code {
		case 10:
			vertices++
		case 90:
			announced, _ = t.integer()
			late = vertices > 0
		}
	}
	if announced != vertices || late {
		a.add(VertexCount, o.line, o.kind, "announces %d vertices, has %d, late: %v", announced, vertices, late)
	}
	if vertices < 2 {
		a.add(FewVertices, o.line, o.kind, "%d vertices", vertices)
	}
}

// picture checks that a dimension has a block *Dn of its own, with contents.
func (a *auditor) picture(o object) {
	n := key(o.word(2))
	digits, ok := strings.CutPrefix(n, "*D")
	switch _, err := strconv.ParseUint(digits, 10, 32); {
	case !ok || err != nil:
		a.add(NoPicture, o.line, o.kind, "block is %q, must be *D and a number", n)
	case !a.names[blockKind][n]:
		a.add(NoPicture, o.line, o.kind, "block %s is not defined", n)
	case !a.filled[n]:
		a.add(NoPicture, o.line, o.kind, "block %s is empty", n)
	case a.pictured[n]:
		a.add(NoPicture, o.line, o.kind, "block %s belongs to another dimension", n)
	}
	a.pictured[n] = true
}

// measurement checks the stored measurement against the points.
func (a *auditor) measurement(o object) {
	t, ok := o.find(42)
	if !ok {
		if a.version != AC1009 {
			a.add(BadMeasurement, o.line, o.kind, "none stored")
		}
		return
	}
	num := func(code int) float64 {
		t, _ := o.find(code)
		v, _ := t.number()
		return v
	}
	at := func(code int) Point { return Point{num(code), num(code + 10)} }
	flags, _ := strconv.Atoi(o.word(70))
	d := Dimension{Kind: kindOf(o), XOrdinate: flags&dimXOrdinate != 0, Line: at(10), First: at(13),
		Second: at(14), Vertex: at(15), Angle: num(50) * math.Pi / 180}
	if d.Kind == Radius || d.Kind == Diameter {
		d.First = at(15)
	}
	factor, known := a.factors[key(o.word(3))]
	if !known {
		return // NoDimStyle says so
	}
	const step = 1e-4 // the coarsest that lengths are written to
	if got, stored := d.Measure(factor), num(42); abs(got-stored) > d.slack(step, factor) {
		a.add(BadMeasurement, t.line, o.kind, "stored %g, the points give %g", stored, got)
	}
}
