# Written in triplets: the middle one of each three is nobody's.
groove "shuffle" {
  about       = "long and short in triplets, a bass that strolls up the chord"
  meter       = "4/4"
  tempo       = [84, 132]
  grid        = 12
  fills       = "triplet"
  swing       = 2
  syncopation = 1
  changes     = "ahead"

  lag {
    snare = 4
    bass  = 2
    piano = 5
  }

  level "1" {
    hat_foot = "---s-----s--"
    bass     = "1==========="
    comp = [
      "x===========",
      "x=====u=====",
      "1==2========",
      "x========u==",
      "x========---",
    ]
    voices   = 2
    centre   = "A3"
  }

  level "2" {
    hat         = "s--s--s--s--"
    cross_stick = "---x-----x--"
    kick        = "x-----s-----"
    bass        = "1=====5====="
    comp = [
      "x====u------",
      "x==--u===---",
      "x====u--s---",
      "x==--u=----u",
      "x=====------",
    ]
    voices      = 3
    centre      = "Bb3"
    answer {
      kick = "x-----s----s"
    }
  }

  level "3" {
    hat    = "s-ss-ss-ss-s"
    snare  = "---s-----s--"
    kick   = "x-----x-----"
    bass   = "1==3==5==a=="
    comp = [
      "x====x---u==/1===========",
      "x==--x===s--/1=====------",
      "x==--u---x--/1=======----",
      "x=---3---x-u/1===========",
      "--x==u===s--",
      "x====x======/1===========",
    ]
    voices = 3
    centre = "C4"
    answer {
      kick = "x-----x----s"
    }
  }

  level "4" {
    ride     = "x-sx-sx-sx-s"
    snare    = "---x-----x--"
    kick     = "x----xx-----"
    hat_foot = "---s-----s--"
    bass     = "1==3==5==8=a"
    comp = [
      "x==--x==s---/1=====------",
      "x=x--x==u---/1===========",
      "x==--x--x--u/1=======----",
      "x=---u==x===/1===========",
      "--x==x--s---",
      "x====x======/1===========",
    ]
    voices   = 3
    centre   = "Db4"
    answer {
      kick = "x----xx----x"
    }
  }

  level "5" {
    ride     = "X-xX-xX-xX-x"
    snare    = "---X-----X-g"
    kick     = "x----xx----x"
    hat_foot = "---x-----x--"
    bass     = "1-13-35-58-a"
    comp = [
      "X==--x--u--x/o=====------",
      "x=u--X--x---/o===--------",
      "X==--x=-ux-x/o=======----",
      "x=x--X==u===/o===========",
      "x==--X=-x--u/o=====------",
      "X==--X=====u/o===========",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      snare = "---X-g---X-g"
    }
  }
}
