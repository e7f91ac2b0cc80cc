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
		if n := elements(t, svg); n["svg"] != 1 || n["path"] < 20 || n["text"] < 20 || n["pattern"] != 3 || n["title"] != 1 {
			t.Errorf("%s: elements %v", name, n)
		}
		selfContained(t, name, svg)
	}
}

// selfContained fails on whatever could fetch something: any address but the
// namespace's name, any reference but to the picture's own hatches.
func selfContained(t testing.TB, name, s string) {
	t.Helper()
	s = strings.Replace(s, `xmlns="http://www.w3.org/2000/svg"`, "", 1)
	for _, bad := range []string{"http:", "https:", "//", "src=", "href", "@import", "@font-face", "<script", "<image", "<link", "<iframe"} {
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
	for _, want := range []string{">window: no voice<", ">climax<", ">free from ", ">bridge<", ">verse 2<", ">hits<", ">energy<", ">bar<", ">16.5 beats<"} {
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
	tl.Vocal.TrackResolved = evil
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
		for _, want := range []string{"<svg ", "<h2>Hints</h2>", "<h2>Windows</h2>", "<h2>Registers</h2>", "<h2>Counts</h2>", "<h2>Energy</h2>", "<h2>Hits</h2>"} {
			if strings.Count(s, want) != 1 {
				t.Errorf("%s: %q stands %d times", name, want, strings.Count(s, want))
			}
		}
		// The page is well-formed enough for XML once its void elements are closed.
		x := strings.NewReplacer("<!DOCTYPE html>", "", `<meta charset="utf-8">`, "", `<meta name="viewport" content="width=device-width, initial-scale=1">`, "").Replace(s)
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
	s.layOut()
	if len(s.rows) != 3 {
		t.Fatalf("%d rows", len(s.rows))
	}
	for i, row := range s.rows {
		if row.start%3840 != 0 || i > 0 && row.start != s.rows[i-1].end {
			t.Errorf("row %d is %d to %d", i, row.start, row.end)
		}
	}
}
