//go:build !js

package serve_test

import (
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"armwright/testdata"
)

// The page that no server answers, built and written as a user would and handed out by a
// plain file server, is played with like the other.
func TestStaticInBrowser(t *testing.T) {
	testdata.Long(t)
	dir := t.TempDir()
	root := filepath.Join("..", "..", "..")
	run := func(env string, name string, args ...string) {
		t.Helper()
		c := exec.Command(name, args...)
		c.Dir = root
		c.Env = os.Environ()
		if env != "" {
			c.Env = append(c.Env, "GOOS=js", "GOARCH="+env, "GOFLAGS=")
		}
		if out, err := c.CombinedOutput(); err != nil {
			t.Fatalf("%s %q: %v\n%s", name, args, err, out)
		}
	}
	program, solver, site := filepath.Join(dir, "armwright"), filepath.Join(dir, "armwright.wasm"), filepath.Join(dir, "site")
	run("wasm", "go", "build", "-trimpath", "-ldflags=-s -w", "-o", solver, "./cmd/armwright-worker")
	run("", "go", "build", "-o", program, "./cmd/armwright")
	run("", program, "page", filepath.Join("specs", "examples", "arm-pad-station.yaml"), "--static", site, "--quiet")

	// Told: what a first visit loads.
	const most = 6_500_000
	sum := int64(0)
	err := filepath.Walk(site, func(_ string, info os.FileInfo, err error) error {
		if err == nil && !info.IsDir() {
			sum += info.Size()
		}
		return err
	})
	if t.Logf("%d bytes in all", sum); err != nil || sum > most {
		t.Errorf("the static edition has %d bytes, at most %d: %v", sum, most, err)
	}
	s := httptest.NewServer(http.FileServer(http.Dir(site)))
	defer s.Close()
	played(t, s.URL+"/")
}
