package room

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"plinth/songspec/timeline"
)

// duo is the song of small played three times: Nell sings in the first pass, Tom in the second
// and both in the third. Nell has G4 and A4 over four beats, Tom C3 over two.
func duo(t *testing.T) *Report {
	t.Helper()
	tl, perf := small(t)
	first := tl.Passes[0]
	tl.Passes = nil
	tl.Vocals = []timeline.Vocal{{Name: "Nell", Path: "duet.mid", Track: "1", TrackResolved: "Soprano"},
		{Name: "Tom", Path: "duet.mid", Track: "2", TrackResolved: "Bass <low>"}}
	for i := range 3 {
		p := first
		p.Index, p.Ordinal, p.Start, p.FirstBar, p.Sung = i, i, int64(i)*p.Length, 1+2*i, []timeline.SungNote{}
		if i != 1 {
			p.Sung = append(p.Sung, timeline.SungNote{Length: 1920, Key: 67},
				timeline.SungNote{Tick: 1920, Length: 1920, Key: 69})
		}
		if i > 0 {
			p.Sung = append(p.Sung, timeline.SungNote{Tick: 960, Length: 1920, Key: 48, Singer: 1})
		}
		for _, n := range p.Sung {
			n.Tick += p.Start
			v := &tl.Vocals[n.Singer]
			v.Notes = append(v.Notes, n)
		}
		tl.Passes = append(tl.Passes, p)
	}
	tl.End = 3 * first.Length
	return Analyze(tl, perf)
}

// Who sings is told pass by pass, and each singer's register; a window is where nobody sings.
func TestSeveralSingers(t *testing.T) {
	r := duo(t)
	var who []string
	for i := range r.Passes {
		who = append(who, r.passMarks(i))
	}
	for i, want := range []string{"Nell sings", "Tom sings", "Nell and Tom sing"} {
		if !strings.Contains(who[i], want) {
			t.Errorf("pass %d: %q, want %q", i+1, who[i], want)
		}
	}
	// Pass 1: from bar 2 on nobody; pass 2: beat 1, and from beat 4 on; pass 3: from bar 2 on.
	var beats []int64
	for _, w := range r.Windows {
		beats = append(beats, w.Beats)
	}
	if want := []int64{5000, 5000, 4000}; !slices.Equal(beats, want) {
		t.Errorf("windows of %v beats, want %v", beats, want)
	}
	s := &r.Passes[2]
	if s.Singers[0].Part.Low != 67 || s.Singers[1].Part.High != 48 || s.Voice.Low != 48 || s.Voice.High != 69 ||
		r.Passes[0].Singers[1].Part != nil {
		t.Errorf("registers: %+v, %+v of all, Tom in the first pass %v", s.Singers,
			s.Voice, r.Passes[0].Singers[1].Part)
	}
	texts := map[string]string{}
	for form, write := range forms {
		var b bytes.Buffer
		if err := write(r, &b); err != nil {
			t.Fatal(err)
		}
		texts[form] = b.String()
	}
	for form, want := range map[string][]string{
		"text": {`Nell from duet.mid, track "Soprano"; Tom from duet.mid, track "Bass <low>"`, "Nell and Tom sing",
			"    Tom    silent",
			"    Nell   G4 to A4"},
		"html": {"Nell and Tom sing", "<th>Tom</th>", "Bass &lt;low&gt;"},
		"svg":  {">Nell</text>", ">Tom</text>", `stroke-dasharray="12 8"`},
	} {
		for _, w := range want {
			if !strings.Contains(texts[form], w) {
				t.Errorf("%s does not have %q:\n%s", form, w, texts[form])
			}
		}
	}
	var got struct {
		Voice   string
		Singers []struct{ Name, File, Track string }
		Passes  []struct {
			Singers []struct {
				Name     string
				Register *struct{ Lowest struct{ Midi int } }
			}
		}
	}
	if err := json.Unmarshal([]byte(texts["json"]), &got); err != nil {
		t.Fatal(err)
	}
	if got.Voice != "Soprano" || len(got.Singers) != 2 || got.Singers[1].Track != "Bass <low>" ||
		got.Passes[0].Singers[1].Register != nil || got.Passes[1].Singers[1].Name != "Tom" ||
		got.Passes[1].Singers[1].Register.Lowest.Midi != 48 {
		t.Errorf("%+v", got)
	}
}

// A four-three suspension, the textbooks' rule, is told with its pass and its singer.
func TestSuspensions(t *testing.T) {
	for _, row := range []struct {
		name   string
		vocals int
		want   string
	}{
		{"one singer", 1, "bar 1 count 1: F4 over C"},
		{"two singers", 2, "bar 1 count 1: F4 over C by Nell"},
	} {
		tl, _ := small(t)
		tl.Passes = tl.Passes[:1]
		tl.Vocals = []timeline.Vocal{{Name: "Nell", Notes: []timeline.SungNote{{Length: 1920, Key: 65},
			{Tick: 1920, Length: 960, Key: 64}}}, {Name: "Tom"}}[:row.vocals]
		r := Analyze(tl, nil)
		if rows := r.suspensionRows(); len(rows) != 1 || rows[0][0] != r.Passes[0].Name || rows[0][1] != row.want {
			t.Errorf("%s: %q, want %q", row.name, rows, row.want)
		}
		for form, write := range forms {
			var b bytes.Buffer
			want := map[string]string{"json": `"sung": "F4"`, "svg": ""}
			if _, ok := want[form]; !ok {
				want[form] = row.want
			}
			if err := write(r, &b); err != nil || !strings.Contains(b.String(), want[form]) {
				t.Errorf("%s, %s: %v, no %s in\n%s", row.name, form, err, want[form], b.String())
			}
		}
	}
}

// Where all singers are silent, one line says it.
func TestAllSilent(t *testing.T) {
	r := duo(t)
	r.Passes[1].Voice, r.Passes[1].Singers[1].Part = nil, nil
	lines := r.registerLines(namedScope{"verse (2)", &r.Passes[1]})
	want := [][2]string{{"voice", "silent"}, {"piano", "silent"}, {"bass", "silent"}}
	if !slices.Equal(lines, want) {
		t.Errorf("%q, want %q", lines, want)
	}
}

// Between a high and a low singer there is room that the voice as a whole does not show.
func TestRoomBetweenSingers(t *testing.T) {
	r := duo(t)
	between := slices.ContainsFunc(r.Passes[2].Free, func(f FreeRange) bool { return f.Low > 48 && f.High < 67 })
	if !between {
		t.Errorf("nothing is free between C3 and G4: %+v", r.Passes[2].Free)
	}
}
