# A slow song in eighths. The verse is cross-stick and a bass that only says
# where the chord is; the snare comes with the build, the ride with the chorus.
groove "ballad-eighths" {
  about       = "a slow song in eighths: cross-stick in the verse, a backbeat when it opens up"
  meter       = "4/4"
  tempo       = [56, 88]
  grid        = 16
  fills       = "ballad"
  syncopation = 2

  lag {
    snare       = 6
    cross_stick = 6
    bass        = 4
    piano       = 6
  }

  # The foot keeps the place; bass and piano breathe once a bar.
  level "1" {
    hat_foot = "----s-------s---"
    bass     = "1==============="
    comp     = "1===2==========="
    voices   = 2
    centre   = "A3"
  }

  # The verse: hat in soft eighths, cross-stick, a bass in halves, the chord broken and
  # then held.
  level "2" {
    cross_stick = "----x-------x---"
    hat         = "s-g-s-g-s-g-s-g-"
    kick        = "x-------s-------"
    bass        = "1=======1======="
    comp        = "1=2=3=======2===|x=======u======="
    voices      = 3
    centre      = "Bb3"
    answer {
      kick = "x-------s-----s-"
      comp = "1=2=3===========|x=======u======="
    }
  }

  # The snare arrives, still small.
  level "3" {
    hat    = "s-s-s-s-s-s-s-s-"
    snare  = "----s-------s---"
    kick   = "x-----s-x-------"
    bass   = "1=====1=1=====a="
    comp   = "x=====u=x===u==="
    voices = 3
    centre = "C4"
    answer {
      kick = "x-----s-x-----s-"
      comp = "x=====u=x======="
    }
  }

  # The chorus: ride, backbeat, the bass on the move. The two hands of the comp rock,
  # the whole chord on 1 and 3, a hand at a time between: a block on every beat would
  # march.
  level "4" {
    ride     = "x-s-x-s-x-s-x-s-"
    snare    = "----x-------x---"
    kick     = "x-----x-x-------"
    hat_foot = "----s-------s---"
    bass     = "1=====1=1===5=a="
    comp     = "x===u===x===l=u="
    voices   = 4
    centre   = "Db4"
    answer {
      kick = "x-----x-x-----x-"
      comp = "x=======x===l=u="
    }
  }

  # The last chorus: the bass moves in the second half, the kick leans into 1, the
  # hands come down together on the beats.
  level "5" {
    ride     = "X-x-X-x-X-x-X-x-"
    snare    = "----X-------X---"
    kick     = "x-----x-x-----x-"
    hat_foot = "----x-------x---"
    bass     = "1=====1=1=1=5=a="
    comp     = "X===x=u=x===x=u="
    voices   = 4
    centre   = "D4"
    answer {
      snare = "----X-------X-s-"
    }
  }
}
