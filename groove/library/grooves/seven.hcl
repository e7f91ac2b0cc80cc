# 2 + 2 + 3: a bar of four that loses its last half beat, so that the second
# backbeat pushes into the next bar.
groove "seven" {
  about       = "two, two and three: a bar of four with its last half beat cut off"
  meter       = "7/8"
  tempo       = [96, 168]
  grid        = 14
  fills       = "straight"
  syncopation = 2

  lag {
    snare = 2
    bass  = 2
    piano = 3
  }

  level "1" {
    hat_foot = "----s-------s-"
    bass     = "1============="
    comp     = "x============="
    voices   = 2
    centre   = "A3"
  }

  level "2" {
    hat         = "s-g-s-g-s-g-g-"
    cross_stick = "----x-------x-"
    kick        = "x-------s-----"
    bass        = "1=======1====="
    comp        = "x=======u====="
    voices      = 3
    centre      = "Bb3"
    answer {
      comp = "x============="
    }
  }

  level "3" {
    hat    = "s-s-s-s-s-s-s-"
    snare  = "----s-------s-"
    kick   = "x-------x-s---"
    bass   = "1=====1=1===a="
    comp   = "x=====u=x====="
    voices = 3
    centre = "C4"
    answer {
      kick = "x-----s-x-s---"
      comp = "x=====u======="
    }
  }

  level "4" {
    ride     = "x-s-x-s-x-s-s-"
    snare    = "----x-------x-"
    kick     = "x-----x-x-x---"
    hat_foot = "----s-------s-"
    bass     = "1===1=1=1=1=a="
    comp     = "x===x=--x===u="
    voices   = 4
    centre   = "Db4"
    answer {
      comp = "x===x=--x====="
    }
  }

  level "5" {
    ride     = "X-x-X-x-X-x-x-"
    snare    = "----X--g----X-"
    kick     = "x-----x-x-x---"
    hat_foot = "----x-------x-"
    bass     = "1=1=1=1=1=5=a="
    comp     = "X===x=x=x===x="
    voices   = 4
    centre   = "D4"
    answer {
      snare = "----X--g-g--X-"
    }
  }
}
