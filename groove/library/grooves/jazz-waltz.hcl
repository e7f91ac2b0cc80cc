# Three that swings, written in triplets. The ride keeps time from 3 on, as in
# swing; the foot has 2.
groove "jazz-waltz" {
  about       = "three that swings: the foot on 2, a bass that comes to walk"
  meter       = "3/4"
  tempo       = [100, 172]
  grid        = 9
  bass_sound  = "acoustic"
  fills       = "swing"
  swing       = "tempo"
  syncopation = 2
  changes     = "ahead"

  lag {
    hat_foot = -5
    bass     = 3
    piano    = 7
  }

  level "1" {
    hat_foot = "---s-----"
    bass     = "1========"
    comp = [
      "x========",
      "x=====u==",
      "1==2=====",
      "x=======u",
      "x=====---",
    ]
    voices   = 2
    centre   = "A3"
  }

  level "2" {
    cross_stick = "------s--|---------"
    kick        = "g--------"
    hat_foot    = "---s-----"
    bass        = "1=====5=="
    comp = [
      "x==--u---",
      "x=---u==-",
      "--u=-x=--",
      "--s==u===",
      "---s=u===",
    ]
    voices      = 3
    centre      = "Bb3"
  }

  level "3" {
    ride     = "s--s-gs--"
    kick     = "s--------"
    hat_foot = "---x-----"
    bass     = "w==w==w=="
    comp = [
      "x==--x---",
      "x=---x==-",
      "--x==x=--",
      "x=---x=-u",
      "--s=-x===",
      "---s=x===",
    ]
    voices   = 3
    centre   = "C4"
    answer {
      snare = "---------|--------g"
    }
  }

  level "4" {
    ride     = "x--x-sx--"
    snare    = "-----g---|--------g"
    kick     = "s--------"
    hat_foot = "---x--s--"
    bass     = "w==w==w=="
    comp = [
      "x==--x=-s",
      "--x==x==u",
      "x====x==u",
      "x==-sx--u",
      "--x=-x===",
      "---x=x===",
    ]
    voices   = 3
    centre   = "Db4"
  }

  level "5" {
    ride     = "x--X-sx-s"
    snare    = "-----s---|--g-----g"
    kick     = "x----g---"
    hat_foot = "---x--x--"
    bass     = "w==w==w=w"
    comp = [
      "X==--x==u",
      "--x=-X=-u",
      "X====x==u",
      "x=-u=X--u",
      "--X==x==u",
      "---X=X===",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      snare = "-----s---|--g--g--g"
    }
  }
}
