package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"plinth/cmd/internal/bed"
	"plinth/cmd/internal/compare"
	"plinth/songspec"
	"plinth/songspec/outline"
)

func (a *app) outlineCommand() *cobra.Command {
	var git, times bool
	var replace *songspec.Override
	cmd := &cobra.Command{
		Use:   "outline FILE",
		Short: "Print the song bar by bar, as text to read and to diff",
		Long: `Prints what the song file comes to: for each pass its name, bars, time, key,
tempo, feel, energy and players, then its bars with chords and events. With
--looseness, --take and --transpose it is the song as plinth build plays it with
them.

A song in which nothing is wrong but a time (at) that the tempo cannot keep is
printed, too, at the tempo that is written: so the right time can be looked up with
--times.

--git is for git's textconv (see plinth diff): the song is read by itself, without
the files that it names, and one with a mistake is printed as it is.`,
		Args:              argCount(1, 1),
		ValidArgsFunction: firstArg(songFiles),
		RunE: func(_ *cobra.Command, args []string) error {
			if git {
				song, err := compare.Read(args[0], a.in)
				if err != nil {
					return machineFailure(err)
				}
				return a.print(song.Outline)
			}
			res, err := bed.Load(bed.Request{Song: args[0], Override: *replace})
			write := outline.Write
			if times {
				write = outline.WriteTimes
			}
			if tl := res.Untimed(); tl != nil {
				if err := a.print(func(w io.Writer) error { return write(w, tl) }); err != nil {
					return err
				}
				fmt.Fprintf(a.err, "%s: the tempo in this outline is as written%s, because a time cannot be kept:\n",
					args[0], outline.LastTime(tl))
				return a.settle(res, err) // last, so that it is still on the screen
			}
			if err := a.settle(res, err); err != nil {
				return err
			}
			return a.print(func(w io.Writer) error { return write(w, res.Timeline) })
		},
	}
	cmd.Flags().BoolVar(&times, "times", false, "give each bar its time, and its time code to a picture")
	replace = replaceFlags(cmd)
	cmd.Flags().BoolVar(&git, "git", false, "be a textconv for git")
	return cmd
}
