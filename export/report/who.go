package report

import "armwright/specs/people"

// Short is the name of a boundary person without what it stands for, for tables beside
// which that is told: "woman 22" of "woman 22 (small, long trunk)". Any other name stays
// as it is.
func Short(label string) string {
	name, _ := people.CutLabel(label)
	return name
}

// Meaning tells what a boundary person stands for in plain words, empty of any other
// name.
func Meaning(label string) string {
	_, build := people.CutLabel(label)
	return build
}
