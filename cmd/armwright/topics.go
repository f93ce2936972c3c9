package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"armwright/cmd/armwright/listing"

	"armwright/export/terminal"

	"github.com/spf13/cobra"
)

// topic is a page of help that is not about one command.
type topic struct {
	name, short, intro string
	rows               func() (*listing.Table, error)
}

// topics are the help topics: "armwright help units".
func topics() []topic {
	return []topic{
		{"units", "Quantities and their units", `Every quantity in a brief or frame carries its unit, "25 mm" or "1 in"; a bare
number where a unit is due is an error. Units may be mixed within a file.
Fractions are read ("3/4 in", "1 1/2 in"), ranges are written "20 deg..60 deg".
Inside and in report.json lengths are mm, angles degrees, masses kg, forces N,
torques N m.`, units},
		{"exit-codes", "What the exit codes mean", `Every command ends with one of these codes, so that a script can tell a station
that misses its brief from a brief that cannot be read.`, codes},
		{"requirements", "What a station must hold, and where its limits are set", `A station is met when every requirement holds that applies to its kind. A limit
is changed by its key in the brief; where a limit comes from: "armwright show
requirements".`, briefly},
	}
}

// briefly are the requirements without their sources.
func briefly() (*listing.Table, error) {
	t, err := requirements()
	if err != nil {
		return nil, err
	}
	source := slices.Index(t.Columns, "source")
	t.Columns = slices.Delete(t.Columns, source, source+1)
	for i, row := range t.Rows {
		t.Rows[i] = slices.Delete(row, source, source+1)
	}
	return t, nil
}

// print writes a topic. Its table is made only when it is asked for.
func (p *topic) print(w io.Writer, columns int) error {
	t, err := p.rows()
	if err != nil {
		return err
	}
	var b strings.Builder
	if err := t.Text(&b, columns); err != nil {
		return err
	}
	_, err = fmt.Fprintf(w, "%s\n\n%s", terminal.Fill(p.intro, columns), b.String())
	return err
}

// newTopic is a help topic as a command that only has help.
func newTopic(s *streams, p topic) *cobra.Command {
	c := &cobra.Command{Use: p.name, Short: p.short, Long: p.intro, DisableFlagsInUseLine: true}
	c.SetHelpFunc(func(*cobra.Command, []string) {
		if err := p.print(s.out, s.columns); err != nil {
			fmt.Fprintln(s.err, "armwright: "+err.Error())
		}
	})
	return c
}
