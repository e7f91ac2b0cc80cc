# A parade heard from a side street: the snare rolls between straight and swung,
# its accents three and two.
groove "second-line" {
  about       = "a street parade held down: rolling snare, a little late in its sixteenths"
  meter       = "4/4"
  tempo       = [84, 108]
  grid        = 16
  fills       = "march"
  swing       = 1.3
  swing_unit  = "sixteenth"
  syncopation = 4
  changes     = "in turn"

  lag {
    snare    = 3
    hat_foot = -3
    bass     = 4
    piano    = 4
  }

  level "1" {
    hat_foot = "--s---s---s---s-"
    bass     = "1=====5===------"
    comp = [
      "x===------------",
      "x=======--------",
      "x===----u===----",
      "1===2===--------",
      "x===============",
    ]
    voices   = 2
    centre   = "A3"
  }

  level "2" {
    cross_stick = "s--s--s---s-s---"
    kick        = "x-------s-------"
    hat_foot    = "--s---s---s---s-"
    bass        = "1=====5=1======="
    comp = [
      "x=-x=-----u=----",
      "---x=-----u-----",
      "---x--u=--u-----",
      "x==x------x=----",
      "---x=-----u-u=--",
      "x==x====--------",
    ]
    voices      = 3
    centre      = "Bb3"
    answer {
      kick = "x-------s---s---"
    }
  }

  level "3" {
    snare    = "sg-sg-sgg-sgsg-g"
    kick     = "x--s----x---s---"
    hat_foot = "--s---s---s---s-"
    bass     = "1==1==5=1===5-a-"
    comp = [
      "x--x=-u---u=----",
      "---x--x=--u-----",
      "---x=-u---x-u=--",
      "x==x--u=--x-u---",
      "---x--u---u=--u-",
      "x--x--u===------",
    ]
    voices   = 3
    centre   = "C4"
  }

  level "4" {
    snare    = "xggxggxgggxgxggg"
    kick     = "x--x----x---x---"
    hat_foot = "--x---x---x---x-"
    bass     = "1==1==5=1=3=5-a-"
    comp = [
      "x--x--x-l-x-----",
      "---x--x---x-u---",
      "x==x--u---x-u---",
      "---x--x-u-x-u---",
      "---x--x---x-x-u-",
      "x--x--x===------",
    ]
    voices   = 4
    centre   = "Db4"
    answer {
      kick = "x--x--x-x---x---"
    }
  }

  level "5" {
    snare    = "XggxggxgggXgfggs"
    kick     = "x--x--x-x---x---"
    hat_foot = "--x---x---x---x-"
    bass     = "1==13=5=1=135-a-"
    comp = [
      "X--x--x---x-x---",
      "---x--x-u-x-x---",
      "X==x--x---x-x-u-",
      "---x--x-u-x-x-u-",
      "---x--x---x-x-u-",
      "X--x--x---x===--",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      kick = "x--x--x-x--xx---"
    }
  }
}
