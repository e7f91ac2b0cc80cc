# The eighths run at full tempo, everything else takes twice as long: the only
# backbeat is on 3.
groove "half-time" {
  about       = "quick eighths with one backbeat a bar, on 3: twice as wide"
  meter       = "4/4"
  tempo       = [112, 168]
  grid        = 16
  fills       = "straight"
  syncopation = 3

  lag {
    snare = 6
    bass  = 4
    piano = 5
  }

  level "1" {
    hat_foot = "--------s-------"
    bass     = "1==============="
    comp = "x==============="
    voices   = 2
    centre   = "A3"
  }

  level "2" {
    hat         = "s---s---s---s---"
    cross_stick = "--------x-------"
    kick        = "x---------------"
    bass        = "1===========1==="
    comp = [
      "x===========3===/1===============",
      "x=======2===3===/1===============",
      "x=======3=--2===/1===========----",
      "x===3=======2===/1===============",
      "x===========2=3=/1=======--------",
      "x===============/1===========----",
    ]
    voices      = 3
    centre      = "Bb3"
    answer {
      kick = "x-------------s-"
    }
  }

  level "3" {
    hat    = "s-s-s-s-s-s-s-s-"
    snare  = "--------s-------"
    kick   = "x-------------x-"
    bass   = "1=======1=====a="
    comp = [
      "x=======3===2===/1=======1=======",
      "x=====3=x===2===/1=======1=======",
      "x===3===x===2===/1=======1=====--",
      "x=======--3=2===/1=======1=======",
      "x=======x===3=--/1=======1=======",
      "x=======x=======/1=======1=======",
    ]
    voices = 3
    centre = "C4"
    answer {
      kick = "x-----s-------x-"
    }
  }

  level "4" {
    ride     = "x-s-x-s-x-s-x-s-"
    snare    = "--------x-------"
    kick     = "x-----x-------x-"
    hat_foot = "----s-------s---"
    bass     = "1=====1=1=====1="
    comp = [
      "x=====x=x===u===/1=====1=1=======",
      "x=====u=x===u=2=/1=======1=======",
      "x===2=u=x===u===/1=======1=====--",
      "x===u=u=x=======/1=====1=1=======",
      "x=====x=x=====u=/1=======1=======",
      "x=======x=====--/1=======1=======",
    ]
    voices   = 4
    centre   = "Db4"
    answer {
      kick = "x-----x---x---x-"
    }
  }

  level "5" {
    ride     = "X-x-X-x-X-x-X-x-"
    snare    = "--------X-------"
    kick     = "x--x--x---x---x-"
    hat_foot = "----x-------x---"
    bass     = "1==1==1=1=1=5=a="
    comp = [
      "X=====x=x===x===/o=====o=o=======",
      "x===u=u=x===x=u=/o=======o=======",
      "X=====x=x=u=x===/o=====o=o=======",
      "x=====u=x===x=u=/o=====o=o=====--",
      "x===u=x=x===x===/o=======o=======",
      "X=====x=x=======/o=====o=o=======",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      snare = "--------X----g--"
    }
  }
}
