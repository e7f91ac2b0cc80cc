package main

import (
	"errors"
	"io"
	"runtime/debug"

	"github.com/spf13/cobra"

	"plinth/cmd/internal/bed"
	"plinth/songspec/hcltext"
)

// maxShown is how many mistakes are shown; the rest are counted.
const maxShown = 10

func (a *app) rootCommand() *cobra.Command {
	root := &cobra.Command{
		Use:   "plinth",
		Short: "A song file becomes a band bed: drums, bass and piano as MIDI",
		Long: `plinth reads a song file (sections, chords, feel, accents) and plays a simple
band bed from it: drums, bass and piano comp, as a MIDI file to write an
orchestra on top of.

  plinth new lanterns.song.hcl       writes a small song that already builds
  plinth build lanterns.song.hcl     makes bed/lanterns.mid beside it

Exit codes: 0 done, 1 the song is wrong, 2 the command line is wrong, 3 the
machine failed (disk, permission). NO_COLOR and a pipe turn colour off.`,
		Version:       version(),
		SilenceErrors: true,
		SilenceUsage:  true,
	}
	root.CompletionOptions.DisableDefaultCmd = true
	root.SetHelpCommand(helpCommand(root))
	root.SetVersionTemplate("plinth {{.Version}}\n")
	root.SetIn(a.in)
	root.SetOut(a.out)
	root.SetErr(a.err)
	root.AddCommand(
		a.newCommand(),
		a.buildCommand(),
		a.checkCommand(),
		a.outlineCommand(),
		a.watchCommand(),
		a.diffCommand(),
		a.fmtCommand(),
		a.groovesCommand(),
		a.roomCommand(),
	)
	return root
}

// helpCommand says how a command is used; a name that is none is a wrong command
// line, which cobra's own takes for a question well answered.
func helpCommand(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND]",
		Short: "Say how a command is used",
		Args:  takes(0, 1),
		RunE: func(_ *cobra.Command, args []string) error {
			cmd, rest, err := root.Find(args)
			if err != nil || len(rest) > 0 {
				return misused("there is no command %q; plinth help lists them", args[0])
			}
			return cmd.Help()
		},
	}
}

// version is that of the module as the Go tool built it, with the commit where it
// is known.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" {
		return "(development)"
	}
	return info.Main.Version
}

// show writes a result's mistakes and doubts.
func (a *app) show(w io.Writer, color bool, res *bed.Result) error {
	if len(res.Diags) == 0 {
		return nil
	}
	return hcltext.WriteDiagnostics(w, res.Sources, res.Diags, hcltext.DiagOptions{Color: color, Max: maxShown})
}

// takes is a check of how many names a command line has, between least and most
// (negative: no bound), which says how the command is written.
func takes(least, most int) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) < least || most >= 0 && len(args) > most {
			return misused("it is written %s", cmd.UseLine())
		}
		return nil
	}
}

// failed gives an error of reading or building its exit code.
func failed(err error) error {
	var unread *bed.SongError
	if errors.As(err, &unread) && unread.Misnamed() {
		return misused("%w", err)
	}
	return machine(err)
}
