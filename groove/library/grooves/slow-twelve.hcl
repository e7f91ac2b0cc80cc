# Four slow beats of three. The eighths are the singer's cushion: soft at 2, whole
# at 3, on the ride at 4, where the hands of the comp rock against them.
groove "slow-twelve" {
  about       = "slow triplets written out: soul and gospel ballads"
  meter       = "12/8"
  tempo       = [44, 72]
  grid        = 12
  fills       = "compound"
  syncopation = 2

  lag {
    snare       = 8
    cross_stick = 8
    bass        = 5
    piano       = 6
  }

  level "1" {
    cross_stick = "---------s--"
    bass        = "1==========="
    comp = [
      "1==2========",
      "x===========",
      "x=====u=====",
      "x========u==",
      "x========---",
    ]
    voices      = 2
    centre      = "A3"
  }

  level "2" {
    hat         = "s-gs-gs-gs-g"
    cross_stick = "---x-----x--"
    kick        = "x-----s-----"
    bass        = "1====11====="
    comp = [
      "x==3==x=====/1=====1=====",
      "x==2==3=====/1=====1=====",
      "x==3==m==2==",
      "x=23==x=====/1===========",
      "x==3==x==3==/1=====1===--",
      "--23==2=====/1=====1=====",
      "x=====s=====/1===========",
    ]
    voices      = 3
    centre      = "Bb3"
    answer {
      kick = "x-----s----s"
    }
  }

  level "3" {
    hat    = "sggsggsggsgg"
    snare  = "---s-----s--"
    kick   = "x-----x-----"
    bass   = "1====11====a"
    comp = [
      "x==3==x==3==/1=====1=====",
      "x=23==x==x==/1===========",
      "x==3=2x==x==/1=====1=====",
      "x==x==x==2==/1=====1===--",
      "x=23==x=====/1=====1=====",
      "x=23==x==3==/1=====1=====",
      "x=====x=====/1===========",
    ]
    voices = 3
    centre = "C4"
    answer {
      kick = "x-----x----s"
    }
  }

  level "4" {
    ride     = "xssxssxssxss"
    snare    = "---x-----x--"
    kick     = "x----xx-----"
    hat_foot = "---s-----s--"
    bass     = "1====11==5=a"
    comp = [
      "x==x==x==x=3/1=====1=====",
      "x==x=3x==x==/1===========",
      "x==3==x==x=x/1=====1=====",
      "x==x==x==3==/1=====1===--",
      "x=3x==x==x==/1===========",
      "x==x=3x==3==/1=====1=====",
      "x==x==x=====/1===========",
    ]
    voices   = 3
    centre   = "Db4"
    answer {
      kick = "x----xx----x"
    }
  }

  level "5" {
    ride     = "XsxXsxXsxXsx"
    snare    = "---X-----X--"
    kick     = "x----xx----x"
    hat_foot = "s--x--s--x--"
    bass     = "1==1=11==5=a"
    comp = [
      "X==u=-u==u=u/o===--o==---",
      "X==u=uu==u=-/o=======----",
      "X=4u==u==u=u/o=====o=====",
      "X==u=uu==u=u/o===--o==---",
      "X=-u=ux==u=4/o=====o=====",
      "X=ux==u==u=-/o===--o===--",
      "X==u==x====-/o=======----",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      kick = "x----xx-----"
    }
  }
}
