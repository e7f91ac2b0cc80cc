# Fills for what goes in two, in eighths of a half bar and no quicker, so that a bright
# tempo has room for them. Gentle ones for energies 1 to 3, full ones for 4 and 5; what
# leads down from 5 is small.
fills "two" {
  grid = 2

  # One beat, energies 1 to 3
  fill "two soft ones" {
    colour = 0
    energy = [1, 3]
    snare  = "ss"
  }
  fill "one off the beat" {
    colour = 1
    energy = [1, 3]
    snare  = "-s"
  }
  fill "two on the rim" {
    colour      = 2
    energy      = [1, 3]
    cross_stick = "ss"
  }
  fill "rim off the beat" {
    colour      = 3
    energy      = [1, 3]
    cross_stick = "-s"
  }
  fill "snare to floor" {
    colour  = 4
    energy  = [1, 3]
    snare   = "s-"
    tom_low = "-s"
  }
  fill "middle to floor" {
    colour  = 5
    energy  = [1, 3]
    tom_mid = "s-"
    tom_low = "-s"
  }

  # One beat, energies 4 to 5
  fill "two up" {
    colour = 0
    energy = [4, 5]
    snare  = "xX"
  }
  fill "one late" {
    colour = 1
    energy = [4, 5]
    snare  = "-X"
  }
  fill "snare to floor full" {
    colour  = 2
    energy  = [4, 5]
    snare   = "s-"
    tom_low = "-x"
  }
  fill "high to floor" {
    colour   = 3
    energy   = [4, 5]
    tom_high = "x-"
    tom_low  = "-X"
  }
  fill "a flam" {
    colour = 4
    energy = [4, 5]
    snare  = "f-"
  }
  fill "middle to floor full" {
    colour  = 5
    energy  = [4, 5]
    tom_mid = "x-"
    tom_low = "-X"
  }

  # Two beats, energies 1 to 2
  fill "a step and two in two" {
    colour = 0
    energy = [1, 2]
    snare  = "--ss"
  }
  fill "two and one in two" {
    colour = 1
    energy = [1, 2]
    snare  = "---s"
  }
  fill "rim and rim in two" {
    colour      = 2
    energy      = [1, 2]
    cross_stick = "---x"
  }

  # Two beats, energies 1 to 3, inside a section
  fill "a rim step and two in two" {
    colour      = 3
    energy      = [1, 3]
    cross_stick = "--ss"
  }
  fill "two and the floor in two" {
    colour  = 4
    energy  = [1, 3]
    tom_low = "---s"
  }
  fill "down the toms in two" {
    colour  = 5
    energy  = [1, 3]
    tom_mid = "--s-"
    tom_low = "---s"
  }

  # Two beats, energy 3
  fill "two and a late one in two" {
    colour = 0
    energy = [3, 3]
    snare  = "---s"
  }
  fill "two steps and the floor in two" {
    colour  = 1
    energy  = [3, 3]
    snare   = "--s-"
    tom_low = "---s"
  }
  fill "middle floor floor in two" {
    colour  = 2
    energy  = [3, 3]
    tom_low = "--ss"
  }

  # Two beats, energy 4
  fill "a step and two held back in two" {
    colour = 0
    energy = [4, 4]
    snare  = "--sx"
  }
  fill "soft toms down in two" {
    colour  = 1
    energy  = [4, 4]
    tom_mid = "--s-"
    tom_low = "---x"
  }
  fill "snare then floor in two" {
    colour  = 2
    energy  = [4, 4]
    tom_low = "---x"
  }

  # Two beats, energies 4 to 5, inside a section
  fill "flam and one in two" {
    colour = 3
    energy = [4, 5]
    snare  = "---X"
  }
  fill "two and two below in two" {
    colour  = 4
    energy  = [4, 5]
    tom_low = "--xX"
  }
  fill "steps to the floor in two" {
    colour  = 5
    energy  = [4, 5]
    snare   = "--x-"
    tom_low = "---X"
  }

  # Two beats, energy 5
  fill "a step and two full in two" {
    colour = 0
    energy = [5, 5]
    snare  = "--xX"
  }
  fill "four in two" {
    colour = 1
    energy = [5, 5]
    snare  = "--sX"
  }
  fill "around the kick in two" {
    colour = 2
    energy = [5, 5]
    snare  = "---X"
    kick   = "--x-"
  }

  # Four beats, energies 1 to 3
  fill "steps and three in four" {
    colour = 0
    energy = [1, 3]
    snare  = "----s-ss"
  }
  fill "two steps and two in four" {
    colour = 1
    energy = [1, 3]
    snare  = "------s-"
  }
  fill "rim figure in four" {
    colour      = 2
    energy      = [1, 3]
    snare       = "------s-"
    cross_stick = "----s--x"
  }
  fill "late three in four" {
    colour = 3
    energy = [1, 3]
    snare  = "----ssgs"
  }
  fill "steps and two below in four" {
    colour  = 4
    energy  = [1, 3]
    snare   = "----s---"
    tom_low = "------ss"
  }
  fill "toms in steps in four" {
    colour  = 5
    energy  = [1, 3]
    tom_mid = "----s---"
    tom_low = "------s-"
  }

  # Four beats, energy 4
  fill "steps and three full in four" {
    colour = 0
    energy = [4, 4]
    snare  = "----s-sx"
  }
  fill "steps down in four" {
    colour   = 1
    energy   = [4, 4]
    tom_high = "----x---"
    tom_low  = "------x-"
  }
  fill "wide then two in four" {
    colour  = 2
    energy  = [4, 4]
    snare   = "------s-"
    tom_low = "-------x"
  }

  # Four beats, energies 4 to 5, inside a section
  fill "flam and one in four" {
    colour = 3
    energy = [4, 5]
    snare  = "----f-x-"
  }
  fill "snare middle floor in four" {
    colour  = 4
    energy  = [4, 5]
    snare   = "----x---"
    tom_mid = "------x-"
    tom_low = "-------X"
  }
  fill "snare and floor in four" {
    colour  = 5
    energy  = [4, 5]
    snare   = "----x-s-"
    tom_low = "-----x-X"
  }

  # Four beats, energy 5
  fill "gathering in four" {
    colour = 0
    energy = [5, 5]
    snare  = "----xsxX"
  }
  fill "twos down in four" {
    colour   = 1
    energy   = [5, 5]
    tom_high = "----xx--"
    tom_low  = "------xX"
  }
  fill "threes around the kick in four" {
    colour = 2
    energy = [5, 5]
    snare  = "------sX"
    kick   = "-----x--"
  }
}
