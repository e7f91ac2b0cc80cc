package audio

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/sinshu/go-meltysynth/meltysynth"

	"plinth/groove"
	"plinth/groove/songfiletest"
	"plinth/render/audio/bank"
	"plinth/render/audio/soundfont"
	"plinth/render/heard"
	"plinth/songspec/timeline"
)

// timGM is Debian's timgm6mb-soundfont.
const timGM = "/usr/share/sounds/sf2/TimGM6mb.sf2"

// timBank is its bank, and its bytes; the test skips without it.
func timBank(t testing.TB) (*soundfont.Bank, []byte) {
	t.Helper()
	data, err := os.ReadFile(timGM)
	if err != nil {
		t.Skipf("no %s: the package timgm6mb-soundfont has it", timGM)
	}
	b, err := soundfont.Open(data, "TimGM6mb.sf2")
	if err != nil {
		t.Fatal(err)
	}
	return b, data
}

// example is what is heard of an example.
func example(t testing.TB, name string) (*heard.Song, *timeline.Timeline) {
	t.Helper()
	_, tl, set := songfiletest.Example(t, filepath.Join("..", "..", "examples", name+".song.hcl"))
	return heard.Of(tl, groove.Perform(tl, set)), tl
}

// block is how many frames go-meltysynth renders at a time: what begins within them begins with the next.
const block = 64

// onBlocks moves the notes of a part to the beginnings of blocks, where both can play them.
func onBlocks(p heard.Part) heard.Part {
	at := func(micros int64) int64 {
		return int64(math.Round(float64((frameAt(micros)+block/2)/block*block) * 1e6 / bank.Rate))
	}
	p.Notes = slices.Clone(p.Notes)
	for i := range p.Notes {
		n := &p.Notes[i]
		end := at(n.At + n.Length)
		n.At = at(n.At)
		n.Length = max(end-n.At, 0)
	}
	return p
}

// apart is a SoundFont in which every instrument has exclusive classes of its own: so the library does not cut one
// layer of a note when the other begins, as it does with the brush kit of TimGM6mb. The lists are those of the
// SoundFont Technical Specification 2.04, 7.6 to 7.9; generator 57 is the class (8.1.2).
func apart(data []byte) []byte {
	data = slices.Clone(data)
	list := func(id string) []byte {
		start := bytes.LastIndex(data, []byte(id)) + 8
		return data[start:][:binary.LittleEndian.Uint32(data[start-4:])]
	}
	number := func(list []byte, at int) int { return int(binary.LittleEndian.Uint16(list[at:])) }
	inst, ibag, igen := list("inst"), list("ibag"), list("igen")
	for i := range len(inst)/22 - 1 {
		from, to := number(ibag, 4*number(inst, 22*i+20)), number(ibag, 4*number(inst, 22*i+42))
		for g := from; g < to; g++ {
			if number(igen, 4*g) == 57 {
				binary.LittleEndian.PutUint16(igen[4*g+2:], uint16(number(igen, 4*g+2)+100*(i%300)))
			}
		}
	}
	return data
}

// whole is a part as one synthesizer of go-meltysynth plays all of it, without reverb and chorus.
func whole(t *testing.T, data []byte, p heard.Part, frames int) *Stereo {
	t.Helper()
	font, err := meltysynth.NewSoundFont(bytes.NewReader(apart(data)))
	if err != nil {
		t.Fatal(err)
	}
	settings := meltysynth.NewSynthesizerSettings(bank.Rate)
	settings.EnableReverbAndChorus = false
	settings.MaximumPolyphony = 256
	synth, err := meltysynth.NewSynthesizer(font, settings)
	if err != nil {
		t.Fatal(err)
	}
	synth.MasterVolume = 1
	channel := int32(p.Channel)
	for _, controller := range []int32{7, 39, 11, 43} {
		synth.ProcessMidiMessage(channel, 0xB0, controller, 127)
	}
	type event struct {
		frame   int
		on      bool
		program int32
		note    heard.Note
	}
	var events []event
	for _, n := range p.Notes {
		program := int32(p.Sounds[n.Sound].Program)
		events = append(events, event{frameAt(n.At), true, program, n}, event{frameAt(n.At + n.Length), false, 0, n})
	}
	slices.SortStableFunc(events, func(a, b event) int {
		if a.frame == b.frame && a.on != b.on {
			if b.on {
				return -1
			}
			return 1
		}
		return cmp.Compare(a.frame, b.frame)
	})
	out := newStereo((frames + block - 1) / block * block)
	for from := 0; from < len(out.Left); from += block {
		for len(events) > 0 && events[0].frame <= from {
			e := events[0]
			events = events[1:]
			if e.on {
				synth.ProcessMidiMessage(channel, 0xC0, e.program, 0)
				synth.NoteOn(channel, int32(e.note.Key), int32(e.note.Velocity))
			} else {
				synth.NoteOff(channel, int32(e.note.Key))
			}
		}
		synth.Render(out.Left[from:from+block], out.Right[from:from+block])
	}
	return out
}

// What is put together of single notes differs by less than -28 dB from what go-meltysynth makes of a player's
// whole part. They differ in how a class is choked (at once there), in the first
// block of a release, and where a release begins before the decay.
func TestLikeTheWhole(t *testing.T) {
	if testing.Short() {
		t.Skip("a song is rendered twice")
	}
	b, data := timBank(t)
	songs, until := []string{"high-water", "lanterns", "millers-clock"}, int64(math.MaxInt64)
	if os.Getenv("PLINTH_LONG") == "" {
		songs, until = songs[1:2], 20*second
		t.Log("the first 20 seconds of lanterns; with PLINTH_LONG=1 all of the examples")
	}
	for _, name := range songs {
		song, _ := example(t, name)
		for _, p := range song.Parts {
			p.Notes = slices.DeleteFunc(slices.Clone(p.Notes), func(n heard.Note) bool { return n.At > until })
			if len(p.Notes) == 0 || p.Who >= heard.Click {
				continue
			}
			p = onBlocks(p)
			s := plan(&p, p.Notes, b)
			s.render(b, nil)
			got := newStereo(s.end)
			s.dry(got)
			got.scale(float32(1 / LevelOf(p.Who).Gain))
			want := whole(t, data, p, s.end)
			diff, level := 0.0, 0.0
			for i := range got.Left {
				for _, x := range [][2]float32{{got.Left[i], want.Left[i]}, {got.Right[i], want.Right[i]}} {
					d := float64(x[0] - x[1])
					diff += d * d
					level += float64(x[1]) * float64(x[1])
				}
			}
			db := 10 * math.Log10(diff/level)
			t.Logf("%s, %s: %.1f dB", name, p.Name, db)
			if !(db < -28) {
				t.Errorf("%s, %s: it differs by %.1f dB", name, p.Name, db)
			}
		}
	}
}
