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

  # One beat, inside a section
  fill "a turn of the brush" {
    colour = 3
    sweep  = "g~s"
  }
  fill "one tap" {
    colour = 4
    tap    = "--s"
  }
  fill "a tap in the sweep" {
    colour = 5
    tap    = "--s"
    sweep  = "g~~"
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

  # Two beats, inside a section
  fill "tap and turn in two" {
    colour = 3
    sweep  = "---g~s"
  }
  fill "sweep and tap in two" {
    colour = 4
    tap    = "-----s"
    sweep  = "---g~~"
  }
  fill "late then long short in two" {
    colour = 5
    tap    = "---s-s"
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

  # Four beats, inside a section
  fill "turns in four" {
    colour = 3
    sweep  = "------g~~g~s"
  }
  fill "taps in the sweep in four" {
    colour = 4
    tap    = "--------g--s"
    sweep  = "------g~~g~~"
  }
  fill "question in four" {
    colour = 5
    tap    = "--------gg-s"
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
}
