# The beat and nothing else. The first sign is the bar's first beat, the second
# each other beat, whatever the meter.
groove "pulse" {
  about       = "the beat and nothing else, in any meter"
  meter       = "any"
  tempo       = [50, 160]
  fills       = "straight"
  syncopation = 0

  lag {
    bass  = 2
    piano = 3
  }

  level "1" {
    bass   = "1|="
    comp   = "x|="
    voices = 2
    centre = "A3"
  }

  # The piano alone beats, above the held bass.
  level "2" {
    hat_foot = "-|s"
    bass     = "1|="
    comp     = "x|u"
    voices   = 3
    centre   = "Bb3"
  }

  level "3" {
    hat    = "x|s"
    kick   = "x|-"
    bass   = "1|1"
    comp   = "x|u"
    voices = 3
    centre = "C4"
  }

  level "4" {
    ride     = "x|x"
    kick     = "x|-"
    hat_foot = "-|s"
    bass     = "1|1"
    comp     = "x|x"
    voices   = 4
    centre   = "Db4"
  }

  level "5" {
    ride     = "X|x"
    kick     = "X|x"
    hat_foot = "-|x"
    bass     = "1|1"
    comp     = "X|x"
    voices   = 4
    centre   = "D4"
  }
}
