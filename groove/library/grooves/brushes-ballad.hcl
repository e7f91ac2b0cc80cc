# Brushes: one sweeps a circle a beat, the other speaks. No backbeat is struck at
# any level under 5: 2 and 4 are the foot's.
groove "brushes-ballad" {
  about       = "brushes sweeping, the foot on 2 and 4, a bass in two that comes to walk"
  meter       = "4/4"
  tempo       = [50, 76]
  grid        = 12
  kit         = "brushes"
  bass_sound  = "acoustic"
  fills       = "brushes"
  swing       = 2
  syncopation = 1

  lag {
    hat_foot = -4
    bass     = 4
    piano    = 9
  }

  # A sweep a half bar and nothing else.
  level "1" {
    sweep  = "s~~~~~s~~~~~"
    bass   = "1==========="
    comp = [
      "x===========",
      "x=====u=====",
      "1==2========",
      "x========u==",
      "x========---",
    ]
    voices = 2
    centre = "A3"
  }

  # The bass in two.
  level "2" {
    sweep    = "g~~s~~g~~s~~"
    hat_foot = "---s-----s--"
    bass     = "1=====5====="
    comp = [
      "x====3x=====/1=====1=====",
      "x==3==x==2==/1=====1=====",
      "x====m2=====",
      "x====3x==2==/1===========",
      "x==2=3x=====/1=====1===--",
      "x==3==2=====/1===========",
      "x========---/1===========",
    ]
    voices   = 3
    centre   = "Bb3"
  }

  # The right brush taps the time, hardly louder than the sweep.
  level "3" {
    tap      = "---s-----s-g|---s-g---s--"
    sweep    = "g~~s~~g~~s~~"
    hat_foot = "---s-----s--"
    bass     = "1=====5=====|1=====5==3==|1=====5=====|1=====5====a"
    comp = [
      "x====3x==x==/1===========",
      "x==3==x==x==/1=====1=====",
      "x====x===3==/1=====1=====",
      "x==2=3x=====/1=====1===--",
      "x=====m==2==",
      "x====3x====2/1===========",
      "x=====s=====/1=====------",
    ]
    voices   = 3
    centre   = "C4"
    answer {
      kick = "g-----g-----"
    }
  }

  # The time goes to the cymbal, the bass walks, the kick is felt more than heard.
  level "4" {
    ride     = "s--x-gs--x-g"
    sweep    = "g~~s~~g~~s~~"
    kick     = "g--g--g--g--"
    hat_foot = "---x-----x--"
    bass     = "1=====5====5|1=====5==3==|1====15=====|1=====5====a"
    comp = [
      "x====x===3==/1=====1=====",
      "x==x=3x==x==/1===========",
      "x====x===x=3/1=====1===--",
      "x==x==x====3/1=====1=====",
      "x====3x==x=3/1===========",
      "x==x=x======/1=====1=====",
      "x=====x=====/1===========",
    ]
    voices   = 3
    centre   = "Db4"
  }

  level "5" {
    ride     = "x--x-sx--x-s"
    sweep    = "g~~s~~g~~s~-"
    tap      = "-----------s"
    kick     = "s--g--s--g--"
    hat_foot = "---x-----x--"
    bass     = "1=====5====5|w==w==w==w==|1====15==3==|w==w==w==w=="
    comp = [
      "X==u=uu==u=-/o====-o==---",
      "X==u==u==u=u/o=======----",
      "X=-u=uu==u=u/o===--o===--",
      "X===-ux==u=4/o=====o=====",
      "X==x=uu==4==/o=====o=====",
      "X==u==u=uu=-/o====-o==---",
      "X==u==x====-/o=======----",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      kick = "s--g--s--g-s"
    }
  }
}
