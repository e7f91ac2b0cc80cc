# Short notes in sixteenths. Nobody plays on top of anybody: the bass rests where
# the comp strikes, and the hat leaves the backbeats to the hand on the snare, as
# hands that take turns must.
groove "tight-sixteenths" {
  about       = "short notes in sixteenths, everybody in a gap the others leave"
  meter       = "4/4"
  tempo       = [60, 112]
  grid        = 16
  fills       = "straight"
  syncopation = 4

  lag {
    snare = 3
    bass  = 2
    piano = 2
  }

  level "1" {
    hat_foot = "----s-------s---"
    bass     = "1=========------"
    comp = [
      "x=----------u---",
      "x===----u-------",
      "x---------------",
      "x=------u=------",
      "x===========----",
    ]
    voices   = 2
    centre   = "A3"
  }

  level "2" {
    hat         = "s-g-s-g-s-g-s-g-"
    cross_stick = "----x-------x---"
    kick        = "x-----s---s-----"
    bass        = "1==---1---1=----"
    comp = [
      "x-----u---------",
      "x-----u------u--",
      "x==---x---------",
      "x-----u--u------",
      "x--u--x---------",
      "x==-------------",
    ]
    voices      = 3
    centre      = "Bb3"
    answer {
      kick = "x-----s---sg----"
    }
  }

  level "3" {
    hat    = "sgsg-gsgsgsg-gsg"
    snare  = "----s-------s---"
    kick   = "x-----x---x-----"
    bass   = "1==--11---1=--a-"
    comp = [
      "x--x------x-----",
      "x--x------x--u--",
      "x--x--u---x-----",
      "x==u------x-----",
      "x--u---u--x-----",
      "x--x------------",
    ]
    voices = 3
    centre = "C4"
    answer {
      kick = "x-----x---x---s-"
    }
  }

  # Every other bar the hat opens just before 1, and fills what the others leave.
  level "4" {
    hat      = "xsss-sssxsss-ss-|xsss-sssxsss-s--"
    hat_open = "----------------|--------------x-"
    snare    = "----x-------x---"
    kick     = "x-----x---x--x--"
    bass     = "1=-1--1=--1=-15a"
    comp = [
      "x--x--x---x-----",
      "x--x--x---x--u--",
      "x--x--u-l-x-----",
      "x==x--x---x---u-",
      "x--u--x-u-x-----",
      "x--x------x-----",
    ]
    voices   = 4
    centre   = "Db4"
    answer {
      kick = "x--s--x---x--x--"
    }
  }

  level "5" {
    hat      = "Xsxs-s-sX-xs-s-s"
    hat_open = "------x-------x-"
    snare    = "----X-------X---"
    kick     = "x--x--x---xx-x--"
    bass     = "1=-1-11=-11-51a-"
    comp = [
      "X--x--x---x--x--",
      "x--x--x-l-x--x--",
      "X--x--ul--x--x--",
      "x==x--x---u--x--",
      "x--x--x---xl-u--",
      "X--x--x---x-----",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      snare = "----X--g-g--X---|----X--g----X---"
    }
  }
}
