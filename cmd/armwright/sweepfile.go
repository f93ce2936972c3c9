package main

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"time"

	"armwright/cmd/armwright/storage"
	"armwright/export/record"
	"armwright/solver/judge"
	"armwright/solver/sweep"
)

// toStdout writes the rows to stdout.
func (st *study) toStdout(ctx context.Context, s *streams, o *sweepOptions, shard sweep.Shard) error {
	table := record.NewTable(st.places, o.json)
	out := bufio.NewWriter(s.out)
	if _, err := out.Write(table.Head()); err != nil {
		return err
	}
	return st.run(ctx, s, o, shard, 0, table, out)
}

// toFile writes the rows to a file, going on where it ends.
func (st *study) toFile(ctx context.Context, s *streams, o *sweepOptions, shard sweep.Shard) (err error) {
	table := record.NewTable(st.places, o.json)
	refuse := func(err error) error {
		return &failure{code: exitFailed, what: "cannot write " + o.out, why: storage.Reason(err), hint: hintOf(err)}
	}
	for _, input := range s.inputs {
		if sameFile(o.out, input) {
			return usage("name another file", "%s is what is read; it cannot be written too", o.out)
		}
	}
	file, err := os.OpenFile(o.out, os.O_RDWR|os.O_CREATE, 0o666)
	if err != nil {
		return refuse(err)
	}
	defer func() {
		if failed := file.Close(); err == nil && failed != nil {
			err = refuse(failed)
		}
	}()
	var done int
	var end int64
	if !o.force {
		if done, end, err = st.kept(o.out, file, table, shard); err != nil {
			return refuse(err)
		}
	}
	if err := file.Truncate(end); err != nil {
		return refuse(err)
	}
	if _, err := file.Seek(end, io.SeekStart); err != nil {
		return refuse(err)
	}
	out := bufio.NewWriterSize(file, 1<<16)
	if end == 0 {
		_, _ = out.Write(table.Head()) // the writer keeps an error for later
	}
	all := shard.Len(st.plan.Len())
	if done > 0 && !o.quiet {
		fmt.Fprintf(s.err, "armwright: %s holds %d of %s; going on\n", o.out, done, count(all, "design"))
	}
	if err := st.run(ctx, s, o, shard, done, table, out); err != nil {
		return err
	}
	if !o.quiet {
		fmt.Fprintf(s.err, "armwright: wrote %s to %s\n", count(all, "design"), o.out)
	}
	return nil
}

// errOther says that a file holds something else than the study at hand.
type errOther struct{ why string }

func (e *errOther) Error() string { return e.why }
func (*errOther) Hint() string    { return "write to another file, or start again with --force" }

// kept reads what a file holds of the shard's rows already: how many, and
// where the last whole one ends.
func (st *study) kept(label string, in io.Reader, table *record.Table, shard sweep.Shard) (done int, end int64, err error) {
	r, err := record.NewReader(label, in)
	if err != nil {
		return 0, 0, otherwise(err)
	}
	if head := r.Head(); head != nil && (table.JSON || !bytes.Equal(head, table.Head())) {
		return 0, 0, &errOther{"it holds another study, with other columns"}
	}
	if r.JSON() && !table.JSON {
		return 0, 0, &errOther{"it holds JSON lines"}
	}
	var values []string
	n := st.plan.Len()
	for i := range shard.Designs(n, 0) {
		end = r.Offset()
		row, err := r.Next()
		switch {
		case errors.Is(err, io.EOF), errors.Is(err, record.ErrCut):
			return done, end, nil
		case err != nil:
			return 0, 0, otherwise(err)
		}
		values = st.plan.Design(values[:0], i)
		digest := st.workers[0].Digest(values)
		if row.Design != i+1 || row.Of != n || !bytes.Equal(row.Digest, digest[:]) {
			return 0, 0, &errOther{fmt.Sprintf("it holds another study: row %d is not design %d of this one", done+1, i+1)}
		}
		done++
	}
	end = r.Offset()
	if _, err := r.Next(); !errors.Is(err, io.EOF) && !errors.Is(err, record.ErrCut) {
		return 0, 0, &errOther{"it holds more than this study"}
	}
	return done, end, nil
}

// otherwise is an error of reading as one of holding something else.
func otherwise(err error) error {
	var bad *record.Error
	if errors.As(err, &bad) {
		return &errOther{bad.Error()}
	}
	return err
}

// saveEvery is how long finished rows may wait before they are written.
const saveEvery = time.Second

// run does what is left of the shard.
func (st *study) run(ctx context.Context, s *streams, o *sweepOptions, shard sweep.Shard, done int, table *record.Table, out *bufio.Writer) error {
	p := newProgress(s, o.quiet)
	defer p.clear()
	n := st.plan.Len()
	all, fresh := shard.Len(n), 0
	start := time.Now()
	saved := start
	var line []byte
	verdicts := map[judge.Verdict]int{}
	err := sweep.Run(ctx, st.plan, shard.Designs(n, done), st.workers, func(design int, q *sweep.Outcome) error {
		line = table.AppendRow(line[:0], design, n, q)
		if _, err := out.Write(line); err != nil {
			return err
		}
		fresh++
		verdicts[q.Verdict]++
		now := time.Now()
		if now.Sub(saved) > saveEvery {
			saved = now
			if err := out.Flush(); err != nil {
				return err
			}
		}
		rate := float64(fresh) / now.Sub(start).Seconds()
		p.part(float64(fresh)/float64(all-done), "%d of %s, %.3g a second", done+fresh, count(all, "design"), rate)
		return nil
	})
	if failed := out.Flush(); failed != nil && (err == nil || errors.Is(err, context.Canceled)) {
		err = failed
	}
	switch {
	case errors.Is(err, context.Canceled):
		return &interrupted{kept: done + fresh, of: all, where: o.out}
	case err != nil && o.out != "":
		return &failure{code: exitFailed, what: "cannot write " + o.out, why: storage.Reason(err), hint: "the rows that are there are whole; the same command goes on"}
	case err == nil && !o.quiet && o.out != "":
		p.clear()
		fmt.Fprintf(s.err, "armwright: %d met, %d not met, %d infeasible, %d invalid\n",
			verdicts[judge.Met], verdicts[judge.NotMet], verdicts[judge.Infeasible], verdicts[sweep.Invalid])
	}
	return err
}

// openStudy opens a file of rows for reading.
func openStudy(path string) (*os.File, *record.Reader, error) {
	file, err := os.Open(path)
	if err != nil {
		f := &failure{code: exitFailed, what: "cannot read " + path, why: storage.Reason(err)}
		if errors.Is(err, fs.ErrNotExist) {
			f.hint = "a study comes from: armwright sweep BRIEF --vary ... --out FILE"
		}
		return nil, nil, f
	}
	r, err := record.NewReader(path, file)
	if err != nil {
		_ = file.Close()
		return nil, nil, badStudy(path, err)
	}
	return file, r, nil
}

// badStudy says what an error of reading rows means.
func badStudy(path string, err error) error {
	var bad *record.Error
	switch {
	case errors.As(err, &bad):
		return &failure{code: exitInvalid, what: bad.Error(), hint: bad.Hint()}
	case errors.Is(err, record.ErrCut):
		return &failure{code: exitInvalid, what: path, why: err, hint: "run the sweep that writes it once more; it goes on where it was stopped"}
	}
	return &failure{code: exitFailed, what: "cannot read " + path, why: storage.Reason(err)}
}
