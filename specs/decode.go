package specs

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"armwright/specs/wording"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/token"
)

// The words in the first key of a file, with the version of its format.
const (
	BriefFormat = "brief/1"
	FrameFormat = "frame/1"
)

// ParseBrief reads a brief. The name stands for the file in messages. Keys
// that are absent take their defaults. Anything wrong is a *Problems with all
// faults that could be found, each with line and column.
func ParseBrief(name string, data []byte) (Brief, error) {
	var b Brief
	if err := parse(name, data, &b, &b.Format, BriefFormat, func() []relation { return b.relations() }); err != nil {
		return Brief{}, err
	}
	return b, nil
}

// ParseFrame reads a frame, as ParseBrief reads a brief.
func ParseFrame(name string, data []byte) (Frame, error) {
	var f Frame
	if err := parse(name, data, &f, &f.Format, FrameFormat, func() []relation { return f.relations() }); err != nil {
		return Frame{}, err
	}
	return f, nil
}

// FormatOf tells what a file says it is, BriefFormat or FrameFormat for those
// that ParseBrief and ParseFrame read; empty for one that does not say.
func FormatOf(data []byte) string {
	root, _ := parseSource(data)
	d := &decoder{at: map[string]place{"": {1, 1}}}
	entries, _ := d.entries(root, "", "")
	return textOf(entries, "armwright")
}

// textOf is the text of the first scalar with a key, empty where there is none.
func textOf(entries []*ast.MappingValueNode, key string) string {
	for _, e := range entries {
		if e.Key.GetToken().Value == key {
			text, _ := scalarText(e.Value)
			return text
		}
	}
	return ""
}

// Locate places a problem found after a brief or frame was read: in the file
// that was read from data, at the value of its path, or of the nearest section
// around it that the file holds.
func Locate(name string, data []byte, p Problem) *Problems {
	d := &decoder{file: name, at: map[string]place{"": {1, 1}}}
	if root, bad := parseSource(data); bad == nil && root != nil {
		var f Frame // which has all the keys of a brief
		v := reflect.ValueOf(&f).Elem()
		entries, _ := d.entries(root, "", "")
		d.section(entries, fieldsOf(v.Type()), v, "")
	}
	at := d.nearestPlace(p.Path)
	p.File, p.Line, p.Column = name, at.line, at.column
	return &Problems{List: []Problem{p}}
}

// parse decodes data into the struct at into and checks it.
func parse(name string, data []byte, into any, format *string, want string, relations func() []relation) error {
	d := &decoder{file: name, at: map[string]place{"": {1, 1}}}
	root, bad := parseSource(data)
	switch {
	case bad != nil:
		d.report("", bad.place, &bad.fault)
		return asError(d.problems)
	case root == nil:
		d.report("", place{1, 1}, &fault{"the file is empty", "start from a starter brief or an example"})
		return asError(d.problems)
	}
	v := reflect.ValueOf(into).Elem()
	entries, ok := d.entries(root, "", "start from a starter brief or an example")
	if !ok {
		return asError(d.problems)
	}
	d.region = textOf(entries, "region")
	d.section(entries, fieldsOf(v.Type()), v, "")
	if at, found := d.at["armwright"]; found && !d.bad.covers("armwright") && *format != want {
		// Of another format, so nothing else said about it would be true.
		d.problems = nil
		d.report("armwright", at, &fault{fmt.Sprintf("armwright: this file is %s where %s is due", wording.Quote(*format), want), "write armwright: " + want})
		return asError(d.problems)
	}
	check(v, relations, &d.bad, func(path string, f *fault) { d.report(path, d.nearestPlace(path), f) })
	return asError(d.problems)
}

// decoder sets a tagged struct from a YAML tree, collecting what is wrong.
type decoder struct {
	file     string
	region   string           // whose defaults absent keys take
	at       map[string]place // of the value at each path read
	bad      spoiled
	problems []Problem
}

// report notes a problem that leaves the value at path without meaning.
func (d *decoder) report(path string, at place, f *fault) {
	d.bad.add(path)
	d.note(path, at, f)
}

// note notes a problem that leaves the values as they are.
func (d *decoder) note(path string, at place, f *fault) {
	d.problems = append(d.problems, Problem{d.file, at.line, at.column, path, f.message, f.hint})
}

// nearestPlace is the place of path, or of the nearest section around it.
func (d *decoder) nearestPlace(path string) place {
	for {
		if at, ok := d.at[path]; ok {
			return at
		}
		path = path[:max(strings.LastIndexAny(path, ".["), 0)]
	}
}

// entries returns the key-value pairs of a mapping, none for a key with
// nothing after it.
func (d *decoder) entries(n ast.Node, path, hint string) ([]*ast.MappingValueNode, bool) {
	switch n := n.(type) {
	case *ast.MappingNode:
		return n.Values, true
	case *ast.MappingValueNode:
		return []*ast.MappingValueNode{n}, true
	case *ast.NullNode:
		return nil, true
	}
	d.report(path, d.nearestPlace(path), &fault{label(path) + nodeNoun(n) + " where keys and values are due", hint})
	return nil, false
}

// label is the path as it starts a message.
func label(path string) string {
	if path == "" {
		return ""
	}
	return path + ": "
}

func nodeNoun(n ast.Node) string {
	switch n.(type) {
	case *ast.MappingNode, *ast.MappingValueNode:
		return "keys and values"
	case *ast.SequenceNode:
		return "a list"
	case *ast.NullNode:
		return "nothing"
	}
	return "a single value"
}

// section sets the fields of the struct v from the entries of a mapping.
func (d *decoder) section(entries []*ast.MappingValueNode, fields []field, v reflect.Value, path string) {
	here := d.at[path]
	keys := keysOf(fields)
	seen := make(map[string]place)
	meant := make(map[string]bool) // keys that a misspelt one probably stands for
	for _, e := range entries {
		token := e.Key.GetToken()
		key, at := token.Value, placeOf(token)
		if first, twice := seen[key]; twice {
			d.note(join(path, wording.Clip(key)), at, &fault{fmt.Sprintf("%s: appears twice, first on line %d", join(path, wording.Clip(key)), first.line), "keep one of the two"})
			continue
		}
		seen[key] = at
		i := slices.Index(keys, key)
		if i < 0 {
			f, near := unknownKey(key, path, keys)
			meant[near] = true
			d.note(join(path, wording.Clip(key)), at, f)
			continue
		}
		p := join(path, key)
		d.at[p] = at
		d.value(fields[i], e.Value, v.FieldByIndex(fields[i].index), p)
	}
	for _, f := range fields {
		switch _, ok := seen[f.key]; {
		case ok:
		case meant[f.key]:
			d.bad.add(join(path, f.key))
		default:
			d.absent(f, v.FieldByIndex(f.index), join(path, f.key), here)
		}
	}
}

// unknownKey is the fault of a key that is none of the known ones, and the
// known one it probably stands for, if any.
func unknownKey(key, path string, known []string) (f *fault, near string) {
	f = &fault{"unknown key " + wording.Quote(key), keysHere(known)}
	if path != "" {
		f.message += " in " + path
	}
	near, ok := wording.Nearest(key, known)
	if ok {
		f.hint = "did you mean " + near + "?"
	}
	return f, near
}

func keysHere(keys []string) string { return "keys here: " + strings.Join(keys, ", ") }

// absent gives a field whose key is not in the file its default.
func (d *decoder) absent(f field, v reflect.Value, path string, around place) {
	section, isSection := f.section()
	switch {
	case f.optional:
	case isSection:
		if need := required(section, ""); len(need) > 0 {
			d.report(path, around, &fault{"missing key " + path, "it needs " + listed(need)})
			return
		}
		d.at[path] = around
		d.section(nil, fieldsOf(section), v, path)
	case f.hasDef:
		if err := f.read(f.defaultIn(d.region), v); err != nil {
			panic("specs: default of " + path + ": " + err.Error())
		}
	default:
		d.report(path, around, &fault{"missing key " + path, f.hint()})
	}
}

// hint says what a field without a usable value should hold.
func (f field) hint() string {
	allowed := f.def
	switch {
	case len(f.choice) > 0:
		allowed = strings.Join(f.choice, " or ")
	case allowed == "" && f.min != "":
		allowed = f.min + " to " + f.max
	}
	if f.doc == "" || allowed == "" {
		return f.doc + allowed
	}
	return f.doc + ": " + allowed
}

// value sets the value of one field from its node.
func (d *decoder) value(f field, n ast.Node, v reflect.Value, path string) {
	if section, ok := f.section(); ok {
		entries, ok := d.entries(n, path, keysHere(keysOf(fieldsOf(section))))
		if !ok {
			return
		}
		if v.Kind() == reflect.Pointer {
			v.Set(reflect.New(section))
			v = v.Elem()
		}
		d.section(entries, fieldsOf(section), v, path)
		return
	}
	if f.isList() {
		d.list(f, n, v, path)
		return
	}
	if m, ok := n.(*ast.MappingNode); ok && f.isRange() {
		d.section(m.Values, f.ends(), v, path)
		return
	}
	text, ok := scalarText(n)
	if !ok {
		d.report(path, d.at[path], &fault{label(path) + nodeNoun(n) + " where a single value is due", f.hint()})
		return
	}
	d.at[path] = placeOf(n.GetToken())
	if err := f.read(text, v); err != nil {
		d.report(path, d.at[path], explain(err, f, path))
	}
}

// explain turns an error of reading a scalar into a fault of its path.
func explain(err error, f field, path string) *fault {
	var q *QuantityError
	var other *fault
	message, hint := err.Error(), ""
	switch {
	case errors.As(err, &q):
		message, hint = q.Message, q.Hint
	case errors.As(err, &other):
		hint = other.hint
	}
	if hint == "" {
		hint = f.hint()
	}
	return &fault{label(path) + message, hint}
}

// list sets a slice from a sequence.
func (d *decoder) list(f field, n ast.Node, v reflect.Value, path string) {
	s, ok := n.(*ast.SequenceNode)
	if !ok {
		d.report(path, d.at[path], &fault{label(path) + nodeNoun(n) + " where a list is due", "write one item a line, each after a dash"})
		return
	}
	v.Set(reflect.MakeSlice(f.typ, len(s.Values), len(s.Values)))
	for i, item := range s.Values {
		p := child(path, i)
		d.at[p] = placeOf(firstToken(item))
		d.value(f.item(), item, v.Index(i), p)
	}
}

// firstToken is where a node starts: of a mapping, its first key.
func firstToken(n ast.Node) *token.Token {
	if m, ok := n.(*ast.MappingNode); ok && !m.IsFlowStyle && len(m.Values) > 0 {
		return m.Values[0].Key.GetToken()
	}
	return n.GetToken()
}

// scalarText is the text of a scalar as it was written, so that "007" and
// "1e3" reach a text field unharmed.
func scalarText(n ast.Node) (string, bool) {
	switch n := n.(type) {
	case *ast.StringNode:
		return n.Value, true
	case *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode, *ast.InfinityNode, *ast.NanNode:
		return n.GetToken().Value, true
	}
	return "", false
}
