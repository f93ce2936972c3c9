package stock

// Play of a tube that slides in another, mm, both sides together. Liners of plastic
// take up what is more than running play (common practice, no source).
const leastPlay, mostPlay = 1.0, 20.0

// Within returns the tube of the same system that slides in another with the least
// play; ok is false where stock has none. Of two as large, it is the one with the
// thicker wall up to that of the outer tube.
func Within(outer Section) (inner Section, ok bool) {
	room := outer.H - 2*outer.Full
	return sliding(outer, func(s Section) bool { return fits(room-s.H) && s.Full <= outer.Full+0.5 }, func(s, than Section) bool {
		return s.H > than.H || s.H == than.H && s.Full > than.Full
	})
}

// Around returns the tube of the same system that slides on another, with the
// least play.
func Around(inner Section) (outer Section, ok bool) {
	return sliding(inner, func(s Section) bool { return fits(s.H - 2*s.Full - inner.H) }, func(s, than Section) bool {
		return s.H-2*s.Full < than.H-2*than.Full || s.H-2*s.Full == than.H-2*than.Full && s.Mass < than.Mass
	})
}

func fits(play float64) bool { return play >= leastPlay && play <= mostPlay }

func sliding(other Section, fit func(Section) bool, better func(s, than Section) bool) (best Section, ok bool) {
	for _, s := range members() {
		if !s.Square() || Inch(s.Name) != Inch(other.Name) || !fit(s) {
			continue
		}
		if !ok || better(s, best) {
			best, ok = s, true
		}
	}
	return best, ok
}
