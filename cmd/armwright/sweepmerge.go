package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"

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
	file, err := openNew(s, out)
	if err != nil {
		return err
	}
	defer file.discard()
	if err := mergeStudies(paths, file); err != nil {
		return err
	}
	if err := file.commit(); err != nil {
		return err
	}
	if !c.quiet {
		fmt.Fprintf(s.err, "armwright: merged %s into %s\n", count(len(paths), "file"), out)
	}
	return nil
}

// shardFile is a file of rows with its next one.
type shardFile struct {
	path string
	r    *record.Reader
	row  record.Row
	end  bool
}

func (f *shardFile) next() error {
	var err error
	f.row, err = f.r.Next()
	if errors.Is(err, io.EOF) {
		f.end = true
		return nil
	}
	if err != nil {
		return badStudy(f.path, err)
	}
	return nil
}

// mergeStudies writes the rows of all files in the order of their designs.
// Every design is looked for where it must be next, so that memory stays flat.
func mergeStudies(paths []string, w io.Writer) error {
	var files []*shardFile
	for _, path := range paths {
		file, r, err := openStudy(path)
		if err != nil {
			return err
		}
		defer file.Close()
		f := &shardFile{path: path, r: r}
		if err := f.next(); err != nil {
			return err
		}
		if f.end {
			return &failure{code: exitInvalid, what: path + " holds no design", hint: "wait for its run, or start it again"}
		}
		first := f
		if len(files) > 0 {
			first = files[0]
		}
		if r.JSON() != first.r.JSON() || !bytes.Equal(r.Head(), first.r.Head()) || f.row.Of != first.row.Of {
			return &failure{code: exitInvalid, what: fmt.Sprintf("%s and %s are of different studies", first.path, path), hint: "merge the shards of one"}
		}
		files = append(files, f)
	}
	out := bufio.NewWriterSize(w, 1<<16)
	_, _ = out.Write(files[0].r.Head()) // the writer keeps an error for Flush
	of, at := files[0].row.Of, 0
	for design := 1; design <= of; design++ {
		// Shards take turns, so the next design is mostly in the next file.
		found := -1
		for k := range files {
			i := (at + k) % len(files)
			if f := files[i]; !f.end && f.row.Design == design {
				found = i
				break
			}
		}
		if found < 0 {
			return &failure{code: exitInvalid, what: fmt.Sprintf("design %d of %d is missing", design, of), hint: "name every shard; one that was stopped goes on with its own command"}
		}
		f := files[found]
		_, _ = out.Write(f.row.Line)
		if err := f.next(); err != nil {
			return err
		}
		at = found + 1
	}
	for _, f := range files {
		if !f.end {
			return &failure{code: exitInvalid, what: fmt.Sprintf("%s: design %d is there twice", f.path, f.row.Design), hint: "name every shard once"}
		}
	}
	return out.Flush()
}
