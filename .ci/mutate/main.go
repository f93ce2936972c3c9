// Command mutate changes one small thing in the source at a time and asks whether
// the tests of its package notice. What no test notices is listed: a test is missing
// there, or the change makes no difference, which explained.txt says why.
//
//	go run ./.ci/mutate -n 40 ./geometry/... ./export/svg
//
// Nothing in the tree is touched: the changed file is given to the Go command as an
// overlay. The same seed takes the same sample of the same source.
package main

import (
	"cmp"
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// habit are the packages whose tests are to notice.
var habit = []string{"./geometry/...", "./solver/...", "./specs/stock", "./export/measure", "./export/svg"}

func main() {
	n := flag.Int("n", 40, "changes to try in all, spread over the packages by their number; 0 for every one")
	seed := flag.Uint64("seed", 1, "which sample")
	run := flag.String("run", "", "only these tests, as of go test")
	also := flag.String("also", "", "packages, with commas between, whose tests are asked too where the package's own do not notice")
	short := flag.Bool("short", false, "leave out long tests")
	list := flag.Bool("list", false, "list the changes and try none")
	explained := flag.String("explained", ".ci/mutate/explained.txt", "survivors that are known, each with its reason")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	patterns := flag.Args()
	if len(patterns) == 0 {
		patterns = habit
	}
	if err := habitually(ctx, patterns, options{*n, *seed, *run, strings.FieldsFunc(*also, func(r rune) bool { return r == ',' }), *short, *list, *explained}); err != nil {
		fmt.Fprintln(os.Stderr, "mutate:", err)
		os.Exit(1)
	}
}

type options struct {
	n           int
	seed        uint64
	run         string
	also        []string
	short, list bool
	explained   string
}

// fate is what became of a change.
type fate int

const (
	killed   fate = iota
	survived      // no test failed
	known         // survived, and it is explained why
	unbuilt       // does not compile, and says nothing
)

// tally counts fates of a package.
type tally [4]int

func habitually(ctx context.Context, patterns []string, o options) error {
	packages, err := goList(ctx, patterns)
	if err != nil {
		return err
	}
	reasons, err := readExplained(o.explained)
	if err != nil {
		return err
	}
	var all []mutant
	for _, p := range packages {
		list, err := mutants(p)
		if err != nil {
			return err
		}
		all = append(all, list...)
	}
	if o.n > 0 && o.n < len(all) {
		r := rand.New(rand.NewPCG(o.seed, 0))
		r.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
		all = all[:o.n]
		slices.SortFunc(all, func(a, b mutant) int { return cmp.Or(cmp.Compare(a.file, b.file), cmp.Compare(a.from, b.from)) })
	}
	if o.list {
		for _, m := range all {
			fmt.Println(m)
		}
		return nil
	}
	t := tester{o: o, base: map[string]time.Duration{}}
	if t.dir, err = os.MkdirTemp("", "mutate-"); err != nil {
		return err
	}
	defer os.RemoveAll(t.dir)
	by := map[string]*tally{}
	var survivors []mutant
	for i, m := range all {
		f, err := t.try(ctx, m)
		if ctx.Err() != nil {
			break
		}
		if err != nil {
			return err
		}
		if f == survived && reasons[m.key()] != "" {
			f = known
		}
		if by[m.pkg.path] == nil {
			by[m.pkg.path] = &tally{}
		}
		by[m.pkg.path][f]++
		if f == survived {
			survivors = append(survivors, m)
			fmt.Printf("survived: %v\n", m)
		}
		fmt.Fprintf(os.Stderr, "\r%d of %d ", i+1, len(all))
	}
	fmt.Fprintln(os.Stderr)
	report(by)
	if len(survivors) > 0 {
		fmt.Println("\nFor explained.txt, each with a reason behind it:")
		for _, m := range survivors {
			fmt.Printf("%s # \n", m.key())
		}
	}
	return nil
}

// report prints the tallies, packages in order, and all together.
func report(by map[string]*tally) {
	names := make([]string, 0, len(by))
	for name := range by {
		names = append(names, name)
	}
	slices.Sort(names)
	var all tally
	line := func(name string, t tally) {
		noticed := "-"
		if tried := t[killed] + t[survived]; tried > 0 {
			noticed = fmt.Sprintf("%.0f %%", 100*float64(t[killed])/float64(tried))
		}
		fmt.Printf("%-28s %8d %9d %9d %9d %8s\n", name, t[killed], t[survived], t[known], t[unbuilt], noticed)
	}
	fmt.Printf("\n%-28s %8s %9s %9s %9s %8s\n", "package", "killed", "survived", "explained", "unbuilt", "noticed")
	for _, name := range names {
		for f, n := range by[name] {
			all[f] += n
		}
		line(strings.TrimPrefix(name, "armwright/"), *by[name])
	}
	line("all", all)
}

// tester tries changes one after another.
type tester struct {
	o    options
	dir  string
	base map[string]time.Duration // of a package's tests as they are
}

// try tells what becomes of one change.
func (t *tester) try(ctx context.Context, m mutant) (fate, error) {
	if _, ok := t.base[m.pkg.path]; !ok {
		start := time.Now()
		if out, err := t.test(ctx, m.pkg, 20*time.Minute, ""); err != nil && ctx.Err() == nil {
			return 0, fmt.Errorf("the tests of %s fail as they are: %w\n%s", m.pkg.path, err, out)
		}
		t.base[m.pkg.path] = time.Since(start)
	}
	changed := filepath.Join(t.dir, "changed.go")
	overlay := filepath.Join(t.dir, "overlay.json")
	text, err := m.apply()
	if err == nil {
		err = os.WriteFile(changed, text, 0o666)
	}
	if err == nil {
		err = os.WriteFile(overlay, fmt.Appendf(nil, `{"Replace": {%q: %q}}`, m.file, changed), 0o666)
	}
	if err != nil {
		return 0, err
	}
	// An endless loop is noticed too.
	out, err := t.test(ctx, m.pkg, 10*time.Second+3*t.base[m.pkg.path], overlay)
	for _, path := range t.o.also {
		if err == nil {
			out, err = t.test(ctx, goPackage{path: path}, 10*time.Minute, overlay)
		}
	}
	switch {
	case err == nil:
		return survived, nil
	case strings.Contains(string(out), "[build failed]") || strings.Contains(string(out), "[setup failed]"):
		return unbuilt, nil
	}
	return killed, nil
}

// test runs the tests of a package.
func (t *tester) test(ctx context.Context, p goPackage, limit time.Duration, overlay string) ([]byte, error) {
	args := []string{"test", "-failfast", "-vet=off", "-count=1", "-timeout", limit.String()}
	if overlay != "" {
		args = append(args, "-overlay", overlay)
	}
	if t.o.short {
		args = append(args, "-short")
	}
	if t.o.run != "" {
		args = append(args, "-run", t.o.run)
	}
	return exec.CommandContext(ctx, "go", append(args, p.path)...).CombinedOutput()
}

// readExplained reads lines "key # reason"; a line that begins with # is a remark.
func readExplained(path string) (map[string]string, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	reasons := map[string]string{}
	for l := range strings.Lines(string(data)) {
		key, reason, ok := strings.Cut(strings.TrimSpace(l), " # ")
		if ok && !strings.HasPrefix(l, "#") {
			reasons[strings.TrimSpace(key)] = strings.TrimSpace(reason)
		}
	}
	return reasons, nil
}
