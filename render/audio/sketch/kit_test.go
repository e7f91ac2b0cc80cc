package sketch

import (
	"testing"

	"plinth/groove/feel"
	"plinth/render/audio/bank"
)

// kitNote is the note of a kit that a velocity selects.
func kitNote(kit, key, velocity uint8) bank.Sound {
	b := New()
	return b.Sound(b.Note(bank.Patch{Program: kit, Drums: true}, key, velocity), whole)
}

// General MIDI's hi-hat keys end each other; nothing else that the drummer plays is in that class.
func TestHatsChoke(t *testing.T) {
	renders(t)
	for _, kit := range []uint8{standardKit, brushKit} {
		closed, foot, open := kitNote(kit, 42, 60), kitNote(kit, 44, 60), kitNote(kit, 46, 60)
		if closed.Class == 0 || closed.Class != foot.Class || foot.Class != open.Class {
			t.Errorf("kit %d: hats have the classes %d, %d, %d", kit, closed.Class, foot.Class, open.Class)
		}
		if rms(open, 0.5, 0.6)-rms(open, 0, 0.1) < -25 || rms(closed, 0.5, 0.6)-rms(closed, 0, 0.1) > -60 {
			t.Errorf("kit %d: an open hat does not last or a closed one does", kit)
		}
		for _, v := range feel.Voices() {
			if s := kitNote(kit, v.Key, 60); !v.HatFamily() && s.Class == closed.Class {
				t.Errorf("kit %d: %s is ended by a hat", kit, v.Word)
			}
		}
	}
}

// crest is how far the loudest hundredth of a second stands over the first third of a second.
func crest(s bank.Sound) float64 { return rms(s, attack(s), attack(s)+0.01) - rms(s, 0, 0.3) }

// A brush that sweeps is noise that swells: it comes slowly, has no peak, and no pitch. A snare drum that a stick
// strikes is the opposite. A brush that taps lies between.
func TestBrushes(t *testing.T) {
	renders(t)
	struck, sweep, tap := kitNote(standardKit, 38, 80), kitNote(brushKit, 40, 80), kitNote(brushKit, 38, 80)
	if a := attack(sweep); a < 0.08 || a > 0.3 {
		t.Errorf("a sweep is loudest after %.3f s", a)
	}
	if a, b := attack(struck), attack(tap); a > 0.01 || b > 0.02 {
		t.Errorf("a stroke is loudest after %.3f s, a tap after %.3f s", a, b)
	}
	if a, b := crest(sweep), crest(struck); a > 4 || b < a+4 {
		t.Errorf("a sweep's loudest moment stands %.1f dB over its level, a stroke's %.1f", a, b)
	}
	if a := rms(sweep, 0, 0.01) - rms(sweep, 0.1, 0.2); a > -20 {
		t.Errorf("a sweep begins %.1f dB under its level", a)
	}
	// noise: the strongest line of the spectrum holds little of the power
	line := func(s bank.Sound) float64 {
		mags := spectrum(mid(s), 0, 1<<14, false)
		sum, top := 0.0, 0.0
		for i := 3; i+3 < len(mags); i++ {
			near := 0.0
			for _, m := range mags[i-3 : i+4] {
				near += m * m
			}
			top = max(top, near)
			sum += mags[i] * mags[i]
		}
		return top / sum
	}
	if a, b := line(sweep), line(struck); a > 0.05 || b < 0.3 {
		t.Errorf("the strongest line holds %.2f of a sweep and %.2f of a stroke", a, b)
	}
}

// Each voice of the kit is another sound: no two that the drummer has are the same.
func TestVoicesDiffer(t *testing.T) {
	renders(t)
	for _, kit := range []uint8{standardKit, brushKit} {
		had := map[float64]string{}
		keys := map[uint8]bool{}
		for _, v := range feel.Voices() {
			if keys[v.Key] {
				continue
			}
			keys[v.Key] = true
			c := centroid(kitNote(kit, v.Key, 64))
			if other := had[c]; other != "" {
				t.Errorf("kit %d: %s sounds like %s", kit, v.Word, other)
			}
			had[c] = v.Word
		}
	}
	if a, b := centroid(kitNote(brushKit, 38, 64)), centroid(kitNote(standardKit, 38, 64)); a < 1.5*b {
		t.Errorf("a brush's tap lies at %.0f Hz, a stroke at %.0f: the one is noise, the other a drum", a, b)
	}
}
