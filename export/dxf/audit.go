package dxf

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Audit checks the bytes of a file for what makes strict readers refuse or
// repair it, and returns nil for a sound file. It stands apart from Write and
// Read: it trusts neither. It vouches for the means of this package in
// versions AC1009 and AC1015 and flags everything else.
//
// Source of the rules: the published format reference and defects reported
// for other writers; docs/dxf.md lists them.
func Audit(data []byte) []Finding {
	a := &auditor{handles: map[handle]object{}, names: map[kind]map[string]bool{}, records: map[handle]string{},
		filled: map[string]bool{}, pictured: map[string]bool{}, factors: map[string]float64{}, version: AC1009}
	a.bytes(data)
	tags, bad := scan(data)
	if bad != nil {
		a.add(BadTag, bad.Line, "file", "%s", bad.Problem)
	}
	a.numbers(tags)
	a.structure(objects(tags))
	a.collect()
	for _, s := range a.sections {
		a.check(s)
	}
	slices.SortStableFunc(a.findings, func(x, y Finding) int { return x.Line - y.Line })
	return a.findings
}

// auditor gathers what a file defines, then checks what it uses.
type auditor struct {
	findings []Finding
	version  Version
	seed     handle
	sections []sectionOf
	handles  map[handle]object
	names    map[kind]map[string]bool
	records  map[handle]string  // block name by handle of its record
	filled   map[string]bool    // blocks with contents
	pictured map[string]bool    // *Dn blocks in use
	factors  map[string]float64 // linear factor by dimension style
}

// sectionOf is a section with its objects.
type sectionOf struct {
	name string
	head object
	body []object
}

func (a *auditor) add(c Code, line int, object, format string, args ...any) {
	a.findings = append(a.findings, Finding{c, line, object, fmt.Sprintf(format, args...)})
}

// bytes checks the characters; one finding a line.
func (a *auditor) bytes(data []byte) {
	plain := func(c byte) bool { return c >= ' ' && c <= '~' || c == '\n' || c == '\t' }
	if !slices.ContainsFunc(data, func(c byte) bool { return !plain(c) }) {
		return // as all files that are written here
	}
	for i, line := range bytes.Split(data, []byte("\n")) {
		line = bytes.TrimSuffix(line, []byte("\r"))
		if k := bytes.IndexFunc(line, func(r rune) bool { return r < ' ' && r != '\t' || r > '~' }); k >= 0 {
			a.add(NotASCII, i+1, "file", "byte %#02x", line[k])
		}
	}
}

// valueKind tells what a group code holds. Source: the published table of
// group value types.
func isFloat(code int) bool {
	return code >= 10 && code <= 59 || code >= 110 && code <= 149 || code >= 210 && code <= 239 || code >= 1010 && code <= 1059
}

func isInt(code int) bool {
	return code >= 60 && code <= 99 || code >= 170 && code <= 179 || code >= 270 && code <= 299 ||
		code >= 370 && code <= 389 || code >= 1060 && code <= 1071
}

func (a *auditor) numbers(tags []tag) {
	for _, t := range tags {
		if isFloat(t.code) {
			if _, ok := t.number(); !ok {
				a.add(BadNumber, t.line, "file", "group %d is %q", t.code, t.value)
			}
		}
		if isInt(t.code) {
			if _, ok := t.integer(); !ok {
				a.add(BadNumber, t.line, "file", "group %d is %q", t.code, t.value)
			}
		}
		if len(t.value) > longestText {
			a.add(LongValue, t.line, "file", "group %d has %d bytes", t.code, len(t.value))
		}
	}
}

// sectionOrder is the order in which the sections stand. AC1009 needs only
// the entities and has no classes and objects.
func sectionOrder() []string {
	return []string{"HEADER", "CLASSES", "TABLES", "BLOCKS", "ENTITIES", "OBJECTS"}
}

func (a *auditor) structure(all []object) {
	if n := len(all); n == 0 || all[n-1].kind != "EOF" || len(all[n-1].tags) > 0 {
		a.add(NoEOF, lastLine(all), "file", "does not end with 0/EOF")
	}
	order := sectionOrder()
	place := -1
	for i := 0; i < len(all); i++ {
		o := all[i]
		if o.kind == "EOF" {
			if i != len(all)-1 {
				a.add(NoEOF, o.line, "EOF", "the file goes on after it")
			}
			continue
		}
		if o.kind != "SECTION" {
			a.add(BadSection, o.line, o.kind, "outside a section")
			continue
		}
		s := sectionOf{name: o.word(2), head: o}
		for i++; i < len(all) && all[i].kind != "ENDSEC"; i++ {
			if all[i].kind == "SECTION" || all[i].kind == "EOF" {
				break
			}
			s.body = append(s.body, all[i])
		}
		if i == len(all) || all[i].kind != "ENDSEC" {
			a.add(BadSection, o.line, s.name, "section does not end")
			i--
		}
		at := slices.Index(order, s.name)
		if at <= place {
			a.add(BadSection, o.line, s.name, "unknown section, or doubled, or out of order")
		}
		place = max(place, at)
		a.sections = append(a.sections, s)
		if s.name == "HEADER" {
			a.header(s)
		}
	}
	for _, name := range order {
		if !slices.ContainsFunc(a.sections, func(s sectionOf) bool { return s.name == name }) {
			if a.version != AC1009 || name == "ENTITIES" {
				a.add(BadSection, lastLine(all), name, "section is missing")
			}
		} else if a.version == AC1009 && (name == "CLASSES" || name == "OBJECTS") {
			a.add(WrongVersion, 1, name, "AC1009 has no such section")
		}
	}
}

func lastLine(all []object) int {
	if len(all) == 0 {
		return 1
	}
	return all[len(all)-1].line
}

func (a *auditor) header(s sectionOf) {
	vars := map[string]tag{}
	name := ""
	for _, t := range s.head.tags {
		if t.code == 9 {
			if name = t.word(); vars[name].line != 0 {
				a.add(DoubleEntry, t.line, "HEADER", "%s twice", name)
			}
			vars[name] = t
		} else if vars[name].code == 9 {
			vars[name] = t
		}
	}
	if v := vars["$ACADVER"]; v.line != 0 {
		a.version = Version(v.word())
		if a.version != AC1009 && a.version != AC1015 {
			a.add(BadVersion, v.line, "HEADER", "version %q", v.value)
		}
	}
	needed := []string{"$ACADVER", "$EXTMIN", "$EXTMAX"}
	if a.version != AC1009 {
		needed = append(needed, "$HANDSEED", "$INSUNITS", "$MEASUREMENT", "$DWGCODEPAGE", "$LWDISPLAY")
	}
	for _, n := range needed {
		if vars[n].line == 0 {
			a.add(MissingHeader, s.head.line, "HEADER", "%s is missing", n)
		}
	}
	if v := vars["$HANDSEED"]; v.line != 0 {
		n, err := strconv.ParseUint(v.word(), 16, 64)
		if err != nil || n == 0 {
			a.add(BadHandle, v.line, "HEADER", "$HANDSEED is %q", v.value)
		}
		a.seed = handle(n)
	}
	for _, n := range []string{"$INSUNITS", "$LWDISPLAY", "$HANDSEED"} {
		if a.version == AC1009 && vars[n].line != 0 {
			a.add(WrongVersion, vars[n].line, "HEADER", "AC1009 has no %s", n)
		}
	}
}

// collect gathers handles and names, so that references can be checked in
// whatever order they come.
func (a *auditor) collect() {
	for _, k := range []kind{layerKind, linetypeKind, styleKind, dimStyleKind, blockKind, recordKind} {
		a.names[k] = map[string]bool{}
	}
	for _, s := range a.sections {
		if s.name == "HEADER" || s.name == "CLASSES" {
			continue
		}
		block := ""
		for _, o := range s.body {
			a.handle(o)
			if k, ok := tableKind(o.kind); ok && s.name == "TABLES" {
				a.name(k, o)
			}
			switch {
			case s.name == "TABLES" && o.kind == "BLOCK_RECORD":
				a.records[a.handleOf(o)] = key(o.word(2))
			case s.name == "TABLES" && o.kind == "DIMSTYLE":
				a.factors[key(o.word(2))] = 1
				if t, ok := o.find(144); ok {
					if f, ok := t.number(); ok {
						a.factors[key(o.word(2))] = f
					}
				}
			case s.name == "BLOCKS" && o.kind == "BLOCK":
				block = key(o.word(2))
				a.name(blockKind, o)
			case s.name == "BLOCKS" && o.kind != "ENDBLK":
				a.filled[block] = true
			}
		}
	}
}

// recordKind is the entry a block has in the tables besides its definition.
const recordKind kind = "block record"

func tableKind(record string) (kind, bool) {
	switch record {
	case "LAYER":
		return layerKind, true
	case "LTYPE":
		return linetypeKind, true
	case "STYLE":
		return styleKind, true
	case "DIMSTYLE":
		return dimStyleKind, true
	case "BLOCK_RECORD":
		return recordKind, true
	}
	return "", false
}

func (a *auditor) name(k kind, o object) {
	n := key(o.word(2))
	if n == "" {
		a.add(MissingEntry, o.line, o.kind, "has no name")
	}
	if a.names[k][n] {
		a.add(DoubleEntry, o.line, o.kind, "%q twice", n)
	}
	a.names[k][n] = true
}

// handleOf returns the handle of an object, zero if it has none.
func (a *auditor) handleOf(o object) handle {
	code := 5
	if o.kind == "DIMSTYLE" {
		code = 105
	}
	h, _ := strconv.ParseUint(o.word(code), 16, 64)
	return handle(h)
}

func (a *auditor) handle(o object) {
	if a.version == AC1009 || o.kind == "ENDTAB" {
		return
	}
	code := 5
	if o.kind == "DIMSTYLE" {
		code = 105
	}
	t, ok := o.find(code)
	if !ok {
		a.add(NoHandle, o.line, o.kind, "no group %d", code)
		return
	}
	h := a.handleOf(o)
	_, taken := a.handles[h]
	switch {
	case h == 0:
		a.add(BadHandle, t.line, o.kind, "handle %q", t.value)
		return
	case taken:
		a.add(DoubleHandle, t.line, o.kind, "handle %v is in use", h)
	case h >= a.seed:
		a.add(HighHandle, t.line, o.kind, "handle %v is not below $HANDSEED %v", h, a.seed)
	}
	a.handles[h] = o
}

func (a *auditor) check(s sectionOf) {
	switch s.name {
	case "TABLES":
		a.tables(s)
	case "BLOCKS":
		a.blocks(s)
	case "ENTITIES":
		a.entities(s.body, "*MODEL_SPACE")
	case "OBJECTS":
		a.objects(s)
	}
}

// owner checks that the object's owner is there and of the given kind.
func (a *auditor) owner(o object, want string) {
	if a.version == AC1009 {
		return
	}
	t, ok := o.find(330)
	h, err := strconv.ParseUint(t.word(), 16, 64)
	if !ok || err != nil {
		a.add(BadOwner, o.line, o.kind, "owner is %q", t.value)
		return
	}
	if want == "" {
		if h != 0 {
			a.add(BadOwner, t.line, o.kind, "owner is %v, must be 0", handle(h))
		}
		return
	}
	if owner, ok := a.handles[handle(h)]; !ok || owner.kind != want {
		a.add(BadOwner, t.line, o.kind, "owner %v is no %s", handle(h), want)
	}
}

// pointers checks the handles an object points to.
func (a *auditor) pointers(o object) {
	for _, t := range o.tags {
		if t.code != 330 && t.code != 340 && t.code != 350 && t.code != 360 && t.code != 390 {
			continue
		}
		h, err := strconv.ParseUint(t.word(), 16, 64)
		if _, ok := a.handles[handle(h)]; err != nil || !ok && h != 0 {
			a.add(BadPointer, t.line, o.kind, "group %d points to %q, which is no object", t.code, t.value)
		}
	}
}

// subclasses checks the markers of an object in their order.
func (a *auditor) subclasses(o object, want ...string) {
	var got []string
	for _, t := range o.tags {
		if t.code == 100 {
			got = append(got, t.word())
		}
	}
	if a.version == AC1009 {
		want = nil
	}
	if !slices.Equal(got, want) {
		a.add(NoSubclass, o.line, o.kind, "markers %s, want %s", strings.Join(got, " "), strings.Join(want, " "))
	}
}

// defined checks that a name an object uses is defined.
func (a *auditor) defined(c Code, k kind, o object, code int) {
	t, ok := o.find(code)
	if !ok {
		return
	}
	n := key(t.word())
	if k == linetypeKind && (n == key(byLayer) || n == key(byBlock)) || k == layerKind && n == "0" ||
		a.version == AC1009 && len(a.names[k]) == 0 && (n == key(continuous) || n == key(standard)) {
		return
	}
	if !a.names[k][n] {
		a.add(c, t.line, o.kind, "%s %q is not defined", k, t.value)
	}
}
