# 2 + 2 + 3: a bar of four that loses its last half beat, so that the second
# backbeat pushes into the next bar.
groove "seven" {
  about       = "two, two and three: a bar of four with its last half beat cut off"
  meter       = "7/8"
  tempo       = [96, 168]
  grid        = 14
  fills       = "straight"
  syncopation = 2

  lag {
    snare = 2
    bass  = 2
    piano = 3
  }

  level "1" {
    hat_foot = "----s-------s-"
    bass     = "1============="
    comp = [
      "x=============",
      "x=======u=====",
      "1===2=========",
      "x===========u=",
      "x==========---",
    ]
    voices   = 2
    centre   = "A3"
  }

  level "2" {
    hat         = "s-g-s-g-s-g-g-"
    cross_stick = "----x-------x-"
    kick        = "x-------s-----"
    bass        = "1=======1====="
    comp = [
      "x=======u=====/1=============",
      "x=====3=u=====/1=============",
      "s=======u===3=/1=============",
      "x=======3=====/1=======1=====",
      "x===3===s===--/1=============",
      "x===========--/1=============",
    ]
    voices      = 3
    centre      = "Bb3"
  }

  level "3" {
    hat    = "s-s-s-s-s-s-s-"
    snare  = "----s-------s-"
    kick   = "x-------x-s---"
    bass   = "1=====1=1===a="
    comp = [
      "x=====u=x=====/1=======1=====",
      "x=====u=s===3=/1=======------",
      "x=----3=u=====/1=============",
      "x=====u=x=-3==/1=============",
      "s===3=--x=u===/1=======1=====",
      "x=====u===----/1=============",
    ]
    voices = 3
    centre = "C4"
    answer {
      kick = "x-----s-x-s---"
    }
  }

  level "4" {
    ride     = "x-s-x-s-x-s-s-"
    snare    = "----x-------x-"
    kick     = "x-----x-x-x---"
    hat_foot = "----s-------s-"
    bass     = "1===1=1=1=1=a="
    comp = [
      "x===x===x===u=/1=======1=====",
      "s===u===x===3=/1=======1=====",
      "x===x=u=s===u=/1=======------",
      "x=====u=x===s=/1=======1=====",
      "x===u===x=3=u=/1=============",
      "x===x===x=====/1=======------",
    ]
    voices   = 3
    centre   = "Db4"
  }

  level "5" {
    ride     = "X-x-X-x-X-x-x-"
    snare    = "----X--g----X-"
    kick     = "x-----x-x-x---"
    hat_foot = "----x-------x-"
    bass     = "1=1=1=1=1=5=a="
    comp = [
      "X===u=u=x===u=/o=====--o=====",
      "x===x=u=X===u=/o=======o=----",
      "X===u===x=u=x=/o=======1=====",
      "x===x=u=X=4=u=/o=======------",
      "X=4=u=u=x====-/o=====--o=====",
      "X===u===X====-/o=======------",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      snare = "----X--g-g--X-"
    }
  }
}
