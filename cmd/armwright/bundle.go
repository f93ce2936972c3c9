package main

import (
	"bytes"
	"context"
	"fmt"
	"html/template"
	"io"
	"path/filepath"

	"armwright/cmd/armwright/storage"
	"armwright/export/draw"
	"armwright/export/report"
	"armwright/export/sheet"
	"armwright/export/solid"
	"armwright/export/viewer"
	"armwright/geometry/assembly"
	"armwright/solver"
	"armwright/solver/judge"
	"armwright/solver/tolerance"
	"armwright/specs"
)

// bundle makes everything that goes into the output folder, but the manifest:
// where there is no station, the reports alone.
func bundle(r *solver.Result, o draw.Options) (files []draw.File, rep *report.Report, err error) {
	if r.NoStation == nil {
		files, err = drawn(r, o)
	}
	if err != nil {
		return nil, nil, err
	}
	add := func(path string, print func(io.Writer) error) {
		var b bytes.Buffer
		if err == nil {
			err = print(&b)
		}
		files = append(files, draw.File{Path: path, Data: b.Bytes()})
	}
	if r.NoStation == nil {
		add("frame.yaml", func(w io.Writer) error { return specs.WriteFrame(w, r.Frame) })
		add("tables/cam.csv", func(w io.Writer) error { return report.CamTable(w, r) })
		add("tables/parts.csv", func(w io.Writer) error { return report.PartsTable(w, r) })
		add("tables/people.csv", func(w io.Writer) error { return report.PeopleTable(w, r) })
		add("tables/torque.csv", func(w io.Writer) error { return report.TorqueTable(w, r) })
		if a := r.Station.Assembly; a != nil {
			m := modelOf(r, r.Station.Middle())
			add("tables/tree.csv", func(w io.Writer) error { return report.TreeTable(w, r) })
			add("tables/purchase.csv", func(w io.Writer) error { return report.PurchaseTable(w, r) })
			add("model/assembly.json", func(w io.Writer) error { return solid.WriteList(w, a, sheet.Notice) })
			add("model/station.step", func(w io.Writer) error { return writeStep(w, m) })
			add("model/station.glb", func(w io.Writer) error { return solid.WriteMesh(w, m) })
			add("station.html", func(w io.Writer) error { return writeView(w, r) })
		}
	}
	var listed []report.File
	for _, f := range files {
		listed = append(listed, report.File{Path: f.Path, SHA256: storage.Digest(f.Data), Bytes: len(f.Data), Thumbnail: template.HTML(f.Thumbnail)})
	}
	rep = report.New(r, program(), listed)
	if r.NoStation == nil && err == nil {
		rep.Picture, err = draw.Portrait(r)
	}
	add("report.html", func(w io.Writer) error { return report.HTML(w, rep) })
	add("report.json", func(w io.Writer) error { return report.JSON(w, rep) })
	return files, rep, err
}

// modelOf is a station's model in a pose.
func modelOf(r *solver.Result, pose assembly.Pose) solid.Model {
	name := "station"
	if n := r.Frame.Name; n != "" {
		name = n
	}
	return solid.Model{Name: name, Number: r.Frame.Drawing.Number, Notice: sheet.Notice, Parts: solid.Parts(r.Station.Assembly, pose)}
}

// writeView writes the station in space, as one page.
func writeView(w io.Writer, r *solver.Result) error {
	j, err := judge.New(&r.Frame.Asked)
	if err != nil {
		return err
	}
	scene, err := viewer.New(j, &r.Result)
	if err != nil {
		return err
	}
	if err := scene.Bodies(); err != nil {
		return err
	}
	return viewer.HTML(w, scene, r.Frame.Drawing.Reads())
}

// drawn makes drawings and cut files of a station.
func drawn(r *solver.Result, o draw.Options) ([]draw.File, error) {
	holds, err := tolerance.HoldsOf(&r.Frame)
	if err != nil {
		return nil, err
	}
	return draw.All(r, holds, o)
}

// deliver draws a result, writes everything and puts the folder in its place,
// unless the context was cancelled before. It tells what is amiss on sheets, and
// returns the number of files.
func deliver(ctx context.Context, s *streams, c *common, dir *folder, r *solver.Result, o draw.Options) (*report.Report, int, error) {
	files, rep, err := bundle(r, o)
	if err != nil {
		return nil, 0, fmt.Errorf("drawing: %w", err)
	}
	for _, f := range files {
		if f.Flaws != nil && !c.quiet {
			fmt.Fprintf(s.err, "armwright: %s: %v\n", f.Path, f.Flaws)
		}
	}
	if err := dir.write(files); err != nil {
		return nil, 0, err
	}
	if ctx.Err() != nil {
		return nil, 0, ctx.Err()
	}
	return rep, len(files) + 1, dir.commit()
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
		err = report.Text(s.out, rep, report.TextOptions{Colour: s.colour, Width: s.columns, Full: full})
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
