package page

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"armwright/solver/require"
	"armwright/specs"
)

// group is what answers one question about the station: the values played with most,
// and the others.
type group struct {
	ID, Title string
	Open      bool
	Main      []control
	More      []control
}

// control is one value of the brief. What it takes is what the brief's tags say.
type control struct {
	specs.Leaf
	ID         string
	Label      string
	Value      string  // as it stands, without the unit
	First      string  // as it stands in the brief as opened
	Step       float64 // of the slider
	Slide      bool    // has a slider
	Start, End float64 // of the slider: round numbers within the range
}

// question is a group as it is laid out, with the limits that belong to it.
type question struct {
	id, title string
	sections  []string
	about     require.Subject
	main      []string
}

// questions are the groups in the order of the page.
func questions() []question {
	return []question{
		{"who", "Who sits in it", []string{"people", "posture"}, require.Person,
			[]string{"people.low", "people.high", "people.women", "people.age", "posture.pad_slope.from", "posture.pad_slope.to", "posture.back_angle.from", "posture.back_angle.to",
				"limits.hand_path", "posture.seat_pitch", "posture.axis_positions", "posture.grip_rotation"}},
		{"feel", "How it feels", []string{"resistance"}, require.Resistance,
			[]string{"resistance.drive", "resistance.curve", "resistance.load.light", "resistance.load.middle", "resistance.load.heavy", "limits.torque_match",
				"resistance.loaded.from", "resistance.loaded.to", "resistance.ratio.to", "resistance.greatest_arm", "resistance.lever_radius.to", "resistance.curve_table"}},
		{"space", "What room it takes", []string{"space"}, require.Room,
			[]string{"space.length", "space.width", "space.height", "posture.pivot_height.from", "posture.pivot_height.to", "posture.pivot_spacing.from", "posture.pivot_spacing.to",
				"limits.tilt_occupied", "limits.crush_gap"}},
		{"stock", "What it is made of", []string{"stock"}, require.Material,
			[]string{"stock.member", "stock.steel", "stock.cable", "stock.transmission", "stock.shaft", "stock.cam_plate", "stock.max_user"}},
	}
}

// has reports whether a value belongs to the question.
func (q *question) has(path string, kinds []require.Kind) bool {
	section, _, _ := strings.Cut(path, ".")
	switch {
	case section == "limits":
		k := limitedAt(kinds, path)
		return k != nil && k.About == q.about
	case strings.HasPrefix(path, "posture.pivot_"):
		return q.id == "space"
	}
	return slices.Contains(q.sections, section)
}

// controls are the controls of a brief as it now is, beside what it was when opened.
func controls(first, b specs.Brief) ([]group, error) {
	var out []group
	leaves, kinds := specs.Leaves(), require.Kinds()
	for _, q := range questions() {
		g := group{ID: q.id, Title: q.title}
		main := make([]*control, len(q.main))
		for _, l := range leaves {
			if !q.has(l.Path, kinds) || !uses(&b, l.Path, kinds) {
				continue
			}
			c, err := controlOf(first, b, l)
			if err != nil {
				return nil, err
			}
			if i := slices.Index(q.main, l.Path); i >= 0 {
				main[i] = &c
			} else {
				g.More = append(g.More, c)
			}
		}
		for _, c := range main {
			if c != nil {
				g.Main = append(g.Main, *c)
			}
		}
		g.Open = q.id == "feel" || q.id == "who" && len(g.Main) > 6
		if len(g.Main)+len(g.More) > 0 {
			out = append(out, g)
		}
	}
	return out, nil
}

func controlOf(first, b specs.Brief, l specs.Leaf) (control, error) {
	_, label, _ := strings.Cut(l.Path, ".")
	if strings.HasSuffix(label, ".from") || strings.HasSuffix(label, ".to") {
		label = strings.NewReplacer(".from", ", least", ".to", ", most").Replace(label)
	} else if section, _, _ := strings.Cut(l.Path, "."); section == "limits" {
		label += ", limit"
	}
	c := control{Leaf: l, Label: strings.NewReplacer("_", " ", ".", " ").Replace(label), ID: "c-" + strings.NewReplacer("_", "-", ".", "-").Replace(l.Path)}
	units := b.Drawing.Reads()
	for _, v := range []struct {
		from specs.Brief
		into *string
	}{{b, &c.Value}, {first, &c.First}} {
		text, err := v.from.Get(l.Path)
		if err == nil {
			*v.into, err = written(l, units, text)
		}
		if err != nil {
			return control{}, err
		}
	}
	if l.Least == l.Most {
		return c, nil
	}
	if symbol := units.Symbol(l.Unit); symbol != l.Unit {
		fine := fineness(l)
		in := func(v float64) float64 { return units.In(v, l.Unit) * fine }
		c.Least, c.Most = math.Ceil(in(l.Least)-1e-6)/fine, math.Floor(in(l.Most)+1e-6)/fine
		c.Unit = symbol
	}
	c.Slide = true
	c.slide()
	return c, nil
}

// farther is how many times the value a slider reaches, so that a hand can set it: a
// load of 40 kg may be 400, but is not looked for there. The number takes the whole
// range.
const farther = 3

// slide lays the slider over what is looked for of the range.
func (c *control) slide() {
	end := c.Most
	for _, text := range []string{c.First, c.Value} {
		if v, err := strconv.ParseFloat(text, 64); err == nil && v > 0 {
			end = math.Min(end, farther*v)
		}
	}
	if v, err := strconv.ParseFloat(c.Value, 64); err == nil {
		end = math.Max(end, v)
	}
	c.Step = stepOf(c.Form, end-c.Least)
	c.Start, c.End = math.Ceil(c.Least/c.Step-1e-9)*c.Step, math.Min(math.Ceil(end/c.Step-1e-9)*c.Step, math.Floor(c.Most/c.Step+1e-9)*c.Step)
}

// fineness is how many parts of an inch or a pound are told: a ten-thousandth of an
// inch, or, of what a file holds six digits, a thousandth.
func fineness(l specs.Leaf) float64 {
	if l.Kind == specs.Length {
		return 1e4
	}
	return 1e3
}

// written is a value for its field, without the unit: as the file has it, or in the
// reader's units as closely as a file holds it.
func written(l specs.Leaf, u specs.Units, text string) (string, error) {
	if u.Symbol(l.Unit) == l.Unit {
		return strings.TrimSuffix(text, " "+l.Unit), nil
	}
	x, err := specs.ParseQuantity(text, l.Kind)
	if err != nil {
		return "", err
	}
	fine := fineness(l)
	return plain(math.Round(u.In(x, l.Unit)*fine) / fine), nil
}

// stepOf is the step of a slider over a span: a round one, of which there are at least
// some hundred and twenty, and 1 of what is counted.
func stepOf(form specs.Form, span float64) float64 {
	const steps = 120
	if form == specs.Whole {
		return 1
	}
	span /= steps
	p := math.Pow(10, math.Floor(math.Log10(span)))
	for _, k := range [...]float64{5, 2} {
		if k*p <= span {
			return sixth(k * p)
		}
	}
	return sixth(p)
}

// sixth rounds off what arithmetic adds.
func sixth(x float64) float64 { return math.Round(x*1e6)/1e6 + 0 }

func plain(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
