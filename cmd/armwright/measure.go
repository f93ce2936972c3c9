package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"armwright/export/measure"
	"armwright/specs"

	"github.com/spf13/cobra"
)

type measureOptions struct {
	*common
	dir  string
	json bool
}

func newMeasure(s *streams, c *common, runF func(context.Context, *measureOptions) error) *cobra.Command {
	o := &measureOptions{common: c}
	cmd := &cobra.Command{
		Use:   "measure DIR",
		Short: "Measure drawings and cut files back against the report",
		Long: `Measure reads the sheets and cut files of an output folder back, recomputes the
cam's moment arm and torque from the outline that is cut, holes, radii, axis
angles and footprint, and compares them with report.json; and every written
dimension with the points it stands on. Use it on files that went through other
hands or another program.

What differs is listed, and the exit code is 6.`,
		Example:           `  armwright measure station`,
		Args:              exactly(1, "the folder"),
		ValidArgsFunction: cobra.FixedCompletions(nil, cobra.ShellCompDirectiveFilterDirs),
		RunE: func(cmd *cobra.Command, args []string) error {
			o.dir = args[0]
			if runF != nil {
				return runF(cmd.Context(), o)
			}
			return runMeasure(s, o)
		},
	}
	cmd.Flags().BoolVar(&o.json, "json", false, "print the outcome as JSON instead of text")
	return cmd
}

func runMeasure(s *streams, o *measureOptions) error {
	if info, err := os.Stat(o.dir); err != nil {
		return unreadable(o.dir, "a folder comes from: armwright design BRIEF --out DIR", err)
	} else if !info.IsDir() {
		return &failure{code: exitFailed, what: "cannot measure " + o.dir, why: errors.New("it is a file"), hint: "name the folder that design wrote"}
	}
	root, err := os.OpenRoot(o.dir) // which no link in it leads out of
	if err != nil {
		return unreadable(o.dir, "", err)
	}
	defer root.Close()
	out, err := measure.Folder(root.FS())
	var bad *measure.FileError
	switch {
	case errors.As(err, &bad) && bad.Missing:
		return &failure{code: exitFailed, what: "cannot measure " + o.dir + ": " + bad.Path, why: bad.Err, hint: bad.Hint()}
	case errors.As(err, &bad):
		return &specs.Problems{List: []specs.Problem{{File: filepath.Join(o.dir, filepath.FromSlash(bad.Path)), Line: bad.Line, Column: bad.Column, Message: bad.Err.Error(), Hint: bad.Hint()}}}
	case err != nil:
		return err
	}
	switch {
	case o.json:
		err = measuredJSON(s.out, out)
	case !o.quiet:
		err = measuredText(s.out, out)
	}
	if err == nil && !out.Agrees() {
		err = errDrift
	}
	return err
}

func measuredText(w io.Writer, out *measure.Outcome) error {
	for _, d := range out.Differences {
		if _, err := fmt.Fprintln(w, d); err != nil {
			return err
		}
	}
	if out.Nothing {
		_, err := fmt.Fprintln(w, "nothing to measure: the brief has no station, so there are no drawings")
		return err
	}
	what := "all agree"
	if n := len(out.Differences); n > 0 {
		what = count(n, "difference")
	}
	_, err := fmt.Fprintf(w, "%s compared in %s: %s\n", count(out.Compared, "figure"), count(len(out.Files), "file"), what)
	return err
}

// measuredJSON prints the outcome with the differences' figures; what was not
// measured is null.
func measuredJSON(w io.Writer, out *measure.Outcome) error {
	type difference struct {
		File      string   `json:"file"`
		What      string   `json:"what"`
		Want      *float64 `json:"want"`
		Got       *float64 `json:"got"`
		Unit      string   `json:"unit"`
		Tolerance *float64 `json:"tolerance"`
		Note      string   `json:"note"`
	}
	list := []difference{}
	for _, d := range out.Differences {
		j := difference{File: d.File, What: d.What, Unit: d.Unit, Note: d.Note}
		if d.Note == "" {
			j.Want, j.Tolerance = &d.Want, &d.Tolerance
			if d.Got == d.Got { // not NaN
				j.Got = &d.Got
			}
		}
		list = append(list, j)
	}
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(struct {
		Files       []string     `json:"files"`
		Compared    int          `json:"compared"`
		Differences []difference `json:"differences"`
	}{out.Files, out.Compared, list})
}
