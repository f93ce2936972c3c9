package specs

import (
	"reflect"
	"slices"
	"strings"
)

// Form is how the value of a leaf is written.
type Form string

// The forms. A range is two leaves, its ends.
const (
	Quantity Form = "quantity" // a number with the unit of its kind
	Whole    Form = "whole"    // a whole number
	Choice   Form = "choice"   // one of some words
	Text     Form = "text"     // free text
)

// Leaf is one single value of a brief as its tags describe it, for whatever
// shows or varies a brief. Path, unit and texts are those of the file; Set and
// Get take the path. Least and Most are the closed range in the leaf's Unit
// and are both 0 where there is none.
type Leaf struct {
	Path        string // "limits.hand_path", "posture.lean.from"
	Doc         string
	Form        Form
	Kind        Kind
	Unit        string // symbol, empty for a plain number
	Least, Most float64
	Choices     []string
}

// Leaves lists every value of a brief in the order of the file, but for what
// the file says about itself, "armwright".
func Leaves() []Leaf {
	return leaves(nil, fieldsOf(reflect.TypeFor[Brief]())[1:], "")
}

func leaves(out []Leaf, fields []field, path string) []Leaf {
	for _, f := range fields {
		p := join(path, f.key)
		if section, ok := f.section(); ok {
			out = leaves(out, fieldsOf(section), p)
			continue
		}
		if f.isRange() {
			for i, end := range f.ends() {
				end.doc = f.doc + ", " + [...]string{"at least", "at most"}[i]
				out = append(out, end.leaf(join(p, end.key)))
			}
			continue
		}
		out = append(out, f.leaf(p))
	}
	return out
}

func (f field) leaf(path string) Leaf {
	l := Leaf{Path: path, Doc: f.doc, Kind: f.kind, Choices: slices.Clone(f.choice)}
	if f.names != "" {
		l.Choices = KnownNames().list(f.names)
	}
	switch kind := f.typ.Kind(); {
	case kind == reflect.Float64:
		l.Form = Quantity
	case kind == reflect.Int:
		l.Form = Whole
	case len(l.Choices) > 0:
		l.Form = Choice
	default:
		l.Form = Text
	}
	l.Unit = f.symbol()
	if f.min != "" {
		l.Least, l.Most = f.outside(f.min), f.outside(f.max)
	}
	return l
}

// outside is a min or max tag in the unit that is written.
func (f field) outside(text string) float64 {
	x, err := ParseQuantity(strings.TrimSuffix(f.kind.format(f.bound(text)), " "+f.symbol()), Number)
	if err != nil {
		panic("specs: bound of " + f.key + ": " + err.Error())
	}
	return x
}

// symbol is the unit that is written, empty for a plain number.
func (f field) symbol() string {
	if f.kind == Number {
		return ""
	}
	return f.kind.symbols()[0]
}

// Get is the value of a brief at the path of a leaf or of a whole range, as it
// would stand in the file. A path that leads to no value is a *Problems.
func (b Brief) Get(path string) (string, error) {
	p, err := find(reflect.ValueOf(&b).Elem(), path)
	if err != nil {
		return "", err
	}
	return p.field.write(p.at), nil
}
