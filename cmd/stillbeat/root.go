package main

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"stillbeat/board/file"
)

// version is the program's version, as in the changelog.
const version = "0.1.0"

// root returns the command tree.
func (a *app) root() *cobra.Command {
	cobra.EnableCommandSorting = false // the order of the work, not of the alphabet
	root := &cobra.Command{
		Use:   "stillbeat [FILM]",
		Short: "Plan a film that is shot frame by frame: pictures on the beats of a song",
		Long: `Stillbeat plans films that are shot frame by frame. It finds the beats of a
song, lays pictures on them and plays or writes the animatic.

Without a command it opens the window, on FILM if one is named.`,
		Example: `  stillbeat                          start in an empty window
  stillbeat "tea dance.stillbeat"    go on with a film
  stillbeat demo                     look round in a film that is there already`,
		SilenceErrors:              true,
		SilenceUsage:               true,
		DisableFlagsInUseLine:      true,
		SuggestionsMinimumDistance: 2,
		Args:                       filmOrNothing,
		RunE: func(cmd *cobra.Command, args []string) error {
			if !a.display() {
				return errNoDisplay
			}
			if len(args) == 0 {
				return a.show("")
			}
			if err := findFilm(args[0]); err != nil {
				return err
			}
			return a.show(args[0])
		},
	}
	root.CompletionOptions.DisableDefaultCmd = true
	root.SetOut(a.out)
	root.SetErr(a.errOut)
	root.SetUsageTemplate(usageText)
	root.SetHelpTemplate(helpText)
	root.SetFlagErrorFunc(flagError)
	root.PersistentFlags().BoolVarP(&a.quiet, "quiet", "q", false, "no progress, and no word when all went well")
	root.PersistentFlags().BoolP("help", "h", false, "explain the command")
	root.AddCommand(a.demoCommand(), a.listenCommand(), a.newCommand(), a.infoCommand(),
		a.snapCommand(), a.beatsCommand(), a.spacingCommand(), a.shareCommand(), a.sheetCommand(), a.timingCommand(), a.checkCommand(), a.planCommand(), a.notesCommand(), a.unpackCommand(), a.packCommand(), a.versionCommand())
	root.SetHelpCommand(helpCommand(root))
	for _, cmd := range root.Commands() {
		cmd.DisableFlagsInUseLine = true // the lines name the options that matter
		cmd.Flags().SortFlags = false
	}
	return root
}

// filmOrNothing checks the arguments of the root command: a word that is
// neither a file nor looks like one was meant as a command.
func filmOrNothing(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	word := args[0]
	_, err := os.Stat(word)
	if err != nil && filepath.Ext(word) != file.Ext && !strings.ContainsAny(word, `/\`) {
		hint := ""
		if near := cmd.SuggestionsFor(word); len(near) > 0 {
			hint = "; did you mean " + near[0] + "?"
		}
		return wrong(cmd, "%q is neither a command nor a film%s", word, hint)
	}
	if len(args) > 1 {
		return wrong(cmd, "the window opens one film, and %q is one too many", args[1])
	}
	return nil
}

// takes checks the number of arguments (most < 0: any number from least on);
// what names them.
func takes(least, most int, what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		switch {
		case len(args) < least:
			return wrong(cmd, "%s needs %s", cmd.Name(), what)
		case most >= 0 && len(args) > most:
			return wrong(cmd, "%s takes %s, and %q is one too many", cmd.Name(), what, args[most])
		}
		return nil
	}
}

// flagError makes a sentence of what was wrong with a flag.
func flagError(cmd *cobra.Command, err error) error {
	var bad *pflag.InvalidValueError
	if errors.As(err, &bad) {
		return wrong(cmd, "--%s: %w", bad.GetFlag().Name, bad.Unwrap())
	}
	return wrong(cmd, "%w", err)
}

func helpCommand(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND]",
		Short: "Explain a command",
		Args:  takes(0, 1, "one COMMAND"),
		RunE: func(cmd *cobra.Command, args []string) error {
			about, rest, err := root.Find(args)
			if err != nil || len(rest) > 0 {
				return wrong(root, "there is no command %q to explain", args[0])
			}
			return about.Help()
		},
	}
}

func (a *app) versionCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "Print the version",
		Args:  takes(0, 0, "no arguments"),
		RunE: func(*cobra.Command, []string) error {
			return a.print([]byte("stillbeat " + version + " (" + runtime.Version() + ", " + runtime.GOOS + "/" + runtime.GOARCH + ")\n"))
		},
	}
}

const helpText = `{{with (or .Long .Short)}}{{. | trimTrailingWhitespaces}}

{{end}}{{.UsageString}}`

const usageText = `Usage:
  {{if .HasAvailableSubCommands}}{{.UseLine}}
  {{.CommandPath}} COMMAND ...{{else}}{{.UseLine}}{{end}}
{{- if .HasExample}}

Examples:
{{.Example}}
{{- end}}
{{- if .HasAvailableSubCommands}}

Commands:
{{- range .Commands}}{{if or .IsAvailableCommand (eq .Name "help")}}
  {{rpad .Name .NamePadding}} {{.Short}}
{{- end}}{{end}}
{{- end}}
{{- if .HasAvailableLocalFlags}}

Options:
{{.LocalFlags.FlagUsages | trimTrailingWhitespaces}}
{{- end}}
{{- if .HasAvailableInheritedFlags}}

Options of every command:
{{.InheritedFlags.FlagUsages | trimTrailingWhitespaces}}
{{- end}}

Exit status: 0 done, 1 failed, 2 wrong use.
`
