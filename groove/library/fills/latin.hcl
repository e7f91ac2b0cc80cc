# Fills for samba: rim and fingers up to energy 3, drum and toms above.
fills "latin" {
  grid = 4

  # One beat, energies 1 to 2
  fill "rim and rim" {
    colour      = 0
    energy      = [1, 2]
    cross_stick = "s-x-"
  }
  fill "two late ones" {
    colour      = 1
    energy      = [1, 2]
    cross_stick = "--sx"
  }
  fill "across" {
    colour      = 2
    energy      = [1, 2]
    cross_stick = "s--x"
  }

  # One beat, energy 3
  fill "two soft eighths" {
    colour = 0
    energy = [3, 3]
    snare  = "s-s-"
  }
  fill "rim to middle" {
    colour      = 1
    energy      = [3, 3]
    cross_stick = "s---"
    tom_mid     = "--s-"
  }
  fill "a step and a late one" {
    colour = 2
    energy = [3, 3]
    snare  = "s--s"
  }

  # One beat, energy 4
  fill "across held back" {
    colour = 0
    energy = [4, 4]
    snare  = "s--x"
  }
  fill "middle to floor soft" {
    colour  = 1
    energy  = [4, 4]
    tom_mid = "s---"
    tom_low = "--s-"
  }
  fill "high and floor late" {
    colour   = 2
    energy   = [4, 4]
    tom_high = "--s-"
    tom_low  = "---s"
  }

  # One beat, energy 5
  fill "one and two" {
    colour = 0
    energy = [5, 5]
    snare  = "s-xX"
  }
  fill "three after" {
    colour = 1
    energy = [5, 5]
    snare  = "-sxX"
  }
  fill "across full" {
    colour = 2
    energy = [5, 5]
    snare  = "x--X"
  }

  # Two beats, energies 1 to 2
  fill "three three two in two" {
    colour      = 0
    energy      = [1, 2]
    cross_stick = "------x-"
  }
  fill "pick up in two" {
    colour      = 1
    energy      = [1, 2]
    cross_stick = "----s-sx"
  }
  fill "across in two" {
    colour      = 2
    energy      = [1, 2]
    cross_stick = "----s--x"
  }

  # Two beats, energy 3
  fill "soft threes on the snare in two" {
    colour = 0
    energy = [3, 3]
    snare  = "------s-"
  }
  fill "rim then middle in two" {
    colour  = 1
    energy  = [3, 3]
    tom_mid = "------s-"
  }
  fill "a step and across in two" {
    colour = 2
    energy = [3, 3]
    snare  = "----s--s"
  }

  # Two beats, energies 4 to 5
  fill "three three two in two full" {
    colour = 0
    energy = [4, 5]
    snare  = "------xX"
  }
  fill "rolling threes in two" {
    colour = 1
    energy = [4, 5]
    snare  = "-----xxX"
  }
  fill "straight then across in two" {
    colour = 2
    energy = [4, 5]
    snare  = "----x--X"
  }

  # Four beats, energies 1 to 3
  fill "a clave of its own in four" {
    colour      = 0
    energy      = [1, 3]
    snare       = "------------s---"
    cross_stick = "----------s--x--"
  }
  fill "sparse in four" {
    colour      = 1
    energy      = [1, 3]
    cross_stick = "------------s-sx"
  }
  fill "across the beats in four" {
    colour      = 2
    energy      = [1, 3]
    cross_stick = "--------s---s--x"
  }

  # Four beats, energy 4
  fill "threes and eighths in four" {
    colour = 0
    energy = [4, 4]
    snare  = "----------s-x-x-"
    kick   = "--------x-------"
  }
  fill "snare middle floor in four" {
    colour  = 1
    energy  = [4, 4]
    snare   = "------------s---"
    tom_mid = "--------x--x----"
    tom_low = "--------------xx"
  }
  fill "wide threes in four" {
    colour = 2
    energy = [4, 4]
    snare  = "---------x--x--x"
    kick   = "--------x-------"
  }

  # Four beats, energy 5
  fill "threes and a lift in four" {
    colour = 0
    energy = [5, 5]
    snare  = "--------ssx-ssxX"
  }
  fill "rolling threes in four" {
    colour = 1
    energy = [5, 5]
    snare  = "--------xs-xs-xX"
  }
  fill "broken threes in four" {
    colour = 2
    energy = [5, 5]
    snare  = "--------s-xsss-X"
  }

  # One beat, asked for by the song, energies 1 to 3
  fill "rim three and one" {
    colour      = 3
    energy      = [1, 3]
    cross_stick = "s--s"
  }
  fill "fingers" {
    colour = 4
    energy = [1, 3]
    snare  = "s-gs"
  }
  fill "snare to toms" {
    colour  = 5
    energy  = [1, 3]
    snare   = "s---"
    tom_mid = "--s-"
    tom_low = "---s"
  }

  # One beat, asked for by the song, energies 4 to 5
  fill "pair and one below" {
    colour  = 3
    energy  = [4, 5]
    snare   = "xs--"
    tom_low = "---X"
  }
  fill "toms close up" {
    colour  = 4
    energy  = [4, 5]
    tom_mid = "x---"
    tom_low = "--xX"
  }
  fill "snare high floor" {
    colour   = 5
    energy   = [4, 5]
    snare    = "xs--"
    tom_high = "--x-"
    tom_low  = "---X"
  }

  # Two beats, asked for by the song, energies 1 to 3
  fill "rim in threes in two" {
    colour      = 3
    energy      = [1, 3]
    cross_stick = "s--s--s-"
  }
  fill "fingers in threes in two" {
    colour = 4
    energy = [1, 3]
    snare  = "s-gs-gs-"
  }
  fill "off the beat to toms in two" {
    colour  = 5
    energy  = [1, 3]
    snare   = "s-s-----"
    tom_mid = "-----s--"
    tom_low = "-------s"
  }

  # Two beats, asked for by the song, energies 4 to 5
  fill "pairs in threes in two" {
    colour   = 3
    energy   = [4, 5]
    snare    = "xs------"
    tom_high = "---xs---"
    tom_low  = "------xX"
  }
  fill "toms roll down in two" {
    colour   = 4
    energy   = [4, 5]
    tom_high = "--xx----"
    tom_mid  = "x---xx--"
    tom_low  = "------xX"
  }
  fill "rolling threes in two full" {
    colour   = 5
    energy   = [4, 5]
    snare    = "xsx-----"
    tom_high = "---xsx--"
    tom_mid  = "------x-"
    tom_low  = "-------X"
  }

  # Four beats, asked for by the song, energies 1 to 3
  fill "rim three and two in four" {
    colour      = 3
    energy      = [1, 3]
    cross_stick = "s--s--s---s-s---"
  }
  fill "fingers over the bar in four" {
    colour = 4
    energy = [1, 3]
    snare  = "s-gs-g-sg-sg-sgs"
  }
  fill "threes to the toms in four" {
    colour  = 5
    energy  = [1, 3]
    snare   = "s-------s-------"
    tom_mid = "---s-s-----s-s--"
    tom_low = "---------------s"
  }

  # Four beats, asked for by the song, energies 4 to 5
  fill "pairs in threes in four" {
    colour   = 3
    energy   = [4, 5]
    snare    = "xs------xs------"
    tom_high = "---xs------xs---"
    tom_mid  = "------x---------"
    tom_low  = "--------------xX"
  }
  fill "toms roll over the bar in four" {
    colour   = 4
    energy   = [4, 5]
    tom_high = "----x-xx--------"
    tom_mid  = "x-xx----x-xx----"
    tom_low  = "------------xxxX"
  }
  fill "rolling threes home in four" {
    colour   = 5
    energy   = [4, 5]
    snare    = "xsx------xsx----"
    tom_high = "---xsx------xs--"
    tom_mid  = "------xsx-------"
    tom_low  = "--------------xX"
  }
}
