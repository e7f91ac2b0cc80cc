# The Miller's Clock: twelve-eight, slow, in G. Two bars of click in front; the
# counts are the eighths, 1 to 12.

title    = "The Miller's Clock"
by       = "The Weir Street Songbook"
key      = "G"
meter    = "12/8"
tempo    = 56
feel     = "slow-twelve"
count_in = 2
take     = 3

# An upright and an old piano that should not climb over the singer.
bass {
  sound = "acoustic"
}
piano {
  highest = "G4"
}

section "verse" {
  energy = 2
  # V7/vi and V7/ii are dominants of the chords that follow them.
  chords = <<-EOT
    | I  | V7/vi | vi7     | V7/IV  |
    | IV | iv6   | I/5 vi7 | ii7 V7 |
  EOT
  space "4: 7" {
    beats = 2
  }
}

section "turn" {
  like   = "verse" # the same bars, half as many, a little more of everything
  energy = 3
  chords = "| IV | #ivo7 | I/5 V7/ii | ii7 V7sus4 / V7 |"
}

section "chorus" {
  energy = 4
  chords = <<-EOT
    |: Cmaj7 | D/C | Bm7 | Em7       :|
    |  Eb    | F   | G/D | D7sus4 D7  |
  EOT
  push "4, 8: 12" {}
  accent "11: 1 7 10" {}
  fill "12: 7" {}
}

section "bells" {
  energy = 3
  # Stop time: nothing but the written hits, and the singer between them.
  chords = "| Em | Em/D | C#m7b5 | C6 | N.C. | D7 |"
  accent "1-2: 1 4 7" {
    alone  = true
    weight = 2
  }
  accent "6: 1" {}
  hold "6: 10" { beats = 1 }
}

section "amen" {
  energy = 1
  chords = "| C | Cm6 | G | % |"
  tacet  = ["drums"]
  rit "1-3" { to = 44 }
}

form {
  # The singer and the piano: without a bassist the left hand has the bass.
  play "verse" { tacet = ["drums", "bass"] }
  play "verse" {}
  play "turn" {}
  play "chorus" {}
  play "verse" {}
  play "turn" {}
  play "chorus" {}
  play "bells" {}
  play "chorus" {
    key    = "Ab major" # letter symbols move with it, as with a lift
    energy = 5
  }
  play "amen" {}
}
