# Fills in sixteenths. Gentle ones for energies 1 to 3, full ones for 4 and 5; in each
# length, colours 0 to 2 close a section and 3 to 5 stand inside one. Each grows towards
# its end. A closing fill is of the energy half-way to what it leads to: so those of one
# beat at 4, which lead down from 5, are two or three soft strokes.
fills "straight" {
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

  # One beat, energies 1 to 3, inside a section
  fill "a breath of the hat" {
    colour   = 3
    energy   = [1, 3]
    hat_open = "--g-"
    kick     = "--g-"
  }
  fill "a late kick" {
    colour = 4
    energy = [1, 3]
    hat    = "--s-"
    kick   = "---s"
  }
  fill "hat kick and a breath" {
    colour   = 5
    energy   = [1, 3]
    hat      = "--g-"
    hat_open = "---g"
    kick     = "--s-"
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
  fill "two steps back" {
    colour = 0
    energy = [4, 4]
    snare  = "s-x-"
  }
  fill "soft toms down" {
    colour   = 1
    energy   = [4, 4]
    tom_high = "s---"
    tom_mid  = "--s-"
    tom_low  = "---s"
  }
  fill "late and below" {
    colour  = 2
    energy  = [4, 4]
    snare   = "--s-"
    tom_low = "---x"
  }

  # One beat, energies 4 to 5, inside a section
  fill "two and two below" {
    colour  = 3
    energy  = [4, 5]
    snare   = "xs--"
    tom_low = "--xX"
  }
  fill "down the toms" {
    colour   = 4
    energy   = [4, 5]
    tom_high = "x---"
    tom_mid  = "--x-"
    tom_low  = "---X"
  }
  fill "around the kick" {
    colour = 5
    energy = [4, 5]
    snare  = "xs-X"
    kick   = "--x-"
  }

  # One beat, energy 5
  fill "four up" {
    colour = 0
    energy = [5, 5]
    snare  = "xxxX"
  }
  fill "kick and two" {
    colour = 1
    energy = [5, 5]
    snare  = "--xX"
    kick   = "x---"
  }
  fill "one and two" {
    colour = 2
    energy = [5, 5]
    snare  = "x-xX"
  }

  # Two beats, energies 1 to 2
  fill "a step and a pickup in two" {
    colour = 0
    energy = [1, 2]
    snare  = "----s-ss"
  }
  fill "late pickup in two" {
    colour = 1
    energy = [1, 2]
    snare  = "------ss"
  }
  fill "three on the rim in two" {
    colour      = 2
    energy      = [1, 2]
    cross_stick = "------x-"
  }

  # Two beats, energies 1 to 3, inside a section
  fill "murmur in two" {
    colour = 3
    energy = [1, 3]
    snare  = "----ssss"
  }
  fill "step and floor in two" {
    colour  = 4
    energy  = [1, 3]
    snare   = "----s---"
    tom_low = "------ss"
  }
  fill "high to low in two" {
    colour  = 5
    energy  = [1, 3]
    tom_low = "----s-s-"
  }

  # Two beats, energy 3
  fill "off then two in two" {
    colour = 0
    energy = [3, 3]
    snare  = "------ss"
  }
  fill "a step to the toms in two" {
    colour   = 1
    energy   = [3, 3]
    snare    = "----s---"
    tom_high = "------s-"
    tom_low  = "-------s"
  }
  fill "answer below in two" {
    colour  = 2
    energy  = [3, 3]
    tom_mid = "----s---"
    tom_low = "-------s"
  }

  # Two beats, energies 4 to 5
  fill "roll up in two" {
    colour = 0
    energy = [4, 5]
    snare  = "----xxxX"
  }
  fill "walk to it in two" {
    colour = 1
    energy = [4, 5]
    snare  = "----x-xX"
  }
  fill "snare middle floor in two" {
    colour  = 2
    energy  = [4, 5]
    tom_mid = "----xx--"
    tom_low = "------xX"
  }
  fill "three three two in two" {
    colour = 3
    energy = [4, 5]
    snare  = "----s-xX"
    kick   = "-----x--"
  }
  fill "toms in eighths in two" {
    colour  = 4
    energy  = [4, 5]
    tom_mid = "----x---"
    tom_low = "------xX"
  }
  fill "one big one in two" {
    colour  = 5
    energy  = [4, 5]
    tom_low = "-------X"
    kick    = "------x-"
  }

  # Four beats, energies 1 to 3
  fill "a bar that gathers in four" {
    colour = 0
    energy = [1, 3]
    snare  = "--------s---s-ss"
    kick   = "--------s-------"
  }
  fill "question in four" {
    colour = 1
    energy = [1, 3]
    snare  = "--------s-s-ss-s"
    kick   = "--------s-------"
  }
  fill "rim figure in four" {
    colour      = 2
    energy      = [1, 3]
    cross_stick = "----------s-x-x-"
  }
  fill "rising murmur in four" {
    colour = 3
    energy = [1, 3]
    snare  = "--------s-s-ssss"
  }
  fill "down slowly in four" {
    colour  = 4
    energy  = [1, 3]
    tom_mid = "--------s-s-----"
    tom_low = "------------s-s-"
    kick    = "--------s-------"
  }
  fill "two voices in four" {
    colour   = 5
    energy   = [1, 3]
    snare    = "--------s-------"
    tom_high = "----------s-----"
    tom_low  = "------------s--s"
  }

  # Four beats, energy 4
  fill "steps close up in four" {
    colour = 0
    energy = [4, 4]
    snare  = "--------s-s-s-xx"
    kick   = "--------x---x---"
  }
  fill "eighths down in four" {
    colour   = 1
    energy   = [4, 4]
    tom_high = "--------x-------"
    tom_mid  = "----------x-x---"
    tom_low  = "--------------xx"
    kick     = "--------x-------"
  }
  fill "threes then off the beat in four" {
    colour = 2
    energy = [4, 4]
    snare  = "--------x--xsx-X"
    kick   = "--------x-------"
  }

  # Four beats, energies 4 to 5, inside a section
  fill "all the way down in four" {
    colour  = 3
    energy  = [4, 5]
    tom_mid = "--------x-xx----"
    tom_low = "------------xxxX"
  }
  fill "kick and snare talk in four" {
    colour = 4
    energy = [4, 5]
    snare  = "----------x-s-xX"
    kick   = "--------x---x---"
  }
  fill "wide in four" {
    colour   = 5
    energy   = [4, 5]
    snare    = "---------------X"
    tom_high = "--------x-------"
    tom_low  = "----------x-x---"
    kick     = "--------------x-"
  }

  # Four beats, energy 5
  fill "long roll up in four" {
    colour = 0
    energy = [5, 5]
    snare  = "--------x-xsxxxX"
    kick   = "--------x-------"
  }
  fill "steps down and back in four" {
    colour   = 1
    energy   = [5, 5]
    snare    = "--------------xX"
    tom_high = "--------x-x-----"
    tom_low  = "------------x---"
  }
  fill "threes across in four" {
    colour  = 2
    energy  = [5, 5]
    tom_mid = "--------xs-x----"
    tom_low = "------------s-xX"
    kick    = "----------x-----"
  }
}
