package main

import (
	"fmt"
	"regexp"
	"runtime"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"
)

// version is the release, as it stands in reports. It does not carry the
// revision, so that builds of one release write the same bytes.
const version = "0.2.0"

// program names this program in reports.
func program() string { return "armwright " + version }

func newVersion(s *streams) *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "Print version, revision and Go version",
		Args:  exactly(0, ""),
		RunE: func(*cobra.Command, []string) error {
			_, err := fmt.Fprintln(s.out, program()+revision()+", "+runtime.Version()+" "+runtime.GOOS+"/"+runtime.GOARCH)
			return err
		},
	}
}

// revision is the state of the sources, where the build recorded it.
func revision() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return ""
	}
	return revisionOf(info)
}

// revisionOf is the commit: a build from a clone records it, a module fetched by its
// version has it in a pseudo-version, and a release is named by its tag.
func revisionOf(info *debug.BuildInfo) string {
	var commit, modified string
	for _, s := range info.Settings {
		switch {
		case s.Key == "vcs.revision":
			commit = s.Value
		case s.Key == "vcs.modified" && s.Value == "true":
			modified = " with changes"
		}
	}
	if commit == "" {
		made, dirty := strings.CutSuffix(info.Main.Version, "+dirty")
		if dirty {
			modified = " with changes"
		}
		commit = made
		// v0.0.0-20060102150405-0123456789ab, https://go.dev/ref/mod#pseudo-versions
		if m := regexp.MustCompile(`[-.]\d{14}-([0-9a-f]{12})(\+incompatible)?$`).FindStringSubmatch(made); m != nil {
			commit = m[1]
		}
	}
	if commit == "" || commit == "(devel)" {
		return ""
	}
	return " (" + commit[:min(len(commit), 12)] + modified + ")"
}
