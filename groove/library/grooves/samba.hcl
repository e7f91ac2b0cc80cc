# Two beats to the half bar, the low drum heavier on the second. The foot plays
# between the beats, so the stick on the hat steps aside there.
groove "samba" {
  about       = "two to the bar, the low drum on 2, sixteenths all the way"
  meter       = "4/4"
  tempo       = [84, 112]
  grid        = 16
  fills       = "latin"
  syncopation = 4
  changes     = "ahead"

  lag {
    hat_foot = -3
    bass     = 1
    piano    = 2
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
    hat    = "s-gss-gss-gss-gs"
    kick   = "g---s---g---s---"
    bass   = "1===5===1===5==="
    comp = [
      "x==x------u=----",
      "---x=-u---x-----",
      "---x------u---x=",
      "---x=-u---u---x=",
      "---u=-----x---u=",
      "x==x=====-------",
    ]
    voices = 3
    centre = "Bb3"
    answer {
      kick = "g--gs---g--gs---"
    }
  }

  level "3" {
    hat         = "sg-ssg-ssg-ssg-s"
    cross_stick = "------s---s-----"
    kick        = "s--sx--ss--sx--s"
    hat_foot    = "--s---s---s---s-"
    bass        = "1==15===1==15=c="
    comp = [
      "x==x--x=--u-----",
      "---x--u-x=u-----",
      "---x=-u-x-u---x=",
      "---x--x=--u---x-",
      "---u=-x-u-x---u=",
      "x==x--x===------",
    ]
    voices      = 3
    centre      = "C4"
  }

  # The ride keeps the sixteenths, the snare a figure of its own.
  level "4" {
    ride     = "x-xsx-xsx-xsx-xs"
    snare    = "s-s-s-gs-s-s-sg-"
    kick     = "s--xX--xs--xX--x"
    hat_foot = "--x---x---x---x-"
    bass     = "1==15==51==15=c="
    comp = [
      "x==x--x=--x--u--",
      "---x--u-x-x--u--",
      "---x=-x-u-x---x=",
      "---x--u-x=u---x-",
      "---u=-x-u-x---x=",
      "x==x--x---x===--",
    ]
    voices   = 4
    centre   = "Db4"
  }

  level "5" {
    ride     = "X-xsX-xsX-xsX-xs"
    snare    = "x-sgs-gx-sgs-xg-"
    kick     = "x--xX--xx--xX--x"
    hat_foot = "--x---x---x---x-"
    bass     = "1=115==51==155c="
    comp = [
      "X==x--x-x-x--u--",
      "---x--u-x-u-x-x=",
      "---x--x-u-x-u-x-",
      "---x=-u-x-x--x--",
      "---u--x-x-x-u-x=",
      "X==x--x---x===--",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      snare = "x-sgs-gx-sgs-xgg"
    }
  }
}
