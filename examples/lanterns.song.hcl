# Lanterns on the Weir: a slow ballad for voice, band and, later, an orchestra.
#
# The bed starts with almost nothing, opens in the choruses, tightens in the
# bridge and comes back a half step higher. Read it from the bottom: the form
# says what is played, the sections say what it is made of.

title = "Lanterns on the Weir"
by    = "The Weir Street Songbook"
key   = "Eb major"
meter = "4/4"
tempo = 72
feel  = "ballad-eighths"

# The songwriter's guide: the band keeps out of this voice's way, and
# `plinth room` reports where it rests.
vocal "voices/lanterns-voice.mid" {
  track = "Voice"
  range = ["G3", "E5"]
}

section "intro" {
  energy = 1
  chords = "| Eb | Ab/Eb | Abm6/Eb | Bb7sus4 |"
  tacet  = ["drums"]
}

section "verse" {
  energy = 2
  # Abm6 is the borrowed iv: the first shade on an otherwise plain verse.
  chords = <<-EOT
    | Eb    | Bb/D        | Cm7 | Ab / Abm6 / |
    | Eb/Bb | Bb7sus4 Bb7 | Eb  | %           |
  EOT
  # The singer breathes here: room for one short line of the clarinet.
  space "4: 3" {
    beats = 2
  }
}

section "chorus" {
  energy = 4
  # Cb and Db are bVI and bVII: the old way home.
  chords = <<-EOT
    | Ab | Bb/Ab | Gm7   | Cm7   |
    | Ab | Abm6  | Eb/Bb | Cb Db |
  EOT
  # The chord of the second half comes an eighth early and is tied over.
  push "4: 4&" {}
  fill "8: 3" {}
}

section "bridge" {
  feel   = "tight-sixteenths"
  energy = 3
  # In numerals, so that it can be tried in any key. The last chord, bVI7, is
  # the dominant of the key a half step up.
  chords = <<-EOT
    | vi7 | IVmaj7 | bVI    | bVII |
    | iv6 | I/5    | V7sus4 | bVI7 |
  EOT
  accent "2 4" {
    by = ["drums", "piano"]
  }
  accent "7: 1 2& 4" {
    weight = 2
  }
  # The whole band stops dead; the singer alone carries over into the new key.
  stop "8: 3" {}
}

section "close" {
  energy = 2
  chords = "| Eb | Abm6/Eb | Eb | % |"
  rit "2-3" { to = 56 }
  hold "4: 1" { beats = 3 }
  fills = false
}

form {
  play "intro" {}
  play "verse" {}
  play "chorus" {}
  play "verse" {
    # A second verse that has heard the chorus: it grows toward the next one.
    energy = [2, 3]
  }
  play "chorus" {}
  play "bridge" {}
  play "chorus" {
    lift   = 1
    energy = 5
    tempo  = 74
  }
  play "close" {}
}
