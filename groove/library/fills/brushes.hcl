# Fills with brushes: hardly more than the sweep turning. The same at every
# energy; how loud follows from where they stand.
fills "brushes" {
  grid = 3

  # One beat
  fill "long short" {
    colour = 0
    tap    = "g-s"
  }
  fill "two late ones" {
    colour = 1
    tap    = "-gs"
  }
  fill "three" {
    colour = 2
    tap    = "ggs"
  }
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

  # Two beats
  fill "step long short in two" {
    colour = 0
    tap    = "g--g-s"
  }
  fill "two and two in two" {
    colour = 1
    tap    = "--g-gs"
  }
  fill "gathering in two" {
    colour = 2
    tap    = "g-ggss"
  }
  fill "tap and turn in two" {
    colour = 3
    tap    = "g-----"
    sweep  = "---g~s"
  }
  fill "sweep and tap in two" {
    colour = 4
    tap    = "-----s"
    sweep  = "g~~g~~"
  }
  fill "late then long short in two" {
    colour = 5
    tap    = "--gs-s"
  }

  # Four beats
  fill "four steps in four" {
    colour = 0
    tap    = "g--g-gg--s-s"
  }
  fill "two bars in one in four" {
    colour = 1
    tap    = "g-----g-g-gs"
  }
  fill "gathering in four" {
    colour = 2
    tap    = "--g--gg-ggss"
  }
  fill "turns in four" {
    colour = 3
    sweep  = "g~~g~~g~~g~s"
  }
  fill "taps in the sweep in four" {
    colour = 4
    tap    = "-----g--g--s"
    sweep  = "g~~g~~g~~g~~"
  }
  fill "question in four" {
    colour = 5
    tap    = "g--g-g--gg-s"
  }
}
