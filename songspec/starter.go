package songspec

import (
	"fmt"
	"strings"
)

// Starter is a small commented song that builds at once: what plinth new
// writes. The title is put in as text, whatever characters it has.
func Starter(title string) []byte {
	title = strings.Map(func(r rune) rune {
		if r < 0x20 || r >= 0x7f && r < 0xa0 {
			return -1
		}
		return r
	}, strings.ToValidUTF8(title, ""))
	if title = strings.TrimSpace(title); title == "" {
		title = "New Song"
	}
	if r := []rune(title); len(r) > 120 {
		title = string(r[:120])
	}
	title = strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(title)
	return []byte(fmt.Sprintf(starter, title))
}

const starter = `# A song file: change a line, save, and the bed is built again.

title = "%s"
key   = "C major"
meter = "4/4"
tempo = 76
feel  = "ballad-eighths"

# Energy goes from 1 (barely there) to 5 (everything the band will ever play).
section "verse" {
  energy = 2
  # One cell is one bar. Two chords share it evenly; a / holds a chord one beat
  # longer, and %% plays the bar before again.
  chords = <<-EOT
    | C   | G/B      | Am7 | F |
    | C/E | F / / G7 | C   | %% |
  EOT
  # The singer breathes in bar 4, from the third beat on.
  space "4: 3" {
    beats = 2
  }
}

section "chorus" {
  energy = 4
  # Roman numerals follow the key: this is F, G, Em7, Am7, and iv is Fm.
  chords = <<-EOT
    | IV | V   | iii7 | vi7 |
    | IV | iv6 | I/5  | V7  |
  EOT
  # The chord of bar 5 comes an eighth early.
  push "4: 4&" {}
  accent "8: 1 2&" {
    by = ["drums", "piano"]
  }
}

form {
  play "verse" { tacet = ["drums"] }
  play "chorus" {}
  play "verse" {}
  play "chorus" {
    lift   = 1 # a half step up, from here on
    energy = 5
  }
}
`
