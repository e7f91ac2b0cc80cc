# The snare walks with the beat, so the bass is free to talk.
groove "snare-on-four" {
  about       = "the snare on every beat, the bass talking underneath"
  meter       = "4/4"
  tempo       = [104, 130]
  grid        = 16
  fills       = "straight"
  syncopation = 2

  lag {
    bass  = 2
    piano = 3
  }

  level "1" {
    tambourine = "----s-------s---"
    bass       = "1==============="
    comp = [
      "x===============",
      "x=======u=======",
      "1===2===========",
      "x===========u===",
      "x===========----",
    ]
    voices     = 2
    centre     = "A3"
  }

  level "2" {
    hat         = "s-g-s-g-s-g-s-g-"
    cross_stick = "s---s---s---s---"
    kick        = "x-------s-------"
    bass        = "1=====1=1======="
    comp = [
      "x=======x=======/1=======1=======",
      "x=======3===2===/1=======1=======",
      "x===3===x=======/1=======1=====--",
      "x=======x===3=--/1=======1=======",
      "x===2===3=====--/1=======1=======",
      "x===============/1===============",
    ]
    voices      = 3
    centre      = "Bb3"
    answer {
      kick = "x-----s-s-------"
    }
  }

  level "3" {
    hat    = "s-s-s-s-s-s-s-s-"
    snare  = "s---s---s---s---"
    kick   = "x-----x-x-----x-"
    bass   = "1=====1=1=5=1=a="
    comp = [
      "x===u==-x===u==-",
      "x===u==-x===u=u=",
      "x===u==-x===l==-",
      "x===u=l=x===u==-",
      "x=======x===u==-",
      "x===u==-x=======",
    ]
    voices = 3
    centre = "C4"
  }

  level "4" {
    ride     = "x-s-x-s-x-s-x-s-"
    snare    = "x---x---x---x---"
    kick     = "x-----x-x-----x-"
    hat_foot = "----s-------s---"
    bass     = "1==3=-5=1==3-1a="
    comp = [
      "x===x==-x===x=u=",
      "x===x=u=x===x==-",
      "x===x==-x=u=x==-",
      "x===x=u=x===x=u=",
      "x===u==-x===x=l=",
      "x===x==-x=====--",
    ]
    voices   = 4
    centre   = "Db4"
    answer {
      kick = "x--x--x-x-----x-"
    }
  }

  level "5" {
    ride     = "X-x-X-x-X-x-X-x-"
    snare    = "x---X---x---X---"
    kick     = "x--x--x-x-x---x-"
    hat_foot = "----x-------x---"
    bass     = "1=13--5=1=135=a="
    comp = [
      "X===x=x=x===x=x=",
      "x===x=x=x=x=x==-",
      "X===x===x===x=x=",
      "x=u=x=x=x===x==-",
      "x===x=x=x=u=x==-",
      "X===x=x=x=====--",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      snare = "x---X---x---X-g-"
    }
  }
}
