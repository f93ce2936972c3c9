package main

import (
	"context"
	"fmt"
	"path/filepath"

	"armwright/cmd/armwright/storage"
	"armwright/export/draw"
	"armwright/export/output"
	"armwright/export/report"
	"armwright/export/report/console"
	"armwright/solver"
	"armwright/solver/judge"
)

// deliver draws a result, writes everything and puts the folder in its place,
// unless the context was cancelled before. It tells what is amiss on sheets, and
// returns the number of files.
func deliver(ctx context.Context, s *streams, c *common, dir *storage.Folder, r *solver.Result, o draw.Options) (*report.Report, int, error) {
	files, rep, err := output.Files(r, program(), o)
	if err != nil {
		return nil, 0, fmt.Errorf("drawing: %w", err)
	}
	for _, f := range files {
		if f.Flaws != nil && !c.quiet {
			fmt.Fprintf(s.err, "armwright: %s: %v\n", f.Path, f.Flaws)
		}
	}
	if err := dir.Write(files); err != nil {
		return nil, 0, err
	}
	if ctx.Err() != nil {
		return nil, 0, ctx.Err()
	}
	return rep, len(files) + 1, dir.Commit()
}

// fullHelp is what --full says of itself.
const fullHelp = "print everything instead of what to know first"

// verdict prints a report on stdout and turns its verdict into the error that
// carries the exit code.
func verdict(s *streams, c *common, rep *report.Report, json, full bool) error {
	var err error
	switch {
	case json:
		err = report.JSON(s.out, rep)
	case !c.quiet:
		err = console.Write(s.out, rep, console.Options{Colour: s.colour, Width: s.columns, Full: full})
	}
	if err == nil && rep.Verdict != string(judge.Met) {
		err = errUnmet
	}
	return err
}

// finish prints a report and says what was written where.
func finish(s *streams, c *common, rep *report.Report, json, full bool, n int, path string) error {
	err := verdict(s, c, rep, json, full)
	if !c.quiet {
		fmt.Fprintf(s.err, "armwright: wrote %s to %s; open %s\n", count(n, "file"), path, filepath.Join(path, "report.html"))
	}
	return err
}
