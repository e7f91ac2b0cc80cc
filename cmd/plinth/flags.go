package main

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"plinth/songspec"
	"plinth/songspec/wording"
)

// textFlag is a flag whose text is checked as it is read: check returns an error that says,
// after the flag's name, what belongs there. value is what help calls it: "DIR".
type textFlag struct {
	text  string
	value string
	check func(text string) error
}

func (f *textFlag) String() string { return f.text }
func (f *textFlag) Type() string   { return f.value }

func (f *textFlag) Set(text string) error {
	if err := f.check(text); err != nil {
		return err
	}
	f.text = text
	return nil
}

// nameFlag gives a command a flag that takes any text but none. what is the thing with its
// article.
func nameFlag(cmd *cobra.Command, name, value, what, usage string) *textFlag {
	f := &textFlag{value: value, check: func(text string) error {
		if strings.TrimSpace(text) == "" {
			return fmt.Errorf("it takes %s", what)
		}
		return nil
	}}
	cmd.Flags().Var(f, name, usage)
	return f
}

// outFlag is the folder to write to.
func outFlag(cmd *cobra.Command) *textFlag {
	f := nameFlag(cmd, "out", "DIR", "a folder", "write to the folder DIR (default: bed, beside the song)")
	cmd.RegisterFlagCompletionFunc("out", foldersOnly)
	return f
}

// onlyFlag is the part of the song to write.
func onlyFlag(cmd *cobra.Command) *textFlag {
	f := nameFlag(cmd, "only", "SECTION", "a section, or one of its passes: \"chorus\", \"chorus (2)\"",
		"write this SECTION alone, or one pass of it, \"chorus (2)\"")
	cmd.RegisterFlagCompletionFunc("only", completeParts)
	return f
}

// formatFlag is the form of what is printed: one of the words, the first where none is named.
func formatFlag(cmd *cobra.Command, usage string, words ...string) *textFlag {
	f := &textFlag{text: words[0], value: "FORMAT", check: func(text string) error {
		if !slices.Contains(words, text) {
			return fmt.Errorf("it is %s, not %q", wording.Or(words), text)
		}
		return nil
	}}
	cmd.Flags().Var(f, formatName, usage)
	cmd.Flags().SetAnnotation(formatName, formatName, words)
	cmd.RegisterFlagCompletionFunc(formatName, cobra.FixedCompletions(words, cobra.ShellCompDirectiveNoFileComp))
	return f
}

const formatName = "format"

// shortestPoll is how often files are looked at at most.
const shortestPoll = 10 * time.Millisecond

// pollTime reads how often files are looked at.
func pollTime(text string) (time.Duration, error) {
	every, err := time.ParseDuration(text)
	if err != nil || every < shortestPoll {
		return 0, fmt.Errorf("it takes a time with its unit, like 250ms or 2s, of %v or more, not %q", shortestPoll,
			text)
	}
	return every, nil
}

// portNumber reads the port of a page; 0 is any that is free.
func portNumber(text string) (int, error) {
	port, err := strconv.Atoi(text)
	if err != nil || port < 0 || port > 65535 {
		return 0, fmt.Errorf("it takes the number of a port, 1024 to 65535 (0 is any that is free), not %q", text)
	}
	return port, nil
}

// replaceFlags gives a command the flags whose values replace what the song file says.
func replaceFlags(cmd *cobra.Command) *songspec.Override {
	o := &songspec.Override{}
	for _, row := range [][2]string{
		{"looseness", "play with the looseness N, 0 to 1, whatever the file says"},
		{"take", "play the take N, whatever the file says"},
		{"transpose", "play it N semitones up, or down when negative, whatever the file says"},
	} {
		name := row[0]
		set := func(text string) error { return o.Set(name, text) }
		cmd.Flags().Var(&textFlag{value: "N", check: set}, name, row[1])
		cmd.RegisterFlagCompletionFunc(name, cobra.NoFileCompletions)
	}
	return o
}

// alsoCalled are the flags by other words for them, with a value where the word means that.
var alsoCalled = map[string]string{
	"o": "out", "output": "out", "dir": "out", "folder": "out", "section": "only", "part": "only", "pass": "only",
	"seed": "take", "variation": "take", "loose": "looseness", "humanize": "looseness", "exec": "then", "run": "then",
	"audio": "with audio", "sound": "with audio", "wav": "with audio", "flac": "with audio", "stems": "with audio",
	"sf2": "soundfont", "bank": "soundfont", "sounds": "soundfont",
}

// flagError puts what is wrong with a flag into our words.
func (a *app) flagError(cmd *cobra.Command, err error) error {
	var unknown *pflag.NotExistError
	var bare *pflag.ValueRequiredError
	var bad *pflag.InvalidValueError
	var malformed *pflag.InvalidSyntaxError
	switch {
	case errors.As(err, &unknown):
		if song := songAmong(a.args); !cmd.HasParent() && song != "" {
			return wantsCommand(song)
		}
		return unknownFlag(cmd, unknown)
	case errors.As(err, &bare):
		return misuse("--%s needs a value: %s", bare.GetFlag().Name, flagForm(bare.GetFlag()))
	case errors.As(err, &bad):
		flag := bad.GetFlag()
		if flag.Value.Type() == "bool" {
			return misuse("--%s stands alone, without a value", flag.Name)
		}
		text := strings.TrimSuffix(bad.Unwrap().Error(), ".")
		first, n := utf8.DecodeRuneInString(text)
		return misuse("--%s: %c%s", flag.Name, unicode.ToLower(first), text[n:])
	case errors.As(err, &malformed):
		return misuse("%s is no flag; %s", malformed.GetSpecifiedFlag(), flagsOf(cmd))
	}
	return err
}

// unknownFlag says which flag is meant, if one is near, and which there are.
func unknownFlag(cmd *cobra.Command, err *pflag.NotExistError) error {
	name, dashes := err.GetSpecifiedName(), "--"
	if letters := err.GetSpecifiedShortnames(); letters != "" {
		name, dashes = letters, "-"
	}
	is := ";"
	if other := commandsWith(cmd, name); len(other) > 0 {
		is = fmt.Sprintf("; that is for %s;", wording.And(other))
	} else if near := nearestFlag(cmd, name); near != "" {
		is = fmt.Sprintf("; is it --%s?", near)
	}
	return misuse("there is no flag %s%s%s %s", dashes, name, is, flagsOf(cmd))
}

// commandsWith are the other commands that have a flag.
func commandsWith(cmd *cobra.Command, flag string) (out []string) {
	if !cmd.HasParent() || cmd.Flags().Lookup(flag) != nil {
		return nil
	}
	for _, other := range cmd.Parent().Commands() {
		if other.Flags().Lookup(flag) != nil {
			out = append(out, other.CommandPath())
		}
	}
	return out
}

// nearestFlag is what may be meant by a word that is no flag of the command.
func nearestFlag(cmd *cobra.Command, word string) string {
	format := cmd.Flags().Lookup(formatName)
	if format != nil && slices.Contains(format.Annotations[formatName], word) {
		return formatName + " " + word
	}
	var names []string
	for _, f := range flagList(cmd) {
		names = append(names, f.Name)
	}
	also := alsoCalled[strings.ToLower(word)]
	if name, _, _ := strings.Cut(also, " "); slices.Contains(names, name) {
		return also
	}
	if slices.Contains(names, word) { // behind one dash
		return word
	}
	return wording.Nearest(word, names)
}

// flagsOf says which flags a command has.
func flagsOf(cmd *cobra.Command) string {
	var forms []string
	for _, f := range flagList(cmd) {
		forms = append(forms, flagForm(f))
	}
	if len(forms) == 0 {
		return cmd.CommandPath() + " has no flags but --help"
	}
	return cmd.CommandPath() + " has " + strings.Join(forms, ", ")
}

// flagList are the flags of a command, without its help.
func flagList(cmd *cobra.Command) (out []*pflag.Flag) {
	cmd.Flags().VisitAll(func(f *pflag.Flag) {
		if f.Name != "help" {
			out = append(out, f)
		}
	})
	return out
}

// flagForm is a flag as it is written, with what belongs behind it.
func flagForm(f *pflag.Flag) string {
	value := f.Value.Type()
	switch {
	case value == "bool":
		return "--" + f.Name
	case f.NoOptDefVal != "":
		return fmt.Sprintf("--%s[=%s]", f.Name, value)
	}
	return fmt.Sprintf("--%s %s", f.Name, value)
}
