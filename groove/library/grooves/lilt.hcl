# Long, short, long, short. The comp sways against the bass: 1 and 4 belong to the
# bass, 3 and 6 to the chord.
groove "lilt" {
  about       = "a quick six that sways: long, short, long, short"
  meter       = "6/8"
  tempo       = [60, 108]
  grid        = 6
  fills       = "triplet"
  syncopation = 1
  changes     = "in turn"

  lag {
    bass  = 2
    piano = 3
  }

  level "1" {
    hat_foot = "---s--"
    bass     = "1====="
    comp = [
      "x=====",
      "x==u==",
      "1=2===",
      "x====u",
      "x====-",
    ]
    voices   = 2
    centre   = "A3"
  }

  level "2" {
    hat         = "s-gs-g"
    cross_stick = "---s--"
    kick        = "s-----"
    bass        = "1==5=="
    comp = [
      "--u==3",
      "--u==2/1=====",
      "--x==u",
      "--x==3",
      "--u===",
      "--x===",
    ]
    voices      = 3
    centre      = "Bb3"
  }

  level "3" {
    hat    = "s-ss-s"
    snare  = "---s--"
    kick   = "x----g"
    bass   = "1==5=a"
    comp = [
      "--x==u",
      "--u==3/--1===",
      "--x==3/1=====",
      "--x==u/1==---",
      "--x=3u/--1===",
      "--x===/1=====",
    ]
    voices = 3
    centre = "C4"
    answer {
      kick = "x--g-g"
    }
  }

  level "4" {
    ride     = "x-sx-s"
    snare    = "---x--"
    kick     = "x----x"
    hat_foot = "---s--"
    bass     = "1==5=a|1=15=a"
    comp = [
      "--x==u/1====-",
      "--x==3/1=====",
      "--x=3u/1====-",
      "--x==u/--1===",
      "--x=-u/1==1=-",
      "--x===/1=====",
    ]
    voices   = 3
    centre   = "Db4"
    answer {
      kick = "x--x-x"
    }
  }

  level "5" {
    ride     = "XsxXsx"
    snare    = "---X-g"
    kick     = "x--x-x"
    hat_foot = "---x--"
    bass     = "1=15=a"
    comp = [
      "--X==u/o=====",
      "--X=uu/o===--",
      "--X==u/o==1==",
      "--X=ux/o====-",
      "u-X==u/--o===",
      "--X===/o=====",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      snare = "---Xgg"
    }
  }
}
