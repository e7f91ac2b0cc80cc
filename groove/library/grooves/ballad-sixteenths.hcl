# A slow song with sixteenths underneath. They only start at 3: before that the
# sixteenth is a single pickup into beat 3, in every other bar.
groove "ballad-sixteenths" {
  about       = "a slow song with sixteenths running quietly underneath"
  meter       = "4/4"
  tempo       = [56, 80]
  grid        = 16
  fills       = "ballad"
  syncopation = 2

  lag {
    snare       = 8
    cross_stick = 8
    bass        = 5
    piano       = 6
  }

  # One stick stroke a bar, on 4.
  level "1" {
    cross_stick = "------------s---"
    bass        = "1==============="
    comp = [
      "1===2===========",
      "x===============",
      "x=====2=========",
      "x===========----",
    ]
    voices      = 2
    centre      = "A3"
  }

  level "2" {
    hat         = "s-g-s-g-s-g-s-g-"
    cross_stick = "----x-------x---"
    kick        = "x-------s-------|x------gs-------"
    bass        = "1======11======="
    comp = [
      "x==2==3=x=====--/1=======1=======",
      "x=====3=x=====--/1===============",
      "x=====3=x==3====/1=======1=======",
      "x==2==3=========/1=======1=======",
      "x=====m=2=======",
      "x==3==2=x=====--/1=======1====---",
      "x===========----/1===============",
    ]
    voices      = 3
    centre      = "Bb3"
    answer {
      kick = "x-------s-s-----|x------gs-s-----"
    }
  }

  # All the sixteenths, weight on the beats.
  level "3" {
    hat    = "sgggsgggsgggsggg"
    snare  = "----s-------s---"
    kick   = "x------xx-------"
    bass   = "1======11=====a="
    comp = [
      "x====-x=x==2==3=/1=======1=======",
      "x==2==3=x===x==-/1=======1=====--",
      "x====-3=x===x===/1=======1=======",
      "x=====x=x==3====/1===========----",
      "x==3==2=========/1=======1=======",
      "x=====m=2===x===",
      "x=======x=====--/1=======1====---",
    ]
    voices = 3
    centre = "C4"
    answer {
      kick = "x------xx-----s-"
    }
  }

  # Every other bar the hat opens a little at its end and closes on 1.
  level "4" {
    hat      = "xgsgxgsgxgsgxgsg|xgsgxgsgxgsgxg--"
    hat_open = "----------------|--------------s-"
    snare    = "----x-------x---"
    kick     = "x------xx-----x-"
    bass     = "1======11===5=a="
    comp = [
      "x====-x=x==x==3=/1=======1=======",
      "x==x==x=x==-x===/1=======1====---",
      "x====-x=x==2==3=/1=======1=====--",
      "x==3==x=x===x==-/1=======1=======",
      "x====-x=x==x===-/1===========----",
      "x==x==3=x==x====/1=======1====---",
      "x==x==3=x===x===/1=======1=======",
      "x=====x=======--/1===============",
    ]
    voices   = 3
    centre   = "Db4"
    answer {
      kick = "x------xx-x---x-"
    }
  }

  # Ride with its own skip.
  level "5" {
    ride     = "X-xsX-xsX-xsX-xs"
    snare    = "----X-------X---"
    kick     = "x------xx-x---x-"
    hat_foot = "s---x---s---x---"
    bass     = "1======11=1=5=a="
    comp = [
      "X====-u=x==u==u=/o===----o===----",
      "X==u==u=x==-u==-/o====---o====---",
      "X==u==u=x==u==2=/o=======o=======",
      "X==-u=u=x==u===-/o===----o===----",
      "X==u==u=u==u==4=/o=======o=======",
      "X==u==4=u===u==-/o=======o=======",
      "X==u==u=u==u==u-/o===----o===----",
      "X====-u=x=====--/o===========----",
    ]
    voices   = 4
    centre   = "D4"
    answer {
      kick = "x------xx-x-----"
    }
  }
}
