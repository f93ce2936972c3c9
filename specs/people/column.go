package people

import (
	"fmt"
	"math"
	"strings"

	"armwright/specs/angle"
)

// column is what one column of the file holds.
type column struct {
	kind  columnKind
	dim   int     // of dimensions(), or len(dimensions()) for the carrying angle
	scale float64 // inside unit per unit of the file
	less  float64 // inside value below the measured one
	low   float64 // plausible inside values
	high  float64
	head  string
}

type columnKind int

const (
	unused columnKind = iota
	labelColumn
	sexColumn
	ageColumn
	sizeColumn
	standingAcromion // sitting acromion height follows from it
)

// header finds out what each column holds.
func (r *Reader) header(names []string) error {
	dims := dimensions()
	r.given = make([]bool, len(dims)+1)
	fail := func(i int, what, advice string) error {
		return &RowError{r.file, 1, i + 1, what, advice}
	}
	survey, release := false, false
	for _, n := range names {
		switch strings.ToLower(strings.TrimSpace(n)) {
		case "weightkg":
			survey = true
		case "weightlbs":
			release = true
		}
	}
	seen := map[columnKind]bool{}
	for i, head := range names {
		c, unit, known := understand(head, survey)
		c.head = strings.TrimSpace(head)
		if !known {
			r.ignored = append(r.ignored, c.head)
			r.columns = append(r.columns, column{})
			continue
		}
		switch c.kind {
		case sizeColumn:
			if unit == "" && !survey {
				return fail(i, c.head+": no unit", fmt.Sprintf("write the unit in the header, such as %s_%s", dimensionName(dims, c.dim), usualUnit(dims, c.dim)))
			}
			if r.given[c.dim] {
				return fail(i, dimensionName(dims, c.dim)+" is given twice", "keep one of the two columns")
			}
			r.given[c.dim] = true
			c.low, c.high = plausible(c.dim)
			if survey && unit == "" {
				c.scale = 1
				if dims[c.dim].name == "mass" && release {
					c.scale = 0.1
				}
				break
			}
			scale, ok := units(dimensionName(dims, c.dim))[unit]
			if !ok {
				return fail(i, fmt.Sprintf("%s: %s is no unit of this", c.head, unit), "lengths are in mm, cm, m or in, masses in kg or lb, angles in deg")
			}
			c.scale = scale
		default:
			if seen[c.kind] {
				return fail(i, c.head+": there is another column for this", "keep one of the two columns")
			}
			seen[c.kind] = true
		}
		r.columns = append(r.columns, c)
	}
	r.hasAge = seen[ageColumn]
	if seen[standingAcromion] && r.given[sittingIndex] {
		r.given[acromionIndex] = true
	}
	for _, need := range []struct {
		ok         bool
		name, form string
	}{
		{seen[sexColumn], "sex", "sex"},
		{r.given[statureIndex], "stature", "stature_mm"},
		{r.given[massIndex], "mass", "mass_kg"},
	} {
		if !need.ok {
			return &RowError{r.file, 1, 1, "no column for " + need.name, "add a column " + need.form}
		}
	}
	return nil
}

// Positions of two more dimensions: sitting acromion height is the sitting
// height less stature plus the standing one, as in the survey.
const (
	sittingIndex  = 2
	acromionIndex = 3
)

func dimensionName(dims []dimension, i int) string {
	if i == len(dims) {
		return carryingName
	}
	return dims[i].name
}

func usualUnit(dims []dimension, i int) string {
	switch dimensionName(dims, i) {
	case "mass":
		return "kg"
	case carryingName:
		return "deg"
	}
	return "mm"
}

// units are the inside unit's size in each unit of a dimension.
func units(dim string) map[string]float64 {
	switch dim {
	case "mass":
		return map[string]float64{"kg": 1, "lb": 0.45359237, "lbs": 0.45359237}
	case carryingName:
		return map[string]float64{"deg": angle.Degree, "degrees": angle.Degree, "rad": 1}
	}
	return map[string]float64{"mm": 1, "cm": 10, "m": 1000, "in": 25.4, "inch": 25.4, "inches": 25.4}
}

// understand tells what a column's head means, and its unit in words.
func understand(head string, survey bool) (c column, unit string, known bool) {
	dims := dimensions()
	words := strings.FieldsFunc(strings.ToLower(head), func(r rune) bool { return strings.ContainsRune(" _-()[],/.", r) })
	if len(words) == 0 {
		return c, "", false
	}
	name := strings.Join(words, "_")
	switch name {
	case "label", "name", "person":
		return column{kind: labelColumn}, "", true
	case "sex", "gender":
		return column{kind: sexColumn}, "", true
	case "age", "age_y", "age_years", "age_yr":
		return column{kind: ageColumn}, "y", true
	}
	if survey {
		if name == "acromialheight" {
			return column{kind: standingAcromion, scale: 1}, "", true
		}
		for i, d := range dims {
			if name == strings.ReplaceAll(d.measure, "-", "_") {
				return column{kind: sizeColumn, dim: i, less: d.less}, "", true
			}
		}
	}
	last := words[len(words)-1]
	for i := range len(dims) + 1 {
		dim := dimensionName(dims, i)
		_, isUnit := units(dim)[last]
		short := strings.Join(words[:len(words)-1], "_")
		switch {
		case called(dim, name):
			return column{kind: sizeColumn, dim: i}, "", true
		case isUnit && called(dim, short), !isUnit && called(dim, short) && knownUnit(last):
			return column{kind: sizeColumn, dim: i}, last, true
		}
	}
	return c, "", false
}

// called says whether a name in words means the dimension.
func called(dim, name string) bool {
	if dim == name {
		return true
	}
	switch dim {
	case "stature":
		return name == "height" || name == "body_height"
	case "mass":
		return name == "weight" || name == "body_mass" || name == "body_weight"
	}
	return false
}

func knownUnit(word string) bool {
	for _, dim := range []string{"stature", "mass", carryingName} {
		if _, ok := units(dim)[word]; ok {
			return true
		}
	}
	return false
}

// plausible is the range beyond which a value is a slip: ten standard
// deviations of the survey about either sex's mean, masses 20 to 400 kg,
// carrying angles -10 to 40 degrees.
func plausible(dim int) (low, high float64) {
	dims := dimensions()
	switch dim {
	case massIndex:
		return 20, 400
	case len(dims):
		return -10 * angle.Degree, 40 * angle.Degree
	}
	d := dims[dim]
	const reach = 10
	w, m := d.survey[Woman], d.survey[Man]
	low = math.Min(w.mean-reach*w.sd, m.mean-reach*m.sd)
	high = math.Max(w.mean+reach*w.sd, m.mean+reach*m.sd)
	return math.Max(low, 0.2*w.mean) - d.less, high - d.less
}

// whichUnit guesses why a value is out of range.
func whichUnit(dim int, x float64) string {
	low, high := plausible(dim)
	name := dimensionName(dimensions(), dim)
	for _, unit := range []string{"cm", "m", "in", "lb"} {
		scale, ok := units(name)[unit]
		if ok && x*scale >= low && x*scale <= high {
			return "is it in " + unit + "? Say so in the header"
		}
	}
	if name == "mass" && x/10 >= low && x/10 <= high {
		return "is it in tenths of a kilogram? Divide by ten"
	}
	return "check the measurement and its unit"
}
