package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"armwright/export/folder"
	"armwright/export/output"
	"armwright/export/sheet"
	"armwright/export/solid"
	"armwright/geometry/assembly"
	body "armwright/geometry/solid"
	"armwright/solver/drive"
	"armwright/solver/judge"
	"armwright/specs"
	"armwright/specs/wording"

	"github.com/spf13/cobra"
)

type solidOptions struct {
	*common
	frame                           string
	flexion                         string
	axis, seat, handle, foot, chest int // counted from 1; 0 is the middle one, or of the foot plate the lowest
	person                          string
	cables                          bool
	part                            string
	out, parts                      string
	force                           bool
}

func newSolid(s *streams, c *common, runF func(context.Context, *solidOptions) error) *cobra.Command {
	o := &solidOptions{common: c}
	cmd := &cobra.Command{
		Use:   "solid FRAME",
		Short: "Write a station as a solid, in any pose",
		Long: `Solid writes the station of a frame as ISO 10303-21 (STEP, AP214) for any CAD, or
as a binary glTF mesh for looking at, by the ending of --out: .step or .stp, or
.glb. Each part is a product of its own, named as in model/assembly.json.

Without more it stands as in model/station.step of a design: arms at the first
loaded angle, every setting in the middle of its positions. Positions count
from 1. With --person the bodies of that boundary person, labelled as in
tables/people.csv, sit in it, in the person's own settings unless others are
given; they are named person/... With --cables cables and chains come along, round
along their way.`,
		Example: `  armwright solid station/frame.yaml --flexion 60deg --out bent.step
  armwright solid station/frame.yaml --person "man 01" --out seated.glb
  armwright solid station/frame.yaml --part index-plate-right --out plate.step
  armwright solid station/frame.yaml --parts parts`,
		Args:              exactly(1, "the frame"),
		ValidArgsFunction: yamlFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			o.frame = args[0]
			if err := o.given(cmd.Flags().Changed); err != nil {
				return err
			}
			switch {
			case o.out != "" && o.parts != "":
				return usage("choose one of the two", "solid: --out and --parts together")
			case o.out == "" && o.parts == "":
				return usage("add --out FILE.step for the whole, or --parts DIR for each part a file", "solid: one of --out and --parts is needed")
			case o.parts != "" && o.part != "":
				return usage("choose one of the two", "solid: --part and --parts together")
			case o.part+o.parts != "" && (o.flexion+o.person != "" || o.cables || o.axis != 0 || o.seat != 0 || o.handle != 0 || o.foot != 0):
				return usage("leave out what sets the pose", "solid: parts stand in their own frames, in no pose")
			case o.out != "" && format(o.out) == "":
				return usage("end it in .step, .stp or .glb", "solid: --out %s: the ending names no format", wording.Printable(o.out))
			}
			if runF != nil {
				return runF(cmd.Context(), o)
			}
			return runSolid(s, o)
		},
	}
	f := cmd.Flags()
	f.StringVar(&o.flexion, "flexion", "", "elbow flexion of both arms, as 60deg; the first loaded angle when left out")
	f.IntVar(&o.axis, "axis", 0, "axis position, counted from 1")
	f.IntVar(&o.seat, "seat", 0, "seat position, counted from the lowest")
	f.IntVar(&o.handle, "handle", 0, "handle position, counted from the nearest")
	f.IntVar(&o.foot, "foot", 0, "position of the foot plate, counted from the lowest")
	f.IntVar(&o.chest, "chest", 0, "position of the chest pad, counted from the rearmost")
	f.StringVar(&o.person, "person", "", "label of a boundary person to seat in it")
	f.BoolVar(&o.cables, "cables", false, "add cables and chains, round along their way")
	f.StringVar(&o.part, "part", "", "write this part alone, in its own frame")
	f.StringVarP(&o.out, "out", "o", "", "file to write: .step, .stp or .glb")
	f.StringVar(&o.parts, "parts", "", "folder to write each part into, as a STEP file of its own")
	f.BoolVar(&o.force, "force", false, "replace whatever --out names, or files added to an earlier --parts")
	_ = cmd.MarkFlagFilename("out", "step", "stp", "glb")
	_ = cmd.MarkFlagDirname("parts")
	return cmd
}

// given refuses what is nothing where something was given: a position 0, or no name.
func (o *solidOptions) given(changed func(flag string) bool) error {
	for _, v := range []struct {
		flag string
		n    int
	}{{"axis", o.axis}, {"seat", o.seat}, {"handle", o.handle}, {"foot", o.foot}, {"chest", o.chest}} {
		if v.n == 0 && changed(v.flag) {
			return usage("the nearest is 1; leave --"+v.flag+" out for the position it has in model/station.step", "solid: --%s 0: positions count from 1", v.flag)
		}
	}
	for _, v := range [][2]string{{"flexion", o.flexion}, {"person", o.person}, {"part", o.part}} {
		if v[1] == "" && changed(v[0]) {
			return usage("leave --"+v[0]+" out, or say which", "solid: --%s: nothing is named", v[0])
		}
	}
	return nil
}

// format is "step" or "glb" by a file's ending, "" for another.
func format(path string) string {
	switch strings.ToLower(filepath.Ext(path)) {
	case ".step", ".stp":
		return "step"
	case ".glb":
		return "glb"
	}
	return ""
}

func runSolid(s *streams, o *solidOptions) error {
	label, data, frame, err := readFrame(s, o.frame)
	if err != nil {
		return err
	}
	j, err := judge.New(&frame.Asked)
	if err != nil {
		return placed(label, data, err)
	}
	r, err := j.Frame(frame.Name, frame.Geometry)
	if err != nil {
		return placed(label, data, err)
	}
	a := r.Station.Assembly
	switch {
	case r.Station.Fault != nil:
		return &failure{code: exitInvalid, what: label, why: r.Station.Fault, hint: "mend what the frame says there: nothing can be built of it"}
	case a == nil:
		return usage("give the frame of a station", "%s: a study on the bench has no station", label)
	}
	m := solid.Model{Name: frame.Name, Number: frame.Drawing.Number, Notice: sheet.Notice}
	if o.part != "" || o.parts != "" {
		return writeParts(s, o, a, m)
	}

	pose := r.Station.Middle()
	var sitter []solid.Part
	if o.person != "" {
		if sitter, err = o.seated(j, r, &pose); err != nil {
			return err
		}
	} else if err := o.settle(r, &pose); err != nil {
		return err
	}
	m.Parts = append(solid.Parts(a, pose), sitter...)
	if o.cables {
		ropes, err := solid.Cables(&r.Station, &r.Resistance, pose)
		if err != nil {
			return err
		}
		m.Parts = append(m.Parts, ropes...)
	}
	return writeModel(s, o, m)
}

// settle sets the pose as the flags ask.
func (o *solidOptions) settle(r *judge.Result, pose *assembly.Pose) error {
	g := &r.Frame.Geometry
	if o.flexion != "" {
		theta, err := quantity("solid: --flexion", o.flexion, specs.Angle)
		if err != nil {
			return err
		}
		if first, last := r.Station.Values.First, r.Station.Values.Last; theta < first || theta > last {
			near := max(first, min(last, theta))
			return usage(fmt.Sprintf("the nearest is %.4gdeg", near/specs.Degree), "solid: --flexion %s: the arms go from %.4g to %.4g degrees", o.flexion, first/specs.Degree, last/specs.Degree)
		}
		pose.Flexion = [2]float64{theta, theta}
	}
	feet := 0
	if g.FootPlate != nil {
		feet = g.FootPlate.Positions
	}
	chests := 0
	if g.ChestPad != nil {
		chests = g.ChestPad.Positions
	}
	seats := 0
	if g.Seat != nil {
		seats = g.Seat.Positions
	}
	for _, v := range []struct {
		flag   string
		asked  int
		of     int
		set    *int
		what   string
		absent string
	}{
		{"axis", o.axis, len(g.Pivots.Axes), &pose.Axis, "axis positions", ""},
		{"seat", o.seat, seats, &pose.Seat, "seat positions", "the station has no seat"},
		{"handle", o.handle, g.Handle.Positions, &pose.Handle, "handle positions", ""},
		{"foot", o.foot, feet, &pose.Foot, "positions of the foot plate", "the station has no foot plate"},
		{"chest", o.chest, chests, &pose.Chest, "positions of the chest pad", "the station has no chest pad"},
	} {
		if v.asked == 0 {
			continue
		}
		if v.of == 0 {
			return usage("leave --"+v.flag+" out", "solid: --%s %d: %s", v.flag, v.asked, v.absent)
		}
		if v.asked < 1 || v.asked > v.of {
			return usage(fmt.Sprintf("the nearest is %d", max(1, min(v.of, v.asked))), "solid: --%s %d: there are 1 to %d %s", v.flag, v.asked, v.of, v.what)
		}
		*v.set = v.asked - 1
	}
	up := r.Resistance.Lift(pose.Flexion[0])
	pose.Lift = [2]float64{up, up}
	return nil
}

// seated sets the pose to a boundary person's own settings, but for those that the
// flags ask for, and returns the person's bodies.
func (o *solidOptions) seated(j *judge.Judge, r *judge.Result, pose *assembly.Pose) ([]solid.Part, error) {
	list := r.People.Boundary
	labels := make([]string, len(list))
	for i := range list {
		labels[i] = list[i].Person.Label
		if !strings.EqualFold(labels[i], o.person) && !strings.HasPrefix(labels[i], o.person+" (") {
			continue
		}
		sizes, sits, own := j.Figure(drive.NewMachine(&r.Frame.Geometry), &list[i])
		own.Flexion = pose.Flexion
		*pose = own
		if err := o.settle(r, pose); err != nil {
			return nil, err
		}
		return solid.Person(&sizes, &sits, pose.Flexion[0])
	}
	return nil, usage("labels are the first column of tables/people.csv, as "+labels[0], "solid: --person %s: no boundary person has this label", wording.Printable(o.person))
}

// writeModel writes a model in the format that --out ends in.
func writeModel(s *streams, o *solidOptions, m solid.Model) error {
	var b bytes.Buffer
	print, mark := output.WriteStep, "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION(('"+sheet.Notice
	if format(o.out) == "glb" {
		print, mark = solid.WriteMesh, `{"asset":{"version":"2.0","generator":"armwright"`
	}
	file, err := openDocument(s, o.out, mark, o.force)
	if err != nil {
		return err
	}
	defer file.Discard()
	if err := print(&b, m); err != nil {
		return err
	}
	if _, err := io.Copy(file, &b); err != nil {
		return err
	}
	if err := file.Commit(); err != nil {
		return err
	}
	if !o.quiet {
		fmt.Fprintf(s.err, "armwright: wrote %s to %s\n", count(len(m.Parts), "part"), o.out)
	}
	return nil
}

// writeParts writes one part, or each into a folder, in its own frame.
func writeParts(s *streams, o *solidOptions, a *assembly.Assembly, m solid.Model) error {
	alone := func(p *assembly.Part) solid.Part {
		all := solid.Parts(&assembly.Assembly{Parts: []assembly.Part{*p}, Groups: []assembly.Group{{Parent: -1}}}, assembly.Pose{})
		all[0].At = body.World()
		return all[0]
	}
	if o.part != "" {
		i, ok := a.Index(o.part)
		if !ok {
			return usage("ids are those of model/assembly.json, as "+a.Parts[0].ID, "solid: --part %s: no part has this id", wording.Printable(o.part))
		}
		p := a.Parts[i]
		p.Group = 0
		m.Parts = []solid.Part{alone(&p)}
		return writeModel(s, o, m)
	}
	dir, err := openFolder(s, o.parts, o.force)
	if err != nil {
		return err
	}
	defer dir.Discard()
	var list bytes.Buffer // which also tells the folder for one of ours
	if err := solid.WriteList(&list, a, sheet.Notice); err != nil {
		return err
	}
	files := []folder.File{{Path: "assembly.json", Data: list.Bytes()}}
	for i := range a.Parts {
		p := a.Parts[i]
		p.Group = 0
		m.Parts = []solid.Part{alone(&p)}
		var b bytes.Buffer
		if err := output.WriteStep(&b, m); err != nil {
			return err
		}
		files = append(files, folder.File{Path: p.ID + ".step", Data: b.Bytes()})
	}
	if err := dir.Write(files); err != nil {
		return err
	}
	if err := dir.Commit(); err != nil {
		return err
	}
	if !o.quiet {
		fmt.Fprintf(s.err, "armwright: wrote %s to %s\n", count(len(a.Parts), "part"), o.parts)
	}
	return nil
}
