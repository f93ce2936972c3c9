package specs

import (
	"reflect"
	"strings"
)

// Set changes one value of a brief by its path, "limits.hand_path" or
// "posture.lean.to", reading the text as it would stand in the file. A path or
// text that cannot be used is a *Problems and leaves the brief as it was;
// whether the brief still holds together is for Validate to say. To change the
// same values many times, see Vary.
func (b *Brief) Set(path, text string) error {
	p, err := find(reflect.ValueOf(b).Elem(), path)
	if err != nil {
		return err
	}
	return p.read(strings.TrimSpace(text))
}

// read sets the place's value from text, or leaves it as it was.
func (p *Place) read(text string) error {
	set := reflect.New(p.at.Type()).Elem()
	if err := p.field.read(text, set); err != nil {
		return asError([]Problem{explain(err, p.field, p.path).at(p.path)})
	}
	p.at.Set(set)
	return nil
}

// at is the fault as a problem of the value at path, without a place in a file.
func (f *fault) at(path string) Problem {
	return Problem{Path: path, Message: f.message, Hint: f.hint}
}
