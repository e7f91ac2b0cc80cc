# The plain song beat, played by people who are paid not to be noticed.
groove "backbeat-eighths" {
  about       = "the plain song beat: eighths on the hat, snare on 2 and 4"
  meter       = "4/4"
  tempo       = [84, 138]
  grid        = 16
  fills       = "straight"
  syncopation = 2

  lag {
    snare = 4
    bass  = 2
    piano = 3
  }

  level "1" {
    hat_foot = "----s-------s---"
    bass     = "1==============="
    comp = [
      "x===============",
      "x=======u=======",
      "x===========----",
    ]
    voices   = 2
    centre   = "A3"
  }

  # Verse: cross-stick, closed hat, bass with the kick.
  level "2" {
    hat         = "s-g-s-g-s-g-s-g-"
    cross_stick = "----x-------x---"
    kick        = "x-------s-------"
    bass        = "1=====1=1======="
    comp = [
      "x=====x=====3===/1=======1=======",
      "x=====3=x=======/1=======1=====--",
      "x=====3=x===3===/1=======1=======",
      "x=======x===3===/1=======1=======",
      "x=====x=========/1=======1=======",
      "x=======2=3=====/1=======1===----",
      "x===========----/1===============",
    ]
    voices      = 3
    centre      = "Bb3"
    answer {
      kick = "x-------s-s-----"
    }
  }

  level "3" {
    hat    = "s-s-s-s-s-s-s-s-"
    snare  = "----s-------s---"
    kick   = "x-----s-x-------"
    bass   = "1=====1=1=====a="
    comp = [
      "x=====x=x===3===/1=======1=======",
      "x=====x=x=====--/1=======1=====--",
      "x===3=x=x===3===/1=======1=======",
      "x=====3=x===x===/1===============",
      "x=====x=--2=3===/1=======1=======",
      "x=====x=====x===/1=======1====---",
      "x=======x=====--/1=======1=======",
    ]
    voices = 3
    centre = "C4"
    answer {
      kick = "x-------x-----s-"
    }
  }

  # Chorus: ride, the kick speaks, the bass fills the second half.
  level "4" {
    ride     = "x-s-x-s-x-s-x-s-"
    snare    = "----x-------x---"
    kick     = "x-----s-x-------"
    hat_foot = "----s-------s---"
    bass     = "1=====1=1=1===a="
    comp = [
      "x=====x=x===x===/1=======1=======",
      "x===x=x=x===3===/1=======1====---",
      "x=====x=x=x=x===/1===============",
      "x===3=x=x===x===/1=======1=======",
      "x=====x=--x=x===/1=======1=====--",
      "x=====x=x===x=3=/1===============",
      "x=====x=--2=3===/1=======1=======",
      "x=====x=x=====--/1===============",
    ]
    voices   = 3
    centre   = "Db4"
    answer {
      kick = "x-------x-------"
    }
  }

  level "5" {
    ride     = "X-x-X-x-X-x-X-x-"
    snare    = "----X-------X---"
    kick     = "x-----x-x-------"
    hat_foot = "s---x---s---x---"
    bass     = "1=1=1=1=1=1=5=a="
    comp = [
      "X=====u=x===u=u=/o=======o=======",
      "X===u=u=x===u===/o=======o=====--",
      "X=====u=x=u=u=u=/o===============",
      "X===u=x=--u=u===/o=======o=======",
      "X===u=u=x===u=u=/o=======o=======",
      "X=====u=x=u=x===/o=======o=====--",
      "X=====u=x=====--/o===============",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      kick = "x-------x-------"
    }
  }
}
