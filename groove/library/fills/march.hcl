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

  # One beat, energies 1 to 3, inside a section
  fill "two eighths" {
    colour = 3
    energy = [1, 3]
    snare  = "s--s"
    kick   = "s---"
  }
  fill "three" {
    colour = 4
    energy = [1, 3]
    snare  = "-gss"
    kick   = "s---"
  }
  fill "eighth and drag" {
    colour = 5
    energy = [1, 3]
    snare  = "g-d-"
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

  # One beat, energies 4 to 5, inside a section
  fill "flam and two" {
    colour = 3
    energy = [4, 5]
    snare  = "f-xX"
    kick   = "x---"
  }
  fill "off strokes" {
    colour = 4
    energy = [4, 5]
    snare  = "sxsX"
    kick   = "x---"
  }
  fill "flam and one" {
    colour = 5
    energy = [4, 5]
    snare  = "f--X"
    kick   = "x---"
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

  # Two beats, energies 1 to 3, inside a section
  fill "sparse in two" {
    colour = 3
    energy = [1, 3]
    snare  = "------ss"
    kick   = "----s---"
  }
  fill "gaps in two" {
    colour = 4
    energy = [1, 3]
    snare  = "----gg-s"
    kick   = "----s---"
  }
  fill "eighths and drag in two" {
    colour = 5
    energy = [1, 3]
    snare  = "----s-d-"
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
  fill "flams in two" {
    colour = 3
    energy = [4, 5]
    snare  = "----f-xX"
    kick   = "----x---"
  }
  fill "threes in two" {
    colour = 4
    energy = [4, 5]
    snare  = "----sxsX"
    kick   = "----x---"
  }
  fill "flam and one in two" {
    colour = 5
    energy = [4, 5]
    snare  = "----f--X"
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
  fill "sparse in four" {
    colour = 3
    energy = [1, 3]
    snare  = "--------g-g-g--s"
    kick   = "--------s---s---"
  }
  fill "gaps in four" {
    colour = 4
    energy = [1, 3]
    snare  = "--------gg-sgg-s"
    kick   = "--------s---s---"
  }
  fill "eighths and drag in four" {
    colour = 5
    energy = [1, 3]
    snare  = "--------g-g-g-d-"
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

  # Four beats, energies 4 to 5, inside a section
  fill "flams in four" {
    colour = 3
    energy = [4, 5]
    snare  = "--------f-s-f-xX"
    kick   = "--------x---x---"
  }
  fill "threes in four" {
    colour = 4
    energy = [4, 5]
    snare  = "--------sxsssxsX"
    kick   = "--------x---x---"
  }
  fill "flam and one in four" {
    colour = 5
    energy = [4, 5]
    snare  = "--------x-s-f--X"
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
}
