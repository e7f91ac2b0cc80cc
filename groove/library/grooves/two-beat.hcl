# Bass on the beat, hand on the off-beat, all of it light on its feet.
groove "two-beat" {
  about       = "quick: bass on the beats, snare and chords between them"
  meter       = "4/4"
  tempo       = [96, 132]
  grid        = 16
  bass_sound  = "acoustic"
  fills       = "march"
  syncopation = 2
  changes     = "in turn"

  lag {
    snare    = -2
    hat_foot = -4
  }

  level "1" {
    hat_foot = "--s---s---s---s-"
    bass     = "1=======5======="
    comp = [
      "x===============",
      "x=======u=======",
      "1===2===========",
      "x===========u===",
      "x===========----",
    ]
    voices   = 2
    centre   = "A3"
  }

  level "2" {
    cross_stick = "--s---s---s---s-"
    kick        = "x-------s-------"
    hat_foot    = "--s---s---s---s-"
    bass        = "1=======5======="
    comp = [
      "--u-------u-----",
      "--u---u---u-----",
      "--u=------x-----",
      "--u-------u---u-",
      "--u---u---x=----",
      "--u=------------",
    ]
    voices      = 3
    centre      = "Bb3"
    answer {
      kick = "x-------s---s---"
    }
  }

  level "3" {
    snare    = "--s---s---s---s-"
    kick     = "x---s---x---s---"
    hat_foot = "--x---x---x---x-"
    bass     = "1==-5==-1==-5==-"
    comp = [
      "--u---u---u---u-",
      "--x---u---x---u-",
      "--u=------x---u-",
      "--u---u---u-l-u-",
      "--x---x---u---u-",
      "--x---u---u=----",
    ]
    voices   = 3
    centre   = "C4"
  }

  level "4" {
    ride     = "x---x---x---x---"
    snare    = "--x---x---x---x-"
    kick     = "x---x---x---x---"
    hat_foot = "--x---x---x---x-"
    bass     = "1==-5==-1==-5=a-"
    comp = [
      "--x---x---x---x-",
      "--x---x---x-l-x-",
      "--x-l-x---x---x-",
      "--x---u-l-x---u-",
      "--x---x-l-x---x-",
      "--x---x---x=----",
    ]
    voices   = 4
    centre   = "Db4"
    answer {
      kick = "x---x---x---x-x-"
    }
  }

  level "5" {
    ride     = "X-x-X-x-X-x-X-x-"
    snare    = "--x---X---x---X-"
    kick     = "x---x---x---x-x-"
    hat_foot = "--x---x---x---x-"
    bass     = "1==-5==-1=3=5=a-"
    comp = [
      "l-x---x---x---x-",
      "--x---x-l-x-l-x-",
      "--x-l-x---x-l-x-",
      "l-x---x-l-x---x-",
      "--x---x---x-l-x-",
      "x-x---x---x=----",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      snare = "--x---X---x---Xg"
    }
  }
}
