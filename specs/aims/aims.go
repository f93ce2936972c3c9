// Package aims reads what a station is to have least of.
package aims

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"armwright/specs/wording"
)

// Aim is one thing that a station is to have least of.
type Aim struct {
	Term   string  // one of Terms
	Weight float64 // how many times it counts, above 0 to mostWeight
}

// mostWeight is the largest weight of an aim.
const mostWeight = 100.0

// Term is a term by its name in a brief, and what it is.
type Term struct{ Name, What string }

// Terms are what a station may be asked to have least of.
func Terms() []Term {
	return []Term{
		{"length", "base, front to back"},
		{"width", "base, side to side"},
		{"area", "floor that the base takes"},
		{"mass", "all parts but what is lifted"},
		{"misalignment", "elbow off the machine's axis, hand off its path"},
		{"posture", "feet off their height, upper arm off its rest, pad short"},
	}
}

func names() []string {
	var list []string
	for _, t := range Terms() {
		list = append(list, t.Name)
	}
	return list
}

// Parse reads the text of minimise: terms with commas between, each with its weight
// before it where it is not 1. The error is an *Error.
func Parse(text string) ([]Aim, error) {
	var list []Aim
	known := names()
	for _, item := range strings.Split(text, ",") {
		words := strings.Fields(item)
		a := Aim{Weight: 1}
		switch len(words) {
		case 1:
			a.Term = words[0]
		case 2:
			v, err := strconv.ParseFloat(words[0], 64)
			if err != nil || !(v > 0 && v <= mostWeight) || math.IsInf(v, 0) {
				return nil, &Error{Reason: fmt.Sprintf("%s is no weight above 0 to %g", wording.Quote(words[0]), mostWeight)}
			}
			a.Weight, a.Term = v, words[1]
		default:
			return nil, &Error{Reason: fmt.Sprintf("%s is no term", wording.Quote(strings.TrimSpace(item)))}
		}
		if !slices.Contains(known, a.Term) {
			near, _ := wording.Nearest(a.Term, known)
			return nil, &Error{Reason: wording.Quote(a.Term) + " is no term", near: near}
		}
		if slices.ContainsFunc(list, func(b Aim) bool { return b.Term == a.Term }) {
			return nil, &Error{Reason: wording.Quote(a.Term) + " stands there twice"}
		}
		list = append(list, a)
	}
	return list, nil
}

// Default is the text of minimise in a brief that says nothing.
const Default = "length, width, misalignment, posture"

// Error says why the text of minimise cannot be read.
type Error struct {
	Reason string
	near   string // a term that may be meant
}

func (e *Error) Error() string { return e.Reason }

// Hint says how it is written.
func (e *Error) Hint() string {
	hint := "write terms with commas between, a weight before those that do not count once: 2 length, mass; terms: " + strings.Join(names(), ", ")
	if e.near != "" {
		hint = "did you mean " + e.near + "? " + hint
	}
	return hint
}
