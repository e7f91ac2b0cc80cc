package main

import (
	"io"

	"github.com/spf13/cobra"

	"plinth/cmd/internal/bed"
	"plinth/groove/library"
	"plinth/songspec/wording"
)

// completionCommand prints what makes a shell complete plinth's commands, flags and names.
func (a *app) completionCommand(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:                   "completion SHELL",
		DisableFlagsInUseLine: true,
		Short:                 "Print what lets the Tab key complete plinth's words in your shell",
		Long: `Prints a script for the shell bash, zsh, fish or powershell. With it the Tab key
completes commands, flags, song files, the names of feels, and the sections of the
song that stands in the line. Once, for every shell that is opened from then on:

  bash         plinth completion bash > ~/.local/share/bash-completion/completions/plinth
               (the folder has to be there, and bash-completion to be installed)
  zsh          plinth completion zsh > "${fpath[1]}/_plinth"
               (where compinit runs in ~/.zshrc)
  fish         plinth completion fish > ~/.config/fish/completions/plinth.fish
  powershell   plinth completion powershell >> $PROFILE`,
		Args:              argCount(1, 1),
		ValidArgsFunction: firstArg(cobra.FixedCompletions(shells, cobra.ShellCompDirectiveNoFileComp)),
		RunE: func(_ *cobra.Command, args []string) error {
			switch args[0] {
			case "bash":
				return a.print(func(w io.Writer) error { return root.GenBashCompletionV2(w, true) })
			case "zsh":
				return a.print(root.GenZshCompletion)
			case "fish":
				return a.print(func(w io.Writer) error { return root.GenFishCompletion(w, true) })
			case "powershell":
				return a.print(root.GenPowerShellCompletionWithDesc)
			}
			return misuse("there is no completion for %q; there is %s", args[0], wording.And(shells))
		},
	}
}

var shells = []string{"bash", "zsh", "fish", "powershell"}

// firstArg completes the first name of a command line, and nothing after it.
func firstArg(complete cobra.CompletionFunc) cobra.CompletionFunc { return upTo(1, complete) }

// upTo completes the first names of a command line, and nothing after them.
func upTo(most int, complete cobra.CompletionFunc) cobra.CompletionFunc {
	return func(cmd *cobra.Command, args []string, word string) ([]cobra.Completion, cobra.ShellCompDirective) {
		if len(args) >= most {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return complete(cmd, args, word)
	}
}

// songFiles completes the names of song files.
func songFiles(*cobra.Command, []string, string) ([]cobra.Completion, cobra.ShellCompDirective) {
	return []cobra.Completion{"hcl"}, cobra.ShellCompDirectiveFilterFileExt
}

// foldersOnly completes the names of folders.
func foldersOnly(*cobra.Command, []string, string) ([]cobra.Completion, cobra.ShellCompDirective) {
	return nil, cobra.ShellCompDirectiveFilterDirs
}

// completeFeels completes the names of the built-in feels, each with what it is.
func completeFeels(*cobra.Command, []string, string) (out []cobra.Completion, _ cobra.ShellCompDirective) {
	for _, e := range library.Index() {
		out = append(out, cobra.CompletionWithDesc(e.Name, e.About))
	}
	return out, cobra.ShellCompDirectiveNoFileComp
}

// completeParts completes what --only may name in the song that the line names; nothing where
// that cannot be read.
func completeParts(_ *cobra.Command, args []string, _ string) (out []cobra.Completion, _ cobra.ShellCompDirective) {
	if len(args) > 0 {
		if res, err := bed.Load(bed.Request{Song: args[0]}); err == nil && res.Timeline != nil {
			out = res.Parts()
		}
	}
	return out, cobra.ShellCompDirectiveNoFileComp
}
