package build

import (
	"errors"
	"testing"

	"armwright/geometry/assembly"
	"armwright/geometry/solid"
	"armwright/geometry/station"
)

// A part shorter than nothing, or a hole over its edge, leaves the whole without an
// assembly and says which it is; sound parts leave it as it is.
func TestPartsWithoutShape(t *testing.T) {
	post := solid.Straight(solid.Rect(60, 60, 0), 500)
	short := solid.Straight(solid.Rect(40, 40, 0), -12)
	torn := post
	torn.Bores = []solid.Bore{{Dir: solid.World().X, Diameter: 20}}
	torn.Bores[0].At.Z = 5
	for name, c := range map[string]struct {
		part  solid.Solid
		fault bool
	}{"sound": {post, false}, "short": {short, true}, "torn": {torn, true}} {
		var b assembly.Builder
		b.Group("frame", -1, nil)
		b.Add(assembly.Part{ID: "post", Solid: post, Place: solid.World(), Density: 1e-6})
		b.Add(assembly.Part{ID: "bracket", Solid: c.part, Place: solid.World(), Density: 1e-6})
		s := Station{Assembly: &b.Assembly, Needs: []station.Need{{ID: "room", Slack: -1}}}
		s.sound()
		var fault *station.ValueError
		switch {
		case c.fault && (s.Assembly != nil || !errors.As(s.Fault, &fault) || fault.Value != "bracket" || fault.Hint == ""):
			t.Errorf("%s: assembly %v, fault %v", name, s.Assembly != nil, s.Fault)
		case !c.fault && (s.Assembly == nil || s.Fault != nil || len(s.Needs) != 1):
			t.Errorf("%s: fault %v", name, s.Fault)
		}
	}
}
