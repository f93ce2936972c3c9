package judge

import (
	"testing"

	"armwright/solver/drive"
	"armwright/solver/require"
	"armwright/solver/seat"
	"armwright/solver/solvertest"
	"armwright/specs/people"
)

// What stature, sex and arm length tell serves whom it is told to: of other persons who
// fit the station, nine in ten fit within the told ranges of eight in ten each; how many
// fit at the middle at once is logged.
func TestToldSettingsFit(t *testing.T) {
	for _, name := range []string{"arm-pad-station", "reclined-levers", "reclined-linkage"} {
		t.Run(name, func(t *testing.T) {
			f := solvertest.Frame(t, name)
			f.People.Sample = 4000
			c, err := Cover(f, Random(f.People))
			if err != nil {
				t.Fatal(err)
			}
			var fit []people.Person
			j := judge(t, f)
			others := drive.Population(f.People).Draw(600, 77)
			j.s.cover(&f.Geometry, j.d, &j.st, Persons{All: others, Each: func(p *seat.Person, _ []Shortfall) {
				if p.Fits {
					fit = append(fit, p.Person)
				}
			}})
			m := drive.NewMachine(&f.Geometry)
			sitter := seat.Sitter{Level: j.d.Level}
			rows := &require.Rows{Card: &j.s.Card}
			fits := func(who people.Person, set seat.Setting) bool {
				g := &f.Geometry
				if set.Seat < 0 || set.Axis < 0 || set.Handle < 0 || set.Seat >= g.Seat.Positions || set.Axis >= len(m.Axes) || set.Handle >= g.Handle.Positions {
					return false
				}
				j.s.Receive(&sitter, -1, who, seat.Body(who, j.s.Asked.People, j.s.Asked.Posture.GripRotation))
				rows.List = rows.List[:0]
				j.s.Place(m, &sitter, set, rows)
				return j.s.away(rows.List) == 0
			}
			told, once, within := 0, 0, 0
			for _, who := range fit {
				set, ok := c.Told(&who)
				if !ok {
					continue
				}
				told++
				if fits(who, seat.Setting{Seat: set.Seat.Middle, Axis: set.Axis.Middle, Handle: set.Handle.Middle}) {
					once++
				}
				if func() bool {
					for s := set.Seat.Low; s <= set.Seat.High; s++ {
						for a := set.Axis.Low; a <= set.Axis.High; a++ {
							for h := set.Handle.Low; h <= set.Handle.High; h++ {
								if fits(who, seat.Setting{Seat: s, Axis: a, Handle: h}) {
									return true
								}
							}
						}
					}
					return false
				}() {
					within++
				}
			}
			t.Logf("%d of %d who fit are told a setting; %d fit at it, %d within the ranges", told, len(fit), once, within)
			if told < len(fit)*9/10 || within < told*9/10 {
				t.Errorf("%s: of %d who are told a setting only %d fit within the ranges", name, told, within)
			}
		})
	}
}
