package assembly

// Floating returns the parts that reach nothing that stands on the floor through
// joints that hold.
func (a *Assembly) Floating() []int {
	root := make([]int, len(a.Parts)+1)
	for i := range root {
		root[i] = i
	}
	find := func(i int) int {
		for root[i] != i {
			root[i] = root[root[i]]
			i = root[i]
		}
		return i
	}
	floor := len(a.Parts)
	for i := range a.Parts {
		if a.Parts[i].Is(Ground) {
			root[i] = floor
		}
	}
	for i := range a.Joints {
		if j := &a.Joints[i]; j.Kind.Holds() {
			root[find(j.A)] = find(j.B)
		}
	}
	var out []int
	for i := range a.Parts {
		if find(i) != find(floor) {
			out = append(out, i)
		}
	}
	return out
}
