package judge

import (
	"armwright/solver/build"
	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/screen"
	"armwright/solver/seat"
	"armwright/specs"
	"armwright/specs/people"
)

// usher seats any persons on one station, one after another. It is for one goroutine at
// a time.
type usher struct {
	s       *Judge
	m       drive.Machine
	beside  *screen.Beside
	sitter  seat.Sitter
	own     require.Rows // of the person seated last
	other   require.Rows
	scratch require.Rows
}

func (s *Judge) usher(g *specs.Geometry, d drive.State, st *build.Station) *usher {
	u := &usher{s: s, m: drive.NewMachine(g), beside: s.Beside(g, st)}
	u.sitter.Level = d.Level
	u.own.Card, u.other.Card, u.scratch.Card = &s.Card, &s.Card, &s.Card
	return u
}

// seat gives a person the setting that suits best, and tells as bits the requirements
// that turn the person away. The body is asked to be clear of arm and frame where
// nothing else turns the person away; where it is not, the other seats are tried.
func (u *usher) seat(who people.Person) (r seat.Person, away uint64) {
	s := u.s
	s.Receive(&u.sitter, -1, who, seat.Body(who, s.Asked.People, s.Asked.Posture.GripRotation))
	low, high := s.NearSeats(u.m, &u.sitter)
	r, away = u.try(low, high, &u.own)
	if away != 0 {
		return r, away
	}
	u.beside.Add(&r, &u.own)
	if away = s.away(u.own.List); away == 0 {
		return r, 0
	}
	for at := low; at <= high; at++ {
		if at == r.Seat {
			continue
		}
		other, not := u.try(at, at, &u.other)
		if not != 0 {
			continue
		}
		if u.beside.Add(&other, &u.other); s.away(u.other.List) == 0 {
			u.own, u.other = u.other, u.own
			return other, 0
		}
	}
	return r, away
}

// try seats the person in the best of some seats, by the person's own rows alone.
func (u *usher) try(low, high int, rows *require.Rows) (seat.Person, uint64) {
	rows.List = rows.List[:0]
	r := u.s.BestIn(u.m, &u.sitter, low, high, rows, &u.scratch)
	return r, u.s.away(rows.List)
}
