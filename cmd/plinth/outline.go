package main

import (
	"bufio"

	"github.com/spf13/cobra"

	"plinth/cmd/internal/bed"
	"plinth/songspec/timeline"
)

func (a *app) outlineCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "outline FILE",
		Short: "Print the song bar by bar, as text to read and to diff",
		Long: `Prints what the song file comes to: for each pass its name, bars, time, key,
tempo, feel, energy and players, then its bars with chords and events.`,
		Args: takes(1, 1),
		RunE: func(_ *cobra.Command, args []string) error {
			res, err := bed.Load(bed.Request{Song: args[0]})
			if showErr := a.show(a.err, a.colorErr, res); showErr != nil {
				return machine(showErr)
			}
			switch {
			case err != nil:
				return failed(err)
			case res.Failed():
				return reported(songWrong)
			}
			w := bufio.NewWriter(a.out)
			if err := timeline.Outline(w, res.Timeline); err != nil {
				return machine(err)
			}
			if err := w.Flush(); err != nil {
				return machine(err)
			}
			return nil
		},
	}
}
