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
	"slices"
	"testing"
	"testing/fstest"

	"armwright/export/page"
	"armwright/export/page/pagetest"
	"armwright/solver/solvertest"
	"armwright/testdata"
)

// The page that no server answers, built and written as a user would, answers by its own
// programs: handed out by a plain file server, and in one file opened from the disk. What
// it does with the answers is the page's of TestInBrowser, and not played again: a search
// in a browser takes a minute.
func TestStaticInBrowser(t *testing.T) {
	testdata.Long(t)
	dir := t.TempDir()
	root := filepath.Join("..", "..", "..")
	run := func(name string, args ...string) {
		t.Helper()
		c := exec.Command(name, args...)
		c.Dir = root
		if out, err := c.CombinedOutput(); err != nil {
			t.Fatalf("%s %q: %v\n%s", name, args, err, out)
		}
	}
	program, site := filepath.Join(dir, "armwright"), filepath.Join(dir, "site")
	run("bash", filepath.Join(".ci", "browser"), dir)
	run("go", "build", "-o", program, "./cmd/armwright")
	run(program, "page", filepath.Join("specs", "examples", "arm-pad-station.yaml"), "--static", site, "--quiet")
	if sum := firstVisit(t, site); sum > mostOfVisit {
		t.Errorf("a first visit of the static edition loads %d bytes, at most %d", sum, mostOfVisit)
	}
	play := func(t *testing.T, address string) {
		t.Helper()
		played(t, static, address, "mm", "torque while dragging", "undo", "frame opened", "bench", "views")
	}
	t.Run("alone", func(t *testing.T) { play(t, "file://"+filepath.ToSlash(filepath.Join(site, "alone.html"))) })
	s := httptest.NewServer(http.FileServer(http.Dir(site)))
	defer s.Close()
	play(t, s.URL+"/")
}

// A program that cannot be run is told, and told again when it is asked to; nothing waits
// for it.
func TestBrokenProgramIsTold(t *testing.T) {
	testdata.Long(t)
	files, err := page.Static(solvertest.Brief(t, "arm-pad-station"), "armwright test", page.Programs{Solver: []byte("no program"), Files: []byte("neither")})
	if err != nil {
		t.Fatal(err)
	}
	site := fstest.MapFS{}
	for _, f := range files {
		site[f.Path] = &fstest.MapFile{Data: f.Data}
	}
	s := httptest.NewServer(http.FileServerFS(site))
	defer s.Close()
	var seen []string
	pagetest.Run(t, &seen, `const { chromium } = require('playwright-core');
(async () => {
  const browser = await chromium.launch({ executablePath: process.env.ARMWRIGHT_CHROMIUM, args: ['--no-sandbox', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'] });
  const page = await browser.newPage();
  awaits('the broken program to be told');
  const told = () => page.waitForFunction(() => /has stopped/.test(document.getElementById('status').textContent));
  await page.goto(process.argv.at(-1));
  await told();
  const seen = [await page.locator('#status').innerText()];
  await page.evaluate(() => { document.getElementById('status').textContent = ''; });
  await page.locator('#solve').click();
  await told();
  seen.push(await page.locator('#cancel').isHidden() ? 'at rest' : 'searching');
  console.log(JSON.stringify(seen));
  await browser.close();
})();`, s.URL+"/")
	if want := []string{"The program in this page has stopped; Solve starts it again", "at rest"}; !slices.Equal(seen, want) {
		t.Errorf("seen %q, want %q", seen, want)
	}
}

// mostOfVisit, bytes, is what a first visit may load: 3.5 MB as docs/page.md tells it.
const mostOfVisit = 3_500_000

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
