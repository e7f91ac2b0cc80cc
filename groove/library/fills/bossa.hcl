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

  # One beat, asked for by the song, energies 1 to 3
  fill "rim to floor" {
    colour      = 3
    energy      = [1, 3]
    cross_stick = "s-"
    tom_low     = "-s"
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
  fill "snare to floor full" {
    colour  = 3
    energy  = [4, 5]
    snare   = "x-"
    tom_low = "-x"
  }
  fill "one on the floor" {
    colour  = 4
    energy  = [4, 5]
    tom_low = "x-"
  }
  fill "high to middle" {
    colour   = 5
    energy   = [4, 5]
    tom_high = "x-"
    tom_mid  = "-x"
  }

  # Two beats, asked for by the song, energies 1 to 3
  fill "rim and floor in two" {
    colour      = 3
    energy      = [1, 3]
    cross_stick = "s-s-"
    tom_low     = "---s"
  }
  fill "two and a late floor in two" {
    colour  = 4
    energy  = [1, 3]
    snare   = "ss--"
    tom_low = "---s"
  }
  fill "snare then down in two" {
    colour  = 5
    energy  = [1, 3]
    snare   = "s---"
    tom_mid = "--s-"
    tom_low = "---s"
  }

  # Two beats, asked for by the song, energies 4 to 5
  fill "snare then down firm in two" {
    colour  = 3
    energy  = [4, 5]
    snare   = "x---"
    tom_mid = "--x-"
    tom_low = "---x"
  }
  fill "two and a late floor firm in two" {
    colour   = 4
    energy   = [4, 5]
    snare    = "x---"
    tom_high = "-x--"
    tom_low  = "---x"
  }
  fill "snare to two below in two" {
    colour  = 5
    energy  = [4, 5]
    snare   = "xs--"
    tom_low = "--xx"
  }

  # Four beats, asked for by the song, energies 1 to 3
  fill "rim in threes over the bar in four" {
    colour      = 3
    energy      = [1, 3]
    cross_stick = "s--s--s-"
    tom_low     = "-------s"
  }
  fill "eighths with gaps in four" {
    colour  = 4
    energy  = [1, 3]
    snare   = "s-s-----"
    tom_mid = "----ss-s"
  }
  fill "snare to toms in four" {
    colour  = 5
    energy  = [1, 3]
    snare   = "s-s-----"
    tom_mid = "---ss-s-"
    tom_low = "-------s"
  }

  # Four beats, asked for by the song, energies 4 to 5
  fill "threes down the kit in four" {
    colour   = 3
    energy   = [4, 5]
    snare    = "x-------"
    tom_high = "---x----"
    tom_mid  = "------x-"
    tom_low  = "-------x"
  }
  fill "pairs in threes in four" {
    colour   = 4
    energy   = [4, 5]
    snare    = "xs------"
    tom_high = "---xs---"
    tom_low  = "------xs"
  }
  fill "eighths home in four" {
    colour   = 5
    energy   = [4, 5]
    snare    = "xs----x-"
    tom_high = "--sx----"
    tom_mid  = "----xs--"
    tom_low  = "-------x"
  }
}
