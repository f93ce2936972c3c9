// Package testdata hands out the files that more than one package tests
// against. README.md beside it says where each comes from. Names are those of
// the files without folder and ending; one that is not there is a programmer's
// mistake and panics. Nothing but tests imports it.
package testdata

import (
	"bytes"
	"compress/gzip"
	"embed"
	"flag"
	"io"
	"os"
	"path"
	"strconv"
	"strings"
	"testing"
)

//go:embed frames hostile conflicts people reports
var files embed.FS

// Frame is the file of a station that [Frames] lists.
func Frame(name string) []byte { return file("frames", name) }

// Frames lists solved stations, and one that is not met.
func Frames() []string { return names("frames") }

// Hostile is a brief or a frame that [HostileFiles] lists.
func Hostile(name string) []byte { return file("hostile", name) }

// HostileFiles lists briefs and frames that once broke the program.
func HostileFiles() []string { return names("hostile") }

// Conflict is the file of a brief that [Conflicts] lists.
func Conflict(name string) []byte { return file("conflicts", name) }

// Conflicts lists briefs that contradict themselves.
func Conflicts() []string { return names("conflicts") }

// Infeasible is a report.json made by hand from a real one: a brief that cannot be met,
// with a name that has to be escaped.
func Infeasible() []byte {
	data, err := files.ReadFile("reports/infeasible.json")
	if err != nil {
		panic(err)
	}
	return data
}

// Persons is a CSV table of 6068 measured persons.
func Persons() []byte {
	data, err := files.ReadFile("people/rows.csv.gz")
	if err != nil {
		panic(err)
	}
	in, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		panic(err)
	}
	if data, err = io.ReadAll(in); err != nil {
		panic(err)
	}
	return data
}

// LongSwitch is the environment variable that, set to anything, has the long
// searches and the runs in a browser among the tests.
const LongSwitch = "ARMWRIGHT_LONG"

// Long skips a test that takes its time unless [LongSwitch] asks for it.
func Long(t testing.TB) {
	t.Helper()
	if !IsLong() {
		t.Skip("takes its time; set " + LongSwitch + "=1")
	}
}

// Few is a list, or without [LongSwitch] its first n.
func Few[T any](n int, list ...T) []T {
	if IsLong() {
		return list
	}
	return list[:min(n, len(list))]
}

// Spread is a list, or without [LongSwitch] n of it from end to end.
func Spread[T any](n int, list ...T) []T {
	if IsLong() || len(list) <= n {
		return list
	}
	some := make([]T, n)
	for i := range some {
		some[i] = list[i*len(list)/n]
	}
	return some
}

// FewChecks has rapid draw n cases in a test, unless [LongSwitch] or its own flag asks
// for more.
func FewChecks(t testing.TB, n int) {
	t.Helper()
	checks := flag.Lookup("rapid.checks")
	if IsLong() || checks == nil || checks.Value.String() != checks.DefValue {
		return
	}
	t.Cleanup(func() { checks.Value.Set(checks.DefValue) })
	if err := checks.Value.Set(strconv.Itoa(n)); err != nil {
		t.Fatal(err)
	}
}

// IsLong reports whether [LongSwitch] asks for all that takes its time.
func IsLong() bool { return os.Getenv(LongSwitch) != "" }

func file(folder, name string) []byte {
	data, err := files.ReadFile(path.Join(folder, name+".yaml"))
	if err != nil {
		panic(err)
	}
	return data
}

func names(folder string) []string {
	list, err := files.ReadDir(folder)
	if err != nil {
		panic(err)
	}
	var out []string
	for _, f := range list {
		out = append(out, strings.TrimSuffix(f.Name(), ".yaml"))
	}
	return out
}
