# Bass on 1, chords on 2 and 3; the two bars lean on each other.
groove "waltz" {
  about       = "bass on 1, chords on 2 and 3"
  meter       = "3/4"
  tempo       = [84, 144]
  grid        = 6
  bass_sound  = "acoustic"
  fills       = "ballad"
  syncopation = 1
  changes     = "in turn"

  lag {
    bass  = 2
    piano = 4
  }

  level "1" {
    hat_foot = "--s-s-"
    bass     = "1====="
    comp = [
      "x=====",
      "x===u=",
      "1=2===",
      "x==u==",
      "x====-",
    ]
    voices   = 2
    centre   = "A3"
  }

  # Alternate bars: root, fifth.
  level "2" {
    hat         = "s-----"
    cross_stick = "--s-s-"
    kick        = "x-----"
    bass        = "1=====|5====="
    comp = [
      "--u=3=",
      "--u=2=",
      "--x=3=",
      "--u===",
      "--u=3=/1====-",
      "--x===",
    ]
    voices      = 3
    centre      = "Bb3"
  }

  level "3" {
    hat    = "s-s-s-"
    snare  = "--s-s-"
    kick   = "x-----"
    bass   = "1=====|5===a="
    comp = [
      "--x=u-",
      "--x=3=/--1===",
      "--u=3=/1====-",
      "--x=u3/--1===",
      "--x=3=/1=====",
      "--x===/--1===",
    ]
    voices = 3
    centre = "C4"
    answer {
      kick = "x-----|x----s"
    }
  }

  level "4" {
    ride     = "x-xsx-"
    snare    = "--s-s-"
    kick     = "x-----|x----x"
    hat_foot = "--s-s-"
    bass     = "1===5=|1=3=a="
    comp = [
      "--x=u-/1====-",
      "--x=u3/--1===",
      "--x=u=/--1=--",
      "--x=u3/1====-",
      "--x=3=/1=====",
      "--x===/--1==-",
    ]
    voices   = 3
    centre   = "Db4"
    answer {
      kick = "x----x"
    }
  }

  level "5" {
    ride     = "X-xsx-"
    snare    = "--x-x-"
    kick     = "x----x"
    hat_foot = "s-x-x-"
    bass     = "1=5=5=|1=3=5a"
    comp = [
      "--X=u-/o====-",
      "--X=uu/o=====",
      "--X=u4/o===--",
      "--X=u=/o=====",
      "--X=uu/--o===",
      "--X==-/o====-",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      kick = "x----x|x---xx"
    }
  }
}
