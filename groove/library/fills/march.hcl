# Fills on the snare alone, as a marching drummer thinks of them, over a kick that
# keeps step. Gentle ones for energies 1 to 3, full ones for 4 and 5.
fills "march" {
  grid = 4

  # One beat, energies 1 to 2
  fill "one and two" {
    colour = 0
    energy = [1, 2]
    snare  = "g-gs"
    kick   = "s---"
  }
  fill "two late ones" {
    colour = 1
    energy = [1, 2]
    snare  = "--gs"
    kick   = "s---"
  }
  fill "four" {
    colour = 2
    energy = [1, 2]
    snare  = "gggs"
    kick   = "s---"
  }

  # One beat, energy 3
  fill "one and a late one" {
    colour = 0
    energy = [3, 3]
    snare  = "g--s"
    kick   = "s---"
  }
  fill "two late soft ones" {
    colour = 1
    energy = [3, 3]
    snare  = "--ss"
    kick   = "s---"
  }
  fill "two and one" {
    colour = 2
    energy = [3, 3]
    snare  = "gg-s"
    kick   = "s---"
  }

  # One beat, energy 4
  fill "two steps back" {
    colour = 0
    energy = [4, 4]
    snare  = "s-x-"
    kick   = "s---"
  }
  fill "two late ones held back" {
    colour = 1
    energy = [4, 4]
    snare  = "--sx"
    kick   = "s---"
  }
  fill "one and two held back" {
    colour = 2
    energy = [4, 4]
    snare  = "s-sx"
    kick   = "s---"
  }

  # One beat, energy 5
  fill "four up" {
    colour = 0
    energy = [5, 5]
    snare  = "xsxX"
    kick   = "x---"
  }
  fill "one and two full" {
    colour = 1
    energy = [5, 5]
    snare  = "x-xX"
    kick   = "x---"
  }
  fill "four growing" {
    colour = 2
    energy = [5, 5]
    snare  = "ssxX"
    kick   = "x---"
  }

  # Two beats, energies 1 to 2
  fill "eighths and two in two" {
    colour = 0
    energy = [1, 2]
    snare  = "----g-ss"
    kick   = "----s---"
  }
  fill "plain in two" {
    colour = 1
    energy = [1, 2]
    snare  = "----g-s-"
    kick   = "----s---"
  }
  fill "growing in two" {
    colour = 2
    energy = [1, 2]
    snare  = "----ggss"
    kick   = "----s---"
  }

  # Two beats, energy 3
  fill "steps and three in two" {
    colour = 0
    energy = [3, 3]
    snare  = "----g-gs"
    kick   = "----s---"
  }
  fill "eighths and two steps in two" {
    colour = 1
    energy = [3, 3]
    snare  = "----s-s-"
    kick   = "----s---"
  }
  fill "a step and four in two" {
    colour = 2
    energy = [3, 3]
    snare  = "----ggss"
    kick   = "----s---"
  }

  # Two beats, energies 4 to 5
  fill "eighths and four in two" {
    colour = 0
    energy = [4, 5]
    snare  = "----xsxX"
    kick   = "----x---"
  }
  fill "growing in two full" {
    colour = 1
    energy = [4, 5]
    snare  = "----x-xX"
    kick   = "----x---"
  }
  fill "steps in two" {
    colour = 2
    energy = [4, 5]
    snare  = "----x-x-"
    kick   = "----x---"
  }

  # Four beats, energies 1 to 3
  fill "eighths and two in four" {
    colour = 0
    energy = [1, 3]
    snare  = "--------g-g-s-ss"
    kick   = "--------s---s---"
  }
  fill "plain in four" {
    colour = 1
    energy = [1, 3]
    snare  = "--------g---g-s-"
    kick   = "--------s---s---"
  }
  fill "long roll in four" {
    colour = 2
    energy = [1, 3]
    snare  = "--------gggsgsss"
    kick   = "--------s---s---"
  }

  # Four beats, energy 4
  fill "steps to eighths in four" {
    colour = 0
    energy = [4, 4]
    snare  = "--------s-s-x-x-"
    kick   = "--------x---x---"
  }
  fill "one and three in four" {
    colour = 1
    energy = [4, 4]
    snare  = "--------s-ssx-xx"
    kick   = "--------x---x---"
  }
  fill "eighths to four in four" {
    colour = 2
    energy = [4, 4]
    snare  = "--------s-s-ssxx"
    kick   = "--------x---x---"
  }

  # Four beats, energy 5
  fill "eighths and four in four" {
    colour = 0
    energy = [5, 5]
    snare  = "--------x-s-xsxX"
    kick   = "--------x---x---"
  }
  fill "long roll in four full" {
    colour = 1
    energy = [5, 5]
    snare  = "--------ssssssxX"
    kick   = "--------x---x---"
  }
  fill "steps in four" {
    colour = 2
    energy = [5, 5]
    snare  = "--------x-sgx-xX"
    kick   = "--------x---x---"
  }

  # One beat, asked for by the song, energies 1 to 3
  fill "step and one" {
    colour = 3
    energy = [1, 3]
    snare  = "s-gs"
    kick   = "s---"
  }
  fill "pairs closing up" {
    colour = 4
    energy = [1, 3]
    snare  = "sggs"
    kick   = "s---"
  }
  fill "pair and pair" {
    colour = 5
    energy = [1, 3]
    snare  = "ssgs"
    kick   = "s---"
  }

  # One beat, asked for by the song, energies 4 to 5
  fill "flam and two" {
    colour = 3
    energy = [4, 5]
    snare  = "f-xX"
    kick   = "x---"
  }
  fill "pair and a last one" {
    colour = 4
    energy = [4, 5]
    snare  = "xs-X"
    kick   = "x---"
  }
  fill "four up hard" {
    colour = 5
    energy = [4, 5]
    snare  = "sxsX"
    kick   = "x---"
  }

  # Two beats, asked for by the song, energies 1 to 3
  fill "steps and pairs in two" {
    colour = 3
    energy = [1, 3]
    snare  = "s-ggs-gs"
    kick   = "s---s---"
  }
  fill "dotted then a pair in two" {
    colour = 4
    energy = [1, 3]
    snare  = "s--gsg-s"
    kick   = "s---s---"
  }
  fill "eighths then four in two" {
    colour = 5
    energy = [1, 3]
    snare  = "s-s-ssss"
    kick   = "s---s---"
  }

  # Two beats, asked for by the song, energies 4 to 5
  fill "pair flam and two in two" {
    colour = 3
    energy = [4, 5]
    snare  = "x-ssf-xX"
    kick   = "x---x---"
  }
  fill "flam and threes in two" {
    colour = 4
    energy = [4, 5]
    snare  = "f-sxssxX"
    kick   = "x---x---"
  }
  fill "four and four in two" {
    colour = 5
    energy = [4, 5]
    snare  = "xssssxxX"
    kick   = "x---x---"
  }

  # Four beats, asked for by the song, energies 1 to 3
  fill "steps and pairs in four" {
    colour = 3
    energy = [1, 3]
    snare  = "s-ggs-ggs-s-s-gs"
    kick   = "s---s---s---s---"
  }
  fill "dotted steps in four" {
    colour = 4
    energy = [1, 3]
    snare  = "s--gs--gs-ggs-s-"
    kick   = "s---s---s---s---"
  }
  fill "steps pairs and four in four" {
    colour = 5
    energy = [1, 3]
    snare  = "s-g-s-ggs-ggssss"
    kick   = "s---s---s---s---"
  }

  # Four beats, asked for by the song, energies 4 to 5
  fill "pairs then flams in four" {
    colour = 3
    energy = [4, 5]
    snare  = "x-ssx-ssf-s-f-xX"
    kick   = "x---x---x---x---"
  }
  fill "flams and threes in four" {
    colour = 4
    energy = [4, 5]
    snare  = "f-sxssxsf-sxxssX"
    kick   = "x---x---x---x---"
  }
  fill "eighths then rolling home in four" {
    colour = 5
    energy = [4, 5]
    snare  = "x-x-xsssxsssxxxX"
    kick   = "x---x---x---x---"
  }
}
