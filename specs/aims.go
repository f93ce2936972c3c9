package specs

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Aim is one thing that a station is to have least of.
type Aim struct {
	Term   string  // one of AimTerms
	Weight float64 // how many times it counts, above 0 to mostWeight
}

// mostWeight is the largest weight of an aim.
const mostWeight = 100.0

// AimTerm is a term by its name in a brief, and what it is.
type AimTerm struct{ Name, What string }

// AimTerms are what a station may be asked to have least of.
func AimTerms() []AimTerm {
	return []AimTerm{
		{"length", "base, front to back"},
		{"width", "base, side to side"},
		{"area", "floor that the base takes"},
		{"mass", "all parts but what is lifted"},
		{"misalignment", "elbow off the machine's axis, hand off its path"},
		{"posture", "feet off their height, upper arm off its rest, pad short"},
	}
}

func aimNames() []string {
	var list []string
	for _, t := range AimTerms() {
		list = append(list, t.Name)
	}
	return list
}

// ParseAims reads the text of minimise: terms with commas between, each with its weight
// before it where it is not 1. The error is an *AimError.
func ParseAims(text string) ([]Aim, error) {
	var list []Aim
	names := aimNames()
	for _, item := range strings.Split(text, ",") {
		words := strings.Fields(item)
		a := Aim{Weight: 1}
		switch len(words) {
		case 1:
			a.Term = words[0]
		case 2:
			v, err := strconv.ParseFloat(words[0], 64)
			if err != nil || !(v > 0 && v <= mostWeight) || math.IsInf(v, 0) {
				return nil, &AimError{Reason: fmt.Sprintf("%s is no weight above 0 to %g", quote(words[0]), mostWeight)}
			}
			a.Weight, a.Term = v, words[1]
		default:
			return nil, &AimError{Reason: fmt.Sprintf("%s is no term", quote(strings.TrimSpace(item)))}
		}
		if !slices.Contains(names, a.Term) {
			near, _ := nearest(a.Term, names)
			return nil, &AimError{Reason: quote(a.Term) + " is no term", near: near}
		}
		if slices.ContainsFunc(list, func(b Aim) bool { return b.Term == a.Term }) {
			return nil, &AimError{Reason: quote(a.Term) + " stands there twice"}
		}
		list = append(list, a)
	}
	return list, nil
}

// Aims are what the brief asks for the least of; those of a brief that says nothing
// where its text cannot be read, which a parsed brief's always can.
func (b *Brief) Aims() []Aim {
	if list, err := ParseAims(b.Minimise); err == nil {
		return list
	}
	list, err := ParseAims(DefaultAims)
	if err != nil {
		panic("specs: " + err.Error())
	}
	return list
}

// DefaultAims is the text of minimise in a brief that says nothing.
const DefaultAims = "length, width, misalignment, posture"

// AimError says why the text of minimise cannot be read.
type AimError struct {
	Reason string
	near   string // a term that may be meant
}

func (e *AimError) Error() string { return e.Reason }

// Hint says how it is written.
func (e *AimError) Hint() string {
	hint := "write terms with commas between, a weight before those that do not count once: 2 length, mass; terms: " + strings.Join(aimNames(), ", ")
	if e.near != "" {
		hint = "did you mean " + e.near + "? " + hint
	}
	return hint
}
