package main

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"plinth/cmd/internal/bed"
	"plinth/cmd/internal/files"
	"plinth/songspec"
)

func (a *app) newCommand() *cobra.Command {
	return &cobra.Command{
		Use:                   "new FILE",
		DisableFlagsInUseLine: true,
		Short:                 "Write a small song that already builds",
		Long: `Writes a small song into NAME.song.hcl, with NAME for its title. A file that is
there is never overwritten. plinth help song tells every word that it may have.`,
		Args:              argCount(1, 1),
		ValidArgsFunction: firstArg(foldersOnly),
		RunE: func(_ *cobra.Command, args []string) error {
			path := args[0]
			if !strings.EqualFold(filepath.Ext(path), ".hcl") {
				return misuse("a song file is called NAME.song.hcl: plinth new %s", quotedPath(path+".song.hcl"))
			}
			err := files.Create(path, songspec.Starter(titleOf(bed.Name(path))))
			switch {
			case errors.Is(err, fs.ErrExist):
				return misuse("%s is there already and stays as it is", path)
			case errors.Is(err, fs.ErrNotExist):
				return misuse("cannot write %s: there is no folder %s", path, filepath.Dir(path))
			case err != nil:
				return machineFailure(fmt.Errorf("cannot write %s: %s", path, files.Reason(err)))
			}
			fmt.Fprintf(a.err, "wrote %s; now: plinth build %s\n", path, quotedPath(path))
			return nil
		},
	}
}

// quotedPath is a path as one types it: in quotes where it has blanks, an apostrophe, or another
// sign that a shell would take for its own.
func quotedPath(path string) string {
	if strings.ContainsAny(path, " '()&;*?[]<>|#~") && !strings.ContainsAny(path, "\"$`!\\") {
		return `"` + path + `"`
	}
	return path
}

// smallWords are the words that begin with a small letter inside an English title.
var smallWords = map[string]bool{
	"a": true, "an": true, "the": true, "and": true, "or": true, "but": true, "of": true, "on": true,
	"in": true, "at": true, "to": true, "for": true, "by": true, "with": true, "from": true,
}

// titleOf makes a title of a file name: lanterns-on-the-weir is "Lanterns on the Weir".
func titleOf(name string) string {
	words := strings.FieldsFunc(name, func(r rune) bool { return strings.ContainsRune("-_.", r) || unicode.IsSpace(r) })
	for i, w := range words {
		if r, n := utf8.DecodeRuneInString(w); i == 0 || !smallWords[w] {
			words[i] = string(unicode.ToTitle(r)) + w[n:]
		}
	}
	return strings.Join(words, " ")
}
