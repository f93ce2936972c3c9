package page

import (
	"bytes"

	"armwright/solver"
	"armwright/specs"
	"armwright/specs/aims"
)

// Ask is what is to be opened: an example by its name, a file by its text, or else a
// brief by its number, the page's own for none.
type Ask struct {
	Example string `json:"example"`
	Name    string `json:"name"` // of the file, for messages
	Text    string `json:"text"`
	Brief   string `json:"brief"`
}

// Opened is a brief with its controls.
type Opened struct {
	Brief    string `json:"brief"` // number
	Name     string `json:"name"`
	Kind     string `json:"kind"`
	Bench    bool   `json:"bench"`
	Inches   bool   `json:"inches"`   // whether it is read in inches and pounds
	Text     string `json:"text"`     // as a file, to open it again
	Station  string `json:"station"`  // number of the station that a frame is; empty for a brief
	Controls string `json:"controls"` // HTML
}

// Open opens a brief, or a frame, whose geometry is then at hand.
func (p *Page) Open(a Ask) (Opened, *Trouble) {
	out, err := p.open(a)
	if err != nil {
		return Opened{}, troubleOf(err)
	}
	return out, nil
}

func (p *Page) open(a Ask) (out Opened, err error) {
	var b specs.Brief
	switch {
	case a.Text != "":
		if b, out.Station, err = p.read(a.Name, []byte(a.Text)); err != nil {
			return out, err
		}
	case a.Example != "":
		if b, err = example(a.Example); err != nil {
			return out, err
		}
	default:
		var ok bool
		if b, ok = p.brief(a.Brief); ok {
			break
		}
		for _, name := range Examples() { // an address may mean one of them
			if b, err = example(name); err != nil {
				return out, err
			}
			if t, err := text(b.Quantised()); err == nil && numbered(t) == a.Brief {
				return p.opened(b, "")
			}
		}
		return out, errGone
	}
	return p.opened(b, out.Station)
}

func (p *Page) opened(b specs.Brief, station string) (out Opened, err error) {
	out = Opened{Station: station, Name: b.Name, Kind: b.Kind, Bench: b.Kind == "cam-study"}
	if out.Brief, err = p.lay(b); err != nil {
		return out, err
	}
	b = b.Quantised()
	if out.Text, err = text(b); err != nil {
		return out, err
	}
	out.Inches = b.Drawing.Reads() == specs.InchPound
	out.Controls, err = form(b, b)
	return out, err
}

// read reads a brief or a frame, by what its first line says. Of a frame the station
// is kept.
func (p *Page) read(name string, data []byte) (b specs.Brief, station string, err error) {
	if name == "" {
		name = "the file"
	}
	if !bytes.Contains(data, []byte(specs.FrameFormat)) {
		b, err = specs.ParseBrief(name, data)
		return b, "", err
	}
	f, err := specs.ParseFrame(name, data)
	if err != nil {
		return b, "", err
	}
	b = specs.Brief{Format: "brief/1", Name: f.Name, Minimise: aims.Default, Asked: f.Asked}
	if err := refuse(b); err != nil {
		return b, "", err
	}
	f = f.Quantised()
	j, err := p.judge(f.Asked)
	if err != nil {
		return b, "", err
	}
	r, err := j.Frame(f.Name, f.Geometry)
	if err != nil {
		return b, "", asProblem(name, err)
	}
	station, err = p.keep(solver.Judged(r))
	return b, station, err
}

// asProblem tells a fault of a frame in the file's name.
func asProblem(name string, err error) error {
	if about, ok := solver.Fault(err); ok {
		about.File = name
		return &specs.Problems{List: []specs.Problem{about}}
	}
	return err
}

// Controls are those of a brief with changes, even of one that is not valid as it
// stands: they are how it is mended.
func (p *Page) Controls(s State) (Opened, *Trouble) {
	first, ok := p.brief(s.Brief)
	if !ok {
		return Opened{}, troubleOf(errGone)
	}
	b := first
	change(&b, s.Changes)
	html, err := form(first, b)
	if err != nil {
		return Opened{}, troubleOf(err)
	}
	return Opened{Brief: s.Brief, Name: b.Name, Kind: b.Kind, Bench: b.Kind == "cam-study", Inches: b.Drawing.Reads() == specs.InchPound, Controls: html}, nil
}
