# Bass on 1, chords on 2 and 3; the two bars lean on each other.
groove "waltz" {
  about       = "bass on 1, chords on 2 and 3"
  meter       = "3/4"
  tempo       = [84, 144]
  grid        = 6
  bass_sound  = "acoustic"
  fills       = "ballad"
  syncopation = 1

  lag {
    bass  = 2
    piano = 4
  }

  level "1" {
    hat_foot = "--s-s-"
    bass     = "1====="
    comp     = "x====="
    voices   = 2
    centre   = "A3"
  }

  # Alternate bars: root, fifth.
  level "2" {
    hat         = "--s-g-"
    cross_stick = "----s-"
    kick        = "x-----"
    bass        = "1=====|5====="
    comp        = "--u=u-"
    voices      = 3
    centre      = "Bb3"
    answer {
      comp = "--u===|--u=u-"
    }
  }

  level "3" {
    hat    = "s-s-s-"
    snare  = "--s-s-"
    kick   = "x-----"
    bass   = "1=====|5===a="
    comp   = "l=u=u="
    voices = 3
    centre = "C4"
    answer {
      kick = "x-----|x----s"
      comp = "l=u=u=|l=u==="
    }
  }

  level "4" {
    ride     = "x-xsx-"
    snare    = "--x-s-"
    kick     = "x-----|x----x"
    hat_foot = "--s-s-"
    bass     = "1===5=|1=3=a="
    comp     = "x=u=u="
    voices   = 4
    centre   = "Db4"
    answer {
      kick = "x----x"
      comp = "x=u=u=|x====="
    }
  }

  level "5" {
    ride     = "X-xsx-"
    snare    = "--X-sg"
    kick     = "x----x"
    hat_foot = "--x-x-"
    bass     = "1=5=5=|1=3=5a"
    comp     = "X=u=u=|x=uxu="
    voices   = 4
    centre   = "D4"
    answer {
      kick = "x----x|x---xx"
      comp = "X=u=u="
    }
  }
}
