package dxf

import (
	"fmt"
	"io"
	"maps"
	"math"
	"slices"
	"strings"

	"armwright/export/sheet"
)

// Read decodes a drawing made by [Write], or by another program within the
// same means: ASCII, release 2004 or older, flat, model space, and the
// entities of this package. What departs from that gives a [*SyntaxError]
// with its line. Elevations are dropped; properties by block or by default
// read as by layer.
func Read(r io.Reader) (*Document, error) {
	data, err := io.ReadAll(r)
	if err != nil {
		return nil, fmt.Errorf("dxf: %w", err)
	}
	tags, bad := scan(data)
	if bad != nil {
		return nil, bad
	}
	d := &decoder{doc: &Document{}, pictures: map[string][]Entity{}, styleOf: map[string]string{}}
	d.comments(tags)
	d.file(objects(tags))
	if d.err != nil {
		return nil, d.err
	}
	return d.doc, nil
}

// decoder builds a document and keeps the first error.
type decoder struct {
	doc      *Document
	err      *SyntaxError
	pictures map[string][]Entity // contents of *Dn blocks by upper case name
	styleOf  map[string]string   // text style by handle
	pending  []pendingStyle
}

// pendingStyle is a dimension style whose text style is still a handle.
type pendingStyle struct {
	index  int
	handle string
}

func (d *decoder) fail(line int, hint, format string, args ...any) {
	if d.err == nil {
		d.err = &SyntaxError{line, fmt.Sprintf(format, args...), hint}
	}
}

// comments keeps the comments that stand before everything else.
func (d *decoder) comments(tags []tag) {
	for _, t := range tags {
		if t.code != commentCode {
			return
		}
		text := unescape(t.value, true)
		name, ok := strings.CutPrefix(text, unitComment)
		if !ok {
			d.doc.Comments = append(d.doc.Comments, text)
			continue
		}
		names := unitNames()
		for _, u := range slices.Sorted(maps.Keys(names)) {
			if names[u] == name {
				d.doc.Units = u
			}
		}
	}
}

// file reads the sections in whatever order they come.
func (d *decoder) file(all []object) {
	if n := len(all); n == 0 || all[n-1].kind != "EOF" {
		line := 1
		if n > 0 {
			line = all[n-1].line
		}
		d.fail(line, "the file is cut short", "no EOF at the end")
		return
	}
	all = all[:len(all)-1]
	for len(all) > 0 && d.err == nil {
		head := all[0]
		if head.kind != "SECTION" {
			d.fail(head.line, "", "%q outside a section", head.kind)
			return
		}
		end := slices.IndexFunc(all, func(o object) bool { return o.kind == "ENDSEC" })
		if end < 0 {
			d.fail(head.line, "", "section %s does not end", head.word(2))
			return
		}
		d.section(head, all[1:end])
		all = all[end+1:]
	}
	d.link()
}

func (d *decoder) section(head object, body []object) {
	switch head.word(2) {
	case "HEADER":
		d.header(head.tags)
	case "TABLES":
		for _, o := range body {
			d.record(o)
		}
	case "BLOCKS":
		d.blocks(body)
	case "ENTITIES":
		d.doc.Entities = append(d.doc.Entities, d.entities(body)...)
	}
}

// newest is the newest version whose text is not UTF-8.
const newest = "AC1018"

func (d *decoder) header(tags []tag) {
	name := ""
	for _, t := range tags {
		switch {
		case t.code == 9:
			name = t.word()
		case name == "$ACADVER" && t.word() > newest:
			d.fail(t.line, "save as release 2000", "version %s is not read", t.word())
		case name == "$INSUNITS":
			n, ok := t.integer()
			if _, known := unitNames()[Units(n)]; !ok || !known {
				d.fail(t.line, "use millimetres or inches", "units %q are not read", t.value)
			}
			d.doc.Units = Units(n)
		}
	}
}

// record reads a table record. Entries every drawing has are left out when
// they are as this package writes them.
func (d *decoder) record(o object) {
	name := d.name(o, 2)
	if (o.kind == "STYLE" || o.kind == "DIMSTYLE") && strings.EqualFold(name, standard) {
		name = standard
	}
	switch o.kind {
	case "LTYPE":
		if slices.ContainsFunc(standardTypes(), func(s string) bool { return strings.EqualFold(s, name) }) {
			return
		}
		t := Linetype{Name: name, Description: d.text(o, 3)}
		for _, g := range o.tags {
			if g.code == 49 {
				t.Pattern = append(t.Pattern, d.number(g))
			}
		}
		d.doc.Linetypes = append(d.doc.Linetypes, t)
	case "LAYER":
		a := d.attr(o)
		l := Layer{name, a.Color, a.Linetype, a.Lineweight}.filled()
		if l == layerZero() {
			return
		}
		d.doc.Layers = append(d.doc.Layers, l)
	case "STYLE":
		d.styleOf[key(o.word(5))] = name
		s := TextStyle{name, d.text(o, 3), d.num(o, 41, 1)}
		if s.filled() != standardText() {
			d.doc.TextStyles = append(d.doc.TextStyles, s)
		}
	case "DIMSTYLE":
		s := DimStyle{Name: name, LinearFactor: d.num(o, 144, 1), TextHeight: d.num(o, 140, sheet.ViewText),
			ArrowSize: d.num(o, 41, sheet.ArrowLength), Offset: d.num(o, 42, 0), Extension: d.num(o, 44, 0), Decimals: d.int(o, 271, 0)}
		d.pending = append(d.pending, pendingStyle{len(d.doc.DimStyles), key(o.word(340))})
		d.doc.DimStyles = append(d.doc.DimStyles, s)
	}
}

// link resolves what could not be resolved before the whole file was read:
// text styles of dimension styles, and what release 12 does not store.
func (d *decoder) link() {
	for _, p := range d.pending {
		s := &d.doc.DimStyles[p.index]
		if s.TextStyle = d.styleOf[p.handle]; s.TextStyle == "" {
			s.TextStyle = standard
		}
	}
	factors := map[string]float64{key(standard): 1}
	var own []DimStyle
	for _, s := range d.doc.DimStyles {
		factors[key(s.Name)] = s.LinearFactor
		if s.filled() != standardDim() {
			own = append(own, s)
		}
	}
	d.doc.DimStyles = own
	for i, v := range d.doc.Entities {
		if dim, ok := v.(Dimension); ok && math.IsNaN(dim.Measurement) {
			dim.Measurement = dim.Measure(factors[key(dim.style())])
			d.doc.Entities[i] = dim
		}
	}
}

// blocks reads the block definitions; those of dimensions are kept aside.
func (d *decoder) blocks(body []object) {
	for len(body) > 0 && d.err == nil {
		head := body[0]
		end := slices.IndexFunc(body, func(o object) bool { return o.kind == "ENDBLK" })
		if head.kind != "BLOCK" || end < 0 {
			d.fail(head.line, "", "%q where a whole block is due", head.kind)
			return
		}
		b := Block{d.name(head, 2), d.point(head, 10), d.entities(body[1:end])}
		if slices.ContainsFunc(b.Entities, isDimension) {
			d.fail(head.line, "", "block %s with a dimension is not read", b.Name)
		}
		body = body[end+1:]
		if !strings.HasPrefix(b.Name, "*") {
			d.doc.Blocks = append(d.doc.Blocks, b)
			continue
		}
		if strings.HasPrefix(b.Name, "*D") || strings.HasPrefix(b.Name, "*d") {
			d.pictures[key(b.Name)] = b.Entities
		}
	}
}
