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

  # One beat, energies 1 to 3, inside a section
  fill "off off" {
    colour      = 3
    energy      = [1, 3]
    cross_stick = "-s-x"
  }
  fill "two soft strokes" {
    colour = 4
    energy = [1, 3]
    snare  = "--ss"
  }
  fill "middle to floor" {
    colour  = 5
    energy  = [1, 3]
    tom_mid = "s---"
    tom_low = "--s-"
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

  # One beat, energies 4 to 5, inside a section
  fill "toms" {
    colour  = 3
    energy  = [4, 5]
    tom_mid = "x-x-"
    tom_low = "---X"
  }
  fill "high and floor" {
    colour   = 4
    energy   = [4, 5]
    tom_high = "sx--"
    tom_low  = "--xX"
  }
  fill "off off full" {
    colour = 5
    energy = [4, 5]
    snare  = "-x-X"
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

  # Two beats, energies 1 to 3, inside a section
  fill "off off in two" {
    colour      = 3
    energy      = [1, 3]
    cross_stick = "-----s-x"
  }
  fill "soft threes in two" {
    colour = 4
    energy = [1, 3]
    snare  = "------ss"
  }
  fill "toms in threes in two" {
    colour  = 5
    energy  = [1, 3]
    tom_low = "------s-"
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
  fill "snare to toms in two" {
    colour  = 3
    energy  = [4, 5]
    tom_mid = "----x-x-"
    tom_low = "-------X"
  }
  fill "high and floor in two" {
    colour   = 4
    energy   = [4, 5]
    tom_high = "----xx--"
    tom_low  = "------xX"
  }
  fill "off the beat in two" {
    colour = 5
    energy = [4, 5]
    snare  = "-----x-X"
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
  fill "steps then off in four" {
    colour      = 3
    energy      = [1, 3]
    snare       = "------------s---"
    cross_stick = "--------s-s--s-x"
  }
  fill "soft fingers in four" {
    colour = 4
    energy = [1, 3]
    snare  = "----------s-s-ss"
  }
  fill "toms in threes in four" {
    colour  = 5
    energy  = [1, 3]
    snare   = "------------s---"
    tom_low = "----------s---s-"
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

  # Four beats, energies 4 to 5, inside a section
  fill "snare to toms in four" {
    colour  = 3
    energy  = [4, 5]
    tom_mid = "--------x-x-x-x-"
    tom_low = "---------------X"
  }
  fill "down in threes in four" {
    colour  = 4
    energy  = [4, 5]
    tom_mid = "--------x-x-----"
    tom_low = "------------x-xX"
  }
  fill "off the beat in four" {
    colour = 5
    energy = [4, 5]
    snare  = "--------x-x-sx-X"
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
}
