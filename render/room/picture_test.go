package room

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"regexp"
	"strings"
	"testing"

	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// forms are the four ways a report is written.
var forms = map[string]func(*Report, io.Writer) error{
	"text": (*Report).Text, "json": (*Report).JSON, "svg": (*Report).SVG, "html": (*Report).HTML,
}

func picture(t testing.TB, r *Report) string {
	t.Helper()
	var b bytes.Buffer
	if err := r.SVG(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// elements reads a picture as XML (an independent reader, encoding/xml in strict
// mode) and counts its elements; it fails on anything not well-formed.
func elements(t testing.TB, svg string) map[string]int {
	t.Helper()
	count := map[string]int{}
	d := xml.NewDecoder(strings.NewReader(svg))
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			return count
		}
		if err != nil {
			t.Fatal(err)
		}
		if e, ok := tok.(xml.StartElement); ok {
			count[e.Name.Local]++
		}
	}
}

func TestSVG(t *testing.T) {
	for _, name := range songs {
		svg := picture(t, exampleReport(t, name))
		if n := elements(t, svg); n["svg"] != 1 || n["path"] < 20 || n["text"] < 20 || n["pattern"] != 3 ||
			n["title"] != 1 {
			t.Errorf("%s: elements %v", name, n)
		}
		selfContained(t, name, svg)
	}
}

// selfContained fails on anything that could load something: any address except the name of
// the namespace, any reference except to the picture's own hatches.
func selfContained(t testing.TB, name, s string) {
	t.Helper()
	s = strings.Replace(s, `xmlns="http://www.w3.org/2000/svg"`, "", 1)
	for _, bad := range []string{"http:", "https:", "//", "src=", "href", "@import", "@font-face", "<script", "<image",
		"<link", "<iframe"} {
		if strings.Contains(s, bad) {
			t.Errorf("%s: holds %q", name, bad)
		}
	}
	for _, ref := range regexp.MustCompile(`url\([^)]*\)`).FindAllString(s, -1) {
		if !strings.HasPrefix(ref, "url(#room-") {
			t.Errorf("%s: refers to %s", name, ref)
		}
	}
}

// The picture must not need colour: voice, piano, bass, window and energy differ
// in hatch or weight. Read in grey, the hatches are three different patterns.
func TestSVGWithoutColour(t *testing.T) {
	svg := picture(t, exampleReport(t, songs[0]))
	for _, hatch := range []string{"room-ground", "room-mass", "room-power"} {
		if !strings.Contains(svg, `id="`+hatch+`"`) || strings.Count(svg, "url(#"+hatch+")") < 2 {
			t.Errorf("%s is not used", hatch)
		}
	}
	for _, want := range []string{">window: no voice<", ">climax<", ">free from ", ">bridge<", ">verse (2)<", ">hits<",
		">energy<", ">bar<", ">16.5 beats<"} {
		if !strings.Contains(svg, want) {
			t.Errorf("%q is not written", want)
		}
	}
}

// A title, a section and a track may hold anything a song file may.
func TestEscapes(t *testing.T) {
	tl, perf := small(t)
	evil := "</text><script>x('\"&\x01\u0085\ufffe</script>"
	tl.Title, tl.Passes[0].Section = evil, evil
	tl.Vocals[0].TrackResolved = evil
	r := Analyze(tl, perf)
	elements(t, picture(t, r))
	var b bytes.Buffer
	if err := r.HTML(&b); err != nil {
		t.Fatal(err)
	}
	if s := b.String(); strings.Contains(s, "<script") || strings.ContainsAny(s, "\x01\u0085") {
		t.Error("markup of the song reached the page")
	}
}

func TestHTML(t *testing.T) {
	for _, name := range songs {
		var b bytes.Buffer
		if err := exampleReport(t, name).HTML(&b); err != nil {
			t.Fatal(err)
		}
		s := b.String()
		selfContained(t, name, strings.Replace(s, "<!DOCTYPE html>", "", 1))
		for _, want := range []string{"<svg ", "<h2>Hints</h2>", "<h2>Windows</h2>", "<h2>Registers</h2>",
			"<h2>Counts</h2>", "<h2>Energy</h2>", "<h2>Hits</h2>"} {
			if strings.Count(s, want) != 1 {
				t.Errorf("%s: %q stands %d times", name, want, strings.Count(s, want))
			}
		}
		// The page is well-formed enough for XML once its void elements are closed.
		x := strings.NewReplacer("<!DOCTYPE html>", "", `<meta charset="utf-8">`, "",
			`<meta name="viewport" content="width=device-width, initial-scale=1">`, "").Replace(s)
		if n := elements(t, x); n["table"] < 4 || n["dt"] != n["dd"]/2 {
			t.Errorf("%s: elements %v", name, n)
		}
	}
}

// However long the song, there are no more than maxRows rows, every row has
// something in it, and nothing is drawn outside the sheet.
func TestSVGLong(t *testing.T) {
	tl, perf := small(t)
	p := tl.Passes[0]
	tl.Passes = nil
	for i := 0; i < 5000; i++ { // 10,000 bars, the most a song may have
		q := p
		q.Index, q.Ordinal, q.Start, q.FirstBar = i, i, int64(i)*7680, 2*i+1
		tl.Passes = append(tl.Passes, q)
	}
	tl.End = 5000 * 7680
	svg := picture(t, Analyze(tl, perf))
	elements(t, svg)
	if n := strings.Count(svg, ">energy<"); n != maxRows {
		t.Errorf("%d rows", n)
	}
	if len(svg) > 8<<20 {
		t.Errorf("%d bytes", len(svg))
	}
}

// A section longer than a row is cut at a bar line.
func TestSVGCutsAtBars(t *testing.T) {
	tl, perf := small(t)
	p := &tl.Passes[0]
	p.Bars = nil
	for i := int64(0); i < 100; i++ {
		p.Bars = append(p.Bars, timeline.Bar{Start: 3840 * i, Length: 3840, Meter: meter.Common})
	}
	p.Length = 384000
	tl.End = p.Length
	s := &sheet{r: Analyze(tl, perf)}
	s.layOutRows()
	if len(s.rows) != 3 {
		t.Fatalf("%d rows", len(s.rows))
	}
	for i, row := range s.rows {
		if row.start%3840 != 0 || i > 0 && row.start != s.rows[i-1].end {
			t.Errorf("row %d is %d to %d", i, row.start, row.end)
		}
	}
}

// The sequencer counts the bars of a count-in and a pickup; the report's bars are
// the song's, and every form says where they stand in the file.
func TestFileBar(t *testing.T) {
	tl := exampleSong(t, "millers-clock.song.hcl") // two bars of count-in
	r := Analyze(tl, perform(tl, builtin()))
	if r.FileBar != 3 {
		t.Fatalf("bar 1 is bar %d of the file", r.FileBar)
	}
	for form, want := range map[string]string{"text": "bar 1 of the song is bar 3 of the file: add 2",
		"json": `"file_bar": 3`, "svg": ">bar 1 is bar 3 of the file<", "html": ">bar 1 is bar 3 of the file<"} {
		var b bytes.Buffer
		if err := forms[form](r, &b); err != nil || !strings.Contains(b.String(), want) {
			t.Errorf("%s does not say %q (%v)", form, want, err)
		}
	}
	var b bytes.Buffer
	err := Analyze(exampleSong(t, songs[0]), nil).Text(&b)
	if err != nil || strings.Contains(b.String(), "of the file") {
		t.Error("without a bar in front there is nothing to say")
	}
}

// The length counts from bar 1, as in the outline and in the last line of a build.
func TestLengthWithPickup(t *testing.T) {
	tl := exampleSong(t, "high-water.song.hcl")
	if tl.Pickup == 0 {
		t.Fatal("the example has a pickup")
	}
	if got, want := Analyze(tl, nil).Micros, tl.SongMicros(); got != want {
		t.Errorf("%d microseconds, the outline has %d", got, want)
	}
}

// Texts are cut to their room, also in bold and with square letters.
func TestCutText(t *testing.T) {
	for _, tt := range []struct {
		text string
		bold bool
		room int // in letters of the regular face
		want string
	}{
		{"verse", false, 5, "verse"},
		{"chorus two", false, 8, "chorus…"},
		{"chorus two", true, 8, "choru…"},
		{"夜の歌", false, 6, "夜の歌"},
		{"夜の歌のうた", false, 8, "夜の歌…"},
		{"chorus", false, 4, ""},
	} {
		if got := cutText(tt.text, 20, tt.bold, tt.room*116); got != tt.want {
			t.Errorf("%q bold %v in %d letters: %q, want %q", tt.text, tt.bold, tt.room, got, tt.want)
		}
	}
}

// Forty passes of two bars get rows in which their names can be read.
func TestSVGShortPasses(t *testing.T) {
	tl, perf := small(t)
	p := tl.Passes[0]
	tl.Passes = nil
	for i := 0; i < 40; i++ {
		q := p
		q.Section, q.Index, q.Start, q.FirstBar = []string{"verse", "coda"}[i%2], i, int64(i)*7680, 2*i+1
		q.Ordinal = i / 2
		tl.Passes = append(tl.Passes, q)
	}
	tl.End = 40 * 7680
	svg := picture(t, Analyze(tl, perf))
	for _, want := range []string{">verse (1)<", ">coda (20)<"} {
		if !strings.Contains(svg, want) {
			t.Errorf("%s is not written", want)
		}
	}
}

// The shapes of the players end where a stop begins.
func TestSVGStop(t *testing.T) {
	tl, perf := small(t)
	s := &sheet{r: Analyze(tl, perf)}
	s.layOutRows()
	for _, who := range []timeline.Player{timeline.Bass, timeline.Piano} {
		for _, e := range s.envelopes(&s.rows[0], who) {
			if e.start < 6720 && e.end > 5760 { // the stop of bar 2: counts 3 to 4
				t.Errorf("%s is drawn from %d to %d", who, e.start, e.end)
			}
		}
	}
	if n := len(s.envelopes(&s.rows[0], timeline.Piano)); n != 3 {
		t.Errorf("%d pieces of piano, want bar 1, bar 2 to count 3, bar 2 from count 4", n)
	}
}
