package audio

import (
	"cmp"
	"math"
	"slices"

	"plinth/render/audio/bank"
	"plinth/render/heard"
)

// voice is a note of a part: a sound of the bank from a frame on.
type voice struct {
	note   bank.Note
	sound  *bank.Sound
	gain   float32
	start  int
	off    int // where its fade begins
	choked int // where it is cut by another note of its class
	end    int // where it is over
}

var chokeFrames = int(math.Round(bank.Choke * bank.Rate))

// plan lays the notes of a part out in time. How long each sounds is known when it is rendered.
func plan(p *heard.Part, notes []heard.Note, b bank.Bank) Stem {
	s := Stem{Who: p.Who, Name: p.Name}
	gain := LevelOf(p.Who).Gain
	seen := map[bank.Note]bool{}
	for _, n := range notes {
		patch := bank.Patch{Program: p.Sounds[n.Sound].Program, Drums: p.Drums}
		v := voice{note: b.Note(patch, n.Key, n.Velocity), gain: float32(gain * bank.Gain(n.Velocity)),
			start: max(frameAt(n.At), 0), choked: math.MaxInt}
		v.off = max(v.start, frameAt(n.At+n.Length))
		s.voices = append(s.voices, v)
		if !seen[v.note] {
			seen[v.note] = true
			s.notes = append(s.notes, v.note)
		}
	}
	return s
}

// render renders the notes of a stem, each as far as it is heard.
func (s *Stem) render(b bank.Bank, progress *progress) {
	uses := map[bank.Note][]*voice{}
	for i := range s.voices {
		v := &s.voices[i]
		uses[v.note] = append(uses[v.note], v)
	}
	parallel(len(s.notes), func() func(int) {
		return func(i int) {
			played := uses[s.notes[i]]
			longest := 0
			for _, v := range played {
				longest = max(longest, v.off-v.start)
			}
			sound := b.Sound(s.notes[i], longest)
			fade := int(min(bank.Released*sound.Release, bank.MaxSeconds) * bank.Rate)
			for _, v := range played {
				v.sound, v.end = &sound, min(v.start+len(sound.Left), v.off+fade)
			}
			progress.step()
		}
	})
	s.choke()
	for i := range s.voices {
		s.end = max(s.end, s.voices[i].end)
	}
}

// choke ends each note at the next one of its class. Notes that begin together do not end each other.
func (s *Stem) choke() {
	last := map[int][]*voice{} // by class: those that began together
	order := make([]*voice, len(s.voices))
	for i := range s.voices {
		order[i] = &s.voices[i]
	}
	slices.SortStableFunc(order, func(a, b *voice) int { return cmp.Compare(a.start, b.start) })
	for _, v := range order {
		class := v.sound.Class
		if class == 0 {
			continue
		}
		if before := last[class]; len(before) > 0 && before[0].start < v.start {
			for _, w := range before {
				w.choked = v.start
				w.end = min(w.end, v.start+chokeFrames)
			}
			last[class] = nil
		}
		last[class] = append(last[class], v)
	}
}

// segment is how many frames a core mixes at a time.
const segment = 1 << 16

// dry puts the notes of a stem into a silent sound, without the reverb.
func (s *Stem) dry(to *Stereo) {
	parallel((min(s.end, len(to.Left))+segment-1)/segment, func() func(int) {
		return func(i int) {
			from, until := i*segment, min((i+1)*segment, len(to.Left))
			for j := range s.voices {
				if v := &s.voices[j]; v.start < until && v.end > from {
					v.play(to, max(from, v.start), min(until, v.end))
				}
			}
		}
	})
	LevelOf(s.Who).pan(to)
}

// play adds the frames of a note that lie between two frames.
func (v *voice) play(to *Stereo, from, until int) {
	if held := min(v.off, v.choked, until); from < held {
		left, right := to.Left[from:held], to.Right[from:held]
		in := v.sound.Left[from-v.start:]
		for i := range left {
			left[i] += v.gain * in[i]
		}
		in = v.sound.Right[from-v.start:]
		for i := range right {
			right[i] += v.gain * in[i]
		}
		from = held
	}
	if from >= until {
		return
	}
	gain, release := float64(v.gain), v.sound.Release*bank.Rate
	if from >= v.off {
		gain *= math.Exp(-float64(from-v.off) / release)
	}
	step := math.Exp(-1 / release)
	for i := from; i < until; i++ {
		g := gain
		if i >= v.choked {
			g *= 1 - float64(i-v.choked)/float64(chokeFrames)
		}
		to.Left[i] += float32(g) * v.sound.Left[i-v.start]
		to.Right[i] += float32(g) * v.sound.Right[i-v.start]
		if i >= v.off {
			gain *= step
		}
	}
}
