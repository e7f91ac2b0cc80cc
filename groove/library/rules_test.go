package library

import (
	"fmt"
	"testing"

	"plinth/groove/feel"
)

// eachLevel calls do for every groove, energy and pattern: the level as it is
// and as it answers.
func eachLevel(t *testing.T, do func(t *testing.T, f *feel.Feel, lv *feel.Level)) {
	for _, name := range Names() {
		f := Builtin().Feels[name]
		for i := range f.Levels {
			lv := f.Levels[i]
			lv.Answer = nil
			t.Run(fmt.Sprintf("%s/%d", name, i+1), func(t *testing.T) { do(t, f, &lv) })
			if f.Levels[i].Answer != nil {
				answered := f.Levels[i].Answered()
				t.Run(fmt.Sprintf("%s/%d/answer", name, i+1), func(t *testing.T) { do(t, f, &answered) })
			}
		}
	}
}

// stepMicros is the length of a step at the groove's highest tempo.
func stepMicros(f *feel.Feel) int {
	m, grid := f.Layout()
	return int(m.BarTicks() / int64(grid) * 60_000_000 / int64(f.TempoHigh) / m.TempoTicks())
}

// TestPlayable: two hands, two feet, ten strokes a second a hand (common practice;
// the WFD single-stroke record for the rate), at the highest tempo.
func TestPlayable(t *testing.T) {
	eachLevel(t, func(t *testing.T, f *feel.Feel, lv *feel.Level) {
		if len(lv.Drums) == 0 {
			return
		}
		for i := range lv.Drums[0].Steps {
			if why := feel.Clash(lv.Drums, i); why != "" {
				t.Errorf("step %d: %s", i, why)
			}
		}
		// A groove of any meter steps in whole beats.
		if at := handsKeepUp(lv.Drums, stepMicros(f), true); at >= 0 {
			t.Errorf("step %d comes too soon for two hands at %d", at, f.TempoHigh)
		}
	})
}

// TestOneHandedSixteenths: an unbroken row of sixteenths on one cymbal by one
// hand, as it must be where the other has the snare at the same time, is
// comfortable to about 105 (common practice, no single source). In grooves that go
// quicker such a row has the two hands take turns, and so leaves out the cymbal
// where one of them is on the snare.
func TestOneHandedSixteenths(t *testing.T) {
	eachLevel(t, func(t *testing.T, f *feel.Feel, lv *feel.Level) {
		if stepMicros(f) >= 60_000_000/105/4 {
			return
		}
		for _, r := range lv.Drums {
			if w := r.Voice.Word; w != "hat" && w != "ride" {
				continue
			}
			run, both := 0, false
			for i := 0; i < 2*len(r.Steps); i++ {
				at := i % len(r.Steps)
				if r.Steps[at].Touch <= feel.Sound {
					run, both = 0, false
					continue
				}
				run++
				for _, o := range lv.Drums {
					both = both || (o.Voice.Limb == feel.Hand && o.Voice != r.Voice && o.Steps[at].Touch > feel.Sound)
				}
				if run > 3 && both {
					t.Fatalf("step %d: %s in sixteenths and the other hand busy, at %d", at, r.Voice.Word, f.TempoHigh)
				}
			}
		}
	})
}

// TestKickLock: at least 80 % of the kick meets the bass (our own rule).
func TestKickLock(t *testing.T) {
	eachLevel(t, func(t *testing.T, f *feel.Feel, lv *feel.Level) {
		if n := kickLock(f, lv); n < 80 {
			t.Errorf("only %d %% of the kick's strokes meet the bass", n)
		}
	})
}

// TestSyncopation: kick and snare stay under the groove's own figure, and the
// figure is not an idle one: some level comes within 2 of it.
func TestSyncopation(t *testing.T) {
	for _, name := range Names() {
		f, worst := Builtin().Feels[name], 0
		for i := range f.Levels {
			worst = max(worst, f.KitSyncopation(&f.Levels[i]))
		}
		if worst > f.Syncopation || worst < f.Syncopation-2 {
			t.Errorf("%s: the busiest bar reaches %d, the groove says %d", name, worst, f.Syncopation)
		}
	}
}

// TestCompDensity: at most 1.2 attacks a beat at energy 2, 1.5, 1.7 and 1.9 above it. The
// median of 870 pop accompaniments, played alone (POP909), is 2.0.
func TestCompDensity(t *testing.T) {
	limit := [5]int{1000, 1200, 1500, 1700, 1900}
	eachLevel(t, func(t *testing.T, f *feel.Feel, lv *feel.Level) {
		if n := compPerBeat(f, lv); n > limit[lv.Energy-1] {
			t.Errorf("%d.%03d attacks a beat, at most %d.%03d", n/1000, n%1000, limit[lv.Energy-1]/1000,
				limit[lv.Energy-1]%1000)
		}
	})
}

// TestDrama: every energy plays more than the one below it; sustain, which only
// holds, plays no less, with more voices and higher.
func TestDrama(t *testing.T) {
	for _, name := range Names() {
		f := Builtin().Feels[name]
		for i := 1; i < 5; i++ {
			low, high := &f.Levels[i-1], &f.Levels[i]
			a, b := count(f, low), count(f, high)
			if b.total() < a.total() || (b.total() == a.total() && name != "sustain") {
				t.Errorf("%s: %d at energy %d, %d at %d (thousandths of an onset a bar)", name, a.total(), i, b.total(),
					i+1)
			}
			if high.Voices < low.Voices || high.Centre <= low.Centre {
				t.Errorf("%s: %d voices about %d at energy %d, %d about %d at %d", name,
					low.Voices, low.Centre, i, high.Voices, high.Centre, i+1)
			}
			if b.Kit < a.Kit || b.Bass < a.Bass {
				t.Errorf("%s: kit or bass thins out from energy %d to %d: %v, %v", name, i, i+1, a, b)
			}
		}
		if v := [5]int{f.Levels[0].Voices, f.Levels[1].Voices, f.Levels[2].Voices, f.Levels[3].Voices,
			f.Levels[4].Voices}; v[0] != 2 || v[1] < 3 || v[4] != 4 {
			t.Errorf("%s: voices %v; two at energy 1, three or four above", name, v)
		}
	}
}

// TestSoundOfEnergies: what the kit uses at which energy. The ride is for 4 and
// 5; in swing and jazz-waltz, where handbooks make it the time-keeper, also at 3,
// softly. No snare drum with a stick below 3. The crash is the player's.
func TestSoundOfEnergies(t *testing.T) {
	eachLevel(t, func(t *testing.T, f *feel.Feel, lv *feel.Level) {
		for _, r := range lv.Drums {
			w := r.Voice.Word
			loudest := feel.Rest
			for _, s := range r.Steps {
				loudest = max(loudest, s.Touch)
			}
			switch {
			case w == "crash":
				t.Error("a crash in a pattern")
			case w == "slap":
				t.Error("a slap: on a General MIDI Level 1 kit it is a hand clap")
			case w == "sweep" && loudest > feel.Soft:
				t.Error("a sweep above soft: on a General MIDI Level 1 kit it is a snare stroke")
			case w == "snare" && lv.Energy < 3:
				t.Error("the snare drum below energy 3")
			case (w == "ride" || w == "ride_bell") && lv.Energy < 4:
				if (f.Name != "swing" && f.Name != "jazz-waltz") || lv.Energy < 3 || loudest > feel.Soft {
					t.Error("the ride below energy 4")
				}
			case lv.Energy == 1 && loudest > feel.Soft:
				t.Errorf("%s above soft at energy 1", w)
			case lv.Energy < 5 && loudest == feel.Strong && w != "kick":
				t.Errorf("%s strong below energy 5", w)
			}
		}
	})
}

// TestBassApproaches: approach notes only from energy 3 and in the bar's last beat.
func TestBassApproaches(t *testing.T) {
	eachLevel(t, func(t *testing.T, f *feel.Feel, lv *feel.Level) {
		m, grid := f.Layout()
		beats := m.Beats()
		last := int(beats[len(beats)-1] * int64(grid) / m.BarTicks())
		for i, s := range lv.Bass {
			if s.Degree != 'a' && s.Degree != 'c' {
				continue
			}
			if lv.Energy < 3 || (len(f.Meters) > 0 && i%grid < last) || len(f.Meters) == 0 {
				t.Errorf("an approach at step %d", i)
			}
		}
	})
}

// TestBassOnOne: the bass stands on the bar's first step, but for the groove whose
// very point is that it may not.
func TestBassOnOne(t *testing.T) {
	eachLevel(t, func(t *testing.T, f *feel.Feel, lv *feel.Level) {
		for bar := 0; bar < lv.Bars; bar++ {
			if s := lv.Bass[f.Index(bar, 0)]; s.Degree == 0 && !(f.Name == "one-drop" && bar > 0) {
				t.Errorf("no bass on 1 of bar %d", bar+1)
			}
		}
	})
}

// TestAnswersAnswer: an answer differs from what it answers.
func TestAnswersAnswer(t *testing.T) {
	for _, name := range Names() {
		f := Builtin().Feels[name]
		for i := range f.Levels {
			lv := &f.Levels[i]
			if lv.Answer == nil {
				if i > 0 && len(lv.Comp) < 2 && name != "sustain" && name != "pulse" {
					t.Errorf("%s: level %d has no answer, and no figures", name, i+1)
				}
				continue
			}
			a := lv.Answered()
			before, after := count(f, lv), count(f, &a)
			if fmt.Sprint(lv.Drums, lv.Bass, lv.Comp) == fmt.Sprint(a.Drums, a.Bass, a.Comp) {
				t.Errorf("%s: the answer of level %d is the level", name, i+1)
			}
			if d := after.total() - before.total(); d < -2000 || d > 2000 {
				t.Errorf("%s: level %d and its answer are %d thousandths of an onset a bar apart; an answer is a shade",
					name, i+1, d)
			}
		}
	}
}
