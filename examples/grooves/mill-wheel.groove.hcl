# A groove of the song's own: the mill wheel, in eighths. It turns the same way
# at every energy; what grows is how much water it lifts.
groove "mill-wheel" {
  about       = "a wheel in three: a broken chord goes round, the brush sweeps under it"
  meter       = "3/4"
  tempo       = [100, 160]
  grid        = 6 # steps a bar: eighths
  kit         = "brushes"
  fills       = "brushes"
  syncopation = 3

  lag {
    piano = 4
  }

  level "1" {
    bass   = "1====="
    comp   = "1=2==="
    voices = 2
  }

  level "2" {
    sweep    = "x~~~~~"
    hat_foot = "--s---"
    kick     = "s-----"
    bass     = "1====="
    comp     = "1=2=3="
    voices   = 3
  }

  level "3" {
    from     = "2"
    hat_foot = "--s-s-"
    bass     = "1===5="
    comp     = "1=2=3=|x=3=2="
  }

  level "4" {
    from   = "3"
    tap    = "--g-x-"
    kick   = "x-----"
    bass   = "1===5=|1=5=a="
    comp   = "x=2=3=|x=u=u="
    voices = 4
  }

  level "5" {
    from = "4"
    tap  = "--x-x-"
    kick = "x---s-"
    comp = "x=u=u=|x=u=x="
  }
}
