package main

import (
	"io"

	"github.com/spf13/cobra"

	"plinth/cmd/internal/bed"
	"plinth/render/room"
	"plinth/songspec"
)

func (a *app) roomCommand() *cobra.Command {
	var format *textFlag
	var replace *songspec.Override
	cmd := &cobra.Command{
		Use:   "room FILE",
		Short: "Report the room that voice and band leave for an orchestra",
		Long: `Plays the song and says where the singer is silent and over which chords, which
registers and which counts are free and for whom, which tones can be held, where
the band hits, and how the energy goes; with hints, each with its reason. Bars are
the song's. --format svg gives the picture, html one page with the picture and all
figures in it, json the figures for programs:

  plinth room lanterns.song.hcl --format html > room.html

A bed that was built with --take, --looseness or --transpose has its room measured
with them.`,
		Args:              argCount(1, 1),
		ValidArgsFunction: firstArg(songFiles),
		RunE: func(_ *cobra.Command, args []string) error {
			write := map[string]func(*room.Report, io.Writer) error{
				"text": (*room.Report).Text, "json": (*room.Report).JSON, "svg": (*room.Report).SVG,
				"html": (*room.Report).HTML,
			}[format.text]
			res, err := bed.Build(bed.Request{Song: args[0], Override: *replace})
			if err := a.settle(res, err); err != nil {
				return err
			}
			report := room.Analyze(res.Timeline, res.Performance)
			return a.print(func(w io.Writer) error { return write(report, w) })
		},
	}
	format = formatFlag(cmd, "FORMAT is text (the default), json, svg or html", "text", "json", "svg", "html")
	replace = replaceFlags(cmd)
	return cmd
}
