package songspec

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"plinth/songspec/hcltext"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

func addSeeds(f *testing.F) {
	for _, m := range mistakes {
		if len(m.src) < 4096 {
			f.Add([]byte(m.src))
		}
	}
	f.Add(Starter("seed"))
	f.Add([]byte("count_in = 1\npickup = 1\nvocal \"v.mid\" { from = 0 }\npicture {\n  rate  = 24\n" +
		"  start = \"00:00:00:00\"\n}\nsection \"a\" {\n  tempo  = \"guide\"\n" +
		"  chords = \"|: C | (3/4) F | G7/B | C :|x3\"\n" +
		"  bars \"3-\" { tempo = 90 }\n  bars \"7\" { tempo = \"a tempo\" }\n}\n" +
		"section \"b\" { chords = \"| N.C. |\" }\nform {\n  play \"a\" {}\n  play \"b\" { at = \"0:40\" }\n}\n"))
	readme := examplesWith(f, "README.md", "")
	if len(readme) < 6 {
		f.Fatalf("only %d examples in the reference", len(readme))
	}
	for _, example := range readme {
		f.Add([]byte(example))
		f.Add([]byte(example + one("| C | F |"))) // some show no section
	}
	files, err := filepath.Glob("../examples/*.song.hcl")
	if err != nil || len(files) == 0 {
		f.Fatalf("no examples: %v", err)
	}
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(src)
	}
}

// FuzzSong: no text makes Parse or Resolve panic, every diagnostic points into
// the text, and what resolves is whole.
func FuzzSong(f *testing.F) {
	addSeeds(f)
	f.Fuzz(func(t *testing.T, src []byte) {
		tl, diags := build(string(src))
		for _, d := range diags {
			s := d.Subject
			if d.Summary == "" || d.Detail == "" || s == nil || s.Start.Byte < 0 || s.End.Byte > len(src) ||
				s.Start.Byte > s.End.Byte || s.Start.Line < 1 || s.Start.Column < 1 {
				t.Fatalf("a diagnostic without text or place: %+v at %+v", d, s)
			}
		}
		_ = written(string(src), diags)
		if tl == nil {
			if !diags.HasErrors() {
				t.Fatal("neither a timeline nor an error")
			}
			return
		}
		if diags.HasErrors() {
			t.Fatal("a timeline in spite of errors")
		}
		checkWhole(t, tl)
	})
}

// FuzzFormat: what is formatted says the same as before, and stays when it is
// formatted again.
func FuzzFormat(f *testing.F) {
	addSeeds(f)
	f.Fuzz(func(t *testing.T, src []byte) {
		out, _ := Format("t", src)
		if _, diags := Parse("t", src); diags.HasErrors() {
			src = unfold(src, diags) // before, it is no song
		}
		if out != nil {
			sameSong(t, string(src), string(out))
		}
	})
}

// FuzzChart: a chart of any text has bars that add up to its length, or is
// refused.
func FuzzChart(f *testing.F) {
	for _, row := range slices.Concat(charts, endingCharts, countCharts) {
		f.Add(strings.ReplaceAll(row.chords, `\n`, "\n"), 4, 4)
	}
	for _, s := range []string{"| C | F |", "|: C F :|x3 | G / / Am |", "| (2/4) C | % | N.C. |", "C | F\nG",
		"|: C :|: F :|", ":|x|", "| C(b9, #11) |", "| % |", "|:|", "| / / C / |", "||", "// x\n| C |",
		"(7/8 2+2+3) C | C", "| \v | C\f F |", "| C\u00a0 F |\u0085 G |",
		"|: C |1,3. F :|x4 2. G :|4. Am ||", "| C |1-64. F :|", "1.|2.:|", "|: C | 1. | :|2.|",
		"|: C |1.% F :|2. G |: D", "| C F@2& | % | (3/4) % |", "| C@1 |: F@3t G@12a :|", "@", "| C@ @2 /@2 %@2 |"} {
		f.Add(s, 4, 4)
		f.Add(s, 12, 8)
	}
	f.Fuzz(func(t *testing.T, text string, num, den int) {
		m := meter.Meter{Num: num, Den: den}
		if _, err := meter.Parse(m.String()); err != nil {
			t.Skip()
		}
		s := hcltext.NewSource("t", []byte(text))
		var rep hcltext.Report
		c, ok := readChart(s, hcltext.RawText{Hi: len(text), Heredoc: true}, &rep)
		if ok == rep.Diags.HasErrors() {
			t.Fatalf("ok is %v with %v", ok, rep.Diags)
		}
		if !ok {
			return
		}
		ms, ok := layOut(c, m, &rep)
		if ok == rep.Diags.HasErrors() {
			t.Fatalf("ok is %v with %v", ok, rep.Diags)
		}
		if !ok || giveNumbers(ms) != nil {
			return
		}
		lo := inTime(ms, ms)
		at := int64(0)
		for i, b := range lo.bars {
			if b.Start != at || b.Length != lo.meters[i].BarTicks() {
				t.Fatalf("bar %d at %d, not %d", i, b.Start, at)
			}
			at += b.Length
		}
		if at != lo.length || len(lo.spans) == 0 || lo.spans[0].start != 0 || lo.spans[len(lo.spans)-1].end != at {
			t.Fatalf("bars end at %d, chart at %d", at, lo.length)
		}
	})
}

// checkWhole checks what holds of every timeline.
func checkWhole(t *testing.T, tl *timeline.Timeline) {
	at, bar := tl.Lead, 1
	for i := range tl.Passes {
		p := &tl.Passes[i]
		if p.Start != at || p.Index != i || p.FirstBar != bar || len(p.Bars) == 0 || len(p.Chords) == 0 {
			t.Fatalf("pass %d out of place: %d, bar %d", i, p.Start, p.FirstBar)
		}
		in := int64(0)
		for _, b := range p.Bars {
			if b.Start != in || b.Length != b.Meter.BarTicks() || b.Line < 1 {
				t.Fatalf("pass %d: bar at %d, not %d", i, b.Start, in)
			}
			in += b.Length
		}
		if in != p.Length {
			t.Fatalf("pass %d: bars of %d in a length of %d", i, in, p.Length)
		}
		in = 0
		for _, s := range p.Chords {
			if s.Start != in || s.End <= s.Start || s.Chord.String() == "" {
				t.Fatalf("pass %d: span %+v, want one from %d", i, s, in)
			}
			in = s.End
		}
		if in != p.Length {
			t.Fatalf("pass %d: chords to %d in a length of %d", i, in, p.Length)
		}
		events(t, p)
		if p.Entry != nil && (p.Entry.Tick >= 0 || i == 0 || -p.Entry.Tick > tl.Passes[i-1].Length) {
			t.Fatalf("pass %d: entry %+v", i, p.Entry)
		}
		tempos(t, p.Tempos, p.Length)
		if (p.Before == nil) != (i == 0) || (p.After == nil) != (i == len(tl.Passes)-1) {
			t.Fatalf("pass %d: neighbours", i)
		}
		at += p.Length
		bar += len(p.Bars)
	}
	if at != tl.End || len(tl.Passes) == 0 {
		t.Fatalf("ends at %d, not %d", tl.End, at)
	}
	tempos(t, tl.Tempos, tl.End)
	for i := range tl.Meters {
		if i == 0 && tl.Meters[0].Tick != 0 || i > 0 &&
			(tl.Meters[i].Tick <= tl.Meters[i-1].Tick || tl.Meters[i].Meter == tl.Meters[i-1].Meter) {
			t.Fatalf("meters %v", tl.Meters)
		}
	}
	for i := range tl.Keys {
		if i == 0 && tl.Keys[0].Tick != 0 || i > 0 && (tl.Keys[i].Tick <= tl.Keys[i-1].Tick ||
			tl.Keys[i].Key == tl.Keys[i-1].Key) {
			t.Fatalf("keys %v", tl.Keys)
		}
	}
}

func tempos(t *testing.T, m []timeline.Tempo, end int64) {
	for i, s := range m {
		// 400 a minute with a dotted quarter is 600 quarters: 100,000 microseconds.
		if i == 0 && s.Tick != 0 || i > 0 && s.Tick <= m[i-1].Tick || s.Tick >= end || s.Micros < 100_000 ||
			s.Micros > 1<<24-1 {
			t.Fatalf("tempos %v to %d", m, end)
		}
	}
	if len(m) == 0 {
		t.Fatal("no tempo")
	}
}

func events(t *testing.T, p *timeline.Pass) {
	for i, e := range p.Events {
		if e.Bar < 0 || e.Bar >= len(p.Bars) || e.Tick < p.Bars[e.Bar].Start ||
			e.Tick >= p.Bars[e.Bar].Start+p.Bars[e.Bar].Length || e.End < e.Tick || e.End > p.Length || e.By == 0 {
			t.Fatalf("event %+v", e)
		}
		if i > 0 && (p.Events[i-1].Tick > e.Tick || p.Events[i-1].Tick == e.Tick &&
			(p.Events[i-1].Kind > e.Kind || p.Events[i-1].Kind == e.Kind && e.Kind != timeline.Cue)) {
			t.Fatalf("events out of order: %+v %+v", p.Events[i-1], e)
		}
		if e.Kind == timeline.Push && (e.Target <= e.Tick || e.Target > p.Length) {
			t.Fatalf("push %+v", e)
		}
	}
}
