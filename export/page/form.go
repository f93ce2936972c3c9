package page

import (
	"strings"

	m "armwright/export/page/markup"
	"armwright/specs"
)

// form is the controls as HTML.
func form(first, b specs.Brief) (string, error) {
	groups, err := controls(first, b)
	if err != nil {
		return "", err
	}
	return string(m.Each(groups, group.markup)), nil
}

func (g group) markup() m.HTML {
	inside := m.Join(m.Element("summary", nil, m.Text(g.Title)), m.Text("\n"), m.Each(g.Main, control.markup))
	if len(g.More) > 0 {
		inside = m.Join(inside, m.Element("details", m.Attributes{"class", "more"},
			m.Element("summary", nil, m.Text("more of “"+g.Title+"”")), m.Text("\n"), m.Each(g.More, control.markup)))
	}
	return m.Element("details", m.Attributes{"class", "question", "id", "q-" + g.ID, "open", m.If(g.Open)}, inside)
}

// markup is a control on one line: label, what sets it, and what it means on demand.
func (c control) markup() m.HTML {
	class := "control"
	if c.Value != c.First {
		class += " changed"
	}
	if !c.Slide {
		class += " plain"
	}
	doc := c.Doc
	if c.Slide {
		doc += " (" + strings.TrimSuffix(plain(c.Least)+" to "+plain(c.Most)+" "+c.Unit, " ") + ")"
	}
	return m.Element("div", m.Attributes{"class", class, "data-path", c.Path, "data-unit", c.Unit, "data-first", c.First},
		m.Element("label", m.Attributes{"for", c.ID}, m.Text(c.Label)), m.Text("\n"),
		c.field(), m.Text("\n"),
		m.Element("button", m.Attributes{"type", "button", "class", "why", "aria-label", "About " + c.Label, "aria-expanded", "false", "aria-controls", c.doc()}, m.Text("?")), m.Text("\n"),
		m.Element("p", m.Attributes{"class", "doc", "id", c.doc(), "hidden", m.On}, m.Text(doc)))
}

// doc is the id of what explains the control.
func (c control) doc() string { return c.ID + "-doc" }

// field is what takes the value: a list, a number with or without a slider, or a text.
func (c control) field() m.HTML {
	switch c.Form {
	case specs.Choice:
		return m.Element("select", m.Attributes{"id", c.ID, "aria-describedby", c.doc()}, m.Each(c.Choices, func(v string) m.HTML {
			return m.Element("option", m.Attributes{"selected", m.If(v == c.Value)}, m.Text(v))
		}))
	case specs.Quantity, specs.Whole:
		least, most, slider := m.Off, m.Off, m.HTML("")
		if c.Slide {
			least, most = plain(c.Least), plain(c.Most)
			slider = m.Join(m.Element("input", m.Attributes{"type", "range", "aria-label", c.Label + ", slider",
				"min", plain(sixth(c.Start)), "max", plain(sixth(c.End)), "step", plain(c.Step), "value", c.Value}), m.Text("\n"))
		}
		return m.Join(slider, m.Element("input", m.Attributes{"type", "number", "id", c.ID, "min", least, "max", most, "step", "any", "value", c.Value, "aria-describedby", c.doc()}),
			m.Element("span", m.Attributes{"class", "unit"}, m.Text(c.Unit)))
	}
	return m.Element("input", m.Attributes{"type", "text", "id", c.ID, "value", c.Value, "aria-describedby", c.doc()})
}
