package main

import (
	"github.com/spf13/cobra"
)

// common are the flags of every command.
type common struct {
	quiet bool
}

// knownCommand turns an unknown command into a usage error that names the
// nearest.
func knownCommand(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	hint := "see " + cmd.CommandPath() + " --help"
	cmd.SuggestionsMinimumDistance = 2
	if near := cmd.SuggestionsFor(args[0]); len(near) > 0 {
		hint = "did you mean " + sentence(near, "or") + "?"
	}
	return usage(hint, "no command %q", args[0])
}

// exactly asks for n arguments, called what in messages.
func exactly(n int, what string) cobra.PositionalArgs { return between(n, n, what) }

// between asks for least..most arguments.
func between(least, most int, what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		hint := "usage: " + cmd.UseLine()
		switch {
		case len(args) < least:
			return usage(hint, "%s: %s is missing", cmd.Name(), what)
		case len(args) > most:
			return usage(hint, "%s: too many arguments, from %q on", cmd.Name(), args[most])
		}
		return nil
	}
}

// yamlFile completes to YAML files.
func yamlFile(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return []string{"yaml", "yml"}, cobra.ShellCompDirectiveFilterFileExt
}
