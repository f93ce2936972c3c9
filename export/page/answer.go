package page

import (
	"crypto/sha256"
	_ "embed"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"armwright/export/plot"
	"armwright/export/report"
	"armwright/export/viewer"
	"armwright/solver"
)

// shownPlots are those of the report's plots that the page has a place for; the
// others are in the report.
func shownPlots() []string {
	return []string{"hardness", "loads", "footprint", "seated-1", "paths", "coverage", "explorer"}
}

// overFlexion are those of them that go over the flexion, through which the page draws
// the one at hand.
func overFlexion() []string { return []string{"hardness", "loads", "seated-1"} }

// answer makes the fragments of a station, its motion and its pictures.
func (p *Page) answer(r *solver.Result, s State) (Answer, error) {
	out, err := tell(r, report.New(r, p.options.Program, nil))
	if err != nil {
		return out, err
	}
	if out.Motion, err = motionOf(r); err != nil {
		return out, err
	}
	return out, p.scene(r, s.Shown, &out)
}

// tell makes the fragments of a station, in words, figures and plots.
func tell(r *solver.Result, rep *report.Report) (Answer, error) {
	out := Answer{Solved: r.Search != nil, Verdict: rep.Verdict, Figures: figures(rep, r), Failing: []string{}, Over: overOf(rep), Crowd: columns(rep), Curve: curveOf(rep, &r.Frame.Asked)}
	for _, q := range rep.Requirements {
		if !q.Met {
			out.Failing = append(out.Failing, q.ID)
		}
	}
	for _, q := range rep.Repairs {
		one := repair{q.Sentence, map[string]string{}}
		for _, c := range q.Changes {
			one.Changes[c.Path] = c.To
		}
		out.Repairs = append(out.Repairs, one)
	}
	out.Parts = texts(rep, out.Figures, out.Solved)
	for _, q := range report.Plots(rep) {
		if !slices.Contains(shownPlots(), q.ID) {
			continue
		}
		p := Picture{q.ID, q.Title, string(q.SVG)}
		if a := rep.Resistance.Angles; slices.Contains(overFlexion(), q.ID) && len(a) > 1 {
			f := plot.Field()
			p.SVG = strings.Replace(p.SVG, "<svg ", fmt.Sprintf(`<svg data-across="%g %g" data-box="%g %g %g %g" `, a[0], a[len(a)-1], f[0], f[1], f[2], f[3]), 1)
		}
		out.Plots = append(out.Plots, p)
	}
	return out, nil
}

// scene puts the station in space into an answer, unless the page shows it already.
func (p *Page) scene(r *solver.Result, shown string, out *Answer) error {
	if r.Station.Assembly == nil {
		return nil
	}
	// The loads that the torque is judged at show in no scene: while one is dragged it
	// stays.
	f := r.Frame
	f.Resistance.Load.Light, f.Resistance.Load.Middle = 0, 0
	p.mu.Lock()
	last, kept := p.spaced, false
	if last.mark != "" && same(last.frame, f) {
		_, kept = p.scenes.get(last.mark)
	}
	p.mu.Unlock()
	if kept && last.mark == shown {
		out.Shown = shown
		return nil
	}
	j, err := p.judge(r.Frame.Asked)
	if err != nil {
		return err
	}
	scene, err := viewer.New(j, &r.Result)
	if err != nil {
		return err
	}
	data, err := json.Marshal(scene)
	if err != nil {
		return err
	}
	h := sha256.Sum256(data)
	out.Shown = hex.EncodeToString(h[:8])
	p.mu.Lock()
	p.scenes.put(out.Shown, scene)
	p.spaced = spaced{f, out.Shown}
	p.mu.Unlock()
	if out.Shown != shown {
		out.Scene = scene
	}
	return nil
}

// Meshes are the bodies of keys, those of them that the scenes of the last answers
// have.
func (p *Page) Meshes(keys []string) (map[string]viewer.Mesh, error) {
	p.mu.Lock()
	var scenes []*viewer.Scene
	for _, mark := range p.scenes.order {
		scenes = append(scenes, p.scenes.by[mark])
	}
	p.mu.Unlock()
	out := map[string]viewer.Mesh{}
	for _, k := range keys {
		for _, s := range slices.Backward(scenes) {
			m, ok, err := s.Body(k)
			if err != nil {
				return nil, err
			}
			if ok {
				out[k] = m
				break
			}
		}
	}
	return out, nil
}

// figures are the values by which designs are told apart, those that the station has:
// first those that its report tells first.
func figures(r *report.Report, res *solver.Result) []figure {
	var out []figure
	add := func(name string, v *float64, unit, best string) {
		if v != nil {
			out = append(out, figure{Name: name, Text: r.Units.Figure(*v, unit), Value: v, Best: best})
		}
	}
	for _, h := range r.Headline.Figures {
		best := "least"
		if h.Sense == "at least" {
			best = "most"
		}
		add(h.Name, &h.Value, h.Unit, best)
		out[len(out)-1].Requirement = h.Requirement
	}
	add("Drive ratio", r.Resistance.Cam.Ratio, "", "")
	add("Coverage", hundred(r.People.Coverage), "%", "most")
	if len(r.Seat.Positions) > 0 { // a bench has one axis
		axes := float64(len(r.Pivots.Right.Axes))
		out = append(out, figure{Name: "Axis positions", Text: plain(axes), Value: &axes, Best: "least"})
	}
	if mass := res.Station.Mass(); mass > 0 {
		add("Mass", &mass, "kg", "least")
		parts := 0.0
		for _, q := range r.Parts {
			parts += float64(q.Count)
		}
		out = append(out, figure{Name: "Parts", Text: plain(parts), Value: &parts, Best: "least"})
	}
	met := 0
	for _, q := range r.Requirements {
		if q.Met {
			met++
		}
	}
	out = append(out, figure{Name: "Requirements met", Text: strconv.Itoa(met) + " of " + strconv.Itoa(len(r.Requirements))})
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
