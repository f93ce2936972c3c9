package dxf

import (
	"bytes"
	"math"
	"strconv"
	"strings"
)

// tag is a group: its code, its value as it stands, and the line of its code.
type tag struct {
	code  int
	value string
	line  int
}

const commentCode = 999

// scan splits a file into tags. On a defect it returns the tags before it and
// the error. An empty line after the last tag is no defect.
func scan(data []byte) ([]tag, *SyntaxError) {
	data = bytes.TrimSuffix(data, []byte("\n"))
	if len(data) == 0 {
		return nil, &SyntaxError{Line: 1, Problem: "file is empty"}
	}
	lines := strings.Split(string(data), "\n")
	tags := make([]tag, 0, len(lines)/2)
	for i := 0; i < len(lines); i += 2 {
		at := i + 1
		code := strings.TrimSpace(lines[i])
		n, err := strconv.Atoi(code)
		switch {
		case code == "":
			return tags, &SyntaxError{at, "empty line where a group code is due", "remove the stray line"}
		case err != nil || n < 0 || n > 1071:
			return tags, &SyntaxError{at, "group code " + strconv.Quote(code) + " is not a number from 0 to 1071",
				"a line may be missing or doubled above"}
		case i+1 == len(lines):
			return tags, &SyntaxError{at, "group code without a value", "the file is cut short"}
		}
		tags = append(tags, tag{n, strings.TrimSuffix(lines[i+1], "\r"), at})
	}
	return tags, nil
}

// number parses the value as a finite number.
func (t tag) number() (float64, bool) {
	v, err := strconv.ParseFloat(strings.TrimSpace(t.value), 64)
	return v, err == nil && !math.IsNaN(v) && !math.IsInf(v, 0)
}

// integer parses the value as a whole number.
func (t tag) integer() (int, bool) {
	v, err := strconv.Atoi(strings.TrimSpace(t.value))
	return v, err == nil
}

// word returns the value without outer spaces, as names and keywords have it.
func (t tag) word() string { return strings.TrimSpace(t.value) }

// object is what stands between two groups with code 0: an entity, a table
// record, or a mark of structure such as SECTION.
type object struct {
	kind string
	line int
	tags []tag
}

// objects splits tags at code 0 and leaves out comments, extended data and
// application groups. Tags before the first 0 belong to an object without a
// kind.
func objects(tags []tag) []object {
	var out []object
	group := false // between 102 { and 102 }
	from, to := 0, 0
	for i, t := range tags {
		switch {
		case t.code == commentCode:
		case t.code == 0:
			group = false
			out = append(out, object{kind: key(t.word()), line: t.line})
		case t.code == 102:
			group = strings.HasPrefix(t.value, "{")
		case group || t.code >= 1000:
		default:
			if len(out) == 0 {
				out = append(out, object{line: t.line})
			}
			// Tags that stand together are not copied.
			switch o := &out[len(out)-1]; {
			case len(o.tags) == 0:
				from, to = i, i+1
				o.tags = tags[from:to:to]
			case to == i && len(o.tags) == to-from:
				to++
				o.tags = tags[from:to:to]
			default:
				o.tags = append(o.tags, t)
			}
		}
	}
	return out
}

// find returns the first tag with the code.
func (o object) find(code int) (tag, bool) {
	for _, t := range o.tags {
		if t.code == code {
			return t, true
		}
	}
	return tag{}, false
}

// word returns the first value with the code without outer spaces, or "".
func (o object) word(code int) string {
	t, _ := o.find(code)
	return t.word()
}
