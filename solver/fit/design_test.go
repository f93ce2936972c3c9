package fit

import (
	"reflect"
	"strings"
	"testing"

	"armwright/solver/judge"
	"armwright/solver/solvertest"
	"armwright/specs"
	"armwright/testdata"
)

// A drive that is remembered is the drive that would be designed: with every value
// of the brief and every variable of the geometry moved in turn, a program that
// remembers the designs of all before gives what one that remembers none does. A
// linkage, which takes long, has only the values of the resistance moved.
func TestDesignsRememberWhatTheyHangOn(t *testing.T) {
	testdata.Long(t)
	for _, name := range []string{"arm-pad-station", "reclined-levers", "reclined-linkage"} {
		t.Run(name, func(t *testing.T) {
			b := solvertest.Brief(t, name)
			known, err := NewProgram(&b.Asked)
			if err != nil {
				t.Fatal(err)
			}
			g := known.begin(2)
			if _, err := known.Design(judge.Clone(g)); err != nil {
				t.Fatal(err)
			}
			compared := 0
			compare := func(what string, b *specs.Brief, g *specs.Geometry) {
				t.Helper()
				again, err := known.Like(&b.Asked)
				if err != nil {
					t.Fatal(err)
				}
				fresh, err := NewProgram(&b.Asked)
				if err != nil {
					t.Fatal(err)
				}
				one, other := judge.Clone(g), judge.Clone(g)
				d, err := again.Design(one)
				e, wrong := fresh.Design(other)
				if (err == nil) != (wrong == nil) || err == nil && (!reflect.DeepEqual(d, e) || !reflect.DeepEqual(one, other)) {
					t.Errorf("%s: remembered %v, designed %v", what, err, wrong)
				}
				compared++
			}
			for _, l := range specs.Leaves() {
				if b.Resistance.Drive == "linkage" && !strings.HasPrefix(l.Path, "resistance.") {
					continue
				}
				moved := b
				switch s, ok := moved.Span(l.Path); {
				case ok && s.Whole() && s.Value < s.Most:
					s.Set(s.Value + 1)
				case ok:
					s.Set(s.Value + (s.Most-s.Value)/50)
				case len(l.Choices) > 0:
					from, err := moved.Get(l.Path)
					if err != nil {
						t.Fatal(err)
					}
					for _, to := range l.Choices {
						if to != from && moved.Set(l.Path, to) == nil {
							break
						}
					}
				}
				if moved.Kind == b.Kind && moved.Validate() == nil {
					compare(l.Path, &moved, g)
				}
			}
			for i, v := range known.Variables(g) {
				other := judge.Clone(g)
				*known.Variables(other)[i].at += v.scale / 10
				compare(v.Name, &b, other)
			}
			if compared < 30 {
				t.Errorf("only %d compared", compared)
			}
		})
	}
}
