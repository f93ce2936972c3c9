//go:build unix

package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"
	"time"
)

// Whatever a command is at, one signal ends it soon, with its exit code, and
// leaves no temporary file. It is asked for within 0.3 s; a busy machine may take
// longer to get round to it.
func TestEndsWhenInterrupted(t *testing.T) {
	const soon = 1500 * time.Millisecond
	dir := t.TempDir()
	write := func(name string, data []byte) {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	write("s.yaml", []byte(seatedFrame))
	var table bytes.Buffer
	table.WriteString("label,sex,stature_mm,mass_kg\n")
	for i := range 400_000 {
		fmt.Fprintf(&table, "%d,man,%d,%d\n", i, 1600+i%300, 60+i%50)
	}
	write("many.csv", table.Bytes())
	if err := syscall.Mkfifo(filepath.Join(dir, "pipe"), 0o666); err != nil {
		t.Skip(err)
	}
	for _, args := range [][]string{
		{"check", "pipe"},
		{"check", "s.yaml", "--people", "pipe"},
		{"check", "s.yaml", "--people", "many.csv", "--list", "list.csv"},
		{"check", "s.yaml", "--sample", "10000000", "--out", "out"},
		{"design", "pipe", "--out", "out"},
		{"tolerance", "s.yaml", "--builds", "200000", "--plot", "plot.svg"},
		{"sweep", "s.yaml", "--vary", "limits.hand_path=8 mm..20 mm", "--method", "sobol", "--points", "100000", "--cores", "1024"},
		{"page", "--port", "0"},
	} {
		for _, sig := range []os.Signal{syscall.SIGINT, syscall.SIGTERM} {
			cmd := exec.Command("armwright", args...)
			cmd.Dir = dir
			var said bytes.Buffer
			cmd.Stderr = &said
			if err := cmd.Start(); err != nil {
				t.Fatal(err)
			}
			time.Sleep(250 * time.Millisecond) // it is at work
			start := time.Now()
			_ = cmd.Process.Signal(sig)
			timer := time.AfterFunc(20*time.Second, func() { _ = cmd.Process.Kill() })
			_ = cmd.Wait()
			timer.Stop()
			took := time.Since(start)
			want := int(exitInterrupted)
			if args[0] == "page" {
				want = int(exitMet) // it is closed that way
			}
			if code := cmd.ProcessState.ExitCode(); code != want || took > soon {
				t.Errorf("%v, %v: exit %d after %v: %s", args, sig, code, took, said.Bytes())
			}
			if names := held(t, dir); len(names) != 3 {
				t.Fatalf("%v, %v: left behind %v", args, sig, names)
			}
			t.Logf("%v %v: %v", args, sig, took)
		}
	}
}
