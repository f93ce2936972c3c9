package docs_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// Every path that a page names in backticks is there, seen from the top of the
// project.
func TestPathsInPagesExist(t *testing.T) {
	pages, err := filepath.Glob("*.md")
	if err != nil {
		t.Fatal(err)
	}
	more, err := filepath.Glob("tutorial/*.md")
	if err != nil {
		t.Fatal(err)
	}
	pages = append(append(pages, more...), "../README.md", "../DEVELOPERS.md")
	path := regexp.MustCompile("`((?:docs|cmd|specs|geometry|solver|export|testdata)/[A-Za-z0-9_./-]+)`")
	found := 0
	for _, name := range pages {
		for _, m := range path.FindAllStringSubmatch(page(t, name), -1) {
			found++
			if _, err := os.Stat(filepath.Join("..", strings.TrimSuffix(m[1], "/"))); err != nil {
				t.Errorf("%s names %s, which is not there", name, m[1])
			}
		}
	}
	if found < 30 {
		t.Errorf("%d paths found", found)
	}
}
