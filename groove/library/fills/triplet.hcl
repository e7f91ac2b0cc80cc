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

  # One beat, asked for by the song, energies 1 to 3
  fill "long short to the floor" {
    colour  = 3
    energy  = [1, 3]
    snare   = "s--"
    tom_low = "--s"
  }
  fill "three and middle" {
    colour  = 4
    energy  = [1, 3]
    snare   = "sg-"
    tom_mid = "--s"
  }
  fill "snare to middle" {
    colour  = 5
    energy  = [1, 3]
    snare   = "s--"
    tom_mid = "-ss"
  }

  # One beat, asked for by the song, energies 4 to 5
  fill "one on each" {
    colour  = 3
    energy  = [4, 5]
    snare   = "x--"
    tom_mid = "-x-"
    tom_low = "--X"
  }
  fill "long short below" {
    colour  = 4
    energy  = [4, 5]
    snare   = "x--"
    tom_low = "--X"
  }
  fill "three held on the snare" {
    colour = 5
    energy = [4, 5]
    snare  = "xsX"
  }

  # Two beats, asked for by the song, energies 1 to 3
  fill "long short down in two" {
    colour  = 3
    energy  = [1, 3]
    snare   = "s-s---"
    tom_low = "---s-s"
  }
  fill "pairs up the kit in two" {
    colour   = 4
    energy   = [1, 3]
    snare    = "sg----"
    tom_high = "---s--"
    tom_mid  = "----gs"
  }
  fill "long short and three in two" {
    colour  = 5
    energy  = [1, 3]
    snare   = "s-ss--"
    tom_mid = "----ss"
  }

  # Two beats, asked for by the song, energies 4 to 5
  fill "three and three down in two" {
    colour  = 3
    energy  = [4, 5]
    snare   = "xss---"
    tom_mid = "---xx-"
    tom_low = "-----X"
  }
  fill "long short down hard in two" {
    colour   = 4
    energy   = [4, 5]
    snare    = "x-----"
    tom_high = "--x---"
    tom_mid  = "---x--"
    tom_low  = "-----X"
  }
  fill "six to the floor in two" {
    colour  = 5
    energy  = [4, 5]
    snare   = "xxxx--"
    tom_low = "----xX"
  }

  # Four beats, asked for by the song, energies 1 to 3
  fill "long short down the bar in four" {
    colour  = 3
    energy  = [1, 3]
    snare   = "s-ss-s------"
    tom_mid = "------s-s---"
    tom_low = "---------s-s"
  }
  fill "steps and skips in four" {
    colour   = 4
    energy   = [1, 3]
    snare    = "s-----------"
    tom_high = "---s-s------"
    tom_mid  = "------s--s--"
    tom_low  = "-----------s"
  }
  fill "skips then threes in four" {
    colour  = 5
    energy  = [1, 3]
    snare   = "s-ss-ssgs---"
    tom_mid = "---------ss-"
    tom_low = "-----------s"
  }

  # Four beats, asked for by the song, energies 4 to 5
  fill "threes around the kit in four" {
    colour   = 3
    energy   = [4, 5]
    snare    = "xss---------"
    tom_high = "---xss------"
    tom_mid  = "------xss---"
    tom_low  = "---------xxX"
  }
  fill "long short around the kit in four" {
    colour   = 4
    energy   = [4, 5]
    snare    = "x--------x--"
    tom_high = "--xx--------"
    tom_mid  = "-----xx-----"
    tom_low  = "--------x--X"
  }
  fill "long short then run in four" {
    colour   = 5
    energy   = [4, 5]
    snare    = "x-xxxx------"
    tom_high = "------xxx---"
    tom_mid  = "---------xx-"
    tom_low  = "-----------X"
  }
}
