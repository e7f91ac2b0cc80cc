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
    comp   = "x==========="
    voices = 2
    centre = "A3"
  }

  # The bass in two.
  level "2" {
    sweep    = "g~~s~~g~~s~~"
    hat_foot = "---s-----s--"
    bass     = "1=====5====="
    comp     = "x====u======|x=====1==2=="
    voices   = 3
    centre   = "Bb3"
    answer {
      comp = "x====u======|x==========="
    }
  }

  # The right brush taps the time, hardly louder than the sweep.
  level "3" {
    tap      = "s--g-gs--g-g"
    sweep    = "g~~s~~g~~s~~"
    hat_foot = "---s-----s--"
    bass     = "1=====5==3=a"
    comp     = "x====x===u=="
    voices   = 3
    centre   = "C4"
    answer {
      kick = "g-----g-----"
      comp = "x====x======"
    }
  }

  # The time goes to the cymbal, the bass walks, the kick is felt more than heard.
  level "4" {
    ride     = "s--x-gs--x-g"
    sweep    = "g~~s~~g~~s~~"
    kick     = "g--g--g--g--"
    hat_foot = "---x-----x--"
    bass     = "w==w==w==w=="
    comp     = "x====x===u==|--x======x=="
    voices   = 4
    centre   = "Db4"
    answer {
      comp = "x====x======|--x======x=="
    }
  }

  level "5" {
    ride     = "x--x-sx--x-s"
    sweep    = "g~~s~~g~~s~-"
    tap      = "-----------s"
    kick     = "s--g--s--g--"
    hat_foot = "---x-----x--"
    bass     = "w==w==w==w=w"
    comp     = "x====x==x==u"
    voices   = 4
    centre   = "D4"
    answer {
      kick = "s--g--s--g-s"
    }
  }
}
