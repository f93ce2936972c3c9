package specs

import (
	"bytes"
	"io"
	"reflect"
	"strings"
)

// WriteFrame writes a frame so that ParseFrame reads f.Quantised() back
// exactly. The bytes depend on f alone. A frame that would not be read back,
// because a value is out of range or not finite, is a *Problems and nothing
// is written.
func WriteFrame(w io.Writer, f Frame) error {
	q := f.Quantised()
	return write(w, q.Validate(), reflect.ValueOf(q))
}

// WriteBrief writes a brief so that ParseBrief reads b.Quantised() back
// exactly, under the same conditions as WriteFrame.
func WriteBrief(w io.Writer, b Brief) error {
	q := b.Quantised()
	return write(w, q.Validate(), reflect.ValueOf(q))
}

// write encodes a quantised struct unless it is known to be invalid.
func write(w io.Writer, invalid error, v reflect.Value) error {
	if invalid != nil {
		return invalid
	}
	_, err := w.Write(encode(v))
	return err
}

// Quantised returns the frame as it is read back after it was written: every
// length to 1e-4 mm, every angle to 1e-6 degrees, everything else to six
// significant digits. Quantising twice changes nothing. The result shares no
// memory with f. Values that are not finite stay as they are.
func (f Frame) Quantised() Frame {
	return quantised(reflect.ValueOf(f)).Interface().(Frame)
}

// Quantised returns the brief as it is read back after it was written.
func (b Brief) Quantised() Brief {
	return quantised(reflect.ValueOf(b)).Interface().(Brief)
}

// quantised copies a tagged struct, passing every scalar through its text.
// That makes it a fixed point by construction: a text such as "30.5 deg" is
// read to a float64 whose distance from 30.5 degrees is some 1e-16 of it, so
// writing it again rounds to the same text.
func quantised(v reflect.Value) reflect.Value {
	out := reflect.New(v.Type()).Elem()
	for _, f := range fieldsOf(v.Type()) {
		quantise(f, v.FieldByIndex(f.index), out.FieldByIndex(f.index))
	}
	return out
}

func quantise(f field, v, out reflect.Value) {
	switch _, section := f.section(); {
	case section && v.Kind() == reflect.Pointer:
		if !v.IsNil() {
			out.Set(reflect.New(v.Type().Elem()))
			out.Elem().Set(quantised(v.Elem()))
		}
	case section:
		out.Set(quantised(v))
	case f.isList():
		out.Set(reflect.MakeSlice(v.Type(), v.Len(), v.Len()))
		for i := range v.Len() {
			quantise(f.item(), v.Index(i), out.Index(i))
		}
	case f.isRange():
		for _, end := range f.ends() {
			quantise(end, v.FieldByIndex(end.index), out.FieldByIndex(end.index))
		}
	case v.Kind() == reflect.Float64 && isFinite(v.Float()):
		if err := f.read(f.write(v), out); err != nil {
			panic("specs: cannot read back " + f.key + ": " + err.Error())
		}
	default:
		out.Set(v)
	}
}

// encode is the text of a tagged struct with a short comment on each key.
func encode(v reflect.Value) []byte {
	var e encoder
	e.section(v, "", "")
	return e.Bytes()
}

type encoder struct {
	bytes.Buffer
	spans map[string]span // where the pieces of these paths stand, filled in on the way
}

// span is a stretch of bytes.
type span struct{ from, to int }

// indentStep is one level of the file.
const indentStep = "  "

func (e *encoder) section(v reflect.Value, path, indent string) {
	for _, f := range fieldsOf(v.Type()) {
		e.field(f, v.FieldByIndex(f.index), join(path, f.key), indent)
	}
}

func (e *encoder) field(f field, v reflect.Value, path, indent string) {
	if _, section := f.section(); section {
		if v.Kind() == reflect.Pointer {
			if v.IsNil() {
				return
			}
			v = v.Elem()
		}
		if indent == "" {
			e.WriteByte('\n')
		}
		e.line(indent+f.key+":", piece{}, f.doc)
		e.section(v, path, indent+indentStep)
		return
	}
	if !f.isList() {
		e.line(indent+f.key+": ", piece{path, f, v}, f.doc)
		return
	}
	if v.Len() == 0 {
		e.line(indent+f.key+": []", piece{}, f.doc)
		return
	}
	e.line(indent+f.key+":", piece{}, f.doc)
	for i := range v.Len() {
		e.line(indent+indentStep+"- ", piece{child(path, i), f.item(), v.Index(i)}, "")
	}
}

// line writes one line with doc as its comment.
func (e *encoder) line(text string, p piece, doc string) {
	e.WriteString(text)
	if p.path != "" {
		from := e.Len()
		e.WriteString(p.text())
		if _, wanted := e.spans[p.path]; wanted {
			e.spans[p.path] = span{from, e.Len()}
		}
	}
	if doc != "" {
		e.WriteString("  # " + shortened(doc))
	}
	e.WriteByte('\n')
}

// text is the piece as YAML, an item with keys as a mapping in braces.
func (p piece) text() string {
	if _, section := p.field.section(); !section {
		return p.field.scalar(p.at)
	}
	var pairs []string
	for _, in := range fieldsOf(p.at.Type()) {
		pairs = append(pairs, in.key+": "+in.scalar(p.at.FieldByIndex(in.index)))
	}
	return "{" + strings.Join(pairs, ", ") + "}"
}

// longestComment is how long a comment at the end of a line may be before it
// is cut to its first clause.
const longestComment = 60

func shortened(doc string) string {
	if i := strings.IndexAny(doc, ",;:("); i >= 0 && len(doc) > longestComment {
		return strings.TrimSpace(doc[:i])
	}
	return doc
}

// scalar is the text of a scalar as YAML: free text in quotes, words,
// numbers and quantities plain.
func (f field) scalar(v reflect.Value) string {
	text := f.write(v)
	if v.Kind() == reflect.String && len(f.choice) == 0 {
		return quoted(text)
	}
	return text
}

// quoted is a YAML double-quoted scalar. Text fields hold printing characters
// only, so the quote and the backslash are all there is to escape.
func quoted(text string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(text) + `"`
}
