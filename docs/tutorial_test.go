package docs_test

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"armwright/export/draw"
	"armwright/export/plot"
	"armwright/export/report"
	"armwright/testdata"
)

// step is one typed line of a tutorial, and what it shows of the answer.
type step struct {
	line    int
	command string
	shown   []string
}

// steps are the typed lines of a page: indented, after "$ ".
func steps(text string) (list []step) {
	for i, l := range strings.Split(text, "\n") {
		body, indented := strings.CutPrefix(l, "    ")
		command, typed := strings.CutPrefix(body, "$ ")
		switch {
		case !indented || strings.TrimSpace(body) == "":
			// Whatever is indented next without a typed line before it is no answer.
			if n := len(list); !indented && strings.TrimSpace(l) != "" && n > 0 {
				list[n-1].shown = append(list[n-1].shown, "...")
			}
		case typed:
			list = append(list, step{i + 1, command, nil})
		case len(list) > 0:
			list[len(list)-1].shown = append(list[len(list)-1].shown, body)
		}
	}
	return list
}

var number = regexp.MustCompile(`[+-]?\d+(?:\.\d+)?`)

// pattern is a shown line as a pattern for an answer's: any space for a space, any
// number for a number, anything for ...
func pattern(shown string) *regexp.Regexp {
	var b strings.Builder
	for i, part := range strings.Split(shown, "...") {
		if i > 0 {
			b.WriteString(`.*`)
		}
		for k, word := range strings.Fields(part) {
			if k > 0 {
				b.WriteString(`\s+`)
			}
			at := 0
			for _, n := range number.FindAllStringIndex(word, -1) {
				b.WriteString(regexp.QuoteMeta(word[at:n[0]]) + `(` + number.String() + `)`)
				at = n[1]
			}
			b.WriteString(regexp.QuoteMeta(word[at:]))
		}
	}
	return regexp.MustCompile(b.String())
}

// near reports whether a figure is what a page shows: a solver that gets better may move
// it by a fiftieth, or by one in its last digit.
func near(shown, got string) bool {
	_, digits, _ := strings.Cut(shown, ".")
	want, err := strconv.ParseFloat(shown, 64)
	if err != nil {
		return false
	}
	have, err := strconv.ParseFloat(got, 64)
	return err == nil && math.Abs(have-want) <= math.Max(0.02*math.Abs(want), 1.000001*math.Pow10(-len(digits)))
}

// missing is the first shown line that the answer does not have, in order, with its
// figures.
func missing(shown []string, answer string) string {
	lines := strings.Split(answer, "\n")
	at := 0
	for _, s := range shown {
		if strings.Trim(s, " .") == "" {
			continue
		}
		p, figures := pattern(s), number.FindAllString(s, -1)
		found := false
		for ; at < len(lines) && !found; at++ {
			m := p.FindStringSubmatch(lines[at])
			found = m != nil
			for i := range figures {
				found = found && near(figures[i], m[i+1])
			}
		}
		if !found {
			return s
		}
	}
	return ""
}

// Every line that a tutorial has its reader type works in an empty folder, in
// order, and answers in the page's words.
func TestTutorials(t *testing.T) {
	testdata.Long(t)
	shell, err := exec.LookPath("sh")
	if err != nil {
		t.Skip("no shell to type into")
	}
	bin := t.TempDir()
	if out, err := exec.Command("go", "build", "-o", filepath.Join(bin, "armwright"), "../cmd/armwright").CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	for _, name := range []string{"fabricator", "student", "manufacturer", "mechanism"} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			text := page(t, "tutorial/"+name+".md")
			list := steps(text)
			if len(list) < 5 {
				t.Fatalf("%d lines to type", len(list))
			}
			code := 0
			for i, s := range list {
				cmd := exec.Command(shell, "-c", fmt.Sprintf("(exit %d); %s", code, s.command))
				cmd.Dir = dir
				cmd.Env = append(os.Environ(), "PATH="+bin+string(os.PathListSeparator)+os.Getenv("PATH"), "NO_COLOR=1")
				out, err := cmd.CombinedOutput()
				var ended *exec.ExitError
				if err != nil && !errors.As(err, &ended) {
					t.Fatal(err)
				}
				code = cmd.ProcessState.ExitCode()
				asked := i+1 < len(list) && strings.HasPrefix(list[i+1].command, "echo $?")
				if code != 0 && !asked {
					t.Fatalf("%s.md:%d: %s: exit code %d\n%s", name, s.line, s.command, code, out)
				}
				if strings.HasPrefix(s.command, "echo $?") {
					if want := strings.TrimSpace(strings.Join(s.shown[:1], "")); strings.TrimSpace(string(out)) != want {
						t.Errorf("%s.md:%d: exit code %s, the page says %s", name, s.line, out, want)
					}
				} else if gone := missing(s.shown, string(out)); gone != "" {
					t.Errorf("%s.md:%d: %s does not answer %q:\n%s", name, s.line, s.command, gone, out)
				}
			}
		})
	}
}

func TestMissing(t *testing.T) {
	const answer = "first 1.5 mm\nsecond   -2 deg of it\nthird"
	for _, c := range []struct {
		shown []string
		want  string
	}{
		{[]string{"first 1.5 mm", "third"}, ""},
		{[]string{"...", "second -2 deg ..."}, ""},
		{[]string{"first 1.6 mm"}, ""},                  // the last digit
		{[]string{"first 1.7 mm"}, "first 1.7 mm"},      // more than that
		{[]string{"second 2 deg"}, "second 2 deg"},      // another sign
		{[]string{"first ... mm", "second...it"}, ""},   // left out
		{[]string{"third", "first 1 mm"}, "first 1 mm"}, // out of order
		{[]string{"first 1.5 in"}, "first 1.5 in"},
	} {
		if got := missing(c.shown, answer); got != c.want {
			t.Errorf("%v: %q is missing, want %q", c.shown, got, c.want)
		}
	}
}

// The pictures of the tutorials are drawn by the program, from the stations that
// the tutorials design.
func TestTutorialPictures(t *testing.T) {
	testdata.Long(t)
	drawn := map[string]bool{}
	for _, c := range []struct{ frame, name, plot, sheet string }{
		{"measuring/solved.yaml", "hall-footprint", "footprint", ""},
		{"measuring/solved.yaml", "hall-seat", "seat-setting", ""},
		{"measuring/solved.yaml", "hall-arrangement", "", "drawings/01-general-arrangement.svg"},
		{"tutorial/frames/bench.yaml", "bench-hardness", "hardness", ""},
		{"tutorial/frames/bench.yaml", "bench-torque", "torque", ""},
		{"tutorial/frames/fast.yaml", "fast-torque", "torque", ""},
		{"tutorial/frames/fast.yaml", "fast-cam", "", "drawings/03-cam.svg"},
		{"tutorial/frames/line.yaml", "line-coverage", "coverage", ""},
		{"tutorial/frames/line.yaml", "line-paths", "paths", ""},
		{"../testdata/frames/reclined-linkage.yaml", "bars-torque", "torque", ""},
		{"../testdata/frames/reclined-linkage.yaml", "bars-linkage", "", "drawings/03-linkage.svg"},
	} {
		r := judgedOn(t, c.frame, 400) // enough for the bands of stature
		var picture []byte
		if c.plot != "" {
			for _, p := range report.Plots(report.New(r, "armwright", nil)) {
				if p.ID == c.plot {
					picture = []byte(alone(string(p.SVG)))
				}
			}
		} else {
			files, err := draw.All(r, nil, draw.Options{})
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range files {
				if f.Path == c.sheet {
					picture = []byte(alone(string(f.Thumbnail)))
				}
			}
		}
		if len(picture) == 0 {
			t.Fatalf("%s: nothing drawn", c.name)
		}
		drawn[c.name+".svg"] = true
		kept(t, "tutorial/pictures/"+c.name+".svg", picture)
	}
	shown := regexp.MustCompile(`\]\(pictures/([^)]+)\)`)
	pages, err := filepath.Glob("tutorial/*.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range pages {
		for _, m := range shown.FindAllStringSubmatch(page(t, name), -1) {
			if !drawn[m[1]] {
				t.Errorf("%s shows %s, which nothing draws", name, m[1])
			}
			delete(drawn, m[1])
		}
	}
	for name := range drawn {
		t.Errorf("no page shows %s", name)
	}
}

// alone makes a fragment of a page a file of its own, on white.
func alone(fragment string) string {
	light := plot.Light()
	colours := strings.NewReplacer("var(--ink)", "#1c2024", "var(--rule)", "#d5d9dd", "var(--bad)", "#a32020",
		"var(--one)", light.One, "var(--two)", light.Two, "var(--three)", light.Three, "var(--band)", light.Band)
	head, rest, _ := strings.Cut(fragment, ">")
	box := regexp.MustCompile(`viewBox="0 0 ([0-9.]+) ([0-9.]+)"`).FindStringSubmatch(head)
	width, _ := strconv.ParseFloat(box[1], 64)
	head = strings.Replace(head, "<svg ", fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" width="%.0f" `, min(width, 480)), 1)
	var b bytes.Buffer
	b.WriteString(head + ">")
	if strings.Contains(head, `class="plot"`) {
		b.WriteString("<style>" + strings.TrimSpace(colours.Replace(plot.Style)) + "</style>")
		fmt.Fprintf(&b, `<rect width="%s" height="%s" fill="#fff"/>`, box[1], box[2])
	}
	b.WriteString(rest + "\n")
	return b.String()
}
