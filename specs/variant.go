package specs

import (
	"reflect"
	"slices"
	"strings"
)

// Variant is a brief or a frame of which a few values are changed again and
// again, as a study does: setting them and printing the whole costs little
// more than those values. It is not safe for use by several goroutines at a
// time; make one for each.
type Variant[T Brief | Frame] struct {
	value  *T
	places []*Place
	pieces []piece  // that hold the places, in the order of the file
	text   [][]byte // around the pieces, one more than those
}

// Vary returns the variant of a valid brief or frame with the values at the
// paths to change. The base is taken as it would be read back from its file and
// is not touched. A path that leads to no value, or appears twice, is a
// *Problems.
func Vary[T Brief | Frame](base T, paths ...string) (*Variant[T], error) {
	own := quantised(reflect.ValueOf(base)).Interface().(T)
	v := &Variant[T]{value: &own}
	root := reflect.ValueOf(v.value).Elem()
	e := encoder{spans: map[string]span{}}
	for i, path := range paths {
		p, err := find(root, path)
		if err != nil {
			return nil, err
		}
		if slices.Contains(paths[:i], path) {
			return nil, asError([]Problem{(&fault{path + ": named twice", "give all its values in one place"}).at(path)})
		}
		v.places = append(v.places, p)
		if _, known := e.spans[p.piece.path]; !known {
			e.spans[p.piece.path] = span{}
			v.pieces = append(v.pieces, p.piece)
		}
	}
	e.section(root, "", "")
	slices.SortFunc(v.pieces, func(a, b piece) int { return e.spans[a.path].from - e.spans[b.path].from })
	last := 0
	for _, p := range v.pieces {
		v.text = append(v.text, e.Bytes()[last:e.spans[p.path].from])
		last = e.spans[p.path].to
	}
	v.text = append(v.text, e.Bytes()[last:])
	return v, nil
}

// Places are the values that change, in the order of the paths given.
func (v *Variant[T]) Places() []*Place { return v.places }

// Value is the brief or frame as it stands. It changes with the next Set.
func (v *Variant[T]) Value() *T { return v.value }

// Set gives every place its text, in the order of the places, and says whether
// the values of the file still hold together. Each text must have passed the
// place's Check. The error is a *Problems.
func (v *Variant[T]) Set(texts []string) error {
	for i, p := range v.places {
		if err := p.read(strings.TrimSpace(texts[i])); err != nil {
			return err
		}
	}
	var list []Problem
	for _, r := range any(v.value).(interface{ relations() []relation }).relations() {
		if !r.holds {
			list = append(list, (&fault{r.path + ": " + r.message, r.hint}).at(r.path))
		}
	}
	return asError(list)
}

// AppendText appends the file as WriteBrief or WriteFrame would write it.
func (v *Variant[T]) AppendText(to []byte) []byte {
	for i, p := range v.pieces {
		to = append(to, v.text[i]...)
		to = append(to, p.text()...)
	}
	return append(to, v.text[len(v.pieces)]...)
}
