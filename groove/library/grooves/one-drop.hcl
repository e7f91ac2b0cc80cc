# Kick and cross-stick fall on 3 together; 1 is left to the bass, or to nobody.
# Counted so that the chords stand on 2 and 4.
groove "one-drop" {
  about       = "1 left empty, kick and cross-stick on 3, chords on 2 and 4"
  meter       = "4/4"
  tempo       = [116, 160]
  grid        = 16
  fills       = "straight"
  syncopation = 2
  changes     = "in turn"

  lag {
    cross_stick = 4
    snare       = 4
    bass        = 5
    piano       = 2
  }

  level "1" {
    cross_stick = "--------s-------"
    bass        = "1===========----"
    comp = [
      "----u-----------",
      "----x===--------",
      "----u-------u---",
      "----1===2===----",
      "----x===========",
    ]
    voices      = 2
    centre      = "A3"
  }

  level "2" {
    hat         = "s---s---s---s---"
    cross_stick = "--------x-------"
    kick        = "--------x-------"
    bass        = "1=====1=5=======|----1===5======="
    comp = [
      "----u-------u---",
      "----u-------u-l-",
      "----u=------u---",
      "----u-l-----u---",
      "----u-------x---",
      "----u=----------",
    ]
    voices      = 3
    centre      = "Bb3"
  }

  level "3" {
    hat         = "s-s-s-s-s-s-s-s-"
    cross_stick = "--------x-------"
    kick        = "--------x-------"
    bass        = "1=====1=5===3=a=|----1=1=5===3=a="
    comp = [
      "----x-------x---",
      "----x-l-----x---",
      "----x-------x-l-",
      "----x-l-----x-l-",
      "----x=l-----u-l-",
      "----x=----------",
    ]
    voices      = 3
    centre      = "C4"
    answer {
      cross_stick = "--------x-----s-"
    }
  }

  # The snare takes the drop, the comp bubbles after the chord.
  level "4" {
    hat      = "x-s-x-s-x-s-x---"
    hat_open = "--------------x-"
    snare    = "--------x----s--"
    kick     = "--------x-------"
    bass     = "1=--1=1=5=--3=a="
    comp = [
      "----x-l-----x-l-",
      "----x-l-----x---",
      "--l-x-l-----x-l-",
      "----x-l---l-x-l-",
      "----x-l-----x=l-",
      "----x-------x=--",
    ]
    voices   = 4
    centre   = "Db4"
    answer {
      kick = "--------x-----s-"
    }
  }

  level "5" {
    ride     = "x-X-x-X-x-X-x-X-"
    snare    = "--------X----x--"
    kick     = "--------X-----x-"
    hat_foot = "----x-------x---"
    bass     = "1=1=5=1=5=1=3=a="
    comp = [
      "--l-x-l---l-x-l-",
      "--l-x-l-----x-l-",
      "----x-l---l-x-l-",
      "--l-x-l---l-x---",
      "--l-x-u---l-x-u-",
      "--l-x-l-----x=--",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      snare = "--------X--g-x--"
    }
  }
}
