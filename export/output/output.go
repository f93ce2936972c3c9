// Package output makes everything that a design puts into its folder, for the command
// that writes it and the page that hands it on.
package output

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"html/template"
	"io"

	"armwright/export/card"
	"armwright/export/draw"
	"armwright/export/folder"
	"armwright/export/pdf"
	"armwright/export/report"
	"armwright/export/sheet"
	"armwright/export/solid"
	"armwright/export/svg"
	"armwright/export/viewer"
	"armwright/geometry/assembly"
	"armwright/solver"
	"armwright/solver/judge"
	"armwright/solver/tolerance"
	"armwright/specs"
)

// Files makes everything that goes into the output folder, but the manifest: where there
// is no station, the reports alone. Program is its name with its version.
func Files(r *solver.Result, program string, o draw.Options) (files []folder.File, rep *report.Report, err error) {
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
		files = append(files, folder.File{Path: path, Data: b.Bytes()})
	}
	if r.NoStation == nil {
		add("frame.yaml", func(w io.Writer) error { return specs.WriteFrame(w, r.Frame) })
		add("tables/cam.csv", func(w io.Writer) error { return report.CamTable(w, r) })
		add("tables/parts.csv", func(w io.Writer) error { return report.PartsTable(w, r) })
		add("tables/people.csv", func(w io.Writer) error { return report.PeopleTable(w, r) })
		add("tables/torque.csv", func(w io.Writer) error { return report.TorqueTable(w, r) })
		if a := r.Station.Assembly; a != nil {
			m := Model(r, r.Station.Middle())
			add("tables/tree.csv", func(w io.Writer) error { return report.TreeTable(w, r) })
			add("tables/purchase.csv", func(w io.Writer) error { return report.PurchaseTable(w, r) })
			add("model/assembly.json", func(w io.Writer) error { return solid.WriteList(w, a, sheet.Notice) })
			add("model/station.step", func(w io.Writer) error { return WriteStep(w, m) })
			add("model/station.glb", func(w io.Writer) error { return solid.WriteMesh(w, m) })
			if c := card.Of(&r.Frame, &r.People.Crowd, guideHoles(r)); c != nil {
				for _, to := range []sheet.Renderer{svg.Renderer{}, pdf.Renderer{Station: r.Frame.Name}} {
					add("drawings/settings-card"+to.Extension(), func(w io.Writer) error { return to.Render(w, c) })
				}
			}
			add("station.html", func(w io.Writer) error { return writeView(w, r) })
		}
	}
	var listed []report.File
	for _, f := range files {
		listed = append(listed, report.File{Path: f.Path, SHA256: digest(f.Data), Bytes: len(f.Data), Thumbnail: template.HTML(f.Thumbnail)})
	}
	rep = report.New(r, program, listed)
	if r.NoStation == nil && err == nil {
		rep.Picture, err = draw.Portrait(r)
	}
	add("report.html", func(w io.Writer) error { return report.HTML(w, rep) })
	add("report.json", func(w io.Writer) error { return report.JSON(w, rep) })
	return files, rep, err
}

// Model is a station's model in a pose.
func Model(r *solver.Result, pose assembly.Pose) solid.Model {
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
func drawn(r *solver.Result, o draw.Options) ([]folder.File, error) {
	holds, err := tolerance.HoldsOf(&r.Frame)
	if err != nil {
		return nil, err
	}
	return draw.All(r, holds, o)
}

// WriteStep writes a model and looks at the file once more before it goes out.
func WriteStep(w io.Writer, m solid.Model) error {
	var b bytes.Buffer
	if err := solid.Write(&b, m); err != nil {
		return err
	}
	if err := solid.Audit(b.Bytes()); err != nil {
		return err
	}
	_, err := w.Write(b.Bytes())
	return err
}

// digest is what the manifest tells of a file.
func digest(data []byte) string {
	h := sha256.Sum256(data)
	return hex.EncodeToString(h[:])
}

// guideHoles are those, from the top, of the guide sheaves' pins by axis position; nil
// without a cable.
func guideHoles(r *solver.Result) []int {
	way := r.Station.Route
	if way == nil {
		return nil
	}
	var holes []int
	for i := range way.Rise {
		holes = append(holes, way.Step(i)+1)
	}
	return holes
}
