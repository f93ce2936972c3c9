package main

import (
	"context"
	"fmt"
	"os"
	"os/signal"
	"strings"
	"syscall"
	"time"

	"armwright/cmd/armwright/storage"
	"armwright/export/terminal"

	"github.com/spf13/cobra"
)

const rootHelp = `armwright turns a brief (who must fit, what resistance is wanted, what stock
and space there is) into the geometry of a seated arm-flexion station, its shop
drawings, cut files and report.

Quick start:
  armwright new > brief.yaml
  armwright design brief.yaml --out station`

// newRoot returns the command tree.
func newRoot(s *streams) *cobra.Command {
	c := &common{}
	root := &cobra.Command{
		Use:           "armwright",
		Short:         "Turn a brief into a seated arm-flexion station and its shop drawings",
		Long:          rootHelp,
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          knownCommand,
		RunE:          func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	root.SetIn(s.in)
	root.SetOut(s.out)
	root.SetErr(s.err)
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error {
		return usage("see "+cmd.CommandPath()+" --help", "%s", err)
	})
	root.PersistentFlags().BoolVarP(&c.quiet, "quiet", "q", false, "print errors only")
	root.AddCommand(
		newDesign(s, c, nil),
		newCheck(s, c, nil),
		newMeasure(s, c, nil),
		newCam(s, c, nil),
		newPage(s, c, nil),
		newSweep(s, c, nil),
		newTolerance(s, c, nil),
		newSolid(s, c, nil),
		newNew(s, nil),
		newShow(s),
		newSchema(s),
		newVersion(s),
	)
	for _, p := range topics() {
		root.AddCommand(newTopic(s, p))
	}
	fitHelp(root, s.columns)
	return root
}

// fitHelp breaks the help of a command and those under it for a terminal, but for its
// examples, which are to be copied.
func fitHelp(c *cobra.Command, columns int) {
	if columns <= 0 {
		return
	}
	c.Long = terminal.Fill(c.Long, columns)
	if !c.HasParent() {
		wrapped := fmt.Sprintf("FlagUsagesWrapped %d", terminal.Width(columns))
		fit := strings.NewReplacer("FlagUsages", wrapped, ` for more information about a command.`, "\nfor more information about a command.")
		c.SetUsageTemplate(fit.Replace(c.UsageTemplate()))
	}
	for _, sub := range c.Commands() {
		fitHelp(sub, columns)
	}
}

// grace is how long a command that is interrupted may take to end by itself, with
// the rows of a study written and whatever waits on the page told. Then it is left
// where it is: in a long sum, or waiting for a pipe that nobody writes to.
const grace = 200 * time.Millisecond

// run runs one command line and returns the exit code.
func run(s *streams, args []string) int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	// A second Ctrl-C ends the process at once.
	context.AfterFunc(ctx, stop)
	tidy := storage.NewTidy(s.disk)
	own := *s
	own.disk = tidy
	done := make(chan int, 1)
	go func() { done <- execute(ctx, &own, args) }()
	select {
	case code := <-done:
		return code
	case <-ctx.Done():
	}
	select {
	case code := <-done:
		return code
	case <-time.After(grace):
	}
	tidy.Leave()
	fmt.Fprintln(s.err, "armwright: interrupted; nothing was written, but rows of a sweep that were done")
	return int(exitInterrupted)
}

// execute runs one command line to its end.
func execute(ctx context.Context, s *streams, args []string) int {
	stdout := &watched{w: s.out, name: "stdout"}
	watching := *s
	watching.out = stdout
	root := newRoot(&watching)
	root.SetArgs(args)
	err := root.ExecuteContext(ctx)
	switch {
	case err == nil:
		err = stdout.err
	case codeOf(err) == exitUsage && !strings.HasPrefix(args[0], "-"):
		// Of an unknown command a flag is no news.
		if found, _, _ := root.Find(args); found == root {
			err = knownCommand(root, args)
		}
	}
	explain(s.err, err)
	return int(codeOf(err))
}
