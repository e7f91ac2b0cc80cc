# Fills for slow songs, waltzes and songs in two: a few eighths and at most one pair of
# sixteenths before the bar line, so that the singer's pickup has room. Gentle ones for
# energies 1 to 3, full ones for 4 and 5, and even those arrive no louder than the chorus
# that they lead to; of one beat at 4, which lead down from 5, small ones.
fills "ballad" {
  grid = 4

  # One beat, energies 1 to 2
  fill "the hat opens" {
    colour   = 0
    energy   = [1, 2]
    hat_open = "--s-"
  }
  fill "hat and kick" {
    colour = 1
    energy = [1, 2]
    hat    = "--s-"
    kick   = "--s-"
  }
  fill "the hat opens late" {
    colour   = 2
    energy   = [1, 2]
    hat      = "--s-"
    hat_open = "---s"
  }

  # One beat, energy 3
  fill "the hat opens at three" {
    colour   = 0
    energy   = [3, 3]
    hat_open = "--s-"
  }
  fill "hat and kick at three" {
    colour = 1
    energy = [3, 3]
    hat    = "--s-"
    kick   = "--s-"
  }
  fill "the hat opens late at three" {
    colour   = 2
    energy   = [3, 3]
    hat      = "--s-"
    hat_open = "---s"
  }

  # One beat, energy 4
  fill "snare to middle" {
    colour  = 0
    energy  = [4, 4]
    snare   = "s---"
    tom_mid = "--s-"
  }
  fill "middle and floor late" {
    colour  = 1
    energy  = [4, 4]
    tom_mid = "--s-"
    tom_low = "---s"
  }
  fill "two on the floor" {
    colour  = 2
    energy  = [4, 4]
    tom_low = "s-s-"
  }

  # One beat, energy 5
  fill "eighth and pair" {
    colour = 0
    energy = [5, 5]
    snare  = "s-xx"
  }
  fill "kick and pair" {
    colour = 1
    energy = [5, 5]
    snare  = "--xx"
    kick   = "x---"
  }
  fill "two eighths" {
    colour = 2
    energy = [5, 5]
    snare  = "s-x-"
  }

  # Two beats, energies 1 to 2
  fill "a step and two eighths in two" {
    colour = 0
    energy = [1, 2]
    snare  = "----s-s-"
  }
  fill "a step and a pair in two" {
    colour = 1
    energy = [1, 2]
    snare  = "------ss"
  }
  fill "rim in two" {
    colour      = 2
    energy      = [1, 2]
    cross_stick = "----s-x-"
  }

  # Two beats, energy 3
  fill "a step and two below in two" {
    colour  = 0
    energy  = [3, 3]
    tom_mid = "----s-s-"
  }
  fill "steps and a pair below in two" {
    colour  = 1
    energy  = [3, 3]
    snare   = "----s---"
    tom_mid = "------s-"
    tom_low = "-------s"
  }
  fill "wait then two in two" {
    colour = 2
    energy = [3, 3]
    snare  = "----s-s-"
  }

  # Two beats, energies 4 to 5
  fill "a step eighth and pair in two" {
    colour = 0
    energy = [4, 5]
    snare  = "----s-xx"
  }
  fill "a step kick and pair in two" {
    colour = 1
    energy = [4, 5]
    snare  = "------xx"
    kick   = "----x---"
  }
  fill "snare high floor in two" {
    colour = 2
    energy = [4, 5]
    snare  = "----x-x-"
  }

  # Four beats, energies 1 to 3
  fill "a bar that gathers in four" {
    colour = 0
    energy = [1, 3]
    snare  = "--------s---s-s-"
    kick   = "--------s-------"
  }
  fill "steps and a pair in four" {
    colour = 1
    energy = [1, 3]
    snare  = "--------s---s-ss"
    kick   = "--------s-------"
  }
  fill "rim figure in four" {
    colour      = 2
    energy      = [1, 3]
    cross_stick = "--------s---s-x-"
  }

  # Four beats, energy 4
  fill "steps then toms in four" {
    colour   = 0
    energy   = [4, 4]
    tom_high = "--------s---x---"
    tom_mid  = "----------s-----"
    tom_low  = "--------------x-"
    kick     = "--------x-------"
  }
  fill "three steps and a pair in four" {
    colour = 1
    energy = [4, 4]
    snare  = "--------s---s-xx"
    kick   = "--------x-------"
  }
  fill "hold back then three in four" {
    colour = 2
    energy = [4, 4]
    snare  = "----------s-s-x-"
    kick   = "--------x-------"
  }

  # Four beats, energy 5
  fill "gathering to a pair in four" {
    colour = 0
    energy = [5, 5]
    snare  = "--------s-s-s-xx"
    kick   = "--------x-------"
  }
  fill "beats with the kick between in four" {
    colour = 1
    energy = [5, 5]
    snare  = "--------s---x-xx"
    kick   = "----------x-----"
  }
  fill "snare then high and floor in four" {
    colour   = 2
    energy   = [5, 5]
    tom_high = "--------x---x---"
    tom_low  = "----------x---x-"
    kick     = "--------x-------"
  }

  # One beat, asked for by the song, energies 1 to 3
  fill "snare to floor" {
    colour  = 3
    energy  = [1, 3]
    snare   = "s---"
    tom_low = "--s-"
  }
  fill "middle to floor" {
    colour  = 4
    energy  = [1, 3]
    tom_mid = "s---"
    tom_low = "--g-"
  }
  fill "step and a pair" {
    colour  = 5
    energy  = [1, 3]
    snare   = "s---"
    tom_mid = "--ss"
  }

  # One beat, asked for by the song, energies 4 to 5
  fill "high to floor" {
    colour   = 3
    energy   = [4, 5]
    tom_high = "x---"
    tom_low  = "--X-"
  }
  fill "step and a pair below" {
    colour  = 4
    energy  = [4, 5]
    snare   = "x---"
    tom_low = "--xX"
  }
  fill "middle and a pair" {
    colour  = 5
    energy  = [4, 5]
    tom_mid = "s---"
    tom_low = "--xX"
  }

  # Two beats, asked for by the song, energies 1 to 3
  fill "step and two down in two" {
    colour  = 3
    energy  = [1, 3]
    snare   = "s-------"
    tom_mid = "----s---"
    tom_low = "------s-"
  }
  fill "two and one left open in two" {
    colour   = 4
    energy   = [1, 3]
    snare    = "s-------"
    tom_high = "--s-----"
    tom_mid  = "------s-"
  }
  fill "step and pair in two" {
    colour  = 5
    energy  = [1, 3]
    snare   = "s---s---"
    tom_mid = "------ss"
  }

  # Two beats, asked for by the song, energies 4 to 5
  fill "eighths down in two" {
    colour   = 3
    energy   = [4, 5]
    snare    = "x-------"
    tom_high = "--x-----"
    tom_mid  = "----x---"
    tom_low  = "------X-"
  }
  fill "high and a pair below in two" {
    colour   = 4
    energy   = [4, 5]
    tom_high = "x-------"
    tom_mid  = "----x---"
    tom_low  = "------xX"
  }
  fill "eighths to a pair in two" {
    colour  = 5
    energy  = [4, 5]
    snare   = "x-x-x---"
    tom_low = "------xX"
  }

  # Three beats, asked for by the song, energies 1 to 3
  fill "steps down in the bar in three" {
    colour   = 3
    energy   = [1, 3]
    snare    = "s-----------"
    tom_high = "----s-------"
    tom_mid  = "--------s---"
    tom_low  = "----------s-"
  }
  fill "long then two in three" {
    colour   = 4
    energy   = [1, 3]
    snare    = "s-----------"
    tom_high = "------s-----"
    tom_mid  = "--------s---"
  }
  fill "steps to a pair in three" {
    colour  = 5
    energy  = [1, 3]
    snare   = "s---s-s-----"
    tom_mid = "--------s---"
    tom_low = "----------ss"
  }

  # Three beats, asked for by the song, energies 4 to 5
  fill "eighths down the bar in three" {
    colour   = 3
    energy   = [4, 5]
    snare    = "x-x---------"
    tom_high = "----x-------"
    tom_mid  = "------x-----"
    tom_low  = "--------x-X-"
  }
  fill "step then down to a pair in three" {
    colour   = 4
    energy   = [4, 5]
    snare    = "x-----------"
    tom_high = "----x-x-----"
    tom_mid  = "--------x---"
    tom_low  = "----------xX"
  }
  fill "three then a pair in three" {
    colour   = 5
    energy   = [4, 5]
    snare    = "x-------x---"
    tom_high = "--x---------"
    tom_mid  = "----x-------"
    tom_low  = "----------xX"
  }

  # Four beats, asked for by the song, energies 1 to 3
  fill "steps down in the bar in four" {
    colour  = 3
    energy  = [1, 3]
    snare   = "s---s-----------"
    tom_mid = "--------s-------"
    tom_low = "------------s-s-"
  }
  fill "long short twice in four" {
    colour   = 4
    energy   = [1, 3]
    snare    = "s---------------"
    tom_high = "------s---------"
    tom_mid  = "--------s---s---"
    tom_low  = "--------------s-"
  }
  fill "steps to a pair in four" {
    colour   = 5
    energy   = [1, 3]
    snare    = "s---s-----------"
    tom_high = "------s---------"
    tom_mid  = "--------s---s---"
    tom_low  = "--------------ss"
  }

  # Four beats, asked for by the song, energies 4 to 5
  fill "steps and eighths down in four" {
    colour   = 3
    energy   = [4, 5]
    snare    = "x---------------"
    tom_high = "----x-x---------"
    tom_mid  = "--------x-------"
    tom_low  = "------------x-X-"
  }
  fill "three and three in four" {
    colour   = 4
    energy   = [4, 5]
    snare    = "x---------------"
    tom_high = "--x---x---------"
    tom_mid  = "--------x-x-----"
    tom_low  = "--------------xX"
  }
  fill "eighths to a pair in four" {
    colour   = 5
    energy   = [4, 5]
    snare    = "x-----------x---"
    tom_high = "----x-x---------"
    tom_mid  = "--------x-x-----"
    tom_low  = "--------------xX"
  }
}
