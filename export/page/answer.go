package page

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/hex"
	"html/template"
	"math"
	"slices"
	"strconv"
	"sync"

	"armwright/export/draw"
	"armwright/export/report"
	"armwright/export/svg"
	"armwright/solver"
	"armwright/specs"
)

// answer is a judged station as the page shows it. Pictures, plots and tables
// are finished fragments; the page only puts them in place.
type answer struct {
	Station  string    `json:"station"` // number of the station whose geometry it is
	Solved   bool      `json:"solved"`  // found by a search for this very brief
	Verdict  string    `json:"verdict"`
	Parts    parts     `json:"parts"`
	Plots    []picture `json:"plots"`
	Shown    string    `json:"shown"`    // mark of the pictures
	Pictures []picture `json:"pictures"` // null when the page shows them already
	Motion   *motion   `json:"motion"`   // null without a cam
	Figures  []figure  `json:"figures"`
}

// parts are the texts of the page as HTML, by the place they go to.
type parts struct {
	Verdict  string `json:"verdict"`  // in a word
	Head     string `json:"head"`     // in a sentence, with the figures
	Conflict string `json:"conflict"` // what cannot hold together, and the ways out
	Held     string `json:"held"`     // what giving way would buy
	Table    string `json:"table"`    // the requirements
}

// picture is an SVG with its place on the page.
type picture struct {
	Name  string `json:"name"`
	Title string `json:"title"`
	SVG   string `json:"svg"`
}

// figure is one value by which designs are compared.
type figure struct {
	Name  string   `json:"name"`
	Text  string   `json:"text"`
	Value *float64 `json:"value"`
	Best  string   `json:"best"` // "least" or "most" where one is better, else empty
}

//go:embed assets/fragments.tmpl
var fragmentSource string

var fragments = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("fragments").Funcs(template.FuncMap{
		"governing": report.Governing, "word": report.VerdictWord,
		"room": room,
	}).Parse(fragmentSource))
})

// room is the margin of a requirement as a share of ten units that matter, for
// a bar: 0.5 is just met.
func room(q report.Requirement) string {
	return strconv.FormatFloat(0.5+0.5*math.Tanh(q.Margin/q.Scale/5), 'f', 3, 64)
}

// shownPlots are those of the report's plots that the page has a place for; the
// others are in the report.
func shownPlots() []string {
	return []string{"torque", "hardness", "loads", "footprint", "seated-1", "paths", "coverage"}
}

// answer makes the fragments of a station.
func (p *Page) answer(r *solver.Result, shown string) (answer, error) {
	rep := report.New(r, p.options.Program, nil)
	out := answer{Solved: r.Search != nil, Verdict: rep.Verdict, Figures: figures(rep)}
	made := struct {
		*report.Report
		Figures []figure
		Solved  bool
	}{rep, out.Figures, out.Solved}
	for _, f := range [...]struct {
		name string
		into *string
	}{{"verdict", &out.Parts.Verdict}, {"head", &out.Parts.Head}, {"conflict", &out.Parts.Conflict}, {"held", &out.Parts.Held}, {"table", &out.Parts.Table}} {
		var b bytes.Buffer
		if err := fragments().ExecuteTemplate(&b, f.name, made); err != nil {
			return out, err
		}
		*f.into = b.String()
	}
	for _, q := range report.Plots(rep) {
		if !slices.Contains(shownPlots(), q.ID) {
			continue
		}
		out.Plots = append(out.Plots, picture{q.ID, q.Title, string(q.SVG)})
	}
	var err error
	if out.Motion, err = motionOf(r); err != nil {
		return out, err
	}
	if out.Pictures, out.Shown, err = p.draw(r); err != nil {
		return out, err
	}
	if out.Shown == shown {
		out.Pictures = nil
	}
	return out, nil
}

// drawing is the pictures of a frame, with a mark that tells them from others.
type drawing struct {
	frame    specs.Frame // without its limits, which show in no picture
	pictures []picture
	mark     string
}

// draw draws a station, unless it is the one drawn last.
func (p *Page) draw(r *solver.Result) ([]picture, string, error) {
	d := drawing{frame: r.Frame}
	d.frame.Limits = specs.Limits{}
	p.mu.Lock()
	last := p.drawn
	p.mu.Unlock()
	if last.mark != "" && same(last.frame, d.frame) {
		return last.pictures, last.mark, nil
	}
	all, err := draw.Pictures(r)
	if err != nil {
		return nil, "", err
	}
	h := sha256.New()
	for _, q := range all {
		var b bytes.Buffer
		if err := (svg.Renderer{}).Render(&b, q.Drawing); err != nil {
			return nil, "", err
		}
		h.Write(b.Bytes())
		d.pictures = append(d.pictures, picture{q.Name, q.Drawing.Title, b.String()})
	}
	d.mark = hex.EncodeToString(h.Sum(nil)[:8])
	p.mu.Lock()
	p.drawn = d
	p.mu.Unlock()
	return d.pictures, d.mark, nil
}

// figures are the values by which designs are told apart, those that the
// station has.
func figures(r *report.Report) []figure {
	var out []figure
	add := func(name string, v *float64, unit, best string) {
		if v != nil {
			out = append(out, figure{name, r.Units.Figure(*v, unit), v, best})
		}
	}
	add("Footprint length", r.Footprint.Length, "mm", "least")
	add("Footprint width", r.Footprint.Width, "mm", "least")
	add("Least tilt", r.Stability.LeastTilt, "deg", "most")
	add("Worst hand path", r.Elbow.WorstHandPath, "mm", "least")
	match := 100 * r.Resistance.RMS
	add("Torque match, rms", &match, "%", "least")
	add("Largest miss of torque", hundred(&r.Resistance.MaxError), "%", "least")
	add("Drive ratio", r.Resistance.Cam.Ratio, "", "")
	add("Least cam radius", r.Resistance.Cam.LeastRadius, "mm", "most")
	add("Coverage", hundred(r.People.Coverage), "%", "most")
	if len(r.Seat.Positions) > 0 { // a bench has one axis
		axes := float64(len(r.Pivots.Right.Axes))
		out = append(out, figure{"Axis positions", plain(axes), &axes, "least"})
	}
	met := 0
	for _, q := range r.Requirements {
		if q.Met {
			met++
		}
	}
	out = append(out, figure{"Requirements met", strconv.Itoa(met) + " of " + strconv.Itoa(len(r.Requirements)), nil, ""})
	return out
}

// hundred is a share as a percentage.
func hundred(share *float64) *float64 {
	if share == nil {
		return nil
	}
	v := 100 * *share
	return &v
}
