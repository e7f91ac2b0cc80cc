# Written in triplets; how wide they really are follows the tempo. The ride is the
# time-keeper of this style and comes in at 3, softly; before it the foot and the
# bass are the time.
groove "swing" {
  about       = "ride and foot, a bass in two that comes to walk, few and short chords"
  meter       = "4/4"
  tempo       = [108, 184]
  grid        = 12
  bass_sound  = "acoustic"
  fills       = "swing"
  swing       = "tempo"
  syncopation = 4
  changes     = "ahead"

  lag {
    hat_foot = -5
    bass     = 3
    piano    = 7
  }

  # The foot, and a bass in two.
  level "1" {
    hat_foot = "---s-----s--"
    bass     = "1=====5====="
    comp = [
      "x===========",
      "x=====u=====",
      "1==2========",
      "x========u==",
      "x========---",
    ]
    voices   = 2
    centre   = "A3"
  }

  level "2" {
    cross_stick = "---------s--"
    kick        = "g-----g-----"
    hat_foot    = "---s-----s--"
    bass        = "1=====5==3=="
    comp = [
      "x==--u------",
      "x====u==s---",
      "-----u====--",
      "-----u==u=--",
      "x====u====--",
      "---s=u======",
    ]
    voices      = 3
    centre      = "Bb3"
  }

  # Walking. The comp plays twice a bar and not on the same places twice.
  level "3" {
    ride     = "s--s-gs--s-g"
    kick     = "g--g--g--g--"
    hat_foot = "---x-----x--"
    bass     = "w==w==w==w=="
    comp = [
      "x==--x------",
      "x====x===s--",
      "x===-x=----u",
      "-----x=====u",
      "x====x===---",
      "x====x==s---",
      "---s=x=====-",
    ]
    voices   = 3
    centre   = "C4"
    answer {
      snare = "------------|-----------g"
    }
  }

  # The left hand answers the comp.
  level "4" {
    ride     = "x--x-xx--x-x"
    kick     = "s--g--s--g--"
    hat_foot = "---x-----x--"
    bass     = "w==w==w==w=="
    comp = [
      "x==--x==u---",
      "--x=-x=-u---",
      "x=---x====-x",
      "--x==x==u---",
      "x===-x==u=-x",
      "--x==x======",
    ]
    voices   = 3
    centre   = "Db4"
    answer {
      snare = "--------g---|-----------g"
    }
  }

  level "5" {
    ride     = "x--X-sx--X-s"
    snare    = "--g-g---s---|--s-----g-g-"
    kick     = "s--g--g--g-s"
    hat_foot = "---x-----x--"
    bass     = "w==w==w==w=w"
    comp = [
      "X==--x==x---",
      "--x=-X=-u--x",
      "x====X==x==u",
      "X===-x==u=--",
      "--X==x--x---",
      "--x==X======",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      snare = "--g-g-----g-|--g--s--g---"
    }
  }
}
