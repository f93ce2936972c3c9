package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"armwright/cmd/armwright/storage"
	"armwright/export/folder"
	"armwright/testdata"
)

// faulty is a disk on which operation number at fails, counted from 1, and
// with after also all that follow; at 0 none does. noSwap leaves it without
// the exchange of two folders.
type faulty struct {
	storage.Machine
	at     int
	after  bool
	noSwap bool
	err    error // nil is a full disk
	done   int   // operations so far
}

func (d *faulty) fault() error {
	if d.err != nil {
		return d.err
	}
	return &os.PathError{Op: "write", Path: "somewhere", Err: syscall.ENOSPC}
}

// fails counts an operation and says whether it is to fail.
func (d *faulty) fails() bool {
	d.done++
	return d.at > 0 && (d.done == d.at || d.after && d.done > d.at)
}

func (d *faulty) MkdirTemp(dir, pattern string) (string, error) {
	if d.fails() {
		return "", d.fault()
	}
	return d.Machine.MkdirTemp(dir, pattern)
}

func (d *faulty) MkdirAll(path string) error {
	if d.fails() {
		return d.fault()
	}
	return d.Machine.MkdirAll(path)
}

func (d *faulty) Rename(from, to string) error {
	if d.fails() {
		return d.fault()
	}
	return d.Machine.Rename(from, to)
}

func (d *faulty) Keep(from, to string) error {
	if d.fails() {
		return d.fault()
	}
	return d.Machine.Keep(from, to)
}

func (d *faulty) Swap(a, b string) error {
	switch {
	case d.noSwap:
		return errors.ErrUnsupported
	case d.fails():
		return d.fault()
	}
	return d.Machine.Swap(a, b)
}

func (d *faulty) Create(path string) (io.WriteCloser, error) {
	if d.fails() {
		return nil, d.fault()
	}
	f, err := d.Machine.Create(path)
	return &faultyFile{f, d}, err
}

func (d *faulty) Sync(paths []string) error {
	if d.fails() {
		return d.fault()
	}
	return d.Machine.Sync(paths)
}

type faultyFile struct {
	io.WriteCloser
	disk *faulty
}

// Write fails half way, as a full disk does.
func (f *faultyFile) Write(p []byte) (int, error) {
	if f.disk.fails() {
		n, _ := f.WriteCloser.Write(p[:len(p)/2])
		return n, f.disk.fault()
	}
	return f.WriteCloser.Write(p)
}

func (f *faultyFile) Close() error {
	err := f.WriteCloser.Close()
	if f.disk.fails() {
		return f.disk.fault()
	}
	return err
}

// edition is an output that fills several folders.
func edition(text string) []folder.File {
	var files []folder.File
	for _, path := range []string{"a.txt", "b/c.txt", "b/d.txt", "e.txt"} {
		files = append(files, folder.File{Path: path, Data: []byte(path + " " + text + "\n")})
	}
	return append(files, aReport)
}

// aReport is what makes an output one of ours.
var aReport = folder.File{Path: "report.json", Data: []byte(`{"schema": "armwright/report/1"}`)}

// heldEdition names the version that a folder holds whole, with its manifest
// and nothing else.
func heldEdition(dir string, texts ...string) (string, error) {
	v, err := storage.Inspect(dir)
	if err != nil || v.State != storage.Ours {
		return "", fmt.Errorf("%s: contents %d, file %s, %w", dir, v.State, v.Name, err)
	}
	for _, text := range texts {
		whole := true
		files := edition(text)
		for _, f := range append(files, storage.Manifest(files)) {
			data, err := os.ReadFile(filepath.Join(dir, f.Path))
			whole = whole && err == nil && bytes.Equal(data, f.Data)
		}
		if whole {
			return text, nil
		}
	}
	return "", fmt.Errorf("%s holds a mixture", dir)
}

// put writes one version of an output.
func put(d storage.Disk, out, text string) error {
	f, err := openFolder(&streams{disk: d}, out, false)
	if err != nil {
		return err
	}
	defer f.Discard()
	if err := f.Write(edition(text)); err != nil {
		return err
	}
	return f.Commit()
}

// Whichever operation fails, alone or with all that follow, the output folder
// is the old one or the new one, whole, and the error says what to do.
func TestFolderSurvivesEveryFault(t *testing.T) {
	for _, c := range []struct {
		name             string
		existing, noSwap bool
	}{{"new", false, false}, {"replaced in one step", true, false}, {"replaced in two steps", true, true}} {
		for _, after := range []bool{false, true} {
			failed := 0
			for at := 1; ; at++ {
				box := t.TempDir()
				out := filepath.Join(box, "out")
				if !c.existing {
					out = filepath.Join(box, "p", "q", "out")
				} else if err := put(storage.Machine{}, out, "old"); err != nil {
					t.Fatal(err)
				}
				d := &faulty{at: at, after: after, noSwap: c.noSwap}
				err := put(d, out, "new")
				at := fmt.Sprintf("%s, operation %d, after %v: %v", c.name, at, after, err)
				if d.done < d.at {
					if err != nil {
						t.Fatal(at)
					}
					break
				}
				failed++
				if err == nil {
					t.Fatalf("%s: the fault is not told", at)
				}
				if codeOf(err) != exitFailed || !strings.Contains(err.Error(), "no space left") || hintOf(err) == "" {
					t.Errorf("%s: exit %d, hint %q", at, codeOf(err), hintOf(err))
				}
				if _, place, told := strings.Cut(err.Error(), "the earlier output is in "); told {
					out = place
				} else if names := held(t, box); c.existing && len(names) != 1 || !c.existing && len(names) != 0 {
					t.Errorf("%s: left behind %v", at, names)
				}
				if !c.existing {
					continue
				}
				if _, err := heldEdition(out, "old"); err != nil {
					t.Errorf("%s: %v", at, err)
				}
			}
			if failed < 10 {
				t.Errorf("%s, after %v: only %d operations failed", c.name, after, failed)
			}
		}
	}
}

// The same through the whole command, for a few of its operations.
func TestDesignSurvivesFaults(t *testing.T) {
	testdata.Long(t)
	box := t.TempDir()
	out := filepath.Join(box, "out")
	design := func(d *faulty, load string) (int, string) {
		s, _, stderr := testStreams("")
		s.disk = d
		code := run(s, []string{"cam", "--quiet", "--match", "60%", "--load", load, "--out", out})
		return code, stderr.String()
	}
	counted := &faulty{}
	for _, d := range []*faulty{{}, counted} { // new, then replaced
		if code, said := design(d, "20kg"); code != 0 {
			t.Fatal(said)
		}
	}
	before, err := os.ReadFile(filepath.Join(out, storage.ManifestName))
	if err != nil {
		t.Fatal(err)
	}
	for _, at := range []int{1, 2, 3, counted.done / 2, counted.done - 1, counted.done} {
		code, said := design(&faulty{at: at}, "30kg")
		if code != int(exitFailed) || !strings.Contains(said, "no space left on device\nhint: make room, or write to another disk\n") {
			t.Errorf("operation %d of %d: exit %d, %s", at, counted.done, code, said)
		}
		after, err := os.ReadFile(filepath.Join(out, storage.ManifestName))
		if err != nil || !bytes.Equal(after, before) {
			t.Errorf("operation %d: another manifest, %v", at, err)
		}
		if v, err := storage.Inspect(out); v.State != storage.Ours || err != nil {
			t.Errorf("operation %d: %s, %v", at, v.Name, err)
		}
		if names := held(t, box); len(names) != 1 {
			t.Errorf("operation %d: left behind %v", at, names)
		}
	}
}

// The same for a single file.
func TestDocumentSurvivesEveryFault(t *testing.T) {
	for _, existing := range []bool{false, true} {
		failed := 0
		for at := 1; ; at++ {
			box := t.TempDir()
			path := filepath.Join(box, "list.csv")
			if existing {
				if err := os.WriteFile(path, []byte("old"), 0o666); err != nil {
					t.Fatal(err)
				}
			}
			d := &faulty{at: at}
			err := func() error {
				f, err := openDocument(&streams{disk: d}, path, "old", false)
				if err != nil {
					return err
				}
				defer f.Discard()
				for range 3 {
					if _, err := f.Write([]byte("new ")); err != nil {
						return err
					}
				}
				return f.Commit()
			}()
			if d.done < d.at {
				if data, _ := os.ReadFile(path); err != nil || string(data) != "new new new " {
					t.Errorf("without a fault: %q, %v", data, err)
				}
				break
			}
			failed++
			if codeOf(err) != exitFailed || hintOf(err) == "" {
				t.Errorf("operation %d: %v", at, err)
			}
			names := held(t, box)
			data, _ := os.ReadFile(path)
			if existing && (len(names) != 1 || string(data) != "old") || !existing && len(names) != 0 {
				t.Errorf("operation %d: %v, %q", at, names, data)
			}
		}
		if failed < 6 {
			t.Errorf("only %d operations failed", failed)
		}
	}
}

// A device is written straight, and stays a device.
func TestDocumentOfADevice(t *testing.T) {
	const full = "/dev/full"
	if _, err := os.Stat(full); err != nil {
		t.Skip("no such device here")
	}
	f, err := openDocument(&streams{disk: storage.Machine{}}, full, "old", false)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Discard()
	_, err = f.Write([]byte("x"))
	if !errors.Is(err, syscall.ENOSPC) {
		t.Errorf("writing to %s: %v", full, err)
	}
	if info, err := os.Stat(full); err != nil || info.Mode().IsRegular() {
		t.Errorf("%s is no device any more", full)
	}
}

// A real full disk, where one may mount one.
func TestFullDisk(t *testing.T) {
	box := t.TempDir()
	if out, err := exec.Command("mount", "-t", "tmpfs", "-o", "size=64k", "none", box).CombinedOutput(); err != nil {
		t.Skipf("cannot mount a small disk: %s", out)
	}
	defer func() {
		if out, err := exec.Command("umount", box).CombinedOutput(); err != nil {
			t.Errorf("%s", out)
		}
	}()
	if _, err := openFolder(&streams{disk: storage.Machine{}}, box, false); err == nil || !strings.Contains(err.Error(), "a disk is mounted there") {
		t.Errorf("a folder that is a disk: %v", err)
	}
	out := filepath.Join(box, "out")
	if err := put(storage.Machine{}, out, "old"); err != nil {
		t.Fatal(err)
	}
	err := put(storage.Machine{}, out, strings.Repeat("x", 20<<10))
	if !errors.Is(err, syscall.ENOSPC) || hintOf(err) != "make room, or write to another disk" {
		t.Errorf("error %v, hint %q", err, hintOf(err))
	}
	if _, err := heldEdition(out, "old"); err != nil {
		t.Error(err)
	}
	if names := held(t, box); len(names) != 1 {
		t.Errorf("left behind: %v", names)
	}
}

// alternate writes two versions of an output in turns until it is killed.
func alternate() {
	for i := 0; ; i++ {
		if err := put(storage.Machine{}, os.Args[1], []string{"odd", "even"}[i%2]); err != nil {
			fmt.Println(err)
			os.Exit(1)
		}
		fmt.Println(i)
	}
}

// Killed at any moment, a run leaves the old output or the new.
func TestKilledAtAnyMoment(t *testing.T) {
	testdata.Long(t)
	random := rand.New(rand.NewPCG(1, 2))
	kills := 60
	if testing.Short() {
		kills = 10
	}
	box := t.TempDir()
	out := filepath.Join(box, "out")
	if err := put(storage.Machine{}, out, "odd"); err != nil {
		t.Fatal(err)
	}
	if err := (storage.Machine{}).Swap(out, out); errors.Is(err, errors.ErrUnsupported) {
		t.Skip("this file system cannot exchange folders")
	}
	held := map[string]int{}
	for range kills {
		cmd := exec.Command("alternate", out)
		said, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		// Killed some way into the write after the first or after the second: what a
		// write takes is measured, as disks differ a hundredfold.
		lines := bufio.NewReader(said)
		begun := time.Now()
		writes := 1 + random.IntN(2)
		for range writes {
			if _, err := lines.ReadString('\n'); err != nil {
				t.Fatal(err)
			}
		}
		time.Sleep(time.Duration(random.Float64() * float64(time.Since(begun)) / float64(writes)))
		_ = cmd.Process.Kill()
		if err := cmd.Wait(); err == nil || cmd.ProcessState.ExitCode() == 1 {
			t.Fatalf("not killed: %v", err)
		}
		text, err := heldEdition(out, "odd", "even")
		if err != nil {
			t.Fatal(err)
		}
		held[text]++
	}
	if len(held) != 2 && !testing.Short() {
		t.Errorf("of %d kills all found the same version", kills)
	}
}
