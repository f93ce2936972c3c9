package solid

import (
	"io"
	"strconv"

	"armwright/geometry/solid"
)

// fixedStamp is the time of a file that is given none.
const fixedStamp = "2000-01-01T00:00:00"

// Write writes the model as an ISO 10303-21 file of the schema AUTOMOTIVE_DESIGN
// (AP214), in mm: one product for the whole, one for each part, named by its id,
// with its place in the whole and its colour. It refuses, with an *Error, ids
// that are not unique; that bodies are valid is the caller's care.
func Write(w io.Writer, m Model) error {
	if err := m.validate(); err != nil {
		return err
	}
	d := newData(20_000 * (1 + len(m.Parts)))
	d.header(&m)
	d.assembly(&m)
	d.text("ENDSEC;\nEND-ISO-10303-21;\n")
	_, err := w.Write(d.out)
	return err
}

func (d *data) header(m *Model) {
	stamp := m.Stamp
	if stamp == "" {
		stamp = fixedStamp
	}
	d.text("ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION((")
	d.str(m.Notice)
	d.text("),'2;1');\nFILE_NAME(")
	if m.Number == "" {
		d.str(m.Name)
	} else {
		d.str(m.Name + " " + m.Number)
	}
	d.text(",")
	d.str(stamp)
	d.text(",(''),(''),'armwright','armwright','');\n")
	d.text("FILE_SCHEMA(('AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }'));\nENDSEC;\nDATA;\n")
}

// product is what the structure of the assembly refers to of one product.
type product struct{ product, definition, shape, frame int }

// assembly writes the products, their shapes, places and colours.
func (d *data) assembly(m *Model) {
	context := d.begin("APPLICATION_CONTEXT")
	d.text("'core data for automotive mechanical design processes'")
	d.end()
	d.begin("APPLICATION_PROTOCOL_DEFINITION")
	d.text("'international standard','automotive_design',2000,")
	d.ref(context)
	d.end()
	mechanical := d.begin("PRODUCT_CONTEXT")
	d.text("'',")
	d.ref(context)
	d.text(",'mechanical'")
	d.end()
	design := d.begin("PRODUCT_DEFINITION_CONTEXT")
	d.text("'part definition',")
	d.ref(context)
	d.text(",'design'")
	d.end()
	units := d.units()

	parts := make([]product, len(m.Parts))
	styles := map[Colour]int{}
	styled := make([]int, len(m.Parts))
	for i, p := range m.Parts {
		d.part()
		own := d.placement(solid.World())
		brep := d.brep(p.ID, p.Solid.Shell())
		shape := d.representation("ADVANCED_BREP_SHAPE_REPRESENTATION", p.ID, []int{own, brep}, units)
		parts[i] = d.product(p.ID, p.Title, mechanical, design, shape)
		style, ok := styles[p.Colour]
		if !ok {
			style = d.style(p.Colour)
			styles[p.Colour] = style
		}
		styled[i] = d.begin("STYLED_ITEM")
		d.text("'',(")
		d.ref(style)
		d.text("),")
		d.ref(brep)
		d.end()
		parts[i].frame = own
	}

	d.part()
	items := []int{d.placement(solid.World())}
	for i := range m.Parts {
		// Each a placement of its own, though two parts may share the place.
		d.placements = map[[3]int]int{}
		items = append(items, d.placement(m.Parts[i].At))
	}
	shape := d.representation("SHAPE_REPRESENTATION", m.Name, items, units)
	whole := d.product(m.Name, m.Number, mechanical, design, shape)
	all := []int{whole.product}
	for i, p := range m.Parts {
		all = append(all, parts[i].product)
		d.place(i+1, p.ID, parts[i], whole, items[i+1])
	}
	d.begin("PRODUCT_RELATED_PRODUCT_CATEGORY")
	d.text("'part',$,")
	d.refs(all)
	d.end()
	d.representation("MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION", "", styled, units)
}

// units writes the context that says mm, radian and the accuracy.
func (d *data) units() int {
	combined := func(s string) int {
		d.last++
		d.ref(d.last)
		d.text("=(")
		d.text(s)
		d.end()
		return d.last
	}
	length := combined("LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.)")
	angle := combined("NAMED_UNIT(*)PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.)")
	solidAngle := combined("NAMED_UNIT(*)SI_UNIT($,.STERADIAN.)SOLID_ANGLE_UNIT()")
	accuracy := d.begin("UNCERTAINTY_MEASURE_WITH_UNIT")
	d.text("LENGTH_MEASURE(1.E-05),")
	d.ref(length)
	d.text(",'distance_accuracy_value','confusion accuracy'")
	d.end()
	ref := func(n int) string { return "#" + strconv.Itoa(n) }
	return combined("GEOMETRIC_REPRESENTATION_CONTEXT(3)GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT((" + ref(accuracy) +
		"))GLOBAL_UNIT_ASSIGNED_CONTEXT((" + ref(length) + "," + ref(angle) + "," + ref(solidAngle) +
		"))REPRESENTATION_CONTEXT('','3D')")
}

func (d *data) representation(kind, name string, items []int, units int) int {
	n := d.begin(kind)
	d.str(name)
	d.text(",")
	d.refs(items)
	d.text(",")
	d.ref(units)
	d.end()
	return n
}

// product writes a product and that a representation is its shape.
func (d *data) product(id, title string, mechanical, design, shape int) product {
	p := product{shape: shape}
	p.product = d.begin("PRODUCT")
	d.str(id)
	d.text(",")
	d.str(id)
	d.text(",")
	d.str(title)
	d.text(",(")
	d.ref(mechanical)
	d.text(")")
	d.end()
	formation := d.begin("PRODUCT_DEFINITION_FORMATION")
	d.text("'','',")
	d.ref(p.product)
	d.end()
	p.definition = d.begin("PRODUCT_DEFINITION")
	d.text("'design','',")
	d.ref(formation)
	d.text(",")
	d.ref(design)
	d.end()
	definition := d.begin("PRODUCT_DEFINITION_SHAPE")
	d.text("'','',")
	d.ref(p.definition)
	d.end()
	d.begin("SHAPE_DEFINITION_REPRESENTATION")
	d.ref(definition)
	d.text(",")
	d.ref(shape)
	d.end()
	return p
}

// place writes that a part is in the whole, its own frame at a placement.
func (d *data) place(number int, id string, part, whole product, at int) {
	use := d.begin("NEXT_ASSEMBLY_USAGE_OCCURRENCE")
	d.str(strconv.Itoa(number))
	d.text(",")
	d.str(id)
	d.text(",'',")
	d.ref(whole.definition)
	d.text(",")
	d.ref(part.definition)
	d.text(",$")
	d.end()
	definition := d.begin("PRODUCT_DEFINITION_SHAPE")
	d.text("'','',")
	d.ref(use)
	d.end()
	transformation := d.begin("ITEM_DEFINED_TRANSFORMATION")
	d.text("'','',")
	d.ref(part.frame)
	d.text(",")
	d.ref(at)
	d.end()
	d.last++
	relation := d.last
	d.ref(relation)
	d.text("=(REPRESENTATION_RELATIONSHIP('','',")
	d.ref(part.shape)
	d.text(",")
	d.ref(whole.shape)
	d.text(")REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION(")
	d.ref(transformation)
	d.text(")SHAPE_REPRESENTATION_RELATIONSHIP()")
	d.end()
	d.begin("CONTEXT_DEPENDENT_SHAPE_REPRESENTATION")
	d.ref(relation)
	d.text(",")
	d.ref(definition)
	d.end()
}

// style writes what gives a body's faces a colour.
func (d *data) style(c Colour) int {
	rgb := d.begin("COLOUR_RGB")
	d.text("''")
	for _, x := range [...]float64{c.R, c.G, c.B} {
		d.text(",")
		d.real(quantise(x, 4), 4)
	}
	d.end()
	colour := d.entity("FILL_AREA_STYLE_COLOUR", rgb)
	listed := func(name string, n int) int {
		out := d.begin(name)
		d.text("'',(")
		d.ref(n)
		d.text(")")
		d.end()
		return out
	}
	fill := listed("FILL_AREA_STYLE", colour)
	area := d.begin("SURFACE_STYLE_FILL_AREA")
	d.ref(fill)
	d.end()
	side := listed("SURFACE_SIDE_STYLE", area)
	usage := d.begin("SURFACE_STYLE_USAGE")
	d.text(".BOTH.,")
	d.ref(side)
	d.end()
	style := d.begin("PRESENTATION_STYLE_ASSIGNMENT")
	d.text("(")
	d.ref(usage)
	d.text(")")
	d.end()
	return style
}
