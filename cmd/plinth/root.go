package main

import (
	"bufio"
	"encoding/json"
	"errors"
	"io"
	"runtime/debug"

	"github.com/spf13/cobra"

	"plinth/cmd/internal/bed"
	"plinth/cmd/internal/soundfiles"
	"plinth/songspec/hcltext"
)

// maxShown is how many mistakes are shown. The rest are only counted.
const maxShown = 10

func (a *app) rootCommand() *cobra.Command {
	cobra.EnableCommandSorting = false // they stand in the order of the work
	cobra.MousetrapHelpText = "plinth is written in a terminal: open one, and type plinth help there.\n"
	root := &cobra.Command{
		Use:   "plinth",
		Short: "A song file becomes a band bed: drums, bass and piano as MIDI",
		Long: `plinth reads a song file (sections, chords, feel, accents) and plays a simple
band bed from it: drums, bass and piano comp, as a MIDI file to write an
orchestra on top of.

  plinth new lanterns.song.hcl       writes a small song that already builds
  plinth build lanterns.song.hcl     makes bed/lanterns.mid beside it
  plinth watch lanterns.song.hcl     makes it again each time you save the song

Exit codes: 0 done, 1 the song is wrong, 2 the command line is wrong, 3 the
machine failed (disk, permission). NO_COLOR and a pipe turn colour off.`,
		Version:       version(),
		SilenceErrors: true,
		SilenceUsage:  true,
	}
	root.Args = cobra.ArbitraryArgs
	root.RunE = func(_ *cobra.Command, args []string) error {
		if len(args) == 0 {
			return root.Help()
		}
		return noCommand(root, args[0])
	}
	root.ValidArgsFunction = cobra.NoFileCompletions
	root.PersistentFlags().BoolP("help", "h", false, "say how it is used")
	root.Flags().BoolP("version", "v", false, "say which version of plinth it is")
	root.CompletionOptions.DisableDefaultCmd = true
	root.SetHelpCommand(helpCommand(root))
	root.SetUsageFunc(writeUsage)
	root.SetFlagErrorFunc(a.flagError)
	root.SetVersionTemplate("plinth {{.Version}}\n")
	root.SetIn(a.in)
	root.SetOut(a.out)
	root.SetErr(a.err)
	root.AddCommand(
		a.newCommand(),
		a.buildCommand(),
		a.watchCommand(),
		a.checkCommand(),
		a.outlineCommand(),
		a.roomCommand(),
		a.diffCommand(),
		a.fmtCommand(),
		a.groovesCommand(),
		a.completionCommand(root),
	)
	return root
}

// version is the module's version as the Go tool built it, with the commit where it is
// known.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" {
		return "(development)"
	}
	return info.Main.Version
}

// show writes the mistakes and doubts of a result.
func (a *app) show(w io.Writer, color bool, res *bed.Result) error {
	return hcltext.WriteDiagnostics(w, res.Sources, res.Diags, hcltext.DiagOptions{Color: color, Max: maxShown})
}

// settle shows the mistakes and doubts of a song that was read or built, and returns the
// error with which the command ends: nil for a sound song. err is the error of reading or
// building.
func (a *app) settle(res *bed.Result, err error) error {
	if showErr := a.show(a.err, a.colorErr, res); showErr != nil {
		return machineFailure(showErr)
	}
	switch {
	case err != nil:
		return readFailure(err)
	case res.Failed():
		return reported(songWrong)
	}
	return nil
}

// print writes the answer of a command through a buffer.
func (a *app) print(write func(io.Writer) error) error {
	w := bufio.NewWriter(a.out)
	err := write(w)
	if err == nil {
		err = w.Flush()
	}
	if err != nil {
		return machineFailure(err)
	}
	return nil
}

// writeJSON writes a value as JSON that a person can read, too.
func writeJSON(w io.Writer, v any) error {
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	return enc.Encode(v)
}

// argCount checks that a command line has between least and most names (most may be -1: no
// limit). The error says how the command is written.
func argCount(least, most int) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) < least || most >= 0 && len(args) > most {
			return misuse("it is written %s", cmd.UseLine())
		}
		return nil
	}
}

// readFailure gives an error of reading or building its exit code.
func readFailure(err error) error {
	var unread *bed.SongError
	var notPlayed *bed.NotPlayedError
	var notHeard *soundfiles.NotHeardError
	var said *failure
	if errors.As(err, &said) {
		return err
	}
	if errors.As(err, &notHeard) {
		return misuse("%w", err)
	}
	if errors.As(err, &unread) && unread.Misnamed() || errors.As(err, &notPlayed) {
		return misuse("%w", err)
	}
	return machineFailure(err)
}
