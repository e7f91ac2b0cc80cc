package outline_test

import (
	"strings"
	"testing"

	"plinth/songspec/outline"
	"plinth/songspec/timeline"
)

const duetBlocks = `vocal "duet.mid" {
  name  = "Nell"
  track = "Soprano"
  range = ["Db4", "D5"]
}
vocal "duet.mid" {
  name  = "Tom"
  track = "Baritone"
}
`

// Each singer has a line, and each pass says who sings in it.
func TestOutlineOfSingers(t *testing.T) {
	tl := song(t, weir+duetBlocks)
	for i := range tl.Passes {
		p := &tl.Passes[i]
		p.Sung = []timeline.SungNote{}
		if i > 0 {
			p.Sung = append(p.Sung, timeline.SungNote{Length: 960, Key: 60, Singer: uint8(i % 2)})
		}
		if i == 2 {
			p.Sung = append(p.Sung, timeline.SungNote{Tick: 960, Length: 960, Key: 60, Singer: 1})
		}
	}
	var b strings.Builder
	if err := outline.Write(&b, tl); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"vocal      Nell, duet.mid from bar 1\n", "vocal      Tom, duet.mid from bar 1\n",
		"  sings    nobody\n", "  sings    Tom\n", "  sings    Nell, Tom\n"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("%q is not in the outline:\n%s", want, b.String())
		}
	}
}

// Singers are compared one by one, also under another name.
func TestDiffOfSingers(t *testing.T) {
	for _, tt := range []struct {
		name string
		old  string
		new  string
		want string
	}{
		{"the same", duetBlocks, duetBlocks, ""},
		{"a range", duetBlocks, edit(t, duetBlocks, `"D5"]`, `"Eb5"]`),
			"vocal: Nell, range Db4-D5 to range Db4-Eb5"},
		{"another name", duetBlocks, edit(t, duetBlocks, `"Tom"`, `"Tim"`),
			"vocal: Tom to Tim"},
		{"another key", duetBlocks, edit(t, duetBlocks, `"Baritone"`, "\"Baritone\"\n  transpose = -2"),
			"vocal: Tom, not transposed to transposed -2"},
		{"a first singer", "", "vocal \"v.mid\" {}\n", "vocal: none to v.mid, from bar 1"},
		{"another file", "vocal \"v.mid\" {}\n", "vocal \"w.mid\" {}\n",
			"vocal: v.mid to w.mid"},
		{"a second singer", "vocal \"v.mid\" { name = \"Nell\" }\n", "vocal \"w.mid\" { name = \"Tom\" }\n" +
			"vocal \"v.mid\" { name = \"Nell\" }\n", "vocal: none to Tom, w.mid, from bar 1"},
	} {
		var got []string
		for _, c := range outline.Diff(song(t, weir+tt.old), song(t, weir+tt.new)) {
			got = append(got, c.What+": "+c.Old+" to "+c.New)
		}
		if strings.Join(got, "\n") != tt.want {
			t.Errorf("%s:\ngot  %q\nwant %q", tt.name, got, tt.want)
		}
	}
	old, now := song(t, weir+duetBlocks), song(t, weir+duetBlocks)
	old.Vocals[1].Notes = []timeline.SungNote{{Length: 960, Key: 60, Singer: 1}}
	now.Vocals[1].Notes = []timeline.SungNote{{Length: 960, Key: 62, Singer: 1}}
	if c := outline.Diff(old, now); len(c) != 1 || c[0].Old != "Tom's old line" || c[0].New != "a new one" {
		t.Errorf("another line: %+v", c)
	}
	// What follows from another change is none: all is later behind a count-in and higher in another key, and a
	// song that ends earlier has less of it.
	sung := func(text string, transpose uint8) *timeline.Timeline {
		tl := song(t, text+duetBlocks)
		for bar := range int64(64) {
			if at := tl.Lead + bar*3840; at < tl.End {
				tl.Vocals[1].Notes = append(tl.Vocals[1].Notes, timeline.SungNote{Tick: at, Length: 960,
					Key: 60 + uint8(bar%12) + transpose, Singer: 1})
			}
		}
		return tl
	}
	for name, now := range map[string]*timeline.Timeline{
		"count_in":  sung("count_in = 2\n"+weir, 0),
		"transpose": sung("transpose = 2\n"+weir, 2),
		"end":       sung(edit(t, weir, "  play \"chorus\" {}\n", ""), 0),
	} {
		for _, c := range outline.Diff(sung(weir, 0), now) {
			if c.What == "vocal" {
				t.Errorf("%s: %+v", name, c)
			}
		}
	}
}
