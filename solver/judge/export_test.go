package judge

import "armwright/specs"

// Check judges a frame with random persons for coverage.
func Check(f specs.Frame) (*Result, error) { return CheckPeople(f, Random(f.People)) }
