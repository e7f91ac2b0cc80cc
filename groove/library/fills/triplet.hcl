# Fills in triplets, for what swings and for a quick six. Gentle ones for energies
# 1 to 3, full ones for 4 and 5.
fills "triplet" {
  grid = 3

  # One beat, gentle
  fill "long short" {
    colour = 0
    energy = [1, 3]
    snare  = "g-s"
  }
  fill "two late ones" {
    colour = 1
    energy = [1, 3]
    snare  = "-gs"
  }
  fill "rim long short" {
    colour      = 2
    energy      = [1, 3]
    cross_stick = "s-x"
  }
  fill "three soft ones" {
    colour = 3
    energy = [1, 3]
    snare  = "gss"
  }
  fill "snare to floor" {
    colour  = 4
    energy  = [1, 3]
    snare   = "g--"
    tom_low = "--s"
  }
  fill "middle to floor" {
    colour  = 5
    energy  = [1, 3]
    tom_mid = "-g-"
    tom_low = "--s"
  }

  # One beat, full
  fill "three up" {
    colour = 0
    energy = [4, 5]
    snare  = "xxX"
  }
  fill "one and one" {
    colour = 1
    energy = [4, 5]
    snare  = "x-X"
  }
  fill "kick and two" {
    colour = 2
    energy = [4, 5]
    snare  = "-xX"
    kick   = "x--"
  }
  fill "down the toms" {
    colour   = 3
    energy   = [4, 5]
    tom_high = "x--"
    tom_mid  = "-x-"
    tom_low  = "--X"
  }
  fill "one and two below" {
    colour  = 4
    energy  = [4, 5]
    snare   = "x--"
    tom_low = "-xX"
  }
  fill "kick and snare" {
    colour = 5
    energy = [4, 5]
    snare  = "--X"
    kick   = "x--"
  }

  # Two beats, gentle
  fill "step long short in two" {
    colour = 0
    energy = [1, 3]
    snare  = "g--s-s"
  }
  fill "late pickup in two" {
    colour = 1
    energy = [1, 3]
    snare  = "g-s-ss"
  }
  fill "rim shuffle in two" {
    colour      = 2
    energy      = [1, 3]
    cross_stick = "g-ss-x"
  }
  fill "murmur in two" {
    colour = 3
    energy = [1, 3]
    snare  = "--ggss"
  }
  fill "to the floor in two" {
    colour  = 4
    energy  = [1, 3]
    snare   = "g-ss--"
    tom_low = "-----s"
  }
  fill "high middle floor in two" {
    colour   = 5
    energy   = [1, 3]
    tom_high = "g-----"
    tom_mid  = "--s-s-"
    tom_low  = "-----s"
  }

  # Two beats, full
  fill "roll up in two" {
    colour = 0
    energy = [4, 5]
    snare  = "s-xxxX"
  }
  fill "shuffle up in two" {
    colour = 1
    energy = [4, 5]
    snare  = "x--x-X"
    kick   = "--x---"
  }
  fill "down in threes in two" {
    colour   = 2
    energy   = [4, 5]
    snare    = "xs----"
    tom_high = "--x---"
    tom_mid  = "---x--"
    tom_low  = "----xX"
  }
  fill "one each in two" {
    colour   = 3
    energy   = [4, 5]
    snare    = "x-x---"
    tom_high = "---x--"
    tom_mid  = "----x-"
    tom_low  = "-----X"
  }
  fill "snare and floor in two" {
    colour  = 4
    energy  = [4, 5]
    snare   = "s-xs--"
    tom_low = "----xX"
  }
  fill "around the kick in two" {
    colour = 5
    energy = [4, 5]
    snare  = "s-x-xX"
    kick   = "---x--"
  }

  # Four beats, gentle
  fill "a bar that gathers in four" {
    colour = 0
    energy = [1, 3]
    snare  = "g-----g-ss-s"
    kick   = "x-----s-----"
  }
  fill "question in four" {
    colour = 1
    energy = [1, 3]
    snare  = "g--s-s----ss"
    kick   = "x-----s-----"
  }
  fill "rim figure in four" {
    colour      = 2
    energy      = [1, 3]
    cross_stick = "g--s-s--ss-x"
  }
  fill "rising murmur in four" {
    colour = 3
    energy = [1, 3]
    snare  = "-----gg-ggss"
    kick   = "x-----------"
  }
  fill "down slowly in four" {
    colour  = 4
    energy  = [1, 3]
    snare   = "g-s---s--s--"
    tom_mid = "--------s---"
    tom_low = "-----------s"
  }
  fill "toms answer in four" {
    colour   = 5
    energy   = [1, 3]
    tom_high = "g-----s-----"
    tom_mid  = "--s-----s-s-"
    tom_low  = "-----------s"
  }

  # Four beats, full
  fill "long roll up in four" {
    colour = 0
    energy = [4, 5]
    snare  = "s-ss-sx-xxxX"
    kick   = "x-----x-----"
  }
  fill "shuffle to it in four" {
    colour = 1
    energy = [4, 5]
    snare  = "x--x-x--xx-X"
    kick   = "--x---x-----"
  }
  fill "down in threes twice in four" {
    colour   = 2
    energy   = [4, 5]
    snare    = "xs-xs-------"
    tom_high = "--x---xx----"
    tom_mid  = "---------x--"
    tom_low  = "-----x----xX"
  }
  fill "all the way down in four" {
    colour   = 3
    energy   = [4, 5]
    snare    = "x-xx-x------"
    tom_high = "------x-xx--"
    tom_mid  = "----------x-"
    tom_low  = "-----------X"
    kick     = "x-----------"
  }
  fill "snare keeps talking in four" {
    colour  = 4
    energy  = [4, 5]
    snare   = "s--x-xs-xs--"
    tom_low = "----------xX"
  }
  fill "around the kick twice in four" {
    colour = 5
    energy = [4, 5]
    snare  = "x-x---x-x-xX"
    kick   = "---x-----x--"
  }
}
