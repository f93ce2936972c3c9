package solid

import (
	"fmt"

	"armwright/geometry/solid"
)

// Model is what is written: parts, each with a body and a place.
type Model struct {
	Name   string // of the whole, also that of its product: never a part's id
	Number string // of the document or brief, may be empty
	Notice string // stands in the file's description
	// Stamp is the time in the header, as 2006-01-02T15:04:05. Empty stands for
	// a fixed date, so that files do not differ by when they were made.
	Stamp string
	Parts []Part
}

// Part is one product of the assembly.
type Part struct {
	ID     string // of the product, unique in the model
	Title  string // what it is called, may be empty
	Solid  Body
	At     solid.Placement // in the assembly's frame, mm
	Colour Colour
}

// Body is what has a boundary: every solid.Solid, and the balls, capsules and
// rounds of a person.
type Body interface{ Shell() *solid.Shell }

// Colour is a colour of the sRGB space, each value 0 to 1.
type Colour struct{ R, G, B float64 }

// Error tells why a model cannot be written.
type Error struct {
	Part   string // its id, or empty
	Defect string
	Hint   string
}

func (e *Error) Error() string {
	if e.Part == "" {
		return fmt.Sprintf("solid: %s: %s", e.Defect, e.Hint)
	}
	return fmt.Sprintf("solid: part %q: %s: %s", e.Part, e.Defect, e.Hint)
}

func (m *Model) validate() error {
	if m.Name == "" {
		return &Error{Defect: "the model has no name", Hint: "name it after the brief"}
	}
	if len(m.Parts) == 0 {
		return &Error{Defect: "the model has no parts", Hint: "give at least one"}
	}
	seen := map[string]bool{m.Name: true}
	for _, p := range m.Parts {
		if p.ID == "" || seen[p.ID] {
			return &Error{Part: p.ID, Defect: "the id is empty or used twice", Hint: "each part, and the model, has an id of its own"}
		}
		seen[p.ID] = true
		for _, c := range [...]float64{p.Colour.R, p.Colour.G, p.Colour.B} {
			if !(c >= 0 && c <= 1) {
				return &Error{Part: p.ID, Defect: "the colour is out of range", Hint: "values run from 0 to 1"}
			}
		}
	}
	return nil
}
