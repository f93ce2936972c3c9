package main

import (
	"context"
	"fmt"
	"io"
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

// fitHelp breaks the help of all commands for a terminal.
func fitHelp(root *cobra.Command, columns int) {
	if columns <= 0 {
		return
	}
	wrapped := fmt.Sprintf("FlagUsagesWrapped %d", terminal.Width(columns))
	root.SetUsageTemplate(strings.ReplaceAll(root.UsageTemplate(), "FlagUsages", wrapped))
	help, out := root.HelpFunc(), root.OutOrStdout()
	root.SetHelpFunc(func(c *cobra.Command, args []string) {
		var b strings.Builder
		root.SetOut(&b)
		help(c, args)
		root.SetOut(out)
		_, _ = io.WriteString(out, terminal.Fill(b.String(), columns)) // a watched stream keeps its error
	})
}

// grace is how long a command that is interrupted may take to end by itself, with
// the rows of a study written and whatever waits on the page told. Then it is left
// where it is: in a long sum, or waiting for a pipe that nobody writes to.
const grace = 150 * time.Millisecond

// run runs one command line and returns the exit code.
func run(s *streams, args []string) int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	// A second Ctrl-C ends the process at once.
	context.AfterFunc(ctx, stop)
	tidy := storage.NewTidy(s.disk)
	own := *s
	talk := &terminal.Gate{To: s.err}
	own.disk, own.err = tidy, talk
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
	talk.Shut()
	if s.progress {
		fmt.Fprint(s.err, rewrite+eraseLine)
	}
	kept := ""
	if c, _, err := newRoot(s).Find(args); err == nil && c.Name() == "sweep" {
		kept = ", but the rows that were done"
	}
	fmt.Fprintln(s.err, "armwright: interrupted; nothing was written"+kept)
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
