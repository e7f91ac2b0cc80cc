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
      "--u--u",
      "--u=-3",
      "--u==u",
      "--s---",
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
      "--u--u",
      "--u=-u/--1===",
      "--s-3u/--1===",
      "--x==u/1==---",
      "--u--3/1====-",
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
      "--x--x/1===--",
      "--x=-s/1=====",
      "--x-3x/1==1=-",
      "--u==x/1====-",
      "3-x--s",
      "--x---/1=====",
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
      "--X--x/o==1==",
      "--x-uX/o====-",
      "--X=-u/o=-1==",
      "u-x--X",
      "--x-xu/o===--",
      "--X---/o=====",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      snare = "---Xgg"
    }
  }
}
