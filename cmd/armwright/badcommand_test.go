package main

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"armwright/cmd/armwright/storage"
)

// badCurves are CSV files of strength that no cam can follow.
func badCurves() []badCase {
	const text = "armwright: brief/1\nname: Own curve\nkind: cam-study\nresistance:\n  curve: c.csv\n  load: {light: 5 kg, middle: 20 kg, heavy: 40 kg}\n"
	curve := func(name, data string) badCase {
		return badCase{name: "curve: " + name, args: "design b.yaml --out out", files: map[string]string{"b.yaml": text, "c.csv": data}, code: exitInvalid, place: "c.csv"}
	}
	missing := curve("missing", "")
	missing.files, missing.code, missing.place = map[string]string{"b.yaml": text}, exitFailed, ""
	flag := curve("by a flag", "15,40\n30\n")
	flag.args, flag.files = "cam --curve c.csv", map[string]string{"c.csv": "15,40\n30\n"}
	return []badCase{
		missing, flag,
		curve("empty", ""),
		curve("heading alone", "flexion,strength\n"),
		curve("binary", "PK\x03\x04\x00\x01"),
		curve("one column", "15\n30\n60\n90\n"),
		curve("words", "flexion,strength\na,b\n"),
		curve("three points", "15,40\n60,50\n105,45\n"),
		curve("does not rise", "5,40\n60,50\n30,45\n130,40\n"),
		curve("twice the same flexion", "5,40\n60,50\n60,45\n130,40\n"),
		curve("strength of zero", "5,40\n60,0\n90,45\n130,40\n"),
		curve("strength negative", "5,40\n60,-5\n90,45\n130,40\n"),
		curve("strength infinite", "5,40\n60,Inf\n90,45\n130,40\n"),
		curve("flexion not a number", "5,40\nNaN,50\n90,45\n130,40\n"),
		curve("flexion beyond an elbow", "5,40\n60,50\n90,45\n230,40\n"),
		curve("short of the loaded range", "30,40\n60,50\n90,45\n110,40\n"),
		curve("unsteady", "5,100\n20,1\n22,100\n130,100\n"),
		curve("quote left open", "15,\"40\n30,41\n"),
		curve("units in the cells", "5 deg,40\n60 deg,50\n90 deg,45\n130 deg,40\n"),
		curve("decimal comma", "5;40,5\n60;50,5\n90;45,5\n130;40,5\n"),
		curve("too long", strings.Repeat("5,40\n", 300000)),
	}
}

// badUsage are command lines that mean nothing.
func badUsage() []badCase {
	var cases []badCase
	for _, c := range []struct{ name, args string }{
		{"unknown command", "solve b.yaml"},
		{"misspelt command", "desing b.yaml --out out"},
		{"unknown flag", "design b.yaml --out out --fast"},
		{"unknown short flag", "design b.yaml -x"},
		{"flag without its value", "design b.yaml --out"},
		{"no brief", "design --out out"},
		{"no folder to write", "design b.yaml"},
		{"two briefs", "design b.yaml c.yaml --out out"},
		{"unknown form of DXF", "design b.yaml --out out --dxf 2018"},
		{"welded class that is none", "design b.yaml --out out --welded E"},
		{"time limit without a unit", "design b.yaml --out out --time-limit 10"},
		{"time limit below zero", "design b.yaml --out out --time-limit -1s"},
		{"time limit in words", "design b.yaml --out out --time-limit soon"},
		{"no frame", "check"},
		{"force without a folder", "check f.yaml --force"},
		{"against with a folder", "check f.yaml --against g.yaml --out out"},
		{"persons and sample", "check f.yaml --people p.csv --sample 10"},
		{"persons and population", "check f.yaml --people p.csv --population survey"},
		{"frame and persons both from stdin", "check - --people -"},
		{"keep going without persons", "check f.yaml --keep-going"},
		{"unknown population", "check f.yaml --population martians"},
		{"sample below zero", "check f.yaml --sample -1"},
		{"sample too large", "check f.yaml --sample 10000001"},
		{"sample in words", "check f.yaml --sample many"},
		{"nothing to measure", "measure"},
		{"two folders to measure", "measure a b"},
		{"cam with an argument", "cam women-measured"},
		{"cam as table and JSON", "cam --csv --json"},
		{"load without a unit", "cam --load 20"},
		{"load as a length", "cam --load 20mm"},
		{"load not finite", "cam --load inf"},
		{"ratio swapped", "cam --ratio 2..1"},
		{"ratio of one end", "cam --ratio 2"},
		{"arm without a unit", "cam --least-arm 30"},
		{"unknown curve", "cam --curve strongest"},
		{"unknown cable", "cam --cable rope"},
		{"side unknown", "cam --side left"},
		{"match as a length", "cam --match 5mm"},
		{"unknown kind", "new tower"},
		{"unknown example", "new --example tower"},
		{"kind and example", "new reclined --example cam-study"},
		{"unknown list", "show engines"},
		{"unknown schema", "schema tower"},
		{"version of something", "version brief"},
	} {
		cases = append(cases, badCase{name: "usage: " + c.name, args: c.args, code: exitUsage})
	}
	for i, args := range []string{"cam --load 1000kg", "cam --least-arm 200mm --greatest-arm 100mm"} {
		cases = append(cases, badCase{name: []string{"usage: load out of range", "usage: arms swapped"}[i], args: args, code: exitUsage})
	}
	return cases
}

// badOutputs are places that cannot or must not be written.
func badOutputs(t *testing.T) []badCase {
	const study = "armwright: brief/1\nname: Study\nkind: cam-study\nresistance:\n  load: {light: 5 kg, middle: 20 kg, heavy: 40 kg}\n  ratio: 1..1\nlimits: {torque_match: 60 %}\n"
	output := func(name, args string, setup func(*testing.T) storage.Disk) badCase {
		return badCase{name: "output: " + name, args: args, files: map[string]string{"b.yaml": study, "f.yaml": studyFrame, "s.yaml": seatedFrame}, code: exitFailed, setup: setup}
	}
	fails := func(err error, at int) func(*testing.T) storage.Disk {
		return func(*testing.T) storage.Disk {
			return &faulty{at: at, after: true, err: &os.PathError{Op: "write", Path: "there", Err: err}}
		}
	}
	earlier := func(then func() error) func(t *testing.T) storage.Disk {
		return func(t *testing.T) storage.Disk {
			if err := errorsOf(put(storage.Machine{}, "out", "old"), then()); err != nil {
				t.Fatal(err)
			}
			return nil
		}
	}
	write := func(path string) error {
		return errorsOf(os.MkdirAll(filepath.Dir(path), 0o777), os.WriteFile(path, []byte("mine"), 0o666))
	}
	full := func(t *testing.T) io.Writer {
		f, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
		if err != nil {
			t.Skip("no such device here")
		}
		t.Cleanup(func() { f.Close() })
		return f
	}
	stdout := func(name, args string) badCase {
		c := output(name, args, nil)
		c.out = full
		return c
	}
	usage := func(c badCase) badCase { c.code = exitUsage; return c }
	long := strings.Repeat("x", 300)
	return []badCase{
		output("of somebody else", "design b.yaml --out out", func(t *testing.T) storage.Disk {
			if err := write("out/notes.txt"); err != nil {
				t.Fatal(err)
			}
			return nil
		}),
		output("of somebody else, by force", "design b.yaml --out out --force", func(t *testing.T) storage.Disk {
			if err := write("out/notes.txt"); err != nil {
				t.Fatal(err)
			}
			return nil
		}),
		output("changed since", "design b.yaml --out out", earlier(func() error { return write("out/a.txt") })),
		output("added to since", "design b.yaml --out out", earlier(func() error { return write("out/b/notes.txt") })),
		output("link out of it", "design b.yaml --out out", earlier(func() error {
			return errorsOf(write("safe/d.txt"), os.RemoveAll("out/b"), os.Symlink("../safe", "out/b"))
		})),
		output("file that became a link", "design b.yaml --out out", earlier(func() error {
			return errorsOf(write("safe.txt"), os.Remove("out/a.txt"), os.Symlink("../safe.txt", "out/a.txt"))
		})),
		output("manifest gone", "design b.yaml --out out", earlier(func() error { return os.Remove("out/" + storage.ManifestName) })),
		output("manifest broken", "design b.yaml --out out", earlier(func() error { return write("out/" + storage.ManifestName) })),
		output("holds the brief", "design b.yaml --out .", nil),
		output("is a file", "design b.yaml --out f.yaml", nil),
		output("below a file", "design b.yaml --out f.yaml/out", nil),
		output("a link to nothing", "design b.yaml --out out", func(t *testing.T) storage.Disk {
			if err := os.Symlink("nowhere", "out"); err != nil {
				t.Fatal(err)
			}
			return nil
		}),
		output("a link in a circle", "design b.yaml --out out", func(t *testing.T) storage.Disk {
			if err := os.Symlink("out", "out"); err != nil {
				t.Fatal(err)
			}
			return nil
		}),
		output("name too long", "design b.yaml --out "+long, nil),
		output("read-only disk", "design b.yaml --out out", fails(syscall.EROFS, 1)),
		output("folder one may not write to", "design b.yaml --out out", fails(syscall.EACCES, 1)),
		output("disk full at once", "design b.yaml --out out", fails(syscall.ENOSPC, 1)),
		output("disk full half way", "design b.yaml --out out", fails(syscall.ENOSPC, 20)),
		output("device broken", "design b.yaml --out out", fails(syscall.EIO, 20)),
		output("disk full, check", "check f.yaml --out out", fails(syscall.ENOSPC, 20)),
		output("disk full, cam", "cam --match 60% --out out", fails(syscall.ENOSPC, 20)),
		output("disk full, new", "new --out n.yaml", fails(syscall.ENOSPC, 3)),
		output("new over a file", "new --out b.yaml", nil),
		output("new in no folder", "new --out nowhere/n.yaml", nil),
		output("new over a link", "new --out n.yaml", func(t *testing.T) storage.Disk {
			if err := os.Symlink("nowhere", "n.yaml"); err != nil {
				t.Fatal(err)
			}
			return nil
		}),
		output("disk full, list of persons", "check s.yaml --list p.csv", fails(syscall.ENOSPC, 3)),
		output("list of persons on a full device", "check s.yaml --list /dev/full", nil),
		output("list of persons in no folder", "check s.yaml --list nowhere/p.csv", nil),
		output("list of persons is a folder", "check s.yaml --list .", nil),
		usage(output("list of persons over the frame", "check s.yaml --list s.yaml", nil)),
		stdout("stdout full, show", "show units"),
		stdout("stdout full, new", "new"),
		stdout("stdout full, schema", "schema"),
		stdout("stdout full, check", "check f.yaml"),
		stdout("stdout full, check as JSON", "check f.yaml --json"),
		stdout("stdout full, version", "version"),
		stdout("stdout full, help", "design --help"),
		output("missing brief", "design nowhere.yaml --out out", nil),
		output("folder for a brief", "design . --out out", nil),
		output("missing frame", "check nowhere.yaml", nil),
		output("missing frame to compare with", "check f.yaml --against nowhere.yaml", nil),
		output("brief below a file", "design b.yaml/x.yaml --out out", nil),
	}
}

// badDrawings are output folders that cannot be measured.
func badDrawings() []badCase {
	drawing := func(name string, code exitCode, files map[string]string) badCase {
		return badCase{name: "measure: " + name, args: "measure out", files: files, code: code}
	}
	const report = `{"schema": "armwright/report/1", "files": [{"path": "cut/cam.dxf"}]}`
	dxf := func(name, text string) badCase {
		return drawing(name, exitInvalid, map[string]string{"out/report.json": report, "out/cut/cam.dxf": text})
	}
	json := func(name, text string) badCase {
		c := drawing(name, exitInvalid, map[string]string{"out/report.json": text})
		c.place = "out/report.json"
		return c
	}
	link := drawing("link out of the folder", exitFailed, map[string]string{"out/report.json": report, "safe.dxf": "0\nEOF\n"})
	link.setup = func(t *testing.T) storage.Disk {
		if err := errorsOf(os.Mkdir("out/cut", 0o777), os.Symlink("../../safe.dxf", "out/cut/cam.dxf")); err != nil {
			t.Fatal(err)
		}
		return nil
	}
	return []badCase{
		link,
		drawing("missing", exitFailed, nil),
		drawing("a file", exitFailed, map[string]string{"out": "x"}),
		drawing("no report", exitFailed, map[string]string{"out/notes.txt": "x"}),
		drawing("no drawing", exitFailed, map[string]string{"out/report.json": report}),
		drawing("drawing outside", exitFailed, map[string]string{"out/report.json": `{"schema": "armwright/report/1", "files": [{"path": "../up.dxf"}]}`, "up.dxf": "0\nEOF\n"}),
		json("empty report", ""),
		json("report cut short", `{"schema": "armwright/report/1", "files": [`),
		json("report of words", "verdict: met\n"),
		json("report with a text for a number", "{\"schema\": \"armwright/report/1\",\n \"resistance\": {\"rms\": \"small\"}}"),
		json("report too deep", strings.Repeat("[", 20000)),
		json("report of another schema", `{"schema": "somebody/report/7"}`),
		json("report that lists nothing", `{"schema": "armwright/report/1"}`),
		dxf("empty drawing", ""),
		dxf("binary drawing", "\x00\x00SECTION\x00\x02\x00HEADER\x00"),
		dxf("drawing cut short", "0\nSECTION\n2\nENTITIES\n0\nLINE\n"),
		dxf("drawing of words", "this is\nno drawing\n"),
		dxf("drawing with a code without a value", "0\n"),
		dxf("drawing of a later release", "0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1032\n0\nENDSEC\n0\nEOF\n"),
		dxf("drawing not a number", "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n8\nCUT\n10\nnan\n20\n0\n40\n5\n0\nENDSEC\n0\nEOF\n"),
		dxf("drawing beyond measure", "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n8\nCUT\n10\n0\n20\n0\n40\n1e12\n0\nENDSEC\n0\nEOF\n"),
		dxf("drawing in space", "0\nSECTION\n2\nENTITIES\n0\n3DFACE\n8\nCUT\n0\nENDSEC\n0\nEOF\n"),
	}
}
