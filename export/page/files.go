package page

import (
	"context"

	"armwright/export/handed"
	"armwright/specs"
)

// Brief is the changed brief as a file.
func (p *Page) Brief(s State) ([]byte, *Trouble) {
	b, err := p.asked(s)
	var out string
	if err == nil {
		out, err = text(b)
	}
	if err != nil {
		return nil, troubleOf(err)
	}
	return []byte(out), nil
}

// Bundle is the files of a station that can be fetched one by one.
type Bundle struct {
	Number string   `json:"number"`
	Files  []Listed `json:"files"`
}

// Listed is one of them.
type Listed struct {
	Path  string `json:"path"`
	Bytes int    `json:"bytes"`
}

// everything is the name of all files in one.
const everything = "station.zip"

// MakeFiles makes everything that design would write for the station at hand, and
// lists it. begin is called when its turn has come; nil is nothing. Where the context
// has ended meanwhile there is neither.
func (p *Page) MakeFiles(ctx context.Context, s State, begin func()) (*Bundle, *Trouble) {
	r, err := p.judged(s)
	var out *Bundle
	if err == nil {
		out, err = p.desk.Make(ctx, r, begin)
	}
	switch {
	case ctx.Err() != nil:
		return nil, nil
	case err != nil:
		return nil, troubleOf(err)
	}
	return out, nil
}

// File is one file that was made before; kept is false when none of its bundle are
// kept any more, and data nil when the bundle has no such file.
func (p *Page) File(number, path string) (data []byte, kept bool) { return p.desk.File(number, path) }

// Views are the views of the station at hand drawn in lines, none on a bench. Those of
// the station drawn last are kept.
func (p *Page) Views(s State) ([]Picture, *Trouble) {
	out, err := p.views(s)
	if err != nil {
		return nil, troubleOf(err)
	}
	return out, nil
}

func (p *Page) views(s State) ([]Picture, error) {
	r, err := p.judged(s)
	if err != nil {
		return nil, err
	}
	d := drawing{frame: r.Frame}
	d.frame.Limits = specs.Limits{}
	p.mu.Lock()
	last := p.drawn
	p.mu.Unlock()
	if last.pictures != nil && same(last.frame, d.frame) {
		return last.pictures, nil
	}
	if d.pictures, err = p.options.Views(r); err != nil {
		return nil, err
	}
	p.mu.Lock()
	p.drawn = d
	p.mu.Unlock()
	return d.pictures, nil
}

// Hand is the station at hand, for a program elsewhere that makes its files.
func (p *Page) Hand(s State) ([]byte, *Trouble) {
	r, err := p.judged(s)
	var out []byte
	if err == nil {
		out, err = handed.Write(r)
	}
	if err != nil {
		return nil, troubleOf(err)
	}
	return out, nil
}
