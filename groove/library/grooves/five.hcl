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
    comp = [
      "x=========",
      "x=====u===",
      "1==2======",
      "x=======u=",
      "x=======--",
    ]
    voices   = 2
    centre   = "A3"
  }

  level "2" {
    hat         = "s-s-s-s-s-"
    cross_stick = "----x---x-"
    kick        = "x-----s---"
    bass        = "1===1=5==="
    comp = [
      "x=====u===/1=========",
      "x====3u===/1=========",
      "s=====u=3=/1=========",
      "x=====3===/1=====1===",
      "x==3==s---/1=========",
      "x=======--/1=========",
    ]
    voices      = 3
    centre      = "Bb3"
  }

  level "3" {
    hat    = "sgsgsgsgsg"
    snare  = "----s---s-"
    kick   = "x-----x---"
    bass   = "1==1==5=a="
    comp = [
      "x==u==x===/1=====1===",
      "x==u=-s=3=/1=====----",
      "x==3==x-u=/1=========",
      "---u==x===/1=====1===",
      "s==u--u=--/1=====1==1",
      "x==u------/1=========",
    ]
    voices = 3
    centre = "C4"
    answer {
      kick = "x--s--x---"
    }
  }

  level "4" {
    ride     = "xsxsxsxsxs"
    snare    = "----x---x-"
    kick     = "x--x--x---"
    hat_foot = "----s---s-"
    bass     = "1==11=5=a="
    comp = [
      "x==x==x=u=/1=====1===",
      "s==u==x=s=/1=====----",
      "x==x=3x=u=/1=====1===",
      "x==u==x==3/1=========",
      "x==s==u=x3/1=====1===",
      "x=====x===/1=====1===",
    ]
    voices   = 3
    centre   = "Db4"
    answer {
      kick = "x--x--xx--"
    }
  }

  level "5" {
    ride     = "XsxsxsXsxs"
    snare    = "----X---Xg"
    kick     = "x--x--xx--"
    hat_foot = "----x---x-"
    bass     = "1=11115=5a"
    comp = [
      "X==u=ux=x-/o===--o===",
      "x==x=-X=u4/o===--o=--",
      "X=-u-ux=u=/o=====1===",
      "x=4u-uX=u-/o=====o===",
      "X==x=-u-x4/o=====o=--",
      "X==u--X===/o===------",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      snare = "----Xg--Xg"
    }
  }
}
