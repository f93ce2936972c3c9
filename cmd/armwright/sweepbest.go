package main

import (
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"armwright/export/plot"
	"armwright/export/record"
	"armwright/solver/judge"
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

// objective is a column to judge by.
type objective struct {
	column string
	more   bool
}

func (o *bestOptions) objectives() ([]objective, error) {
	if len(o.figures) == 0 {
		return []objective{{"margin", true}}, nil
	}
	var list []objective
	for _, name := range o.figures {
		column, sense, told := strings.Cut(name, ":")
		q := objective{column: column, more: sense == "more"}
		for _, f := range sweep.Figures() {
			if f.Name == column && !told {
				q.more = f.More
			}
		}
		if told && sense != "more" && sense != "less" {
			return nil, usage("write "+column+":more or "+column+":less", "best: --figure %q", name)
		}
		list = append(list, q)
	}
	return list, nil
}

// candidate is what is listed of a design.
type candidate struct {
	design           int
	names, values    []string
	verdict, governs string
	figures          []float64
}

// bestOf is what one reading of a study gives.
type bestOf struct {
	all, met  int
	list      []candidate
	low, high []float64 // of the figures, over the designs that count
}

func runBest(s *streams, o *bestOptions) error {
	objectives, err := o.objectives()
	if err != nil {
		return err
	}
	s.reads(o.file)
	var picture *document
	if o.plot != "" {
		if picture, err = openDocument(s, o.plot, plot.FileMark, o.force); err != nil {
			return err
		}
		defer picture.discard()
	}
	best, err := rank(o, objectives)
	if err != nil {
		return err
	}
	if picture != nil && len(best.list) > 0 {
		if err := plotBest(picture, o, objectives, best); err != nil {
			return err
		}
	}
	t := table{columns: []string{"design"}}
	if len(best.list) > 0 {
		t.columns = append(t.columns, best.list[0].names...)
	}
	for _, q := range objectives {
		if !slices.Contains(t.columns, q.column) {
			t.columns = append(t.columns, q.column)
		}
	}
	t.columns = append(t.columns, "verdict", "governs")
	for _, c := range spaced(best.list, o.number) {
		row := []any{c.design}
		for _, v := range c.values {
			if x, err := strconv.ParseFloat(v, 64); err == nil {
				row = append(row, x)
			} else {
				row = append(row, v)
			}
		}
		for i, q := range objectives {
			if !slices.Contains(c.names, q.column) {
				row = append(row, c.figures[i])
			}
		}
		t.add(append(row, c.verdict, c.governs)...)
	}
	if o.json {
		return t.json(s.out)
	}
	t.title = fmt.Sprintf("%s, %d met; ", count(best.all, "design"), best.met)
	if len(objectives) == 1 {
		t.title += fmt.Sprintf("the best %d by %s", len(best.list), objectives[0].column)
	} else {
		t.title += fmt.Sprintf("%d that none betters", len(best.list))
		if n := len(best.list); n > o.number {
			t.title += fmt.Sprintf(", %d of them along the front", o.number)
		}
	}
	return t.text(s.out, s.columns)
}

// spaced takes at most n of a list, evenly, with the first and the last.
func spaced(list []candidate, n int) []candidate {
	if len(list) <= n {
		return list
	}
	out := list[:1:1]
	for i := 1; i < n; i++ {
		out = append(out, list[i*(len(list)-1)/(n-1)])
	}
	return out
}

// eachRow reads a study from the beginning.
func eachRow(path string, take func(*record.Row) error) error {
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
		if err := take(&row); err != nil {
			return err
		}
	}
}

// read returns a row's figures, and whether it counts.
func (o *bestOptions) read(row *record.Row, objectives []objective, into []float64) (met, counts bool) {
	met = row.Text("verdict") == string(judge.Met)
	counts = met || o.all
	for i, q := range objectives {
		into[i] = row.Number(q.column)
		counts = counts && !math.IsNaN(into[i])
	}
	return met, counts
}

// rank reads the study once and keeps what is best.
func rank(o *bestOptions, objectives []objective) (*bestOf, error) {
	b := &bestOf{}
	more := make([]bool, len(objectives))
	for i, q := range objectives {
		more[i] = q.more
		b.low, b.high = append(b.low, math.Inf(1)), append(b.high, math.Inf(-1))
	}
	front := sweep.NewFront[candidate](more...)
	known := make([]bool, len(objectives)) // columns met with a number
	figures := make([]float64, len(objectives))
	err := eachRow(o.file, func(row *record.Row) error {
		met, counts := o.read(row, objectives, figures)
		b.all++
		if met {
			b.met++
		}
		for i, v := range figures {
			known[i] = known[i] || !math.IsNaN(v)
		}
		if !counts {
			return nil
		}
		for i, v := range figures {
			b.low[i], b.high[i] = math.Min(b.low[i], v), math.Max(b.high[i], v)
		}
		c := candidate{design: row.Design, names: row.Varied(), verdict: row.Text("verdict"), governs: row.Text("governs"), figures: slices.Clone(figures)}
		for _, name := range c.names {
			c.values = append(c.values, row.Text(name))
		}
		if len(objectives) > 1 {
			front.Add(figures, c)
			return nil
		}
		at, _ := slices.BinarySearchFunc(b.list, c, func(a, b candidate) int {
			if a.figures[0] == b.figures[0] || a.figures[0] > b.figures[0] == more[0] {
				return -1 // equals stay in their order
			}
			return 1
		})
		if b.list = slices.Insert(b.list, at, c); len(b.list) > o.number {
			b.list = b.list[:o.number]
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	for i, q := range objectives {
		if !known[i] && b.all > 0 {
			return nil, usage("figures are the numeric columns of the file", "best: %s has no figure %q", o.file, q.column)
		}
	}
	for _, p := range front.Points() {
		b.list = append(b.list, p.Design)
	}
	if len(objectives) > 1 {
		slices.SortStableFunc(b.list, func(a, b candidate) int {
			switch {
			case a.figures[0] == b.figures[0]:
				return 0
			case a.figures[0] > b.figures[0] == more[0]:
				return -1
			}
			return 1
		})
	}
	return b, nil
}

// plotBest reads the study again and draws it.
func plotBest(picture *document, o *bestOptions, objectives []objective, best *bestOf) error {
	p := record.NewPlot(objectives[0].column, objectives[1].column, [2]float64{best.low[0], best.high[0]}, [2]float64{best.low[1], best.high[1]})
	figures := make([]float64, len(objectives))
	err := eachRow(o.file, func(row *record.Row) error {
		if met, counts := o.read(row, objectives, figures); counts {
			p.Add(figures[0], figures[1], met)
		}
		return nil
	})
	if err != nil {
		return err
	}
	var front [][2]float64
	for _, c := range best.list {
		front = append(front, [2]float64{c.figures[0], c.figures[1]})
	}
	p.Front(front)
	return picture.finish(p.SVG())
}
