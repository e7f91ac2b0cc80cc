# The floor is there from 2 on; what changes is what stands between the beats.
groove "four-on-the-floor" {
  about       = "the kick on every beat, the hat between"
  meter       = "4/4"
  tempo       = [104, 132]
  grid        = 16
  fills       = "straight"
  syncopation = 2

  lag {
    hat_open = 2
    bass     = 2
    piano    = 2
  }

  level "1" {
    hat    = "--g---g---g---g-"
    bass   = "1==============="
    comp = [
      "x===============",
      "x=======u=======",
      "1===2===========",
      "x===========u===",
      "x===========----",
    ]
    voices = 2
    centre = "A3"
  }

  level "2" {
    hat         = "--s---s---s---s-"
    cross_stick = "----s-------s---"
    kick        = "s---s---s---s---"
    bass        = "1=======1=====1="
    comp = [
      "x=====x=========/1===============",
      "x=====x=----3===/1===============",
      "x=====3=--2=====/1===========----",
      "x=====x=======--/1=====1=========",
      "x=====3=2=======/1===============",
      "x===============/1===========----",
    ]
    voices      = 3
    centre      = "Bb3"
  }

  level "3" {
    hat    = "s-x-s-x-s-x-s-x-"
    snare  = "----s-------s---"
    kick   = "x---x---x---x---"
    bass   = "1===1===1===1=a="
    comp = [
      "x=====x=----u===",
      "x=====x=--u=x===",
      "x=====u=----x=u=",
      "x=====x=----x=--",
      "x==u==x=----u===",
      "x=====x=========",
    ]
    voices = 3
    centre = "C4"
    answer {
      kick = "x---x---x---x-s-"
    }
  }

  # The hat opens between the beats; the bass finds its octave.
  level "4" {
    hat      = "x---x---x---x---"
    hat_open = "--x---x---x---x-"
    snare    = "----x-------x---"
    kick     = "x---x---x---x---|x---x---x---x-x-"
    bass     = "1===1-8-1===1-a-"
    comp = [
      "x=-x=-x=--x=====",
      "x=-x=-x=--x=-u==",
      "x=-x=-x=u=x=====",
      "x=-u=-x=--x===--",
      "x=-x=-u=--x=--u=",
      "x=-x=-x=========",
    ]
    voices   = 4
    centre   = "Db4"
    answer {
      kick = "x---x---x---x-x-"
    }
  }

  level "5" {
    ride     = "X-x-X-x-X-x-X-x-"
    snare    = "----X-------X---"
    kick     = "x---x---x---x-x-"
    hat_foot = "--x---x---x---x-"
    bass     = "1-8-1-8-1-8-1-a-"
    comp = [
      "X=-x=-x=--x=-x==",
      "x=-x=-x=u=x=-x==",
      "X=-x=-x=--x=u=x=",
      "x=-x=-u=--x=-x=-",
      "x=-u=-x=x=x=-x==",
      "X=-x=-x=========",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      snare = "----X-------X--g"
    }
  }
}
