//go:build !js

package serve_test

import (
	"bytes"
	"compress/gzip"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"armwright/testdata"
)

// The page that no server answers, built and written as a user would, is played with like
// the other: handed out by a plain file server, and in one file opened from the disk.
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
	program, site := filepath.Join(dir, "armwright"), filepath.Join(dir, "site")
	for _, name := range []string{"armwright-worker", "armwright-files"} {
		run("wasm", "go", "build", "-trimpath", "-ldflags=-s -w", "-o", filepath.Join(dir, name+".wasm"), "./cmd/"+name)
	}
	run("", "go", "build", "-o", program, "./cmd/armwright")
	run("", program, "page", filepath.Join("specs", "examples", "arm-pad-station.yaml"), "--static", site, "--quiet")
	if sum := firstVisit(t, site); sum > mostOfVisit {
		t.Errorf("a first visit of the static edition loads %d bytes, at most %d", sum, mostOfVisit)
	}
	t.Run("alone", func(t *testing.T) { played(t, "file://"+filepath.ToSlash(filepath.Join(site, "alone.html"))) })
	s := httptest.NewServer(http.FileServer(http.Dir(site)))
	defer s.Close()
	played(t, s.URL+"/")
}

// mostOfVisit, bytes, is what a first visit may load: 3.5 MB as docs/page.md tells it.
const mostOfVisit = 3_550_000

// firstVisit is what a browser loads of a site before anything is asked of it, packed as
// servers pack texts.
func firstVisit(t *testing.T, site string) int {
	t.Helper()
	sum := 0
	err := filepath.Walk(site, func(path string, info os.FileInfo, err error) error {
		if err != nil || info.IsDir() {
			return err
		}
		switch name := filepath.Base(path); name {
		case "alone.html", "armwright-files.wasm.gz", "wasm_exec.LICENSE", "MANIFEST.sha256":
			return nil
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		if filepath.Ext(path) != ".gz" {
			var b bytes.Buffer
			z := gzip.NewWriter(&b)
			_, _ = z.Write(data) // into memory
			_ = z.Close()
			data = b.Bytes()
		}
		sum += len(data)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("a first visit loads %d bytes", sum)
	return sum
}
