# Fills in sixteenths for slow dotted beats: 12/8 and a slow 6/8. Gentle ones for
# energies 1 to 3, full ones for 4 and 5.
fills "compound" {
  grid = 6

  # One beat, gentle
  fill "three soft eighths" {
    colour = 0
    energy = [1, 3]
    snare  = "g-g-s-"
  }
  fill "a pickup" {
    colour = 1
    energy = [1, 3]
    snare  = "----gs"
  }
  fill "rim and rim" {
    colour      = 2
    energy      = [1, 3]
    cross_stick = "s---x-"
  }
  fill "eighth and pickup" {
    colour = 3
    energy = [1, 3]
    snare  = "--g-ss"
  }
  fill "snare to floor" {
    colour  = 4
    energy  = [1, 3]
    snare   = "g-----"
    tom_low = "----s-"
  }
  fill "middle to floor" {
    colour  = 5
    energy  = [1, 3]
    tom_mid = "--g---"
    tom_low = "----s-"
  }

  # One beat, full
  fill "eighths up" {
    colour = 0
    energy = [4, 5]
    snare  = "s-x-xX"
  }
  fill "six up" {
    colour = 1
    energy = [4, 5]
    snare  = "xsxsxX"
  }
  fill "one and two" {
    colour = 2
    energy = [4, 5]
    snare  = "x---xX"
  }
  fill "down the toms" {
    colour   = 3
    energy   = [4, 5]
    tom_high = "x-----"
    tom_mid  = "--x---"
    tom_low  = "----xX"
  }
  fill "two and two below" {
    colour  = 4
    energy  = [4, 5]
    snare   = "s-x---"
    tom_low = "----xX"
  }
  fill "after the kick" {
    colour = 5
    energy = [4, 5]
    snare  = "--s-xX"
    kick   = "x-----"
  }

  # Two beats, gentle
  fill "a beat then three in two" {
    colour = 0
    energy = [1, 3]
    snare  = "g-----g-s-s-"
    kick   = "x-----------"
  }
  fill "a far pickup in two" {
    colour = 1
    energy = [1, 3]
    snare  = "g---s-----ss"
  }
  fill "rim rim in two" {
    colour      = 2
    energy      = [1, 3]
    cross_stick = "g---s-s---x-"
  }
  fill "murmur in two" {
    colour = 3
    energy = [1, 3]
    snare  = "----g---g-ss"
  }
  fill "step and floor in two" {
    colour  = 4
    energy  = [1, 3]
    snare   = "g-----s-----"
    tom_low = "----------s-"
  }
  fill "high middle floor in two" {
    colour   = 5
    energy   = [1, 3]
    tom_high = "g-----------"
    tom_mid  = "----s---s---"
    tom_low  = "----------s-"
  }

  # Two beats, full
  fill "eighths then up in two" {
    colour = 0
    energy = [4, 5]
    snare  = "s---s-x-x-xX"
  }
  fill "sixteenths up in two" {
    colour = 1
    energy = [4, 5]
    snare  = "s-s---xsxsxX"
    kick   = "----x-------"
  }
  fill "wide in two" {
    colour = 2
    energy = [4, 5]
    snare  = "s---x-x---xX"
    kick   = "--x---------"
  }
  fill "down in eighths in two" {
    colour   = 3
    energy   = [4, 5]
    snare    = "x-x-x-------"
    tom_high = "------x-----"
    tom_mid  = "--------x---"
    tom_low  = "----------xX"
  }
  fill "snare and floor in two" {
    colour   = 4
    energy   = [4, 5]
    snare    = "s-----x-x---"
    tom_high = "----x-------"
    tom_low  = "----------xX"
  }
  fill "around the kick in two" {
    colour = 5
    energy = [4, 5]
    snare  = "s-s-x---s-xX"
    kick   = "------x-----"
  }

  # Four beats, gentle
  fill "a bar that gathers in four" {
    colour = 0
    energy = [1, 3]
    snare  = "g-----------g-----g-s-s-"
    kick   = "x-----------x-----------"
  }
  fill "beats and a pickup in four" {
    colour = 1
    energy = [1, 3]
    snare  = "g-----g-----g---s-----ss"
    kick   = "x-----------s-----------"
  }
  fill "rim figure in four" {
    colour      = 2
    energy      = [1, 3]
    cross_stick = "g-----s---s-s-----s---x-"
  }
  fill "rising murmur in four" {
    colour = 3
    energy = [1, 3]
    snare  = "----g-----g---g-----g-ss"
    kick   = "x-----------------------"
  }
  fill "down slowly in four" {
    colour  = 4
    energy  = [1, 3]
    snare   = "g-----g-----s-----s-----"
    tom_mid = "----------s-----s-------"
    tom_low = "----------------------s-"
  }
  fill "toms answer in four" {
    colour   = 5
    energy   = [1, 3]
    tom_high = "g-----------s-----------"
    tom_mid  = "----g-----s---------s---"
    tom_low  = "----------------s-----s-"
  }

  # Four beats, full
  fill "long eighths up in four" {
    colour = 0
    energy = [4, 5]
    snare  = "s---s-s---s-x-x-s-x-x-xX"
    kick   = "x-----------x-----------"
  }
  fill "beats then sixteenths in four" {
    colour = 1
    energy = [4, 5]
    snare  = "s-----x-s---x-s-x-xsxsxX"
    kick   = "----x-------------------"
  }
  fill "wide in four" {
    colour = 2
    energy = [4, 5]
    snare  = "s---x-----x-x-----x---xX"
    kick   = "--------x-------x-------"
  }
  fill "all the way down in four" {
    colour   = 3
    energy   = [4, 5]
    snare    = "x-x-x-------------------"
    tom_high = "------x-s---x-----x-----"
    tom_mid  = "----------x---x-----x---"
    tom_low  = "----------------x-----xX"
  }
  fill "snare toms snare in four" {
    colour   = 4
    energy   = [4, 5]
    snare    = "s-----x-s-x-------x-x---"
    tom_high = "------------x-s---------"
    tom_low  = "----------------x-----xX"
  }
  fill "around the kick in four" {
    colour = 5
    energy = [4, 5]
    snare  = "s-s-x-x-----x-s-x---s-xX"
    kick   = "--------x---------x-----"
  }
}
