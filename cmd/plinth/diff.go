package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"plinth/cmd/internal/compare"
	"plinth/songspec/hcltext"
	"plinth/songspec/outline"
)

// The exit codes of diff are those of the program diff: 0 the same (done), 1 different, 2
// trouble of any kind.
const (
	diffDifferent = 1
	diffTrouble   = 2
)

func (a *app) diffCommand() *cobra.Command {
	var format *textFlag
	var git bool
	cmd := &cobra.Command{
		Use:   "diff OLD NEW",
		Short: "Say what changed musically between two songs",
		Long: `Compares two song files as music: what concerns the whole song, the form, and
then section by section the chords bar by bar, events, energy, feel and the rest.
Layout, comments, and chords that are only written in another way are no change.
One of the two may be -, the standard input, and each may be a pipe, <(COMMAND).
The songs are read by themselves, without the grooves and the guide vocal that they
name. Sections that they borrow are read where the song lies; those of a song from a
pipe, or of git's, are compared by their names alone.

The exit code is 0 when the songs are the same, 1 when they differ, and 2 when one
of them cannot be read or has a mistake.

--git takes the arguments that git gives an external diff and ends with 0, as git
wants it. In a project whose file .gitattributes has the line

  *.song.hcl diff=plinth

  git config diff.plinth.textconv 'plinth outline --git'   compares bar by bar
  git config diff.plinth.command 'plinth diff --git'       says it in words`,
		Args: func(cmd *cobra.Command, args []string) error {
			if git {
				return argCount(1, -1)(cmd, args)
			}
			return argCount(2, 2)(cmd, args)
		},
		ValidArgsFunction: upTo(2, songFiles),
		RunE: func(_ *cobra.Command, args []string) error {
			switch {
			case git:
				if err := compare.Git(a.out, args); err != nil {
					return &failure{diffTrouble, err}
				}
				return nil
			case args[0] == "-" && args[1] == "-":
				return misuse("only one of the two songs can be the standard input")
			}
			var songs [2]*compare.Song
			wrong := false
			for i, name := range args {
				song, err := compare.Read(name, a.in)
				if err != nil {
					return &failure{diffTrouble, err}
				}
				if err := song.WriteMistakes(a.err,
					hcltext.DiagOptions{Color: a.colorErr, Max: maxShown}); err != nil {
					return &failure{diffTrouble, err}
				}
				wrong = wrong || song.Timeline == nil
				songs[i] = song
			}
			if wrong {
				return reported(diffTrouble)
			}
			for _, song := range songs {
				if song.Unread {
					fmt.Fprintf(a.err,
						"%s: the sections that it borrows are not here, and are compared by name alone\n",
						song.Name)
				}
			}
			changes := outline.Diff(songs[0].Timeline, songs[1].Timeline)
			same := len(changes) == 0
			var err error
			if format.text == "json" {
				err = writeJSON(a.out, struct {
					Same    bool             `json:"same"`
					Changes []outline.Change `json:"changes"` // an empty list is [] and not null
				}{same, append([]outline.Change{}, changes...)})
			} else {
				err = outline.WriteDiff(a.out, changes)
			}
			switch {
			case err != nil:
				return &failure{diffTrouble, err}
			case !same:
				return reported(diffDifferent)
			}
			return nil
		},
	}
	format = formatFlag(cmd, "FORMAT is text (the default), or json for scripts", "text", "json")
	cmd.Flags().BoolVar(&git, "git", false, "be an external diff for git")
	return cmd
}
