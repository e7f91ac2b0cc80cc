# Fills for bossa, in eighths and hardly louder than the time. The same at every
# energy; how loud follows from where they stand.
fills "bossa" {
  grid = 2

  # One beat
  fill "rim twice" {
    colour      = 0
    cross_stick = "gs"
  }
  fill "rim off the beat" {
    colour      = 1
    cross_stick = "-s"
  }
  fill "snare twice" {
    colour = 2
    snare  = "gs"
  }
  fill "snare off the beat" {
    colour = 3
    snare  = "-s"
  }
  fill "a tom off the beat" {
    colour  = 4
    tom_mid = "-s"
  }
  fill "middle to floor" {
    colour  = 5
    tom_mid = "g-"
    tom_low = "-s"
  }

  # Two beats
  fill "rim then two in two" {
    colour      = 0
    cross_stick = "g-ss"
  }
  fill "two rims then one in two" {
    colour      = 1
    cross_stick = "sg-s"
  }
  fill "snare then two in two" {
    colour = 2
    snare  = "g-gs"
  }
  fill "two then one in two" {
    colour = 3
    snare  = "gg-s"
  }
  fill "two and a tom in two" {
    colour  = 4
    snare   = "gg--"
    tom_mid = "---s"
  }
  fill "snare middle floor in two" {
    colour  = 5
    snare   = "g---"
    tom_mid = "--s-"
    tom_low = "---s"
  }

  # Four beats
  fill "rim in threes in four" {
    colour      = 0
    cross_stick = "s--s-ssx"
  }
  fill "rim steps in four" {
    colour      = 1
    cross_stick = "s-s-ss-x"
  }
  fill "snare in threes in four" {
    colour = 2
    snare  = "g--g-ggs"
  }
  fill "snare steps in four" {
    colour = 3
    snare  = "g-g--s-s"
  }
  fill "threes and a tom in four" {
    colour  = 4
    snare   = "g--g-s--"
    tom_mid = "-------s"
  }
  fill "three drums in four" {
    colour  = 5
    snare   = "g--g----"
    tom_mid = "----s-s-"
    tom_low = "-------s"
  }
}
