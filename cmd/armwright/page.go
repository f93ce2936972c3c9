package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"strconv"
	"syscall"

	"armwright/export/draw"
	"armwright/export/folder"
	"armwright/export/output"
	"armwright/export/page"
	"armwright/export/page/drawn"
	"armwright/export/page/serve"
	"armwright/solver"
	"armwright/specs"

	"github.com/spf13/cobra"
)

type pageOptions struct {
	*common
	brief    string // file, - for stdin, or empty for a starter brief
	port     int
	static   string // folder to write the page into, empty to serve it
	programs string
	force    bool
}

// usualPort is where the page is found unless another is asked for, so that an
// address with a design in it stays good.
const usualPort = 8417

func newPage(s *streams, c *common, runF func(context.Context, *pageOptions) error) *cobra.Command {
	o := &pageOptions{common: c}
	cmd := &cobra.Command{
		Use:   "page [BRIEF]",
		Short: "Play with a brief on a local page",
		Long: `Page serves a page on this machine, to this machine only, on which the brief's
quantities are controls: the station is drawn and judged while one is dragged and
solved again when it is let go. Designs can be kept side by side, and brief,
drawings and tables saved from the page.

BRIEF may be - for stdin; without one it is a starter brief for an arm-pad
station. The file itself is never written to. Ctrl-C closes the page.

With --static the page is written into a folder instead, which any web server can
hand out: the program then runs in the visitor's browser, and no server answers.
Its alone.html holds the same page in one file, to be opened from a disk or a
memory stick. Both take the programs for browsers, armwright-worker.wasm and
armwright-files.wasm, beside this one or in the folder named with --programs; they
are built from the same source by
GOOS=js GOARCH=wasm go build -o NAME.wasm ./cmd/NAME`,
		Example: `  armwright page brief.yaml
  armwright new cam-study | armwright page - --port 0
  armwright page brief.yaml --static site`,
		Args:              between(0, 1, "the brief"),
		ValidArgsFunction: yamlFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				o.brief = args[0]
			}
			if o.port < 0 || o.port > 65535 {
				return usage("ports are 0 to 65535, 0 for any free one", "page: no port %d", o.port)
			}
			switch {
			case o.static == "" && (o.programs != "" || o.force):
				return usage("add --static DIR", "page: --programs and --force belong to --static")
			case o.static != "" && cmd.Flags().Changed("port"):
				return usage("leave --port out", "page: --static serves nothing")
			}
			if runF != nil {
				return runF(cmd.Context(), o)
			}
			if o.static != "" {
				return runStatic(s, o)
			}
			return runPage(cmd.Context(), s, o)
		},
	}
	f := cmd.Flags()
	f.IntVar(&o.port, "port", usualPort, "port to serve on, 0 for any free one")
	f.StringVar(&o.static, "static", "", "folder to write the page into, for any web server")
	f.StringVar(&o.programs, "programs", "", "folder of the programs for browsers; that of this one when left out")
	f.BoolVar(&o.force, "force", false, "replace files added to an earlier --static")
	_ = cmd.MarkFlagDirname("static")
	_ = cmd.MarkFlagDirname("programs")
	return cmd
}

// pageBrief is the brief that the page begins with.
func pageBrief(s *streams, o *pageOptions) (specs.Brief, error) {
	if o.brief == "" {
		return specs.ParseBrief("starter", specs.Starter(kinds[0]))
	}
	_, _, b, err := readBrief(s, o.brief)
	return b, err
}

func runPage(ctx context.Context, s *streams, o *pageOptions) error {
	brief, err := pageBrief(s, o)
	if err != nil {
		return err
	}
	p, err := page.New(brief, page.Options{Program: program(), Views: drawn.Views, Files: func(r *solver.Result) ([]folder.File, error) {
		files, _, err := output.Files(r, program(), draw.Options{})
		return files, err
	}})
	if err != nil {
		return err
	}
	l, err := new(net.ListenConfig).Listen(ctx, "tcp4", net.JoinHostPort("127.0.0.1", strconv.Itoa(o.port)))
	if err != nil {
		f := &failure{code: exitFailed, what: fmt.Sprintf("cannot serve on port %d", o.port), why: err}
		if errors.Is(err, syscall.EADDRINUSE) {
			f.why, f.hint = errors.New("something else does already"), "take another with --port, or any free one with --port 0"
		}
		return f
	}
	fmt.Fprintf(s.out, "http://%s/\n", l.Addr())
	if !o.quiet {
		fmt.Fprintln(s.err, "armwright: open this address in a browser; Ctrl-C closes the page")
	}
	return serve.Serve(ctx, l, p)
}
