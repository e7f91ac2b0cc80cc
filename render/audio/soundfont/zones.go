package soundfont

import (
	"slices"

	"github.com/sinshu/go-meltysynth/meltysynth"

	"plinth/render/audio/bank"
)

// zone is an instrument's zone within a preset's: what the library calls regions.
type zone struct {
	preset     *meltysynth.PresetRegion
	instrument *meltysynth.InstrumentRegion
}

// layerKey says whose layers are meant.
type layerKey struct {
	patch bank.Patch
	key   uint8
}

// layers are the sets of zones that the velocities of a key select. They are numbered as they come
// from velocity 1 up, so a file always numbers them alike, and there are 127 at most.
type layers struct {
	sets [][]zone
	of   [128]uint8 // by velocity
}

// maxTogether bounds the zones that sound at once: it is the library's own bound of voices.
const maxTogether = 64

// layersOf are the layers of a key. Velocity 0 counts as 1.
func (b *Bank) layersOf(p bank.Patch, key uint8) *layers {
	b.mu.Lock()
	defer b.mu.Unlock()
	id := layerKey{p, key}
	if l := b.layers[id]; l != nil {
		return l
	}
	l := &layers{}
	b.layers[id] = l
	var all []zone
	if _, preset := b.preset(p); preset != nil {
		all = b.zonesAt(preset, int32(key))
	}
	for velocity := uint8(1); velocity < 128; velocity++ {
		set := slices.DeleteFunc(slices.Clone(all), func(z zone) bool { return !z.at(int32(velocity)) })
		set = set[:min(len(set), maxTogether)]
		i := slices.IndexFunc(l.sets, func(other []zone) bool { return slices.Equal(other, set) })
		if i < 0 {
			i = len(l.sets)
			l.sets = append(l.sets, set)
		}
		l.of[velocity] = uint8(i)
	}
	return l
}

// zonesAt are the zones of a preset that a key selects and that can be played.
func (b *Bank) zonesAt(preset *meltysynth.Preset, key int32) (out []zone) {
	for _, p := range preset.Regions {
		if key < p.GetKeyRangeStart() || key > p.GetKeyRangeEnd() {
			continue
		}
		for _, r := range p.Instrument.Regions {
			if key < r.GetKeyRangeStart() || key > r.GetKeyRangeEnd() || !b.playable(r) {
				continue
			}
			if z := (zone{p, r}); z.top() > 0 {
				out = append(out, z)
			}
		}
	}
	return out
}

// at reports whether a velocity selects the zone.
func (z zone) at(velocity int32) bool {
	return velocity >= z.preset.GetVelocityRangeStart() && velocity <= z.preset.GetVelocityRangeEnd() &&
		velocity >= z.instrument.GetVelocityRangeStart() && velocity <= z.instrument.GetVelocityRangeEnd()
}

// top is the highest velocity that selects the zone; 0 where none does.
func (z zone) top() int32 {
	top := min(z.preset.GetVelocityRangeEnd(), z.instrument.GetVelocityRangeEnd(), 127)
	if !z.at(top) {
		return 0
	}
	return top
}

// playable reports whether a zone's sample lies within the samples of the file. Samples of a sound card's
// own memory (7.10, the types from 0x8000 on) do not.
func (b *Bank) playable(r *meltysynth.InstrumentRegion) bool {
	start, end, size := r.GetSampleStart(), r.GetSampleEnd(), int32(len(b.font.WaveData))
	if r.Sample.SampleType&0x8000 != 0 || start < 0 || start >= end || end >= size || r.Sample.SampleRate <= 0 {
		return false
	}
	if r.GetSampleModes() == 0 {
		return true
	}
	from, to := r.GetSampleStartLoop(), r.GetSampleEndLoop()
	return from >= 0 && from < to && to < size
}

const (
	// fall is by what power of e the library lets the volume fall in the times of decay and release. bank.Released is
	// the same number, so that a fade is over when the release is.
	fall = 9.226
	// endless is the time constant in seconds of a release that takes nothing off.
	endless = 100
	// struck is a sustain level in decibels under the peak to which only a note falls that is left to ring: the
	// decay goes on for as long as it is heard.
	struck = 60
)

// release is the time constant of the fade at a note's end, in seconds. The release takes at least 10 ms, and
// it takes the decay's place (8.1.2, generators 36 and 38), while the held note that is faded has the decay in it.
// So of a release that is about as slow as the decay only the difference is a fade: a cymbal rings on. Where
// the release is twice as fast or more, the decay does not count: it may not have begun.
func (z zone) release() float64 {
	rate := fall / max(float64(z.preset.GetReleaseVolumeEnvelope()*z.instrument.GetReleaseVolumeEnvelope()), 0.01)
	decay := fall / float64(z.preset.GetDecayVolumeEnvelope()*z.instrument.GetDecayVolumeEnvelope())
	sustain := z.preset.GetSustainVolumeEnvelope() + z.instrument.GetSustainVolumeEnvelope()
	if sustain >= struck && rate < 2*decay {
		rate -= decay
	}
	return 1 / max(rate, 1.0/endless)
}

// onset is how long a note may be silent at its beginning, in seconds: its delay and its attack.
func (z zone) onset() float64 {
	return float64(z.preset.GetDelayVolumeEnvelope())*float64(z.instrument.GetDelayVolumeEnvelope()) +
		float64(z.preset.GetAttackVolumeEnvelope())*float64(z.instrument.GetAttackVolumeEnvelope())
}
