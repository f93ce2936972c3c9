package dxf

// skeleton holds the handles of the objects that the tables point to before
// the OBJECTS section is written.
type skeleton struct {
	root, plotStyle         handle
	modelSpace, modelLayout handle
	paperSpace, paperLayout handle
}

// newSkeleton gives out the handles, which are zero in AC1009.
func newSkeleton(e *encoder) *skeleton {
	return &skeleton{root: e.fresh(), plotStyle: e.fresh(), modelSpace: e.fresh(),
		modelLayout: e.fresh(), paperSpace: e.fresh(), paperLayout: e.fresh()}
}

// classes declares the object types that are not built into the format.
func (e *encoder) classes() {
	e.section("CLASSES")
	for _, c := range [][2]string{
		{"ACDBDICTIONARYWDFLT", "AcDbDictionaryWithDefault"},
		{"ACDBPLACEHOLDER", "AcDbPlaceHolder"},
		{"LAYOUT", "AcDbLayout"},
	} {
		e.tag(0, "CLASS")
		e.tag(1, c[0])
		e.tag(2, c[1])
		e.tag(3, "ObjectDBX Classes")
		e.int(90, 0)
		e.int(280, 0)
		e.int(281, 0)
	}
	e.endSection()
}

// entry is an item of a dictionary.
type entry struct {
	name string
	h    handle
}

// objects writes the object tree that AC1015 demands: the root dictionary,
// the layouts of model and paper space, and the plot style of the layers.
func (e *encoder) objects(d *Document, s *skeleton) {
	e.where = "objects"
	group, layouts, styles := e.fresh(), e.fresh(), e.fresh()
	e.section("OBJECTS")
	e.dictionary("DICTIONARY", s.root, 0, []entry{
		{"ACAD_GROUP", group}, {"ACAD_LAYOUT", layouts}, {"ACAD_PLOTSTYLENAME", styles}})
	e.dictionary("DICTIONARY", group, s.root, nil)
	e.dictionary("DICTIONARY", layouts, s.root, []entry{{"Layout1", s.paperLayout}, {"Model", s.modelLayout}})
	e.dictionary("ACDBDICTIONARYWDFLT", styles, s.root, []entry{{"Normal", s.plotStyle}})
	e.tag(100, "AcDbDictionaryWithDefault")
	e.tag(340, s.plotStyle.String())
	e.begin("ACDBPLACEHOLDER", s.plotStyle, styles)
	lo, hi := e.lo, e.hi
	const (
		plotFlags = 16 | 32 | 128 | 512 // standard scale, styles, line weights, hide nothing
		modelType = 1024
	)
	e.layout("Model", s.modelLayout, layouts, s.modelSpace, plotFlags|modelType, 0, lo, hi)
	e.layout("Layout1", s.paperLayout, layouts, s.paperSpace, plotFlags, 1, lo, hi)
	e.endSection()
}

func (e *encoder) dictionary(kind string, h, owner handle, entries []entry) {
	e.begin(kind, h, owner)
	e.tag(100, "AcDbDictionary")
	e.int(281, 1) // keep records on a clash
	for _, n := range entries {
		e.tag(3, n.name)
		e.tag(350, n.h.String())
	}
}

// layout writes the plot settings and limits of model or paper space, whose
// block record is space.
func (e *encoder) layout(name string, h, owner, space handle, plotFlags, tab int, lo, hi Point) {
	e.begin("LAYOUT", h, owner)
	e.tag(100, "AcDbPlotSettings")
	for _, code := range []int{1, 2, 4, 6} { // names of set-up, printer, paper, view
		e.tag(code, "")
	}
	for code := 40; code <= 49; code++ { // margins, paper, origin, window: left to the reader
		e.length(code, 0)
	}
	for _, code := range []int{140, 141} {
		e.length(code, 0)
	}
	e.ratio(142, 1) // plot scale 1:1
	e.ratio(143, 1)
	e.int(70, plotFlags)
	e.int(72, 1) // millimetres
	e.int(73, 0)
	e.int(74, 5)
	e.tag(7, "")
	e.int(75, 16) // scale 1:1
	e.ratio(147, 1)
	e.length(148, 0)
	e.length(149, 0)
	e.tag(100, "AcDbLayout")
	e.tag(1, name)
	e.int(70, 1)
	e.int(71, tab)
	e.xy(10, lo) // limits
	e.xy(11, hi)
	e.point(12, Point{}) // insertion base
	e.point(14, lo)      // extents
	e.point(15, hi)
	e.length(146, 0)
	e.point(13, Point{}) // UCS: the world's
	e.point(16, Point{1, 0})
	e.point(17, Point{0, 1})
	e.int(76, 0)
	e.tag(330, space.String())
}
