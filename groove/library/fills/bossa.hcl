# Fills for bossa, in eighths and hardly louder than the time. Those that close a section
# go over to the toms from energy 3 up; how loud follows from where they stand.
fills "bossa" {
  grid = 2

  # One beat, energies 1 to 2
  fill "rim twice" {
    colour      = 0
    energy      = [1, 2]
    cross_stick = "ss"
  }
  fill "rim off the beat" {
    colour      = 1
    energy      = [1, 2]
    cross_stick = "-s"
  }
  fill "snare twice" {
    colour = 2
    energy = [1, 2]
    snare  = "ss"
  }

  # One beat, inside a section
  fill "snare off the beat" {
    colour = 3
    snare  = "-s"
  }
  fill "a tom off the beat" {
    colour  = 4
    tom_mid = "-s"
  }
  fill "middle to floor" {
    colour  = 5
    tom_mid = "s-"
    tom_low = "-s"
  }

  # One beat, energies 3 to 5
  fill "snare to floor" {
    colour  = 0
    energy  = [3, 5]
    snare   = "s-"
    tom_low = "-s"
  }
  fill "rim to middle" {
    colour      = 1
    energy      = [3, 5]
    cross_stick = "s-"
    tom_mid     = "-s"
  }
  fill "high to floor" {
    colour   = 2
    energy   = [3, 5]
    tom_high = "s-"
    tom_low  = "-s"
  }

  # Two beats, energies 1 to 2
  fill "rim then two in two" {
    colour      = 0
    energy      = [1, 2]
    cross_stick = "--ss"
  }
  fill "two rims then one in two" {
    colour      = 1
    energy      = [1, 2]
    cross_stick = "---s"
  }
  fill "snare then two in two" {
    colour = 2
    energy = [1, 2]
    snare  = "--ss"
  }

  # Two beats, inside a section
  fill "two then one in two" {
    colour = 3
    snare  = "---s"
  }
  fill "two and a tom in two" {
    colour  = 4
    tom_mid = "---s"
  }
  fill "snare middle floor in two" {
    colour  = 5
    tom_mid = "--s-"
    tom_low = "---s"
  }

  # Two beats, energies 3 to 5
  fill "rims then middle in two" {
    colour      = 0
    energy      = [3, 5]
    cross_stick = "--s-"
    tom_mid     = "---s"
  }
  fill "snares then floor in two" {
    colour  = 1
    energy  = [3, 5]
    snare   = "--s-"
    tom_low = "---s"
  }
  fill "highs then floor in two" {
    colour   = 2
    energy   = [3, 5]
    tom_high = "--s-"
    tom_low  = "---s"
  }

  # Four beats, energies 1 to 2
  fill "rim in threes in four" {
    colour      = 0
    energy      = [1, 2]
    cross_stick = "-----ssx"
  }
  fill "rim steps in four" {
    colour      = 1
    energy      = [1, 2]
    cross_stick = "----ss-x"
  }
  fill "snare in threes in four" {
    colour = 2
    energy = [1, 2]
    snare  = "-----sss"
  }

  # Four beats, inside a section
  fill "snare steps in four" {
    colour = 3
    snare  = "-----s-s"
  }
  fill "threes and a tom in four" {
    colour  = 4
    snare   = "-----s--"
    tom_mid = "-------s"
  }
  fill "three drums in four" {
    colour  = 5
    tom_mid = "----s-s-"
    tom_low = "-------s"
  }

  # Four beats, energies 3 to 5
  fill "rim in threes to the floor in four" {
    colour      = 0
    energy      = [3, 5]
    cross_stick = "-----s--"
    tom_low     = "-------s"
  }
  fill "snare in threes to the floor in four" {
    colour  = 1
    energy  = [3, 5]
    snare   = "-----ss-"
    tom_low = "-------s"
  }
  fill "high then floor in four" {
    colour   = 2
    energy   = [3, 5]
    tom_high = "-----s--"
    tom_low  = "------ss"
  }
}
