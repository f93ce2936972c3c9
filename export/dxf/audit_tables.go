package dxf

import (
	"slices"
	"strconv"
)

// tableRule is what a symbol table must be like.
type tableRule struct {
	name, class string
	entries     []string // that must be there, upper case
}

// tableRules lists the tables in the order in which they stand.
func tableRules() []tableRule {
	return []tableRule{
		{"VPORT", "AcDbViewportTableRecord", []string{"*ACTIVE"}},
		{"LTYPE", "AcDbLinetypeTableRecord", []string{"BYBLOCK", "BYLAYER", "CONTINUOUS"}},
		{"LAYER", "AcDbLayerTableRecord", []string{"0"}},
		{"STYLE", "AcDbTextStyleTableRecord", []string{"STANDARD"}},
		{"VIEW", "AcDbViewTableRecord", nil},
		{"UCS", "AcDbUCSTableRecord", nil},
		{"APPID", "AcDbRegAppTableRecord", []string{"ACAD"}},
		{"DIMSTYLE", "AcDbDimStyleTableRecord", []string{"STANDARD"}},
		{"BLOCK_RECORD", "AcDbBlockTableRecord", []string{"*MODEL_SPACE", "*PAPER_SPACE"}},
	}
}

func (a *auditor) tables(s sectionOf) {
	rules := tableRules()
	place := -1
	seen := map[string]bool{}
	for i := 0; i < len(s.body); i++ {
		head := s.body[i]
		if head.kind != "TABLE" {
			a.add(BadTable, head.line, head.kind, "outside a table")
			continue
		}
		name := head.word(2)
		at := slices.IndexFunc(rules, func(r tableRule) bool { return r.name == name })
		if at <= place {
			a.add(BadTable, head.line, name, "unknown table, or doubled, or out of order")
		}
		place = max(place, at)
		seen[name] = true
		var body []object
		for i++; i < len(s.body) && s.body[i].kind != "ENDTAB" && s.body[i].kind != "TABLE"; i++ {
			body = append(body, s.body[i])
		}
		if i == len(s.body) || s.body[i].kind != "ENDTAB" {
			a.add(BadTable, head.line, name, "table does not end")
			i--
		}
		if at >= 0 {
			a.table(rules[at], head, body)
		}
	}
	for _, r := range rules {
		if a.version != AC1009 && !seen[r.name] {
			a.add(BadTable, s.head.line, r.name, "table is missing")
		}
	}
}

func (a *auditor) table(r tableRule, head object, body []object) {
	if r.name == "DIMSTYLE" {
		a.subclasses(head, "AcDbSymbolTable", "AcDbDimStyleTable")
	} else {
		a.subclasses(head, "AcDbSymbolTable")
	}
	a.owner(head, "")
	here := map[string]bool{}
	for _, o := range body {
		here[key(o.word(2))] = true
		if o.kind != r.name {
			a.add(BadTable, o.line, o.kind, "in table %s", r.name)
			continue
		}
		a.subclasses(o, "AcDbSymbolTableRecord", r.class)
		a.owner(o, "TABLE")
		if t, ok := o.find(330); ok && a.version != AC1009 {
			if h, _ := strconv.ParseUint(t.word(), 16, 64); handle(h) != a.handleOf(head) {
				a.add(BadOwner, t.line, o.kind, "owner is not its table")
			}
		}
		a.record(o)
	}
	for _, n := range r.entries {
		if !here[n] && (a.version != AC1009 || n == "0" || n == "CONTINUOUS" || n == "STANDARD") {
			a.add(MissingEntry, head.line, r.name, "no entry %s", n)
		}
	}
}

func (a *auditor) record(o object) {
	a.pointers(o)
	switch o.kind {
	case "LAYER":
		a.defined(NoLinetype, linetypeKind, o, 6)
		a.color(o)
		a.weight(o)
	case "BLOCK_RECORD":
		n := key(o.word(2))
		if !a.names[blockKind][n] {
			a.add(NoBlock, o.line, o.kind, "block %q has no definition", n)
		}
		if layout, space := a.pointed(o, 340), n == "*MODEL_SPACE" || n == "*PAPER_SPACE"; space && layout.kind != "LAYOUT" {
			a.add(BadPointer, o.line, o.kind, "%s has no LAYOUT", n)
		}
	case "DIMSTYLE":
		if style, ok := o.find(340); ok && a.version != AC1009 && a.pointed(o, 340).kind != "STYLE" {
			a.add(NoTextStyle, style.line, o.kind, "group 340 is no text style")
		}
	}
}

// pointed returns the object that the first group with the code points to.
func (a *auditor) pointed(o object, code int) object {
	h, _ := strconv.ParseUint(o.word(code), 16, 64)
	return a.handles[handle(h)]
}

func (a *auditor) blocks(s sectionOf) {
	inside := ""
	var body []object
	for _, o := range s.body {
		switch {
		case o.kind == "BLOCK":
			if inside != "" {
				a.add(BadSection, o.line, "BLOCK", "block %s does not end", inside)
			}
			inside, body = key(o.word(2)), nil
			a.subclasses(o, "AcDbEntity", "AcDbBlockBegin")
			a.edge(o, inside)
			if a.version != AC1009 && !a.names[recordKind][inside] {
				a.add(NoBlock, o.line, "BLOCK", "block %q has no record", inside)
			}
		case inside == "":
			a.add(BadSection, o.line, o.kind, "outside a block")
		case o.kind == "ENDBLK":
			a.subclasses(o, "AcDbEntity", "AcDbBlockEnd")
			a.edge(o, inside)
			a.entities(body, inside)
			inside = ""
		default:
			body = append(body, o)
			if o.kind == "DIMENSION" {
				a.add(NestedDim, o.line, o.kind, "in block %s", inside)
			}
		}
	}
	if inside != "" {
		a.add(BadSection, s.head.line, "BLOCKS", "block %s does not end", inside)
	}
	for _, n := range []string{"*MODEL_SPACE", "*PAPER_SPACE"} {
		if a.version != AC1009 && !a.names[blockKind][n] {
			a.add(MissingEntry, s.head.line, "BLOCKS", "no block %s", n)
		}
	}
}

// edge checks the start or end of a block.
func (a *auditor) edge(o object, block string) {
	a.defined(NoLayer, layerKind, o, 8)
	a.space(o, block)
}

// space checks that the owner of an object is the record of the block it
// stands in.
func (a *auditor) space(o object, block string) {
	a.owner(o, "BLOCK_RECORD")
	if a.version == AC1009 {
		return
	}
	if got := a.records[a.handleOf(a.pointed(o, 330))]; got != "" && got != block {
		a.add(BadOwner, o.line, o.kind, "owner is the record of %s, stands in %s", got, block)
	}
}

// objects checks the object tree.
func (a *auditor) objects(s sectionOf) {
	if len(s.body) == 0 || s.body[0].kind != "DICTIONARY" {
		a.add(MissingEntry, s.head.line, "OBJECTS", "does not start with the root dictionary")
		return
	}
	root := s.body[0]
	a.owner(root, "")
	group, layouts := a.entry(root, "ACAD_GROUP"), a.entry(root, "ACAD_LAYOUT")
	if group.kind != "DICTIONARY" {
		a.add(MissingEntry, root.line, root.kind, "no dictionary ACAD_GROUP")
	}
	if layouts.kind != "DICTIONARY" || a.entry(layouts, "Model").kind != "LAYOUT" {
		a.add(MissingEntry, root.line, root.kind, "no layout Model in ACAD_LAYOUT")
	}
	for _, o := range s.body {
		a.pointers(o)
		switch o.kind {
		case "LAYOUT":
			a.owner(o, "DICTIONARY")
			a.subclasses(o, "AcDbPlotSettings", "AcDbLayout")
			last := tag{}
			for _, t := range o.tags {
				if t.code == 330 {
					last = t
				}
			}
			if h, _ := strconv.ParseUint(last.word(), 16, 64); a.handles[handle(h)].kind != "BLOCK_RECORD" {
				a.add(BadPointer, o.line, o.kind, "layout of no block record")
			}
		case "DICTIONARY":
			a.subclasses(o, "AcDbDictionary")
		}
	}
}

// entry returns the object that a dictionary holds under the name.
func (a *auditor) entry(dict object, name string) object {
	for i, t := range dict.tags {
		if t.code == 3 && t.word() == name && i+1 < len(dict.tags) {
			h, _ := strconv.ParseUint(dict.tags[i+1].word(), 16, 64)
			return a.handles[handle(h)]
		}
	}
	return object{}
}
