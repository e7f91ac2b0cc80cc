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
    comp = [
      "1===2===========",
      "x=======2=======",
      "x===============",
      "x===========----",
    ]
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
    comp = [
      "x=====3=x=====--/1=======1=======",
      "x===3===2=======/1===============",
      "x===2=3=x=====--/1=======1====---",
      "x=====m=2=======",
      "x===3===x===3===/1=======1=======",
      "x=====3=x===3===/1=======1=====--",
      "x===========----/1===============",
    ]
    voices      = 3
    centre      = "Bb3"
    answer {
      kick = "x-------s-----s-"
    }
  }

  # The snare arrives, still small.
  level "3" {
    hat    = "s-s-s-s-s-s-s-s-"
    snare  = "----s-------s---"
    kick   = "x-----s-x-------"
    bass   = "1=====1=1=====a="
    comp = [
      "x====-3=x===x===/1=======1=======",
      "x=====3=--2=3===/1=======1=======",
      "x==-3===x===2===/1=======1=====--",
      "x=====m=2===x===",
      "--2=3===x==-3===/1=======1=======",
      "x===x=3=x=====--/1=======1====---",
      "x====-x=x=====--/1===========----",
      "x=======x=====--/1=======1=======",
    ]
    voices = 3
    centre = "C4"
    answer {
      kick = "x-----s-x-----s-"
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
    comp = [
      "x====-x=x===3===/1=======1=======",
      "x===3=x=x==-x===/1===============",
      "x====-x=x===x=3=/1=======1=====--",
      "x=====x=--2=3===/1=======1=======",
      "x=====3=x==-x===/1=======1====---",
      "x==-x=3=x===x=--/1=======1=======",
      "x=====3=x=x=x==-/1=======1=====--",
      "x=====x=x=====--/1===============",
    ]
    voices   = 3
    centre   = "Db4"
    answer {
      kick = "x-----x-x-----x-"
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
    comp = [
      "X===u=u=u===u==-/o===----o===----",
      "X==-u===u===u=u=/o===========----",
      "X===--u=u=u=u==-/o====---o====---",
      "X==-u=u=x=u=u==-/o===----o===----",
      "X==-u=4=u===u=4=/o=======o=======",
      "X==-u=u=--u=u==-/o====---o====---",
      "X===--u=x=====--/o===========----",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      hat_foot = "s---x---s---x---"
    }
  }
}
