//go:build unix

package main

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"armwright/specs"
	"armwright/testdata"

	"github.com/goccy/go-yaml"
)

// framesSwitch is the environment variable with the number of random frames, or with
// the first and the last of them, as 1000-1999.
const framesSwitch = "ARMWRIGHT_FRAMES"

// What a run on a random frame may take.
const (
	mostFrameTime   = 60 * time.Second
	mostFrameMemory = 300 << 10 // kB, largest resident size
)

// Frames of the examples, of which a few values are dropped, set to an end of their
// range or just beyond it, to another word or swapped with another value: each is
// judged, or refused with place and hint. Nothing that is not a number comes out,
// time and memory stay bounded, and what is drawn measures up.
func TestRandomFrames(t *testing.T) {
	first, n := 0, 8
	if testdata.IsLong() {
		n = 200
	}
	if text := os.Getenv(framesSwitch); text != "" {
		from, to, part := strings.Cut(text, "-")
		var err error
		if n, err = strconv.Atoi(from); err == nil && part {
			first = n
			n, err = strconv.Atoi(to)
			n++
		}
		if err != nil || n <= first {
			t.Fatalf("%s=%s is no number of frames", framesSwitch, text)
		}
	}
	g := newFrameMaker(t)
	var codes sync.Map
	numbers := make(chan int)
	var all sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), 4) {
		all.Go(func() {
			for i := range numbers {
				code := tryFrame(t, i, g.frame(uint64(i)))
				count, _ := codes.LoadOrStore(code, new(sync.Map))
				count.(*sync.Map).Store(i, true)
			}
		})
	}
	for i := first; i < n; i++ {
		numbers <- i
	}
	close(numbers)
	all.Wait()
	codes.Range(func(code, list any) bool {
		count := 0
		list.(*sync.Map).Range(func(any, any) bool { count++; return true })
		t.Logf("exit %d: %d frames", code, count)
		if count < (n-first)/20 {
			t.Errorf("only %d of %d frames end with exit %d: the draw is one-sided", count, n-first, code)
		}
		return true
	})
}

// tryFrame runs the commands on a frame and returns the exit code of check.
func tryFrame(t *testing.T, i int, frame []byte) exitCode {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "f.yaml"), frame, 0o666); err != nil {
		t.Error(err)
		return -1
	}
	fault := func(format string, args ...any) {
		keep := filepath.Join(os.TempDir(), fmt.Sprintf("armwright-frame-%d.yaml", i))
		_ = os.WriteFile(keep, frame, 0o666)
		t.Errorf("frame %d, %s: %s", i, keep, fmt.Sprintf(format, args...))
	}
	do := func(args ...string) exitCode {
		cmd := exec.Command("armwright", args...)
		cmd.Dir = dir
		var out, talk bytes.Buffer
		cmd.Stdout, cmd.Stderr = &out, &talk
		if err := cmd.Start(); err != nil {
			fault("%v", err)
			return -1
		}
		timer := time.AfterFunc(mostFrameTime, func() { _ = cmd.Process.Kill() })
		_ = cmd.Wait()
		if !timer.Stop() {
			fault("%v: more than %v", args, mostFrameTime)
		}
		code := exitCode(cmd.ProcessState.ExitCode())
		if usage, ok := cmd.ProcessState.SysUsage().(*syscall.Rusage); ok && usage.Maxrss > mostFrameMemory && runtime.GOOS == "linux" {
			fault("%v: %d MB", args, usage.Maxrss>>10)
		}
		switch code {
		case exitMet, exitNotMet:
			if notANumber.Match(out.Bytes()) {
				fault("%v: %s in the output", args, notANumber.Find(out.Bytes()))
			}
		case exitInvalid:
			if !placedInFrame.Match(talk.Bytes()) || !bytes.Contains(talk.Bytes(), []byte("hint: ")) {
				fault("%v: no place or hint in: %s", args, talk.Bytes())
			}
		case exitDrift: // measure's, for the caller to judge
		default:
			fault("%v: exit %d: %.400s", args, code, talk.Bytes())
		}
		return code
	}
	code := do("check", "f.yaml", "--json")
	switch i % 5 {
	case 0:
		again := do("check", "f.yaml", "--out", "out", "--quiet")
		if code == exitNotMet && again == exitInvalid {
			break // judged, but its cam cannot be cut
		}
		if again != code {
			fault("exit %d with --out, %d without", again, code)
		} else if code != exitInvalid {
			// What cannot be made where its frame has it is drawn as near as it can be.
			if found := do("measure", "out"); found != exitMet && (found != exitDrift || makeable(t, dir)) {
				fault("measure: exit %d", found)
			}
		}
	case 1:
		if found := do("tolerance", "f.yaml", "--builds", "5", "--json"); found != exitMet && found != code {
			fault("tolerance: exit %d where check has %d", found, code)
		}
	}
	return code
}

// makeable reports whether the parts of the station written in a folder have the room that
// they need.
func makeable(t *testing.T, dir string) bool {
	data, err := os.ReadFile(filepath.Join(dir, "out", "report.json"))
	if err != nil {
		t.Error(err)
		return true
	}
	type requirement struct {
		ID  string
		Met bool
	}
	var r struct{ Requirements []requirement }
	if err := json.Unmarshal(data, &r); err != nil {
		t.Error(err)
	}
	return !slices.Contains(r.Requirements, requirement{"frame-clear", false})
}

var (
	notANumber    = regexp.MustCompile(`\b(NaN|[+-]?Inf|inf)\b`)
	placedInFrame = regexp.MustCompile(`(?m)^f\.yaml:[1-9][0-9]*:[1-9][0-9]*: .`)
)

// frameMaker draws frames.
type frameMaker struct {
	bases  []map[string]any
	leaves []frameLeaf
}

// frameLeaf is a value of a frame as the schema tells of it.
type frameLeaf struct {
	path []string
	good []any // words, both ends of its range, what lies between
	bad  []any // just beyond, and what is nothing of the kind
}

func newFrameMaker(t *testing.T) *frameMaker {
	g := &frameMaker{}
	for _, name := range testdata.Frames() {
		f, err := specs.ParseFrame(name, testdata.Frame(name))
		if err != nil {
			t.Fatal(err)
		}
		f.People.Sample = 100
		var text bytes.Buffer
		if err := specs.WriteFrame(&text, f); err != nil {
			t.Fatal(err)
		}
		var tree map[string]any
		if err := yaml.Unmarshal(text.Bytes(), &tree); err != nil {
			t.Fatal(err)
		}
		g.bases = append(g.bases, tree)
	}
	text, err := specs.Schema("frame")
	if err != nil {
		t.Fatal(err)
	}
	var schema map[string]any
	if err := json.Unmarshal(text, &schema); err != nil {
		t.Fatal(err)
	}
	g.walk(nil, schema)
	if len(g.leaves) < 150 {
		t.Fatalf("only %d values in the schema", len(g.leaves))
	}
	return g
}

// described are the ends of a range in a schema's description.
var described = regexp.MustCompile(`\((-?[0-9.]+)( [^ )]+)? to (-?[0-9.]+)( [^ )]+)?\)$`)

// walk collects the values below a schema.
func (g *frameMaker) walk(path []string, s map[string]any) {
	if properties, ok := s["properties"].(map[string]any); ok {
		for _, key := range slices.Sorted(maps.Keys(properties)) {
			g.walk(append(slices.Clone(path), key), properties[key].(map[string]any))
		}
		if len(path) > 0 { // a section as a whole
			g.leaves = append(g.leaves, frameLeaf{path: path, bad: []any{"", nil}})
		}
		return
	}
	leaf := frameLeaf{path: path}
	leaf.good, _ = s["enum"].([]any)
	text, _ := s["description"].(string)
	ends := described.FindStringSubmatch(text)
	if ends == nil {
		leaf.bad = []any{"x", strings.Repeat("x", 100), 7}
		g.leaves = append(g.leaves, leaf)
		return
	}
	from, _ := strconv.ParseFloat(ends[1], 64)
	to, _ := strconv.ParseFloat(ends[3], 64)
	beyond := (to - from) / 1000
	told := func(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) + ends[2] }
	a, b, middle := told(from), told(to), told((from+to)/2)
	switch {
	case s["type"] == "integer":
		leaf.good, leaf.bad = []any{int(from), int(to), int(from + 1), int((from + to) / 2)}, []any{int(from) - 1, int(to) + 1, 1.5}
	case s["type"] == "number":
		leaf.good, leaf.bad = []any{from, to, (from + to) / 2}, []any{from - beyond, to + beyond, "nan"}
	case s["type"] == "array":
		leaf.good = []any{[]any{a, b, a, b}, []any{a, a, a, a, a}, []any{b, b, b, b}, slices.Repeat([]any{middle}, 1000)}
		leaf.bad = []any{[]any{middle, middle, middle}, slices.Repeat([]any{middle}, 1001)}
	case s["anyOf"] != nil:
		leaf.good = []any{a + ".." + b, middle + ".." + b, a + ".." + middle}
		leaf.bad = []any{b + ".." + a, a + ".." + a, told(from-beyond) + ".." + b}
	default:
		leaf.good = []any{a, b, middle, told(from + beyond), told(to - beyond)}
		leaf.bad = []any{told(from - beyond), told(to + beyond), "nan" + ends[2]}
	}
	g.leaves = append(g.leaves, leaf)
}

// frame draws one frame.
func (g *frameMaker) frame(number uint64) []byte {
	r := rand.New(rand.NewPCG(number, 2026))
	tree := cloned(g.bases[r.IntN(len(g.bases))]).(map[string]any)
	for range 1 + r.IntN(3) {
		leaf := g.leaves[r.IntN(len(g.leaves))]
		if g.geometric(r) {
			for leaf.path[0] != "geometry" {
				leaf = g.leaves[r.IntN(len(g.leaves))]
			}
		}
		section, key := sectionOf(tree, leaf.path)
		if section == nil {
			continue
		}
		_, there := section[key]
		switch kind := r.IntN(16); {
		case kind == 0:
			delete(section, key)
		case kind == 1 && len(leaf.bad) > 0:
			section[key] = leaf.bad[r.IntN(len(leaf.bad))]
		case kind <= 3 && there: // swapped with a neighbour
			keys := slices.Sorted(maps.Keys(section))
			other := keys[r.IntN(len(keys))]
			section[key], section[other] = section[other], section[key]
		case len(leaf.good) > 0:
			section[key] = leaf.good[r.IntN(len(leaf.good))]
		}
	}
	text, err := yaml.Marshal(ordered(tree))
	if err != nil {
		panic(err)
	}
	return text
}

// geometric has two of three changes in the geometry: the rest is a brief's.
func (g *frameMaker) geometric(r *rand.Rand) bool { return r.IntN(3) > 0 }

// sectionOf is the section that holds the last key of a path; nil where the frame
// has none. Axes are taken as the first.
func sectionOf(tree map[string]any, path []string) (map[string]any, string) {
	for _, key := range path[:len(path)-1] {
		switch v := tree[key].(type) {
		case map[string]any:
			tree = v
		default:
			return nil, ""
		}
	}
	return tree, path[len(path)-1]
}

func cloned(v any) any {
	switch v := v.(type) {
	case map[string]any:
		out := map[string]any{}
		for k, w := range v {
			out[k] = cloned(w)
		}
		return out
	case []any:
		out := make([]any, len(v))
		for i, w := range v {
			out[i] = cloned(w)
		}
		return out
	}
	return v
}

// ordered is a tree whose keys are written in one order.
func ordered(v any) any {
	tree, ok := v.(map[string]any)
	if !ok {
		return v
	}
	var out yaml.MapSlice
	for key, w := range tree {
		out = append(out, yaml.MapItem{Key: key, Value: ordered(w)})
	}
	slices.SortFunc(out, func(a, b yaml.MapItem) int { return cmp.Compare(a.Key.(string), b.Key.(string)) })
	return out
}
