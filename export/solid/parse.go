package solid

import (
	"bytes"
	"strconv"

	"gonum.org/v1/gonum/spatial/r3"
)

// file is the DATA section of an ISO 10303-21 file of Write's kind.
type file struct {
	entities []entity // by number, 1 the first; in the file they are in order
}

// entity is one instance: its name (of a combined one the names joined by +) and
// its parameters.
type entity struct {
	name string
	args []value
	refs []int // all references among the parameters, in order
}

// value is one parameter.
type value struct {
	kind   byte // '#' reference, 'n' number, 's' string, '.' enumeration, '(' list, '$', '*', 't' typed
	ref    int
	number float64
	text   string
	list   []value
}

// parser reads one instance.
type parser struct {
	in    []byte
	at    int
	wrong bool
	depth int
}

const (
	opening = "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION("
	middle  = "ENDSEC;\nDATA;\n"
	closing = "ENDSEC;\nEND-ISO-10303-21;\n"
)

func parse(in []byte) (*file, error) {
	start := bytes.Index(in, []byte(middle))
	if !bytes.HasPrefix(in, []byte(opening)) || start < 0 || !bytes.HasSuffix(in, []byte(closing)) {
		return nil, fault(0, "it does not begin and end as ISO 10303-21 asks")
	}
	for _, must := range [...]string{"FILE_NAME(", "FILE_SCHEMA("} {
		if !bytes.Contains(in[:start], []byte(must)) {
			return nil, fault(0, "the header has no %s...)", must)
		}
	}
	data := in[start+len(middle) : len(in)-len(closing)]
	f := &file{entities: make([]entity, 1, 1+bytes.Count(data, []byte("\n")))}
	var refs []int
	for len(data) > 0 {
		end := bytes.IndexByte(data, '\n')
		if end < 0 {
			return nil, fault(len(f.entities), "the line has no end")
		}
		p := parser{in: data[:end]}
		data = data[end+1:]
		e := p.entity(len(f.entities))
		if p.wrong || p.at != len(p.in) {
			return nil, fault(len(f.entities), "not an instance, or out of order: %.60q", p.in)
		}
		start := len(refs)
		refs = collect(e.args, refs)
		e.refs = refs[start:]
		f.entities = append(f.entities, e)
	}
	return f, nil
}

func (p *parser) peek() byte {
	if p.at < len(p.in) {
		return p.in[p.at]
	}
	return 0
}

func (p *parser) take(c byte) bool {
	if p.peek() == c {
		p.at++
		return true
	}
	return false
}

func (p *parser) expect(c byte) {
	if !p.take(c) {
		p.wrong = true
	}
}

func (p *parser) word() string {
	start := p.at
	for c := p.peek(); c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '_'; c = p.peek() {
		p.at++
	}
	p.wrong = p.wrong || p.at == start
	return string(p.in[start:p.at])
}

func (p *parser) entity(number int) entity {
	p.expect('#')
	if n, err := strconv.Atoi(p.word()); err != nil || n != number {
		p.wrong = true
	}
	p.expect('=')
	var e entity
	if p.take('(') {
		for !p.wrong && !p.take(')') {
			if e.name != "" {
				e.name += "+"
			}
			e.name += p.word()
			e.args = append(e.args, p.list()...)
		}
	} else {
		e.name = p.word()
		e.args = p.list()
	}
	p.expect(';')
	return e
}

// deepest is how many lists may lie in each other: some more than Write's do.
const deepest = 20

func (p *parser) list() []value {
	p.expect('(')
	if p.depth++; p.depth > deepest {
		p.wrong = true
	}
	defer func() { p.depth-- }()
	if p.wrong || p.take(')') {
		return nil
	}
	var out []value
	for {
		out = append(out, p.value())
		if !p.take(',') || p.wrong {
			break
		}
	}
	p.expect(')')
	return out
}

func (p *parser) value() value {
	c := p.peek()
	switch {
	case c == '#':
		p.at++
		n, err := strconv.Atoi(p.word())
		p.wrong = p.wrong || err != nil
		return value{kind: '#', ref: n}
	case c == '(':
		return value{kind: '(', list: p.list()}
	case c == '\'':
		return value{kind: 's', text: p.text()}
	case c == '.':
		p.at++
		v := value{kind: '.', text: p.word()}
		p.expect('.')
		return v
	case c == '$' || c == '*':
		p.at++
		return value{kind: c}
	case c == '-' || c >= '0' && c <= '9':
		start := p.at
		for bytes.IndexByte([]byte("-+.E0123456789"), p.peek()) >= 0 && p.peek() != 0 {
			p.at++
		}
		x, err := strconv.ParseFloat(string(p.in[start:p.at]), 64)
		p.wrong = p.wrong || err != nil
		return value{kind: 'n', number: x}
	default:
		return value{kind: 't', text: p.word(), list: p.list()}
	}
}

// text reads a string as written, but for doubled apostrophes.
func (p *parser) text() string {
	p.at++
	var out []byte
	for p.at < len(p.in) {
		c := p.in[p.at]
		p.at++
		if c == '\'' && !p.take('\'') {
			return string(out)
		}
		if c < ' ' || c > '~' {
			break
		}
		out = append(out, c)
	}
	p.wrong = true
	return ""
}

// collect lists the references among values.
func collect(vs []value, out []int) []int {
	for i := range vs {
		switch vs[i].kind {
		case '#':
			out = append(out, vs[i].ref)
		case '(', 't':
			out = collect(vs[i].list, out)
		}
	}
	return out
}

// same reports a sense, the last parameter of an entity.
func (e *entity) same() bool { return len(e.args) > 0 && e.args[len(e.args)-1].text == "T" }

// triple returns the numbers of a point or direction.
func (f *file) triple(n int) r3.Vec {
	if a := f.entities[n].args; len(a) == 2 && len(a[1].list) == 3 {
		l := a[1].list
		return r3.Vec{X: l[0].number, Y: l[1].number, Z: l[2].number}
	}
	return r3.Vec{}
}

// number returns parameter i, 0 if there is none.
func (e *entity) number(i int) float64 {
	if i < len(e.args) {
		return e.args[i].number
	}
	return 0
}
