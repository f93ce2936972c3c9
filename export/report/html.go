package report

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"html/template"
	"io"
	"strings"

	"armwright/export/plot"
)

//go:embed page.tmpl
var pageSource string

//go:embed appendix.tmpl
var appendixSource string

// page is the template of a report. It is made for each: kept in a variable, a program
// that writes none would hold it too.
func page() *template.Template {
	return template.Must(template.New("report").Funcs(template.FuncMap{
		"handpath":  HandPathSentence,
		"turning":   TurnSentence,
		"tilts":     TiltSentence,
		"stature":   Statures,
		"optional":  Optional,
		"percent":   Percent,
		"part":      func(x float64) string { return Percent(&x) },
		"governing": Governing,
		"governed":  Governed,
		"burdened":  (*Report).burdened,
		"joined":    func(list []string) string { return strings.Join(list, "; ") },
		"short":     Short,
		"meaning":   Meaning,
		"held":      (*Report).HeldBack,
		"verdict":   VerdictWord,
		"picking":   Picking,
		"drive":     DriveSentence,
		"teeth":     Teeth,
		"next":      func(i int) int { return i + 1 },
		"efforts":   EffortSentences,
		"plots":     plotsOf,
		"style":     func() template.CSS { return template.CSS(plot.Style) },
		"status":    Status,
		"buys":      buys,
		"unpriced":  Unpriced,
		"table":     func(label string) template.HTMLAttr { return template.HTMLAttr(scrolling(label)) },
		"island":    island,
		"near":      func(list []HazardPair) []HazardPair { return withinReach(list, 250) },
	}).Parse(pageSource + appendixSource))
}

// HTML writes the report as one page that needs nothing else: no script, no
// network. It holds the JSON of the report in a data island with the id
// "report".
func HTML(w io.Writer, r *Report) error {
	var b bytes.Buffer
	if err := page().Execute(&b, r); err != nil {
		return err
	}
	_, err := b.WriteTo(w)
	return err
}

// scrolling are the attributes of a table's frame, which scrolls sideways where
// the page is narrow and so must be reached by the keyboard.
func scrolling(label string) string {
	return `class="wide" role="region" tabindex="0" aria-label="` + template.HTMLEscapeString(label) + `"`
}

// island is the report as compact JSON; json.Marshal escapes <, > and &, so
// that no text can end the element.
func island(r *Report) (template.JS, error) {
	b, err := json.Marshal(r)
	return template.JS(b), err
}
