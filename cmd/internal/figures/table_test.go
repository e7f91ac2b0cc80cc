package main

import (
	"math"
	"strings"
	"testing"
)

func TestTable(t *testing.T) {
	tb := &table{}
	tb.title("PIANO")
	tb.add("in", between(.35, .75), .5)
	tb.add("out", atMost(1.2), 1.2006)
	tb.add("at the end of it", atMost(1.2), 1.2004)
	tb.add("to look at", noAim, 3)
	tb.add("nothing measured", atLeast(.95), math.NaN())
	tb.addAll("one of two", []value{{"e2", .1, between(0, 0)}, {"e3", -.004, atLeast(-1)}})
	tb.addAll("many", []value{{"a", 1, noAim}, {"b", 2, noAim}, {"c", 3, noAim}, {"d", 4, noAim}, {"e", 5, noAim},
		{"f", 6, noAim}})
	var b strings.Builder
	if err := tb.write(&b); err != nil {
		t.Fatal(err)
	}
	want := `figure            aim       value                    within
PIANO
in                .35-.75   .50                      yes
out               <= 1.20   1.201                    no
at the end of it  <= 1.20   1.20                     yes
to look at        -         3
nothing measured  >= .95    none
one of two        0, >= -1  e2 .10, e3 -.004         no
many              -         a 1, b 2, c 3, d 4, e 5
                            f 6
`
	if b.String() != want {
		t.Errorf("got\n%swant\n%s", b.String(), want)
	}
}
