# Fills for swing. Those that close a section, colours 0 to 2, are a pickup into the next bar: the
# ride goes on over it, and the first beats of the longer ones are time. Those that the song asks
# for, 3 to 5, are the whole of their beats: long-short and triplets on snare and toms.
fills "swing" {
  grid = 3

  # One beat
  fill "one late" {
    colour = 0
    snare  = "--s"
  }
  fill "long short" {
    colour = 1
    snare  = "g-s"
  }
  fill "a late rim" {
    colour = 2
    cross_stick = "--s"
  }

  # Two beats
  fill "one late in two" {
    colour = 0
    snare  = "-----s"
  }
  fill "long short in two" {
    colour = 1
    snare  = "---g-s"
  }
  fill "a late rim in two" {
    colour = 2
    cross_stick = "-----s"
  }

  # Four beats
  fill "one late in four" {
    colour = 0
    snare  = "-----------s"
  }
  fill "long short in four" {
    colour = 1
    snare  = "---------g-s"
  }
  fill "a late rim in four" {
    colour = 2
    cross_stick = "-----------s"
  }

  # One beat, asked for by the song, energies 1 to 3
  fill "long short soft" {
    colour  = 3
    energy  = [1, 3]
    snare   = "s--"
    tom_low = "--s"
  }
  fill "three and a tom" {
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
  fill "down in three" {
    colour  = 3
    energy  = [4, 5]
    snare   = "x--"
    tom_mid = "-x-"
    tom_low = "--X"
  }
  fill "long short to the floor" {
    colour  = 4
    energy  = [4, 5]
    snare   = "x--"
    tom_low = "--X"
  }
  fill "three on the snare" {
    colour = 5
    energy = [4, 5]
    snare  = "xsX"
  }

  # Two beats, asked for by the song, energies 1 to 3
  fill "skips to the floor in two" {
    colour  = 3
    energy  = [1, 3]
    snare   = "s-gs--"
    tom_low = "-----s"
  }
  fill "two apart two down in two" {
    colour  = 4
    energy  = [1, 3]
    snare   = "sg----"
    tom_mid = "---s--"
    tom_low = "-----s"
  }
  fill "skip and three in two" {
    colour  = 5
    energy  = [1, 3]
    snare   = "s-sgs-"
    tom_mid = "-----s"
  }

  # Two beats, asked for by the song, energies 4 to 5
  fill "three and down in two" {
    colour   = 3
    energy   = [4, 5]
    snare    = "xss---"
    tom_high = "---x--"
    tom_mid  = "----x-"
    tom_low  = "-----X"
  }
  fill "wide over the kick in two" {
    colour   = 4
    energy   = [4, 5]
    snare    = "x-----"
    tom_high = "--x---"
    tom_mid  = "----x-"
    tom_low  = "-----X"
    kick     = "---x--"
  }
  fill "skip and down in two" {
    colour  = 5
    energy  = [4, 5]
    snare   = "x-xx--"
    tom_mid = "----x-"
    tom_low = "-----X"
  }

  # Three beats, asked for by the song, energies 1 to 3
  fill "skips in the bar in three" {
    colour  = 3
    energy  = [1, 3]
    snare   = "s-gs-gs--"
    tom_mid = "--------s"
  }
  fill "pairs around the kit in three" {
    colour   = 4
    energy   = [1, 3]
    snare    = "sg-------"
    tom_high = "---sg----"
    tom_mid  = "------s--"
    tom_low  = "--------s"
  }
  fill "waiting then threes in three" {
    colour  = 5
    energy  = [1, 3]
    snare   = "s--sgss--"
    tom_mid = "-------gs"
  }

  # Three beats, asked for by the song, energies 4 to 5
  fill "threes around the kit in three" {
    colour   = 3
    energy   = [4, 5]
    snare    = "xss------"
    tom_high = "---xss---"
    tom_mid  = "------xx-"
    tom_low  = "--------X"
  }
  fill "wide across the bar in three" {
    colour   = 4
    energy   = [4, 5]
    snare    = "x-x------"
    tom_high = "----x----"
    tom_mid  = "------x--"
    tom_low  = "--------X"
    kick     = "-s-s-s-s-"
  }
  fill "skip then run in three" {
    colour   = 5
    energy   = [4, 5]
    snare    = "x-xx-----"
    tom_high = "----xx---"
    tom_mid  = "------x--"
    tom_low  = "-------xX"
  }

  # Four beats, asked for by the song, energies 1 to 3
  fill "skips in the bar in four" {
    colour  = 3
    energy  = [1, 3]
    snare   = "s-gs-gs-gs--"
    tom_mid = "-----------s"
  }
  fill "pairs around the kit in four" {
    colour   = 4
    energy   = [1, 3]
    snare    = "sg----------"
    tom_high = "---sg-------"
    tom_mid  = "------sg----"
    tom_low  = "---------s-s"
  }
  fill "waiting then threes in four" {
    colour  = 5
    energy  = [1, 3]
    snare   = "s--s--sgs---"
    tom_mid = "---------sg-"
    tom_low = "-----------s"
  }

  # Four beats, asked for by the song, energies 4 to 5
  fill "threes around the kit in four" {
    colour   = 3
    energy   = [4, 5]
    snare    = "xss---xss---"
    tom_high = "---xss------"
    tom_mid  = "---------xx-"
    tom_low  = "-----------X"
  }
  fill "wide across the bar in four" {
    colour   = 4
    energy   = [4, 5]
    snare    = "x-x---------"
    tom_high = "----x-x-----"
    tom_mid  = "--------x---"
    tom_low  = "----------xX"
    kick     = "-s-s-s-s-s--"
  }
  fill "skips then run in four" {
    colour   = 5
    energy   = [4, 5]
    snare    = "x-xx-x------"
    tom_high = "------xxx---"
    tom_mid  = "---------x--"
    tom_low  = "----------xX"
  }
}
