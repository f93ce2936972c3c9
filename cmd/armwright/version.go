package main

import (
	"fmt"
	"runtime"
	"runtime/debug"

	"github.com/spf13/cobra"
)

// version is the release, as it stands in reports. It does not carry the
// revision, so that builds of one release write the same bytes.
const version = "0.1.0"

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
	return revisionOf(info.Settings)
}

func revisionOf(settings []debug.BuildSetting) string {
	var commit, modified string
	for _, s := range settings {
		switch {
		case s.Key == "vcs.revision":
			commit = s.Value
		case s.Key == "vcs.modified" && s.Value == "true":
			modified = " with changes"
		}
	}
	if commit == "" {
		return ""
	}
	return " (" + commit[:min(len(commit), 12)] + modified + ")"
}
