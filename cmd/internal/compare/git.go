package compare

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"plinth/songspec/hcltext"
	"plinth/songspec/outline"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// Git compares two songs with the arguments that git gives an external diff: path, old
// file, its hash and mode, new file, its hash and mode, and more when the file was
// renamed. A path alone is a file that is not merged yet. The null device stands for a
// file that was added or deleted. An error would end the whole of git diff, so mistakes in
// a song are part of the text.
func Git(w io.Writer, args []string) error {
	if len(args) == 1 {
		_, err := fmt.Fprintf(w, "%s: not merged yet\n", args[0])
		return err
	}
	if len(args) < 7 {
		return fmt.Errorf("git gives an external diff seven arguments, not %d", len(args))
	}
	path := args[0]
	old, err := readGitSide(path, args[1])
	if err != nil {
		return err
	}
	now, err := readGitSide(path, args[4])
	if err != nil {
		return err
	}
	var out strings.Builder
	for _, side := range []struct {
		song *Song
		word string
	}{{old, "the old"}, {now, "the new"}} {
		if side.song != nil && side.song.Timeline == nil {
			fmt.Fprintf(&out, "%s: %s song has a mistake\n", path, side.word)
			if err := side.song.WriteMistakes(&out, hcltext.DiagOptions{Max: 3}); err != nil {
				return err
			}
		}
	}
	switch {
	case out.Len() > 0:
	case old == nil && now == nil:
	case old == nil:
		fmt.Fprintf(&out, "%s: a new song, %s\n", path, lengthWords(now))
	case now == nil:
		fmt.Fprintf(&out, "%s: gone, it was %s\n", path, lengthWords(old))
	default:
		changes := outline.Diff(old.Timeline, now.Timeline)
		if len(changes) == 0 {
			fmt.Fprintf(&out, "%s: the same music\n", path)
			break
		}
		fmt.Fprintf(&out, "%s\n", path)
		if err := outline.WriteDiff(&out, changes); err != nil {
			return err
		}
	}
	_, err = io.WriteString(w, out.String())
	return err
}

// readGitSide reads one of the two files of git; nil when there is none. The song has the
// name that it has in the project, because the file may be a temporary one.
func readGitSide(path, file string) (*Song, error) {
	if file == os.DevNull || file == "/dev/null" {
		return nil, nil
	}
	src, err := readText(file)
	if err != nil {
		return nil, err
	}
	return parse(filepath.ToSlash(path), src, nowhere), nil
}

// lengthWords is "32 bars, 1:25".
func lengthWords(s *Song) string {
	n := s.Timeline.SongBars()
	if n == 1 {
		return wording.Count(n, "bar")
	}
	return wording.Count(n, "bar") + ", " + timeline.MinSec(s.Timeline.SongMicros())
}
