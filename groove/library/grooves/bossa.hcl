# Two bars of cross-stick over a kick that never changes. Where the foot closes
# the hat, the stick leaves it alone.
groove "bossa" {
  about       = "a quiet clave in cross-stick, root and fifth, chords that lean over the beat"
  meter       = "4/4"
  tempo       = [104, 152]
  grid        = 16
  bass_sound  = "acoustic"
  fills       = "bossa"
  syncopation = 2
  changes     = "ahead"

  lag {
    hat_foot = -3
    bass     = 2
    piano    = 4
  }

  level "1" {
    hat_foot = "----s-------s---"
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
    hat         = "s-g-s-g-s-g-s-g-"
    cross_stick = "s-----s-----s---|----s-----s-----"
    kick        = "x-------s-------"
    bass        = "1=====5=5======="
    comp = [
      "x===u=====u=----",
      "----u=====x===x=",
      "----x=====u===x=",
      "----u=----x=----",
      "----x=----u=--u=",
      "x=====----------",
    ]
    voices      = 3
    centre      = "Bb3"
    answer {
      kick = "x-------s-----g-"
    }
  }

  level "3" {
    hat         = "s-g---g-s-g---g-"
    cross_stick = "s-----s-----s---|----s-----s-----"
    kick        = "x-----s-x-----s-"
    hat_foot    = "----s-------s---"
    bass        = "1=====5=5=====c="
    comp = [
      "x===u=====x=----",
      "----x=u===x=====",
      "----x=====u===x=",
      "----x=u===u=--x=",
      "----u=----x===u=",
      "x===u=========--",
    ]
    voices      = 3
    centre      = "C4"
  }

  level "4" {
    ride        = "x-s-x-s-x-s-x-s-"
    cross_stick = "x-----x-----x---|----x-----x-----"
    kick        = "s-----s-s-----s-"
    hat_foot    = "----x-------x---"
    bass        = "1=====5=5===1=c="
    comp = [
      "x===u=====x=u=--",
      "----x=u===x=u===",
      "----x=====x=u=x=",
      "----u=x===u===x=",
      "----x=----u=u=x=",
      "x===u=====x===--",
    ]
    voices      = 4
    centre      = "Db4"
  }

  level "5" {
    ride        = "X-x-X-x-X-x-X-x-"
    cross_stick = "x-----x-----x---|----x-----x-----"
    kick        = "s-----s-s-----s-"
    hat_foot    = "s---x---s---x---"
    bass        = "1=====5=5=5=1=c=|1===1=5=5===1=c="
    comp = [
      "x===u===x=u=x===",
      "----x=u=x=u=x=--",
      "----x===u=x=u=x=",
      "----u=x===x=u=x=",
      "----x===x=u=u=x=",
      "x===u=====x===--",
    ]
    voices      = 4
    centre      = "D4"
    answer {
      cross_stick = "x-----x-----x---|----x-----x---s-"
    }
  }
}
