package page

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"armwright/specs"
)

// group is a section of the brief as controls: those played with most, and the
// rest of the section.
type group struct {
	Title string
	Open  bool
	Main  []control
	More  []control
}

// control is one value of the brief. What it takes is what the brief's tags
// say.
type control struct {
	specs.Leaf
	ID    string
	Label string
	Value string  // as it stands in the brief, without the unit
	Step  float64 // of the slider
	Slide bool    // has a slider
}

// sections are the sections of the brief that have controls, in the order of
// the page, with what is played with most, by the posture it is for. Everything
// else of a section follows folded away.
func sections(kind string) []struct {
	key, title string
	main       []string
} {
	posture := []string{"seat_pitch", "axis_positions", "grip_rotation", "pivot_height.from", "pivot_height.to", "pivot_spacing.from", "pivot_spacing.to"}
	switch kind {
	case "arm-pad":
		posture = append([]string{"pad_slope.from", "pad_slope.to", "lean.to"}, posture...)
	case "reclined":
		posture = append([]string{"back_angle.from", "back_angle.to", "arm_angle.from", "arm_angle.to"}, posture...)
	}
	return []struct {
		key, title string
		main       []string
	}{
		{"resistance", "Resistance", []string{"drive", "curve", "loaded.from", "loaded.to", "load.light", "load.middle", "load.heavy",
			"ratio.from", "ratio.to", "least_arm", "greatest_arm", "lever_radius.to", "sheave_radius", "side"}},
		{"people", "People", []string{"low", "high", "women", "age"}},
		{"posture", "Posture", posture},
		{"space", "Space", []string{"length", "width", "height"}},
		{"limits", "Limits", []string{"hand_path", "axis_offset", "torque_match", "tilt_occupied", "tilt_empty", "seat_load", "crush_gap"}},
		{"stock", "Stock", []string{"member", "cable", "bend_rule"}},
	}
}

// controls are the controls of a brief.
func controls(b specs.Brief) ([]group, error) {
	var out []group
	leaves := specs.Leaves()
	for i, s := range sections(b.Kind) {
		if b.Kind == "cam-study" && (s.key == "people" || s.key == "posture") {
			continue // nobody sits on a bench
		}
		g := group{Title: s.title, Open: i == 0}
		main := map[string]control{}
		for _, l := range leaves {
			rest, ours := strings.CutPrefix(l.Path, s.key+".")
			if !ours {
				continue
			}
			c, err := controlOf(b, l, rest)
			if err != nil {
				return nil, err
			}
			if slices.Contains(s.main, rest) {
				main[rest] = c
				continue
			}
			g.More = append(g.More, c)
		}
		for _, key := range s.main {
			g.Main = append(g.Main, main[key])
		}
		out = append(out, g)
	}
	return out, nil
}

func controlOf(b specs.Brief, l specs.Leaf, label string) (control, error) {
	text, err := b.Get(l.Path)
	if err != nil {
		return control{}, err
	}
	c := control{Leaf: l, Label: strings.NewReplacer("_", " ", ".", " ").Replace(label),
		ID: "c-" + strings.NewReplacer("_", "-", ".", "-").Replace(l.Path), Value: strings.TrimSuffix(text, " "+l.Unit)}
	if units := b.Drawing.Reads(); units.Symbol(l.Unit) != l.Unit {
		if err := c.read(units, text); err != nil {
			return control{}, err
		}
	}
	if l.Least != l.Most {
		c.Step, c.Slide = stepOf(c.Leaf), true
	}
	return c, nil
}

// read puts a control into other units than the brief's: the value as closely
// as a file holds it, the range rounded inwards.
func (c *control) read(u specs.Units, text string) error {
	x, err := specs.ParseQuantity(text, c.Kind)
	if err != nil {
		return err
	}
	fine := 1e4 // a ten-thousandth of an inch, or of what a file holds six digits a thousandth
	if c.Kind != specs.Length {
		fine = 1e3
	}
	in := func(v float64) float64 { return u.In(v, c.Unit) * fine }
	c.Value = plain(math.Round(in(x)) / fine)
	c.Least, c.Most = math.Ceil(in(c.Least)-1e-6)/fine, math.Floor(in(c.Most)+1e-6)/fine
	c.Unit = u.Symbol(c.Unit)
	return nil
}

// stepOf is the step of a slider: a round one, of which there are at least
// some three hundred in the range, and 1 of what is counted.
func stepOf(l specs.Leaf) float64 {
	if l.Form == specs.Whole {
		return 1
	}
	span := (l.Most - l.Least) / 300
	p := math.Pow(10, math.Floor(math.Log10(span)))
	for _, k := range [...]float64{5, 2} {
		if k*p <= span {
			return rounded(k * p)
		}
	}
	return rounded(p)
}

// Bounds and step as attributes.
func (c control) Min() string    { return plain(c.Least) }
func (c control) Max() string    { return plain(c.Most) }
func (c control) StepBy() string { return plain(c.Step) }
func (c control) IsChoice() bool { return c.Form == specs.Choice }
func (c control) IsNumber() bool { return c.Form == specs.Quantity || c.Form == specs.Whole }

func plain(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
