package bed

import (
	"bytes"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/library"
)

// edits are what an arranger does to a song file, at random places. After an edit that
// breaks the song, the next one starts from the song before it.
var edits = []struct {
	name string
	at   *regexp.Regexp
	to   func(r *rand.Rand, old string) string
}{
	{"a chord", regexp.MustCompile(`[A-G]b?(m7|maj7|7|m6|m)?( |\|)`), func(r *rand.Rand, old string) string {
		return pick(r, "Eb", "Fm7", "Bb7sus4", "C7", "Ab/C", "Gm7b5", "N.C.") + old[len(old)-1:]
	}},
	{"an energy", regexp.MustCompile(`energy = [1-5]`), func(r *rand.Rand, _ string) string {
		return pick(r, "energy = 1", "energy = 2", "energy = 3", "energy = 4", "energy = 5", "energy = [2, 5]")
	}},
	{"a feel", regexp.MustCompile(`feel   = "[a-z-]+"`), func(r *rand.Rand, _ string) string {
		return `feel   = "` + pick(r, "ballad-eighths", "ballad-sixteenths", "tight-sixteenths", "sustain",
			"backbeat-eighths") + `"`
	}},
	{"the tempo", regexp.MustCompile(`(?m)^tempo +=.*$`),
		func(r *rand.Rand, _ string) string { return fmt.Sprintf("tempo = %d", 60+r.IntN(20)) }},
	{"the take", regexp.MustCompile(`(?m)^key +=`),
		func(r *rand.Rand, old string) string { return fmt.Sprintf("take = %d\n%s", r.IntN(3), old) }},
	{"a count of an event", regexp.MustCompile(`"(\d): (\d)&?"`),
		func(r *rand.Rand, _ string) string { return fmt.Sprintf(`"%d: %d"`, 1+r.IntN(8), 1+r.IntN(4)) }},
	{"a new event", regexp.MustCompile(`(?m)^  energy = .*$`), func(r *rand.Rand, old string) string {
		return old + "\n  " + pick(r, `accent "1: 2"`, `push "2: 4&"`, `stop "3: 3"`, `fill "4: 3"`, `hold "4: 1"`) +
			" {}"
	}},
	{"a play more", regexp.MustCompile(`(?m)^  play "[a-z]+" \{\}$`),
		func(_ *rand.Rand, old string) string { return old + "\n" + old }},
	{"a play less", regexp.MustCompile(`(?m)^  play "[a-z]+" \{\}\n`), func(*rand.Rand, string) string { return "" }},
	{"a comment", regexp.MustCompile(`(?m)^section`),
		func(_ *rand.Rand, old string) string { return "# a thought\n\n" + old }},
	{"a lift", regexp.MustCompile(`lift +=.*`),
		func(r *rand.Rand, _ string) string { return fmt.Sprintf("lift = %d", 1+r.IntN(3)) }},
	{"a tacet", regexp.MustCompile(`play "verse" \{\}`), func(r *rand.Rand, _ string) string {
		return `play "verse" { tacet = ["` + pick(r, "drums", "bass", "piano") + `"] }`
	}},
	{"the groove", regexp.MustCompile(`GROOVE`), nil}, // done by the test
}

func pick(r *rand.Rand, words ...string) string { return words[r.IntN(len(words))] }

// folder is a song and its files in memory.
type folder map[string][]byte

func (f folder) read(path string) ([]byte, error) {
	if data, ok := f[filepath.ToSlash(path)]; ok {
		return data, nil
	}
	return nil, &fs.PathError{Op: "read", Path: path, Err: fs.ErrNotExist}
}

// TestCacheChangesNothing edits the examples at random, many times with one cache, and
// compares each build with one without a cache.
func TestCacheChangesNothing(t *testing.T) {
	for _, name := range []string{"lanterns", "high-water", "millers-clock", "own groove"} {
		t.Run(name, func(t *testing.T) {
			dir, err := filepath.Abs(filepath.Join("..", "..", "..", "examples"))
			if err != nil {
				t.Fatal(err)
			}
			song := filepath.Join(dir, name+".song.hcl")
			files := folder{}
			load := func(path string) ([]byte, error) {
				if data, err := files.read(path); err == nil {
					return data, nil
				}
				data, err := os.ReadFile(path)
				if err == nil {
					files[filepath.ToSlash(path)] = data
				}
				return data, err
			}
			if name == "own groove" {
				song = ownGroove(t, dir, files)
			}
			src, err := load(song)
			if err != nil {
				t.Fatal(err)
			}
			rnd := rand.New(rand.NewPCG(7, uint64(len(name))))
			cache := &groove.Cache{}
			built, reused, played := 0, 0, 0
			for i := 0; i < 150; i++ {
				was := string(src)
				now, what := was, "nothing"
				if i > 0 {
					now, what = change(rnd, was, files)
				}
				files[filepath.ToSlash(song)] = []byte(now)
				got, err := Build(Request{Song: song, ReadFile: load, Cache: cache})
				if err != nil || got.Failed() {
					files[filepath.ToSlash(song)] = []byte(was)
					continue
				}
				src = []byte(now)
				built++
				reused += cache.Reused
				played += cache.Played
				fresh, err := Build(Request{Song: song, ReadFile: load})
				if err != nil {
					t.Fatal(err)
				}
				if !bytes.Equal(got.Outputs[0].Data, fresh.Outputs[0].Data) {
					t.Fatalf("edit %d (%s): the kept passes give other bytes than a fresh build; the song:\n%s", i,
						what, now)
				}
			}
			t.Logf("%d builds, %d passes played, %d kept", built, played, reused)
			if built < 60 || reused < played {
				t.Errorf("only %d builds, %d passes kept of %d: the test shows nothing", built, reused, reused+played)
			}
		})
	}
}

// ownGroove is the ballad with a groove file of its own, made from a built-in one.
func ownGroove(t *testing.T, dir string, files folder) string {
	src, err := os.ReadFile(filepath.Join(dir, "lanterns.song.hcl"))
	if err != nil {
		t.Fatal(err)
	}
	own, ok := library.Source("ballad-eighths")
	if !ok {
		t.Fatal("there is no ballad-eighths")
	}
	song := filepath.Join(dir, "own.song.hcl")
	files[filepath.ToSlash(song)] = []byte("grooves = [\"own.groove.hcl\"]\n" +
		strings.ReplaceAll(string(src), "ballad-eighths", "weir"))
	files[filepath.ToSlash(filepath.Join(dir, "own.groove.hcl"))] = []byte(strings.Replace(string(own),
		"ballad-eighths", "weir", 1))
	return song
}

// change makes one edit.
func change(rnd *rand.Rand, src string, files folder) (now, what string) {
	for try := 0; try < 50; try++ {
		e := edits[rnd.IntN(len(edits))]
		if e.to == nil {
			for path, data := range files {
				if strings.HasSuffix(path, ".groove.hcl") && bytes.Contains(data, []byte("x---")) {
					files[path] = bytes.Replace(data, []byte("x---"), []byte(pick(rnd, "x--x", "x-x-", "X---")), 1)
					return src, e.name
				}
			}
			continue
		}
		at := e.at.FindAllStringIndex(src, -1)
		if len(at) == 0 || strings.Count(src, "take =") > 0 && e.name == "the take" {
			continue
		}
		p := at[rnd.IntN(len(at))]
		return src[:p[0]] + e.to(rnd, src[p[0]:p[1]]) + src[p[1]:], e.name
	}
	return src, "nothing"
}

// TestCacheIsLocal: an edit in one section plays that section's passes and no
// other's, save a neighbour that sees its first or last chord.
func TestCacheIsLocal(t *testing.T) {
	song := filepath.Join("..", "..", "..", "examples", "lanterns.song.hcl")
	src, err := os.ReadFile(song)
	if err != nil {
		t.Fatal(err)
	}
	cache := &groove.Cache{}
	build := func(text string) {
		t.Helper()
		res, err := Build(Request{Song: song, Cache: cache, ReadFile: func(path string) ([]byte, error) {
			if filepath.Base(path) == filepath.Base(song) {
				return []byte(text), nil
			}
			return os.ReadFile(path)
		}})
		if err != nil || res.Failed() {
			t.Fatal(err, res.Diags)
		}
	}
	build(string(src))
	all := cache.Played
	build("# a comment\n" + string(src))
	if cache.Played != 0 || cache.Reused != all {
		t.Errorf("a comment: %d passes played again", cache.Played)
	}
	inside := strings.Replace(string(src), "| iv6 |", "| iv7 |", 1)
	if inside == string(src) {
		inside = strings.Replace(string(src), "iv6", "iv7", 1)
	}
	build(inside)
	if cache.Played != 1 {
		t.Errorf("a chord inside the bridge, which is played once: %d passes played again", cache.Played)
	}
}
