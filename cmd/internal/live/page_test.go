package live

import (
	"bufio"
	"encoding/json"
	"net/http"
	"net/http/cookiejar"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"plinth/cmd/internal/bed"
	"plinth/render/audio/bank"
	"plinth/render/page"
)

// silence is a bank without a sound.
type silence struct{}

func (silence) Name() string { return "silence" }
func (silence) ID() string   { return "silence" }
func (silence) Note(p bank.Patch, key, velocity uint8) bank.Note {
	return bank.Note{Patch: p, Key: key}
}
func (silence) Sound(bank.Note, int) bank.Sound { return bank.Sound{} }

// withPage asks for a page, and then for whatever else changes.
func withPage(change func(o *Options)) func(o *Options) {
	return func(o *Options) {
		o.Page = &Page{Sounds: page.Sounds{Bank: silence{}}}
		if change != nil {
			change(o)
		}
	}
}

// seen is what the tests look at of a state.
type seen struct {
	Song   struct{ Title, File, Only string }
	Says   string
	OK     bool
	Wrong  []page.Diag
	Doubts []page.Diag
	Chunks []struct{ Name string }
}

// states are the states that a page of this watch is told, one after another.
func (d *desk) states() func() seen {
	d.t.Helper()
	address := strings.TrimPrefix(d.wait(1, `hear it in a browser: http://127\.0\.0\.1:\d+/\?key=[\w-]{22}`),
		"hear it in a browser: ")
	jar, err := cookiejar.New(nil)
	if err != nil {
		d.t.Fatal(err)
	}
	client := &http.Client{Jar: jar, Transport: &http.Transport{}}
	r, err := client.Get(address)
	if err != nil || r.StatusCode != 200 {
		d.t.Fatal(r, err)
	}
	r.Body.Close()
	base, _, _ := strings.Cut(address, "/?")
	if r, err = client.Get(base + "/events"); err != nil || r.StatusCode != 200 {
		d.t.Fatal(r, err)
	}
	d.t.Cleanup(func() { r.Body.Close() })
	lines := bufio.NewReader(r.Body)
	return func() (out seen) {
		d.t.Helper()
		for {
			line, err := lines.ReadString('\n')
			if err != nil {
				d.t.Fatal(err)
			}
			data, ok := strings.CutPrefix(line, "data: ")
			if !ok || strings.Contains(data[:min(len(data), 20)], `"low":`) { // the room
				continue
			}
			if err := json.Unmarshal([]byte(data), &out); err != nil {
				d.t.Fatal(err)
			}
			return out
		}
	}
}

// until is the first state that says so.
func until(t *testing.T, next func() seen, says string) seen {
	t.Helper()
	for {
		if s := next(); regexp.MustCompile("^" + says + "$").MatchString(s.Says) {
			return s
		}
	}
}

// A morning with a song, as its page is told of it.
func TestPage(t *testing.T) {
	d := open(t, withPage(nil))
	next := d.states()
	first := until(t, next, `12 bars, 0:30, C major, drums bass and piano`)
	if !first.OK || first.Song.File != "weir.song.hcl" || first.Song.Title != "Weir" || len(first.Chunks) != 2 {
		t.Errorf("%+v", first)
	}
	d.save(strings.Replace(weir, "| F | G | C | C |", "| Fm | G | C | Csus5 |", 1))
	wrong := until(t, next, "still playing the last good one")
	if wrong.OK || len(wrong.Wrong) != 1 || len(wrong.Chunks) != 2 {
		t.Fatalf("%+v", wrong)
	}
	at := wrong.Wrong[0]
	if at.File != "weir.song.hcl" || at.Line != 8 || len(at.Lines) != 3 || at.Summary != `Not a chord: "Csus5"` {
		t.Errorf("%+v", at)
	} else if line := at.Lines[1]; line.Text[*line.From:*line.To] != "5" || at.Column != *line.From+1 {
		t.Errorf("%q", line.Text[*line.From:*line.To])
	}
	d.save(strings.Replace(weir, "| F | G | C | C |", "| Fm | G | C | C |", 1))
	mended := until(t, next, "12 bars  fixed: bridge: chords of bar 5")
	if !mended.OK || len(mended.Wrong) != 0 || !strings.Contains(d.said(), mended.Says) {
		t.Errorf("%+v", mended)
	}
	if err := os.Remove(d.song); err != nil {
		t.Fatal(err)
	}
	lost := until(t, next, "still playing the last good one")
	if lost.OK || len(lost.Wrong) != 1 || !strings.HasPrefix(lost.Wrong[0].Summary, "weir.song.hcl is not there") ||
		len(lost.Chunks) != 2 {
		t.Errorf("%+v", lost)
	}
	d.save(strings.Replace(weir, "| F | G | C | C |", "| Fm | G | C | C |", 1)) // as it was
	if back := until(t, next, "12 bars  fixed: bridge: chords of bar 5"); !back.OK || len(back.Wrong) != 0 {
		t.Errorf("%+v", back)
	}
	d.close() // ends the stream too
}

// Of a song that was never right the page has no bed; a part is what is built of it.
func TestPageOfAPart(t *testing.T) {
	d := open(t, withPage(func(o *Options) { o.Only = "tag" }))
	next := d.states()
	none := until(t, next, "nothing to play yet")
	if none.OK || none.Chunks != nil || none.Song.Only != "tag" || none.Song.Title != "weir.song.hcl" ||
		none.Wrong[0].Summary != "The song does not play this part" ||
		none.Wrong[0].Detail != `the song plays no section "tag"; it plays "verse", "bridge"` {
		t.Errorf("%+v", none)
	}
	tag := "section \"tag\" {\n  chords = \"| C | G |\"\n}\nform {\n  play \"tag\" {}"
	d.save(strings.Replace(weir, "form {", tag, 1))
	part := until(t, next, `2 bars, .*`)
	if !part.OK || len(part.Chunks) != 1 || part.Chunks[0].Name != "tag" {
		t.Errorf("%+v", part)
	}
}

// A mistake of ours is told, and the words for the page have no folders.
func TestPageOfOurMistake(t *testing.T) {
	times := 0
	d := open(t, withPage(func(o *Options) {
		o.builder = func(req bed.Request) (*bed.Result, error) {
			if times++; times == 2 {
				panic("a wrong note")
			}
			return bed.Build(req)
		}
	}))
	next := d.states()
	until(t, next, "12 bars, .*")
	d.save(weir + "\n")
	wrong := until(t, next, "still playing the last good one")
	if !strings.Contains(wrong.Wrong[0].Summary, "a mistake in plinth") || wrong.Wrong[0].Detail != "" {
		t.Errorf("%+v", wrong)
	}
	d.save(weir + "\n\n")
	until(t, next, "12 bars  fixed: nothing that is heard")
}

// Where the files cannot be written the song is not blamed, and folders are not named.
func TestPageOfAFullDisk(t *testing.T) {
	d := open(t, withPage(nil))
	next := d.states()
	until(t, next, "12 bars, .*")
	bed := filepath.Join(filepath.Dir(d.song), "bed")
	if err := os.RemoveAll(bed); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(bed, nil, 0o666); err != nil {
		t.Fatal(err)
	}
	d.save(strings.Replace(weir, "| F | G | C | C |", "| Fm | G | C | C |", 1))
	wrong := until(t, next, "still playing the last good one")
	if got := wrong.Wrong[0]; got.Summary != "The files could not be written" || strings.Contains(got.Detail, "bed") {
		t.Errorf("%+v", got)
	}
}

// A port that is taken keeps watch from beginning.
func TestPageWithoutAPort(t *testing.T) {
	d := open(t, withPage(nil))
	line := d.wait(1, `hear it in a browser: .*`)
	port := 0
	for _, c := range regexp.MustCompile(`:(\d+)/`).FindStringSubmatch(line)[1] {
		port = 10*port + int(c-'0')
	}
	err := Run(t.Context(), Options{Song: d.song, To: d,
		Page: &Page{Ports: []int{port}, Sounds: page.Sounds{Bank: silence{}}}})
	if err == nil || !strings.Contains(err.Error(), "is taken by another program") {
		t.Errorf("%v", err)
	}
}
