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
)

// Git compares two songs with the arguments that git gives an external diff:
// path, old file, its hash and mode, new file, its hash and mode, and more when
// the file was renamed; a path alone is one that is not merged yet. What was
// added or deleted is compared with the null device. Git takes an error for the
// end of the whole comparison, so what is wrong with a song is part of the text.
func Git(w io.Writer, args []string) error {
	if len(args) == 1 {
		_, err := fmt.Fprintf(w, "%s: not merged yet\n", args[0])
		return err
	}
	if len(args) < 7 {
		return fmt.Errorf("git gives an external diff seven arguments, not %d", len(args))
	}
	path := args[0]
	old, err := gitSide(path, args[1])
	if err != nil {
		return err
	}
	now, err := gitSide(path, args[4])
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
		fmt.Fprintf(&out, "%s: a new song, %s\n", path, size(now))
	case now == nil:
		fmt.Fprintf(&out, "%s: gone, it was %s\n", path, size(old))
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

// gitSide reads one of git's two files; nil when there is none. The song goes by
// the path that it has in the project: the file may be a temporary one.
func gitSide(path, file string) (*Song, error) {
	if file == os.DevNull || file == "/dev/null" {
		return nil, nil
	}
	song, err := Read(file, nil)
	if err != nil {
		return nil, err
	}
	return Parse(filepath.ToSlash(path), song.Source), nil
}

func size(s *Song) string {
	n := s.Timeline.SongBars()
	text := fmt.Sprintf("%d bars, %s", n, timeline.MinSec(s.Timeline.SongMicros()))
	if n == 1 {
		text = "1 bar"
	}
	return text
}
