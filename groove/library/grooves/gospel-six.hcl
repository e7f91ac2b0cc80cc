# A slow six, in sixteenths so that a pickup can lean into 1.
groove "gospel-six" {
  about       = "a slow six with the snare on 4 and a pickup into 1"
  meter       = "6/8"
  tempo       = [40, 66]
  grid        = 12
  fills       = "compound"
  syncopation = 2

  lag {
    snare       = 8
    cross_stick = 8
    bass        = 5
    piano       = 5
  }

  level "1" {
    hat_foot = "------s-----"
    bass     = "1==========="
    comp = [
      "x===========",
      "x=====u=====",
      "1=2=========",
      "x=======u===",
      "x========---",
    ]
    voices   = 2
    centre   = "A3"
  }

  level "2" {
    hat         = "s-g-g-s-g-g-"
    cross_stick = "------x-----"
    kick        = "x-----------"
    bass        = "1=========1="
    comp = [
      "x=====3=====/1===========",
      "x=====x=====/1=========--",
      "x===3=2=====/1===========",
      "x=====3===--/1========---",
      "x=====2=====/1===========",
      "x=======----/1===========",
    ]
    voices      = 3
    centre      = "Bb3"
    answer {
      kick = "x---------s-"
    }
  }

  level "3" {
    hat    = "s-s-s-s-s-s-"
    snare  = "------s-----"
    kick   = "x---------s-"
    bass   = "1=====5===a="
    comp = [
      "x=====x=====/1===========",
      "x===3=x=====/1===========",
      "x=====3===2=/1===========",
      "x=====3=====/1=====------",
      "x===2=x=====/1=====1=====",
      "x===========/1=======----",
    ]
    voices = 3
    centre = "C4"
    answer {
      kick = "x---s-----s-"
    }
  }

  level "4" {
    ride     = "x-s-s-x-s-s-"
    snare    = "------x-----"
    kick     = "x---x-----x-"
    hat_foot = "------s-----"
    bass     = "1=====5===a=|1===1=5===a="
    comp = [
      "x=====x=====/1=====1=====",
      "x===x=x=====/1===========",
      "x=====x===3=/1=====1=====",
      "x===3=x=====/1===========",
      "x=====x===2=/1=====1===--",
      "x===========/1===========",
    ]
    voices   = 3
    centre   = "Db4"
    answer {
      kick = "x---x---x-x-"
    }
  }

  level "5" {
    ride     = "X-x-x-X-x-x-"
    snare    = "------X-----"
    kick     = "x---x---x-x-"
    hat_foot = "------x-----"
    bass     = "1===1=5===a="
    comp = [
      "X=====u===u=/o====-o====-",
      "X===u=x===--/o========---",
      "X====-x===--/o===--o====-",
      "X===u=u===u=/o=======----",
      "X===4=x====-/o=====o===--",
      "X====-u===4=/o=====o=====",
      "X=========--/o=======----",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      snare = "------X---s-"
    }
  }
}
