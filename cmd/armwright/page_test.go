package main

import (
	"context"
	"errors"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A page is served at the address that is printed, of a brief whose strength
// curve is a file's too, until it is told to end. Its port is then free.
func TestPageIsServedUntilTheEnd(t *testing.T) {
	dir := t.TempDir()
	brief := filepath.Join(dir, "own.yaml")
	text := strings.Replace(string(starterOf(t, "cam-study")), "curve: \"model-three\"", "curve: curve.csv", 1)
	if !strings.Contains(text, "curve.csv") {
		t.Fatal("the starter brief names its curve in another way")
	}
	for name, data := range map[string]string{"own.yaml": text, "curve.csv": "5,30\n30,46\n60,52\n105,43\n130,38\n"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(data), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	ctx, quit := context.WithCancel(t.Context())
	defer quit()
	s, _, talk := testStreams("")
	told, out := io.Pipe()
	s.out = out
	end := make(chan error, 1)
	go func() { end <- runPage(ctx, s, &pageOptions{common: &common{quiet: true}, brief: brief}) }()
	var at [100]byte
	n, err := told.Read(at[:])
	if err != nil {
		t.Fatal(err)
	}
	address := strings.TrimSpace(string(at[:n]))
	r, err := http.Post(address+"open", "application/json", strings.NewReader("{}"))
	if err != nil {
		t.Fatal(err)
	}
	body, err := io.ReadAll(r.Body)
	r.Body.Close()
	if err != nil || r.StatusCode != 200 || !strings.Contains(string(body), `"name":"New station"`) {
		t.Errorf("%s: %s, %v, %.100s", address, r.Status, err, body)
	}

	// Meanwhile the port is taken.
	host := strings.TrimSuffix(strings.TrimPrefix(address, "http://"), "/")
	port, err := net.ResolveTCPAddr("tcp4", host)
	if err != nil || !port.IP.IsLoopback() {
		t.Fatalf("%s: %v", address, err)
	}
	err = runPage(ctx, s, &pageOptions{common: &common{}, port: port.Port})
	var f *failure
	if !errors.As(err, &f) || f.code != exitFailed || !strings.Contains(f.Error(), "something else does already") || !strings.Contains(f.hint, "--port 0") {
		t.Errorf("on a port that is taken: %v", err)
	}

	quit()
	if err := <-end; err != nil {
		t.Errorf("closing: %v", err)
	}
	if talk.Len() > 0 {
		t.Errorf("said %q", talk)
	}
	l, err := net.Listen("tcp4", host)
	if err != nil {
		t.Fatalf("the port is not free again: %v", err)
	}
	l.Close()
}

// starterOf is a starter brief.
func starterOf(t *testing.T, kind string) []byte {
	t.Helper()
	s, out, _ := testStreams("")
	if err := runNew(s, &newOptions{kind: kind, region: regions[0]}); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}
