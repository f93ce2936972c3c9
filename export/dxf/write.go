package dxf

import (
	"fmt"
	"io"
	"slices"
	"strings"
)

// Write encodes the document in the given version; an empty version is
// AC1015. It writes nothing unless the whole document can be encoded. A
// document that breaks a rule of the format gives an [*InvalidError].
//
// In AC1009 names become upper case, polylines become chains of vertices, and
// line weights, the units and the stored measurements are not written: the
// reader takes the units from a comment and measures again. Inside blocks and
// pictures of dimensions polylines become lines and arcs.
func Write(w io.Writer, d *Document, v Version) error {
	if v == "" {
		v = AC1015
	}
	if v != AC1015 && v != AC1009 {
		return &InvalidError{"document", fmt.Sprintf("version %q is not supported", v), "use AC1015 or AC1009"}
	}
	lo, hi := d.extents()
	// The same pass twice: the first finds what is wrong and counts the handles,
	// the second writes through a small buffer. A drawing of any size takes no
	// more memory than that.
	check := newEncoder(nil, v, d.Units)
	check.lo, check.hi = lo, hi
	check.drawing(d)
	check.where = "header"
	check.head(d, 0)
	if check.err != nil {
		return check.err
	}
	e := newEncoder(w, v, d.Units)
	e.lo, e.hi = lo, hi
	e.head(d, check.last+1)
	e.drawing(d)
	e.flush()
	if e.err != nil {
		return fmt.Errorf("dxf: %w", e.err)
	}
	return nil
}

// head writes what stands before the tables; seed is the first free handle.
func (e *encoder) head(d *Document, seed handle) {
	e.comments(d)
	e.header(d, seed)
}

// unitComment starts the comment that tells the units in AC1009, which has no
// header variable for them.
const unitComment = "UNITS: "

func unitNames() map[Units]string {
	return map[Units]string{Unitless: "NONE", Inches: "INCHES", Millimetres: "MILLIMETRES"}
}

func (e *encoder) comments(d *Document) {
	for _, c := range d.Comments {
		if strings.TrimSpace(c) == "" || strings.HasPrefix(c, unitComment) {
			e.fail("", "comment %q is empty or taken for the units", c)
		}
		e.escaped(999, c, true)
	}
	if e.r12() {
		e.tag(999, unitComment+unitNames()[d.Units])
	}
}

func (e *encoder) header(d *Document, seed handle) {
	if _, ok := unitNames()[d.Units]; !ok {
		e.fail("use Unitless, Inches or Millimetres", "units %d are not supported", d.Units)
	}
	e.section("HEADER")
	e.tag(9, "$ACADVER")
	e.tag(1, string(e.version))
	if !e.r12() {
		e.tag(9, "$HANDSEED")
		e.tag(5, seed.String())
		e.tag(9, "$DWGCODEPAGE")
		e.tag(3, "ANSI_1252")
		e.variable("$INSUNITS", 70, int(d.Units))
		metric := 1
		if d.Units == Inches {
			metric = 0
		}
		e.variable("$MEASUREMENT", 70, metric)
		e.variable("$LWDISPLAY", 290, 1)
	}
	e.tag(9, "$INSBASE")
	e.point(10, Point{})
	e.tag(9, "$EXTMIN")
	e.point(10, e.lo)
	e.tag(9, "$EXTMAX")
	e.point(10, e.hi)
	e.tag(9, "$LIMMIN")
	e.xy(10, e.lo)
	e.tag(9, "$LIMMAX")
	e.xy(10, e.hi)
	e.tag(9, "$LTSCALE")
	e.ratio(40, 1)
	e.variable("$LUNITS", 70, 2) // decimal
	e.variable("$AUNITS", 70, 0) // decimal degrees
	e.endSection()
}

// extents is Bounds with a unit square for an empty drawing, so that a view
// can always be zoomed to it.
func (d *Document) extents() (lo, hi Point) {
	lo, hi, ok := d.Bounds()
	if !ok {
		return Point{}, Point{1, 1}
	}
	return lo, hi
}

func (e *encoder) variable(name string, code, v int) {
	e.tag(9, name)
	e.int(code, v)
}

func (e *encoder) section(name string) {
	e.tag(0, "SECTION")
	e.tag(2, name)
}

func (e *encoder) endSection() { e.tag(0, "ENDSEC") }

// blockDef is a block with what the tables need to know of it.
type blockDef struct {
	Block
	record, layout handle
	flags          int
}

const (
	anonymousBlock = 1 // flag of a *Dn block
	modelSpace     = "*Model_Space"
	paperSpace     = "*Paper_Space"
)

// drawing writes everything after the header.
func (e *encoder) drawing(d *Document) {
	if !e.r12() {
		e.classes()
	}
	s := newSkeleton(e)
	e.section("TABLES")
	e.viewport(d)
	e.linetypes(d)
	e.layers(d, s)
	e.textStyles(d)
	if !e.r12() {
		e.table("VIEW", nil)
		e.table("UCS", nil)
		e.table("APPID", []func(handle){e.application})
	}
	e.dimStyles(d)
	blocks := e.blockRecords(d, s)
	e.endSection()

	e.section("BLOCKS")
	for _, b := range blocks {
		e.block(b)
	}
	e.endSection()

	e.section("ENTITIES")
	for i, v := range d.Entities {
		e.where, e.inside, e.index, e.current = "", "", i, v
		v.encode(e, s.modelSpace)
	}
	e.endSection()
	if !e.r12() {
		e.objects(d, s)
	}
	e.tag(0, "EOF")
}

// blockRecords lists all blocks, gives each its name and handle, and writes
// their table in AC1015.
func (e *encoder) blockRecords(d *Document, s *skeleton) []blockDef {
	var all []blockDef
	if !e.r12() {
		all = append(all,
			blockDef{Block: Block{Name: modelSpace}, record: s.modelSpace, layout: s.modelLayout},
			blockDef{Block: Block{Name: paperSpace}, record: s.paperSpace, layout: s.paperLayout})
	}
	for _, b := range d.Blocks {
		e.where = "block " + b.Name
		if strings.HasPrefix(b.Name, "*") {
			e.fail("", "names with * are made by the writer")
		}
		if slices.ContainsFunc(b.Entities, isDimension) {
			e.fail("put dimensions into model space", "readers drop dimensions in blocks")
		}
		all = append(all, blockDef{Block: b, record: e.fresh()})
	}
	n := 0
	for i, v := range d.Entities {
		dim, ok := v.(Dimension)
		if !ok {
			continue
		}
		if e.where = fmt.Sprintf("entity %d (DIMENSION)", i); slices.ContainsFunc(dim.Picture, isDimension) {
			e.fail("", "the picture of a dimension holds a dimension")
		}
		n++
		all = append(all, blockDef{Block: Block{Name: dimBlockName(n), Entities: dim.Picture},
			record: e.fresh(), flags: anonymousBlock})
	}
	if e.r12() {
		return all
	}
	var records []func(handle)
	for _, b := range all {
		records = append(records, func(table handle) {
			e.where = "block " + b.Name
			e.record("BLOCK_RECORD", b.record, table, "AcDbBlockTableRecord")
			e.name(2, b.Name)
			e.tag(340, b.layout.String())
		})
	}
	e.table("BLOCK_RECORD", records)
	return all
}

func isDimension(v Entity) bool {
	_, ok := v.(Dimension)
	return ok
}

// block writes a block's contents. The block can be inserted from here on,
// which rules out that it holds itself.
func (e *encoder) block(b blockDef) {
	e.where = "block " + b.Name
	paper := b.Name == paperSpace
	edge := func(kind, class string) {
		e.begin(kind, e.fresh(), b.record)
		e.subclass("AcDbEntity")
		if paper {
			e.int(67, 1)
		}
		e.reference(8, layerKind, "0")
		e.subclass(class)
	}
	edge("BLOCK", "AcDbBlockBegin")
	e.name(2, b.Name)
	e.int(70, b.flags)
	e.point(10, b.Base)
	e.name(3, b.Name)
	if !e.r12() {
		e.tag(1, "")
	}
	for i, v := range b.Entities {
		e.where, e.inside, e.index, e.current = "", b.Name, i, v
		if p, ok := v.(Polyline); ok && e.r12() {
			// Some readers lose the end of a chain of vertices inside a block.
			for _, piece := range p.pieces() {
				piece.encode(e, b.record)
			}
			continue
		}
		v.encode(e, b.record)
	}
	e.where = "block " + b.Name
	edge("ENDBLK", "AcDbBlockEnd")
	if !strings.HasPrefix(b.Name, "*") {
		e.define(blockKind, b.Name, b.record)
	}
}
