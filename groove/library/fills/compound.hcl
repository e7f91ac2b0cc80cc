# Fills for slow dotted beats: 12/8 and a slow 6/8. They flow in the eighths that the
# beat is made of; the grid is sixteenths only so that one full fill of each length may
# end in a pair of them. Gentle ones for energies 1 to 3, full ones for 4 and 5.
fills "compound" {
  grid = 6

  # One beat, energies 1 to 2
  fill "the hat opens" {
    colour   = 0
    energy   = [1, 2]
    hat_open = "----s-"
  }
  fill "hat and kick" {
    colour = 1
    energy = [1, 2]
    hat    = "--g-s-"
    kick   = "----s-"
  }
  fill "the hat opens late" {
    colour   = 2
    energy   = [1, 2]
    hat      = "--s---"
    hat_open = "----s-"
  }

  # One beat, energy 3
  fill "the hat opens at three" {
    colour   = 0
    energy   = [3, 3]
    hat_open = "----s-"
  }
  fill "hat and kick at three" {
    colour = 1
    energy = [3, 3]
    hat    = "--g-s-"
    kick   = "----s-"
  }
  fill "the hat opens late at three" {
    colour   = 2
    energy   = [3, 3]
    hat      = "--s---"
    hat_open = "----s-"
  }

  # One beat, energy 4
  fill "one and three held back" {
    colour = 0
    energy = [4, 4]
    snare  = "s---x-"
  }
  fill "middle and floor late" {
    colour  = 1
    energy  = [4, 4]
    tom_mid = "--s---"
    tom_low = "----s-"
  }
  fill "snare to middle" {
    colour  = 2
    energy  = [4, 4]
    snare   = "s-----"
    tom_mid = "----s-"
  }

  # One beat, energy 5
  fill "eighths up" {
    colour = 0
    energy = [5, 5]
    snare  = "s-x-X-"
  }
  fill "late and a pair" {
    colour = 1
    energy = [5, 5]
    snare  = "--s-xX"
  }
  fill "one and three" {
    colour = 2
    energy = [5, 5]
    snare  = "x---X-"
  }

  # Two beats, energies 1 to 2
  fill "a beat then three in two" {
    colour = 0
    energy = [1, 2]
    snare  = "------s-s-s-"
  }
  fill "a far pickup in two" {
    colour = 1
    energy = [1, 2]
    snare  = "----------s-"
  }
  fill "rim rim in two" {
    colour      = 2
    energy      = [1, 2]
    cross_stick = "------s---x-"
  }

  # Two beats, energy 3
  fill "steps and a pickup in two" {
    colour = 0
    energy = [3, 3]
    snare  = "------s---s-"
  }
  fill "two and two below in two" {
    colour  = 1
    energy  = [3, 3]
    tom_low = "--------s-s-"
  }
  fill "one tom a beat in two" {
    colour  = 2
    energy  = [3, 3]
    tom_mid = "------s-----"
    tom_low = "----------s-"
  }

  # Two beats, energies 4 to 5
  fill "eighths up in two" {
    colour = 0
    energy = [4, 5]
    snare  = "------x-x-X-"
  }
  fill "wide then a pair in two" {
    colour = 1
    energy = [4, 5]
    snare  = "------s---xX"
  }
  fill "wide in two" {
    colour = 2
    energy = [4, 5]
    snare  = "------x---X-"
  }

  # Four beats, energies 1 to 3
  fill "a bar that gathers in four" {
    colour = 0
    energy = [1, 3]
    snare  = "------------s-----s-s-s-"
    kick   = "------------x-----------"
  }
  fill "beats and a pickup in four" {
    colour = 1
    energy = [1, 3]
    snare  = "------------s---s-s---s-"
    kick   = "------------s-----------"
  }
  fill "rim figure in four" {
    colour      = 2
    energy      = [1, 3]
    cross_stick = "------------s-----s---x-"
  }

  # Four beats, energy 4
  fill "beats close up in four" {
    colour = 0
    energy = [4, 4]
    snare  = "------------s---s-x-s-x-"
    kick   = "------------x-----------"
  }
  fill "two on each drum in four" {
    colour  = 1
    energy  = [4, 4]
    tom_mid = "------------x---x-------"
    tom_low = "------------------x---x-"
    kick    = "------------x-----------"
  }
  fill "snare and floor answer in four" {
    colour  = 2
    energy  = [4, 4]
    snare   = "------------x---x-s-----"
    tom_low = "----------------------x-"
    kick    = "------------------x-----"
  }

  # Four beats, energy 5
  fill "long eighths up in four" {
    colour = 0
    energy = [5, 5]
    snare  = "------------x-x-s-x-x-X-"
    kick   = "------------x-----x-----"
  }
  fill "beats then a pair in four" {
    colour = 1
    energy = [5, 5]
    snare  = "------------x-s-x-s-s-xX"
    kick   = "------------x-----x-----"
  }
  fill "wide in four" {
    colour = 2
    energy = [5, 5]
    snare  = "------------x---s-x---X-"
    kick   = "----------------x-------"
  }

  # One beat, asked for by the song, energies 1 to 3
  fill "long short to the floor" {
    colour  = 3
    energy  = [1, 3]
    snare   = "s-----"
    tom_low = "----s-"
  }
  fill "three and middle" {
    colour  = 4
    energy  = [1, 3]
    snare   = "s-g---"
    tom_mid = "----s-"
  }
  fill "snare to middle soft" {
    colour  = 5
    energy  = [1, 3]
    snare   = "s-----"
    tom_mid = "--s-s-"
  }

  # One beat, asked for by the song, energies 4 to 5
  fill "one on each" {
    colour  = 3
    energy  = [4, 5]
    snare   = "x-----"
    tom_mid = "--x---"
    tom_low = "----X-"
  }
  fill "long short below" {
    colour  = 4
    energy  = [4, 5]
    snare   = "x-----"
    tom_low = "----X-"
  }
  fill "three held on the snare" {
    colour = 5
    energy = [4, 5]
    snare  = "x-s-X-"
  }

  # Two beats, asked for by the song, energies 1 to 3
  fill "long short down in two" {
    colour  = 3
    energy  = [1, 3]
    snare   = "s---s-------"
    tom_low = "------s---s-"
  }
  fill "pairs up the kit in two" {
    colour   = 4
    energy   = [1, 3]
    snare    = "s-g---------"
    tom_high = "------s-----"
    tom_mid  = "--------g-s-"
  }
  fill "long short and three in two" {
    colour  = 5
    energy  = [1, 3]
    snare   = "s---s-s-----"
    tom_mid = "--------s-s-"
  }

  # Two beats, asked for by the song, energies 4 to 5
  fill "three and three down in two" {
    colour  = 3
    energy  = [4, 5]
    snare   = "x-s-s-------"
    tom_mid = "------x-x---"
    tom_low = "----------X-"
  }
  fill "long short down hard in two" {
    colour   = 4
    energy   = [4, 5]
    snare    = "x-----------"
    tom_high = "----x-------"
    tom_mid  = "------x-----"
    tom_low  = "----------X-"
  }
  fill "six to the floor in two" {
    colour  = 5
    energy  = [4, 5]
    snare   = "x-x-x-x-----"
    tom_low = "--------x-X-"
  }

  # Four beats, asked for by the song, energies 1 to 3
  fill "steps and two down in four" {
    colour   = 3
    energy   = [1, 3]
    snare    = "s-----------------------"
    tom_high = "------s---s-------------"
    tom_mid  = "------------s-----------"
    tom_low  = "------------------s---s-"
  }
  fill "crossing the beats in four" {
    colour   = 4
    energy   = [1, 3]
    snare    = "s---s-------------------"
    tom_high = "----------s-------------"
    tom_mid  = "------------s---s-------"
    tom_low  = "----------------------s-"
  }
  fill "steps then threes in four" {
    colour   = 5
    energy   = [1, 3]
    snare    = "s-----s---s-------------"
    tom_high = "------------s---s-------"
    tom_mid  = "------------------s-s---"
    tom_low  = "----------------------s-"
  }

  # Four beats, asked for by the song, energies 4 to 5
  fill "threes around the kit in four" {
    colour   = 3
    energy   = [4, 5]
    snare    = "x-s-s-------------------"
    tom_high = "------x-s-s-------------"
    tom_mid  = "------------x-s-s-------"
    tom_low  = "------------------x-x-X-"
  }
  fill "long short around the kit in four" {
    colour   = 4
    energy   = [4, 5]
    snare    = "x-----------------x-----"
    tom_high = "----x-x-----------------"
    tom_mid  = "----------x-x-----------"
    tom_low  = "----------------x-----X-"
  }
  fill "long short then run in four" {
    colour   = 5
    energy   = [4, 5]
    snare    = "x---x-x-x-x-------------"
    tom_high = "------------x-x-x-------"
    tom_mid  = "------------------x-x---"
    tom_low  = "----------------------X-"
  }
}
