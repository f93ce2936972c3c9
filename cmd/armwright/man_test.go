package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
)

// manFolder holds the manual pages, made from the commands and help topics.
const manFolder = "../../docs/man"

// TestManualPages holds the pages against the commands they tell of; with
// -update it writes them.
func TestManualPages(t *testing.T) {
	want := manualPages(t)
	if *update {
		if err := os.RemoveAll(manFolder); err != nil {
			t.Fatal(err)
		}
		if err := os.MkdirAll(manFolder, 0o777); err != nil {
			t.Fatal(err)
		}
		for name, text := range want {
			if err := os.WriteFile(filepath.Join(manFolder, name), text, 0o666); err != nil {
				t.Fatal(err)
			}
		}
	}
	entries, err := os.ReadDir(manFolder)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if want[e.Name()] == nil {
			t.Errorf("%s tells of no command", e.Name())
		}
	}
	for name, text := range want {
		got, err := os.ReadFile(filepath.Join(manFolder, name))
		if err != nil {
			t.Error(err)
		} else if !bytes.Equal(got, text) {
			t.Errorf("%s is out of date: run go test ./cmd/armwright -run ManualPages -update", name)
		}
	}
}

// manualPages makes a page of section 1 for every command and of section 7 for
// every topic, by file name.
func manualPages(t *testing.T) map[string][]byte {
	t.Helper()
	pages := map[string][]byte{}
	page := func(c *cobra.Command, section string) {
		c.DisableAutoGenTag = true
		c.Long, c.Example = quoted(c.Long), strings.TrimRight(c.Example, "\n")
		var never time.Time // pages ask no clock
		var b bytes.Buffer
		if err := doc.GenMan(c, &doc.GenManHeader{Section: section, Manual: "armwright", Source: "armwright", Date: &never}, &b); err != nil {
			t.Fatal(err)
		}
		name := strings.ReplaceAll(c.CommandPath(), " ", "-") + "." + section
		pages[name] = bytes.ReplaceAll(b.Bytes(), []byte(never.Format("Jan 2006")), nil)
	}
	s := &streams{in: strings.NewReader(""), out: &bytes.Buffer{}, err: &bytes.Buffer{}}
	root := newRoot(s)
	root.InitDefaultCompletionCmd()
	var walk func(c *cobra.Command)
	walk = func(c *cobra.Command) {
		for _, sub := range c.Commands() {
			if sub.IsAvailableCommand() && !sub.IsAdditionalHelpTopicCommand() {
				walk(sub)
			}
		}
		page(c, "1")
	}
	walk(root)
	for _, p := range topics() {
		var b strings.Builder
		if err := p.print(&b, 0); err != nil {
			t.Fatal(err)
		}
		intro, table, _ := strings.Cut(b.String(), "\n\n")
		named := &cobra.Command{Use: "armwright"}
		c := &cobra.Command{Use: p.name, Short: p.short, DisableFlagsInUseLine: true, Long: intro + "\n\n  " + strings.ReplaceAll(table, "\n", "\n  ")}
		named.AddCommand(c)
		page(c, "7")
	}
	return pages
}

// quoted sets the indented lines of a help text as they stand, as the page's
// writer fills all others.
func quoted(text string) string {
	var out []string
	indented := false
	for _, l := range strings.Split(text, "\n") {
		if was := indented; strings.TrimSpace(l) != "" {
			if indented = strings.HasPrefix(l, "  "); indented != was {
				out = append(out, "")
			}
		}
		if indented {
			l = "  " + l
		}
		out = append(out, strings.TrimRight(l, " "))
	}
	return strings.Join(out, "\n")
}
