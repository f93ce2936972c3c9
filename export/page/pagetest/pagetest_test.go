//go:build !js

package pagetest

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"armwright/testdata"
)

// Texts and controls that lie on one another are found, what is cut off, hidden or
// raised by intent is not.
func TestOverlapping(t *testing.T) {
	testdata.Long(t)
	path := filepath.Join(t.TempDir(), "page.html")
	const page = `<body style="font: 16px/20px sans-serif; margin: 0">
<p style="margin: 0">first line</p><p style="margin: -12px 0 0">second line</p>
<p style="height: 20px; overflow: hidden">seen<br>cut off</p><p style="margin: -10px 0 0; visibility: hidden">hidden</p>
<button style="position: absolute; left: 0; top: 200px" name="go">Go</button><span style="position: absolute; left: 5px; top: 205px">on it</span>
<svg width="200" height="60"><text x="10" y="30">here</text><text x="20" y="32">there</text><text x="120" y="30">apart</text></svg>
<p style="position: relative; z-index: 2; top: -60px">raised</p>`
	if err := os.WriteFile(path, []byte("<!doctype html><html lang=en><title>t</title>"+page), 0o600); err != nil {
		t.Fatal(err)
	}
	var seen []string
	Run(t, &seen, `const { chromium } = require('playwright-core');
(async () => {
  const browser = await chromium.launch({ executablePath: process.env.ARMWRIGHT_CHROMIUM, args: ['--no-sandbox'] });
  const page = await browser.newPage();
  await page.goto(process.argv.at(-1));
  console.log(JSON.stringify(await page.evaluate(overlapping)));
  await browser.close();
})();`, "file://"+path)
	want := []string{"second line on first line", "there on here", "button go on on it", "on it on Go"}
	slices.Sort(seen)
	slices.Sort(want)
	if !slices.Equal(seen, want) {
		t.Errorf("found %q, want %q", seen, want)
	}
}
