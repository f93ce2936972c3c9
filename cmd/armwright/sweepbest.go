package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"armwright/cmd/armwright/listing"
	"armwright/cmd/armwright/storage"
	"armwright/export/plot"
	"armwright/export/record"
	"armwright/solver/sweep"

	"github.com/spf13/cobra"
)

type bestOptions struct {
	*common
	file    string
	figures []string
	all     bool
	number  int
	json    bool
	plot    string
	force   bool
}

func newSweepBest(s *streams, c *common) *cobra.Command {
	o := &bestOptions{common: c}
	cmd := &cobra.Command{
		Use:   "best FILE",
		Short: "The best designs of a study, or the trade between figures",
		Long: `Best lists the best designs of a study by one figure, or, by several, the designs
that no other betters in all of them (the Pareto front). A figure is a column of
the file. Requirements know whether less or more of them is better; for other
columns less is, unless the name is followed by :more. Designs that do not meet
their requirements are left out, but with --all. --plot draws the first two
figures of all designs as SVG.`,
		Example: `  armwright sweep best study.csv
  armwright sweep best study.csv --figure footprint_length_mm
  armwright sweep best study.csv --figure footprint_length_mm --figure coverage_percent --plot trade.svg`,
		Args: exactly(1, "the file"),
		RunE: func(_ *cobra.Command, args []string) error {
			o.file = args[0]
			switch {
			case o.number < 1:
				return usage("at least 1", "best: --number %d", o.number)
			case o.plot != "" && len(o.figures) < 2:
				return usage("give two figures", "best: --plot shows one figure against another")
			}
			return runBest(s, o)
		},
	}
	f := cmd.Flags()
	f.StringArrayVar(&o.figures, "figure", nil, "column to judge by, as hand_path_mm or coverage_percent:more; may be given again (default margin)")
	f.BoolVar(&o.all, "all", false, "count designs that do not meet their requirements too")
	f.IntVar(&o.number, "number", 20, "most designs listed, of a front evenly along it")
	f.BoolVar(&o.json, "json", false, "print JSON instead of text")
	f.StringVar(&o.plot, "plot", "", "draw the first two figures into this SVG file")
	f.BoolVar(&o.force, "force", false, "replace whatever file --plot names")
	_ = cmd.MarkFlagFilename("plot", "svg")
	return cmd
}

func (o *bestOptions) objectives() ([]record.Objective, error) {
	if len(o.figures) == 0 {
		return []record.Objective{{Column: "margin", More: true}}, nil
	}
	var list []record.Objective
	for _, name := range o.figures {
		column, sense, told := strings.Cut(name, ":")
		q := record.Objective{Column: column, More: sense == "more"}
		for _, f := range sweep.Figures() {
			if f.Name == column && !told {
				q.More = f.More
			}
		}
		if told && sense != "more" && sense != "less" {
			return nil, usage("write "+column+":more or "+column+":less", "best: --figure %q", name)
		}
		list = append(list, q)
	}
	return list, nil
}

func runBest(s *streams, o *bestOptions) error {
	objectives, err := o.objectives()
	if err != nil {
		return err
	}
	s.reads(o.file)
	var picture *storage.Document
	if o.plot != "" {
		if picture, err = openDocument(s, o.plot, plot.FileMark, o.force); err != nil {
			return err
		}
		defer picture.Discard()
	}
	best, err := record.Rank(func(take func(*record.Row)) error { return eachRow(o.file, take) }, objectives, o.all, o.number)
	if err != nil {
		return err
	}
	if best.Missing != "" {
		return usage("figures are the numeric columns of the file", "best: %s has no figure %q", o.file, best.Missing)
	}
	if picture != nil && len(best.Designs) > 0 {
		if err := plotBest(picture, o, objectives, best); err != nil {
			return err
		}
	}
	t := listing.Table{Columns: []string{"design"}}
	if len(best.Designs) > 0 {
		t.Columns = append(t.Columns, best.Designs[0].Names...)
	}
	for _, q := range objectives {
		if !slices.Contains(t.Columns, q.Column) {
			t.Columns = append(t.Columns, q.Column)
		}
	}
	t.Columns = append(t.Columns, "verdict", "governs")
	for _, c := range best.Spaced(o.number) {
		row := []any{c.Number}
		for _, v := range c.Values {
			if x, err := strconv.ParseFloat(v, 64); err == nil {
				row = append(row, x)
			} else {
				row = append(row, v)
			}
		}
		for i, q := range objectives {
			if !slices.Contains(c.Names, q.Column) {
				row = append(row, c.Figures[i])
			}
		}
		t.Add(append(row, c.Verdict, c.Governs)...)
	}
	t.Title = fmt.Sprintf("%s, %d met; ", count(best.All, "design"), best.Met)
	if len(objectives) == 1 {
		t.Title += fmt.Sprintf("the best %d by %s", len(best.Designs), objectives[0].Column)
	} else {
		t.Title += fmt.Sprintf("%d that none betters", len(best.Designs))
		if n := len(best.Designs); n > o.number {
			t.Title += fmt.Sprintf(", %d of them along the front", o.number)
		}
	}
	return t.Print(s.out, s.columns, o.json)
}

// eachRow reads a study from the beginning.
func eachRow(path string, take func(*record.Row)) error {
	file, r, err := openStudy(path)
	if err != nil {
		return err
	}
	defer file.Close()
	for {
		row, err := r.Next()
		if errors.Is(err, io.EOF) || errors.Is(err, record.ErrCut) { // a run that goes on may be looked at
			return nil
		} else if err != nil {
			return badStudy(path, err)
		}
		take(&row)
	}
}

// plotBest reads the study again and draws it.
func plotBest(picture *storage.Document, o *bestOptions, objectives []record.Objective, best *record.Ranking) error {
	p := record.NewPlot(objectives[0].Column, objectives[1].Column, [2]float64{best.Low[0], best.High[0]}, [2]float64{best.Low[1], best.High[1]})
	figures := make([]float64, len(objectives))
	err := eachRow(o.file, func(row *record.Row) {
		if met, counts := row.Judge(objectives, o.all, figures); counts {
			p.Add(figures[0], figures[1], met)
		}
	})
	if err != nil {
		return err
	}
	var front [][2]float64
	for _, c := range best.Designs {
		front = append(front, [2]float64{c.Figures[0], c.Figures[1]})
	}
	p.Front(front)
	return picture.Finish(p.SVG())
}
