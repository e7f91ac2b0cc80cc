# Both hands murmur sixteenths on the snare; the accents between the beats are
# what one hears from the next room.
groove "train" {
  about       = "sixteenths murmuring on the snare, accents between the beats"
  meter       = "4/4"
  tempo       = [88, 126]
  grid        = 16
  fills       = "march"
  syncopation = 2
  changes     = "in turn"

  lag {
    snare    = -2
    hat_foot = -3
  }

  level "1" {
    hat_foot = "--s---s---s---s-"
    bass     = "1=======5======="
    comp = [
      "x===------------",
      "x=======--------",
      "x===----u===----",
      "1===2===--------",
      "x===============",
    ]
    voices   = 2
    centre   = "A3"
  }

  # Rim instead of the roll.
  level "2" {
    hat         = "s---s---s---s---"
    cross_stick = "--s---s---s---s-"
    kick        = "x-------s-------"
    bass        = "1=======5======="
    comp = [
      "--u-------u-----/----------------",
      "--u---u---u-----/----------------",
      "--x=------u=----/----------------",
      "--u-------u---3-/----------------",
      "--u---3---u-----/----------------",
      "--x=====--------/----------------",
    ]
    voices      = 3
    centre      = "Bb3"
    answer {
      kick = "x---g---s---g---"
    }
  }

  level "3" {
    snare    = "ggsgggsgggsgggsg"
    kick     = "x---s---x---s---"
    hat_foot = "--s---s---s---s-"
    bass     = "1==-5==-1==-5-a-"
    comp = [
      "--u---u---u---u-/----------------",
      "--u---x---u---x-/----------------",
      "--u=------u---u-/----------------",
      "--u---u---u-3-u-/----------------",
      "--u-3-u---u---u-/----------------",
      "--x---u---u=----/----------------",
    ]
    voices   = 3
    centre   = "C4"
    answer {
      kick = "x---s---x-s-s---"
    }
  }

  level "4" {
    snare    = "sgxgsgxgsgxgsgxg"
    kick     = "x---x---x---x-x-"
    hat_foot = "--x---x---x---x-"
    bass     = "1=1-5==-1=3=5=a="
    comp = [
      "--u---u---u---u-/1---------------",
      "--u---x---u---x-/1-------1-------",
      "--u---u---u-----/1-------1-------",
      "--u-3-u---u---u-/1---------------",
      "--u---u---u-3-u-/1---------------",
      "--x---u=====----/1---------------",
    ]
    voices   = 4
    centre   = "Db4"
    answer {
      kick = "x---x-x-x---x-x-"
    }
  }

  level "5" {
    snare    = "sgxgsgXgsgxgsgXg"
    kick     = "x---x-x-x-x-x-x-"
    hat_foot = "--x---x---x---x-"
    bass     = "1=1=5=5=1=3=5=a="
    comp = [
      "--x---x---x-u-u-/o-------o-------",
      "--x-u-x---x-u-u-/o-------o-------",
      "--x---x---x---x-/o-------o-------",
      "--x---x---x-u-x-/o-------o-------",
      "--x---x---u---x-/o-------o---1---",
      "--x---x-u===----/o-------o===----",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      snare = "sgxgsgXgsgxgsgXs"
      kick  = "x-x-x-x-x---x-x-"
    }
  }
}
