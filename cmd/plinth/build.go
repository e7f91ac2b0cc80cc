package main

import (
	"context"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"plinth/cmd/internal/bed"
	"plinth/cmd/internal/files"
	"plinth/cmd/internal/soundfiles"
	"plinth/songspec"
)

func (a *app) buildCommand() *cobra.Command {
	var out, only *textFlag
	var replace *songspec.Override
	var sound *soundFlags
	cmd := &cobra.Command{
		Use:   "build FILE",
		Short: "Make the MIDI file, and sound files",
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

--with audio plays the song and writes it as sound files, 48 kHz and 24 bits:
bed/NAME.wav, bed/NAME.flac, and a stem for each part that is heard,
bed/NAME.stems/Drums.wav and so on. The stems add up to the mix, which peaks at
-1 dBFS. The click is heard in front of bar 1 only, unless --solo names it.

  plinth build lanterns.song.hcl --with audio
  plinth build lanterns.song.hcl --with audio --only chorus --mute guide
  plinth build lanterns.song.hcl --with audio --solo piano,click

Its sounds are those of a General MIDI SoundFont (.sf2): the one that --soundfont
names, or the environment variable PLINTH_SOUNDFONT, or the first one in the
system's usual folders: sounds/sf2 and soundfonts in ~/.local/share, /usr/local/share
and /usr/share; Library/Audio/Sounds/Banks on a Mac; SoundFonts in AppData, Documents
and Music on Windows. With none, plinth computes a sketch of the instruments.

plinth help song tells every word of the song file.`,
		Args:              argCount(1, 1),
		ValidArgsFunction: firstArg(songFiles),
		RunE: func(cmd *cobra.Command, args []string) error {
			start := time.Now()
			if err := sound.misplaced(cmd); err != nil {
				return err
			}
			dir := out.text
			if dir == "" {
				dir = filepath.Join(filepath.Dir(args[0]), "bed")
			}
			res, err := bed.Build(bed.Request{Song: args[0], Override: *replace, Only: only.text})
			if err := a.settle(res, err); err != nil {
				return err
			}
			return a.writeBed(dir, res, sound, start)
		},
	}
	out, only, replace, sound = outFlag(cmd), onlyFlag(cmd), replaceFlags(cmd), addSoundFlags(cmd)
	return cmd
}

// interrupted is the exit code of a command that a signal ends, as shells have it for Ctrl-C.
const interrupted = 130

// writeBed writes what was built into a folder, all of it or nothing, and says so.
func (a *app) writeBed(dir string, res *bed.Result, sound *soundFlags, start time.Time) error {
	set, err := files.Begin(dir)
	if err != nil {
		return machineFailure(err)
	}
	defer set.Close()
	ctx, stop := signal.NotifyContext(context.Background(), ends()...)
	defer stop()
	defer context.AfterFunc(ctx, func() { // sound files are large, and take long to write
		set.Close()
		os.Exit(interrupted)
	})()
	midi := res.Outputs[0]
	if err := set.Add(midi); err != nil {
		return machineFailure(err)
	}
	var made *soundfiles.Made
	var by string
	if len(sound.with) > 0 {
		if made, by, err = a.addSound(set, res, sound); err != nil {
			return readFailure(err)
		}
	}
	written, err := set.Commit()
	if err != nil {
		return machineFailure(err)
	}
	named := func(name string) string {
		if slices.Contains(written, name) {
			return filepath.Join(dir, name)
		}
		return filepath.Join(dir, name) + " (unchanged)"
	}
	took := lasted(time.Since(start))
	if made == nil {
		fmt.Fprintf(a.err, "%s: %s, %s\n", named(midi.Name), res.Summary(), took)
		return nil
	}
	fmt.Fprintf(a.err, "%s: %s\n%s: %s, played by %s, %s\n", named(midi.Name), res.Summary(), named(made.Mix),
		made.Summary(), by, took)
	return nil
}

// lasted is how long a build took: in milliseconds, and from two seconds on in seconds.
func lasted(d time.Duration) string {
	if d < 2*time.Second {
		return fmt.Sprintf("%d ms", d.Milliseconds())
	}
	return fmt.Sprintf("%.1f s", d.Seconds())
}
