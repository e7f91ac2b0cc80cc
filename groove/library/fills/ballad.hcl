# Fills for slow songs, waltzes and songs in two: a few eighths and at most one pair of
# sixteenths before the bar line, so that the singer's pickup has room. Gentle ones for
# energies 1 to 3, full ones for 4 and 5, and even those arrive no louder than the chorus
# that they lead to; of one beat at 4, which lead down from 5, small ones.
fills "ballad" {
  grid = 4

  # One beat, energies 1 to 2
  fill "two soft eighths" {
    colour = 0
    energy = [1, 2]
    snare  = "g-s-"
  }
  fill "a late pair" {
    colour = 1
    energy = [1, 2]
    snare  = "--gs"
  }
  fill "rim and rim" {
    colour      = 2
    energy      = [1, 2]
    cross_stick = "s-x-"
  }

  # One beat, energies 1 to 3, inside a section
  fill "one off the beat" {
    colour = 3
    energy = [1, 3]
    snare  = "--s-"
  }
  fill "snare to floor" {
    colour  = 4
    energy  = [1, 3]
    snare   = "g---"
    tom_low = "--s-"
  }
  fill "middle to floor" {
    colour  = 5
    energy  = [1, 3]
    tom_mid = "g---"
    tom_low = "--s-"
  }

  # One beat, energy 3
  fill "high to middle" {
    colour   = 0
    energy   = [3, 3]
    tom_high = "g---"
    tom_mid  = "--s-"
  }
  fill "one on the floor" {
    colour  = 1
    energy  = [3, 3]
    tom_low = "--s-"
  }
  fill "a step and a late one" {
    colour = 2
    energy = [3, 3]
    snare  = "g--s"
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

  # One beat, energies 4 to 5, inside a section
  fill "snare pair below" {
    colour  = 3
    energy  = [4, 5]
    snare   = "s---"
    tom_low = "--xx"
  }
  fill "high to floor" {
    colour   = 4
    energy   = [4, 5]
    tom_high = "x---"
    tom_low  = "--x-"
  }
  fill "snare middle floor" {
    colour  = 5
    energy  = [4, 5]
    snare   = "s---"
    tom_mid = "--s-"
    tom_low = "---x"
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
    snare  = "g---g-s-"
  }
  fill "a step and a pair in two" {
    colour = 1
    energy = [1, 2]
    snare  = "g-----ss"
  }
  fill "rim in two" {
    colour      = 2
    energy      = [1, 2]
    cross_stick = "s---s-x-"
  }

  # Two beats, energies 1 to 3, inside a section
  fill "off and off in two" {
    colour = 3
    energy = [1, 3]
    snare  = "--g---s-"
  }
  fill "steps and floor in two" {
    colour  = 4
    energy  = [1, 3]
    snare   = "g---g---"
    tom_low = "------s-"
  }
  fill "high middle floor in two" {
    colour   = 5
    energy   = [1, 3]
    tom_high = "g-------"
    tom_mid  = "----g---"
    tom_low  = "------s-"
  }

  # Two beats, energy 3
  fill "a step and two below in two" {
    colour  = 0
    energy  = [3, 3]
    snare   = "g-------"
    tom_mid = "----g-s-"
  }
  fill "steps and a pair below in two" {
    colour  = 1
    energy  = [3, 3]
    snare   = "g---s---"
    tom_mid = "------g-"
    tom_low = "-------s"
  }
  fill "wait then two in two" {
    colour = 2
    energy = [3, 3]
    snare  = "----g-s-"
  }

  # Two beats, energies 4 to 5
  fill "a step eighth and pair in two" {
    colour = 0
    energy = [4, 5]
    snare  = "s---s-xx"
  }
  fill "a step kick and pair in two" {
    colour = 1
    energy = [4, 5]
    snare  = "s-----xx"
    kick   = "x---x---"
  }
  fill "snare high floor in two" {
    colour   = 2
    energy   = [4, 5]
    snare    = "s-------"
    tom_high = "----x---"
    tom_low  = "------x-"
  }
  fill "eighths down in two" {
    colour  = 3
    energy  = [4, 5]
    snare   = "s-s-----"
    tom_mid = "----x---"
    tom_low = "------xx"
  }
  fill "snare and floor in two" {
    colour  = 4
    energy  = [4, 5]
    snare   = "s---x---"
    tom_low = "------x-"
  }
  fill "three toms in two" {
    colour   = 5
    energy   = [4, 5]
    tom_high = "s-s-----"
    tom_mid  = "----x---"
    tom_low  = "------x-"
  }

  # Four beats, energies 1 to 3
  fill "a bar that gathers in four" {
    colour = 0
    energy = [1, 3]
    snare  = "g-------g---g-s-"
    kick   = "x-------s-------"
  }
  fill "steps and a pair in four" {
    colour = 1
    energy = [1, 3]
    snare  = "g---g---g-----ss"
    kick   = "x-------s-------"
  }
  fill "rim figure in four" {
    colour      = 2
    energy      = [1, 3]
    cross_stick = "s-----s-s---s-x-"
  }
  fill "off the beats in four" {
    colour = 3
    energy = [1, 3]
    snare  = "----g-----g---s-"
    kick   = "x-------s-------"
  }
  fill "steps and floor in four" {
    colour  = 4
    energy  = [1, 3]
    snare   = "g-------g---g---"
    tom_low = "--------------s-"
    kick    = "x-------s-------"
  }
  fill "toms slowly in four" {
    colour   = 5
    energy   = [1, 3]
    tom_high = "g-----g---------"
    tom_mid  = "--------g---g---"
    tom_low  = "--------------s-"
    kick     = "x---------------"
  }

  # Four beats, energy 4
  fill "steps then toms in four" {
    colour   = 0
    energy   = [4, 4]
    snare    = "s---s-----------"
    tom_high = "--------s---x---"
    tom_mid  = "----------s-----"
    tom_low  = "--------------x-"
    kick     = "x-------x-------"
  }
  fill "three steps and a pair in four" {
    colour = 1
    energy = [4, 4]
    snare  = "s---s---s-----xx"
    kick   = "x-------x-------"
  }
  fill "hold back then three in four" {
    colour = 2
    energy = [4, 4]
    snare  = "s---------s-s-x-"
    kick   = "x-------x-------"
  }

  # Four beats, energies 4 to 5, inside a section
  fill "eighths all the way down in four" {
    colour   = 3
    energy   = [4, 5]
    snare    = "s-s-------------"
    tom_high = "----s-s---------"
    tom_mid  = "--------x-x-----"
    tom_low  = "------------x-xx"
    kick     = "x---------------"
  }
  fill "snare and floor talk in four" {
    colour  = 4
    energy  = [4, 5]
    snare   = "s-------s---x---"
    tom_low = "------s-------x-"
    kick    = "x-------x-------"
  }
  fill "three toms in four" {
    colour   = 5
    energy   = [4, 5]
    tom_high = "s-----s---------"
    tom_mid  = "--------x---x---"
    tom_low  = "----------x---x-"
    kick     = "x---------------"
  }

  # Four beats, energy 5
  fill "gathering to a pair in four" {
    colour = 0
    energy = [5, 5]
    snare  = "s-----s-s-s-s-xx"
    kick   = "x-------x-------"
  }
  fill "beats with the kick between in four" {
    colour = 1
    energy = [5, 5]
    snare  = "s---s---s---x-xx"
    kick   = "x-----x---x-----"
  }
  fill "snare then high and floor in four" {
    colour   = 2
    energy   = [5, 5]
    snare    = "s-s-s-----------"
    tom_high = "------x-x---x---"
    tom_low  = "----------x---x-"
    kick     = "x-------x-------"
  }
}
