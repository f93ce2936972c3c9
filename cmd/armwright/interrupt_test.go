//go:build unix

package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"armwright/testdata"
	"time"
)

// Whatever a command is at, one signal ends it soon, with its exit code, and
// leaves no temporary file. It is asked for within 0.3 s, beside what the machine takes to
// start and end a program that does nothing, measured each time; on a machine that was at
// something else the best of some tries counts.
func TestEndsWhenInterrupted(t *testing.T) {
	testdata.Long(t)
	const (
		soon  = 300 * time.Millisecond
		tries = 3
	)
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
			var best, allowed time.Duration
			for try := range tries {
				idle := time.Now()
				if err := exec.Command("armwright", "version").Run(); err != nil {
					t.Fatal(err)
				}
				busy := time.Since(idle)
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
				want, words := int(exitInterrupted), "armwright: interrupted"
				if args[0] == "page" { // it is closed that way
					want, words = int(exitMet), ""
				}
				if code := cmd.ProcessState.ExitCode(); code != want || !strings.Contains(said.String(), words) {
					t.Errorf("%v, %v: exit %d: %s", args, sig, code, said.Bytes())
				}
				if args[0] != "sweep" && strings.Contains(said.String(), " rows") {
					t.Errorf("%v, %v: speaks of rows: %s", args, sig, said.Bytes())
				}
				if names := held(t, dir); len(names) != 3 {
					t.Fatalf("%v, %v: left behind %v", args, sig, names)
				}
				if try == 0 || took-busy < best-allowed {
					best, allowed = took, busy
				}
				if best <= soon+allowed {
					break
				}
			}
			t.Logf("%v %v: %v, a program that does nothing %v", args, sig, best, allowed)
			if best > soon+allowed {
				t.Errorf("%v, %v: %v", args, sig, best)
			}
		}
	}
}
