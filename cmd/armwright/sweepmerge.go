package main

import (
	"errors"
	"fmt"
	"io"

	"armwright/cmd/armwright/storage"
	"armwright/export/record"

	"github.com/spf13/cobra"
)

func newSweepMerge(s *streams, c *common) *cobra.Command {
	var out string
	cmd := &cobra.Command{
		Use:   "merge SHARD...",
		Short: "Put the shards of a study together",
		Long: `Merge puts the files that sweep --shard wrote together into the study that one
run would have written, byte for byte. Shards may be named in any order. A design
that is missing or there twice is an error, and nothing is written.`,
		Example: `  armwright sweep merge part-*.csv --out study.csv`,
		Args:    between(1, 1<<16, "a shard"),
		RunE: func(_ *cobra.Command, args []string) error {
			if out == "" {
				return mergeStudies(args, s.out)
			}
			return mergeTo(s, c, args, out)
		},
	}
	cmd.Flags().StringVarP(&out, "out", "o", "", "file to write, new; stdout without it")
	_ = cmd.MarkFlagFilename("out", "csv", "jsonl")
	return cmd
}

// mergeTo merges into a new file, which is there whole or not at all.
func mergeTo(s *streams, c *common, paths []string, out string) error {
	file, err := storage.NewDocument(s.disk, out)
	if err != nil {
		return err
	}
	defer file.Discard()
	if err := mergeStudies(paths, file); err != nil {
		return err
	}
	if err := file.Commit(); err != nil {
		return err
	}
	if !c.quiet {
		fmt.Fprintf(s.err, "armwright: merged %s into %s\n", count(len(paths), "file"), out)
	}
	return nil
}

// mergeStudies writes the rows of all files in the order of their designs.
func mergeStudies(paths []string, w io.Writer) error {
	var shards []*record.Shard
	for _, path := range paths {
		file, r, err := openStudy(path)
		if err != nil {
			return err
		}
		defer file.Close()
		shards = append(shards, &record.Shard{Name: path, Rows: r})
	}
	err := record.Merge(shards, w)
	var unfit *record.MergeError
	var row *record.RowError
	switch {
	case errors.As(err, &unfit):
		return &failure{code: exitInvalid, what: unfit.Error(), hint: unfit.Hint()}
	case errors.As(err, &row):
		return badStudy(row.File, row.Err)
	}
	return err
}
