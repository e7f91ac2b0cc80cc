# Three beats and two: the bass says where, the backbeats stand on 3 and 5.
groove "five" {
  about       = "three and two"
  meter       = "5/4"
  tempo       = [96, 160]
  grid        = 10
  fills       = "straight"
  syncopation = 2

  lag {
    snare = 3
    bass  = 2
    piano = 3
  }

  level "1" {
    hat_foot = "----s---s-"
    bass     = "1=====5==="
    comp     = "x========="
    voices   = 2
    centre   = "A3"
  }

  level "2" {
    hat         = "s-s-s-s-s-"
    cross_stick = "----x---x-"
    kick        = "x-----s---"
    bass        = "1===1=5==="
    comp        = "x=====u==="
    voices      = 3
    centre      = "Bb3"
    answer {
      comp = "x========="
    }
  }

  level "3" {
    hat    = "sgsgsgsgsg"
    snare  = "----s---s-"
    kick   = "x-----x---"
    bass   = "1==1==5=a="
    comp   = "x==u==x==="
    voices = 3
    centre = "C4"
    answer {
      kick = "x--s--x---"
      comp = "x==u======"
    }
  }

  level "4" {
    ride     = "xsxsxsxsxs"
    snare    = "----x---x-"
    kick     = "x--x--x---"
    hat_foot = "----s---s-"
    bass     = "1==11=5=a="
    comp     = "x==x==x=u="
    voices   = 4
    centre   = "Db4"
    answer {
      kick = "x--x--xx--"
      comp = "x==x==x==="
    }
  }

  level "5" {
    ride     = "XsxsxsXsxs"
    snare    = "----X---Xg"
    kick     = "x--x--xx--"
    hat_foot = "----x---x-"
    bass     = "1=11115=5a"
    comp     = "X==x=xx=x="
    voices   = 4
    centre   = "D4"
    answer {
      snare = "----Xg--Xg"
    }
  }
}
