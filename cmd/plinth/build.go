package main

import (
	"fmt"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"plinth/cmd/internal/bed"
	"plinth/cmd/internal/files"
)

func (a *app) buildCommand() *cobra.Command {
	var out string
	cmd := &cobra.Command{
		Use:   "build FILE",
		Short: "Make the MIDI file",
		Long: `Writes DIR/NAME.mid, where NAME is the song file's name less .song.hcl or .hcl.
A song with a mistake leaves the files of the last good build as they are, and a
file that would not change is not written.`,
		Args: argCount(1, 1),
		RunE: func(_ *cobra.Command, args []string) error {
			start := time.Now()
			dir := out
			if dir == "" {
				dir = filepath.Join(filepath.Dir(args[0]), "bed")
			}
			res, err := bed.Build(bed.Request{Song: args[0]})
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
	cmd.Flags().StringVar(&out, "out", "", "write to the folder `DIR` (default: bed, beside the song)")
	return cmd
}
