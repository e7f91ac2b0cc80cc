package soundfont

import (
	"math"
	"sync"

	"github.com/sinshu/go-meltysynth/meltysynth"

	"plinth/render/audio/bank"
)

const (
	// step is how much is rendered at a time, a quarter of a second: when all of it is silent, the note is over.
	step = bank.Rate / 4
	// silent is what counts for nothing at a note's end: 80 dB under its peak.
	silent = 1e-4
	// fade is for a note that still sounds when no more of it is kept.
	fade = bank.Rate / 2
	// between is longer than a sound that goes on is silent between two waves.
	between = bank.Rate / 50
	// wild is more than any sample can be: beyond it a filter has gone wrong.
	wild = 1000
)

// scratch is what a zone is rendered into.
type scratch struct{ left, right [bank.MaxFrames]float32 }

var scratches = sync.Pool{New: func() any { return new(scratch) }}

// render adds the zones of a note, as much as so many frames of it.
func (b *Bank) render(zones []zone, key uint8, most int) bank.Sound {
	var out bank.Sound
	sum, one := scratches.Get().(*scratch), scratches.Get().(*scratch)
	frames := 0 // what of sum is used
	peak := float32(0)
	for _, z := range zones {
		n, loud := b.renderZone(z, key, most, one)
		peak = max(peak, loud)
		if r := z.release(); n > frames || n == frames && r < out.Release {
			out.Release = r // the longest zone's: the others are over before
		}
		if frames == 0 {
			frames = n
			sum, one = one, sum
		} else {
			if n > frames {
				clear(sum.left[frames:n])
				clear(sum.right[frames:n])
				frames = n
			}
			add(sum.left[:n], one.left[:n])
			add(sum.right[:n], one.right[:n])
		}
		if out.Class == 0 {
			out.Class = int(z.instrument.GetExclusiveClass())
		}
	}
	if frames == bank.MaxFrames {
		for i := range fade {
			g := float32(fade-1-i) / fade
			sum.left[frames-fade+i] *= g
			sum.right[frames-fade+i] *= g
		}
	}
	end := frames
	for end > 0 && max(abs(sum.left[end-1]), abs(sum.right[end-1])) <= silent*peak {
		end--
	}
	if frames == most && most < bank.MaxFrames && frames-end < between {
		end = frames // it goes on
	}
	out.Left = append([]float32(nil), sum.left[:end]...)
	out.Right = append([]float32(nil), sum.right[:end]...)
	scratches.Put(sum)
	scratches.Put(one)
	return out
}

// renderZone renders a zone alone, at its highest velocity with the gain that 127 would have, and
// returns how many frames it gave and how loud it was. A zone that the library cannot play is silent.
func (b *Bank) renderZone(z zone, key uint8, most int, to *scratch) (frames int, peak float32) {
	defer func() {
		if recover() != nil {
			frames, peak = 0, 0
		}
	}()
	synth, err := b.synthesizer(z)
	if err != nil {
		return 0, 0
	}
	synth.NoteOn(0, int32(key), z.top())
	for frames < most {
		n := min(step, most-frames)
		left, right := to.left[frames:frames+n], to.right[frames:frames+n]
		synth.Render(left, right)
		loud := max(loudest(left), loudest(right))
		if !(loud < wild) {
			return 0, 0
		}
		peak = max(peak, loud)
		frames += n
		if loud <= silent*peak && float64(frames-n)/bank.Rate >= z.onset() {
			break
		}
	}
	return frames, peak
}

// synthesizer is one that has a zone as its only sound. It is made for each note: it is what the library changes.
func (b *Bank) synthesizer(z zone) (*meltysynth.Synthesizer, error) {
	region := *z.preset
	region.Instrument = &meltysynth.Instrument{Regions: []*meltysynth.InstrumentRegion{z.instrument}}
	font := *b.font
	font.Presets = []*meltysynth.Preset{{Regions: []*meltysynth.PresetRegion{&region}}}
	settings := meltysynth.NewSynthesizerSettings(bank.Rate)
	settings.EnableReverbAndChorus = false
	settings.MaximumPolyphony = 8 // the least that it takes
	synth, err := meltysynth.NewSynthesizer(&font, settings)
	if err != nil {
		return nil, err
	}
	// The channel's volume (controllers 7 and 39) and expression (11 and 43) are full.
	for _, controller := range []int32{7, 39, 11, 43} {
		synth.ProcessMidiMessage(0, 0xB0, controller, 127)
	}
	synth.MasterVolume = float32(1 / bank.Gain(uint8(z.top())))
	return synth, nil
}

func add(to, x []float32) {
	for i, v := range x {
		to[i] += v
	}
}

// loudest is about the largest sample: every fourth is looked at. It is NaN where the sound has come to be no
// number, which it stays.
func loudest(x []float32) (peak float32) {
	for i := 0; i < len(x); i += 4 {
		v := x[i]
		if v <= peak && v >= -peak {
			continue
		}
		if peak = abs(v); peak != peak {
			break
		}
	}
	return peak
}

func abs(x float32) float32 { return float32(math.Abs(float64(x))) }
