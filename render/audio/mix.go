package audio

import (
	"fmt"
	"math"

	"plinth/render/audio/bank"
	"plinth/render/heard"
)

// maxMinutes bounds a song that is made a sound file.
const maxMinutes = 30

const (
	// loudest is the peak of every mix, -1 dBFS.
	loudest = 0.8912509381337456
	// inaudible is what is cut off at the end, -90 dBFS.
	inaudible = 3.1622776601683795e-5
)

// Options say what is mixed.
type Options struct {
	Choice
	// Progress, when not nil, is told how much of the mix is done, up to 1, in rising steps and one at a time.
	Progress func(share float64)
}

// Mixed is a song that has been mixed. The stems are as loud and as long as they are in the mix, each with what
// the reverb makes of it, so that they add up to it.
type Mixed struct {
	Mix   *Stereo
	Stems []Stem // who is heard, in the order of the song's parts

	gain      float32
	reverb    *reverb
	one, sent *Stereo // where a stem is made, and what of it is sent to the reverb
}

// Stem is a part of a mix.
type Stem struct {
	Who  heard.Who
	Name string
	Part int // its index in the song's Parts

	voices []voice
	notes  []bank.Note // those of the voices, each once
	end    int         // the frame in which the last voice is over
}

// Mix mixes a song. It is the same whatever the number of cores. An error means that the song is too long.
func Mix(song *heard.Song, b bank.Bank, o Options) (*Mixed, error) {
	end := frameAt(song.End)
	if end > maxMinutes*60*bank.Rate {
		return nil, fmt.Errorf("a song of more than %d minutes is not made a sound file; --only makes one of a section",
			maxMinutes)
	}
	m := &Mixed{gain: 1, reverb: newReverb()}
	most := m.reverb.blocks(end + bank.MaxFrames + hallFrames) // the last notes may ring on
	progress := &progress{tell: o.Progress, pieces: most}
	for i := range song.Parts {
		p := &song.Parts[i]
		if notes := o.notes(song, p); len(notes) > 0 {
			s := plan(p, notes, b)
			s.Part = i
			progress.pieces += len(s.notes) + 1
			m.Stems = append(m.Stems, s)
		}
	}
	frames := end
	for i := range m.Stems {
		s := &m.Stems[i]
		s.render(b, progress)
		frames = max(frames, s.end)
	}
	frames += hallFrames
	progress.skip(most - m.reverb.blocks(frames))
	m.mix(frames, progress)
	m.cut(end)
	return m, nil
}

// mix adds the stems up. They have one reverb together, which is the same as one each.
func (m *Mixed) mix(frames int, progress *progress) {
	m.Mix = newStereo(frames)
	m.one, m.sent = newStereo(frames), newStereo(frames)
	for i := range m.Stems {
		s := &m.Stems[i]
		m.one.clear()
		s.dry(m.one)
		m.Mix.add(m.one, 1)
		m.sent.add(m.one, float32(LevelOf(s.Who).Send))
		progress.step()
	}
	m.reverb.hall(m.sent, m.Mix, progress)
	if peak := m.Mix.peak(); peak > 0 {
		m.gain = float32(loudest / float64(peak))
	}
	m.Mix.scale(m.gain)
}

// cut takes off what is not heard at the end, but nothing of the song.
func (m *Mixed) cut(end int) {
	n := len(m.Mix.Left)
	for n > end && math.Abs(float64(m.Mix.Left[n-1])) < inaudible && math.Abs(float64(m.Mix.Right[n-1])) < inaudible {
		n--
	}
	for _, s := range []*Stereo{m.Mix, m.one, m.sent} {
		s.Left, s.Right = s.Left[:n], s.Right[:n]
	}
}

// Stem makes the sound of a stem, which is there until the next one is made: they are long, and not all of them
// need be in memory at once.
func (m *Mixed) Stem(i int) *Stereo {
	s := &m.Stems[i]
	m.one.clear()
	s.dry(m.one)
	if send := LevelOf(s.Who).Send; send > 0 {
		m.sent.clear()
		m.sent.add(m.one, float32(send))
		m.reverb.hall(m.sent, m.one, nil)
	}
	m.one.scale(m.gain)
	return m.one
}

// frameAt is the frame at a time in microseconds.
func frameAt(micros int64) int { return int((micros*bank.Rate + 500_000) / 1_000_000) }
