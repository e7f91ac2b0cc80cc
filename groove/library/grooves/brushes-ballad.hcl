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
      "x====3===2==/1=====1=====",
      "x=====3==2==/1=====1=====",
      "x==--3======/1=====1=====",
      "x=====m==2==",
      "---2=3===2--/1=====1=====",
      "x=====s-----/1===========",
    ]
    voices   = 3
    centre   = "Bb3"
  }

  # The right brush taps the time, hardly louder than the sweep.
  level "3" {
    tap      = "---s-----s-g|---s-g---s--"
    sweep    = "g~~s~~g~~s~~"
    hat_foot = "---s-----s--"
    bass     = "1=====5==3=a"
    comp = [
      "x==3==x==3==/1=====1=====",
      "x====3x---2=/1===========",
      "---3=2x==3==/1=====1=====",
      "s==3==x==2==/1========1==",
      "x==--3s==3==/1=====1=====",
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
    bass     = "w==w==w==w=="
    comp = [
      "x====3x==x-3/1=====1====-",
      "s==x==x==3==/1====-1=====",
      "--3==3x==s==/1=====1=====",
      "x==s-3x==3-2/1===========",
      "x==3==s==x==/1=====1====1",
      "x==s--x=====/1===========",
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
    bass     = "w==w==w==w=w"
    comp = [
      "X==u-4x==u-u/o=====o-----",
      "x=-u--X==u=4/o=====o=====",
      "X==u-ux==4==/o====-o----1",
      "x==4-uX==u=u/o=====o=----",
      "X====4x==s--/o=====1=====",
      "X==u--x==u==/o=====------",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      kick = "s--g--s--g-s"
    }
  }
}
