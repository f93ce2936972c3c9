package specs

import (
	"bytes"
	"fmt"
	"testing"
)

// A short starter is a brief as it stands, the same one as the full starter, and short.
func TestShortStarter(t *testing.T) {
	for _, kind := range []string{"arm-pad", "reclined", "cam-study"} {
		for _, region := range []string{"iso", "us"} {
			text := ShortStarter(kind, region)
			short, err := ParseBrief("short.yaml", text)
			if err != nil {
				t.Fatalf("%s %s: %v\n%s", kind, region, err, text)
			}
			full, err := ParseBrief("full.yaml", StarterIn(kind, region))
			if err != nil {
				t.Fatal(err)
			}
			if region == "iso" && fmt.Sprintf("%#v", short) != fmt.Sprintf("%#v", full) {
				t.Errorf("%s: the short starter is another brief", kind)
			}
			const most = 90
			if n := bytes.Count(text, []byte("\n")); n > most {
				t.Errorf("%s %s: %d lines", kind, region, n)
			}
		}
	}
	if ShortStarter("arm-pad", "moon") != nil {
		t.Error("a brief of no region")
	}
}
