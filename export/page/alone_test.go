package page

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"testing"

	"armwright/export/readertest"
	"armwright/solver/solvertest"
)

// The modules that stand in one script where the page stands alone name nothing alike:
// Node reads it as the module that it is.
func TestAloneIsOneModule(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		readertest.Absent(t, "node", "install Node.js")
	}
	files, err := Static(solvertest.Brief(t, "arm-pad-station"), "armwright test", Programs{})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if f.Path != "alone.html" {
			continue
		}
		m := regexp.MustCompile(`(?s)<script type="module">(.*?)</script>`).FindSubmatch(f.Data)
		if m == nil {
			t.Fatal("no module in alone.html")
		}
		script := filepath.Join(t.TempDir(), "alone.mjs")
		if err := os.WriteFile(script, m[1], 0o600); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.Command(node, "--check", script).CombinedOutput(); err != nil {
			t.Errorf("%v\n%s", err, out)
		}
		return
	}
	t.Error("no alone.html")
}
