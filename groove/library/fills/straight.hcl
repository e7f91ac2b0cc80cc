# Fills in sixteenths. Gentle ones for energies 1 to 3, full ones for 4 and 5; in each
# length, colours 0 to 2 close a section and 3 to 5 are what the song asks for. Each grows towards
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

  # One beat, asked for by the song, energies 1 to 3
  fill "step and pair below" {
    colour  = 3
    energy  = [1, 3]
    snare   = "s---"
    tom_low = "--ss"
  }
  fill "pair and one" {
    colour  = 4
    energy  = [1, 3]
    snare   = "ss--"
    tom_mid = "---s"
  }
  fill "four over" {
    colour  = 5
    energy  = [1, 3]
    snare   = "ss--"
    tom_mid = "--ss"
  }

  # One beat, asked for by the song, energies 4 to 5
  fill "one on each" {
    colour   = 3
    energy   = [4, 5]
    snare    = "x---"
    tom_high = "-s--"
    tom_mid  = "--x-"
    tom_low  = "---X"
  }
  fill "pair and one below" {
    colour  = 4
    energy  = [4, 5]
    snare   = "xx--"
    tom_low = "---X"
  }
  fill "four to the floor" {
    colour  = 5
    energy  = [4, 5]
    snare   = "xx--"
    tom_low = "--xX"
  }

  # Two beats, asked for by the song, energies 1 to 3
  fill "eighths down to a pair in two" {
    colour  = 3
    energy  = [1, 3]
    snare   = "s-s-----"
    tom_mid = "----s---"
    tom_low = "------ss"
  }
  fill "threes down in two" {
    colour  = 4
    energy  = [1, 3]
    snare   = "s-------"
    tom_mid = "---s----"
    tom_low = "------s-"
  }
  fill "murmur and four in two" {
    colour  = 5
    energy  = [1, 3]
    snare   = "s-ggss--"
    tom_mid = "------ss"
  }

  # Two beats, asked for by the song, energies 4 to 5
  fill "pairs down in two" {
    colour   = 3
    energy   = [4, 5]
    snare    = "xs------"
    tom_high = "--xs----"
    tom_mid  = "----xs--"
    tom_low  = "------xX"
  }
  fill "threes around the kick in two" {
    colour   = 4
    energy   = [4, 5]
    snare    = "x-------"
    tom_high = "---x----"
    tom_mid  = "-----x--"
    tom_low  = "------xX"
    kick     = "--x-x---"
  }
  fill "three and four in two" {
    colour  = 5
    energy  = [4, 5]
    snare   = "xxx-xx--"
    tom_low = "------xX"
  }

  # Three beats, asked for by the song, energies 1 to 3
  fill "eighths down the bar in three" {
    colour  = 3
    energy  = [1, 3]
    snare   = "s-s---------"
    tom_mid = "----s-------"
    tom_low = "--------s-ss"
  }
  fill "threes down the bar in three" {
    colour   = 4
    energy   = [1, 3]
    snare    = "s-----------"
    tom_high = "---s--------"
    tom_mid  = "------s-----"
    tom_low  = "---------s--"
  }
  fill "step murmur and four in three" {
    colour  = 5
    energy  = [1, 3]
    snare   = "s---s-ggss--"
    tom_low = "----------ss"
  }

  # Three beats, asked for by the song, energies 4 to 5
  fill "fours around the kit in three" {
    colour   = 3
    energy   = [4, 5]
    snare    = "xsss--------"
    tom_high = "----xsss----"
    tom_mid  = "--------xs--"
    tom_low  = "----------xX"
  }
  fill "threes around the kick in three" {
    colour   = 4
    energy   = [4, 5]
    snare    = "x--------x--"
    tom_high = "---x--------"
    tom_mid  = "------x-----"
    tom_low  = "----------xX"
    kick     = "--x--x--x---"
  }
  fill "sixteenths home in three" {
    colour   = 5
    energy   = [4, 5]
    snare    = "x-xx--------"
    tom_high = "----xxxx----"
    tom_mid  = "--------xx--"
    tom_low  = "----------xX"
  }

  # Four beats, asked for by the song, energies 1 to 3
  fill "eighths down the bar in four" {
    colour  = 3
    energy  = [1, 3]
    snare   = "s-s-s-----------"
    tom_mid = "--------s-s-----"
    tom_low = "------------s-ss"
  }
  fill "threes and a two in four" {
    colour   = 4
    energy   = [1, 3]
    snare    = "s--s------------"
    tom_high = "--------s--s----"
    tom_mid  = "------s---------"
    tom_low  = "--------------s-"
  }
  fill "steps murmur and four in four" {
    colour   = 5
    energy   = [1, 3]
    snare    = "s---s-gg----ss--"
    tom_high = "--------s-------"
    tom_mid  = "----------s-----"
    tom_low  = "--------------ss"
  }

  # Four beats, asked for by the song, energies 4 to 5
  fill "fours around the kit in four" {
    colour   = 3
    energy   = [4, 5]
    snare    = "xsss------------"
    tom_high = "----xsss--------"
    tom_mid  = "--------xsss----"
    tom_low  = "------------xsxX"
  }
  fill "threes around the kick in four" {
    colour   = 4
    energy   = [4, 5]
    snare    = "x-------x-------"
    tom_high = "---x-------x----"
    tom_mid  = "------x------x--"
    tom_low  = "--------------xX"
    kick     = "--x--x----x-----"
  }
  fill "sixteenths home in four" {
    colour   = 5
    energy   = [4, 5]
    snare    = "x-xxx-xx--------"
    tom_high = "--------xxxx----"
    tom_mid  = "------------xx--"
    tom_low  = "--------------xX"
  }
}
