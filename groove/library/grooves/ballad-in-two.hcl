# A slow song in two: the pulse is the half note, and the quarters move under a long
# line. Everything is held until the next stroke; what a quicker song strikes on its
# backbeat stands here on 2, once a bar.
groove "ballad-in-two" {
  about       = "a slow song in two: quarters moving under a long line, one backbeat a bar"
  meter       = "2/2"
  tempo       = [40, 72]
  grid        = 8
  fills       = "ballad"
  syncopation = 2

  lag {
    snare       = 6
    cross_stick = 6
    bass        = 4
    piano       = 6
  }

  # The foot marks 2; bass and piano say the chord in halves.
  level "1" {
    hat_foot = "----s---"
    bass     = "1======="
    comp = [
      "x=======",
      "1===2===",
      "x===u===",
      "1=2=====",
      "x=====--",
    ]
    voices   = 2
    centre   = "A3"
  }

  # The verse: the chord broken in quarters over one long note of the bass.
  level "2" {
    cross_stick = "----x---"
    hat         = "s-g-s-g-"
    kick        = "x-------"
    bass        = "1======="
    comp = [
      "x===3=2=/1===1===",
      "--2=3=2=/1======-",
      "x===3===/1======-",
      "--2=3===/1===1==-",
      "x===m=2=",
      "x======-/1=====--",
    ]
    voices      = 3
    centre      = "Bb3"
    answer {
      kick = "x-----s-"
    }
  }

  # The snare arrives, still small, and the bass goes in two.
  level "3" {
    hat    = "s-s-s-s-"
    snare  = "----s---"
    kick   = "x-----s-"
    bass   = "1===5==="
    comp = [
      "x===2=3=/1===1===",
      "--2=3=2=/1======-",
      "x=3=x===/1===1==-",
      "x===x=3=/1===1===",
      "x=2=3=2=/1=======",
      "x===x==-/1===1===",
    ]
    voices = 3
    centre = "C4"
    answer {
      kick = "x--s--s-"
    }
  }

  # The chorus: ride and backbeat, the two hands of the comp rocking in quarters.
  level "4" {
    ride     = "x-s-x-s-"
    snare    = "----x---"
    kick     = "x-----x-"
    hat_foot = "----s---"
    bass     = "1===5=a="
    comp = [
      "x=x=x=3=/1===1===",
      "x=3=x=x=/1=======",
      "x=x=x===/1===1==-",
      "x=3=2=x=/1===1===",
      "x===x=3=/1===1==-",
      "x===x==-/1===1===",
    ]
    voices   = 3
    centre   = "Db4"
  }

  # The last chorus: the bass walks in quarters with the kick, an eighth leans into 1.
  level "5" {
    ride     = "X-x-X-xs"
    snare    = "----X--g"
    kick     = "x-x---x-"
    hat_foot = "----x---"
    bass     = "1===5=a="
    comp = [
      "X=u=u=u=/o===o==-",
      "X=u=x=u=/o=====--",
      "X=u=u=uu/o===o=--",
      "X===uux=/o==-o==-",
      "X=uuu===/o===o==-",
      "X===x==-/o===o==-",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      snare = "----X-g-"
    }
  }
}
