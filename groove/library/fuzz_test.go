package library

import (
	"strings"
	"testing"

	"plinth/groove/feel"
)

// FuzzGroove: whatever the file, Decode says what is wrong or gives grooves whose
// every row has Bars × Grid steps, which one drummer can play, which stay under
// their own syncopation and can be drawn; and every message stands in the file.
func FuzzGroove(f *testing.F) {
	for _, name := range Names() {
		src, _ := Source(name)
		f.Add(src)
	}
	for _, name := range families {
		f.Add(mustRead("fills/" + name + ".hcl"))
	}
	for _, m := range mistakes {
		f.Add([]byte(strings.Replace(small, m.old, m.new, 1)))
	}
	f.Add([]byte(small))
	f.Fuzz(func(t *testing.T, src []byte) {
		feels, fills, diags := Decode("f.hcl", src)
		lines := 2 + strings.Count(string(src), "\n")
		for _, d := range diags {
			if d.Subject == nil || d.Subject.Start.Line < 1 || d.Subject.Start.Line > lines ||
				d.Subject.Start.Byte > len(src) {
				t.Fatalf("a message outside the file: %v", d)
			}
		}
		if diags.HasErrors() {
			return
		}
		if len(feels)+len(fills) == 0 {
			t.Fatal("neither a groove nor a fill nor a message")
		}
		for _, fl := range feels {
			for i := range fl.Levels {
				lv := &fl.Levels[i]
				checkLevel(t, fl, lv)
				if lv.Energy != i+1 {
					t.Fatalf("level %d has energy %d", i+1, lv.Energy)
				}
				if n := fl.KitSyncopation(lv); n > fl.Syncopation {
					t.Fatalf("level %d: syncopation %d over %d", i+1, n, fl.Syncopation)
				}
				if lv.Answer != nil {
					a := lv.Answered()
					checkLevel(t, fl, &a)
				}
				if p := Picture(fl, i+1); !strings.HasSuffix(p, "\n") {
					t.Fatalf("picture %q", p)
				}
			}
		}
		for _, fi := range fills {
			if fi.Beats < 1 || fi.Beats > 4 {
				t.Fatalf("fill %q of %d beats", fi.Name, fi.Beats)
			}
			if fi.MinEnergy < 1 || fi.MaxEnergy > 5 || fi.MinEnergy > fi.MaxEnergy || fi.Colour < 0 || fi.Colour > 5 {
				t.Fatalf("fill %+v", fi)
			}
			for _, r := range fi.Rows {
				if len(r.Steps) != fi.Beats*fi.Grid {
					t.Fatalf("fill %q: %d steps", fi.Name, len(r.Steps))
				}
			}
		}
	})
}

func checkLevel(t *testing.T, f *feel.Feel, lv *feel.Level) {
	t.Helper()
	steps := lv.Bars * f.Grid
	if lv.Bars != 1 && lv.Bars != 2 && lv.Bars != 4 {
		t.Fatalf("%d bars", lv.Bars)
	}
	if len(lv.Bass) != steps || len(lv.Comp) == 0 || lv.Voices < 2 || lv.Voices > 4 {
		t.Fatalf("bass %d, comp %d steps of %d; %d voices", len(lv.Bass), len(lv.Comp), steps, lv.Voices)
	}
	for _, r := range lv.Drums {
		if len(r.Steps) != steps {
			t.Fatalf("%s: %d steps of %d", r.Voice.Word, len(r.Steps), steps)
		}
	}
	for i := 0; len(lv.Drums) > 0 && i < steps; i++ {
		if why := feel.Clash(lv.Drums, i); why != "" {
			t.Fatal(why)
		}
	}
}
