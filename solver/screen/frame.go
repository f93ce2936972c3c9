package screen

import (
	"math"
	"slices"

	"armwright/geometry/assembly"
	"armwright/geometry/person"
	"armwright/geometry/station"
	"armwright/solver/drive"
	"armwright/solver/require"
)

// needSlots is how many rows a search keeps for what parts need of each other: more
// than there are kinds of needs.
const needSlots = 96

// unbuildable is by how much, mm, what cannot be built at all misses each need.
const unbuildable = 1e3

// frame adds a row for each thing that parts need so that they can be made, held
// and moved. In a search the number of rows stays the same: each need has a place of
// its own, and those that a station has not are met by far.
func (s *Screen) frame(sc *Scene, out *require.Rows, known Memory) {
	st := sc.Station
	if st.Assembly == nil {
		w := out.Add("frame-clear", -1, -unbuildable)
		if !out.Quiet && st.Fault != nil {
			out.Named(w, "%v", st.Fault)
		}
	}
	if !known.Fixed() {
		for _, n := range st.Needs {
			w := out.Add("frame-clear", -1, n.Slack)
			if !out.Quiet {
				out.Named(w, "%s", words(n.ID))
			}
		}
		return
	}
	shop := known.Workshop()
	var slack [needSlots]float64
	for i := range slack {
		slack[i] = farAway
		if st.Assembly == nil {
			slack[i] = -unbuildable
		}
	}
	turn := 0
	for _, n := range st.Needs {
		if n.Late {
			continue
		}
		i := shop.slots.of(n.ID, turn)
		turn++
		slack[i] = min(slack[i], n.Slack)
	}
	if st.Assembly != nil { // as many rows as when nothing could be built
		out.Add("frame-clear", -1, farAway)
	}
	for _, v := range slack {
		out.Add("frame-clear", -1, v)
	}
}

// of is the place of a need that is told of at a turn.
func (s *slots) of(id string, turn int) int {
	if turn < len(s.order) && s.ids[s.order[turn]] == id {
		return s.order[turn]
	}
	i := slices.Index(s.ids, id)
	if i < 0 {
		i = len(s.ids)
		s.ids = append(s.ids, id)
	}
	if turn == len(s.order) {
		s.order = append(s.order, i)
	} else if turn < len(s.order) {
		s.order[turn] = i
	}
	return i
}

// words are an id as people read it.
func words(id string) string {
	b := []byte(id)
	for i := range b {
		if b[i] == '-' {
			b[i] = ' '
		}
	}
	return string(b)
}

// bodyReach is how far off a part counts as near a body in a check, mm.
const bodyReach = 60.0

// bodies adds, for every boundary person, the least gap between the person's trunk,
// head and legs and all parts that they are not meant to touch. What moves with the
// arms is told by body-gap.
func (s *Screen) bodies(sc *Scene, out *require.Rows, known Memory) {
	if sc.Station.Assembly == nil {
		for i := range sc.seated {
			out.Add("body-frame", i, -unbuildable)
		}
		return
	}
	m := drive.NewMachine(sc.Geometry)
	shop := known.Workshop()
	around := &shop.around
	ready, follow := false, shop.follows(sc, known)
	most := bodyReach
	if _, enough := known.BodyGap(0); !math.IsInf(enough, 1) { // nor need these be known from somewhere on
		k := s.KindOf("body-frame")
		most = s.Limits[k] + 4*s.Kinds[k].Scale
	}
	if len(shop.nearest) != len(sc.seated) {
		shop.nearest = make([]person.Closest, len(sc.seated))
	}
	for i := range sc.seated {
		if known.Recall(OfBodyFrame, i, out) {
			continue
		}
		if !ready {
			around.Reset(sc.Station.Assembly, station.Contacts(), s.Angles[:1])
			ready = true
		}
		first := len(out.List)
		sizes, pose, positions := s.Figure(m, &sc.seated[i])
		at := &shop.nearest[i]
		if follow && at.Part >= 0 {
			out.Add("body-frame", i, around.Follow(&sizes, &pose, positions, at))
			continue
		}
		reach := min(most, out.Below("body-frame"))
		near := around.Seated(&sizes, &pose, positions, reach)
		if near.Part < 0 && reach < most {
			continue // it cannot govern
		}
		w := out.Add("body-frame", i, near.Gap)
		if !out.Quiet && near.Part >= 0 {
			p := &sc.Station.Assembly.Parts[near.Part]
			out.Named(w, "%v to %s%s", near.Segment, p.Title, sideNote(p.Side))
		}
		if !known.Near() {
			*at = near
		}
		known.Keep(OfBodyFrame, i, out.List[first:])
	}
}

func sideNote(s assembly.Side) string {
	if s == assembly.Middle {
		return ""
	}
	return ", " + s.String()
}
