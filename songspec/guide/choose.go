package guide

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"plinth/songspec/wording"
)

// Choice is the track that was taken for the voice.
type Choice struct {
	Track *Track
	Why   string   // why, in words: "named \"Vocal\", one note at a time"
	Doubt []string // names of other tracks that may be the voice as well
	Empty string   // a track without notes whose name is more a voice's than Track's
}

// Vocal is the track of that name, whatever its capitals. For an empty name it is the track
// that is most likely the voice: by its name, by lyrics under its notes, by having one note
// at a time within a voice's reach, by its program; never channel 10. The error is ErrSilent,
// or one plain sentence that lists the tracks there are.
func (f *File) Vocal(name string) (Choice, error) {
	var with []*Track
	for i := range f.Tracks {
		if len(f.Tracks[i].Notes) > 0 {
			with = append(with, &f.Tracks[i])
		}
	}
	switch {
	case len(with) == 0:
		return Choice{}, ErrSilent
	case name != "":
		return f.chooseNamed(name, with)
	}
	type ranked struct {
		t     *Track
		score int
		why   []string
	}
	list := make([]ranked, len(with))
	for i, t := range with {
		score, why := f.likelihood(t)
		list[i] = ranked{t, score, why}
	}
	slices.SortStableFunc(list, func(a, b ranked) int { return b.score - a.score })
	best := list[0]
	c := Choice{Track: best.t, Why: strings.Join(best.why, ", "), Empty: f.emptyVoice(best.t)}
	if len(with) == 1 {
		c.Why = "the only track with notes"
		return c, nil
	}
	if best.t.Channel == 10 {
		return Choice{}, fmt.Errorf("the file has only drums, no voice: it has %s", trackList(with))
	}
	for _, o := range list[1:] {
		if best.score-o.score < 15 && o.score > 0 {
			c.Doubt = append(c.Doubt, o.t.Name)
		}
	}
	return c, nil
}

// ErrSilent is the error for a file, or a named track, without a note.
var ErrSilent = errors.New("the file has no notes")

// chooseNamed chooses the track with a name; with are the tracks that have notes.
func (f *File) chooseNamed(name string, with []*Track) (Choice, error) {
	want := strings.ToLower(strings.TrimSpace(name))
	silent := false
	for i := range f.Tracks {
		if strings.ToLower(f.Tracks[i].Name) == want {
			if len(f.Tracks[i].Notes) > 0 {
				return Choice{Track: &f.Tracks[i], Why: "named in the song file"}, nil
			}
			silent = true
		}
	}
	if silent {
		return Choice{}, ErrSilent
	}
	names := make([]string, len(with)) // in small letters
	for i, t := range with {
		names[i] = strings.ToLower(t.Name)
	}
	if near := wording.Closest(want, names, 1+len([]rune(want))/3); near != "" {
		return Choice{}, fmt.Errorf("the file has no track %q; did you mean %q? It has %s", name,
			with[slices.Index(names, near)].Name, trackList(with))
	}
	return Choice{}, fmt.Errorf("the file has no track %q; it has %s", name, trackList(with))
}

// trackList is the names of tracks in quotes, of many the first twelve.
func trackList(tracks []*Track) string {
	var names []string
	for _, t := range tracks {
		names = append(names, strconv.Quote(t.Name))
	}
	if more := len(names) - 12; more > 0 {
		names = append(names[:12], fmt.Sprintf("and %d more", more))
	}
	return strings.Join(names, ", ")
}

// Words in the names of tracks: of the voice, of a line that may be it, and of others. They
// are the trade's in several languages: common practice, no single source.
var (
	voiceNames = []string{"vocal", "vocals", "voice", "vox", "voc", "singer", "sing", "ldvox", "leadvox", "gesang",
		"stimme", "chant", "voix", "canto", "voce", "voz"}
	lineNames = []string{"melody", "melodie", "melodia", "lead", "tune", "soprano", "mezzo", "alto", "tenor",
		"baritone", "solo"}
	otherNames = []string{"backing", "bgv", "bv", "harmony", "choir", "double", "doubles", "adlib", "piano", "keys",
		"organ", "bass", "drum", "drums", "kit",
		"guitar", "gtr", "strings", "violin", "viola", "cello", "brass", "horn", "flute", "sax", "synth", "pad",
		"click", "percussion", "chords", "comp", "bridge"}
)

// likelihood is how much a track looks like the voice, in points, and why. The points only
// rank the tracks: the name counts most, then words on the notes, then how the line moves.
func (f *File) likelihood(t *Track) (score int, why []string) {
	named := fmt.Sprintf("named %q", t.Name)
	voice, line := hasWord(t.Name, voiceNames), hasWord(t.Name, lineNames)
	sung, overlap := f.sungShare(t) >= 50, overlapShare(t.Notes)
	// A voice as notated: the medians of real lines lie between B2 and B5; a song spans 16
	// semitones as a rule (the median), and 25 at most in 19 of 20.
	keys := keysOf(t.Notes, func(n Note) uint8 { return n.Key })
	slices.Sort(keys)
	med, span := Percentile(keys, 50), Percentile(keys, 98)-Percentile(keys, 2)
	reach := med >= 47 && med <= 83 && span <= 31
	for _, sign := range []struct {
		is     bool
		points int
		reason string
	}{
		{voice, 60, named},
		{line && !voice, 40, named},
		{hasWord(t.Name, otherNames), -40, ""},
		{sung, 50, "words on its notes"},
		{sung && t.Lyrics > 0, 20, ""}, // in its own track, not a neighbour's
		{overlap <= 2, 25, "one note at a time"},
		{overlap > 2 && overlap <= 10, 10, "nearly one note at a time"},
		{overlap > 10, -30, ""},
		{reach, 15, "within a voice's reach"},
		{!reach, -20, ""},
		// General MIDI 53 to 55 and 86, counted from 1: choir, voice, synth voice, lead voice.
		{t.Program >= 52 && t.Program <= 54 || t.Program == 85, 15, "a voice's sound"},
		{t.Channel == 10, -200, ""},
		{len(t.Notes) < 8, -10, ""},
	} {
		if sign.is {
			score += sign.points
		}
		if sign.is && sign.reason != "" {
			why = append(why, sign.reason)
		}
	}
	if why == nil {
		why = []string{"nothing fits better"}
	}
	return score, why
}

// hasWord reports whether one of the words stands in a track's name.
func hasWord(name string, list []string) bool {
	words := strings.FieldsFunc(strings.ToLower(name), func(c rune) bool { return c < 'a' || c > 'z' && c < 0x80 })
	return slices.ContainsFunc(words, func(w string) bool { return slices.Contains(list, w) })
}

// emptyVoice is the name of a track that has no notes but a voice's name, when
// the track that was taken has none; "" otherwise. The singer's track that was
// exported muted is the usual case.
func (f *File) emptyVoice(taken *Track) string {
	if hasWord(taken.Name, voiceNames) {
		return ""
	}
	for i := range f.Tracks {
		if t := &f.Tracks[i]; len(t.Notes) == 0 && hasWord(t.Name, voiceNames) && !hasWord(t.Name, otherNames) {
			return t.Name
		}
	}
	return ""
}

// sungShare is how many of a track's notes in a hundred have a lyric on them.
func (f *File) sungShare(t *Track) int {
	hit := 0
	for _, n := range t.Notes {
		if _, sung := slices.BinarySearch(f.Lyrics, n.Tick); sung {
			hit++
		}
	}
	return 100 * hit / len(t.Notes)
}

// overlapShare is how many notes in a hundred begin while another still sounds
// for more than half of either: a short overlap is only legato.
func overlapShare(notes []Note) int {
	hit := 0
	for i := 1; i < len(notes); i++ {
		over := notes[i-1].End() - notes[i].Tick
		if over > 0 && 2*over > min(notes[i-1].Length, notes[i].Length) {
			hit++
		}
	}
	return 100 * hit / len(notes)
}
