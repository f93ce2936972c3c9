package page

import "armwright/specs"

// Curve reads a strength curve from the text of a CSV file, for resistance.curve_table.
func (p *Page) Curve(name, data string) (string, *Trouble) {
	if name == "" {
		name = "the curve"
	}
	table, err := specs.ReadCurve(name, []byte(data))
	if err != nil {
		return "", troubleOf(err)
	}
	return table, nil
}
