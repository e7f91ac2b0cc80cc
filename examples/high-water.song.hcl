# High Water Waltz: a long dance in three that starts in a minor key, turns to
# the major, and will not stop. It shows repeats with a count, odd bars, keys of
# sections, energies that move, a pickup and a groove of the song's own.

title     = "High Water Waltz"
by        = "The Weir Street Songbook"
key       = "D minor"
meter     = "3/4"
tempo     = 132
feel      = "waltz"
pickup    = 1
count_in  = 1
looseness = 0.3
grooves   = ["grooves/mill-wheel.groove.hcl"]

drums {
  kit = "brushes"
}

section "river" {
  energy = 2
  chords = <<-EOT
    | Dm  | Dm/C        | Bbmaj7 | A7  |
    | Dm  | Gm6         | Em7b5  | A7  |
    | Dm  | Dm/C        | Bbmaj7 | F/A |
    | Gm7 | A7sus4 A7 / | Dm     | %   |
  EOT
}

section "square" {
  key    = "F major"
  energy = 3
  chords = <<-EOT
    |: F   | F/A | Bb  | Bbm6  |
    |  F/C | Dm7 | Gm7 | C7   :|
  EOT
  push "8, 16: 3&" {}
}

section "wheel" {
  # Three times round, each the same; the mill wheel turns below it.
  feel   = "mill-wheel"
  energy = [2, 4]
  chords = <<-EOT
    |: bVI | bVII | i      | i/b7 :|x3
    |  bVI | bVII | V7sus4 | V7    |
  EOT
  accent "13-15: 1" { weight = 2 }
}

section "square dance" {
  like   = "square"
  energy = 4
  # Two bars of two after the first phrase trip everybody up, as they do every
  # year.
  chords = <<-EOT
    | F       | F/A         | Bb  | Bbm6 |
    | F/C     | Dm7         | Gm7 | C7   |
    | (2/4) F | (2/4) D7/F# | Gm7 | Bbm6 |
    | F/C     | C7          | F   | C7   |
  EOT
}

section "last round" {
  key    = "F major"
  energy = 5
  chords = <<-EOT
    | Bb | Bbm6 | F/C | D7 | Gm7 | C7sus4 C7 / | Db | Eb |
    | F  | %    |
  EOT
  rit "7-8" { to = 96 }
  fill "8: 1" {}
  stop "10: 2" {}
}

form {
  play "river" { tacet = ["drums"] }
  play "river" {}
  play "square" {}
  play "wheel" {}
  play "river" { energy = [3, 2] }
  play "square" {}
  play "square dance" {}
  play "square dance" {
    lift   = 1
    energy = 5
  }
  play "last round" {}
}
