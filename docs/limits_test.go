package docs_test

import (
	"strings"
	"testing"
)

// Every limit of the table stands in the source as the table says.
func TestLimitsAreThoseOfTheSource(t *testing.T) {
	rows := headed(t, page(t, "limits.md"), "what", "limit", "in the source")
	if len(rows) < 12 {
		t.Fatalf("%d limits", len(rows))
	}
	for _, row := range rows {
		file, words, ok := strings.Cut(strings.TrimPrefix(row[2], "`"), "` ")
		if !ok {
			t.Fatalf("%s: no place in the source", row[0])
		}
		// gofmt sets the spaces around = as it likes.
		flat := func(s string) string { return strings.Join(strings.Fields(s), " ") }
		if !strings.Contains(flat(page(t, "../"+file)), flat(words)) {
			t.Errorf("%s: %s does not say %s", row[0], file, words)
		}
	}
}
