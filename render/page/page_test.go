package page

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/songfiletest"
	"plinth/render/audio/bank"
	"plinth/render/heard"
	"plinth/songspec/timeline"
)

// tones is a bank with two layers and no sound.
type tones struct{}

func (tones) Name() string { return "tones" }
func (tones) ID() string   { return "tones1" }
func (tones) Note(p bank.Patch, key, velocity uint8) bank.Note {
	return bank.Note{Patch: p, Key: key, Layer: velocity / 64}
}
func (tones) Sound(bank.Note, int) bank.Sound { return bank.Sound{} }

var sounds = Sounds{Bank: tones{}}

// bedOf is the bed of a song's text.
func bedOf(t testing.TB, src string) *Bed {
	t.Helper()
	tl, set, err := songfiletest.ExampleText("t.song.hcl", src)
	if err != nil {
		t.Fatalf("%v\n%s", err, src)
	}
	return NewBed(tl, groove.Perform(tl, set), sounds)
}

// chunkRead is a chunk as the page reads it.
type chunkRead struct {
	Bars []struct {
		At, Length, Tick, Ticks int64
		Inside, Energy          int
		Beats                   []int64
		Meter, Text             string
		Chords                  []struct {
			At   int64
			Text string
		}
	}
	Events []struct {
		Bar             int
		At, End         int64
		Kind, Text, Cue string
		By              []string
		Acts            bool
	}
	Notes []string
	Parts [][]int64
}

func read[T any](t testing.TB, data []byte) (out T) {
	t.Helper()
	if err := json.Unmarshal(data, &out); err != nil {
		t.Fatalf("%v\n%s", err, data)
	}
	return out
}

func chunksOf(t testing.TB, b *Bed) (places []placeJSON, chunks []chunkRead) {
	t.Helper()
	state := read[bedJSON](t, append(append([]byte{'{'}, b.json...), '}'))
	for i, c := range b.Chunks {
		chunks = append(chunks, read[chunkRead](t, c.JSON))
		if state.Chunks[i].Hash != c.Hash || state.Chunks[i].Bars != len(chunks[i].Bars) {
			t.Errorf("chunk %d: %+v", i, state.Chunks[i])
		}
	}
	return state.Chunks, chunks
}

// The chunks one behind the other are what is heard, to the microsecond that rounding may take.
func TestChunksAreWhatIsHeard(t *testing.T) {
	for _, path := range songfiletest.Examples(t, filepath.Join("..", "..", "examples")) {
		_, tl, set := songfiletest.Example(t, path)
		checkChunks(t, path, tl, groove.Perform(tl, set))
	}
}

// checkChunks compares the chunks of a song with what is heard of it.
func checkChunks(t *testing.T, path string, tl *timeline.Timeline, perf *groove.Performance) *Bed {
	near := func(a, b int64) bool { return a-b >= -1 && a-b <= 1 }
	song, bed := heard.Of(tl, perf), NewBed(tl, perf, sounds)
	places, chunks := chunksOf(t, bed)
	next := make([]map[int32][]heard.Note, len(song.Parts)) // by bar
	for i := range song.Parts {
		next[i] = map[int32][]heard.Note{}
		for _, n := range song.Parts[i].Notes {
			next[i][n.Bar] = append(next[i][n.Bar], n)
		}
	}
	first := int32(0)
	last := map[[2]int]int64{} // by part and key: where it was let go
	for i, c := range chunks {
		p := places[i]
		for j, bar := range c.Bars {
			want := song.Bars[int(first)+j]
			begins := p.At + bar.At
			if !near(begins, want.At) || !near(begins+bar.Length, want.End) || p.Tick+bar.Tick != want.Tick ||
				bar.Beats[0] != bar.At || len(bar.Beats) < 1 {
				t.Fatalf("%s: bar %d of %s: %+v, %+v", path, j, p.Name, bar, want)
			}
		}
		for k, flat := range c.Parts {
			for ; len(flat) > 0; flat = flat[6:] {
				bar := first + int32(flat[5])
				if len(next[k][bar]) == 0 {
					t.Fatalf("%s: a note too many in bar %d", path, bar)
				}
				n := next[k][bar][0]
				next[k][bar] = next[k][bar][1:]
				part := &song.Parts[k]
				patch := bank.Patch{Program: part.Sounds[n.Sound].Program, Drums: part.Drums}
				name := noteName(tones{}.Note(patch, n.Key, n.Velocity))
				if !near(p.At+flat[0], n.At) || !near(flat[1]+1, n.Length) || flat[2] != int64(n.Key) ||
					flat[3] != int64(n.Velocity) || c.Notes[flat[4]] != name {
					t.Fatalf("%s: %s: %v, %+v", path, part.Name, flat[:6], n)
				}
				key := [2]int{k, int(n.Key)}
				if part.Who <= heard.Click && p.At+flat[0] < last[key] {
					t.Errorf("%s: %s: key %d begins at %d and is let go at %d", path, part.Name, n.Key, p.At+flat[0],
						last[key])
				}
				last[key] = p.At + flat[0] + flat[1]
				if _, ok := bed.Notes[name]; !ok {
					t.Errorf("%s: the bed has no %s", path, name)
				}
			}
		}
		first += int32(len(c.Bars))
	}
	for k := range next {
		for bar, left := range next[k] {
			if len(left) > 0 {
				t.Errorf("%s: %d notes of %s are missing in bar %d", path, len(left), song.Parts[k].Name, bar)
			}
		}
	}
	return bed
}

const small = `title = "Ferry"
by = "N. N."
key = "C"
tempo = 120
count_in = 1
section "verse" {
  energy = [2, 3]
  chords = "| C / / Am | % |"
  push "2: 1" {}
  cue "2: 3" { text = "door" }
}
form {
  play "verse" { tacet = ["drums"] }
}
`

// The state and the chunks of a small song, field by field.
func TestJSON(t *testing.T) {
	bed := bedOf(t, small)
	state := State{Rev: 3, File: "ferry.song.hcl", Says: "2 bars", OK: true, Bed: bed, Changed: []int{1}}
	text := string(state.JSON(&Since{2, []Went{{0, []int{0}}, {1, []int{0, -1}}}}))
	for _, want := range []string{
		`{"rev":3,"song":{"title":"Ferry","by":"N. N.","file":"ferry.song.hcl","only":""},"says":"2 bars","ok":true,` +
			`"wrong":[],"doubts":[],"bank":{"id":"tones1","name":"tones","sketch":false,"holds":[1,2,3,4,6,8,12]},` +
			`"levels":[{"gain":`,
		`,"parts":[{"who":"drums","name":"Drums","channel":9,"drums":true,"sounds":[{"at":0,"program":0,` +
			`"name":"Standard Kit"}]},{"who":"bass",`,
		`],"lead":1,"end":6000000,"tempos":[{"tick":0,"at":0,"quarter":500000}],"chunks":[{"hash":"`,
		`","pass":-1,"section":"","ordinal":0,"name":"","at":0,"tick":0,"end":2000000,"first":0,"bars":1,` +
			`"energy":[0,0],"key":"C major","feel":"`,
		`","pass":0,"section":"verse","ordinal":0,"name":"verse","at":2000000,"tick":3840,"end":6000000,"first":1,` +
			`"bars":2,"energy":[2,3],"key":"C major","feel":"`,
		`","tempo":"120","meter":"4/4","lift":0,"tacet":["drums"],"vamp":""}],` +
			`"changed":[1],"was":{"rev":2,"chunks":[{"chunk":0,"bars":[0]},{"chunk":1,"bars":[0,-1]}]}}`,
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %s in\n%s", want, text)
		}
	}
	front, verse := string(bed.Chunks[0].JSON), string(bed.Chunks[1].JSON)
	if !strings.HasPrefix(front, `{"bars":[{"at":0,"length":2000000,"tick":0,"ticks":3840,"inside":1,"energy":0,`+
		`"beats":[0,500000,1000000,1500000],"meter":"4/4","chords":[],"text":""}],"events":[],"notes":["p115-84-`) {
		t.Error(front)
	}
	for _, want := range []string{
		`{"bars":[{"at":0,"length":2000000,"tick":0,"ticks":3840,"inside":1,"energy":2,` +
			`"beats":[0,500000,1000000,1500000],"meter":"4/4",` +
			`"chords":[{"at":0,"text":"C"},{"at":1500000,"text":"Am"}],"text":"C / / Am"},{"at":2000000,`,
		`"events":[{"bar":1,"at":2000000,"end":2500000,"kind":"push","text":"push 1 by bass, piano",` +
			`"by":["bass","piano"],"acts":true},{"bar":1,"at":3000000,"end":3000000,"kind":"cue",` +
			`"text":"cue 3 \"door\"","cue":"door","by":["bass","piano"],"acts":true}],"notes":["p33-36-0",`,
	} {
		if !strings.Contains(verse, want) {
			t.Errorf("no %s in\n%s", want, verse)
		}
	}
	none := State{Rev: 1, File: "x.hcl"}
	none.Wrong = []Diag{{Severity: "error", Summary: "s", Detail: "a\nb"}}
	if got := string(none.JSON(nil)); got != `{"rev":1,"song":{"title":"x.hcl","by":"","file":"x.hcl","only":""},`+
		`"says":"","ok":false,"wrong":[{"severity":"error","summary":"s","detail":"a\nb"}],"doubts":[]}` {
		t.Error(got)
	}
}

// What a title or a name holds is a text: no markup and no control characters come through. A song file
// cannot hold the latter, but the page does not rely on that.
func TestTextsArePlain(t *testing.T) {
	tl, set, err := songfiletest.ExampleText("t.song.hcl", small)
	if err != nil {
		t.Fatal(err)
	}
	tl.Title, tl.By = "<script>alert(1)</script>\x1b[31m", "\u202eevil\x00"
	p := &tl.Passes[0]
	p.Section, p.Vamp, p.Bars[0].Text = "<b>\u009b1</b>", "until <hr>\x1b", "\x1bC</i>"
	p.Events[1].Text = "</p>\x07"
	bed := NewBed(tl, groove.Perform(tl, set), sounds)
	state := State{Rev: 1, File: "<i>.song.hcl", Says: "\x1b[2J", Bed: bed}
	state.Wrong = []Diag{{Summary: "a\x1b", Detail: "b\x07\nc", File: "\x1b", Lines: []Line{{N: 1, Text: "d\x1b\te<"}}}}
	all := state.JSON(nil)
	for _, c := range bed.Chunks {
		all = append(all, c.JSON...)
	}
	for _, bad := range []string{"<", ">", "&", "\x1b", "\x07", "\u202e", "\u009b", "\n", "\x00", `\u001b`, `\u0007`,
		`\u202e`, `\u0000`, `\u009b`} {
		if i := strings.Index(string(all), bad); i >= 0 {
			t.Errorf("%q in %s", bad, all[max(0, i-40):i+20])
		}
	}
	said := read[struct{ Song songJSON }](t, state.JSON(nil))
	if said.Song.Title != "<script>alert(1)</script>\ufffd[31m" {
		t.Errorf("%q", said.Song.Title)
	}
}
