//go:build !js

package readertest

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
)

// Lasting is a program that reads one file after another for the tests of a
// package, as starting an interpreter takes longer than reading a drawing: a path
// a line on its standard input, an answer of one line of JSON to each. The first
// file starts it, the end of the tests ends it. The zero value is ready.
type Lasting struct {
	mu      sync.Mutex
	paths   io.Writer
	answers *bufio.Reader
	said    bytes.Buffer // on standard error
	running *exec.Cmd
}

// Read writes data to a temporary file of the given name and decodes what the
// program, which command makes where none runs, answers.
func (l *Lasting) Read(t testing.TB, data []byte, file string, v any, command func() *exec.Cmd) {
	t.Helper()
	path := filepath.Join(t.TempDir(), file)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.running == nil {
		if err := l.start(command()); err != nil {
			t.Fatal(err)
		}
	}
	answer, err := l.ask(path)
	if err != nil {
		l.running.Process.Kill() // the next file finds a program that is sound
		l.running.Wait()
		t.Errorf("%s: %v: %s", l.running.Path, err, l.said.Bytes())
		l.running = nil
		t.FailNow()
	}
	if err := json.Unmarshal(answer, v); err != nil {
		t.Fatalf("%s: %v in %.200q", l.running.Path, err, answer)
	}
}

func (l *Lasting) start(cmd *exec.Cmd) error {
	in, err := cmd.StdinPipe()
	if err != nil {
		return err
	}
	out, err := cmd.StdoutPipe()
	if err != nil {
		return err
	}
	l.said.Reset()
	cmd.Stderr = &l.said
	if err := cmd.Start(); err != nil {
		return err
	}
	l.running, l.paths, l.answers = cmd, in, bufio.NewReader(out)
	return nil
}

func (l *Lasting) ask(path string) ([]byte, error) {
	if _, err := fmt.Fprintln(l.paths, path); err != nil {
		return nil, err
	}
	return l.answers.ReadBytes('\n')
}
