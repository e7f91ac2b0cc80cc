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

  # One beat, asked for by the song, energies 1 to 3
  fill "snare to floor" {
    colour  = 3
    energy  = [1, 3]
    snare   = "s-"
    tom_low = "-s"
  }
  fill "one in the middle" {
    colour  = 4
    energy  = [1, 3]
    tom_mid = "s-"
  }
  fill "snare to middle" {
    colour  = 5
    energy  = [1, 3]
    snare   = "s-"
    tom_mid = "-s"
  }

  # One beat, asked for by the song, energies 4 to 5
  fill "snare to floor hard" {
    colour  = 3
    energy  = [4, 5]
    snare   = "x-"
    tom_low = "-X"
  }
  fill "one flam" {
    colour = 4
    energy = [4, 5]
    snare  = "f-"
  }
  fill "high to middle" {
    colour   = 5
    energy   = [4, 5]
    tom_high = "x-"
    tom_mid  = "-X"
  }

  # Two beats, asked for by the song, energies 1 to 3
  fill "step and two down in two" {
    colour  = 3
    energy  = [1, 3]
    snare   = "s---"
    tom_mid = "--s-"
    tom_low = "---s"
  }
  fill "step and floor in two" {
    colour  = 4
    energy  = [1, 3]
    snare   = "s---"
    tom_low = "--s-"
  }
  fill "four over in two" {
    colour  = 5
    energy  = [1, 3]
    snare   = "ss--"
    tom_mid = "--ss"
  }

  # Two beats, asked for by the song, energies 4 to 5
  fill "step and two down hard in two" {
    colour  = 3
    energy  = [4, 5]
    snare   = "x---"
    tom_mid = "--x-"
    tom_low = "---X"
  }
  fill "flam snare and floor in two" {
    colour  = 4
    energy  = [4, 5]
    snare   = "f-x-"
    tom_low = "---X"
  }
  fill "four over hard in two" {
    colour  = 5
    energy  = [4, 5]
    snare   = "xx--"
    tom_mid = "--xX"
  }

  # Four beats, asked for by the song, energies 1 to 3
  fill "steps down to two in four" {
    colour  = 3
    energy  = [1, 3]
    snare   = "s-s-----"
    tom_mid = "----s---"
    tom_low = "------ss"
  }
  fill "threes down in four" {
    colour  = 4
    energy  = [1, 3]
    snare   = "s-------"
    tom_mid = "---s----"
    tom_low = "------s-"
  }
  fill "eighths with gaps in four" {
    colour  = 5
    energy  = [1, 3]
    snare   = "s-ss----"
    tom_mid = "----s-s-"
    tom_low = "-------s"
  }

  # Four beats, asked for by the song, energies 4 to 5
  fill "step and three twice in four" {
    colour   = 3
    energy   = [4, 5]
    snare    = "x-xx----"
    tom_high = "----x---"
    tom_mid  = "------x-"
    tom_low  = "-------X"
  }
  fill "flams then two in four" {
    colour  = 4
    energy  = [4, 5]
    snare   = "f-s-f-x-"
    tom_low = "-------X"
  }
  fill "eighths around the kit in four" {
    colour   = 5
    energy   = [4, 5]
    snare    = "xs--xs--"
    tom_high = "--xs----"
    tom_mid  = "------xX"
  }
}
