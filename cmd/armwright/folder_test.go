package main

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"armwright/cmd/armwright/storage"
	"armwright/export/folder"
)

func held(t *testing.T, dir string) []string {
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
	files := []folder.File{{Path: "a.txt", Data: []byte("a")}, {Path: "b/c.txt", Data: []byte("c")}, aReport}
	for _, c := range []struct {
		name  string
		alter func(dir string) error
		want  storage.Contents
		file  string
	}{
		{"as written", func(string) error { return nil }, storage.Ours, ""},
		{"part removed", func(d string) error { return os.Remove(filepath.Join(d, "a.txt")) }, storage.Ours, ""},
		{"changed", func(d string) error { return os.WriteFile(filepath.Join(d, "b/c.txt"), nil, 0o666) }, storage.Changed, "b/c.txt"},
		{"added", func(d string) error { return os.WriteFile(filepath.Join(d, "b/d.txt"), nil, 0o666) }, storage.Changed, "b/d.txt"},
		{"folder added", func(d string) error { return os.Mkdir(filepath.Join(d, "b", "mine"), 0o777) }, storage.Changed, "b/mine"},
		{"manifest of somebody else", func(d string) error {
			return errorsOf(os.Remove(filepath.Join(d, "report.json")), os.WriteFile(filepath.Join(d, storage.ManifestName), []byte(storage.Digest([]byte("a"))+"  a.txt\n"), 0o666))
		}, storage.Foreign, ""},
		{"somebody else's report", func(d string) error {
			return os.WriteFile(filepath.Join(d, "report.json"), []byte(`{"schema": "other/report/1"}`), 0o666)
		}, storage.Foreign, ""},
		{"manifest empty", func(d string) error { return os.WriteFile(filepath.Join(d, storage.ManifestName), nil, 0o666) }, storage.Foreign, ""},
		{"manifest removed", func(d string) error { return os.Remove(filepath.Join(d, storage.ManifestName)) }, storage.Foreign, ""},
		{"manifest broken", func(d string) error {
			return os.WriteFile(filepath.Join(d, storage.ManifestName), []byte("x\n"), 0o666)
		}, storage.Foreign, ""},
		{"all removed", func(d string) error {
			return errorsOf(os.RemoveAll(filepath.Join(d, "b")), os.Remove(filepath.Join(d, "a.txt")), os.Remove(filepath.Join(d, "report.json")), os.Remove(filepath.Join(d, storage.ManifestName)))
		}, storage.Empty, ""},
	} {
		out := filepath.Join(t.TempDir(), "out")
		f, err := openFolder(&streams{disk: storage.Machine{}}, out, false)
		if err != nil {
			t.Fatal(err)
		}
		if err := f.Write(files); err != nil {
			t.Fatal(err)
		}
		if err := f.Commit(); err != nil {
			t.Fatal(err)
		}
		if err := c.alter(out); err != nil {
			t.Fatal(err)
		}
		v, err := storage.Inspect(out)
		if err != nil || v.State != c.want || v.Name != c.file {
			t.Errorf("%s: %v %q, error %v; want %v %q", c.name, v.State, v.Name, err, c.want, c.file)
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
	put := func(text string) *storage.Folder {
		f, err := openFolder(&streams{disk: storage.Machine{}}, out, false)
		if err != nil {
			t.Fatal(err)
		}
		if err := f.Write([]folder.File{{Path: "a.txt", Data: []byte(text)}, aReport}); err != nil {
			t.Fatal(err)
		}
		return f
	}
	f := put("first")
	if _, err := os.Stat(out); !os.IsNotExist(err) {
		t.Errorf("before commit: %v", err)
	}
	f.Discard()
	if names := held(t, box); len(names) != 0 {
		t.Errorf("after discard: %v", names)
	}
	if err := put("first").Commit(); err != nil {
		t.Fatal(err)
	}

	f = put("second")
	temp, err := filepath.Glob(filepath.Join(box, storage.TempPattern+"*", "new"))
	if err != nil || len(temp) != 1 {
		t.Fatal(temp, err)
	}
	if err := os.RemoveAll(temp[0]); err != nil {
		t.Fatal(err)
	}
	if err := f.Commit(); err == nil {
		t.Error("commit of nothing succeeds")
	}
	if data, err := os.ReadFile(filepath.Join(out, "a.txt")); err != nil || string(data) != "first" {
		t.Errorf("after a failed commit: %q, %v", data, err)
	}
	if err := put("third").Commit(); err != nil {
		t.Fatal(err)
	}
	if data, err := os.ReadFile(filepath.Join(out, "a.txt")); err != nil || string(data) != "third" {
		t.Errorf("after commit: %q, %v", data, err)
	}
	if names := held(t, box); len(names) != 1 {
		t.Errorf("beside the output: %v", names)
	}

	// A commit that fails takes the parents it made with it.
	f, err = openFolder(&streams{disk: storage.Machine{}}, filepath.Join(box, "p", "q", "out"), false)
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Commit(); err == nil {
		t.Error("commit of nothing succeeds")
	}
	if names := held(t, box); len(names) != 1 {
		t.Errorf("after a failed commit into new parents: %v", names)
	}
}

// A file that comes into the folder, or is changed in it, while a run is at work
// stays, by force or not, and the run says so: before the exchange, and in the
// moment of it.
func TestCommitKeepsWhatCameMeanwhile(t *testing.T) {
	for _, noSwap := range []bool{false, true} {
		for _, late := range []bool{false, true} {
			for _, force := range []bool{false, true} {
				out := filepath.Join(t.TempDir(), "out")
				if err := put(storage.Machine{}, out, "old"); err != nil {
					t.Fatal(err)
				}
				mine := filepath.Join(out, "b", "mine.txt")
				touch := func() {
					if err := os.WriteFile(mine, []byte("mine"), 0o666); err != nil {
						t.Fatal(err)
					}
				}
				d := &faulty{noSwap: noSwap}
				var disk storage.Disk = d
				if late {
					disk = &interfering{d, touch}
				}
				f, err := openFolder(&streams{disk: disk}, out, force)
				if err != nil {
					t.Fatal(err)
				}
				if err := f.Write(edition("new")); err != nil {
					t.Fatal(err)
				}
				if !late {
					touch()
				}
				if err := f.Commit(); !errors.Is(err, storage.ErrTouched) && (err == nil || !strings.Contains(err.Error(), storage.ErrTouched.Error())) {
					t.Fatalf("late %v: %v", late, err)
				}
				if data, err := os.ReadFile(mine); err != nil || string(data) != "mine" {
					t.Errorf("late %v, no swap %v: %q, %v", late, noSwap, data, err)
				}
				if err := os.Remove(mine); err != nil {
					t.Fatal(err)
				}
				if _, err := heldEdition(out, "old"); err != nil {
					t.Error(err)
				}
			}
		}
	}
}

// interfering is a disk on which somebody works at the moment of the exchange.
type interfering struct {
	*faulty
	touch func()
}

func (d *interfering) Keep(from, to string) error {
	d.touch()
	return d.faulty.Keep(from, to)
}

// A folder and its files keep the mode that somebody gave them.
func TestCommitKeepsModes(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out")
	if err := put(storage.Machine{}, out, "old"); err != nil {
		t.Fatal(err)
	}
	want := map[string]os.FileMode{"": 0o710 | os.ModeDir | os.ModeSetgid, "b": 0o770 | os.ModeDir, "a.txt": 0o640, "b/c.txt": 0o600}
	for name, mode := range want {
		if err := os.Chmod(filepath.Join(out, name), mode); err != nil {
			t.Fatal(err)
		}
	}
	if err := put(storage.Machine{}, out, "new"); err != nil {
		t.Fatal(err)
	}
	for name, mode := range want {
		if info, err := os.Stat(filepath.Join(out, name)); err != nil || info.Mode() != mode {
			t.Errorf("%q: %v, want %v (%v)", name, info.Mode(), mode, err)
		}
	}
	if _, err := heldEdition(out, "new"); err != nil {
		t.Error(err)
	}
}
