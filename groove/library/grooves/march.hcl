# In step. The hands roll around the hat, so that two are enough.
groove "march" {
  about       = "in step: bass on the beats, chords between, the snare rolling"
  meter       = "2/4"
  tempo       = [92, 126]
  grid        = 8
  fills       = "march"
  syncopation = 1

  lag {
    snare = -2
    bass  = -1
  }

  level "1" {
    kick   = "s-------"
    bass   = "1======="
    comp   = "x======="
    voices = 2
    centre = "A3"
  }

  level "2" {
    hat    = "--s---s-"
    kick   = "s---s---"
    bass   = "1===5==="
    comp   = "--u-----|--u---u-"
    voices = 3
    centre = "Bb3"
    answer {
      comp = "--u-----"
    }
  }

  level "3" {
    hat    = "--s---s-"
    snare  = "sg-ss--g"
    kick   = "x---x---"
    bass   = "1=--5-a-"
    comp   = "--u---u-"
    voices = 3
    centre = "C4"
    answer {
      snare = "sg-ss---"
      comp  = "--u-----|--u---u-"
    }
  }

  level "4" {
    hat_foot = "--x---x-"
    snare    = "xggsxggs"
    kick     = "x---x---"
    bass     = "1=5-1-a-"
    comp     = "--x---x-|--x---xu"
    voices   = 4
    centre   = "Db4"
    answer {
      comp = "--x---x-"
      kick = "x---x---|x---x-s-"
    }
  }

  level "5" {
    ride     = "x---x---"
    hat_foot = "--x---x-"
    snare    = "XggsXgsg"
    kick     = "x---x---|x---x-x-"
    bass     = "1=5-1=a-|1-3-5-a-"
    comp     = "l-x---x-"
    voices   = 4
    centre   = "D4"
    answer {
      snare = "XggsXgsg|XggsXgds"
    }
  }
}
