package main

import (
	"fmt"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"plinth/cmd/internal/bed"
	"plinth/cmd/internal/files"
	"plinth/songspec"
)

func (a *app) buildCommand() *cobra.Command {
	var out, only *textFlag
	var replace *songspec.Override
	cmd := &cobra.Command{
		Use:   "build FILE",
		Short: "Make the MIDI file",
		Long: `Writes bed/NAME.mid beside the song, where NAME is the song file's name less
.song.hcl or .hcl; with --out DIR it is DIR/NAME.mid. A song with a mistake leaves
the files of the last good build as they are, and a file that would not change is
not written.

--only writes a section alone into a file of its own, bed/NAME.chorus.mid: all its
passes, one after another, each as it is played in the song; or one of them, named
with its number. The count-in stays. A chord that is pushed into the section begins
on its first bar line; a push out of it is struck in its last bar.

  plinth build lanterns.song.hcl --only chorus
  plinth build lanterns.song.hcl --only "chorus (2)"

--looseness, --take and --transpose replace what the file says, which stays as it
is: so two takes can be heard before one is written down, or another singer's key.

plinth help song tells every word of the song file.`,
		Args:              argCount(1, 1),
		ValidArgsFunction: firstArg(songFiles),
		RunE: func(_ *cobra.Command, args []string) error {
			start := time.Now()
			dir := out.text
			if dir == "" {
				dir = filepath.Join(filepath.Dir(args[0]), "bed")
			}
			res, err := bed.Build(bed.Request{Song: args[0], Override: *replace, Only: only.text})
			if err := a.settle(res, err); err != nil {
				return err
			}
			written, err := files.WriteAll(dir, res.Outputs)
			if err != nil {
				return machineFailure(err)
			}
			what := filepath.Join(dir, res.Outputs[0].Name)
			if len(written) == 0 {
				what += " (unchanged)"
			}
			fmt.Fprintf(a.err, "%s: %s, %d ms\n", what, res.Summary(), time.Since(start).Milliseconds())
			return nil
		},
	}
	out, only, replace = outFlag(cmd), onlyFlag(cmd), replaceFlags(cmd)
	return cmd
}
