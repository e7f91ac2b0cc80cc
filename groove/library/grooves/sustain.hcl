# No drums, no time-keeping: the chord is set down once a bar and held. The first
# sign is the bar's first beat, the second each other beat. Energy is in how many
# voices sound, where they lie and how firmly they are struck.
groove "sustain" {
  about       = "no drums: each bar one chord, held"
  meter       = "any"
  tempo       = [40, 200]
  syncopation = 0

  lag {
    piano = 4
  }

  level "1" {
    bass   = "1|="
    comp   = "s|="
    voices = 2
    centre = "A3"
  }

  level "2" {
    from   = "1"
    voices = 3
    centre = "Bb3"
  }

  level "3" {
    from   = "2"
    comp   = "x|="
    centre = "C4"
  }

  level "4" {
    from   = "3"
    voices = 4
    centre = "Db4"
  }

  # As firmly as the two hands can.
  level "5" {
    from   = "4"
    comp   = "X|="
    centre = "D4"
  }
}
