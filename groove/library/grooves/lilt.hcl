# Long, short, long, short. The comp sways against the bass: 1 and 4 belong to the
# bass, 3 and 6 to the chord.
groove "lilt" {
  about       = "a quick six that sways: long, short, long, short"
  meter       = "6/8"
  tempo       = [60, 108]
  grid        = 6
  fills       = "triplet"
  syncopation = 1

  lag {
    bass  = 2
    piano = 3
  }

  level "1" {
    hat_foot = "---s--"
    bass     = "1====="
    comp     = "x====="
    voices   = 2
    centre   = "A3"
  }

  level "2" {
    hat         = "s-gs-g"
    cross_stick = "---s--"
    kick        = "s-----"
    bass        = "1==5=="
    comp        = "x=----|x=-u--"
    voices      = 3
    centre      = "Bb3"
    answer {
      comp = "x====="
    }
  }

  level "3" {
    hat    = "s-ss-s"
    snare  = "---s--"
    kick   = "x----g"
    bass   = "1==5=a"
    comp   = "--u--u"
    voices = 3
    centre = "C4"
    answer {
      kick = "x--g-g"
      comp = "--u---"
    }
  }

  level "4" {
    ride     = "x-sx-s"
    snare    = "---x--"
    kick     = "x----x"
    hat_foot = "---s--"
    bass     = "1=15=a"
    comp     = "x-u--u"
    voices   = 4
    centre   = "Db4"
    answer {
      kick = "x--x-x"
      comp = "--u--u"
    }
  }

  level "5" {
    ride     = "XsxXsx"
    snare    = "---X-g"
    kick     = "x--x-x"
    hat_foot = "---x--"
    bass     = "1=155a"
    comp     = "x-ux-u"
    voices   = 4
    centre   = "D4"
    answer {
      comp  = "x-u--u"
      snare = "---Xgg"
    }
  }
}
