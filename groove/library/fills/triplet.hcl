# Fills in triplets, for what swings and for a quick six. Gentle ones for energies
# 1 to 3, full ones for 4 and 5.
fills "triplet" {
  grid = 3

  # One beat, energies 1 to 2
  fill "long short" {
    colour = 0
    energy = [1, 2]
    snare  = "s-s"
  }
  fill "two late ones" {
    colour = 1
    energy = [1, 2]
    snare  = "-ss"
  }
  fill "rim long short" {
    colour      = 2
    energy      = [1, 2]
    cross_stick = "s-x"
  }

  # One beat, energies 1 to 3, inside a section
  fill "three soft ones" {
    colour = 3
    energy = [1, 3]
    snare  = "sss"
  }
  fill "snare to floor" {
    colour  = 4
    energy  = [1, 3]
    snare   = "s--"
    tom_low = "--s"
  }
  fill "middle to floor" {
    colour  = 5
    energy  = [1, 3]
    tom_mid = "-s-"
    tom_low = "--s"
  }

  # One beat, energy 3
  fill "high to middle" {
    colour   = 0
    energy   = [3, 3]
    tom_high = "s--"
    tom_mid  = "--s"
  }
  fill "two late to the floor" {
    colour  = 1
    energy  = [3, 3]
    snare   = "-s-"
    tom_low = "--s"
  }
  fill "a pickup" {
    colour = 2
    energy = [3, 3]
    snare  = "--s"
  }

  # One beat, energy 4
  fill "long short held back" {
    colour = 0
    energy = [4, 4]
    snare  = "s-x"
  }
  fill "middle and floor late" {
    colour  = 1
    energy  = [4, 4]
    tom_mid = "-s-"
    tom_low = "--s"
  }
  fill "snare to floor held back" {
    colour  = 2
    energy  = [4, 4]
    snare   = "s--"
    tom_low = "--s"
  }

  # One beat, energies 4 to 5, inside a section
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

  # One beat, energy 5
  fill "three up" {
    colour = 0
    energy = [5, 5]
    snare  = "xxX"
  }
  fill "one and one" {
    colour = 1
    energy = [5, 5]
    snare  = "x-X"
  }
  fill "kick and two" {
    colour = 2
    energy = [5, 5]
    snare  = "-xX"
    kick   = "x--"
  }

  # Two beats, energies 1 to 2
  fill "step long short in two" {
    colour = 0
    energy = [1, 2]
    snare  = "---s-s"
  }
  fill "late pickup in two" {
    colour = 1
    energy = [1, 2]
    snare  = "----ss"
  }
  fill "rim shuffle in two" {
    colour      = 2
    energy      = [1, 2]
    cross_stick = "---s-x"
  }

  # Two beats, energies 1 to 3, inside a section
  fill "murmur in two" {
    colour = 3
    energy = [1, 3]
    snare  = "---sss"
  }
  fill "to the floor in two" {
    colour  = 4
    energy  = [1, 3]
    snare   = "---s--"
    tom_low = "-----s"
  }
  fill "high middle floor in two" {
    colour  = 5
    energy  = [1, 3]
    tom_mid = "----s-"
    tom_low = "-----s"
  }

  # Two beats, energy 3
  fill "step and soft pickup in two" {
    colour = 0
    energy = [3, 3]
    snare  = "---s-s"
  }
  fill "one on each drum in two" {
    colour  = 1
    energy  = [3, 3]
    tom_mid = "---s--"
    tom_low = "-----s"
  }
  fill "a far pickup in two" {
    colour = 2
    energy = [3, 3]
    snare  = "-----s"
  }

  # Two beats, energies 4 to 5
  fill "roll up in two" {
    colour = 0
    energy = [4, 5]
    snare  = "---xxX"
  }
  fill "shuffle up in two" {
    colour = 1
    energy = [4, 5]
    snare  = "---x-X"
  }
  fill "down in threes in two" {
    colour  = 2
    energy  = [4, 5]
    tom_mid = "---x--"
    tom_low = "----xX"
  }
  fill "one each in two" {
    colour   = 3
    energy   = [4, 5]
    tom_high = "---x--"
    tom_mid  = "----x-"
    tom_low  = "-----X"
  }
  fill "snare and floor in two" {
    colour  = 4
    energy  = [4, 5]
    snare   = "---s--"
    tom_low = "----xX"
  }
  fill "around the kick in two" {
    colour = 5
    energy = [4, 5]
    snare  = "----xX"
    kick   = "---x--"
  }

  # Four beats, energies 1 to 3
  fill "a bar that gathers in four" {
    colour = 0
    energy = [1, 3]
    snare  = "------s-ss-s"
    kick   = "------s-----"
  }
  fill "question in four" {
    colour = 1
    energy = [1, 3]
    snare  = "----------ss"
    kick   = "------s-----"
  }
  fill "rim figure in four" {
    colour      = 2
    energy      = [1, 3]
    cross_stick = "--------ss-x"
  }
  fill "rising murmur in four" {
    colour = 3
    energy = [1, 3]
    snare  = "------s-ssss"
  }
  fill "down slowly in four" {
    colour  = 4
    energy  = [1, 3]
    snare   = "------s--s--"
    tom_mid = "--------s---"
    tom_low = "-----------s"
  }
  fill "toms answer in four" {
    colour   = 5
    energy   = [1, 3]
    snare    = "---------s--"
    tom_high = "------s-----"
    tom_mid  = "--------s-s-"
    tom_low  = "-----------s"
  }

  # Four beats, energy 4
  fill "steps close up in four" {
    colour = 0
    energy = [4, 4]
    snare  = "------s-ss-x"
    kick   = "------x-----"
  }
  fill "shuffle down in four" {
    colour  = 1
    energy  = [4, 4]
    tom_mid = "------x-x---"
    tom_low = "---------x-x"
    kick    = "------x-----"
  }
  fill "wait then run in four" {
    colour = 2
    energy = [4, 4]
    snare  = "------s-sxxx"
    kick   = "------x-----"
  }

  # Four beats, energies 4 to 5, inside a section
  fill "all the way down in four" {
    colour   = 3
    energy   = [4, 5]
    tom_high = "------x-xx--"
    tom_mid  = "----------x-"
    tom_low  = "-----------X"
  }
  fill "snare keeps talking in four" {
    colour  = 4
    energy  = [4, 5]
    snare   = "------s-xs--"
    tom_low = "----------xX"
  }
  fill "around the kick twice in four" {
    colour = 5
    energy = [4, 5]
    snare  = "------x-xsxX"
    kick   = "---------x--"
  }

  # Four beats, energy 5
  fill "long roll up in four" {
    colour = 0
    energy = [5, 5]
    snare  = "------x-xxxX"
    kick   = "------x--x--"
  }
  fill "shuffle to it in four" {
    colour = 1
    energy = [5, 5]
    snare  = "--------xx-X"
    kick   = "------x---x-"
  }
  fill "down in threes twice in four" {
    colour   = 2
    energy   = [5, 5]
    tom_high = "------xx----"
    tom_mid  = "---------x--"
    tom_low  = "----------xX"
    kick     = "------x-----"
  }
}
