package plan_test

import (
	"testing"

	"plinth/groove/groovetest"
	"plinth/groove/plan"
)

func TestAnswers(t *testing.T) {
	tl := groovetest.Song(t, groovetest.Long(12, 3))
	p := plan.New(tl, &tl.Passes[0], groovetest.Set(nil))
	for _, row := range []struct {
		name    string
		pattern int
	}{{"a bar", 1}, {"two bars", 2}, {"four bars", 4}} {
		for take := 1; take <= 10; take++ {
			tl.Take = take
			n := 0
			for bar := 0; bar < 8; bar++ {
				if p.Answers(bar, row.pattern) {
					n++
					if bar < 4 {
						t.Errorf("pattern of %s: bar %d of the first half answers", row.name, bar+1)
					}
				}
			}
			if n != 2 && n != 4 || n%row.pattern != 0 {
				t.Errorf("pattern of %s, take %d: %d bars of eight answer", row.name, take, n)
			}
			if p.Answers(8, row.pattern) || p.Answers(9, row.pattern) {
				t.Errorf("pattern of %s: the first half of the last four bars answers", row.name)
			}
		}
	}
}
