# Fills with brushes: hardly more than the sweep turning. Those that close a section are
# a shade firmer from energy 3 up; how loud follows from where they stand.
fills "brushes" {
  grid = 3

  # One beat, energies 1 to 2
  fill "long short" {
    colour = 0
    energy = [1, 2]
    tap    = "g-s"
  }
  fill "two late ones" {
    colour = 1
    energy = [1, 2]
    tap    = "-gs"
  }
  fill "three" {
    colour = 2
    energy = [1, 2]
    tap    = "ggs"
  }

  # One beat, energies 3 to 5
  fill "long short firm" {
    colour = 0
    energy = [3, 5]
    tap    = "s-s"
  }
  fill "two late ones firm" {
    colour = 1
    energy = [3, 5]
    tap    = "-ss"
  }
  fill "three growing" {
    colour = 2
    energy = [3, 5]
    tap    = "gss"
  }

  # Two beats, energies 1 to 2
  fill "step long short in two" {
    colour = 0
    energy = [1, 2]
    tap    = "---g-s"
  }
  fill "two and two in two" {
    colour = 1
    energy = [1, 2]
    tap    = "----gs"
  }
  fill "gathering in two" {
    colour = 2
    energy = [1, 2]
    tap    = "---gss"
  }

  # Two beats, energies 3 to 5
  fill "steps and three in two" {
    colour = 0
    energy = [3, 5]
    tap    = "---sgs"
  }
  fill "late and two in two" {
    colour = 1
    energy = [3, 5]
    tap    = "----ss"
  }
  fill "running up in two" {
    colour = 2
    energy = [3, 5]
    tap    = "---sg-"
  }

  # Four beats, energies 1 to 2
  fill "four steps in four" {
    colour = 0
    energy = [1, 2]
    tap    = "------g--s-s"
  }
  fill "two bars in one in four" {
    colour = 1
    energy = [1, 2]
    tap    = "------g-gsgs"
  }
  fill "gathering in four" {
    colour = 2
    energy = [1, 2]
    tap    = "------g-ggss"
  }

  # Four beats, energies 3 to 5
  fill "steps and three in four" {
    colour = 0
    energy = [3, 5]
    tap    = "------g--sgs"
  }
  fill "wait then run in four" {
    colour = 1
    energy = [3, 5]
    tap    = "------g-sgss"
  }
  fill "two and two in four" {
    colour = 2
    energy = [3, 5]
    tap    = "--------ssss"
  }

  # One beat, asked for by the song, energies 1 to 3
  fill "a step and a ghost" {
    colour = 3
    energy = [1, 3]
    tap    = "s-g"
  }
  fill "a pair of taps" {
    colour = 4
    energy = [1, 3]
    tap    = "sg-"
  }
  fill "three taps" {
    colour = 5
    energy = [1, 3]
    tap    = "sgs"
  }

  # One beat, asked for by the song, energies 4 to 5
  fill "three up" {
    colour = 3
    energy = [4, 5]
    tap    = "ssx"
  }
  fill "long short to the floor" {
    colour  = 4
    energy  = [4, 5]
    tap     = "s--"
    tom_low = "--x"
  }
  fill "tap middle floor" {
    colour  = 5
    energy  = [4, 5]
    tap     = "x--"
    tom_mid = "-s-"
    tom_low = "--x"
  }

  # Two beats, asked for by the song, energies 1 to 3
  fill "taps and a long short in two" {
    colour = 3
    energy = [1, 3]
    tap    = "s-gs-s"
  }
  fill "across the beat in two" {
    colour = 4
    energy = [1, 3]
    tap    = "s-gs-g"
  }
  fill "taps and three in two" {
    colour = 5
    energy = [1, 3]
    tap    = "s-sggs"
  }

  # Two beats, asked for by the song, energies 4 to 5
  fill "skip and three up in two" {
    colour = 3
    energy = [4, 5]
    tap    = "s-ssxx"
  }
  fill "three to the floor in two" {
    colour  = 4
    energy  = [4, 5]
    tap     = "sgs---"
    tom_mid = "---s--"
    tom_low = "-----x"
  }
  fill "skip and down in two" {
    colour  = 5
    energy  = [4, 5]
    tap     = "s-s---"
    tom_mid = "---x--"
    tom_low = "----xx"
  }

  # Four beats, asked for by the song, energies 1 to 3
  fill "steps and skips in four" {
    colour = 3
    energy = [1, 3]
    tap    = "s--s-gs--ss-"
  }
  fill "across the beats in four" {
    colour = 4
    energy = [1, 3]
    tap    = "s-g--gs-g--s"
  }
  fill "steps then threes in four" {
    colour = 5
    energy = [1, 3]
    tap    = "s--sgss-gggs"
  }

  # Four beats, asked for by the song, energies 4 to 5
  fill "skips to three in four" {
    colour = 3
    energy = [4, 5]
    tap    = "s-ss-ss-sxsx"
  }
  fill "around the kit in four" {
    colour   = 4
    energy   = [4, 5]
    tap      = "sgs---------"
    tom_high = "---sgs------"
    tom_mid  = "------sgs---"
    tom_low  = "---------s-x"
  }
  fill "threes home in four" {
    colour   = 5
    energy   = [4, 5]
    tap      = "s-sxss------"
    tom_high = "------ss----"
    tom_mid  = "--------sx--"
    tom_low  = "----------xx"
  }
}
