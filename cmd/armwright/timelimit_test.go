package main

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"armwright/cmd/armwright/storage"
	"armwright/testdata"
)

// A time limit that ends the work after a station is known writes it, with exit 5;
// one that ends it before writes nothing. A brief that cannot be met is explained for
// much longer than its station takes to be found, so one of the limits falls between.
func TestTimeLimitKeepsTheBest(t *testing.T) {
	testdata.Long(t)
	t.Chdir(t.TempDir())
	const brief = "armwright: brief/1\nname: Cupboard\nkind: arm-pad\npeople: {sample: 100}\nresistance:\n  load: {light: 10 kg, middle: 40 kg, heavy: 80 kg}\nspace: {length: 800 mm, width: 500 mm, height: 900 mm}\n"
	if err := os.WriteFile("b.yaml", []byte(brief), 0o666); err != nil {
		t.Fatal(err)
	}
	for limit := 100 * time.Millisecond; ; limit = limit * 3 / 2 {
		s, _, stderr := testStreams("")
		code := exitCode(run(s, []string{"design", "b.yaml", "--out", "out", "--quiet", "--time-limit", limit.String()}))
		_, err := os.Stat(filepath.Join("out", storage.ManifestName))
		written := err == nil
		switch {
		case code == exitStopped && written:
			s, _, _ = testStreams("")
			if again := exitCode(run(s, []string{"check", "out/frame.yaml", "--quiet"})); again != exitMet && again != exitNotMet {
				t.Errorf("check of what was written: exit %d", again)
			}
			return
		case code == exitStopped:
		case code == exitNotMet:
			t.Fatalf("done within %v: no limit kept a station", limit)
		default:
			t.Fatalf("exit %d: %s", code, stderr)
		}
	}
}
