// Package erection draws sheets 3xx: how the station is put together of its weldments
// and parts, step by step, and the sheet on which the finished station is inspected.
//
// A unit is what comes to the bench as one: a weldment, or a part that is welded to
// nothing. Which step a unit belongs to follows from what it is and moves with; each is
// joined to one that stands before it, so that the joints decide where it goes on, in
// which order within a step, and which fasteners the step takes.
package erection

import (
	"slices"
	"strings"

	"armwright/geometry/assembly"

	"gonum.org/v1/gonum/spatial/r3"
)

// Step is one step of the assembly.
type Step struct {
	Title    string
	Units    []Unit // in the order in which they are put on
	Flexible []int
	Joints   []int    // that are made: of units of this step with each other and with what stands
	Checks   []string // what to do and to look at
}

// Unit is what is put on as one.
type Unit struct {
	Parts []int // a weldment's, or one
	On    int   // joint by which it goes on; -1 for the first
}

// stage is a kind of step: what belongs to it, and what is looked at when it is done.
type stage struct {
	title  string
	holds  func(p *assembly.Part, group string, u *unit) bool
	checks []string
}

// unit is a unit with what decides about it.
type unit struct {
	parts []int
	lead  int // the heaviest part
	stage int
	items map[string]bool
}

func (u *unit) has(prefixes ...string) bool {
	for item := range u.items {
		for _, p := range prefixes {
			if strings.HasPrefix(item, p) {
				return true
			}
		}
	}
	return false
}

// stages are the steps in their order. The first that holds a unit has it.
func stages() []stage {
	group := func(prefixes ...string) func(string) bool {
		return func(id string) bool {
			return slices.ContainsFunc(prefixes, func(p string) bool { return strings.HasPrefix(id, p) })
		}
	}
	soft := func(p *assembly.Part) bool {
		return p.Stock.Form == assembly.Board || p.Stock.Form == assembly.Foam
	}
	return []stage{
		{"Frame and feet", func(p *assembly.Part, g string, u *unit) bool {
			return g == "frame" && !soft(p) && (u.has("rail", "cross") || p.Is(assembly.Ground) || capped(u) && !u.has("tower-top"))
		}, []string{
			"Level the frame with the feet on a flat floor, then lock their nuts.",
			"Check that the posts stand plumb both ways, and that both index plates lie in one plane: a straightedge laid across both touches all along.",
		}},
		{"Guide rods and stack", func(p *assembly.Part, _ string, u *unit) bool {
			return p.Is(assembly.Rises) || u.has("guide-rod", "stack-buffer")
		}, []string{
			"Put buffers, guide rods and plates in from above, the top plate last; then the selector bar with its pin.",
			"Check that the stack slides down the whole length of the rods by its own weight, and that the pin goes into every plate.",
		}},
		{"Tower top and sheaves", func(p *assembly.Part, g string, u *unit) bool {
			return u.has("tower-top") || g == "frame" && u.has("sheave")
		}, []string{"Check that every sheave turns freely by hand and stands in the plane of its neighbour: a taut string lies in both grooves."}},
		{"Swivel brackets", func(p *assembly.Part, g string, u *unit) bool {
			return group("swivel")(g) && !p.Is(assembly.Guard) && !u.has("guard") && !bearing(u)
		}, []string{
			"Put the brackets on the index plates with the screws finger-tight, set the middle hole, then tighten.",
			"Check that the pin goes in freely in every hole, and that the bracket does not rock on the plate.",
		}},
		{"Bearings and shafts", func(p *assembly.Part, g string, u *unit) bool {
			return bearing(u) || p.Stock.Form == assembly.Round && u.has("arm-shaft", "countershaft", "output-shaft")
		}, []string{
			"Push each shaft through both inserts before the flange screws are tightened, so that the inserts align; then tighten screws and locking screws.",
			"Check toe and cant of each shaft with an angle gauge in every axis position against the table on sheet 02; the shaft turns freely by hand.",
		}},
		{"Arms", func(p *assembly.Part, g string, u *unit) bool {
			return group("arm-")(g) && (u.has("arm-hub") || u.has("arm-cap"))
		}, []string{"Check that each arm swings freely through its range, by its own weight, and comes to rest on both buffers."}},
		{"Handles", func(p *assembly.Part, g string, _ *unit) bool { return group("handle")(g) }, []string{
			"Check that the pin goes through in every position and that grips are equally far from their axes on both sides.",
		}},
		{"Drive and counterweights", func(p *assembly.Part, g string, _ *unit) bool {
			return group("countershaft", "output", "coupler", "arm-")(g) && !p.Is(assembly.Load) && p.Item != "plate-collar"
		}, []string{
			"Set keys with their hubs against the marks, at flexion 0; tighten the set screws over the key first.",
			"Check that nothing touches through the whole range, and that a counterweight, where there is one, holds the arm where it is left.",
		}},
		{"Guide sheaves", func(_ *assembly.Part, g string, u *unit) bool { return group("guide")(g) || u.has("guide-bush") }, []string{
			"Where it has a pull pin, drill the bush through the holes of its tube, as wide as the pin's tip, and take off the burr inside; in every axis position the pin drops into a groove, through the hole that sheet 07 tells.",
			"Check that the guide sheave swings freely about its stem and follows the bracket through every axis position.",
		}},
		{"Cables and loops", func(_ *assembly.Part, _ string, _ *unit) bool { return false }, []string{
			"Lead the cable from the cam by the guide sheaves to the stack as sheet 07 tells; hang it in with the arms at their lower stops and take out its slack.",
			"Check through the whole range that the cable lies in every groove and touches nothing else; mark both ends where they leave their fittings, and look at the marks after the first loads.",
		}},
		{"Seat and foot plate", func(p *assembly.Part, g string, u *unit) bool {
			return group("seat", "foot-p")(g) || u.has("seat-", "foot-") && !p.Is(assembly.Ground)
		}, []string{"Check that the pin locks in every position and that the post slides without catching."}},
		{"Chest pad slide", func(p *assembly.Part, g string, u *unit) bool {
			return (group("chest-p")(g) || u.has("chest-pin")) && !soft(p)
		}, []string{
			"Check that the slide runs in its sleeve without catching and that the pin locks in every position.",
		}},
		{"Pads", func(p *assembly.Part, g string, _ *unit) bool { return soft(p) }, []string{
			"Screw boards on from below, not through the cover. Check that no screw can be felt through the pad.",
		}},
		{"Guards", func(p *assembly.Part, _ string, u *unit) bool { return p.Is(assembly.Guard) || u.has("guard") }, []string{
			"Check that no finger reaches what turns behind the guard, and that nothing touches it in any axis position.",
		}},
		{"Plates", func(p *assembly.Part, _ string, _ *unit) bool { return p.Is(assembly.Load) || p.Item == "plate-collar" }, []string{
			"Check that the collar keeps the plates on their sleeve through the whole range.",
		}},
		{"What is left", func(*assembly.Part, string, *unit) bool { return true }, nil},
	}
}

// cables is the stage at which what is flexible is hung in.
const cables = "Cables and loops"

// bearing reports whether a unit is one, or a part of one.
func bearing(u *unit) bool {
	for item := range u.items {
		if strings.HasSuffix(item, "-housing") || strings.HasSuffix(item, "-insert") {
			return true
		}
	}
	return false
}

// capped reports whether a unit is the cap of a tube.
func capped(u *unit) bool {
	for item := range u.items {
		if strings.HasSuffix(item, "-cap") {
			return len(u.parts) == 1
		}
	}
	return false
}

// Plan returns the steps in which an assembly is put together. Every part and all that
// is flexible is in one step; every joint that is made is in the step of the later of
// its parts.
func Plan(a *assembly.Assembly) []Step {
	units, of := units(a)
	all := stages()
	for i := range units {
		u := &units[i]
		p := &a.Parts[u.lead]
		g := a.Groups[p.Group].ID
		u.stage = slices.IndexFunc(all, func(s stage) bool { return s.holds(p, g, u) })
	}
	placed := make([]bool, len(units))
	order := make([]int, len(a.Parts)) // of the step that a part is in
	var out []Step
	var waiting []int
	for k, s := range all {
		step := Step{Title: s.title, Checks: s.checks}
		for i := range units {
			if units[i].stage == k {
				waiting = append(waiting, i)
			}
		}
		last := k == len(all)-1
		for {
			at := -1
			on := -1
			for w, i := range waiting {
				if on = joint(a, units, of, placed, i); on >= 0 || len(out) == 0 && len(step.Units) == 0 || last && w == len(waiting)-1 {
					at = w
					break
				}
			}
			if at < 0 {
				break
			}
			i := waiting[at]
			waiting = slices.Delete(waiting, at, at+1)
			placed[i] = true
			for _, p := range units[i].parts {
				order[p] = k
			}
			step.Units = append(step.Units, Unit{units[i].parts, on})
		}
		if s.title == cables {
			for f := range a.Flexible {
				step.Flexible = append(step.Flexible, f)
			}
		}
		for j := range a.Joints {
			x := &a.Joints[j]
			if x.Kind.Holds() && x.Kind != assembly.Weld && max(order[x.A], order[x.B]) == k && placed[of[x.A]] && placed[of[x.B]] {
				step.Joints = append(step.Joints, j)
			}
		}
		if len(step.Units)+len(step.Flexible) > 0 {
			out = append(out, step)
		}
	}
	return out
}

// joint is one that holds a unit to one that stands, -1 without.
func joint(a *assembly.Assembly, units []unit, of []int, placed []bool, i int) int {
	for j := range a.Joints {
		x := &a.Joints[j]
		if !x.Kind.Holds() {
			continue
		}
		p, q := of[x.A], of[x.B]
		if p == i && q != i && placed[q] || q == i && p != i && placed[p] {
			return j
		}
	}
	return -1
}

// units are the weldments and lone parts of an assembly, in the order of their first
// parts, and which of them each part is in.
func units(a *assembly.Assembly) (list []unit, of []int) {
	of = make([]int, len(a.Parts))
	for n, set := range a.Welded(func(int) bool { return true }) {
		u := unit{parts: set, lead: set[0], items: map[string]bool{}}
		for _, i := range set {
			u.items[a.Parts[i].Item] = true
			if a.Parts[i].Mass > a.Parts[u.lead].Mass {
				u.lead = i
			}
			of[i] = n
		}
		list = append(list, u)
	}
	return list, of
}

// centre is the middle of a unit's mass.
func centre(a *assembly.Assembly, parts []int) r3.Vec {
	var w assembly.Weight
	for _, i := range parts {
		w.Add(a.Parts[i].Mass, a.Parts[i].Centre)
	}
	return w.Centre()
}
