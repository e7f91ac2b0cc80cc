# The bright two of the stage: root and fifth on the beats, the chord and a soft press
# on the snare between them, the foot closing the hat with it. Short notes, nothing
# hurried: the half note is the beat.
groove "show-two" {
  about       = "bright, in cut time: root and fifth on the beats, chord and snare between"
  meter       = "2/2"
  tempo       = [72, 132]
  grid        = 8
  fills       = "two"
  syncopation = 2
  changes     = "in turn"

  lag {
    snare    = -2
    hat_foot = -4
  }

  # Foot and bass in two; the chord is struck once and held.
  level "1" {
    hat_foot = "--s---s-"
    bass     = "1===5==="
    comp = [
      "x=======",
      "x===u===",
      "1===2===",
      "x=====u=",
      "x=====--",
    ]
    voices   = 2
    centre   = "A3"
  }

  # The vamp under the dialogue or the first verse: bass, chord, bass, chord.
  level "2" {
    cross_stick = "--s---s-"
    kick        = "s---s---"
    hat_foot    = "--s---s-"
    bass        = "1==-5==-"
    comp = [
      "--u---u-",
      "--x---u-",
      "--u---x=",
      "--u-----",
      "--u---u=",
      "--u=====",
    ]
    voices      = 3
    centre      = "Bb3"
  }

  # The snare takes the off-beats over, softly, with a ghost stroke that leads to the
  # second.
  level "3" {
    snare    = "--s--gs-"
    kick     = "x---x-s-"
    hat_foot = "--x---x-"
    bass     = "1==-5==-"
    comp = [
      "--x---u-",
      "--x--ux=",
      "--x---x=",
      "--x--xx-",
      "--x---u=",
      "--x=----",
    ]
    voices   = 3
    centre   = "C4"
    answer {
      bass = "1==-3==-"
    }
  }

  # The chorus: quarters on the ride, the snare still a soft press, the bass leads to each
  # next bar.
  level "4" {
    ride     = "x-s-x-s-"
    snare    = "--s--gs-"
    kick     = "x---x---"
    hat_foot = "--x---x-"
    bass     = "1==-5=a-"
    comp = [
      "--x---x-",
      "--x--ux-",
      "--u--ux-",
      "--x---x=",
      "--x---u-",
      "--x=----",
    ]
    voices   = 4
    centre   = "Db4"
    answer {
      snare = "--s---sg"
    }
  }

  # The kick line: both hands of the piano, low on the beats and whole between, the bass
  # in quarters.
  level "5" {
    ride     = "X-x-X-xs"
    snare    = "--x--gx-"
    kick     = "x---x-x-"
    hat_foot = "--x---x-"
    bass     = "1==-5=a-"
    comp = [
      "--X--ux-",
      "--X---xu",
      "--X=-ux=",
      "--X--uxu",
      "--X--ux=",
      "--X=----",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      snare = "--x---xg"
    }
  }
}
