package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"plinth/songspec"
	"plinth/songspec/wording"
)

// writeUsage writes how a command is written, its commands and its flags.
func writeUsage(cmd *cobra.Command) error {
	cmd.InheritedFlags() // brings them among the command's own
	var b strings.Builder
	b.WriteString("Usage:\n  ")
	if cmd.HasParent() {
		b.WriteString(cmd.UseLine())
	} else {
		b.WriteString(cmd.CommandPath() + " COMMAND ...\n\nCommands:")
		for _, c := range cmd.Commands() {
			if c.IsAvailableCommand() || c.Name() == "help" {
				fmt.Fprintf(&b, "\n  %-12s%s", c.Name(), c.Short)
			}
		}
	}
	b.WriteString("\n\nFlags:\n")
	var forms [][2]string
	width := 0
	for _, f := range append(flagList(cmd), cmd.Flags().Lookup("help")) {
		form := flagForm(f)
		if f.Shorthand != "" {
			form = "-" + f.Shorthand + ", " + form
		}
		forms = append(forms, [2]string{form, f.Usage})
		width = max(width, len(form))
	}
	for _, f := range forms {
		fmt.Fprintf(&b, "  %-*s   %s\n", width, f[0], f[1])
	}
	if !cmd.HasParent() {
		b.WriteString("\nplinth help COMMAND says more of a command, plinth help song tells every word\n" +
			"of the song file, and plinth help WORD one of them.\n")
	}
	_, err := fmt.Fprint(cmd.OutOrStdout(), b.String())
	return err
}

// helpCommand says how a command is used. An unknown name is a wrong command line; cobra's
// own help ends with exit code 0 there.
func helpCommand(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:                   "help [COMMAND | song | WORD]",
		DisableFlagsInUseLine: true,
		Short:                 "Say how a command is used, and what the words of the song file are",
		Long: `Says how a command is used. plinth help song prints the reference of the song file:
every word of it, with examples. plinth help WORD prints what that has of one word,
such as push, bars or vamp.`,
		Args: argCount(0, 1),
		RunE: func(_ *cobra.Command, args []string) error {
			cmd, rest, err := root.Find(args)
			if err == nil && len(rest) == 0 {
				return cmd.Help()
			}
			help := songspec.WordHelp(args[0])
			switch {
			case args[0] == "song":
				help = songspec.Reference
			case help == "" && songAmong(args) == "" && wording.Nearest(args[0], commandNames(root)) == "":
				return misuse("there is no command and no word of the song file %q; plinth help lists the "+
					"commands, and plinth help song tells the words", args[0])
			case help == "":
				return noCommand(root, args[0])
			}
			_, err = fmt.Fprint(root.OutOrStdout(), help)
			return err
		},
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			if len(args) > 0 {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			return append(commandNames(root), "song"), cobra.ShellCompDirectiveNoFileComp
		},
	}
}

func commandNames(root *cobra.Command) (names []string) {
	for _, c := range root.Commands() {
		if c.IsAvailableCommand() {
			names = append(names, c.Name())
		}
	}
	return names
}

// noCommand is the error for a command line that begins with no command.
func noCommand(root *cobra.Command, word string) error {
	if songAmong([]string{word}) != "" {
		return wantsCommand(word)
	}
	is := ";"
	if near := wording.Nearest(word, commandNames(root)); near != "" {
		is = fmt.Sprintf("; is it %q?", near)
	}
	return misuse("there is no command %q%s plinth help lists them", word, is)
}

// wantsCommand is the error for a song file without a command.
func wantsCommand(song string) error {
	return misuse("the command stands first: plinth build %s, or plinth watch %[1]s", quotedPath(song))
}

// songAmong is the first word of a command line that names a song file; "" where none does.
func songAmong(args []string) string {
	for _, arg := range args {
		if strings.EqualFold(filepath.Ext(arg), ".hcl") {
			return arg
		}
	}
	return ""
}
