# In step. The hands roll around the hat, so that two are enough.
groove "march" {
  about       = "in step: bass on the beats, chords between, the snare rolling"
  meter       = "2/4"
  tempo       = [92, 126]
  grid        = 8
  fills       = "march"
  syncopation = 1
  changes     = "in turn"

  lag {
    snare = -2
    bass  = -1
  }

  level "1" {
    kick   = "s-------"
    bass   = "1======="
    comp = [
      "x=======",
      "x===u===",
      "1=2=====",
      "x=====u=",
      "x=====--",
    ]
    voices = 2
    centre = "A3"
  }

  level "2" {
    hat    = "--s---s-"
    kick   = "s---s---"
    bass   = "1===5==="
    comp = [
      "--u---u-",
      "--u---x=",
      "--s-----",
      "--u=--3=",
      "--u-3-x-",
      "--u===--",
    ]
    voices = 3
    centre = "Bb3"
  }

  level "3" {
    hat    = "--s---s-"
    snare  = "sg-ss--g"
    kick   = "x---x---"
    bass   = "1=--5-a-"
    comp = [
      "--u---u-",
      "--u=--u3",
      "--u---x-/--1==---",
      "--s=--u-",
      "--x-3-u-",
      "--u==---",
    ]
    voices = 3
    centre = "C4"
    answer {
      snare = "sg-ss---"
    }
  }

  level "4" {
    hat_foot = "--x---x-"
    snare    = "xggsxggs"
    kick     = "x---x---"
    bass     = "1=5-1-a-"
    comp = [
      "--x---x-/1===----",
      "--x---xu",
      "--x=--s-/1=======",
      "--x-3-x-",
      "--u---x=/1====---",
      "--x==---/1===----",
    ]
    voices   = 3
    centre   = "Db4"
    answer {
      kick = "x---x---|x---x-s-"
    }
  }

  level "5" {
    ride     = "x---x---"
    hat_foot = "--x---x-"
    snare    = "XggsXgsg"
    kick     = "x---x---|x---x-x-"
    bass     = "1=5-11a-|1-3-55a-"
    comp = [
      "--X---x-/o=======",
      "--x---Xu/o=====--",
      "--x-u-X-/o===----",
      "--X=--x-/o===1===",
      "--x-u-X=",
      "--X==---/o=======",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      snare = "XggsXgsg|XggsXgds"
    }
  }
}
