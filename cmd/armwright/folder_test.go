package main

import (
	"os"
	"path/filepath"
	"testing"

	"armwright/export/draw"
)

func listing(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

func TestInspect(t *testing.T) {
	files := []draw.File{{Path: "a.txt", Data: []byte("a")}, {Path: "b/c.txt", Data: []byte("c")}}
	for _, c := range []struct {
		name  string
		alter func(dir string) error
		want  contents
		file  string
	}{
		{"as written", func(string) error { return nil }, ours, ""},
		{"part removed", func(d string) error { return os.Remove(filepath.Join(d, "a.txt")) }, ours, ""},
		{"changed", func(d string) error { return os.WriteFile(filepath.Join(d, "b/c.txt"), nil, 0o666) }, changed, "b/c.txt"},
		{"added", func(d string) error { return os.WriteFile(filepath.Join(d, "b/d.txt"), nil, 0o666) }, changed, "b/d.txt"},
		{"manifest removed", func(d string) error { return os.Remove(filepath.Join(d, manifestName)) }, foreign, ""},
		{"manifest broken", func(d string) error { return os.WriteFile(filepath.Join(d, manifestName), []byte("x\n"), 0o666) }, foreign, ""},
		{"all removed", func(d string) error {
			return errorsOf(os.RemoveAll(filepath.Join(d, "b")), os.Remove(filepath.Join(d, "a.txt")), os.Remove(filepath.Join(d, manifestName)))
		}, empty, ""},
	} {
		out := filepath.Join(t.TempDir(), "out")
		f, err := openFolder(machine{}, out, "-", false)
		if err != nil {
			t.Fatal(err)
		}
		if err := f.write(files); err != nil {
			t.Fatal(err)
		}
		if err := f.commit(); err != nil {
			t.Fatal(err)
		}
		if err := c.alter(out); err != nil {
			t.Fatal(err)
		}
		state, name, err := inspect(out)
		if err != nil || state != c.want || name != c.file {
			t.Errorf("%s: %v %q, error %v; want %v %q", c.name, state, name, err, c.want, c.file)
		}
	}
}

func errorsOf(list ...error) error {
	for _, err := range list {
		if err != nil {
			return err
		}
	}
	return nil
}

// Until commit there is nothing to see but the temporary folder; when commit
// fails, what was there is there again.
func TestCommitIsAllOrNothing(t *testing.T) {
	box := t.TempDir()
	out := filepath.Join(box, "out")
	put := func(text string) *folder {
		f, err := openFolder(machine{}, out, "-", false)
		if err != nil {
			t.Fatal(err)
		}
		if err := f.write([]draw.File{{Path: "a.txt", Data: []byte(text)}}); err != nil {
			t.Fatal(err)
		}
		return f
	}
	f := put("first")
	if _, err := os.Stat(out); !os.IsNotExist(err) {
		t.Errorf("before commit: %v", err)
	}
	f.discard()
	if names := listing(t, box); len(names) != 0 {
		t.Errorf("after discard: %v", names)
	}
	if err := put("first").commit(); err != nil {
		t.Fatal(err)
	}

	f = put("second")
	if err := os.RemoveAll(f.next()); err != nil {
		t.Fatal(err)
	}
	if err := f.commit(); err == nil {
		t.Error("commit of nothing succeeds")
	}
	if data, err := os.ReadFile(filepath.Join(out, "a.txt")); err != nil || string(data) != "first" {
		t.Errorf("after a failed commit: %q, %v", data, err)
	}
	if err := put("third").commit(); err != nil {
		t.Fatal(err)
	}
	if data, err := os.ReadFile(filepath.Join(out, "a.txt")); err != nil || string(data) != "third" {
		t.Errorf("after commit: %q, %v", data, err)
	}
	if names := listing(t, box); len(names) != 1 {
		t.Errorf("beside the output: %v", names)
	}

	// A commit that fails takes the parents it made with it.
	f, err := openFolder(machine{}, filepath.Join(box, "p", "q", "out"), "-", false)
	if err != nil {
		t.Fatal(err)
	}
	if err := f.commit(); err == nil {
		t.Error("commit of nothing succeeds")
	}
	if names := listing(t, box); len(names) != 1 {
		t.Errorf("after a failed commit into new parents: %v", names)
	}
}
