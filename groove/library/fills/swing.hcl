# Fills for swing: a pickup into the next bar, and the ride goes on over it. The first beats of
# the longer ones are time.
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
  fill "middle and kick" {
    colour = 3
    snare  = "-s-"
    kick   = "--s"
  }
  fill "two late" {
    colour      = 4
    snare = "-gs"
  }
  fill "step and kick" {
    colour = 5
    snare  = "g--"
    kick   = "--s"
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
  fill "middle and kick in two" {
    colour = 3
    snare  = "----s-"
    kick   = "-----s"
  }
  fill "two late in two" {
    colour      = 4
    snare = "----gs"
  }
  fill "step and kick in two" {
    colour = 5
    snare  = "---g--"
    kick   = "-----s"
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
  fill "middle and kick in four" {
    colour = 3
    snare  = "----------s-"
    kick   = "-----------s"
  }
  fill "two late in four" {
    colour      = 4
    snare = "----------gs"
  }
  fill "step and kick in four" {
    colour = 5
    snare  = "---------g--"
    kick   = "-----------s"
  }
}
