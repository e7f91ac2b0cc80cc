package main

import (
	"fmt"
	"runtime/debug"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"plinth/cmd/internal/bed"
	"plinth/cmd/internal/files"
	"plinth/cmd/internal/soundbank"
	"plinth/cmd/internal/soundfiles"
	"plinth/render/audio"
	"plinth/render/heard"
	"plinth/songspec/wording"
)

// soundFlags are the flags of sound files.
type soundFlags struct {
	with, solo, mute []string
	soundFont        *textFlag
}

// withWords are what --with may name.
var withWords = []string{"audio"}

// addSoundFlags gives a command the flags of sound files.
func addSoundFlags(cmd *cobra.Command) *soundFlags {
	f := &soundFlags{}
	cmd.Flags().Var(&textFlag{value: "LIST", check: func(text string) error {
		f.with = commaList(text)
		for _, word := range f.with {
			if !slices.Contains(withWords, word) {
				return fmt.Errorf("it is %s, not %q", wording.Or(withWords), word)
			}
		}
		if len(f.with) == 0 {
			return fmt.Errorf("it is %s", wording.Or(withWords))
		}
		return nil
	}}, "with", "write more than MIDI: audio, the song as sound files, with stems")
	cmd.RegisterFlagCompletionFunc("with", cobra.FixedCompletions(withWords, cobra.ShellCompDirectiveNoFileComp))
	f.soundFont = soundFontFlag(cmd)
	partsFlag(cmd, "solo", "hear these alone: "+wording.Or(heard.Names)+", or singers by name", &f.solo)
	partsFlag(cmd, "mute", "hear all but these", &f.mute)
	return f
}

// soundFontFlag is the SoundFont to play with.
func soundFontFlag(cmd *cobra.Command) *textFlag {
	f := nameFlag(cmd, "soundfont", "FILE", "a SoundFont, .sf2", "play with the sounds of FILE, a SoundFont (.sf2)")
	cmd.RegisterFlagCompletionFunc("soundfont", cobra.FixedCompletions([]string{"sf2"},
		cobra.ShellCompDirectiveFilterFileExt))
	return f
}

// partsFlag is a list of parts of a song. Whether the song has them is seen when it is built.
func partsFlag(cmd *cobra.Command, name, usage string, to *[]string) {
	cmd.Flags().Var(&textFlag{value: "LIST", check: func(text string) error {
		*to = commaList(text)
		if len(*to) == 0 {
			return fmt.Errorf("it takes parts, with commas between them, like drums,bass")
		}
		return nil
	}}, name, usage)
	cmd.RegisterFlagCompletionFunc(name, cobra.FixedCompletions(heard.Names, cobra.ShellCompDirectiveNoFileComp))
}

// commaList are the words of a list with commas.
func commaList(text string) (out []string) {
	for _, word := range strings.Split(text, ",") {
		if word = strings.TrimSpace(word); word != "" {
			out = append(out, word)
		}
	}
	return out
}

// misplaced is the error for a flag that is for sound files when none are asked for.
func (f *soundFlags) misplaced(cmd *cobra.Command) error {
	for _, name := range []string{"soundfont", "solo", "mute"} {
		if flag := cmd.Flags().Lookup(name); flag.Changed && len(f.with) == 0 {
			return misuse("--%s is for sound files: --with audio --%[1]s %s", name, quotedPath(flag.Value.String()))
		}
	}
	return nil
}

// addSound adds the sound files of a song to what is written, and returns what is said of them.
func (a *app) addSound(set *files.Set, res *bed.Result, f *soundFlags) (made *soundfiles.Made, by string, err error) {
	found, err := soundbank.Find(f.soundFont.text)
	if err != nil {
		return nil, "", machineFailure(err)
	}
	// Sounds are large and hold no pointers: to look for garbage often costs little, and halves the memory.
	defer debug.SetGCPercent(debug.SetGCPercent(20))
	status := newStatusLine(a.err, a.terminalErr)
	defer status.clear()
	made, err = soundfiles.Add(set, res, found.Bank, audio.Choice{Solo: f.solo, Mute: f.mute}, status.show)
	by = found.Name()
	if found.Sketch {
		by += " of the instruments, as no SoundFont was found"
	}
	return made, by, err
}
